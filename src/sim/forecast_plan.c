#include <math.h>

#include "base/num.h"
#include "base/units.h"
#include "core/constants.h"
#include "sim/forecast_part.h"
#include "sim/heat.h"
#include "sim/hookup.h"

#define GAUGE_NOISE_1  0.3   /* of a step, beside rounding; reference text, section 8.3 */
#define STAMP_S        1.0   /* s, when a button was pressed; own judgement */
#define STAMP_DOWN_S   2.0   /* s, a valve opened or shut by hand; own study */
#define DOWN_COLD_1    0.92  /* cold air leaves slower, and stretch gives work back: energy runs */
#define MODEL_1        0.004 /* of the rise so far; what is to come has its own, forecast_report.c */
#define MODEL_DOWN_1   0.007 /* of the fall so far */
#define DROP_1         0.08  /* of the drop from line to tyre: hose ends and chucks differ */
#define SHARED_START_1 0.5   /* of the start reading's error is the gauge's own */
#define TANK_FLOW_KG_S 6e-4  /* kg/s, 30 L/min, where no source tells a usual flow; own choice */

unsigned plan_dense(const struct plan *p, unsigned corners)
{
    unsigned bits = 0;
    for (int i = 0; i < p->n; i++) {
        bits |= corners >> p->corner_of[i] & 1u ? 1u << i : 0u;
    }
    return bits;
}

enum valve_state plan_core(const struct plan *p, int i)
{
    return p->s->core_out >> p->corner_of[i] & 1u ? VALVE_CORE_OUT : VALVE_CORE_IN;
}

/* What a session holds is finite: bad numbers are refused here, not carried into a forecast. */
static bool session_finite(const struct session *s)
{
    const double x[] = {s->now_s, s->first_air_s, s->running_s, s->in.air.gauge_step_pa};
    bool ok = num_all_finite(4, x);
    for (int c = 0; c < REFILL_CORNERS && ok; c++) {
        ok = !(s->present >> c & 1u) || isfinite(s->start_gauge_pa[c]);
    }
    for (int k = 0; k < s->n_span && ok; k++) {
        ok = isfinite(s->span[k].from_s) && isfinite(s->span[k].lasts_s);
    }
    for (int k = 0; k < s->n_reading && ok; k++) {
        const struct session_reading *r = &s->reading[k];
        ok = isfinite(r->at_s) && isfinite(r->running_s) && isfinite(r->p_gauge_pa);
    }
    return ok;
}

static enum status check(const struct session *s, double now_s)
{
    if (s->present == 0 || (s->present & ~s->started) != 0) {
        return STATUS_E_MISSING;
    }
    if (!isfinite(now_s) || now_s < s->now_s - 1e-6 || !session_finite(s) ||
        !refill_in_valid(&s->in)) {
        return STATUS_E_DOMAIN;
    }
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (s->present >> c & 1u && !(s->in.corner[c].target_gauge_pa > 0)) {
            return STATUS_E_MISSING;
        }
    }
    return STATUS_OK;
}

/* The tow vehicle's axles hang on one line; the trailer's follow by the tail. */
static int link_groups(int n, unsigned group[])
{
    const unsigned tow = (1u << REFILL_CORNER(AXLE_TRAILER, 0)) - 1;
    unsigned first = 0;
    int made = 0;
    for (int g = 0; g < n; g++) {
        first |= group[g] & tow;
    }
    for (int g = 0; g < n; g++) {
        unsigned trailer = group[g] & ~tow;
        if (g == 0 && first != 0) {
            group[made++] = first;
        }
        if (trailer != 0) {
            group[made++] = trailer;
        }
    }
    return made;
}

static void list_corners(struct plan *p)
{
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (p->s->present >> c & 1u) {
            p->corner_of[p->n++] = c;
        }
    }
    p->dims = FORECAST_COMMON + FORECAST_OWN * p->n;
    p->dropped = plan_dense(p, p->s->dropped);
    p->open_now = plan_dense(p, session_open(p->s));
    unsigned group[REFILL_CORNERS];
    p->n_group = session_order(p->s, group);
    if (p->s->hookup == HOOKUP_LINKED) {
        group[0] = p->s->up ? group[0] : p->s->present;
        p->n_group = p->s->up ? link_groups(p->n_group, group) : 1;
    }
    for (int g = 0; g < p->n_group; g++) {
        p->group[g] = plan_dense(p, group[g]);
    }
}

