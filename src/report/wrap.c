#include "report/wrap.h"

#include <string.h>

/* Columns of the n bytes at s, one per code point. */
static int columns(const char *s, size_t n)
{
    int w = 0;
    for (size_t i = 0; i < n; i++) {
        w += ((unsigned char)s[i] & 0xC0U) != 0x80U;
    }
    return w;
}

void wrap_put(struct text *out, int indent, const char *label, const char *words)
{
    int column = indent;
    text_put(out, "%s", label);
    if (text_width(label) >= indent && label[0] != '\0') {
        text_put(out, "\n");
    }
    text_pad_to(out, indent);
    while (*words != '\0') {
        size_t n = strcspn(words, " ");
        int wide = columns(words, n);
        if (column > indent && column + 1 + wide > WRAP_WIDTH) {
            text_put(out, "\n");
            text_char(out, ' ', indent);
            column = indent;
        } else if (column > indent) {
            text_put(out, " ");
            column++;
        }
        text_put(out, "%.*s", (int)n, words);
        column += wide;
        words += n;
        words += strspn(words, " ");
    }
    text_put(out, "\n");
}
