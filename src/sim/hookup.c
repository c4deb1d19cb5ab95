#include "sim/hookup.h"

#include <math.h>

#include "base/num.h"
#include "base/units.h"
#include "core/constants.h"
#include "sim/heat.h"
#include "sim/line.h"
#include "sim/run.h"

enum { HOOKS_MAX = REFILL_CORNERS, EVENTS_MAX = 200 };

/* Where a job stands: pressures, the clock, the machine's run time. Copied to try things out. */
struct job {
    const struct refill_in *in;
    const struct source *source;
    const struct hookup_change *change;
    double run_s, rest_s; /* the label's duty; run 0 = no limit */
    double p_abs_pa[REFILL_CORNERS], target_abs_pa[REFILL_CORNERS];
    double spare_abs_pa, tank_abs_pa;
    double used_s, stretch_s; /* of the run time; since the last rest */
    double wall_s;
    struct refill_plan plan;
};

/* Corners that hang together, and the air that flows into them. */
struct hook {
    unsigned corners, open; /* REFILL_CORNER bits */
    struct line line;
    struct run_state state;
    struct run_until until;
    int vessel_of[REFILL_CORNERS];
};

static void push(struct job *j, enum refill_do what, double for_s, unsigned corners)
{
    struct refill_plan *p = &j->plan;
    if (p->n_step == REFILL_STEPS) {
        p->problem = REFILL_STEP_CAP;
        return;
    }
    p->step[p->n_step++] =
        (struct refill_step){.what = what, .at_s = j->wall_s, .for_s = for_s, .corners = corners};
}

static void pass_running(struct job *j, double dt_s, bool on)
{
    j->wall_s += dt_s;
    j->plan.running_s += dt_s;
    j->used_s += on ? dt_s : 0;
    j->stretch_s += dt_s;
    j->plan.longest_run_s = fmax(j->plan.longest_run_s, j->stretch_s);
}

static void pass_rest(struct job *j, unsigned corners)
{
    push(j, REFILL_REST, j->rest_s, corners);
    j->wall_s += j->rest_s;
    j->plan.rest_s += j->rest_s;
    j->used_s = j->stretch_s = 0;
}

/* A move stops the machine for a while: that clears its share of the run time. */
static double used_after_move(const struct job *j)
{
    double share = j->run_s > 0 ? fmin(1, j->in->air.move_time_s / j->rest_s) : 0;
    return fmax(0, j->used_s - j->run_s * share);
}

static void pass_move(struct job *j, unsigned corners)
{
    double move_s = j->in->air.move_time_s;
    push(j, REFILL_MOVE, move_s, corners);
    j->wall_s += move_s;
    j->plan.handling_s += move_s;
    j->used_s = used_after_move(j);
    j->stretch_s = 0;
}

static unsigned vessel_bits(const struct hook *h, unsigned corners)
{
    unsigned bits = 0;
    for (int c = 0; c < REFILL_CORNERS; c++) {
        bits |= corners >> c & 1u ? 1u << h->vessel_of[c] : 0;
    }
    return bits;
}

static enum status hook_begin(const struct job *j, unsigned corners, struct hook *h)
{
    *h = (struct hook){.corners = corners, .open = corners};
    enum status st = hookup_line(j->in, j->source, j->change, corners, j->p_abs_pa,
                                 j->target_abs_pa, &h->line, h->vessel_of);
    if (st != STATUS_OK) {
        return st;
    }
    double p_abs_pa[LINE_VESSELS];
    p_abs_pa[h->line.n - 1] = j->spare_abs_pa; /* last, when there is one */
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (corners >> c & 1u) {
            p_abs_pa[h->vessel_of[c]] = j->p_abs_pa[c];
            h->until.target_kg[h->vessel_of[c]] =
                line_mass(&h->line, h->vessel_of[c], j->target_abs_pa[c]);
        }
    }
    const struct air_system *a = &j->in->air;
    if (a->source == AIR_COMPRESSOR && a->compressor.cut_out_gauge_pa > 0) {
        h->until.cut_out_abs_pa = a->compressor.cut_out_gauge_pa + j->in->ambient_abs_pa;
        h->until.cut_in_abs_pa = hookup_cut_in(a) + j->in->ambient_abs_pa;
    }
    h->until.watch = vessel_bits(h, corners);
    return run_begin(&h->line, p_abs_pa, j->tank_abs_pa, &h->state);
}

