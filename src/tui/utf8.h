/* utf8.h - reading UTF-8 one code point at a time, and how wide each is on a terminal. */
#ifndef SANDSHOE_TUI_UTF8_H
#define SANDSHOE_TUI_UTF8_H

#include <stddef.h>
#include <stdint.h>

/* utf8_next - the code point at *s, which then stands behind it; U+FFFD for a malformed byte (one
 * byte is passed over), 0 at the end of the text (which *s does not pass). */
uint32_t utf8_next(const char **s);

/* utf8_encode - cp as UTF-8 with a NUL; returns the bytes without it (1..4). */
int utf8_encode(uint32_t cp, char out[8]);

/* utf8_columns - 0 for combining marks and controls, 2 for wide East Asian forms, else 1. */
int utf8_columns(uint32_t cp);

/* utf8_width - columns of a text. */
int utf8_width(const char *s);

/* utf8_ascii - the ASCII stand-in for a drawing character; '?' for anything else above 126. */
char utf8_ascii(uint32_t cp);

#endif
