/* font.h - the card's two fonts without a PDF library: widths and the WinAnsi character set, so
 * that the layout can prove that a text fits before anything is drawn. */
#ifndef SANDSHOE_CARD_FONT_H
#define SANDSHOE_CARD_FONT_H

#include <stdbool.h>
#include <stddef.h>

#include "base/text.h"

enum card_font { CARD_REGULAR, CARD_BOLD, CARD_FONT_COUNT }; /* Helvetica, Helvetica-Bold */

/* Share of the font size above and below the baseline that any glyph of the two fonts used here
 * stays within (AFM: Ascender 718, Descender -207). */
#define CARD_ASCENT_1  0.718
#define CARD_DESCENT_1 0.207

/* card_utf8_next - the code point at s (not empty) and its bytes; a broken byte is returned as
 * itself, one byte long. */
int card_utf8_next(const char *s, unsigned long *code);

/* card_winansi - the WinAnsi code of a code point, or -1. */
int card_winansi(unsigned long code);

/* card_winansi_text - UTF-8 to WinAnsi bytes, cut at cap - 1. False, with the code point in
 * missing, when a character has no WinAnsi code. */
bool card_winansi_text(const char *s, size_t cap, char *bytes, unsigned long *missing);

/* card_text_width_pt - width of a UTF-8 text, pt; a character without a code counts as a W. */
double card_text_width_pt(enum card_font font, double size_pt, const char *s);

/* card_text_fit - append s, or its beginning and "..." when it is wider than width_pt. */
void card_text_fit(enum card_font font, double size_pt, double width_pt, const char *s,
                   struct text *out);

#endif
