#include "tui/screen_trip.h"

#include <stdio.h>
#include <string.h>

#include "sim/trip_words.h"
#include "tui/model.h"
#include "tui/trip_draw.h"

enum { WORDS = 1200, DETAIL = 40 }; /* of the words; lines that a leg may have */

/* ---- the trip and its plan ---- */

static struct trip_in in_of(const struct model *m)
{
    const struct trip_state *s = &m->at.trip;
    struct trip_in in = {.rig = &m->outing.rig, .trip = &s->trip};
    for (int i = 0; i < s->trip.n_leg; i++)
        in.ground[i] = ground_find(m->grounds, s->trip.leg[i].ground);
    return in;
}

void trip_follow(struct model *m)
{
    struct trip_state *s = &m->at.trip;
    if (!s->open)
        return;
    struct trip_in in = in_of(m);
    s->status = trip_compute(&in, &s->plan);
}

void trip_enter(struct model *m)
{
    struct trip_state *s = &m->at.trip;
    if (s->open && !s->choosing)
        return;
    s->choosing = true;
    s->n = m->host->trips(m->host->self, HOST_TRIPS, s->found);
    s->list = (struct list){0, 0};
    s->why[0] = '\0';
}

static void open_marked(struct model *m)
{
    struct trip_state *s = &m->at.trip;
    struct load_report report = {.field = -1};
    if (s->n == 0)
        return;
    if (!m->host->trip(m->host->self, s->found[s->list.at].path, &s->trip, &report)) {
        snprintf(s->why, sizeof s->why, "%s", report.message);
        m->effects |= EFFECT_BEEP;
        return;
    }
    s->open = true;
    s->choosing = false;
    s->legs = (struct list){0, 0};
    trip_follow(m);
}

static void make_card(struct model *m)
{
    struct trip_state *s = &m->at.trip;
    char path[HOST_PATH] = "", words[160];
    struct text said = text_over(words, sizeof words);
    if (m->host->trip_card(m->host->self, &m->outing.rig, &s->trip, model_units(m), path, &said))
        model_say(m, STYLE_GOOD, "Made: %.180s", path);
    else
        model_say(m, STYLE_ERROR, "%s", words);
}

bool trip_act(struct model *m, enum action a, int key)
{
    (void)key;
    struct trip_state *s = &m->at.trip;
    if (a == ACT_TRIP_OPEN && s->choosing)
        open_marked(m);
    else if (a == ACT_TRIP_OPEN) {
        s->choosing = true;
        trip_enter(m);
    } else if (a == ACT_TRIP_CARD && !s->choosing && s->status >= STATUS_OK)
        make_card(m);
    else if ((a == ACT_BACK || a == ACT_ABANDON) && s->choosing && s->open)
        s->choosing = false;
    else if (s->choosing)
        return list_move(&s->list, a, s->n, m->rows - 12);
    else if (a == ACT_PAGE_DOWN || a == ACT_PAGE_UP)
        s->top = a == ACT_PAGE_UP ? 0 : s->top < DETAIL ? s->top + 2 : s->top;
    else if (list_move(&s->legs, a, s->trip.n_leg, 3))
        s->top = 0;
    else
        return false;
    return true;
}

/* ---- the list of trips ---- */

static void choice_put(const struct trip_state *s, struct frame *f, struct rect r, int i)
{
    enum style style = i == s->list.at ? STYLE_CHOSEN : STYLE_PLAIN;
    int name = r.cols * 3 / 5;
    frame_fill(f, r, style, " ");
    frame_put_within(f, r.row, r.col + 1, name - 2, style, s->found[i].name);
    frame_put_within(f, r.row, r.col + name, r.cols - name - 1, style, s->found[i].rig);
}

static void choose_put(const struct model *m, struct frame *f, struct rect body)
{
    const struct trip_state *s = &m->at.trip;
    struct rect in = panel_put(f, body, "Which trip? It is planned with the rig as it stands");
    int page = in.rows - 5, top = list_top(&s->list, s->n, page);
    for (int i = top; i < s->n && i < top + page; i++)
        choice_put(s, f, (struct rect){in.row + i - top, in.col, 1, in.cols}, i);
    struct rect below = {in.row + page + 1, in.col + 1, 4, in.cols - 2};
    if (s->n == 0)
        frame_wrap(f, below, STYLE_LABEL,
                   "None on the search path. 'sandshoe list --template trip' shows how one is "
                   "written.");
    else if (s->why[0] != '\0')
        frame_wrap(f, below, STYLE_ERROR, s->why);
    else
        frame_put_within(f, below.row, below.col, below.cols, STYLE_LABEL,
                         s->found[s->list.at].path);
}

/* ---- the plan ---- */

/* What every part of the plan's picture needs. */
struct view {
    const struct model *m;
    const struct trip_state *s;
    struct trip_in in;
    struct trip_words words;
    struct frame *f;
    int n_axle;
    enum axle_id axle[AXLE_COUNT];
};

