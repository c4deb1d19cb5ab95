#include "tui/screen_corners.h"

#include <stdio.h>
#include <string.h>

#include "core/target.h"
#include "tui/chrome.h"
#include "tui/model.h"
#include "tui/patch_draw.h"
#include "tui/widget.h"

/* How the body is shared out.  A block draws an axle's two corners; an axle without room for one
 * has a line. */
struct layout {
    struct rect body;
    int blocks, lines;                /* axles with a block, with a line */
    int patch_rows;                   /* of the longest patch of all grounds */
    int label_cols, patch_cols, near; /* near: between patch and numerals */
    int big_rows;                     /* of the numerals */
    int gap;                          /* blank rows between blocks */
    double row_m;
};

/* axles in the order in which they get a block */
static const enum axle_id by_rank[] = {AXLE_FRONT, AXLE_REAR, AXLE_MIDDLE, AXLE_TRAILER,
                                       AXLE_TRAILER2};

static bool is_present(const struct model *m, enum axle_id x)
{
    return m->results.advice.axle[x].present;
}

static int axles_of(const struct model *m)
{
    int n = 0;
    for (int x = 0; x < AXLE_COUNT; x++)
        n += is_present(m, (enum axle_id)x);
    return n;
}

static bool has_block(const struct model *m, const struct layout *l, enum axle_id x)
{
    int rank = 0;
    for (int i = 0; i < AXLE_COUNT && by_rank[i] != x; i++)
        rank += is_present(m, by_rank[i]);
    return is_present(m, x) && rank < l->blocks;
}

/* rows for the patch: 4 on the least screen, 5 at the design size, more where there is room */
static int patch_room(int body_rows, int blocks, int lines)
{
    int room = (body_rows - 2 - lines) / blocks - 2;
    int most = body_rows < 19 ? 4 : body_rows < 25 ? 5 : 12;
    return room < most ? room : most;
}

/* columns of the widest target in large numerals */
static int numerals_of(const struct model *m, int rows)
{
    int width = 0;
    for (int x = 0; x < AXLE_COUNT; x++) {
        char digits[32];
        cold_bare(m, digits, m->results.advice.axle[x].target_gauge_pa);
        int w = is_present(m, (enum axle_id)x) ? big_width(digits, rows) : 0;
        width = w > width ? w : width;
    }
    return width;
}

static struct layout layout_of(const struct model *m, struct rect body)
{
    struct layout l = {.body = body};
    int n = axles_of(m), half = body.cols / 2;
    for (l.blocks = n < 1 ? 1 : n; l.blocks > 1; l.blocks--)
        if (patch_room(body.rows, l.blocks, n - l.blocks) >= 4)
            break;
    l.lines = n - l.blocks;
    l.patch_rows = patch_room(body.rows, l.blocks, l.lines);
    l.big_rows = l.patch_rows >= 7 && half >= 52 ? 5 : 3;
    l.label_cols = half >= 38 ? 15 : 9;
    l.near = half >= 38 ? 2 : 1;
    int patch_max = half - 1 - l.label_cols - numerals_of(m, l.big_rows) - l.near - 1;
    l.row_m = patch_scale(m->results.longest_m, m->results.widest_m, l.patch_rows, patch_max);
    l.patch_cols = l.row_m > 0 ? patch_cols(m->results.widest_m, l.row_m) : 1;
    int spare = body.rows - 2 - l.blocks * (l.patch_rows + 2) - l.lines;
    l.gap = spare >= l.blocks ? 1 : 0;
    return l;
}

static void label_put(struct frame *f, const struct layout *l, int row, enum side s,
                      enum style style, const char *text)
{
    if (s == SIDE_LEFT)
        frame_put_within(f, row, 1, l->label_cols, style, text);
    else
        frame_put_right(f, row, l->body.cols - 1, style, text);
}

static void name_put(const struct model *m, struct frame *f, const struct layout *l, int row,
                     enum axle_id x, enum side s)
{
    char words[32], name[40];
    bool picked = m->axle == x && m->side == s;
    corner_words(words, x, s);
    bool brackets = picked && l->label_cols > 11;
    if (l->label_cols <= 11)
        snprintf(words, sizeof words, "%.5s %c", axle_name(x), s == SIDE_LEFT ? 'L' : 'R');
    snprintf(name, sizeof name, brackets ? "[%s]" : "%s", words);
    label_put(f, l, row, s, picked ? STYLE_CHOSEN : STYLE_TITLE, name);
}

/* whether today's reading is another than the cold target, as they are shown */
static bool now_differs(const struct model *m, const struct axle_advice *a)
{
    char now[32], cold[32];
    return strcmp(cold_bare(m, now, a->set_now_gauge_pa), cold_bare(m, cold, a->target_gauge_pa)) !=
           0;
}

