#include "sim/forecast.h"

#include <math.h>
#include <stddef.h>

#include "base/num.h"
#include "base/units.h"
#include "sim/forecast_part.h"

#define EFFECTIVE_FEW_1 50.0 /* fewer effective members than this are drawn anew, model F1 */
enum { ROUNDS_MAX = 3, PILOT_PART = 4 };

const char *forecast_fit_name(enum forecast_fit fit)
{
    static const char *const names[] = {"good", "poor", "out of step"};
    return names[fit];
}

static enum status run_one(const struct plan *p, const double z[], enum member_until until,
                           struct member_out *out, double *ratio)
{
    struct unknowns u;
    unknowns_of(p, z, &u);
    *ratio = u.ratio_1;
    return p->s->up ? member_run(p, &u, until, out) : member_deflate(p, &u, until, out);
}

/* Simulate member m and note what it says; a member that cannot be simulated gets no weight. */
static void run_member(struct forecast *f, const struct plan *p, int m)
{
    struct member_out out;
    f->log_weight_1[m] = -HUGE_VAL;
    if (run_one(p, f->z_1[m], MEMBER_FINISH, &out, &f->ratio_1[m]) != STATUS_OK) {
        return;
    }
    f->log_weight_1[m] = like_of(p, out.expected_pa);
    for (int i = 0; i < p->n; i++) {
        f->finish_s[m][i] = out.finish_s[i];
        f->settled_gauge_pa[m][i] = out.settled_gauge_pa[i];
        f->hot_gauge_pa[m][i] = out.hot_gauge_pa[i];
    }
    f->line_gauge_pa[m] = out.line_gauge_pa;
}

/* Weights of the first n from log weights; returns their effective number. */
static double weigh(struct forecast *f, int n)
{
    double top = -HUGE_VAL, sum = 0, squares = 0;
    for (int m = 0; m < n; m++) {
        top = fmax(top, f->log_weight_1[m]);
    }
    for (int m = 0; m < n; m++) {
        f->weight_1[m] = isfinite(top) ? exp(f->log_weight_1[m] - top) : 0;
        sum += f->weight_1[m];
    }
    for (int m = 0; m < n && sum > 0; m++) {
        f->weight_1[m] /= sum;
        squares += f->weight_1[m] * f->weight_1[m];
    }
    return squares > 0 ? 1 / squares : 0;
}

/* Draw members from..to-1 from the cloud (NULL: from the prior), simulate and weigh all up to there. */
static double populate(struct forecast *f, const struct plan *p, const struct cloud *cloud,
                       int from, int to)
{
    const int every = (int)(1 / CLOUD_PRIOR_1);
    for (int m = from; m < to; m++) {
        bool prior = cloud == NULL || m % every == 0;
        for (int d = 0; d < p->dims && prior; d++) {
            f->z_1[m][d] = f->draw_1[m][d];
        }
        if (!prior) {
            cloud_draw(cloud, f->draw_1[m], f->tail_1[m], f->z_1[m]);
        }
        run_member(f, p, m);
        f->log_weight_1[m] -= cloud != NULL ? cloud_log_density(cloud, f->z_1[m]) : 0;
    }
    return weigh(f, to);
}

/* A quarter of the members tries the cloud; while few of them count it is laid anew about those. The
 * rest are drawn from what suits. */
static double gather(struct forecast *f, const struct plan *p, struct cloud *cloud, int *rounds)
{
    const int pilot = f->members / PILOT_PART;
    double effective = populate(f, p, cloud, 0, pilot);
    while (effective * PILOT_PART < EFFECTIVE_FEW_1 && *rounds < ROUNDS_MAX &&
           cloud_of_members(f, pilot, cloud) == STATUS_OK) {
        effective = populate(f, p, cloud, 0, pilot);
        (*rounds)++;
    }
    return populate(f, p, cloud, pilot, f->members);
}

/* The most probable unknowns. A corner that is out of step would drag its mates along and make them
 * look odd: the worst is set apart, its core its own, and the others are judged anew. */
static enum status judge(struct plan *p, struct found *found, struct cloud *cloud,
                         struct forecast_out *out)
{
    struct found best;
    enum status st = search_best(p, found, cloud);
    best = *found;
    for (int k = 0; k < p->n - 1 && st == STATUS_OK; k++) {
        int odd = report_odd_one(p, &best, out);
        if (odd < 0) {
            break;
        }
        p->apart |= 1u << odd;
        st = search_best(p, &best, cloud);
    }
    return st;
}

static enum status learn(struct forecast *f, struct plan *p, struct forecast_out *out)
{
    struct found found = {.z_1 = {0}};
    struct cloud cloud;
    if (p->n_obs == 0) {
        out->effective_1 = populate(f, p, NULL, 0, f->members);
        return out->effective_1 > 0 ? STATUS_OK : STATUS_E_NO_SOLUTION;
    }
    enum status st = judge(p, &found, &cloud, out);
    if (st != STATUS_OK) {
        return st;
    }
    f->apart = out->out_of_step;
    report_fit(p, &found, out);
    out->effective_1 = gather(f, p, &cloud, &out->rounds);
    return out->effective_1 > 0 ? STATUS_OK : STATUS_E_NO_SOLUTION;
}

enum status forecast_update(struct forecast *f, const struct session *s, double now_s,
                            struct forecast_out *out)
{
    struct plan p;
    enum status st = plan_make(f, s, now_s, &p);
    if (st != STATUS_OK) {
        return st;
    }
    struct forecast_out made = {.readings = 0};
    f->apart = p.apart = 0;
    st = learn(f, &p, &made);
    if (st != STATUS_OK) {
        return st;
    }
    report_choose_few(f, &p);
    report_all(f, &p, &made);
    *out = made;
    return STATUS_OK;
}

enum status forecast_tick(struct forecast *f, const struct session *s, double now_s,
                          struct forecast_out *out)
{
    struct plan p;
    enum status st = plan_make(f, s, now_s, &p);
    if (st != STATUS_OK) {
        return st;
    }
    struct few few;
    for (int k = 0; k < FORECAST_FEW; k++) {
        double ratio = 0;
        st = run_one(&p, f->z_1[f->few[k]], MEMBER_NOW, &few.member[k], &ratio);
        if (st != STATUS_OK) {
            return st;
        }
    }
    report_tick(&p, &few, out);
    return STATUS_OK;
}

enum status forecast_learn(const struct forecast *f, const struct session *s,
                           struct forecast_learned *l)
{
    bool read = false;
    for (int k = 0; k < s->n_reading; k++) {
        read = read || (!s->reading[k].undone && s->reading[k].span > 0);
    }
    if (!s->up || !read) {
        return STATUS_E_MISSING;
    }
    if (!isfinite(s->in.inlet_temp_k) || !isfinite(s->in.ambient_abs_pa)) {
        return STATUS_E_DOMAIN;
    }
    double mean = 0, var = 0;
    for (int m = 0; m < f->members; m++) {
        mean += f->weight_1[m] * log(f->ratio_1[m]);
    }
    for (int m = 0; m < f->members; m++) {
        double d = log(f->ratio_1[m]) - mean;
        var += f->weight_1[m] * d * d;
    }
    *l = (struct forecast_learned){.log_mean_1 = mean,
                                   .log_sd_1 = sqrt(var),
                                   .temp_k = s->in.inlet_temp_k,
                                   .ambient_abs_pa = s->in.ambient_abs_pa};
    return STATUS_OK;
}
