#include "card/font.h"

/* Advance widths of WinAnsi codes 32 to 255 in 1/1000 em, from Adobe's Core 14 AFM files as libharu
 * carries them; a test compares each with HPDF_Page_TextWidth. */
// clang-format off
static const unsigned short WIDTHS[CARD_FONT_COUNT][224] = {
    [CARD_REGULAR] = {
        278, 278, 355, 556, 556, 889, 667, 191, 333, 333, 389, 584, 278, 333, 278, 278,
        556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 278, 278, 584, 584, 584, 556,
        1015, 667, 667, 722, 722, 667, 611, 778, 722, 278, 500, 667, 556, 833, 722, 778,
        667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 278, 278, 278, 469, 556,
        333, 556, 556, 500, 556, 556, 278, 556, 556, 222, 222, 500, 222, 833, 556, 556,
        556, 556, 333, 500, 278, 556, 500, 722, 500, 500, 500, 334, 260, 334, 584, 278,
        556, 278, 222, 556, 333, 1000, 556, 556, 333, 1000, 667, 333, 1000, 278, 611, 278,
        278, 222, 222, 333, 333, 350, 556, 1000, 333, 1000, 500, 333, 944, 278, 500, 667,
        278, 333, 556, 556, 556, 556, 260, 556, 333, 737, 370, 556, 584, 278, 737, 333,
        400, 584, 333, 333, 333, 556, 537, 278, 333, 333, 365, 556, 834, 834, 834, 611,
        667, 667, 667, 667, 667, 667, 1000, 722, 667, 667, 667, 667, 278, 278, 278, 278,
        722, 722, 778, 778, 778, 778, 778, 584, 778, 722, 722, 722, 722, 667, 667, 611,
        556, 556, 556, 556, 556, 556, 889, 500, 556, 556, 556, 556, 278, 278, 278, 278,
        556, 556, 556, 556, 556, 556, 556, 584, 611, 556, 556, 556, 556, 500, 556, 500,
    },
    [CARD_BOLD] = {
        278, 333, 474, 556, 556, 889, 722, 238, 333, 333, 389, 584, 278, 333, 278, 278,
        556, 556, 556, 556, 556, 556, 556, 556, 556, 556, 333, 333, 584, 584, 584, 611,
        975, 722, 722, 722, 722, 667, 611, 778, 722, 278, 556, 722, 611, 833, 722, 778,
        667, 778, 722, 667, 611, 722, 667, 944, 667, 667, 611, 333, 278, 333, 584, 556,
        333, 556, 611, 556, 611, 556, 333, 611, 611, 278, 278, 556, 278, 889, 611, 611,
        611, 611, 389, 556, 333, 611, 556, 778, 556, 556, 500, 389, 280, 389, 584, 278,
        556, 278, 278, 556, 500, 1000, 556, 556, 333, 1000, 667, 333, 1000, 278, 611, 278,
        278, 278, 278, 500, 500, 350, 556, 1000, 333, 1000, 556, 333, 944, 278, 500, 667,
        278, 333, 556, 556, 556, 556, 280, 556, 333, 737, 370, 556, 584, 278, 737, 333,
        400, 584, 333, 333, 333, 611, 556, 278, 333, 333, 365, 556, 834, 834, 834, 611,
        722, 722, 722, 722, 722, 722, 1000, 722, 667, 667, 667, 667, 278, 278, 278, 278,
        722, 722, 778, 778, 778, 778, 778, 584, 778, 722, 722, 722, 722, 667, 667, 611,
        556, 556, 556, 556, 556, 556, 889, 556, 556, 556, 556, 556, 278, 278, 278, 278,
        611, 611, 611, 611, 611, 611, 611, 584, 611, 611, 611, 611, 611, 556, 611, 556,
    },
};

/* Codes 128 to 159 as Unicode; 0 = unassigned (PDF 32000-1 annex D.2, WinAnsiEncoding). */
static const unsigned short HIGH[32] = {
    0x20AC, 0,      0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021,
    0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0,      0x017D, 0,
    0,      0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014,
    0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0,      0x017E, 0x0178,
};
// clang-format on

enum { WINANSI_FIRST = 32, UNICODE_MAX = 0x10FFFF };

/* Length of the sequence that a lead byte announces; 0 = not a lead byte. */
static int sequence_length(unsigned char lead)
{
    return lead < 0x80   ? 1
           : lead < 0xC2 ? 0
           : lead < 0xE0 ? 2
           : lead < 0xF0 ? 3
           : lead < 0xF5 ? 4
                         : 0;
}

int card_utf8_next(const char *s, unsigned long *code)
{
    unsigned char lead = (unsigned char)s[0];
    int n = sequence_length(lead);
    unsigned long c = n <= 1 ? lead : lead & (0x7FUL >> n);
    for (int i = 1; i < n; i++) {
        unsigned char next = (unsigned char)s[i];
        if ((next & 0xC0U) != 0x80U) {
            n = 0;
            break;
        }
        c = c << 6 | (next & 0x3FU);
    }
    *code = n > 0 && c <= UNICODE_MAX ? c : lead;
    return n > 0 ? n : 1;
}

int card_winansi(unsigned long code)
{
    if ((code >= WINANSI_FIRST && code < 0x7F) || (code >= 0xA0 && code <= 0xFF)) {
        return (int)code;
    }
    for (int i = 0; i < 32; i++) {
        if (HIGH[i] != 0 && HIGH[i] == code) {
            return 128 + i;
        }
    }
    return -1;
}

bool card_winansi_text(const char *s, size_t cap, char *bytes, unsigned long *missing)
{
    size_t n = 0;
    while (*s != '\0') {
        unsigned long code = 0;
        int used = card_utf8_next(s, &code);
        int c = used == 1 && code >= 0x80 ? -1 : card_winansi(code);
        if (c < 0) {
            *missing = code;
            return false;
        }
        if (n + 1 < cap) {
            bytes[n++] = (char)c;
        }
        s += used;
    }
    bytes[n] = '\0';
    return true;
}

double card_text_width_pt(enum card_font font, double size_pt, const char *s)
{
    unsigned long milli_em = 0;
    while (*s != '\0') {
        unsigned long code = 0;
        s += card_utf8_next(s, &code);
        int c = card_winansi(code);
        milli_em += WIDTHS[font][(c < 0 ? 'W' : c) - WINANSI_FIRST];
    }
    return (double)milli_em * size_pt / 1000.0;
}

/* Bytes of the longest prefix of s that, with three points after it, is at most width_pt wide. */
static size_t prefix_that_fits(enum card_font font, double size_pt, double width_pt, const char *s)
{
    double room_pt = width_pt - card_text_width_pt(font, size_pt, "...");
    double used_pt = 0.0;
    size_t n = 0;
    while (s[n] != '\0') {
        unsigned long code = 0;
        int step = card_utf8_next(s + n, &code);
        int c = card_winansi(code);
        used_pt += WIDTHS[font][(c < 0 ? 'W' : c) - WINANSI_FIRST] * size_pt / 1000.0;
        if (used_pt > room_pt) {
            break;
        }
        n += (size_t)step;
    }
    while (n > 0 && s[n - 1] == ' ') {
        n--;
    }
    return n;
}

void card_text_fit(enum card_font font, double size_pt, double width_pt, const char *s,
                   struct text *out)
{
    if (card_text_width_pt(font, size_pt, s) <= width_pt) {
        text_put(out, "%s", s);
        return;
    }
    size_t n = prefix_that_fits(font, size_pt, width_pt, s);
    text_put(out, "%.*s...", (int)n, s);
}