static void facts_put(const struct model *m, struct frame *f, const struct layout *l, int row,
                      enum axle_id x, enum side s)
{
    enum unit_system u = model_units(m);
    const struct axle_advice *a = &m->results.advice.axle[x];
    const struct corner_advice *c = &a->corner[s];
    char value[32], line[48];
    bool narrow = l->label_cols < 13;
    quantity_text(value, c->load_kg, Q_MASS, u);
    label_put(f, l, row + 1, s, STYLE_LABEL, value);
    cold_bare(m, value, a->road_gauge_pa);
    snprintf(line, sizeof line, narrow && strlen(value) > 3 ? "rd %s" : "road %s", value);
    label_put(f, l, row + 2, s, STYLE_LABEL, line);
    if (l->patch_rows >= 5 && now_differs(m, a)) {
        snprintf(line, sizeof line, "set now %s", cold_bare(m, value, a->set_now_gauge_pa));
        label_put(f, l, row + 4, s, STYLE_VALUE, line);
    }
    if (c->at.p_gauge_pa >= c->road.p_gauge_pa)
        return;
    band_text(value, c->area_growth_low_1, c->area_growth_high_1);
    snprintf(line, sizeof line, narrow ? "%s" : "area %s", value);
    label_put(f, l, row + 3, s, STYLE_LABEL, line);
}

/* under the numerals, flush with the edge that they share with the patch */
static void caption_put(struct frame *f, int row, int edge, enum side s, enum unit_system u)
{
    char words[32];
    snprintf(words, sizeof words, "%s cold", units_symbol(Q_PRESSURE, u));
    if (s == SIDE_LEFT)
        frame_put(f, row, edge, STYLE_LABEL, words);
    else
        frame_put_right(f, row, edge, STYLE_LABEL, words);
}

static void numerals_put(const struct model *m, struct frame *f, const struct layout *l, int row,
                         enum axle_id x, enum side s)
{
    char digits[32];
    enum unit_system u = model_units(m);
    cold_bare(m, digits, m->results.advice.axle[x].target_gauge_pa);
    int width = big_width(digits, l->big_rows), edge = 1 + l->label_cols + l->patch_cols + l->near;
    int col = s == SIDE_LEFT ? edge : l->body.cols - edge - width;
    int down = (l->patch_rows - l->big_rows) / 2;
    big_put(f, row + down, col, l->big_rows, digits);
    int caption = row + down + l->big_rows;
    if (down >= 1 || caption < row + l->patch_rows)
        caption_put(f, caption, s == SIDE_LEFT ? col : col + width, s, u);
}

static void bar_of(const struct model *m, enum axle_id x, enum side s, struct deflection_bar *bar)
{
    const struct corner_advice *c = &m->results.advice.axle[x].corner[s];
    const struct ground *g = &m->results.advice.ground;
    *bar = (struct deflection_bar){.value_1 = c->at.deflection_1,
                                   .low_1 = c->deflection_low_1,
                                   .high_1 = c->deflection_high_1,
                                   .aim_1 = g->road ? 0 : g->aim_1,
                                   .limit_1 = g->limit_1,
                                   .rim_1 = DEFLECTION_RIM_1};
    if (axle_is_trailer(x))
        bar->aim_1 *= TARGET_TRAILER_1;
}

static void deflection_row(const struct model *m, struct frame *f, const struct layout *l, int row,
                           enum axle_id x, enum side s)
{
    struct deflection_bar bar;
    bar_of(m, x, s, &bar);
    int half = l->body.cols / 2, width = half - 9;
    int col = s == SIDE_LEFT ? 1 : half + 1;
    frame_printf(f, row, col, STYLE_VALUE, "%4.1f %%", 100 * bar.value_1);
    deflection_put(f, row, col + 7, width, &bar);
}

static void bound_words(const struct model *m, enum axle_id x, bool wide, struct text *out)
{
    static const char *const words[] = {
        "the aim",        "the deflection limit", "the bead floor", "the maker's floor",
        "the side slope", "the rim width",        "road pressure"};
    const struct axle_advice *a = &m->results.advice.axle[x];
    char value[32];
    text_put(out, "by %s", words[a->bound_by]);
    if (wide && a->bound_by != BOUND_AIM && a->bound_by != BOUND_ROAD)
        text_put(out, "; lower takes %s", bound_change(a->bound_by));
    if (now_differs(m, a))
        text_put(out, "   set now %s", cold_text(m, value, a->set_now_gauge_pa));
    if (a->stuck_gauge_pa.is)
        text_put(out, "   stuck %s", cold_text(m, value, a->stuck_gauge_pa.v));
}

