#include <math.h>

#include "base/num.h"
#include "core/constants.h"
#include "sim/forecast_part.h"

/* Letting down is one tyre at a time, whatever hangs where:
 *
 *   t = tau int dp (1 + k (2 p - pa)) / (p w(pa / p))     tau = V / (R T Cp)
 *
 * Two integrals, one without and one with the stretch k, serve every member. */

void deflate_table(double ambient_abs_pa, double b_1, double top_gauge_pa, struct deflate *d)
{
    const int last = PART_DEFLATE - 1;
    double pa = ambient_abs_pa, h = sqrt(top_gauge_pa) / last;
    d->top_pa = top_gauge_pa;
    d->plain_si[last] = d->stretched_si[last] = 0;
    double plain1 = 0, stretched1 = 0;
    for (int k = last; k >= 0; k--) {
        double x = fmax(h * k, 1e-2 * h), p = pa + x * x, slope = 0;
        double w = element_flow(1, b_1, p, pa, &slope); /* p w for a unit conductance */
        double plain0 = 2 * x / w, stretched0 = plain0 * (2 * p - pa);
        if (k < last) {
            d->plain_si[k] = d->plain_si[k + 1] + 0.5 * h * (plain0 + plain1);
            d->stretched_si[k] = d->stretched_si[k + 1] + 0.5 * h * (stretched0 + stretched1);
        }
        plain1 = plain0;
        stretched1 = stretched0;
    }
}

/* Time from the top of the table down to a pressure, for a unit tau. */
static double from_top(const struct deflate *d, double stretch_1_pa, double p_gauge_pa)
{
    const int last = PART_DEFLATE - 1;
    double x = sqrt(num_clamp(p_gauge_pa, 0, d->top_pa) / d->top_pa) * last;
    int k = x < last ? (int)x : last - 1;
    double a = d->plain_si[k] + stretch_1_pa * d->stretched_si[k];
    double b = d->plain_si[k + 1] + stretch_1_pa * d->stretched_si[k + 1];
    return a + (x - k) * (b - a);
}

/* The inverse: the pressure that long after the top. */
static double pressure_after(const struct deflate *d, double stretch_1_pa, double t_1)
{
    int lo = 0, hi = PART_DEFLATE - 1; /* time falls from lo to hi */
    while (hi - lo > 1) {
        int mid = (lo + hi) / 2;
        double t = d->plain_si[mid] + stretch_1_pa * d->stretched_si[mid];
        lo = t > t_1 ? mid : lo;
        hi = t > t_1 ? hi : mid;
    }
    double a = d->plain_si[lo] + stretch_1_pa * d->stretched_si[lo];
    double b = d->plain_si[hi] + stretch_1_pa * d->stretched_si[hi];
    double x = (lo + num_clamp((t_1 - a) / (b - a), 0, 1)) / (PART_DEFLATE - 1);
    return d->top_pa * x * x;
}

/* One tyre on its way down. */
struct deflating {
    const struct deflate *table;
    double tau_s, p_gauge_pa, target_gauge_pa, finish_s;
    double on_s, off_s;
};

static double target_of(const struct plan *p, int i)
{
    return p->s->in.corner[p->corner_of[i]].target_gauge_pa;
}

static void begin(const struct plan *p, const struct unknowns *u, struct deflating d[])
{
    for (int i = 0; i < p->n; i++) {
        const struct line_vessel *v = &p->line.vessel[i];
        double cp = element_conductance(v->area_m2 * u->area_1[i], p->line.temp_k);
        double tau = v->volume_m3 * u->volume_1[i] / (AIR_R_J_KG_K * p->line.temp_k * cp);
        const struct deflate *table = &p->deflate[plan_core(p, i)];
        double start = num_clamp(u->start_gauge_pa[i], 0, table->top_pa);
        bool there = start <= target_of(p, i);
        d[i] = (struct deflating){table, tau, start, target_of(p, i), there ? 0 : HUGE_VAL, 0, 0};
    }
}

static void pass(const struct plan *p, const struct unknowns *u, double running_s, double lasts_s,
                 unsigned open, struct deflating d[])
{
    for (int i = 0; i < p->n; i++) {
        if (!(open >> i & 1u)) {
            d[i].off_s += lasts_s;
            continue;
        }
        double t0 = from_top(d[i].table, u->stretch_1_pa, d[i].p_gauge_pa);
        double goal = from_top(d[i].table, u->stretch_1_pa, d[i].target_gauge_pa);
        double need_s = (goal - t0) * d[i].tau_s;
        if (!isfinite(d[i].finish_s) && need_s <= lasts_s) {
            d[i].finish_s = running_s + fmax(need_s, 0);
        }
        d[i].p_gauge_pa = pressure_after(d[i].table, u->stretch_1_pa, t0 + lasts_s / d[i].tau_s);
        d[i].on_s = (d[i].off_s > 0 ? 0 : d[i].on_s) + lasts_s;
        d[i].off_s = 0;
    }
}

