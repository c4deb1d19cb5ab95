#include "card/layout.h"

#include <math.h>
#include <string.h>

#include "base/text.h"

#define PT_PER_INCH 72.0
#define PT_PER_MM   (72.0 / 25.4)

// clang-format off
static const struct card_format FORMATS[CARD_SIZE_COUNT] = {
    [CARD_3X5]     = {"3x5", 5.0 * PT_PER_INCH, 3.0 * PT_PER_INCH, 46, 15, 4, 0, false, false},
    [CARD_A6]      = {"a6", 148.0 * PT_PER_MM, 105.0 * PT_PER_MM, 54, 22, 6, 3, true, false},
    [CARD_QUARTER] = {"quarter", 5.5 * PT_PER_INCH, 4.25 * PT_PER_INCH, 51, 23, 6, 3, true, true},
};

/* Scales tried, largest first; 1 is body text of 8 pt. */
static const double SCALES[] = {1.3, 1.25, 1.2, 1.15, 1.1, 1.05, 1.0, 0.95, 0.9, 0.85, 0.8, 0.75};
// clang-format on

enum { SCALE_COUNT = sizeof SCALES / sizeof SCALES[0] };

/* One try: scale of the type, brief words, room added between the rows. */
struct fit {
    double scale_1;
    bool brief;
    double extra_pt;
};

/* Sizes of type at one scale, pt. */
struct type {
    double heading, body, row, target, small;
};

struct column_place {
    double value_right_pt, second_left_pt, centre_pt, width_pt;
};

struct layout {
    const struct card_content *content;
    const struct card_format *format;
    struct card_page *page;
    struct type type;
    double extra_pt; /* added to each table row's pitch */
    bool brief;      /* the brief form of the lines that have one */
    double x_pt, y_pt, width_pt, bottom_pt;
    bool squeezed; /* something has no room at this scale */
};

const struct card_format *card_format_of(enum card_size size)
{
    return &FORMATS[size];
}

enum status card_size_from_name(const char *name, enum card_size *size)
{
    for (int i = 0; i < CARD_SIZE_COUNT; i++) {
        if (strcmp(name, FORMATS[i].name) == 0) {
            *size = (enum card_size)i;
            return STATUS_OK;
        }
    }
    return STATUS_E_UNKNOWN;
}

/* ---- lines of text ---- */

size_t card_wrap(enum card_font font, double size_pt, double width_pt, const char *s)
{
    size_t best = 0, n = 0;
    char part[CARD_LINE];
    while (s[n] != '\0') {
        unsigned long code = 0;
        n += (size_t)card_utf8_next(s + n, &code);
        struct text t = text_over(part, sizeof part);
        text_put(&t, "%.*s", (int)n, s);
        if (card_text_width_pt(font, size_pt, part) > width_pt) {
            return best > 0 ? best : n;
        }
        if (s[n] == ' ' || s[n] == '\0') {
            best = n;
        }
    }
    return n;
}

/* One line of text under the last, shortened visibly when it is too wide. */
static void put_line(struct layout *l, enum card_font font, double size_pt, const char *key,
                     const char *text)
{
    char fitted[CARD_BOX_TEXT_MAX];
    struct text t = text_over(fitted, sizeof fitted);
    card_text_fit(font, size_pt, l->width_pt, text, &t);
    l->y_pt += 1.18 * size_pt;
    card_page_text(l->page, l->x_pt, l->y_pt - CARD_DESCENT_1 * size_pt, font, size_pt, key,
                   fitted);
}

/* A paragraph of at most max_lines; the last line holds what is left, shortened if need be. */
static void put_paragraph(struct layout *l, enum card_font font, double size_pt, int max_lines,
                          const char *key, const char *text)
{
    for (int line = 1; *text != '\0'; line++) {
        size_t n = card_wrap(font, size_pt, l->width_pt, text);
        if (line == max_lines) {
            put_line(l, font, size_pt, key, text);
            return;
        }
        char part[CARD_LINE];
        struct text t = text_over(part, sizeof part);
        text_put(&t, "%.*s", (int)n, text);
        put_line(l, font, size_pt, key, part);
        text += n;
        text += strspn(text, " ");
    }
}

static void put_rule(struct layout *l, double line_pt)
{
    l->y_pt += 2.0;
    card_page_line(l->page, l->x_pt, l->y_pt, l->width_pt, 0.0, line_pt, false);
    l->y_pt += 1.0;
}

/* ---- table ---- */

static double value_size(const struct layout *l, const struct card_row *row)
{
    return row->kind == CARD_ROW_TARGET ? l->type.target : l->type.row;
}

