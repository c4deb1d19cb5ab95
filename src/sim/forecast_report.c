#include <math.h>

#include <gsl/gsl_sort.h>

#include "base/num.h"
#include "sim/forecast_part.h"
#include "sim/heat.h"

#define PACE_SD_1      0.010 /* of the time to come: 1-2 % that the model is off, model F1 */
#define PACE_STEP_SD_1 0.04  /* when a corner is out of step */
#define PACE_POOR_SD_1 0.08  /* when the readings do not suit the model; own judgement */
#define RESIDUAL_FAR_1 3.0   /* standard errors */
#define RATIO_FAR_1    3.0   /* standard normals: hardly any machine is so far from its label */
/* Own study, test_coverage: of 200 refills with like corners 2 have one beyond both. */
#define UNLIKE_1       2.4  /* standard errors from its mates */
#define UNLIKE_LEAST_1 1.0  /* standard normals of its own volume and core */
#define GAUGE_ERROR_1  0.42 /* of a step: sqrt(1/12 + 0.3^2), reference text section 8.3 */
#define FLOOR_P25_1    0.41 /* quartiles of a normal against its 5 % points: 0.674/1.645 */

/* Sorted values with weights, for quantiles. */
struct sorted {
    int n;
    const double *x, *w; /* w NULL: all alike */
    size_t order[FORECAST_MEMBERS];
};

static void sort(struct sorted *s, int n, const double x[], const double w[])
{
    s->n = n;
    s->x = x;
    s->w = w;
    gsl_sort_index(s->order, x, 1, (size_t)n);
}

/* Each value stands in the middle of its weight; between two of them a straight line. */
static double quantile(const struct sorted *s, double q)
{
    double sum = 0, at0 = 0, x0 = s->x[s->order[0]];
    for (int k = 0; k < s->n; k++) {
        double w = s->w != NULL ? s->w[s->order[k]] : 1.0 / s->n;
        double at1 = sum + 0.5 * w, x1 = s->x[s->order[k]];
        if (w > 0 && at1 >= q) {
            return k == 0 || !isfinite(x1) || at1 <= at0 || q <= at0
                       ? x1
                       : x0 + (x1 - x0) * (q - at0) / (at1 - at0);
        }
        sum += w;
        at0 = w > 0 ? at1 : at0;
        x0 = w > 0 ? x1 : x0;
    }
    return x0;
}

static struct forecast_time time_of(const struct sorted *s)
{
    return (struct forecast_time){quantile(s, 0.05), quantile(s, 0.25), quantile(s, 0.50),
                                  quantile(s, 0.75), quantile(s, 0.95)};
}

static struct forecast_gauge gauge_of(int n, const double x[], const double w[])
{
    struct sorted s;
    sort(&s, n, x, w);
    return (struct forecast_gauge){quantile(&s, 0.05), quantile(&s, 0.50), quantile(&s, 0.95)};
}

/* No band is narrower than the gauge allows: what it cannot tell over the rate of change. */
static void widen_to_gauge(struct forecast_time *t, double least_s, double now_s)
{
    double lo = least_s, mid = least_s * FLOOR_P25_1;
    t->p05_s = fmin(t->p05_s, fmax(t->p50_s - lo, fmin(now_s, t->p50_s)));
    t->p25_s = fmin(t->p25_s, fmax(t->p50_s - mid, fmin(now_s, t->p50_s)));
    t->p75_s = fmax(t->p75_s, t->p50_s + mid);
    t->p95_s = fmax(t->p95_s, t->p50_s + lo);
}

static struct forecast_time plus(struct forecast_time t, double s)
{
    return (struct forecast_time){t.p05_s + s, t.p25_s + s, t.p50_s + s, t.p75_s + s, t.p95_s + s};
}

static struct forecast_time exactly(double s)
{
    return (struct forecast_time){s, s, s, s, s};
}

