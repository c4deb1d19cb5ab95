#include <math.h>

#include "core/constants.h"
#include "sim/forecast_part.h"

/* A thousand members need no more than a tenth of a second each: a third-order step with its
 * second-order partner as a check, and targets met on the cubic through both ends of a step:
 *
 *   m |          __..--o     o, o: mass and flow known
 *     |     _.-X'            X: the target's mass, found on the cubic
 *     |   o'
 *     +-----------------t */

#define LOCAL_PA 40.0  /* Pa, difference of the two orders accepted a step; own choice */
#define STEP_S   120.0 /* longest step */
#define LEVEL_PA 1.0   /* Pa, level enough */
enum { STEPS_MAX = 200 };

void flow_begin(const struct line *l, struct flow *w)
{
    *w = (struct flow){.line = l};
}

/* Flow into each vessel for given masses. */
static void rates(const struct flow *w, struct run_state *s, const double mass[], double rate[],
                  double *outlet_abs_pa)
{
    const struct line *l = w->line;
    double abs_pa[LINE_VESSELS];
    struct line_flow f;
    for (int i = 0; i < l->n; i++) {
        abs_pa[i] = s->open >> i & 1u ? line_pressure(l, i, mass[i]) : l->ambient_abs_pa;
    }
    (void)line_solve(l, s->open, s->on, abs_pa, 0, &s->root_si, &f);
    for (int i = 0; i < l->n; i++) {
        rate[i] = f.vessel_kg_s[i];
    }
    *outlet_abs_pa = f.outlet_abs_pa;
}

void flow_refresh(struct flow *w, struct run_state *s)
{
    rates(w, s, s->mass_kg, w->rate_kg_s, &w->outlet_abs_pa);
    w->fresh = true;
}

/* One step of h; the difference of the orders in pascals, worst of the open vessels. */
static double bogacki(struct flow *w, struct run_state *s, double h, double y1[], double k4[],
                      double *outlet_abs_pa)
{
    double k2[LINE_VESSELS], k3[LINE_VESSELS], y[LINE_VESSELS], worst = 0;
    const double *k1 = w->rate_kg_s;
    int n = w->line->n;
    for (int i = 0; i < n; i++) {
        y[i] = s->mass_kg[i] + 0.5 * h * k1[i];
    }
    rates(w, s, y, k2, outlet_abs_pa);
    for (int i = 0; i < n; i++) {
        y[i] = s->mass_kg[i] + 0.75 * h * k2[i];
    }
    rates(w, s, y, k3, outlet_abs_pa);
    for (int i = 0; i < n; i++) {
        y1[i] = s->mass_kg[i] + h / 9 * (2 * k1[i] + 3 * k2[i] + 4 * k3[i]);
    }
    rates(w, s, y1, k4, outlet_abs_pa);
    for (int i = 0; i < n; i++) {
        double e = h * (-5 * k1[i] + 6 * k2[i] + 8 * k3[i] - 9 * k4[i]) / 72;
        double kg_pa = line_mass_slope(w->line, i, w->line->ambient_abs_pa);
        worst = fmax(worst, fabs(e) / kg_pa);
    }
    return worst;
}

/* Mass of a vessel on the cubic, at share x of the step. */
static double cubic(double y0, double y1, double d0, double d1, double x)
{
    double rise = y1 - y0;
    return y0 + x * (d0 + x * (3 * rise - 2 * d0 - d1 + x * (d0 + d1 - 2 * rise)));
}

/* Share of the step at which a vessel has its target: false position, kept in its bracket. */
static double share_of(double y0, double y1, double d0, double d1, double target)
{
    double lo = 0, hi = 1, flo = y0 - target, fhi = y1 - target, x = 1;
    for (int k = 0; k < 6 && fhi > flo; k++) {
        x = lo - flo * (hi - lo) / (fhi - flo);
        double f = cubic(y0, y1, d0, d1, x) - target;
        if (f < 0) {
            lo = x;
            flo = f;
        } else {
            hi = x;
            fhi = f;
        }
    }
    return x;
}

/* The longest step worth trying: to the end, or to the first watched target. */
static double step_length(const struct flow *w, const struct run_state *s,
                          const struct run_until *u)
{
    double h = fmin(u->time_s - s->time_s, STEP_S), first = HUGE_VAL;
    for (int i = 0; i < w->line->n; i++) {
        if (u->watch >> i & 1u && w->rate_kg_s[i] > 0) {
            first = fmin(first, (u->target_kg[i] - s->mass_kg[i]) / w->rate_kg_s[i]);
        }
    }
    return fmin(h, fmax(1.03 * first, 1));
}

/* Whether no watched target will ever be reached. */
static bool stuck(const struct flow *w, const struct run_state *s, const struct run_until *u)
{
    if (u->time_s < RUN_FOREVER_S) {
        return false;
    }
    for (int i = 0; i < w->line->n; i++) {
        double lacks = u->target_kg[i] - s->mass_kg[i];
        if (u->watch >> i & 1u && w->rate_kg_s[i] * RUN_STUCK_S > lacks) {
            return false;
        }
    }
    return true;
}

