#include "tui/frame.h"

#include <stdarg.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "tui/utf8.h"

static int within(int x, int lo, int hi)
{
    return x < lo ? lo : x > hi ? hi : x;
}

enum status frame_init(struct frame *f, int rows, int cols, bool ascii)
{
    rows = within(rows, 1, FRAME_ROWS_MAX);
    cols = within(cols, 1, FRAME_COLS_MAX);
    struct frame made = {rows, cols, ascii, NULL};
    made.cell = calloc((size_t)rows * (size_t)cols, sizeof *made.cell);
    if (made.cell == NULL)
        return STATUS_E_MEMORY;
    *f = made;
    frame_clear(f);
    return STATUS_OK;
}

void frame_done(struct frame *f)
{
    free(f->cell);
    *f = (struct frame){0};
}

/* the cell of a place that is known to be inside */
static struct cell *inside(const struct frame *f, int row, int col)
{
    return &f->cell[(size_t)row * (size_t)f->cols + (size_t)col];
}

static struct cell *cell_at(struct frame *f, int row, int col)
{
    bool outside = row < 0 || row >= f->rows || col < 0 || col >= f->cols;
    return outside ? NULL : inside(f, row, col);
}

const struct cell *frame_cell(const struct frame *f, int row, int col)
{
    bool outside = row < 0 || row >= f->rows || col < 0 || col >= f->cols;
    return outside ? NULL : inside(f, row, col);
}

static void blank(struct cell *c, enum style style)
{
    *c = (struct cell){" ", 1, (uint8_t)style};
}

void frame_clear(struct frame *f)
{
    for (int i = 0; i < f->rows * f->cols; i++)
        blank(&f->cell[i], STYLE_PLAIN);
}

/* a wide character that loses one of its halves leaves a blank in the other */
static void unpair(struct frame *f, int row, int col)
{
    struct cell *here = cell_at(f, row, col), *before = cell_at(f, row, col - 1),
                *after = cell_at(f, row, col + 1);
    if (here != NULL && here->width == 0 && before != NULL)
        blank(before, before->style);
    if (here != NULL && here->width == 2 && after != NULL)
        blank(after, after->style);
}

static void combine(struct frame *f, int row, int col, uint32_t cp)
{
    char mark[8];
    struct cell *c = cell_at(f, row, col);
    if (c == NULL || cp < 0x300u || f->ascii)
        return;
    size_t have = strlen(c->utf8), more = (size_t)utf8_encode(cp, mark);
    if (have > 0 && have + more < sizeof c->utf8)
        memcpy(c->utf8 + have, mark, more + 1);
}

/* write one code point; returns the columns it takes */
static int put_point(struct frame *f, int row, int col, enum style style, uint32_t cp)
{
    if (f->ascii && cp > 0x7Eu && utf8_columns(cp) > 0)
        cp = (unsigned char)utf8_ascii(cp);
    int width = utf8_columns(cp);
    if (width == 0) {
        combine(f, row, col - 1, cp);
        return 0;
    }
    struct cell *c = cell_at(f, row, col), *second = cell_at(f, row, col + 1);
    if (c == NULL)
        return width;
    unpair(f, row, col);
    blank(c, style);
    if (width == 2 && second == NULL)
        return width;
    utf8_encode(cp, c->utf8);
    c->width = (uint8_t)width;
    if (width == 2) {
        unpair(f, row, col + 1);
        *second = (struct cell){"", 0, (uint8_t)style};
    }
    return width;
}

int frame_put(struct frame *f, int row, int col, enum style style, const char *s)
{
    for (uint32_t cp = utf8_next(&s); cp != 0; cp = utf8_next(&s))
        col += put_point(f, row, col, style, cp);
    return col;
}

int frame_put_within(struct frame *f, int row, int col, int cols, enum style style, const char *s)
{
    bool cut = utf8_width(s) > cols;
    int end = col + cols - (cut ? 1 : 0);
    for (uint32_t cp = utf8_next(&s); cp != 0; cp = utf8_next(&s)) {
        if (col + utf8_columns(cp) > end)
            break;
        col += put_point(f, row, col, style, cp);
    }
    return cut && cols > 0 ? frame_put(f, row, col, style, "…") : col;
}

int frame_printf(struct frame *f, int row, int col, enum style style, const char *format, ...)
{
    char line[256];
    va_list args;
    va_start(args, format);
    vsnprintf(line, sizeof line, format, args);
    va_end(args);
    return frame_put(f, row, col, style, line);
}

void frame_put_right(struct frame *f, int row, int end, enum style style, const char *s)
{
    frame_put(f, row, end - utf8_width(s), style, s);
}

void frame_put_centred(struct frame *f, int row, int col, int cols, enum style style, const char *s)
{
    frame_put(f, row, col + (cols - utf8_width(s)) / 2, style, s);
}

size_t frame_line_bytes(const char *s, int cols)
{
    const char *p = s, *last_blank = NULL;
    int width = 0;
    while (*p != '\0' && *p != '\n') {
        const char *next = p;
        width += utf8_columns(utf8_next(&next));
        if (*p == ' ')
            last_blank = p;
        if (width > cols && *p != ' ')
            return last_blank != NULL ? (size_t)(last_blank - s)
                                      : (size_t)(p > s ? p - s : next - s);
        p = next;
    }
    return (size_t)(p - s);
}

int frame_wrap(struct frame *f, struct rect r, enum style style, const char *s)
{
    int row = 0;
    char line[4 * FRAME_COLS_MAX + 8];
    while (*s != '\0' && r.cols > 0) {
        size_t n = frame_line_bytes(s, r.cols);
        snprintf(line, sizeof line, "%.*s", (int)(n < sizeof line ? n : sizeof line - 1), s);
        if (row < r.rows)
            frame_put_within(f, r.row + row, r.col, r.cols, style, line);
        row++;
        s += n;
        while (*s == ' ')
            s++;
        if (*s == '\n')
            s++;
    }
    return row;
}

void frame_fill(struct frame *f, struct rect r, enum style style, const char *glyph)
{
    for (int row = within(r.row, 0, f->rows); row < r.row + r.rows && row < f->rows; row++)
        for (int col = within(r.col, 0, f->cols); col < r.col + r.cols && col < f->cols; col++)
            frame_put(f, row, col, style, glyph);
}

static int used_cols(const struct frame *f, int row, bool style)
{
    for (int col = f->cols; col > 0; col--) {
        const struct cell *c = inside(f, row, col - 1);
        if (style ? c->style != STYLE_PLAIN : strcmp(c->utf8, " ") != 0)
            return col;
    }
    return 0;
}

void frame_dump_text(const struct frame *f, struct text *out)
{
    for (int row = 0; row < f->rows; row++) {
        int cols = used_cols(f, row, false);
        for (int col = 0; col < cols; col++)
            text_put(out, "%s", inside(f, row, col)->utf8);
        text_char(out, '\n', 1);
    }
}

void frame_dump(const struct frame *f, struct text *out)
{
    frame_dump_text(f, out);
    text_put(out, "--- style ---\n");
    for (int row = 0; row < f->rows; row++) {
        int cols = used_cols(f, row, true);
        for (int col = 0; col < cols; col++)
            text_char(out, style_look((enum style)inside(f, row, col)->style)->letter, 1);
        text_char(out, '\n', 1);
    }
}