static void report_seen(const struct plan *p, const struct found *found, struct forecast_out *out)
{
    int first = p->n_obs > FORECAST_SEEN ? p->n_obs - FORECAST_SEEN : 0;
    for (int k = first; k < p->n_obs; k++) {
        struct forecast_seen *seen = &out->seen[out->n_seen++];
        const struct observation *o = &p->obs[k];
        seen->at_s = o->at_s;
        seen->read_gauge_pa = o->p_gauge_pa;
        seen->expected_gauge_pa = found->expected_pa[k];
        seen->residual_1 = found->residual_1[k];
        seen->flowing = o->flowing;
        for (int i = 0; i < p->n; i++) {
            seen->corners |= o->at >> i & 1u ? 1u << p->corner_of[i] : 0u;
        }
    }
}

/* The worst standardised residual of a corner's own readings. */
static double own_residual(const struct plan *p, const struct found *found, int i)
{
    double worst = 0;
    for (int k = 0; k < p->n_obs; k++) {
        double r = found->residual_1[k];
        bool own = p->obs[k].at == 1u << i && !p->obs[k].flowing;
        worst = own && fabs(r) > fabs(worst) ? r : worst;
    }
    return worst;
}

/* How far out of step a corner is, 0 when it is not: its own readings are missed, or met only by
 * making it unlike its mates. */
static double out_by(const struct plan *p, const struct found *found, int i, double *residual)
{
    double odd = found->unlike_1[i], r = own_residual(p, found, i);
    double own = hypot(found->z_1[Z_OWN(i, Z_OWN_VOLUME)], found->z_1[Z_OWN(i, Z_OWN_CORE)]);
    bool far = fabs(r) > RESIDUAL_FAR_1 || (fabs(odd) > UNLIKE_1 && own > UNLIKE_LEAST_1);
    *residual = fabs(odd) > fabs(r) ? odd : r;
    return far ? fabs(*residual) : 0;
}

int report_odd_one(const struct plan *p, const struct found *found, struct forecast_out *out)
{
    double most = 0;
    int odd = -1;
    for (int i = 0; i < p->n && p->n > 1; i++) {
        struct forecast_corner *c = &out->corner[p->corner_of[i]];
        double residual = 0, by = p->apart >> i & 1u ? 0 : out_by(p, found, i, &residual);
        c->residual_1 = p->apart >> i & 1u ? c->residual_1 : residual;
        odd = by > most ? i : odd;
        most = fmax(most, by);
    }
    if (odd >= 0) {
        out->corner[p->corner_of[odd]].fit = FORECAST_OUT_OF_STEP;
        out->out_of_step |= 1u << p->corner_of[odd];
    }
    return odd;
}

void report_fit(const struct plan *p, const struct found *found, struct forecast_out *out)
{
    double squares = 0, worst = 0;
    report_seen(p, found, out);
    for (int k = 0; k < p->n_obs; k++) {
        unsigned at = p->obs[k].at;
        double r = found->residual_1[k];
        bool alone = (at & (at - 1)) == 0 && !p->obs[k].flowing;
        squares += r * r;
        worst = alone ? worst : fmax(worst, fabs(r));
    }
    bool poor = worst > RESIDUAL_FAR_1 || fabs(found->z_1[Z_RATIO]) > RATIO_FAR_1 ||
                squares > p->n_obs + RESIDUAL_FAR_1 * sqrt(2.0 * p->n_obs);
    out->fit = out->out_of_step != 0  ? FORECAST_OUT_OF_STEP
               : poor && p->n_obs > 0 ? FORECAST_POOR
                                      : FORECAST_GOOD;
}

/* The model's own doubt acts on the time still to come. */
static void apply_pace(struct forecast *f, const struct plan *p, double now_s,
                       enum forecast_fit fit)
{
    const double sd = fit == FORECAST_GOOD   ? PACE_SD_1
                      : fit == FORECAST_POOR ? PACE_POOR_SD_1
                                             : PACE_STEP_SD_1;
    for (int m = 0; m < f->members; m++) {
        double pace = exp(sd * f->z_1[m][Z_PACE]);
        for (int i = 0; i < p->n; i++) {
            double *t = &f->finish_s[m][i];
            *t = *t > now_s ? now_s + (*t - now_s) * pace : *t;
        }
    }
}