/* Watched vessels that a step carries over their targets; the first one's share of the step. */
static unsigned crossed(const struct flow *w, const struct run_state *s, const struct run_until *u,
                        double h, const double y1[], const double k4[], double share[])
{
    unsigned bits = 0;
    for (int i = 0; i < w->line->n; i++) {
        if (u->watch >> i & 1u && y1[i] >= u->target_kg[i]) {
            share[i] =
                share_of(s->mass_kg[i], y1[i], h * w->rate_kg_s[i], h * k4[i], u->target_kg[i]);
            bits |= 1u << i;
        }
    }
    return bits;
}

/* Accepts the step, cut short at the first target when the caller wants to stop there. */
static void accept(struct flow *w, struct run_state *s, const struct run_until *u, double h,
                   const double y1[], const double k4[], struct flow_event *e)
{
    double share[LINE_VESSELS], first = 1;
    unsigned bits = crossed(w, s, u, h, y1, k4, share);
    for (int i = 0; i < w->line->n; i++) {
        first = bits >> i & 1u ? fmin(first, share[i]) : first;
    }
    double upto = e->stop_at_target ? first : 1;
    for (int i = 0; i < w->line->n; i++) {
        double d0 = h * w->rate_kg_s[i], d1 = h * k4[i];
        bool now = bits >> i & 1u && share[i] * h <= upto * h + FLOW_TOGETHER_S;
        e->reached |= now ? 1u << i : 0u;
        e->at_s[i] = now ? s->time_s + share[i] * h : e->at_s[i];
        s->mass_kg[i] = upto < 1 ? cubic(s->mass_kg[i], y1[i], d0, d1, upto) : y1[i];
    }
    for (int i = 0; i < w->line->n && upto >= 1; i++) {
        w->rate_kg_s[i] = k4[i];
    }
    w->fresh = upto >= 1;
    s->time_s += upto * h;
}

enum status flow_to_event(struct flow *w, const struct run_until *u, struct run_state *s,
                          struct flow_event *e)
{
    double most = STEP_S;
    e->reached = 0;
    e->gave_up = false;
    for (int k = 0; k < STEPS_MAX && u->time_s - s->time_s > 1e-9; k++) {
        double y1[LINE_VESSELS], k4[LINE_VESSELS], outlet = 0;
        if (!w->fresh) {
            flow_refresh(w, s);
        }
        if (stuck(w, s, u)) {
            break;
        }
        double h = fmin(step_length(w, s, u), most);
        double worst = bogacki(w, s, h, y1, k4, &outlet);
        if (!isfinite(worst)) {
            return STATUS_E_DOMAIN;
        }
        if (worst > LOCAL_PA && h > 0.1) {
            most = h * fmax(0.2, 0.9 * cbrt(LOCAL_PA / worst));
            continue;
        }
        most = h * fmin(4, 0.9 * cbrt(LOCAL_PA / fmax(worst, 1)));
        accept(w, s, u, h, y1, k4, e);
        w->outlet_abs_pa = outlet;
        if (e->reached != 0) {
            return STATUS_OK;
        }
        if (u->cut_out_abs_pa > 0 && !(w->line->held_abs_pa > 0) && outlet > u->cut_out_abs_pa) {
            return STATUS_OK; /* the caller sees the outlet */
        }
    }
    e->gave_up = u->time_s - s->time_s > 1e-9;
    return STATUS_OK;
}

/* Levelling through an open line: the flow falls with the root of the difference, so that the
 * difference falls as (1 - t/2T)^2; what some give is what the others take. */
void flow_level(const struct line *l, double lasts_s, struct run_state *s)
{
    double abs_pa[LINE_VESSELS], gain[LINE_VESSELS] = {0}, in = 0, out = 0, root = 0;
    struct line_flow f;
    for (int i = 0; i < l->n; i++) {
        abs_pa[i] = line_pressure(l, i, s->mass_kg[i]);
    }
    (void)line_solve(l, s->open, false, abs_pa, 0, &root, &f);
    for (int i = 0; i < l->n; i++) {
        double m = f.vessel_kg_s[i], apart = f.line_abs_pa - abs_pa[i];
        if (s->open >> i & 1u && m * apart > 0 && fabs(apart) > LEVEL_PA) {
            double all = line_mass_slope(l, i, abs_pa[i]) * apart;
            double left = fmax(0, 1 - lasts_s * m / (2 * all));
            gain[i] = all * (1 - left * left);
            in += gain[i] > 0 ? l->vessel[i].count_1 * gain[i] : 0;
            out -= gain[i] < 0 ? l->vessel[i].count_1 * gain[i] : 0;
        }
    }
    double moved = fmin(in, out);
    for (int i = 0; i < l->n && moved > 0; i++) {
        s->mass_kg[i] += gain[i] * moved / (gain[i] > 0 ? in : out);
    }
}