/* The gauge shows less than settled while the air is cold. Steady, m R T = h A dT with h as the root
 * of the third order of dT p^2, so dT goes with m^(3/4) p^(-1/2), and so do the times of model F4:
 * scaled from the plan's figures at the target. */
static double shows(const struct plan *p, const struct unknowns *u, int i,
                    const struct deflating *d)
{
    const struct line_vessel *v = &p->line.vessel[i];
    double pa = p->s->in.ambient_abs_pa, at = d->target_gauge_pa + pa, slope = 0;
    double cp = element_conductance(v->area_m2 * u->area_1[i], p->line.temp_k);
    double m = element_flow(cp, v->b_1, d->p_gauge_pa + pa, pa, &slope);
    if (d->on_s <= 0 || m <= 0 || p->flow_kg_s[i] <= 0) {
        return d->p_gauge_pa;
    }
    double flow = m / p->flow_kg_s[i], rho = (d->p_gauge_pa + pa) / at;
    double cold = u->over_1 * p->over_si[i] * p->flow_kg_s[i] * at *
                  sqrt(sqrt(flow * flow * flow)) * sqrt(rho);
    double tau_s = u->over_1 * p->creep_s[i] * sqrt(rho) / sqrt(sqrt(flow));
    double left = 1 + d->off_s / (3 * tau_s);
    return d->p_gauge_pa - cold * (1 - exp(-d->on_s / tau_s)) / (left * left * left);
}

static void answer(const struct plan *p, const struct unknowns *u, int spans, int *next,
                   const struct deflating d[], struct member_out *out)
{
    for (; *next < p->n_obs && p->obs[*next].span <= spans; (*next)++) {
        double sum = 0, n = 0;
        for (int i = 0; i < p->n; i++) {
            if (p->obs[*next].at >> i & 1u) {
                sum += shows(p, u, i, &d[i]);
                n++;
            }
        }
        out->expected_pa[*next] = sum / n;
    }
}

static void note_now(const struct plan *p, const struct unknowns *u, double running_s,
                     const struct deflating d[], struct member_out *out)
{
    out->running_s = running_s;
    out->line_gauge_pa = 0;
    for (int i = 0; i < p->n; i++) {
        out->settled_gauge_pa[i] = d[i].p_gauge_pa;
        out->hot_gauge_pa[i] = shows(p, u, i, &d[i]);
        out->finish_s[i] = d[i].finish_s;
    }
}

/* The corners still to come, all at once or group after group. */
static void to_the_end(const struct plan *p, const struct unknowns *u, double running_s,
                       const struct deflating d[], struct member_out *out)
{
    unsigned left = ((1u << p->n) - 1) & ~p->dropped, done = 0;
    for (int g = -1; g < p->n_group; g++) {
        unsigned open = (g < 0 ? p->open_now : p->group[g]) & left & ~done;
        double longest_s = 0;
        for (int i = 0; i < p->n; i++) {
            if (open >> i & 1u && !isfinite(d[i].finish_s)) {
                double t0 = from_top(d[i].table, u->stretch_1_pa, d[i].p_gauge_pa);
                double t1 = from_top(d[i].table, u->stretch_1_pa, d[i].target_gauge_pa);
                double need_s = fmax((t1 - t0) * d[i].tau_s, 0);
                out->finish_s[i] = running_s + need_s;
                longest_s = fmax(longest_s, need_s);
            }
        }
        done |= open;
        running_s += longest_s;
    }
}

enum status member_deflate(const struct plan *p, const struct unknowns *u, enum member_until until,
                           struct member_out *out)
{
    struct deflating d[REFILL_CORNERS];
    const struct session *s = p->s;
    int next = 0;
    double running_s = 0;
    begin(p, u, d);
    for (int k = 0; k < s->n_span; k++) {
        const struct session_span *span = &s->span[k];
        unsigned open = span->air ? plan_dense(p, span->open) : 0;
        pass(p, u, running_s, span->lasts_s, open, d);
        running_s += span->air ? span->lasts_s : 0;
        answer(p, u, k + 1, &next, d, out);
    }
    if (until == MEMBER_READINGS) {
        return STATUS_OK;
    }
    double more_s = s->first_air_s >= 0 ? p->now_s - s->now_s : 0;
    pass(p, u, running_s, more_s, s->air ? p->open_now : 0, d);
    running_s += s->air ? more_s : 0;
    note_now(p, u, running_s, d, out);
    if (until == MEMBER_FINISH) {
        to_the_end(p, u, running_s, d, out);
    }
    return STATUS_OK;
}