/* Read the pressures back off the line. */
static void hook_end(struct job *j, const struct hook *h)
{
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (h->corners >> c & 1u) {
            int i = h->vessel_of[c];
            j->p_abs_pa[c] = line_pressure(&h->line, i, h->state.mass_kg[i]);
        }
    }
    int last = h->line.n - 1;
    if (j->in->air.spare && j->in->air.spare_volume_m3 > 0) {
        j->spare_abs_pa = line_pressure(&h->line, last, h->state.mass_kg[last]);
    }
    if (h->line.tank_m3 > 0) {
        j->tank_abs_pa = h->state.tank_kg * AIR_R_J_KG_K * h->line.temp_k / h->line.tank_m3;
    }
}

/* What is written down for a corner that has its target; the flow is that of the last instant. */
static void record(struct job *j, const struct hook *h, int c, const struct line_flow *f)
{
    const struct refill_corner_in *in = &j->in->corner[c];
    double offset = j->in->air.gauge_offset_pa, pa = j->in->ambient_abs_pa;
    double one_kg_s = f->vessel_kg_s[h->vessel_of[c]];
    double settled = line_pressure(&h->line, h->vessel_of[c], h->state.mass_kg[h->vessel_of[c]]);
    double over = heat_over_read(settled, in->volume_m3 / in->tyres, j->in->tyre_temp_k, one_kg_s);
    j->plan.corner[c] = (struct refill_corner_out){
        .done_s = j->wall_s,
        .running_s = j->plan.running_s,
        .settled_gauge_pa = settled - pa,
        .stop_reading_gauge_pa = settled - pa + over + offset,
        .line_reading_gauge_pa = f->line_abs_pa - pa + offset,
        .flow_free_m3_s = fmax(one_kg_s, 0) * in->tyres / AIR_FREE_KG_M3,
        .reached = true,
    };
}

/* Drop every corner whose vessel has its target. */
static void drop_reached(struct job *j, struct hook *h, unsigned vessels)
{
    struct line_flow f;
    run_flow(&h->line, &h->state, &f);
    unsigned dropped = 0;
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (h->open >> c & 1u && vessels >> h->vessel_of[c] & 1u) {
            dropped |= 1u << c;
            double left =
                j->in->corner[c].target_gauge_pa + j->in->ambient_abs_pa - j->target_abs_pa[c];
            if (left <= RUN_TARGET_PA) { /* not a part-refill */
                record(j, h, c, &f);
            }
        }
    }
    push(j, REFILL_DROP, 0, dropped);
    h->open &= ~dropped;
    h->state.open &= ~vessels;
    h->until.watch &= ~vessels;
}

/* The machine rests; an open line goes on equalising meanwhile. */
static enum status rest_on_line(struct job *j, struct hook *h)
{
    pass_rest(j, 0);
    bool was_on = h->state.on;
    h->state.on = false;
    double end_s = h->state.time_s + j->rest_s;
    enum status st = run_to_time(&h->line, end_s, &h->state);
    h->state.time_s = end_s;
    h->state.on = was_on;
    return st == STATUS_E_NO_SOLUTION ? STATUS_OK : st; /* out of steps: equal long since */
}

/* A pressure switch with no tank cycles too fast to follow: the outlet is held at the cut-out, the
 * most that the machine can keep up, so that a stronger machine is never slower. A tyre above the
 * cut-in is then out of reach, for the machine does not start again. */
