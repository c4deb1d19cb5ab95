#include "tui/widget.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "tui/utf8.h"

static int between(int x, int lo, int hi)
{
    return x < lo ? lo : x > hi ? hi : x;
}

bool list_move(struct list *l, enum action a, int n, int page)
{
    int at = l->at;
    if (a == ACT_UP || a == ACT_PREVIOUS)
        at--;
    else if (a == ACT_DOWN || a == ACT_NEXT)
        at++;
    else if (a == ACT_PAGE_UP)
        at -= page;
    else if (a == ACT_PAGE_DOWN)
        at += page;
    else if (a == ACT_FIRST)
        at = 0;
    else if (a == ACT_LAST)
        at = n - 1;
    else
        return false;
    l->at = n > 0 ? between(at, 0, n - 1) : 0;
    l->top = list_top(l, n, page);
    return true;
}

int list_top(const struct list *l, int n, int page)
{
    page = page < 1 ? 1 : page;
    int top = between(l->top, l->at - page + 1, l->at);
    return between(top, 0, n > page ? n - page : 0);
}

static int roll_row(const struct roll *l)
{
    int row = l->n - l->top;
    return l->f != NULL && row >= 0 && row < l->r.rows ? l->r.row + row : -1;
}

void roll_line(struct roll *l, enum style style, const char *text)
{
    int row = roll_row(l);
    if (row >= 0)
        frame_put_within(l->f, row, l->r.col, l->r.cols, style, text);
    l->n++;
}

void roll_text(struct roll *l, enum style style, int indent, const char *text)
{
    int cols = l->r.cols - indent;
    for (const char *s = text; *s != '\0';) {
        char line[4 * FRAME_COLS_MAX + 8];
        size_t n = frame_line_bytes(s, cols);
        snprintf(line, sizeof line, "%*s%.*s", indent, "", (int)n, s);
        roll_line(l, style, line);
        s += n;
        s += strspn(s, " ");
        s += *s == '\n';
    }
}

void roll_more(const struct roll *l)
{
    int left = l->n - l->top - l->r.rows;
    char words[32];
    if (left <= 0 || l->f == NULL)
        return;
    snprintf(words, sizeof words, " %d more lines ", left);
    frame_put_right(l->f, l->r.row + l->r.rows, l->r.col + l->r.cols, STYLE_LABEL, words);
}

/* Digits of 3 x 5 points, a row of three bits each; 5 rows draw a point as two columns, 3 rows
 * put two points into one cell. */
static const unsigned char points[][5] = {
    {7, 5, 5, 5, 7}, {2, 6, 2, 2, 7}, {7, 1, 7, 4, 7}, {7, 1, 3, 1, 7}, {5, 5, 7, 1, 1},
    {7, 4, 7, 1, 7}, {7, 4, 7, 5, 7}, {7, 1, 1, 1, 1}, {7, 5, 7, 5, 7}, {7, 5, 7, 1, 7},
};

/* the same in three rows of ASCII */
static const char *const strokes[][3] = {
    {" _ ", "| |", "|_|"}, {"   ", "  |", "  |"}, {" _ ", " _|", "|_ "}, {" _ ", " _|", " _|"},
    {"   ", "|_|", "  |"}, {" _ ", "|_ ", " _|"}, {" _ ", "|_ ", "|_|"}, {" _ ", "  |", "  |"},
    {" _ ", "|_|", "|_|"}, {" _ ", "|_|", " _|"},
};

static bool point_at(int digit, int row, int bit)
{
    return row < 5 && (points[digit][row] >> (2 - bit) & 1) != 0;
}

static void half_digit(struct frame *f, int row, int col, int digit)
{
    static const char *const glyph[2][2] = {{" ", "▄"}, {"▀", "█"}};
    for (int r = 0; r < 3; r++)
        for (int b = 0; b < 3; b++)
            frame_put(f, row + r, col + b, STYLE_BIG,
                      glyph[point_at(digit, 2 * r, b)][point_at(digit, 2 * r + 1, b)]);
}

static void tall_digit(struct frame *f, int row, int col, int digit)
{
    for (int r = 0; r < 5; r++)
        for (int b = 0; b < 3; b++)
            if (point_at(digit, r, b))
                frame_put(f, row + r, col + 2 * b, STYLE_BIG, "██");
}

static void stroke_digit(struct frame *f, int row, int col, int digit)
{
    for (int r = 0; r < 3; r++)
        frame_put(f, row + r, col, STYLE_BIG, strokes[digit][r]);
}

static int glyph_width(char c, int rows)
{
    bool digit = c >= '0' && c <= '9';
    bool narrow = c == '.' || c == ':';
    if (rows == 5)
        return digit ? 8 : narrow ? 4 : 6;
    return digit ? 4 : narrow ? 2 : 4;
}

static void colon_put(struct frame *f, int row, int col, int rows)
{
    const char *dot = rows == 5 ? "██" : f->ascii ? "." : "▄";
    frame_put(f, rows == 5 || f->ascii ? row + 1 : row, col, STYLE_BIG, dot);
    frame_put(f, rows == 5 ? row + 3 : f->ascii ? row + 2 : row + 1, col, STYLE_BIG, dot);
}