static double target_of(const struct plan *p, int i)
{
    return p->s->in.corner[p->corner_of[i]].target_gauge_pa;
}

static bool reached(const struct plan *p, int i, double settled)
{
    return p->s->up ? settled >= target_of(p, i) - RUN_TARGET_PA
                    : settled <= target_of(p, i) + RUN_TARGET_PA;
}

static enum forecast_state state_of(const struct plan *p, int i, const struct forecast_corner *c)
{
    if (p->s->done || p->dropped >> i & 1u) {
        return FORECAST_DONE;
    }
    if (c->fit == FORECAST_OUT_OF_STEP) {
        return FORECAST_CHECK;
    }
    if (p->s->first_air_s < 0 || !(p->open_now >> i & 1u)) {
        return FORECAST_WAITING;
    }
    return c->at_target_1 >= 0.5 ? FORECAST_DROP_NOW
           : p->s->air           ? FORECAST_FILLING
                                 : FORECAST_PAUSED;
}

/* The reading to stop at: target and over-read at the usual flow. */
static void stop_reading(const struct plan *p, int i, struct forecast_corner *c)
{
    struct unknowns u = {.over_1 = 1};
    double at = target_of(p, i) + p->s->in.ambient_abs_pa;
    double q = p->s->up ? p->flow_kg_s[i] : -p->flow_kg_s[i];
    c->target_gauge_pa = target_of(p, i);
    c->settle_by_pa = member_over_read(p, &u, i, at, q, HUGE_VAL, 0);
    c->stop_reading_gauge_pa = target_of(p, i) + c->settle_by_pa + p->s->in.air.gauge_offset_pa;
}

/* What a gauge step is in time for corner i. */
static double gauge_s(const struct plan *p, int i, double finish_s)
{
    double rise = fabs(target_of(p, i) - p->s->start_gauge_pa[p->corner_of[i]]);
    double e = GAUGE_ERROR_1 * p->s->in.air.gauge_step_pa;
    return isfinite(finish_s) && rise > 0 ? e * finish_s / rise : 0;
}

static void report_corner(const struct forecast *f, const struct plan *p, int i,
                          struct forecast_out *out)
{
    struct forecast_corner *c = &out->corner[p->corner_of[i]];
    double x[FORECAST_MEMBERS], settled[FORECAST_MEMBERS], hot[FORECAST_MEMBERS];
    c->present = true;
    for (int m = 0; m < f->members; m++) {
        x[m] = f->finish_s[m][i];
        settled[m] = f->settled_gauge_pa[m][i];
        hot[m] = f->hot_gauge_pa[m][i];
        c->at_target_1 += reached(p, i, settled[m]) ? f->weight_1[m] : 0;
    }
    c->settled = gauge_of(f->members, settled, f->weight_1);
    c->hot = gauge_of(f->members, hot, f->weight_1);
    struct sorted s;
    sort(&s, f->members, x, f->weight_1);
    c->finish = time_of(&s);
    widen_to_gauge(&c->finish, gauge_s(p, i, c->finish.p50_s), out->running_s);
    c->finish_wall = plus(c->finish, out->paused_s);
    if (p->dropped >> i & 1u) {
        int k = p->corner_of[i];
        c->finish = exactly(p->s->drop_running_s[k]);
        c->finish_wall = exactly(p->s->drop_at_s[k] - fmax(p->s->first_air_s, 0));
    }
    stop_reading(p, i, c);
    c->state = state_of(p, i, c);
}