static enum refill_problem hold_outlet(const struct job *j, struct hook *h)
{
    double cut_in = h->until.cut_in_abs_pa;
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (h->open >> c & 1u && j->target_abs_pa[c] > cut_in) {
            return REFILL_CUT_OUT;
        }
    }
    h->line.held_abs_pa = h->until.cut_out_abs_pa;
    return REFILL_FINE;
}

static enum refill_problem stuck(const struct job *j, const struct hook *h)
{
    return !h->state.on                    ? REFILL_CUT_OUT
           : j->in->air.source == AIR_TANK ? REFILL_TANK_EMPTY
                                           : REFILL_SOURCE_WEAK;
}

/* One event: returns the problem that ends the hook, if any. */
static enum status hook_event(struct job *j, struct hook *h, enum refill_problem *problem)
{
    bool limited = j->run_s > 0 && h->state.on;
    struct run_event e;
    double before_s = h->state.time_s;
    h->until.time_s = limited ? before_s + fmax(0, j->run_s - j->used_s) : RUN_FOREVER_S;
    enum status st = run_to_event(&h->line, &h->until, &h->state, &e);
    if (st != STATUS_OK) {
        return st;
    }
    pass_running(j, h->state.time_s - before_s, h->state.on);
    switch (e.why) {
    case RUN_TARGET:
        drop_reached(j, h, e.reached);
        break;
    case RUN_TIME:
        return rest_on_line(j, h);
    case RUN_CUT_OUT:
        if (h->line.tank_m3 > 0) {
            h->state.on = false;
        } else {
            *problem = hold_outlet(j, h);
        }
        break;
    case RUN_CUT_IN:
        h->state.on = true;
        break;
    case RUN_STUCK:
        *problem = stuck(j, h);
        break;
    case RUN_STEPS:
        *problem = REFILL_STEP_CAP;
        break;
    }
    return STATUS_OK;
}

/* Fill some corners until each has its target. */
static enum status fill(struct job *j, unsigned corners)
{
    struct hook h;
    enum status st = hook_begin(j, corners, &h);
    int events = 0;
    while (st == STATUS_OK && h.open != 0 && j->plan.problem == REFILL_FINE) {
        st = hook_event(j, &h, &j->plan.problem);
        if (++events == EVENTS_MAX) {
            j->plan.problem = REFILL_STEP_CAP;
        }
    }
    if (st == STATUS_OK) {
        hook_end(j, &h);
    }
    return st;
}

/* Whether the machine should rest before these corners: they would not be done in what is left
 * of its run time after the move, but in a fresh one. */
static bool rest_first(const struct job *j, unsigned corners)
{
    if (!(j->run_s > 0) || j->used_s <= 0) {
        return false;
    }
    struct job try = *j;
    try.run_s = 0;
    if (fill(&try, corners) != STATUS_OK) {
        return false;
    }
    double need_s = try.plan.running_s - j->plan.running_s;
    return need_s <= j->run_s && used_after_move(j) + need_s > j->run_s;
}

/* The corners that still need air, as the hook-up takes them, in order. */
struct hooks {
    int n;
    unsigned corners[HOOKS_MAX];
    double rise_pa[HOOKS_MAX];
};

static void hooks_add(struct hooks *k, const struct job *j, unsigned corners)
{
    unsigned need = 0;
    double rise = 0;
    for (int c = 0; c < REFILL_CORNERS; c++) {
        double lacks = j->target_abs_pa[c] - j->p_abs_pa[c];
        if (corners >> c & 1u && j->in->corner[c].present && lacks > RUN_TARGET_PA) {
            need |= 1u << c;
            rise = fmax(rise, lacks);
        }
    }
    if (need == 0) {
        return;
    }
    int at = k->n++; /* by falling rise, ties as they come */
    bool trailer = corners >= 1u << REFILL_CORNER(AXLE_TRAILER, 0);
    for (; !trailer && at > 0 && rise > k->rise_pa[at - 1] + RUN_TARGET_PA; at--) {
        k->corners[at] = k->corners[at - 1];
        k->rise_pa[at] = k->rise_pa[at - 1];
    }
    k->corners[at] = need;
    k->rise_pa[at] = rise;
}

