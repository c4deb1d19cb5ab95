#include "base/text.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

static bool is_continuation(char c)
{
    return ((unsigned char)c & 0xC0U) == 0x80U;
}

struct text text_over(char *buf, size_t cap)
{
    buf[0] = '\0';
    return (struct text){.s = buf, .cap = cap, .len = 0, .cut = false};
}

/* A cut may have split a UTF-8 sequence: drop its bytes. */
static void drop_broken_tail(struct text *t)
{
    size_t lead = t->len;
    while (lead > 0 && is_continuation(t->s[lead - 1])) {
        lead--;
    }
    if (lead == 0) {
        return;
    }
    unsigned char c = (unsigned char)t->s[lead - 1];
    size_t want = c >= 0xF0 ? 4 : c >= 0xE0 ? 3 : c >= 0xC0 ? 2 : 1;
    if (t->len - (lead - 1) < want) {
        t->len = lead - 1;
        t->s[t->len] = '\0';
    }
}

void text_put(struct text *t, const char *format, ...)
{
    va_list args;
    size_t room = t->cap - t->len;
    va_start(args, format);
    int n = vsnprintf(t->s + t->len, room, format, args);
    va_end(args);
    if (n < 0) {
        t->s[t->len] = '\0';
        t->cut = true;
    } else if ((size_t)n >= room) {
        t->len = t->cap - 1;
        t->cut = true;
        drop_broken_tail(t);
    } else {
        t->len += (size_t)n;
    }
}

void text_char(struct text *t, char c, int n)
{
    for (int i = 0; i < n; i++) {
        text_put(t, "%c", c);
    }
}

int text_width(const char *s)
{
    int w = 0;
    for (; *s != '\0'; s++) {
        w += !is_continuation(*s);
    }
    return w;
}

void text_pad_to(struct text *t, int column)
{
    const char *line = strrchr(t->s, '\n');
    int have = text_width(line ? line + 1 : t->s);
    text_char(t, ' ', column - have);
}

void text_clear(struct text *t)
{
    t->len = 0;
    t->s[0] = '\0';
    t->cut = false;
}
