#include "card/card_text.h"

#include <string.h>

/* What a try at the card leaves in. */
struct keep {
    bool two_line_subject, second_unit, plan;
    bool brief; /* the brief form of the lines that have one */
};

struct page_text {
    const struct card_content *content;
    const struct card_format *format;
    struct keep keep;
    struct text *out;
    bool wide;     /* targets with a blank between their figures */
    bool squeezed; /* a table that has no room for its titles */
};

static int lines_in(const char *s)
{
    int n = 0;
    for (; *s != '\0'; s++) {
        n += *s == '\n';
    }
    return n;
}

/* Append s within columns, its cut marked by three points. */
static void put_cut(struct text *out, const char *s, int columns)
{
    if (text_width(s) <= columns) {
        text_put(out, "%s", s);
        return;
    }
    int width = 0;
    size_t n = 0;
    while (s[n] != '\0' && width < columns - 3) {
        unsigned long code = 0;
        n += (size_t)card_utf8_next(s + n, &code);
        width++;
    }
    while (n > 0 && s[n - 1] == ' ') {
        n--;
    }
    text_put(out, "%.*s...", (int)n, s);
}

/* End the line without blanks at its end. */
static void end_line(struct text *out)
{
    while (out->len > 0 && out->s[out->len - 1] == ' ') {
        out->s[--out->len] = '\0';
    }
    text_put(out, "\n");
}

/* Bytes of the longest beginning of s that ends at a word and is at most columns wide. */
static size_t wrap(const char *s, int columns)
{
    size_t best = 0, n = 0;
    int width = 0;
    while (s[n] != '\0') {
        unsigned long code = 0;
        n += (size_t)card_utf8_next(s + n, &code);
        if (++width > columns) {
            return best > 0 ? best : n - 1;
        }
        if (s[n] == ' ' || s[n] == '\0') {
            best = n;
        }
    }
    return n;
}

/* A paragraph whose later lines are indented. */
static void put_paragraph(const struct page_text *p, const char *s)
{
    int indent = 0;
    while (*s != '\0') {
        size_t n = wrap(s, p->format->columns - indent);
        text_char(p->out, ' ', indent);
        text_put(p->out, "%.*s", (int)n, s);
        end_line(p->out);
        s += n;
        s += strspn(s, " ");
        indent = 2;
    }
}

/* ---- heading ---- */

static bool date_fits_below(const struct page_text *p)
{
    int width = text_width(p->content->date) + 1;
    for (int i = 0; i < p->content->n_line; i++) {
        if (p->content->line[i].part == CARD_ORIGIN) {
            width += text_width(p->content->line[i].text);
        }
    }
    return width <= p->format->columns;
}

/* On the narrowest card the date has no room beside the last line: it stands in the first. */
static void put_heading(const struct page_text *p)
{
    int columns = p->format->columns;
    int date = date_fits_below(p) ? 0 : text_width(p->content->date);
    put_cut(p->out, p->content->heading, columns - (date > 0 ? date + 1 : 0));
    if (date > 0) {
        text_pad_to(p->out, columns - date);
        text_put(p->out, "%s", p->content->date);
    }
    end_line(p->out);
}

/* Name and tyres on two lines, or on one: then the name gives way, down to a third. */
static void put_subject(const struct page_text *p)
{
    const struct card_content *c = p->content;
    int columns = p->format->columns;
    bool one_of_two = c->tyre[0] == '\0' || c->subject[0] == '\0';
    if (one_of_two || p->keep.two_line_subject) {
        put_cut(p->out, c->subject[0] != '\0' ? c->subject : c->tyre, columns);
        end_line(p->out);
        if (!one_of_two) {
            put_cut(p->out, c->tyre, columns);
            end_line(p->out);
        }
        return;
    }
    int room = columns - text_width(c->tyre) - 1;
    room = room < columns / 3 ? columns / 3 : room;
    put_cut(p->out, c->subject, room);
    text_put(p->out, " ");
    int used = text_width(c->subject) < room ? text_width(c->subject) : room;
    put_cut(p->out, c->tyre, columns - used - 1);
    end_line(p->out);
}

/* ---- table ---- */

/* Targets stand wide: "38" becomes "3 8". */
static void put_value(const struct page_text *p, const struct card_row *row, const char *value,
                      struct text *out)
{
    bool wide = p->wide && row->kind == CARD_ROW_TARGET;
    for (const char *s = value; *s != '\0'; s++) {
        text_put(out, wide && s != value ? " %c" : "%c", *s);
    }
}

static int value_width(const struct page_text *p, const struct card_row *row, const char *value)
{
    int n = text_width(value);
    return p->wide && row->kind == CARD_ROW_TARGET && n > 0 ? 2 * n - 1 : n;
}