/* what the letters on the scales mean */
static void legend_words(const struct model *m, enum axle_id x, struct text *out)
{
    struct deflection_bar bar;
    bar_of(m, x, SIDE_LEFT, &bar);
    text_put(out, "deflection: ");
    if (bar.aim_1 > 0)
        text_put(out, "a aim %.3g %%  ", 100 * bar.aim_1);
    text_put(out, "L limit %.3g %%  R rim   ", 100 * bar.limit_1);
}

/* one fact in the middle of a wide screen; an absent one leaves no gap */
static int fact_put(struct frame *f, int row, int col, const char *name, struct maybe si,
                    enum quantity q, enum unit_system u)
{
    char value[32];
    struct text t = text_over(value, sizeof value);
    if (!si.is)
        return row;
    frame_put(f, row, col, STYLE_LABEL, name);
    units_put(&t, si.v, q, u, q == Q_PRESSURE ? 1 : 0);
    frame_put_right(f, row, col + 26, STYLE_VALUE, value);
    return row + 1;
}

/* between the numerals, where there is room: what bounds this axle */
static void middle_put(const struct model *m, struct frame *f, const struct layout *l, int row,
                       enum axle_id x)
{
    const struct axle_advice *a = &m->results.advice.axle[x];
    const struct corner_advice *c = &a->corner[m->axle == x ? m->side : SIDE_LEFT];
    enum unit_system u = model_units(m);
    int col = l->body.cols / 2 - 13;
    row = fact_put(f, row, col, "aim, unrounded", a->aim_gauge_pa, Q_PRESSURE, u);
    row = fact_put(f, row, col, "highest floor", maybe_of(a->floor_gauge_pa), Q_PRESSURE, u);
    row = fact_put(f, row, col, "stuck, for metres", a->stuck_gauge_pa, Q_PRESSURE, u);
    row = fact_put(f, row, col, "share of road left", maybe_of(c->retention_1), Q_SHARE, u);
    row = fact_put(f, row, col, "carries at target", c->at.capacity_kg, Q_MASS, u);
    row = fact_put(f, row, col, "practice speed", c->practice_speed_mps, Q_SPEED, u);
    fact_put(f, row, col, "standard-derived", c->standard_speed_mps, Q_SPEED, u);
}

static void block_put(const struct model *m, struct frame *f, const struct layout *l, int row,
                      enum axle_id x)
{
    char words[200], title[16];
    struct text t = text_over(words, sizeof words);
    for (int i = 0; i < SIDE_COUNT; i++) {
        enum side s = (enum side)i;
        const struct corner_advice *c = &m->results.advice.axle[x].corner[s];
        int col =
            s == SIDE_LEFT ? 1 + l->label_cols : l->body.cols - 1 - l->label_cols - l->patch_cols;
        name_put(m, f, l, row, x, s);
        facts_put(m, f, l, row, x, s);
        patch_put(f, (struct rect){row, col, l->patch_rows, l->patch_cols}, l->row_m,
                  &c->road.patch, &c->at.patch);
        numerals_put(m, f, l, row, x, s);
        deflection_row(m, f, l, row + l->patch_rows, x, s);
    }
    struct text title_text = text_over(title, sizeof title);
    put_upper(axle_name(x), &title_text);
    if (x != AXLE_FRONT && l->label_cols > 11)
        frame_put_centred(f, row, 0, l->body.cols, STYLE_TITLE, title);
    int middle =
        l->body.cols - 2 * (5 + l->label_cols + l->patch_cols + numerals_of(m, l->big_rows));
    if (l->patch_rows >= 9 && middle >= 28)
        middle_put(m, f, l, row + 2, x);
    if (l->body.cols >= 76)
        legend_words(m, x, &t);
    bound_words(m, x, l->body.cols >= 100, &t);
    frame_put_centred(f, row + l->patch_rows + 1, 0, l->body.cols, STYLE_LABEL, words);
}

static void line_put(const struct model *m, struct frame *f, int row, enum axle_id x)
{
    const struct axle_advice *a = &m->results.advice.axle[x];
    enum unit_system u = model_units(m);
    char value[32], load[32], road[32], growth[32], name[40], words[96];
    struct text bound = text_over(words, sizeof words);
    const struct corner_advice *c = &a->corner[m->axle == x ? m->side : SIDE_LEFT];
    corner_words(name, x, m->side);
    int col = m->axle == x ? frame_printf(f, row, 1, STYLE_CHOSEN, "[%s]", name)
                           : frame_put(f, row, 1, STYLE_TITLE, axle_name(x));
    col = frame_put(f, row, col + 2, STYLE_BIG, cold_text(m, value, a->target_gauge_pa));
    bound_words(m, x, false, &bound);
    char line[200];
    /* what a narrow screen cuts off stands last */
    snprintf(line, sizeof line, "%.1f %%  road %s  %s  %s  area %s", 100 * c->at.deflection_1,
             cold_bare(m, road, a->road_gauge_pa), quantity_text(load, c->load_kg, Q_MASS, u),
             words, band_text(growth, c->area_growth_low_1, c->area_growth_high_1));
    frame_put_within(f, row, col + 2, f->cols - col - 3, STYLE_LABEL, line);
}

