#include "tui/chrome.h"

#include <ctype.h>
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "tui/utf8.h"
#include "tui/widget.h"

static void put_day(const struct model *m, bool narrow, struct text *out)
{
    const struct conditions *c = &m->outing.conditions;
    enum unit_system u = model_units(m);
    const char *gap = narrow ? " " : "  ";
    double road_k = m->outing.rig.axle[AXLE_FRONT].road_temp_k;
    text_put(out, "%s%s", units_symbol(Q_PRESSURE, u), gap);
    units_put(out, maybe_or(c->air_temp_k, road_k), Q_TEMPERATURE, u, 0);
    text_put(out, "%s%.0f m%s%s", gap, maybe_or(c->height_m, 0), gap, narrow ? "" : "tyres ");
    if (c->tyre_temp_k.is && c->tyre_temp_k.v > road_k + 0.5)
        units_put(out, c->tyre_temp_k.v, Q_TEMPERATURE, u, 0);
    else
        text_put(out, "cold");
}

void put_upper(const char *s, struct text *out)
{
    for (; *s != '\0'; s++)
        text_char(out, (char)((unsigned char)*s < 0x80u ? toupper((unsigned char)*s) : *s), 1);
}

static void header_put(const struct model *m, struct frame *f)
{
    char day[96], state[RIG_NAME];
    struct text right = text_over(day, sizeof day), upper = text_over(state, sizeof state);
    frame_fill(f, (struct rect){0, 0, 1, f->cols}, STYLE_HEADER, " ");
    if (!m->outing.has_rig) {
        frame_put(f, 0, 1, STYLE_HEADER, "sandshoe   no rig yet");
        return;
    }
    put_day(m, f->cols < 76, &right);
    put_upper(m->outing.rig.load_state, &upper);
    int end = f->cols - 1 - (int)strlen(day), room = end - 3, state_cols = utf8_width(state);
    int name_cols = room - state_cols < room / 3 ? room / 3 : room - state_cols;
    frame_put_right(f, 0, f->cols - 1, STYLE_HEADER, day);
    int col = frame_put_within(f, 0, 1, name_cols - 1, STYLE_HEADER, m->outing.rig.name) + 2;
    frame_put_within(f, 0, col, end - col - 1, STYLE_HEADER, state);
    if (m->outing.n_edit > 0 && f->cols >= 100)
        frame_put_right(f, 0, end - 2, STYLE_HEADER, "changed, not saved");
}

static int decimals_more(const struct model *m)
{
    const struct rig *rig = &m->outing.rig;
    double step_pa = rig_gauge_step(rig);
    double tenths = step_pa / (0.1 * UNITS_PA_PER_BAR);
    bool apart = tenths > 0.5 && fabs(tenths - round(tenths)) < 1e-6;
    return model_units(m) == UNITS_BAR && !apart ? 1 : 0;
}

const char *cold_text(const struct model *m, char buf[32], double p_gauge_pa)
{
    struct text t = text_over(buf, 32);
    units_put(&t, p_gauge_pa, Q_PRESSURE, model_units(m), decimals_more(m));
    return buf;
}

const char *cold_bare(const struct model *m, char buf[32], double p_gauge_pa)
{
    struct text t = text_over(buf, 32);
    units_put_bare(&t, p_gauge_pa, Q_PRESSURE, model_units(m), decimals_more(m));
    return buf;
}

const char *strength_text(char buf[32], double si, enum unit_system u)
{
    return quantity_text(buf, si, Q_STRENGTH, u);
}

/* "sand needs 31, has 32 psi CI: uncertain" */
static void put_flotation(const struct advice *a, enum unit_system u, struct text *out)
{
    static const char *const kinds[] = {"ground", "sand", "soil", "snow", "ice"};
    const struct flotation *fl = &a->flotation;
    char have[32];
    if (fl->method == FLOTATION_NONE || fl->passes == PASSES_NA)
        return;
    text_put(out, "%s ", kinds[a->ground.kind]);
    if (fl->needed_target_pa.is && fl->strength_pa.is) {
        text_put(out, "needs ");
        units_put_bare(out, fl->needed_target_pa.v, Q_STRENGTH, u, 0);
        text_put(out, ", has %s CI: ", strength_text(have, fl->strength_pa.v, u));
    }
    text_put(out, "%s", passes_name(fl->passes));
}

static void ground_put(const struct model *m, struct frame *f)
{
    char right[96];
    struct text t = text_over(right, sizeof right);
    const struct ground *g = outing_ground(&m->outing, m->grounds);
    frame_put(f, 1, 1, STYLE_LABEL, "ground");
    if (g == NULL) {
        frame_put(f, 1, 8, STYLE_TITLE, "none yet: road pressures. Press g");
        return;
    }
    if (m->results.status >= STATUS_OK)
        put_flotation(&m->results.advice, model_units(m), &t);
    frame_put_right(f, 1, f->cols - 1, STYLE_VALUE, right);
    int room = f->cols - 10 - (int)t.len,
        end = frame_put_within(f, 1, 8, room, STYLE_TITLE, g->title);
    if (!g->road && end + 16 < f->cols - (int)t.len)
        frame_printf(f, 1, end + 2, STYLE_LABEL, "aim %.4g %%", 100 * g->aim_1);
}