/* Widths of the columns, blank before them included; returns what is left for the titles. */
static int column_widths(const struct page_text *p, bool brief, int gap, int width[])
{
    const struct card_table *t = &p->content->table;
    int left = p->format->columns;
    for (int c = 0; c < t->n_column; c++) {
        int most = text_width(brief ? t->column[c].brief : t->column[c].name);
        for (int i = 0; i < t->n_row; i++) {
            int w = value_width(p, &t->row[i], t->row[i].cell[c].value);
            most = w > most ? w : most;
        }
        width[c] = most + gap;
        left -= width[c];
    }
    return left;
}

static void put_right(struct text *out, int end, const char *word)
{
    text_pad_to(out, end - text_width(word));
    text_put(out, "%s", word);
}

static void put_row(const struct page_text *p, const struct card_row *row, int title,
                    const int width[])
{
    int end = title;
    put_cut(p->out, row->title, title);
    for (int c = 0; c < p->content->table.n_column; c++) {
        char word[2 * CARD_WORD];
        struct text w = text_over(word, sizeof word);
        put_value(p, row, row->cell[c].value, &w);
        end += width[c];
        put_right(p->out, end, word);
    }
    end_line(p->out);
}

/* The road targets once more in the second unit. */
static void put_second(const struct page_text *p, const struct card_row *row, int title,
                       const int width[])
{
    int end = title;
    text_put(p->out, "  in %s", p->content->table.second);
    for (int c = 0; c < p->content->table.n_column; c++) {
        end += width[c];
        put_right(p->out, end, row->cell[c].second);
    }
    end_line(p->out);
}

enum { TITLE_LEAST = 15, TITLE_MOST = 24 }; /* columns kept for the titles */

static int wanted_title(const struct card_table *t)
{
    int most = text_width(t->head);
    for (int i = 0; i < t->n_row; i++) {
        int w = text_width(t->row[i].title);
        most = w > most ? w : most;
    }
    return most < TITLE_LEAST ? TITLE_LEAST : most > TITLE_MOST ? TITLE_MOST : most;
}

/* Full column names if the titles then keep their room, else short ones; gaps as wide as they
 * can be: spaced figures must not run into each other. */
static int choose_widths(struct page_text *p, bool *brief, int width[])
{
    static const struct {
        bool wide, brief;
        int gap;
        int title; /* enough for this try; 0 = as much as the longest title wants */
    } tries[] = {{true, false, 3, 0}, {true, false, 2, 0},          {true, true, 4, 0},
                 {true, true, 3, 0},  {true, true, 2, TITLE_LEAST}, {false, true, 2, TITLE_LEAST},
                 {false, true, 1, 1}};
    int wanted = wanted_title(&p->content->table);
    int title = 0;
    for (size_t i = 0; i < sizeof tries / sizeof tries[0]; i++) {
        *brief = tries[i].brief;
        p->wide = tries[i].wide;
        title = column_widths(p, *brief, tries[i].gap, width);
        if (title >= (tries[i].title > 0 ? tries[i].title : wanted)) {
            break;
        }
    }
    return title;
}

static void put_table(struct page_text *p)
{
    enum { LEAST_TITLE = 7 };
    const struct card_table *t = &p->content->table;
    int width[CARD_COLUMNS];
    bool brief = false;
    int title = choose_widths(p, &brief, width);
    p->squeezed = title < LEAST_TITLE;
    put_cut(p->out, t->head, title);
    int end = title;
    for (int c = 0; c < t->n_column; c++) {
        end += width[c];
        put_right(p->out, end, brief ? t->column[c].brief : t->column[c].name);
    }
    end_line(p->out);
    for (int i = 0; i < t->n_row; i++) {
        put_row(p, &t->row[i], title, width);
        if (t->row[i].kind == CARD_ROW_TARGET && p->keep.second_unit && t->second[0] != '\0') {
            put_second(p, &t->row[i], title, width);
        }
    }
}

/* ---- lines and plan ---- */

static void put_lines(const struct page_text *p)
{
    int notes = 0;
    for (int i = 0; i < p->content->n_line; i++) {
        const struct card_line *line = &p->content->line[i];
        if (line->part == CARD_NOTE && notes++ >= p->format->notes) {
            continue;
        }
        if (line->part == CARD_ORIGIN && date_fits_below(p)) {
            text_put(p->out, "%s ", p->content->date);
        }
        put_paragraph(p, card_line_words(line, p->keep.brief));
    }
}

static void put_corner(const struct page_text *p, const struct card_corner *k, int from)
{
    text_pad_to(p->out, from);
    text_put(p->out, "%s %s", k->name, k->load);
    if (p->format->outlines && k->soft_length_m > 0.0) {
        text_put(p->out, " ");
        units_put_bare(p->out, k->road_length_m, Q_LENGTH, UNITS_PSI, 0);
        text_put(p->out, ">");
        units_put(p->out, k->soft_length_m, Q_LENGTH, UNITS_PSI, 0);
    }
}