static double row_pitch(const struct layout *l, const struct card_row *row)
{
    double size_pt = value_size(l, row);
    double share_1 = row->kind == CARD_ROW_TARGET ? 1.05 : 1.2; /* of the size */
    return share_1 * size_pt + l->extra_pt;
}

static void column_widths(const struct layout *l, int col, double *value_pt, double *second_pt)
{
    *value_pt = 0.0;
    *second_pt = 0.0;
    for (int i = 0; i < l->content->table.n_row; i++) {
        const struct card_row *row = &l->content->table.row[i];
        const struct card_cell *cell = &row->cell[col];
        *value_pt = fmax(*value_pt, card_text_width_pt(CARD_BOLD, value_size(l, row), cell->value));
        *second_pt =
            fmax(*second_pt, card_text_width_pt(CARD_REGULAR, l->type.small, cell->second));
    }
}

/* Columns stand at the right with pad_pt between them; what they leave is the titles'. Returns
 * that width. */
static double place_columns(const struct layout *l, bool brief, double pad_pt,
                            struct column_place place[])
{
    const double gap_pt = 1.5; /* between a value and its second */
    double right_pt = l->x_pt + l->width_pt;
    for (int c = l->content->table.n_column - 1; c >= 0; c--) {
        const struct card_column *col = &l->content->table.column[c];
        double value_pt = 0.0, second_pt = 0.0;
        column_widths(l, c, &value_pt, &second_pt);
        double cell_pt = value_pt + (second_pt > 0.0 ? gap_pt + second_pt : 0.0);
        double name_pt =
            card_text_width_pt(CARD_BOLD, l->type.small, brief ? col->brief : col->name);
        double width_pt = fmax(cell_pt, name_pt);
        place[c].width_pt = width_pt;
        place[c].centre_pt = right_pt - width_pt / 2.0;
        place[c].value_right_pt = place[c].centre_pt - cell_pt / 2.0 + value_pt;
        place[c].second_left_pt = place[c].value_right_pt + gap_pt;
        right_pt -= width_pt + pad_pt;
    }
    return right_pt - l->x_pt;
}

/* "psi gauge, cold (small: bar, mph)" */
static void head_words(const struct card_table *table, struct text *out)
{
    text_put(out, table->second[0] != '\0' ? "%s (small: %s, mph)" : "%s", table->head,
             table->second);
}

static void put_head(struct layout *l, const struct column_place place[], double title_pt,
                     bool brief)
{
    const struct card_table *table = &l->content->table;
    char words[CARD_BOX_TEXT_MAX], fitted[CARD_BOX_TEXT_MAX];
    struct text w = text_over(words, sizeof words), t = text_over(fitted, sizeof fitted);
    double size_pt = l->type.small;
    head_words(table, &w);
    card_text_fit(CARD_REGULAR, size_pt, title_pt, words, &t);
    l->y_pt += 1.2 * size_pt;
    double base_pt = l->y_pt - CARD_DESCENT_1 * size_pt;
    card_page_text(l->page, l->x_pt, base_pt, CARD_REGULAR, size_pt, "", fitted);
    for (int c = 0; c < table->n_column; c++) {
        const char *name = brief ? table->column[c].brief : table->column[c].name;
        double name_pt = card_text_width_pt(CARD_BOLD, size_pt, name);
        card_page_text(l->page, place[c].centre_pt - name_pt / 2.0, base_pt, CARD_BOLD, size_pt, "",
                       name);
    }
}

static void put_row(struct layout *l, const struct card_row *row, const struct column_place place[],
                    double title_pt)
{
    char title[CARD_BOX_TEXT_MAX];
    struct text t = text_over(title, sizeof title);
    enum card_font font = row->kind == CARD_ROW_PLAIN ? CARD_REGULAR : CARD_BOLD;
    double pitch_pt = row_pitch(l, row);
    double size_pt = value_size(l, row);
    double base_pt = l->y_pt + pitch_pt / 2.0 + (CARD_ASCENT_1 - CARD_DESCENT_1) * size_pt / 2.0;
    card_text_fit(font, l->type.row, title_pt, row->title, &t);
    card_page_text(l->page, l->x_pt, base_pt, font, l->type.row, row->key, title);
    for (int c = 0; c < l->content->table.n_column; c++) {
        const struct card_cell *cell = &row->cell[c];
        double value_pt = card_text_width_pt(CARD_BOLD, size_pt, cell->value);
        card_page_text(l->page, place[c].value_right_pt - value_pt, base_pt, CARD_BOLD, size_pt, "",
                       cell->value);
        card_page_text(l->page, place[c].second_left_pt, base_pt, CARD_REGULAR, l->type.small, "",
                       cell->second);
    }
    l->y_pt += pitch_pt;
}