/* The hoses and cores of some corners at their nominal flow. */
static enum status nominal_line(const struct plan *p, unsigned open, struct line *l,
                                int vessel_of[REFILL_CORNERS])
{
    double from[REFILL_CORNERS] = {0}, to[REFILL_CORNERS] = {0};
    unsigned corners = 0;
    for (int i = 0; i < p->n; i++) {
        int c = p->corner_of[i];
        from[c] = p->s->start_gauge_pa[c] + p->s->in.ambient_abs_pa;
        to[c] = p->s->in.corner[c].target_gauge_pa + p->s->in.ambient_abs_pa;
        corners |= open >> i & 1u ? 1u << c : 0;
    }
    const struct hookup_change as_is = {.scale_1 = 1, .valve = p->s->in.air.valve};
    return hookup_line(&p->s->in, &p->source, &as_is, corners, from, to, l, vessel_of);
}

static enum status add_hoses(struct plan *p, unsigned open)
{
    for (int k = 0; k < p->n_hose; k++) {
        if (p->hose[k].open == open) {
            return STATUS_OK;
        }
    }
    if (p->n_hose == PART_HOSES || open == 0) {
        return STATUS_OK; /* the last known ones serve */
    }
    struct line l;
    int vessel_of[REFILL_CORNERS];
    enum status st = nominal_line(p, open, &l, vessel_of);
    if (st == STATUS_OK) {
        p->hose[p->n_hose++] = (struct hoses){open, l.main_si, l.vessel[0].hose_si};
    }
    return st;
}

/* One vessel a corner, so that each can differ. */
static enum status make_line(struct plan *p)
{
    struct line l;
    int vessel_of[REFILL_CORNERS];
    enum status st = nominal_line(p, (1u << p->n) - 1, &l, vessel_of);
    if (st != STATUS_OK) {
        return st;
    }
    p->line = l;
    for (int i = 0; i < p->n; i++) {
        int c = p->corner_of[i];
        p->line.vessel[i] = l.vessel[vessel_of[c]];
        p->line.vessel[i].count_1 = p->s->in.corner[c].tyres;
        if (!p->s->up) {
            bool out = plan_core(p, i) == VALVE_CORE_OUT;
            p->line.vessel[i].area_m2 = out ? VALVE_OUT_M2 : VALVE_IN_M2;
            p->line.vessel[i].b_1 = out ? VALVE_OUT_B_1 : VALVE_IN_B_1;
        }
    }
    p->line.n = p->n;
    if (p->s->in.air.spare) {
        p->spare = 1u << p->n;
        p->line.vessel[p->line.n++] = l.vessel[l.n - 1];
    }
    return line_prepare(&p->line);
}

static enum status all_hoses(struct plan *p)
{
    enum status st = add_hoses(p, p->open_now);
    for (int g = 0; g < p->n_group && st == STATUS_OK; g++) {
        st = add_hoses(p, p->group[g]);
    }
    for (int k = 0; k < p->s->n_span && st == STATUS_OK; k++) {
        st = add_hoses(p, plan_dense(p, p->s->span[k].open));
    }
    return st;
}

static void cut_out(struct plan *p)
{
    const struct air_system *a = &p->s->in.air;
    double pa = p->s->in.ambient_abs_pa;
    p->tank_abs_pa = a->tank_volume_m3 > 0 ? a->tank_gauge_pa + pa : 0;
    if (a->source == AIR_COMPRESSOR && a->compressor.cut_out_gauge_pa > 0) {
        p->until.cut_out_abs_pa = a->compressor.cut_out_gauge_pa + pa;
        p->until.cut_in_abs_pa = hookup_cut_in(a) + pa;
        p->held_abs_pa = 0.5 * (p->until.cut_out_abs_pa + p->until.cut_in_abs_pa);
    }
}

/* Corners that share the line with corner i in this hook-up. */
static double sharing_tyres(const struct plan *p, int i)
{
    double tyres = 0;
    for (int g = 0; g < p->n_group; g++) {
        for (int k = 0; k < p->n && p->group[g] >> i & 1u; k++) {
            tyres += p->group[g] >> k & 1u ? p->line.vessel[k].count_1 : 0;
        }
    }
    return fmax(tyres, 1);
}

