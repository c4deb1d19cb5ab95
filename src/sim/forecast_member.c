#include <math.h>

#include "core/constants.h"
#include "sim/forecast_part.h"

#define PAUSE_MOST_S 90.0 /* s: an open line has long levelled out by then */

enum { EVENTS_MAX = 40 };

/* One member on its way through the session. */
struct member {
    const struct plan *p;
    const struct unknowns *u;
    struct line line;
    struct run_state run;
    struct run_until until;
    struct flow flow;
    const struct hoses *hose;
    unsigned ahead; /* corners that have not had their target yet */
    double running_s;
    /* of each corner: how long air flowed into it, how long ago that ended, its flow at the end */
    double on_s[REFILL_CORNERS], off_s[REFILL_CORNERS], shut_kg_s[REFILL_CORNERS];
    struct member_out *out;
};

/* Air that comes in warm settles to the wall as h ~ dT^(1/3) has it. */
double member_over_read(const struct plan *p, const struct unknowns *u, int i, double p_abs_pa,
                        double flow_kg_s, double on_s, double off_s)
{
    double over = u->over_1 * p->over_si[i] * flow_kg_s * p_abs_pa;
    double tau_s = p->creep_s[i] * u->over_1;
    if (over == 0) {
        return 0;
    }
    over *= 1 - exp(-on_s / tau_s);
    if (off_s > 0) {
        double slower = cbrt(p->flow_kg_s[i] / fabs(flow_kg_s));
        double left = 1 + off_s / (3 * tau_s * slower);
        over /= left * left * left;
    }
    return over;
}

static double settled_abs(const struct member *m, int i)
{
    return line_pressure(&m->line, i, m->run.mass_kg[i]);
}

static enum status connect(struct member *m, unsigned open)
{
    unsigned bits = open | (open != 0 ? m->p->spare : 0);
    m->flow.fresh = m->flow.fresh && bits == m->run.open;
    m->run.open = bits;
    for (int k = 0; k < m->p->n_hose; k++) {
        const struct hoses *h = &m->p->hose[k];
        if (h->open == open && h != m->hose) {
            m->hose = h;
            m->line.main_si = h->main_si;
            m->line.held_abs_pa = 0;
            for (int i = 0; i < m->line.n; i++) {
                m->line.vessel[i].hose_si = h->branch_si;
            }
            m->run.root_si = 0;
            m->flow.fresh = false;
            return line_prepare(&m->line);
        }
    }
    return STATUS_OK;
}

static enum status member_begin(const struct plan *p, const struct unknowns *u, struct member *m,
                                struct member_out *out)
{
    *m = (struct member){.p = p, .u = u, .line = p->line, .until = p->until, .out = out};
    double abs_pa[LINE_VESSELS];
    flow_begin(&m->line, &m->flow);
    m->line.source = &p->source;
    m->line.scale_1 = u->scale_1;
    m->line.extra_sag_1 = u->extra_sag_1;
    for (int i = 0; i < p->n; i++) {
        struct line_vessel *v = &m->line.vessel[i];
        v->volume_m3 *= u->volume_1[i];
        v->area_m2 *= u->area_1[i];
        v->stretch_1_pa = u->stretch_1_pa;
        abs_pa[i] = fmax(u->start_gauge_pa[i], 0) + p->s->in.ambient_abs_pa;
    }
    abs_pa[p->n] = p->s->in.air.spare_gauge_pa + p->s->in.ambient_abs_pa;
    unsigned first = p->s->n_span > 0 ? plan_dense(p, p->s->span[0].open) : p->open_now;
    enum status st = line_prepare(&m->line);
    if (st == STATUS_OK) {
        st = run_begin(&m->line, abs_pa, p->tank_abs_pa, &m->run);
    }
    if (st == STATUS_OK) {
        st = connect(m, first);
    }
    for (int i = 0; i < p->n; i++) {
        double to = p->s->in.corner[p->corner_of[i]].target_gauge_pa + p->s->in.ambient_abs_pa;
        m->until.target_kg[i] = line_mass(&m->line, i, to);
        bool there = abs_pa[i] >= to - RUN_TARGET_PA;
        out->finish_s[i] = there ? 0 : HUGE_VAL;
        m->ahead |= there ? 0 : 1u << i;
    }
    return st;
}

static void note_reached(struct member *m, unsigned reached, bool drop)
{
    m->ahead &= ~reached;
    m->run.open &= drop ? ~reached : ~0u;
    m->flow.fresh = m->flow.fresh && !drop;
}