static double longest_title(const struct layout *l)
{
    char head[CARD_BOX_TEXT_MAX];
    struct text t = text_over(head, sizeof head);
    head_words(&l->content->table, &t);
    double most_pt = card_text_width_pt(CARD_REGULAR, l->type.small, head);
    for (int i = 0; i < l->content->table.n_row; i++) {
        const struct card_row *row = &l->content->table.row[i];
        enum card_font font = row->kind == CARD_ROW_PLAIN ? CARD_REGULAR : CARD_BOLD;
        most_pt = fmax(most_pt, card_text_width_pt(font, l->type.row, row->title));
    }
    return most_pt;
}

/* Room that the titles do not need goes between the columns, so that the figures stand apart. */
static double spread_columns(const struct layout *l, bool brief, struct column_place place[])
{
    const double least_pad_pt = 5.0, most_pad_pt = 18.0, clear_pt = 10.0;
    double title_pt = place_columns(l, brief, least_pad_pt, place);
    double spare_pt = title_pt - longest_title(l) - clear_pt;
    if (spare_pt <= 0.0) {
        return title_pt;
    }
    double pad_pt = least_pad_pt + spare_pt / l->content->table.n_column;
    return place_columns(l, brief, fmin(pad_pt, most_pad_pt), place);
}

static void put_table(struct layout *l)
{
    const double least_title_1 = 6.5; /* of the row size: about a dozen letters */
    struct column_place place[CARD_COLUMNS] = {{0.0, 0.0, 0.0, 0.0}};
    bool brief = false;
    double title_pt = spread_columns(l, brief, place);
    if (title_pt < least_title_1 * l->type.row) {
        brief = true;
        title_pt = spread_columns(l, brief, place);
    }
    if (title_pt < least_title_1 * l->type.row) {
        l->squeezed = true;
        return;
    }
    put_head(l, place, title_pt, brief);
    for (int i = 0; i < l->content->table.n_row; i++) {
        const struct card_row *row = &l->content->table.row[i];
        bool same = i > 0 && row->kind == l->content->table.row[i - 1].kind;
        double line_pt = same ? 0.5 : 1.2; /* thin between grounds, thick between kinds */
        if (i > 0) {
            card_page_line(l->page, l->x_pt, l->y_pt, l->width_pt, 0.0, line_pt, false);
        }
        put_row(l, row, place, title_pt);
    }
}

/* ---- the page ---- */

static void put_top(struct layout *l)
{
    const struct card_content *c = l->content;
    put_line(l, CARD_BOLD, l->type.heading, c->heading_key, c->heading);
    char subject[CARD_TITLE + CARD_LINE];
    struct text t = text_over(subject, sizeof subject);
    double half_pt = l->width_pt * 0.5;
    double tyre_pt = card_text_width_pt(CARD_REGULAR, l->type.body, c->tyre);
    double room_pt = c->tyre[0] != '\0' ? fmax(half_pt, l->width_pt - tyre_pt - 8.0) : l->width_pt;
    card_text_fit(CARD_REGULAR, l->type.body, room_pt, c->subject, &t);
    text_put(&t, "%s%s", t.len > 0 && c->tyre[0] != '\0' ? "   " : "", c->tyre);
    put_line(l, CARD_REGULAR, l->type.body, c->subject_key, subject);
    put_rule(l, 1.2);
}

/* Lines below the table: all cautions whole, the rest within its share. */
static void put_lines(struct layout *l)
{
    int notes = 0;
    for (int i = 0; i < l->content->n_line; i++) {
        const struct card_line *line = &l->content->line[i];
        bool loud = strncmp(line->text, "DANGER", 6) == 0 || line->part == CARD_REFILL;
        enum card_font font = loud ? CARD_BOLD : CARD_REGULAR;
        int max_lines = line->part == CARD_CAUTION ? CARD_LINES : line->part == CARD_ORIGIN ? 1 : 3;
        if (line->part == CARD_NOTE && notes++ >= l->format->notes) {
            continue;
        }
        char dated[CARD_LINE];
        struct text t = text_over(dated, sizeof dated);
        text_put(&t, "%s%s%s", line->part == CARD_ORIGIN ? l->content->date : "",
                 line->part == CARD_ORIGIN ? "  " : "", card_line_words(line, l->brief));
        put_paragraph(l, font, l->type.body, max_lines, line->key, dated);
    }
}