static void put_cap(const struct advice *a, enum unit_system u, struct text *out)
{
    static const char *const by[] = {"", ", by the ground", ", by deflection",
                                     ", by pressure left"};
    if (!a->cap_mps.is) {
        text_put(out, "cap: the road's own");
        return;
    }
    text_put(out, "CAP ");
    units_put(out, a->cap_mps.v, Q_SPEED, u, 0);
    text_put(out, "%s", by[a->cap_by]);
}

static void put_asked(const struct conditions *c, enum unit_system u, struct text *out)
{
    if (c->speed_mps.is) {
        text_put(out, "   asked ");
        units_put(out, c->speed_mps.v, Q_SPEED, u, 0);
    }
    if (c->cross_slope_rad.is) {
        text_put(out, "   side slope ");
        units_put(out, c->cross_slope_rad.v, Q_ANGLE, u, 0);
    }
}

static void put_up(const struct results *r, bool narrow, struct text *out)
{
    const struct refill_plan *p = &r->refill.out.plan[HOOKUP_LINKED];
    if (r->refill.status < STATUS_OK || !p->possible || p->total_s < 1)
        return;
    text_put(out, "   up %.0f min%s", fmax(1, p->total_s / 60), narrow ? "" : " linked");
}

/* the worst caution first: an asked-for danger, then standing ones */
static const struct caution *foremost(const struct caution_list *list)
{
    const struct caution *best = NULL;
    int best_rank = -1;
    for (int i = 0; i < list->n; i++) {
        enum caution_code code = list->item[i].code;
        int rank = 2 * (int)caution_level_of(code) + (caution_is_standing(code) ? 0 : 1);
        if (rank > best_rank) {
            best = &list->item[i];
            best_rank = rank;
        }
    }
    return best;
}

void caution_line_put(struct frame *f, struct rect r, const struct caution *c, enum unit_system u)
{
    static const enum style styles[] = {STYLE_NOTE, STYLE_CAUTION, STYLE_DANGER};
    char words[256];
    struct text t = text_over(words, sizeof words);
    enum caution_level level = caution_level_of(c->code);
    caution_put(c, u, &t);
    int col = frame_printf(f, r.row, r.col, styles[level], " %s ", caution_level_name(level)) + 1;
    frame_put_within(f, r.row, col, r.col + r.cols - col, STYLE_LABEL, words);
}

static void cautions_put(const struct model *m, struct frame *f, int row)
{
    const struct caution_list *list = &m->results.advice.cautions;
    const struct caution *c = foremost(list);
    char counts[32];
    if (c == NULL)
        return;
    snprintf(counts, sizeof counts, list->n > 1 ? "! all %d" : "!", list->n);
    int room = f->cols - 4 - (int)strlen(counts);
    caution_line_put(f, (struct rect){row, 1, 1, room}, c, model_units(m));
    frame_put_right(f, row, f->cols - 1, STYLE_LABEL, counts);
}

/* what the air clock calls for reaches every screen */
static bool call_put(const struct model *m, struct frame *f, int row)
{
    char words[160];
    struct text t = text_over(words, sizeof words);
    if (m->screen == SCREEN_CLOCK || !clock_call_words(m, &t))
        return false;
    text_put(&t, "   a: to the clock");
    frame_put_within(f, row, 1, f->cols - 2, clock_flash(m) ? STYLE_DANGER : STYLE_TITLE, words);
    return true;
}

static void status_put(const struct model *m, struct frame *f, int row)
{
    if (call_put(m, f, row))
        return;
    if (m->message[0] != '\0')
        frame_put_within(f, row, 1, f->cols - 2, m->message_style, m->message);
    else if (m->outing.has_rig)
        cautions_put(m, f, row);
}

static void footer_put(const struct model *m, struct frame *f, const struct screen *s)
{
    char line[128];
    struct text t = text_over(line, sizeof line);
    int row = f->rows - 2;
    frame_fill(f, (struct rect){row, 0, 1, f->cols}, STYLE_HEADER, " ");
    if (m->outing.has_rig && m->results.status >= STATUS_OK) {
        put_cap(&m->results.advice, model_units(m), &t);
        put_asked(&m->outing.conditions, model_units(m), &t);
        put_up(&m->results, f->cols < 76, &t);
    }
    frame_put_within(f, row, 1, f->cols - 4 - (int)strlen(s->title), STYLE_HEADER, line);
    frame_put_right(f, row, f->cols - 1, STYLE_HEADER, s->title);
    keys_put(f, f->rows - 1, 1, f->cols - 2, s->footer);
}

struct rect chrome_put(const struct model *m, struct frame *f, const struct screen *s)
{
    header_put(m, f);
    if (m->outing.has_rig)
        ground_put(m, f);
    else
        frame_put_within(f, 1, 1, f->cols - 2, STYLE_LABEL,
                         "Tyre, load, ground: the answer follows. F3: your rigs.");
    status_put(m, f, f->rows - 3);
    footer_put(m, f, s);
    return (struct rect){2, 0, f->rows - 5, f->cols};
}

void chrome_too_small(struct frame *f)
{
    char line[64];
    snprintf(line, sizeof line, "needs %dx%d, have %dx%d", MODEL_COLS_MIN, MODEL_ROWS_MIN, f->cols,
             f->rows);
    frame_clear(f);
    if (f->cols >= (int)strlen(line))
        frame_put_centred(f, f->rows / 2, 0, f->cols, STYLE_TITLE, line);
    else
        frame_wrap(f, (struct rect){0, 0, f->rows, f->cols}, STYLE_TITLE, line);
}