static void glyph_put(struct frame *f, int row, int col, int rows, char c)
{
    if (c == ':')
        colon_put(f, row, col, rows);
    else if (c == '.')
        frame_put(f, row + rows - 1, col, STYLE_BIG, rows == 5 ? "██" : f->ascii ? "." : "▀");
    else if (c < '0' || c > '9')
        frame_put(f, row + rows / 2, col, STYLE_BIG, rows == 5 ? "────" : "──");
    else if (rows == 5)
        tall_digit(f, row, col, c - '0');
    else if (f->ascii)
        stroke_digit(f, row, col, c - '0');
    else
        half_digit(f, row, col, c - '0');
}

int big_width(const char *digits, int rows)
{
    int width = 0;
    for (; *digits != '\0'; digits++)
        width += glyph_width(*digits, rows);
    return width > 0 ? width - (rows == 5 ? 2 : 1) : 0;
}

int big_put(struct frame *f, int row, int col, int rows, const char *digits)
{
    int width = big_width(digits, rows);
    for (; *digits != '\0'; digits++) {
        glyph_put(f, row, col, rows, *digits);
        col += glyph_width(*digits, rows);
    }
    return width;
}

/* "g ground" in place, or only measured: f NULL; returns its columns */
static int key_put(struct frame *f, int row, int col, enum action a)
{
    char key[16];
    struct text t = text_over(key, sizeof key);
    const char *label = keymap_row(a)->label;
    keymap_first_key(a, &t);
    if (f != NULL) {
        int at = frame_put(f, row, col, STYLE_KEY, key);
        frame_put(f, row, at + 1, STYLE_LABEL, label);
    }
    return utf8_width(key) + 1 + utf8_width(label);
}

void keys_put(struct frame *f, int row, int col, int cols, const enum action actions[])
{
    int end = col + cols, n = 0;
    while (actions[n] != ACT_NONE)
        n++;
    if (n == 0)
        return;
    end -= key_put(NULL, 0, 0, actions[n - 1]);
    key_put(f, row, end, actions[n - 1]);
    bool help = n > 1 && actions[n - 2] == ACT_HELP; /* which tells of those without room */
    if (help) {
        end -= key_put(NULL, 0, 0, ACT_HELP) + 2;
        key_put(f, row, end, ACT_HELP);
    }
    for (int i = 0; i < n - 1 - help; i++)
        if (col + key_put(NULL, 0, 0, actions[i]) + 1 <= end)
            col += key_put(f, row, col, actions[i]) + 2;
}

void bar_put(struct frame *f, int row, int col, int cols, double value, double full,
             enum style style, const char *glyph)
{
    double share = full > 0 && isfinite(value / full) ? num_clamp(value / full, 0, 1) : 0;
    int n = (int)lround(share * cols);
    if (n == 0 && value > 0)
        n = 1;
    frame_fill(f, (struct rect){row, col, 1, n}, style, glyph);
}

static void mark_put(struct frame *f, int row, int col, int cols, double at_1, double full_1,
                     const char *mark)
{
    if (at_1 > 0)
        frame_put(f, row, col + between((int)(at_1 / full_1 * cols), 0, cols - 1), STYLE_MARK,
                  mark);
}

void deflection_put(struct frame *f, int row, int col, int cols, const struct deflection_bar *b)
{
    double full = b->rim_1;
    for (int i = 0; i < cols; i++) {
        double here = full * (i + 0.5) / cols;
        bool solid = here < b->low_1, band = !solid && here < b->high_1;
        frame_put(f, row, col + i,
                  solid  ? STYLE_BAR
                  : band ? STYLE_BAND
                         : STYLE_LABEL,
                  solid  ? "■"
                  : band ? "─"
                         : "·");
    }
    mark_put(f, row, col, cols, b->limit_1, full, "L");
    mark_put(f, row, col, cols, b->rim_1, full, "R");
    mark_put(f, row, col, cols, b->aim_1, full, "a");
}

struct rect panel_put(struct frame *f, struct rect r, const char *title)
{
    frame_fill(f, r, STYLE_PLAIN, " ");
    frame_fill(f, (struct rect){r.row, r.col, 1, r.cols}, STYLE_FRAME, "─");
    int end = frame_printf(f, r.row, r.col + 2, STYLE_TITLE, " %s ", title);
    (void)end;
    return (struct rect){r.row + 1, r.col + 1, r.rows - 1, r.cols - 2};
}

const char *quantity_text(char buf[32], double si, enum quantity q, enum unit_system u)
{
    struct text t = text_over(buf, 32);
    units_put(&t, si, q, u, 0);
    return buf;
}

const char *pressure_text(char buf[32], double p_gauge_pa, enum unit_system u)
{
    return quantity_text(buf, p_gauge_pa, Q_PRESSURE, u);
}

const char *pressure_bare(char buf[32], double p_gauge_pa, enum unit_system u)
{
    struct text t = text_over(buf, 32);
    units_put_bare(&t, p_gauge_pa, Q_PRESSURE, u, 0);
    return buf;
}

const char *band_text(char buf[32], double low_1, double high_1)
{
    char high[16];
    snprintf(buf, 32, "x%.1f", low_1);
    snprintf(high, sizeof high, "%.1f", high_1);
    if (strcmp(buf + 1, high) != 0)
        snprintf(buf, 32, "x%.1f-%s", low_1, high);
    return buf;
}

const char *corner_words(char buf[32], enum axle_id a, enum side s)
{
    snprintf(buf, 32, "%s %s", axle_name(a), s == SIDE_LEFT ? "left" : "right");
    return buf;
}