/* What to do at an event of a line with a tank; false when no air will flow any more. */
static bool handle(struct member *m, const struct run_event *e, bool drop)
{
    switch (e->why) {
    case RUN_TARGET:
        for (int i = 0; i < m->p->n; i++) {
            m->out->finish_s[i] = e->reached >> i & 1u ? m->running_s : m->out->finish_s[i];
        }
        note_reached(m, e->reached, drop);
        return true;
    case RUN_CUT_OUT:
    case RUN_CUT_IN:
        m->run.on = e->why == RUN_CUT_IN;
        return true;
    case RUN_TIME:
    case RUN_STUCK:
    case RUN_STEPS:
        break;
    }
    return false;
}

/* A tank makes the air come in bouts: exactly, then. */
static enum status feed_tank(struct member *m, bool drop, bool *more)
{
    struct run_event e;
    double before_s = m->run.time_s;
    enum status st = run_to_event(&m->line, &m->until, &m->run, &e);
    m->running_s += m->run.time_s - before_s;
    *more = st == STATUS_OK && handle(m, &e, drop);
    return st;
}

static enum status feed_line(struct member *m, bool drop, bool *more)
{
    struct flow_event e = {.stop_at_target = drop};
    double before_s = m->run.time_s;
    enum status st = flow_to_event(&m->flow, &m->until, &m->run, &e);
    for (int i = 0; i < m->p->n; i++) {
        if (e.reached >> i & 1u) {
            m->out->finish_s[i] = m->running_s + e.at_s[i] - before_s;
        }
    }
    m->running_s += m->run.time_s - before_s;
    note_reached(m, e.reached, drop);
    double out = m->until.cut_out_abs_pa;
    if (out > 0 && m->flow.outlet_abs_pa > out && !(m->line.held_abs_pa > 0)) {
        m->line.held_abs_pa = m->p->held_abs_pa; /* a pressure switch cycling */
        m->run.root_si = 0;
        m->flow.fresh = false;
    }
    *more = !e.gave_up && m->until.time_s - m->run.time_s > 1e-9;
    return st;
}

/* Air flows until end_s of the run's clock, or, when dropping, until every open corner is done. */
static enum status feed(struct member *m, double end_s, bool drop)
{
    enum status st = STATUS_OK;
    bool more = true;
    m->run.on = true;
    for (int events = 0; events < EVENTS_MAX && more && st == STATUS_OK; events++) {
        m->until.watch = m->ahead & m->run.open;
        m->until.time_s = end_s;
        if (drop && m->until.watch == 0) {
            break;
        }
        st = m->line.tank_m3 > 0 ? feed_tank(m, drop, &more) : feed_line(m, drop, &more);
    }
    return st;
}

/* Flow into each corner now. */
static void note_flows(struct member *m, unsigned open)
{
    if (m->line.tank_m3 > 0 || !m->flow.fresh) {
        struct line_flow f;
        run_flow(&m->line, &m->run, &f);
        for (int i = 0; i < m->line.n; i++) {
            m->flow.rate_kg_s[i] = f.vessel_kg_s[i];
        }
    }
    for (int i = 0; i < m->p->n; i++) {
        m->shut_kg_s[i] = open >> i & 1u ? m->flow.rate_kg_s[i] : m->shut_kg_s[i];
    }
}

/* How long each corner has been taking air, or left alone. */
static void keep_clocks(struct member *m, double lasts_s, unsigned taking)
{
    for (int i = 0; i < m->p->n; i++) {
        if (taking >> i & 1u) {
            m->on_s[i] = (m->off_s[i] > 0 ? 0 : m->on_s[i]) + lasts_s;
            m->off_s[i] = 0;
        } else {
            m->off_s[i] += lasts_s;
        }
    }
}

static enum status pass_on(struct member *m, double lasts_s, unsigned open)
{
    enum status st = connect(m, open);
    if (st == STATUS_OK && open != 0) {
        st = feed(m, m->run.time_s + lasts_s, false);
    }
    if (st == STATUS_OK && open != 0) {
        note_flows(m, open);
    }
    keep_clocks(m, lasts_s, open);
    return st;
}

/* Corners on an open line level out; nothing flows between closed or checked ones. */
static enum status pass_off(struct member *m, double lasts_s, unsigned open)
{
    keep_clocks(m, lasts_s, 0);
    enum status st = connect(m, open);
    bool flows = (m->run.open & (m->run.open - 1)) != 0 || m->line.tank_m3 > 0;
    if (st != STATUS_OK || !flows || open == 0 || lasts_s <= 0) {
        return st;
    }
    double most_s = fmin(lasts_s, PAUSE_MOST_S);
    m->flow.fresh = false;
    if (!(m->line.tank_m3 > 0)) {
        flow_level(&m->line, most_s, &m->run);
        return STATUS_OK;
    }
    struct run_event e;
    struct run_until until = {.time_s = m->run.time_s + most_s};
    m->run.on = false;
    m->run.step_s = 0;
    return run_to_event(&m->line, &until, &m->run, &e);
}