static struct hooks hooks_of(const struct job *j, enum hookup hookup)
{
    struct hooks k = {.n = 0};
    const unsigned pair = (1u << SIDE_COUNT) - 1;
    const int tow = REFILL_CORNER(AXLE_TRAILER, 0);
    if (hookup == HOOKUP_LINKED) {
        hooks_add(&k, j, (1u << tow) - 1);
    }
    for (int c = 0; c < tow && hookup != HOOKUP_LINKED;
         c += hookup == HOOKUP_PAIRS ? SIDE_COUNT : 1) {
        hooks_add(&k, j, hookup == HOOKUP_PAIRS ? pair << c : 1u << c);
    }
    for (int c = tow; c < REFILL_CORNERS; c += SIDE_COUNT) {
        hooks_add(&k, j, pair << c);
    }
    return k;
}

/* All hooks in turn; connected says that the first one is on already, at no cost. */
static enum status fill_all(struct job *j, const struct hooks *k, bool connected)
{
    for (int i = 0; i < k->n && j->plan.problem == REFILL_FINE; i++) {
        bool first = i == 0 && connected;
        if (!first && rest_first(j, k->corners[i])) {
            pass_rest(j, k->corners[i]); /* the hands work while the machine rests */
        } else if (!first) {
            pass_move(j, k->corners[i]);
        }
        enum status st = fill(j, k->corners[i]);
        if (st != STATUS_OK) {
            return st;
        }
    }
    return STATUS_OK;
}

static void job_targets(struct job *j, bool gravel)
{
    for (int c = 0; c < REFILL_CORNERS; c++) {
        const struct refill_corner_in *in = &j->in->corner[c];
        double p = gravel ? fmin(in->gravel_gauge_pa, in->target_gauge_pa) : in->target_gauge_pa;
        j->target_abs_pa[c] = p + j->in->ambient_abs_pa;
    }
}

static void job_begin(struct job *j, const struct refill_in *in, const struct source *source,
                      const struct hookup_change *change, enum hookup hookup)
{
    const struct air_system *a = &in->air;
    double pa = in->ambient_abs_pa;
    bool limited = a->source == AIR_COMPRESSOR && a->compressor.run_time_s > 0 &&
                   a->compressor.rest_time_s > 0;
    *j = (struct job){.in = in, .source = source, .change = change, .used_s = in->run_used_s};
    j->run_s = limited ? a->compressor.run_time_s : 0;
    j->rest_s = limited ? a->compressor.rest_time_s : 0;
    j->spare_abs_pa = a->spare_gauge_pa + pa;
    j->tank_abs_pa = a->tank_gauge_pa + pa;
    j->plan.hookup = hookup;
    for (int c = 0; c < REFILL_CORNERS; c++) {
        double from = in->corner[c].present ? in->corner[c].from_gauge_pa : 0;
        j->p_abs_pa[c] = from + pa;
        j->plan.corner[c].settled_gauge_pa = from;
    }
    job_targets(j, false);
}

/* Corners that have their target before any air. */
static void note_ready(struct job *j)
{
    unsigned ready = 0;
    for (int c = 0; c < REFILL_CORNERS; c++) {
        const struct refill_corner_in *in = &j->in->corner[c];
        if (in->present && in->target_gauge_pa - in->from_gauge_pa <= RUN_TARGET_PA) {
            double reads = in->from_gauge_pa + j->in->air.gauge_offset_pa;
            j->plan.corner[c].stop_reading_gauge_pa = reads;
            j->plan.corner[c].line_reading_gauge_pa = reads;
            j->plan.corner[c].reached = true;
            ready |= 1u << c;
        }
    }
    if (ready != 0 && j->plan.hookup == HOOKUP_LINKED) {
        push(j, REFILL_DROP, 0, ready);
    }
}