/* The source's flow half way of the group of corner i, the outlet free to find its pressure. */
static double usual_flow(const struct plan *p, int i, unsigned *open, double *half_abs_pa,
                         double *drop_pa)
{
    double abs_pa[LINE_VESSELS], root = 0, pa = p->s->in.ambient_abs_pa;
    const struct refill_corner_in *c = &p->s->in.corner[p->corner_of[i]];
    double half = pa + 0.5 * (p->s->start_gauge_pa[p->corner_of[i]] + c->target_gauge_pa);
    *open = 0;
    for (int g = 0; g < p->n_group; g++) {
        *open |= p->group[g] >> i & 1u ? p->group[g] : 0;
    }
    for (int k = 0; k < p->line.n; k++) {
        abs_pa[k] = half;
    }
    struct line_flow f;
    (void)line_solve(&p->line, *open, true, abs_pa, p->tank_abs_pa, &root, &f);
    *half_abs_pa = half;
    *drop_pa = f.line_abs_pa - half;
    return p->source.kind == SOURCE_NONE
               ? TANK_FLOW_KG_S * sharing_tyres(p, i)
               : fmax(f.source_kg_s, 0.1 * TANK_FLOW_KG_S * sharing_tyres(p, i));
}

/* Half way of the first group, for the ratio. */
static void find_middle(struct plan *p)
{
    int first = 0;
    while (first < p->n - 1 && !(p->group[0] >> first & 1u)) {
        first++;
    }
    p->middle_kg_s = usual_flow(p, first, &p->middle_open, &p->middle_abs_pa, &p->middle_drop_pa);
    for (int i = 0; i < p->n; i++) {
        const struct line_vessel *v = &p->line.vessel[i];
        double stretched = 1 + LINE_STRETCH_1_PA * (2 * p->middle_abs_pa - p->line.ambient_abs_pa);
        p->middle_m3 += p->middle_open >> i & 1u ? v->count_1 * v->volume_m3 * stretched : 0;
    }
}

/* Over-read and its settling, from the heat model at the usual flow; members scale them. */
static void heat_of(struct plan *p)
{
    double t = p->s->in.tyre_temp_k, pa = p->s->in.ambient_abs_pa;
    for (int i = 0; i < p->n; i++) {
        const struct refill_corner_in *c = &p->s->in.corner[p->corner_of[i]];
        double half = 0, drop = 0, v = c->volume_m3 / c->tyres, at = pa + c->target_gauge_pa;
        unsigned open = 0;
        double q = usual_flow(p, i, &open, &half, &drop) / sharing_tyres(p, i);
        if (!p->s->up) {
            const struct line_vessel *k = &p->line.vessel[i];
            double slope = 0;
            q = element_flow(element_conductance(k->area_m2, t), k->b_1, at, pa, &slope);
        }
        double dt = heat_excess(at, v, t, q, p->s->up ? 1 : 0) * (p->s->up ? 1 : DOWN_COLD_1);
        double over = p->s->up ? heat_over_read(at, v, t, q) : at / t * dt;
        double r = v / HEAT_WALL_M3, wall_m2 = HEAT_WALL_M2 * cbrt(r * r);
        double loss = HEAT_WALL_FACTOR_1 * heat_wall_coefficient(dt, at, t) * wall_m2;
        double stored = at * v / (AIR_R_J_KG_K * t) * (AIR_CP_J_KG_K - AIR_R_J_KG_K);
        p->flow_kg_s[i] = q;
        p->over_si[i] = q > 0 ? over / (q * at) : 0;
        p->creep_s[i] = loss > 0 ? stored / loss : 1;
    }
}

/* How far off the start readings may be: one reading that stands for all corners errs alike for
 * all of them; those of single corners err each in its own way. */
static void start_errors(struct plan *p)
{
    double step = p->s->in.air.gauge_step_pa;
    double e = step * sqrt(1.0 / 12 + GAUGE_NOISE_1 * GAUGE_NOISE_1);
    bool own = false;
    for (int i = 0; i < p->n; i++) {
        const struct session_reading *r = NULL;
        for (int k = 0; k < p->s->n_reading; k++) {
            const struct session_reading *x = &p->s->reading[k];
            bool early = x->span == 0 && !x->undone && !x->flowing;
            r = early && x->corners >> p->corner_of[i] & 1u ? x : r;
        }
        bool alone = r != NULL && (r->corners & (r->corners - 1)) == 0;
        p->own_start_pa[i] = alone ? e : SHARED_START_1 * e;
        own = own || alone;
    }
    p->shared_start_pa = own ? SHARED_START_1 * e : e;
}

/* What the clock may be off at a reading. Filling, those after one stop share the error of its time,
 * and so many must not average it away. */