static void view_init(struct view *v, const struct model *m, struct frame *f)
{
    *v = (struct view){.m = m, .s = &m->at.trip, .in = in_of(m), .f = f};
    v->words = (struct trip_words){.in = &v->in, .plan = &v->s->plan, .u = model_units(m)};
    for (int x = 0; x < AXLE_COUNT; x++)
        if (m->outing.rig.axle[x].present)
            v->axle[v->n_axle++] = (enum axle_id)x;
}

/* name of the trip, its total; whose rig it was written for when that is another */
static void title_put(const struct view *v, struct rect r)
{
    const struct trip_plan *p = &v->s->plan;
    char total[96];
    struct text t = text_over(total, sizeof total);
    trip_words_span(p->total_s, &t);
    text_put(&t, ", of it ");
    trip_words_span(p->action_s, &t);
    text_put(&t, " for air%s", p->no_air ? " + other air" : "");
    frame_put_right(v->f, r.row, r.col + r.cols, STYLE_VALUE, total);
    int room = r.cols - (int)t.len - 2;
    frame_put_within(v->f, r.row, r.col, room, STYLE_TITLE, v->s->trip.name);
}

/* Columns of the table: their right ends, the title's width. */
enum { NUMBER = 4, KM = 5, AXLE = 6, CAP = 5, MINUTES = 5, BEFORE = 13 };

static int title_cols(const struct view *v, int cols)
{
    return cols - NUMBER - KM - AXLE * v->n_axle - CAP - MINUTES - BEFORE;
}

static void head_put(const struct view *v, struct rect r)
{
    static const char *const brief[AXLE_COUNT] = {"front", "mid", "rear", "trail", "trl2"};
    int end = r.col + NUMBER + title_cols(v, r.cols) + KM;
    frame_put(v->f, r.row, r.col + NUMBER, STYLE_LABEL, "leg");
    frame_put_right(v->f, r.row, end, STYLE_LABEL, "km");
    for (int i = 0; i < v->n_axle; i++)
        frame_put_right(v->f, r.row, end += AXLE, STYLE_LABEL, brief[v->axle[i]]);
    frame_put_right(v->f, r.row, end += CAP, STYLE_LABEL, "km/h");
    frame_put_right(v->f, r.row, end += MINUTES, STYLE_LABEL, "min");
    frame_put(v->f, r.row, end + 2, STYLE_LABEL, "before, min");
}

static bool needs_a_look(const struct trip_leg_plan *l)
{
    return l->source_too_weak || l->forced_soft || l->warn_leg >= 0 || trip_reads_low(l);
}

static void before_put(const struct view *v, int row, int col, int leg, enum style style)
{
    const struct trip_leg_plan *l = &v->s->plan.leg[leg];
    if (l->source_too_weak)
        frame_printf(v->f, row, col, style, "%s ?", trip_action_name(l->action));
    else if (l->action != TRIP_NONE)
        frame_printf(v->f, row, col, style, "%s %.0f", trip_action_name(l->action),
                     trip_words_minutes(l->action_s));
}

static void leg_put(const struct view *v, struct rect r, int leg)
{
    const struct trip_leg_plan *l = &v->s->plan.leg[leg];
    const struct ground *g = v->in.ground[leg];
    enum style style = leg == v->s->legs.at ? STYLE_CHOSEN : STYLE_PLAIN;
    int title = title_cols(v, r.cols), end = r.col + NUMBER + title + KM;
    char buf[32];
    frame_fill(v->f, r, style, " ");
    if (needs_a_look(l))
        frame_put(v->f, r.row, r.col, STYLE_CAUTION, "!");
    frame_printf(v->f, r.row, r.col + 1, style, "%2d", leg + 1);
    frame_put_within(v->f, r.row, r.col + NUMBER, title, style, g->title[0] ? g->title : g->name);
    snprintf(buf, sizeof buf, "%.4g", v->s->trip.leg[leg].length_m / 1e3);
    frame_put_right(v->f, r.row, end, style, buf);
    for (int i = 0; i < v->n_axle; i++)
        frame_put_right(v->f, r.row, end += AXLE, style,
                        pressure_bare(buf, l->cold_gauge_pa[v->axle[i]], v->words.u));
    if (l->cap_mps.is)
        snprintf(buf, sizeof buf, "%.0f", units_in(l->cap_mps.v, Q_SPEED, "km/h"));
    frame_put_right(v->f, r.row, end += CAP, style, l->cap_mps.is ? buf : "law");
    snprintf(buf, sizeof buf, "%.0f", trip_words_minutes(l->drive_s));
    frame_put_right(v->f, r.row, end += MINUTES, style, buf);
    before_put(v, r.row, end + 2, leg, style);
}

static void table_put(const struct view *v, struct rect r)
{
    int page = r.rows - 1, top = list_top(&v->s->legs, v->s->trip.n_leg, page);
    head_put(v, (struct rect){r.row, r.col, 1, r.cols});
    for (int i = 0; i < page && top + i < v->s->trip.n_leg; i++)
        leg_put(v, (struct rect){r.row + 1 + i, r.col, 1, r.cols}, top + i);
}

