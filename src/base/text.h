/* text.h - a bounded string builder over the caller's buffer; it never overflows and remembers
 * whether something was cut. */
#ifndef SANDSHOE_BASE_TEXT_H
#define SANDSHOE_BASE_TEXT_H

#include <stdbool.h>
#include <stddef.h>

struct text {
    char *s;    /* always NUL terminated */
    size_t cap; /* bytes in s, at least 1 */
    size_t len; /* bytes used, without the NUL */
    bool cut;   /* something did not fit */
};

/* text_over - an empty text over buf[cap]; cap >= 1. */
struct text text_over(char *buf, size_t cap);

/* text_put - append formatted text, cut at the end of the buffer (never inside a UTF-8 sequence). */
void text_put(struct text *t, const char *format, ...) __attribute__((format(printf, 2, 3)));

/* text_char - append c n times. */
void text_char(struct text *t, char c, int n);

/* text_pad_to - append blanks until the last line is column columns wide (UTF-8 code points). */
void text_pad_to(struct text *t, int column);

/* text_width - columns of a UTF-8 string, one per code point. */
int text_width(const char *s);

/* text_clear - make it empty again. */
void text_clear(struct text *t);

#endif