static void put_bottom(struct layout *l)
{
    const double plan_pt = 138.0, gap_pt = 8.0; /* widths of the plan and of the gap beside it */
    bool plan = l->format->plan && l->content->n_corner > 0 && !l->content->legs;
    double top_pt = l->y_pt;
    if (plan) {
        l->width_pt -= plan_pt + gap_pt;
    }
    put_lines(l);
    if (plan && !card_layout_plan(l->content, l->format->outlines, l->x_pt + l->width_pt + gap_pt,
                                  top_pt + 2.0, plan_pt, l->bottom_pt - top_pt - 2.0, l->page)) {
        l->squeezed = true;
    }
}

/* Lay everything out at one scale; returns the room left over, negative when it does not fit. */
static double lay_out(const struct card_content *content, const struct card_format *format,
                      struct fit fit, struct card_page *page)
{
    struct layout l = {
        .content = content,
        .format = format,
        .page = page,
        .type = {.heading = 13.0 * fit.scale_1,
                 .body = fmax(CARD_TEXT_MIN_PT, 8.0 * fit.scale_1),
                 .row = fmax(9.0, 11.0 * fit.scale_1),
                 .target = fmax(14.0, 19.0 * fit.scale_1),
                 .small = CARD_TEXT_MIN_PT},
        .extra_pt = fit.extra_pt,
        .brief = fit.brief,
        .x_pt = CARD_MARGIN_PT,
        .y_pt = CARD_MARGIN_PT,
        .width_pt = format->width_pt - 2.0 * CARD_MARGIN_PT,
        .bottom_pt = format->height_pt - CARD_MARGIN_PT,
    };
    card_page_start(page, format->width_pt, format->height_pt);
    put_top(&l);
    put_table(&l);
    put_rule(&l, 1.2);
    put_bottom(&l);
    double left_pt = l.bottom_pt - l.y_pt;
    return l.squeezed ? fmin(left_pt, -1.0) : left_pt;
}

/* ---- checks before ---- */

static enum status check_words(const struct card_content *c, struct card_problem *problem)
{
    enum status st = card_check_characters(c->heading_key, c->heading, problem);
    st = st < 0 ? st : card_check_characters(c->subject_key, c->subject, problem);
    st = st < 0 ? st : card_check_characters(c->tyre_key, c->tyre, problem);
    for (int i = 0; i < c->table.n_row && st >= 0; i++) {
        st = card_check_characters(c->table.row[i].key, c->table.row[i].title, problem);
    }
    for (int i = 0; i < c->n_line && st >= 0; i++) {
        st = card_check_characters(c->line[i].key, c->line[i].text, problem);
    }
    return st;
}

/* Rows that fit at the smallest scale: take them away one by one until it does. */
static int rows_that_fit(const struct card_content *content, const struct card_format *f,
                         struct card_page *page)
{
    const struct fit smallest = {SCALES[SCALE_COUNT - 1], true, 0.0};
    struct card_content fewer = *content;
    while (card_drop_row(&fewer) && lay_out(&fewer, f, smallest, page) < 0.0) {
    }
    return card_plain_rows(&fewer);
}

/* All words at reading size or larger, else brief words as large as they go; then the spare room
 * is shared out between the rows. */
static bool largest_fit(const struct card_content *content, const struct card_format *f,
                        struct card_page *page, struct fit *fit)
{
    const double reading_1 = 1.0, most_pt = 6.0; /* more room than this looks lost, not open */
    for (int brief = 0; brief < 2; brief++) {
        for (int i = 0; i < SCALE_COUNT && (brief || SCALES[i] >= reading_1); i++) {
            struct fit one = {SCALES[i], brief == 1, 0.0};
            double left_pt = lay_out(content, f, one, page);
            if (left_pt >= 0.0) {
                one.extra_pt = fmin(most_pt, left_pt / (content->table.n_row + 1));
                *fit = one;
                return true;
            }
        }
    }
    return false;
}

enum status card_layout(const struct card_content *content, enum card_size size,
                        struct card_page *page, struct card_problem *problem)
{
    const struct card_format *f = &FORMATS[size];
    enum status st = check_words(content, problem);
    if (st < 0) {
        return st;
    }
    if (!content->legs && card_plain_rows(content) > f->grounds) {
        return card_too_many(content, f->name, f->grounds, problem);
    }
    struct fit fit = {.extra_pt = 0.0};
    if (!largest_fit(content, f, page, &fit)) {
        return card_too_many(content, f->name, rows_that_fit(content, f, page), problem);
    }
    (void)lay_out(content, f, fit, page);
    return card_page_check(page, problem);
}