/* The last corner of each member. */
static void report_whole(const struct forecast *f, const struct plan *p, struct forecast_out *out)
{
    double last[FORECAST_MEMBERS], least_s = 0;
    for (int m = 0; m < f->members; m++) {
        last[m] = 0;
        for (int i = 0; i < p->n; i++) {
            bool dropped = p->dropped >> i & 1u;
            double t = dropped ? p->s->drop_running_s[p->corner_of[i]] : f->finish_s[m][i];
            last[m] = fmax(last[m], t);
        }
        out->arrives_1 += isfinite(last[m]) ? f->weight_1[m] : 0;
    }
    struct sorted s;
    sort(&s, f->members, last, f->weight_1);
    out->finish = time_of(&s);
    for (int i = 0; i < p->n; i++) {
        bool dropped = p->dropped >> i & 1u;
        const struct forecast_corner *c = &out->corner[p->corner_of[i]];
        least_s = dropped ? least_s : fmax(least_s, gauge_s(p, i, c->finish.p50_s));
    }
    widen_to_gauge(&out->finish, least_s, out->running_s);
    out->finish_wall = plus(out->finish, out->paused_s);
}

static void report_times(const struct plan *p, struct forecast_out *out)
{
    const struct session *s = p->s;
    out->running_s = session_running(s, p->now_s);
    double wall_s = s->first_air_s >= 0 ? p->now_s - s->first_air_s : 0;
    out->paused_s = fmax(0, wall_s - out->running_s);
    out->readings = 0;
    for (int k = 0; k < s->n_reading; k++) {
        out->readings += !s->reading[k].undone && s->reading[k].span > 0;
    }
}

void report_all(struct forecast *f, const struct plan *p, struct forecast_out *out)
{
    struct sorted s;
    report_times(p, out);
    apply_pace(f, p, out->running_s, out->fit);
    for (int i = 0; i < p->n; i++) {
        report_corner(f, p, i, out);
    }
    report_whole(f, p, out);
    sort(&s, f->members, f->ratio_1, f->weight_1);
    out->delivery =
        (struct forecast_ratio){quantile(&s, 0.05), quantile(&s, 0.50), quantile(&s, 0.95)};
    out->line = gauge_of(f->members, f->line_gauge_pa, f->weight_1);
}

/* Members that stand for all with equal weight: every 1/FORECAST_FEW of the summed weight, from the
 * first that is done to the last, so that they are spread as all are. */
void report_choose_few(struct forecast *f, const struct plan *p)
{
    double last_s[FORECAST_MEMBERS], sum = 0;
    size_t order[FORECAST_MEMBERS];
    int at = -1;
    for (int m = 0; m < f->members; m++) {
        last_s[m] = f->finish_s[m][0];
        for (int i = 1; i < p->n; i++) {
            last_s[m] = fmax(last_s[m], f->finish_s[m][i]);
        }
    }
    gsl_sort_index(order, last_s, 1, (size_t)f->members);
    for (int k = 0; k < FORECAST_FEW; k++) {
        while (at < f->members - 1 && sum <= (k + 0.5) / FORECAST_FEW) {
            sum += f->weight_1[order[++at]];
        }
        f->few[k] = (int)order[at];
    }
}

void report_tick(const struct plan *p, const struct few *few, struct forecast_out *out)
{
    double x[FORECAST_FEW];
    report_times(p, out);
    for (int i = 0; i < p->n; i++) {
        struct forecast_corner *c = &out->corner[p->corner_of[i]];
        c->at_target_1 = 0;
        for (int k = 0; k < FORECAST_FEW; k++) {
            x[k] = few->member[k].settled_gauge_pa[i];
            c->at_target_1 += reached(p, i, x[k]) ? 1.0 / FORECAST_FEW : 0;
        }
        c->settled = gauge_of(FORECAST_FEW, x, NULL);
        for (int k = 0; k < FORECAST_FEW; k++) {
            x[k] = few->member[k].hot_gauge_pa[i];
        }
        c->hot = gauge_of(FORECAST_FEW, x, NULL);
        c->state = state_of(p, i, c);
    }
    for (int k = 0; k < FORECAST_FEW; k++) {
        x[k] = few->member[k].line_gauge_pa;
    }
    out->line = gauge_of(FORECAST_FEW, x, NULL);
}