/* one leg: what its end reads, then what to do before it */
static void detail_roll(const struct view *v, struct roll *roll, int leg, enum style title)
{
    const struct trip_leg_plan *l = &v->s->plan.leg[leg];
    char line[160], words[WORDS];
    struct text t = text_over(line, sizeof line), w = text_over(words, sizeof words);
    text_put(&t, "leg %d ends at ", leg + 1);
    trip_words_place(&v->words, l->end_height_m, l->end_temp_k, &t);
    text_put(&t, ": gauge ");
    trip_words_axles(&v->words, l->end_gauge_pa, 0, &t);
    if (!trip_words_act(&v->words, leg, &w))
        text_put(&w, "Nothing to do before it; %s.", trip_why_text(l->why));
    roll_line(roll, title, line);
    roll_text(roll, l->warn_leg >= 0 || l->source_too_weak ? STYLE_DANGER : STYLE_LABEL, 0, words);
}

static void legs_roll(const struct view *v, struct roll *roll, bool all)
{
    for (int i = 0; i < v->s->trip.n_leg; i++)
        if (all || i == v->s->legs.at)
            detail_roll(v, roll, i, all && i == v->s->legs.at ? STYLE_CHOSEN : STYLE_TITLE);
}

/* the leg marked; all of them where there is room */
static void detail_put(const struct view *v, struct rect r, bool all)
{
    struct roll count = {NULL, r, 0, 0}, roll = {v->f, r, v->s->top, 0};
    legs_roll(v, &count, all);
    int most = count.n > r.rows ? count.n - r.rows : 0;
    roll.top = roll.top > most ? most : roll.top;
    legs_roll(v, &roll, all);
    if (roll.top < most)
        frame_put_right(v->f, r.row + r.rows - 1, r.col + r.cols, STYLE_KEY, " PgDn ");
}

static void coldest_put(const struct view *v, struct rect r)
{
    const struct trip_plan *p = &v->s->plan;
    char line[160];
    struct text t = text_over(line, sizeof line);
    bool look = false;
    for (int i = 0; i < p->n_leg; i++)
        look = look || needs_a_look(&p->leg[i]);
    text_put(&t, "%sleast, end of leg %d, ", look ? "! " : "", p->coldest_leg + 1);
    trip_words_place(&v->words, p->coldest_height_m, p->coldest_temp_k, &t);
    text_put(&t, ": ");
    trip_words_axles(&v->words, p->coldest_gauge_pa, 0, &t);
    text_put(&t, ". Read cold mornings.");
    frame_put_within(v->f, r.row, r.col, r.cols, look ? STYLE_CAUTION : STYLE_NOTE, line);
}

static void plan_put(const struct model *m, struct frame *f, struct rect body)
{
    struct view v;
    bool places = body.rows >= 19;
    int strip = body.rows < 19 ? 3 : body.rows < 27 ? 6 : 11;
    view_init(&v, m, f);
    int most = body.rows - strip - 7, legs = v.s->trip.n_leg < most ? v.s->trip.n_leg : most;
    struct rect r = {body.row, 1, 1, body.cols - 2};
    title_put(&v, r);
    table_put(&v, (struct rect){r.row + 1, r.col - 1, legs + 1, r.cols + 1});
    struct trip_strip s = {&v.in, &v.s->plan, AXLE_FRONT, model_units(m), v.s->legs.at, places};
    trip_strip_put(f, (struct rect){r.row + legs + 2, r.col, strip, r.cols}, &s);
    int used = legs + 2 + strip;
    detail_put(&v, (struct rect){r.row + used, r.col, body.rows - used - 1, r.cols},
               body.rows >= 27);
    coldest_put(&v, (struct rect){body.row + body.rows - 1, r.col, 1, r.cols});
}

static void refused_plan_put(const struct model *m, struct frame *f, struct rect body)
{
    const struct trip_state *s = &m->at.trip;
    char words[WORDS];
    struct text t = text_over(words, sizeof words);
    if (s->status == STATUS_E_REFUSED) {
        text_put(&t, "REFUSED  ");
        refusal_put(&s->plan.refusal, model_units(m), &t);
        text_put(&t, " ");
        refusal_put_way_out(&s->plan.refusal, model_units(m), &t);
    } else {
        text_put(&t, "No plan for this trip: %s.", status_text(s->status));
    }
    frame_wrap(f, (struct rect){body.row + 1, 1, body.rows - 2, body.cols - 2}, STYLE_ERROR, words);
}

void trip_render(const struct model *m, struct frame *f, struct rect body)
{
    const struct trip_state *s = &m->at.trip;
    if (s->choosing || !s->open)
        choose_put(m, f, body);
    else if (s->status < STATUS_OK)
        refused_plan_put(m, f, body);
    else
        plan_put(m, f, body);
}