static void job_end(struct job *j)
{
    struct refill_plan *p = &j->plan;
    p->total_s = p->running_s + p->rest_s + p->handling_s;
    push(j, REFILL_STOP, 0, 0);
    p->possible = p->problem == REFILL_FINE || p->problem == REFILL_NOTHING_TO_DO;
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (j->in->corner[c].present && !p->corner[c].reached) {
            p->corner[c].settled_gauge_pa = j->p_abs_pa[c] - j->in->ambient_abs_pa;
        }
    }
}

/* Before any air: what can be known from the label alone. */
static enum refill_problem foreseen(const struct job *j)
{
    const struct air_system *a = &j->in->air;
    double top = 0, slope = 0;
    for (int c = 0; c < REFILL_CORNERS; c++) {
        bool needs =
            j->in->corner[c].present && j->target_abs_pa[c] - j->p_abs_pa[c] > RUN_TARGET_PA;
        top = needs ? fmax(top, j->target_abs_pa[c]) : top;
    }
    if (top == 0) {
        return REFILL_NOTHING_TO_DO;
    }
    double out = a->source == AIR_COMPRESSOR ? a->compressor.cut_out_gauge_pa : 0;
    if (out > 0 && top >= out + j->in->ambient_abs_pa) {
        return REFILL_CUT_OUT;
    }
    bool helped = a->tank_volume_m3 > 0 || a->spare;
    bool flows = source_flow(j->source, j->change->scale_1, 0, top, &slope) > 0;
    return !helped && !flows ? a->source == AIR_TANK ? REFILL_TANK_EMPTY : REFILL_SOURCE_WEAK
                             : REFILL_FINE;
}

/* Plan B: everything to the gravel target, a rest, then the remainder. */
static enum status part_refill(const struct job *fresh, struct job *b)
{
    *b = *fresh;
    job_targets(b, true);
    struct hooks k = hooks_of(b, b->plan.hookup);
    enum status st = fill_all(b, &k, true);
    if (st != STATUS_OK || b->plan.problem != REFILL_FINE || k.n == 0) {
        return st == STATUS_OK ? STATUS_E_NO_SOLUTION : st;
    }
    job_targets(b, false);
    k = hooks_of(b, b->plan.hookup);
    if (k.n > 0) {
        pass_rest(b, k.corners[0]);
    }
    st = fill_all(b, &k, true);
    job_end(b);
    return st;
}

/* Take the shorter of plan A (in j) and plan B, and remember the other's total. */
static void choose(const struct job *fresh, struct job *j)
{
    struct job b;
    if (part_refill(fresh, &b) != STATUS_OK || !b.plan.possible) {
        return;
    }
    struct refill_plan *a = &j->plan;
    if (b.plan.total_s < a->total_s) {
        b.plan.part_refill = true;
        b.plan.other_total_s = a->total_s;
        *a = b.plan;
    } else {
        a->other_total_s = b.plan.total_s;
    }
}

enum status hookup_plan(const struct refill_in *in, const struct source *source,
                        const struct hookup_change *change, enum hookup hookup,
                        struct refill_plan *plan)
{
    struct job fresh, j;
    job_begin(&fresh, in, source, change, hookup);
    note_ready(&fresh);
    fresh.plan.problem = foreseen(&fresh);
    j = fresh;
    if (j.plan.problem == REFILL_FINE) {
        struct hooks k = hooks_of(&j, hookup);
        enum status st = fill_all(&j, &k, true);
        if (st != STATUS_OK) {
            return st;
        }
    }
    job_end(&j);
    if (j.plan.possible && j.plan.rest_s > 0 && hookup != HOOKUP_LINKED) {
        choose(&fresh, &j);
    }
    *plan = j.plan;
    return STATUS_OK;
}