static double stamp_of(const struct plan *p, const struct session_reading *r)
{
    int n = 0;
    for (int k = 0; k < p->s->n_reading; k++) {
        const struct session_reading *x = &p->s->reading[k];
        n += x->span == r->span && !x->undone && !x->flowing;
    }
    return p->s->up ? STAMP_S * sqrt(fmax(n, 1)) : STAMP_DOWN_S;
}

/* What a reading is worth: how sure the gauge, the clock and the model are there. */
static void push(struct plan *p, const struct session_reading *r, unsigned at)
{
    double start = 0, n = 0;
    for (int i = 0; i < p->n; i++) {
        if (at >> i & 1u) {
            start += p->s->start_gauge_pa[p->corner_of[i]];
            n++;
        }
    }
    double step = p->s->in.air.gauge_step_pa;
    double rise = fabs(r->p_gauge_pa - start / fmax(n, 1));
    double noise = GAUGE_NOISE_1 * step, model = (p->s->up ? MODEL_1 : MODEL_DOWN_1) * rise;
    model = r->flowing && p->s->up ? hypot(model, DROP_1 * p->middle_drop_pa) : model;
    double stamp = stamp_of(p, r) * rise / fmax(r->running_s, 10);
    p->obs[p->n_obs++] =
        (struct observation){.span = r->span,
                             .at = at,
                             .flowing = r->flowing && p->s->up,
                             .at_s = r->at_s,
                             .p_gauge_pa = r->p_gauge_pa,
                             .sigma_pa = sqrt(noise * noise + model * model + stamp * stamp),
                             .half_pa = 0.5 * step};
}

/* The corners on the line when a reading was made. */
static unsigned open_at(const struct plan *p, const struct session_reading *r)
{
    return r->span > 0 ? plan_dense(p, p->s->span[r->span - 1].open) : p->open_now;
}

static void observe(struct plan *p, const struct session_reading *r)
{
    unsigned at = plan_dense(p, r->corners), open = open_at(p, r);
    bool several = (at & (at - 1)) != 0;
    bool line = p->s->up && (r->flowing || (several && p->s->hookup == HOOKUP_LINKED));
    if (!p->s->up) { /* tyres apart: the gauge was on one of them, as good as the first */
        at = at & open ? at & open : at;
        at &= ~(at - 1);
    }
    if (line) {
        push(p, r, at & open ? at & open : at);
        return;
    }
    for (int i = 0; i < p->n && p->n_obs < PART_OBS; i++) {
        if (at >> i & 1u) {
            push(p, r, 1u << i);
        }
    }
}

void plan_observe(struct plan *p)
{
    int first = p->s->n_reading, budget = PART_OBS;
    while (first > 0 && budget >= p->n) {
        budget -= p->n; /* at most */
        first--;
    }
    p->n_obs = 0;
    for (int k = first; k < p->s->n_reading && p->s->first_air_s >= 0; k++) {
        const struct session_reading *r = &p->s->reading[k];
        if (!r->undone && r->at_s >= p->s->first_air_s && r->span > 0) {
            observe(p, r);
        }
    }
}

enum status plan_make(const struct forecast *f, const struct session *s, double now_s,
                      struct plan *p)
{
    enum status st = check(s, now_s);
    if (st != STATUS_OK) {
        return st;
    }
    *p = (struct plan){.f = f, .s = s, .now_s = fmax(now_s, s->now_s)};
    const struct refill_in *in = &s->in;
    st = source_init(&in->air, in->ambient_abs_pa, in->inlet_temp_k, &p->source);
    if (st != STATUS_OK) {
        return st;
    }
    p->own_sag_1 = p->source.sag_1;
    list_corners(p);
    p->apart = plan_dense(p, f->apart);
    st = make_line(p);
    if (st == STATUS_OK) {
        st = all_hoses(p);
    }
    if (st != STATUS_OK) {
        return st;
    }
    cut_out(p);
    find_middle(p);
    heat_of(p);
    start_errors(p);
    plan_observe(p);
    if (!s->up) {
        double top = 0;
        for (int i = 0; i < p->n; i++) {
            top = fmax(top, s->start_gauge_pa[p->corner_of[i]]);
        }
        top = top * 1.1 + 1e4;
        deflate_table(in->ambient_abs_pa, VALVE_IN_B_1, top, &p->deflate[VALVE_CORE_IN]);
        deflate_table(in->ambient_abs_pa, VALVE_OUT_B_1, top, &p->deflate[VALVE_CORE_OUT]);
    }
    return STATUS_OK;
}