/* One line an axle, left on the left; with the patch lengths where the drawing has outlines. */
static void put_plan(const struct page_text *p)
{
    const struct card_content *c = p->content;
    for (int i = 0; i + 1 < c->n_corner; i += 2) {
        put_corner(p, &c->corner[i], 0);
        if (i == 0) {
            text_pad_to(p->out, p->format->columns / 2 - 3);
            text_put(p->out, "%s", p->format->outlines ? "" : "FRONT");
        }
        put_corner(p, &c->corner[i + 1], p->format->columns / 2 + 3);
        end_line(p->out);
    }
}

/* ---- the page ---- */

static bool write_front(struct page_text *p)
{
    text_clear(p->out);
    put_heading(p);
    put_subject(p);
    put_table(p);
    put_lines(p);
    if (p->format->plan && p->keep.plan && !p->content->legs) {
        put_plan(p);
    }
    return !p->squeezed && !p->out->cut && lines_in(p->out->s) <= p->format->lines;
}

static bool write_best(const struct card_content *content, const struct card_format *f,
                       struct text *out)
{
    static const struct keep tries[] = {
        {true, true, true, false},  {false, true, true, false},   {false, false, true, false},
        {false, false, true, true}, {false, false, false, false}, {false, false, false, true},
    };
    for (size_t i = 0; i < sizeof tries / sizeof tries[0]; i++) {
        struct page_text p = {.content = content, .format = f, .keep = tries[i], .out = out};
        if (write_front(&p)) {
            return true;
        }
    }
    return false;
}

enum status card_text_front(const struct card_content *content, enum card_size size,
                            struct text *out, struct card_problem *problem)
{
    const struct card_format *f = card_format_of(size);
    struct card_content fewer = *content;
    char page[CARD_TEXT_MAX];
    struct text t = text_over(page, sizeof page);
    int rows = card_plain_rows(content);
    int fits = rows;
    while (!content->legs && fits > f->grounds && card_drop_row(&fewer)) {
        fits--;
    }
    while (!write_best(&fewer, f, &t) && card_drop_row(&fewer)) {
        fits--;
    }
    if (fits < rows) {
        return card_too_many(content, f->name, fits, problem);
    }
    text_put(out, "%s", page);
    return STATUS_OK;
}

/* ---- log ---- */

struct grid {
    int place, cell, by; /* widths, without the bars; 0 = no such column */
};

static bool grid_of(int columns, int corners, struct grid *g)
{
    const int when = 6 + 1; /* "before" and a bar */
    for (g->cell = 6; g->cell >= 3; g->cell--) {
        for (g->by = 3; g->by >= 0; g->by -= 3) {
            g->place = columns - when - corners * (g->cell + 1) - (g->by > 0 ? g->by + 1 : 0);
            if (g->place >= 10 || (g->cell == 3 && g->by == 0 && g->place >= 0)) {
                return true;
            }
        }
    }
    return false;
}

static void put_grid_row(const struct card_content *c, const struct grid *g, const char *place,
                         const char *when, const char *by, bool names, struct text *out)
{
    put_cut(out, place, g->place);
    int end = g->place;
    text_pad_to(out, end);
    text_put(out, "%-6s|", when);
    end += 7;
    for (int i = 0; i < c->n_corner; i++) {
        text_put(out, "%s", names ? c->corner[i].name : "");
        end += g->cell + 1;
        text_pad_to(out, end - 1);
        text_put(out, "|");
    }
    text_put(out, "%s", g->by > 0 ? by : "");
    end_line(out);
}

enum status card_text_log(const struct card_content *content, enum card_size size, struct text *out,
                          struct card_problem *problem)
{
    const struct card_format *f = card_format_of(size);
    struct grid g = {0};
    if (content->n_corner < 1 || !grid_of(f->columns, content->n_corner, &g)) {
        struct text t = text_over(problem->what, sizeof problem->what);
        text_put(&t, "a log grid for %d corners does not fit a %s card", content->n_corner,
                 f->name);
        problem->fits = -1;
        return STATUS_E_FULL;
    }
    put_cut(out, content->heading, f->columns);
    end_line(out);
    put_grid_row(content, &g, g.place >= 11 ? "DATE, PLACE" : "DATE", "", "BY", true, out);
    for (int line = 2; line + 3 <= f->lines; line += 3) {
        text_char(out, '-', f->columns);
        end_line(out);
        put_grid_row(content, &g, "", "before", "", false, out);
        put_grid_row(content, &g, "", "after", "", false, out);
    }
    return STATUS_OK;
}

void card_text_fold(enum card_size size, struct text *out)
{
    static const char word[] = " fold here ";
    int dashes = card_format_of(size)->columns - (int)sizeof word + 1;
    text_char(out, '-', dashes / 2);
    text_put(out, "%s", word);
    text_char(out, '-', dashes - dashes / 2);
    end_line(out);
}
