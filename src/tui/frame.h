/* frame.h - the screen as a grid of cells.  Screens write into a frame and nothing else; the
 * terminal is filled from it.  Every writer clips: any row, column and length is allowed. */
#ifndef SANDSHOE_TUI_FRAME_H
#define SANDSHOE_TUI_FRAME_H

#include <stdbool.h>
#include <stdint.h>

#include "base/status.h"
#include "base/text.h"
#include "tui/style.h"

enum { FRAME_ROWS_MAX = 200, FRAME_COLS_MAX = 400 };

struct cell {
    char utf8[8];  /* one character with what combines with it; "" behind a wide one */
    uint8_t width; /* columns: 1, 2, or 0 behind a wide one */
    uint8_t style; /* enum style */
};

struct frame {
    int rows, cols;
    bool ascii;        /* drawing characters become ASCII as they are written */
    struct cell *cell; /* rows * cols, owned; freed by frame_done */
};

struct rect {
    int row, col, rows, cols;
};

/* frame_init - a blank frame; the size is brought into 1..the maximum. E_MEMORY: untouched. */
enum status frame_init(struct frame *f, int rows, int cols, bool ascii) MUST_CHECK;
void frame_done(struct frame *f);

/* frame_clear - every cell blank and plain. */
void frame_clear(struct frame *f);

/* frame_cell - the cell, or NULL outside. */
const struct cell *frame_cell(const struct frame *f, int row, int col);

/* frame_put - write a text; returns the column behind it (also when clipped). */
int frame_put(struct frame *f, int row, int col, enum style style, const char *s);

/* frame_put_within - the same in at most cols columns; a text that does not fit ends in an
 * ellipsis, so that a cut is seen. */
int frame_put_within(struct frame *f, int row, int col, int cols, enum style style, const char *s);

/* frame_printf - frame_put of a formatted text (at most 255 bytes). */
int frame_printf(struct frame *f, int row, int col, enum style style, const char *format, ...)
    __attribute__((format(printf, 5, 6)));

/* frame_put_right - write so that the text ends just before column end. */
void frame_put_right(struct frame *f, int row, int end, enum style style, const char *s);

/* frame_put_centred - write in the middle of cols columns from col. */
void frame_put_centred(struct frame *f, int row, int col, int cols, enum style style,
                       const char *s);

/* frame_wrap - write a text in lines of at most r.cols, breaking at blanks, in at most r.rows
 * rows; returns the rows it took (also beyond r.rows: how many it would need). */
int frame_wrap(struct frame *f, struct rect r, enum style style, const char *s);

/* frame_line_bytes - bytes of s that go on one line of cols columns: up to a blank or newline, or
 * cut hard; 0 only for an empty line or no columns. */
size_t frame_line_bytes(const char *s, int cols);

/* frame_fill - a rectangle of one character. */
void frame_fill(struct frame *f, struct rect r, enum style style, const char *glyph);

/* frame_dump - the text line by line, a line "--- style ---", and a letter of the style for each
 * cell; blanks at line ends are left out. */
void frame_dump(const struct frame *f, struct text *out);

/* frame_dump_text - the text alone. */
void frame_dump_text(const struct frame *f, struct text *out);

#endif
