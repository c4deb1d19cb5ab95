/* page.h - a laid-out page: boxes with text, lines and frames at known places, in points, from
 * the top left corner. Plain data; a page can be proved sound before anyone draws it. */
#ifndef SANDSHOE_CARD_PAGE_H
#define SANDSHOE_CARD_PAGE_H

#include <stdbool.h>

#include "base/status.h"
#include "base/text.h"
#include "card/content.h"
#include "card/font.h"

enum { CARD_BOXES = 420, CARD_BOX_TEXT_MAX = 240, CARD_PROBLEM = 240 };

#define CARD_TEXT_MIN_PT 7.0 /* pt, the smallest text on any card: legible by torch [practice] */
#define CARD_MARGIN_PT   12.0 /* pt, kept free all round: home printers leave about 4 mm [practice] */

enum card_box_kind { CARD_BOX_TEXT, CARD_BOX_LINE, CARD_BOX_FRAME };

struct card_box {
    enum card_box_kind kind;
    /* text, frame: top left corner and size; line: start, and the way to its end */
    double x_pt, y_pt, width_pt, height_pt;
    double size_pt; /* text */
    enum card_font font;
    double line_pt; /* line, frame: thickness */
    bool dashed;
    char text[CARD_BOX_TEXT_MAX];
    char key[CARD_KEY]; /* where the text comes from */
};

struct card_page {
    double width_pt, height_pt;
    int n_box;
    bool cut; /* more boxes than the page can hold */
    struct card_box box[CARD_BOXES];
};

/* What is wrong, in words; fits = rows that would have fitted, -1 = not about rows. */
struct card_problem {
    char what[CARD_PROBLEM];
    int fits;
};

/* card_page_start - an empty page. */
void card_page_start(struct card_page *page, double width_pt, double height_pt);

/* card_page_text - put a text with its baseline at y and its left edge at x. */
void card_page_text(struct card_page *page, double x_pt, double baseline_pt, enum card_font font,
                    double size_pt, const char *key, const char *text);

/* card_page_line - a straight line from (x, y) by (dx, dy). */
void card_page_line(struct card_page *page, double x_pt, double y_pt, double dx_pt, double dy_pt,
                    double line_pt, bool dashed);

/* card_page_frame - a rectangle. */
void card_page_frame(struct card_page *page, double x_pt, double y_pt, double width_pt,
                     double height_pt, double line_pt, bool dashed);

/* card_page_check - prove a page sound: every number finite, every box inside, no text smaller
 * than the least size, no text over another or across a line, every character in WinAnsi.
 *
 *   in   page
 *   out  problem  the first fault in words
 *   ret  STATUS_OK; E_DOMAIN; E_SYNTAX (a character WinAnsi lacks); E_FULL (too many boxes)
 */
enum status card_page_check(const struct card_page *page, struct card_problem *problem) MUST_CHECK;

/* card_page_stack - two pages one above the other with a fold between them. */
void card_page_stack(const struct card_page *upper, const struct card_page *lower,
                     struct card_page *sheet);

/* card_page_dump - append one line a box, for reading and for tests. */
void card_page_dump(const struct card_page *page, struct text *out);

/* card_too_many - say that fewer rows fit; returns E_FULL. */
enum status card_too_many(const struct card_content *content, const char *size, int fits,
                          struct card_problem *problem);

/* card_check_characters - every character of a text must be in WinAnsi; else the problem names
 * the key and the character.
 *   ret  STATUS_OK; E_SYNTAX */
enum status card_check_characters(const char *key, const char *text,
                                  struct card_problem *problem) MUST_CHECK;

#endif