/* more about the corner picked, on one line */
static void detail_put(const struct model *m, struct frame *f, int row)
{
    const struct corner_advice *c = &m->results.advice.axle[m->axle].corner[m->side];
    char name[32], line[200];
    corner_words(name, m->axle, m->side);
    snprintf(line, sizeof line,
             "%s  %.0f x %.0f mm  %.0f cm2, road %.0f  centre %.0f mm high, %.0f lower", name,
             1000 * c->at.patch.length_m, 1000 * c->at.patch.width_m, 1e4 * c->at.patch.area_m2,
             1e4 * c->road.patch.area_m2, 1000 * c->at.loaded_radius_m, 1000 * c->clearance_loss_m);
    frame_put_within(f, row, 1, f->cols - 2, STYLE_LABEL, line);
}

static void reason_put(const struct model *m, struct text *reason, struct text *way_out)
{
    const struct results *r = &m->results;
    bool slope = m->outing.conditions.cross_slope_rad.is;
    if (r->status == STATUS_E_REFUSED) {
        refusal_put(&r->advice.refusal, model_units(m), reason);
        refusal_put_way_out(&r->advice.refusal, model_units(m), way_out);
        return;
    }
    if (r->status == STATUS_E_MISSING && slope)
        text_put(reason, "A side slope needs the rig's cg_height and track.");
    else
        text_put(reason, "No answer: %s.", status_text(r->status));
    text_put(way_out, "Undo (z), or give other values: %s",
             slope ? "x side slope, e edit." : "e edit.");
}

void refused_put(const struct model *m, struct frame *f, struct rect body)
{
    char words[400], out[400];
    struct text reason = text_over(words, sizeof words), way_out = text_over(out, sizeof out);
    struct rect r = {body.row + 4, 4, body.rows - 8, body.cols - 8};
    bool refused = m->results.status == STATUS_E_REFUSED;
    reason_put(m, &reason, &way_out);
    frame_put(f, body.row + 2, 4, STYLE_DANGER, refused ? " REFUSED " : " NO ANSWER ");
    int used = frame_wrap(f, r, STYLE_TITLE, words);
    r.row += used + 1;
    r.rows -= used + 1;
    frame_wrap(f, r, STYLE_PLAIN, out);
}

static void top_put(struct frame *f, const struct layout *l)
{
    int row = l->body.row;
    if (l->row_m > 0)
        frame_printf(f, row, 1, STYLE_LABEL, "1 row = %.0f mm", 1000 * l->row_m);
    frame_put_centred(f, row, 0, l->body.cols, STYLE_TITLE, "FRONT");
    if (l->body.cols >= 76)
        frame_put_right(f, row, l->body.cols - 1, STYLE_LABEL, "seen from above");
}

/* where rows are left over: what is raised here and now, the worst first */
static void cautions_put(const struct model *m, struct frame *f, struct rect r)
{
    const struct caution_list *list = &m->results.advice.cautions;
    int row = 0;
    for (int level = CAUTION_DANGER; r.rows >= 3 && level >= CAUTION_NOTE; level--)
        for (int i = 0; i < list->n && row < r.rows; i++)
            if ((int)caution_level_of(list->item[i].code) == level)
                caution_line_put(f, (struct rect){r.row + row++, r.col, 1, r.cols}, &list->item[i],
                                 model_units(m));
}

void corners_render(const struct model *m, struct frame *f, struct rect body)
{
    if (m->results.status < STATUS_OK) {
        refused_put(m, f, body);
        return;
    }
    struct layout l = layout_of(m, body);
    int row = body.row + 1;
    top_put(f, &l);
    for (int i = 0; i < AXLE_COUNT; i++) {
        enum axle_id x = (enum axle_id)i;
        if (!is_present(m, x))
            continue;
        bool block = has_block(m, &l, x);
        if (block)
            block_put(m, f, &l, row, x);
        else
            line_put(m, f, row, x);
        row += block ? l.patch_rows + 2 + l.gap : 1;
    }
    int end = body.row + body.rows - 1;
    cautions_put(m, f, (struct rect){row, 1, end - row - 1, body.cols - 2});
    detail_put(m, f, end);
}
