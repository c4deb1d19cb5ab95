#include "tui/utf8.h"

#include <stdbool.h>

#define REPLACEMENT 0xFFFDu

static bool continues(const char *s)
{
    return ((unsigned char)*s & 0xC0u) == 0x80u;
}

/* bytes that a lead byte announces, 0 for a byte that cannot lead */
static int announced(unsigned char lead)
{
    if (lead < 0x80u)
        return 1;
    if (lead >= 0xC2u && lead <= 0xDFu)
        return 2;
    if (lead >= 0xE0u && lead <= 0xEFu)
        return 3;
    return lead >= 0xF0u && lead <= 0xF4u ? 4 : 0;
}

static bool well_formed(uint32_t cp, int n)
{
    static const uint32_t least[] = {0, 0, 0x80u, 0x800u, 0x10000u};
    return cp >= least[n] && cp <= 0x10FFFFu && !(cp >= 0xD800u && cp <= 0xDFFFu);
}

uint32_t utf8_next(const char **s)
{
    unsigned char lead = (unsigned char)**s;
    if (lead == 0)
        return 0;
    int n = announced(lead);
    uint32_t cp = n <= 1 ? lead : lead & (0x7Fu >> n);
    for (int i = 1; i < n; i++) {
        if (!continues(*s + i)) {
            n = 0;
            break;
        }
        cp = cp << 6 | ((unsigned char)(*s)[i] & 0x3Fu);
    }
    if (n == 0 || !well_formed(cp, n)) {
        *s += 1;
        return REPLACEMENT;
    }
    *s += n;
    return cp;
}

int utf8_encode(uint32_t cp, char out[8])
{
    int n = cp < 0x80u ? 1 : cp < 0x800u ? 2 : cp < 0x10000u ? 3 : 4;
    static const unsigned char mark[] = {0, 0, 0xC0u, 0xE0u, 0xF0u};
    for (int i = n - 1; i > 0; i--) {
        out[i] = (char)(0x80u | (cp & 0x3Fu));
        cp >>= 6;
    }
    out[0] = (char)(mark[n] | cp);
    out[n] = '\0';
    return n;
}

struct range {
    uint32_t first, last;
};

static bool in_ranges(uint32_t cp, size_t n, const struct range r[])
{
    for (size_t i = 0; i < n; i++)
        if (cp >= r[i].first && cp <= r[i].last)
            return true;
    return false;
}

int utf8_columns(uint32_t cp)
{
    static const struct range none[] = {
        {0x00, 0x1F},     {0x7F, 0x9F},     {0x300, 0x36F},   {0x200B, 0x200F},
        {0x202A, 0x202E}, {0x2060, 0x2069}, {0xFE00, 0xFE0F}, {0xFEFF, 0xFEFF},
    };
    static const struct range wide[] = {
        {0x1100, 0x115F}, {0x2E80, 0x303E},   {0x3041, 0xA4CF},
        {0xAC00, 0xD7A3}, {0xF900, 0xFAFF},   {0xFE30, 0xFE6F},
        {0xFF00, 0xFF60}, {0x1F300, 0x1FAFF}, {0x20000, 0x3FFFD},
    };
    if (in_ranges(cp, sizeof none / sizeof *none, none))
        return 0;
    return in_ranges(cp, sizeof wide / sizeof *wide, wide) ? 2 : 1;
}

int utf8_width(const char *s)
{
    int width = 0;
    for (uint32_t cp = utf8_next(&s); cp != 0; cp = utf8_next(&s))
        width += utf8_columns(cp);
    return width;
}

char utf8_ascii(uint32_t cp)
{
    static const struct {
        uint32_t cp;
        char ascii;
    } map[] = {
        {0x2588, '#'}, {0x25A0, '#'}, {0x2593, '%'}, {0x2592, '%'}, {0x2591, ':'}, {0x2580, '"'},
        {0x2584, '_'}, {0x2500, '-'}, {0x2501, '='}, {0x2502, '|'}, {0x250C, '+'}, {0x2510, '+'},
        {0x2514, '+'}, {0x2518, '+'}, {0x251C, '+'}, {0x2524, '+'}, {0x252C, '+'}, {0x2534, '+'},
        {0x253C, '+'}, {0x256D, '+'}, {0x256E, '+'}, {0x256F, '+'}, {0x2570, '+'}, {0x00B7, '.'},
        {0x2026, '~'}, {0x2022, '*'}, {0x2192, '>'}, {0x2190, '<'}, {0x2191, '^'}, {0x2193, 'v'},
        {0x00D7, 'x'}, {0x2550, '='}, {0x25B2, '^'}, {0x25B8, '>'}, {0x2594, '-'}, {0x2581, '_'},
        {0x2013, '-'},
    };
    if (cp < 0x7Fu)
        return (char)cp;
    for (size_t i = 0; i < sizeof map / sizeof *map; i++)
        if (map[i].cp == cp)
            return map[i].ascii;
    return '?';
}