static enum status pass(struct member *m, double lasts_s, bool air, unsigned open)
{
    return air ? pass_on(m, lasts_s, open) : pass_off(m, lasts_s, open);
}

/* Settled pressure and what the gauge of a corner shows, gauge. */
static void corner_now(const struct member *m, int i, double *settled, double *hot)
{
    double p = settled_abs(m, i), pa = m->p->s->in.ambient_abs_pa;
    *settled = p - pa;
    *hot = *settled +
           member_over_read(m->p, m->u, i, p, fmax(m->shut_kg_s[i], 0), m->on_s[i], m->off_s[i]);
}

/* What a gauge on the line shows while air flows into the warm tyres. */
static double line_now(const struct member *m)
{
    double abs_pa[LINE_VESSELS], root = m->run.root_si, pa = m->p->s->in.ambient_abs_pa;
    for (int i = 0; i < m->line.n; i++) {
        double settled = 0, hot = 0;
        if (i < m->p->n) {
            corner_now(m, i, &settled, &hot);
        }
        abs_pa[i] = i < m->p->n ? hot + pa : settled_abs(m, i);
    }
    double tank =
        m->line.tank_m3 > 0 ? m->run.tank_kg * AIR_R_J_KG_K * m->line.temp_k / m->line.tank_m3 : 0;
    struct line_flow f;
    (void)line_solve(&m->line, m->run.open, true, abs_pa, tank, &root, &f);
    return f.line_abs_pa - pa;
}

static double expected(const struct member *m, const struct observation *o)
{
    if (o->flowing) {
        return line_now(m);
    }
    double sum = 0, n = 0;
    for (int i = 0; i < m->p->n; i++) {
        if (o->at >> i & 1u) {
            double settled = 0, hot = 0;
            corner_now(m, i, &settled, &hot);
            sum += hot;
            n++;
        }
    }
    return sum / n;
}

/* Answers the observations made after so many spans. */
static void answer(struct member *m, int spans, int *next)
{
    while (*next < m->p->n_obs && m->p->obs[*next].span <= spans) {
        m->out->expected_pa[*next] = expected(m, &m->p->obs[*next]);
        (*next)++;
    }
}

static enum status through_session(struct member *m, enum member_until until)
{
    const struct session *s = m->p->s;
    enum status st = STATUS_OK;
    int next = 0;
    for (int k = 0; k < s->n_span && st == STATUS_OK; k++) {
        if (until == MEMBER_READINGS && next == m->p->n_obs) {
            return STATUS_OK;
        }
        const struct session_span *span = &s->span[k];
        st = pass(m, span->lasts_s, span->air, plan_dense(m->p, span->open));
        answer(m, k + 1, &next);
    }
    if (st == STATUS_OK && until != MEMBER_READINGS && s->first_air_s >= 0) {
        st = pass(m, m->p->now_s - s->now_s, s->air, m->p->open_now);
    }
    return st;
}

static void note_now(struct member *m)
{
    m->out->running_s = m->running_s;
    for (int i = 0; i < m->p->n; i++) {
        corner_now(m, i, &m->out->settled_gauge_pa[i], &m->out->hot_gauge_pa[i]);
    }
    m->out->line_gauge_pa = m->run.open != 0 ? line_now(m) : 0;
}

/* Fill what is left: the corners on the line first, then group by group. */
static enum status to_the_end(struct member *m)
{
    unsigned left = m->ahead & ~m->p->dropped;
    unsigned first = m->p->open_now & left;
    enum status st = STATUS_OK;
    for (int g = -1; g < m->p->n_group && st == STATUS_OK; g++) {
        unsigned open = g < 0 ? first : m->p->group[g] & left & ~first;
        if (open != 0) {
            st = connect(m, g < 0 ? m->p->open_now : m->p->group[g]);
            m->run.open = open | m->p->spare;
            m->run.step_s = 0;
            m->flow.fresh = false;
            if (st == STATUS_OK) {
                st = feed(m, RUN_FOREVER_S, true);
            }
        }
    }
    return st;
}

enum status member_run(const struct plan *p, const struct unknowns *u, enum member_until until,
                       struct member_out *out)
{
    struct member m;
    enum status st = member_begin(p, u, &m, out);
    if (st == STATUS_OK) {
        st = through_session(&m, until);
    }
    if (st == STATUS_OK && until != MEMBER_READINGS) {
        note_now(&m);
    }
    if (st == STATUS_OK && until == MEMBER_FINISH) {
        st = to_the_end(&m);
    }
    return st;
}
