#include <math.h>

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_errno.h>
#include <gsl/gsl_qrng.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>
#include <gsl/gsl_roots.h>

#include "base/num.h"
#include "core/constants.h"
#include "core/refill_note.h"
#include "sim/forecast_part.h"

/* Delivery over volume against the label, in logs: most machines keep about what is printed, some
 * are far weaker (heat, thin cables, ratings that flatter), and no single bell has both. Together
 * they spread by 0.44, model F1 asks for 0.30; the shares are own judgement. */
#define RATIO_SD_1   0.17 /* Student-t5 */
#define WEAK_SHARE_1 0.25 /* of machines known by their label alone */
#define WEAK_MEAN_1  (-0.80)
#define WEAK_SD_1    0.40 /* normal */

#define DAYS_SD_1    0.30 /* of a learned machine at most, and what the label is worth as a day */

/* One refill's lesson about the next: days differ in voltage, heat and hands; own judgement. */
#define DAY_SD_1     0.10
#define PER_KELVIN_1 0.002 /* beyond what the model explains */
#define PER_PA_1     3e-7  /* 3 % per 10 kPa of ambient */
#define ODD_DAY_1    1.5   /* standard errors from the median: from there its weight falls */
#define FREEDOM_1    5.0

#define REACH_NEAR_1 1e-6 /* of a log ratio */
enum { REACH_ROUNDS = 60 };

struct forecast_prior forecast_prior_label(void)
{
    return (struct forecast_prior){.log_mean_1 = 0, .log_sd_1 = RATIO_SD_1};
}

double forecast_prior_weak(const struct forecast_prior *prior)
{
    return WEAK_SHARE_1 / (1 + prior->refills);
}

static double variance_of(const struct forecast_learned *l, double temp_k, double ambient_abs_pa)
{
    double warm = PER_KELVIN_1 * (l->temp_k - temp_k);
    double high = PER_PA_1 * (l->ambient_abs_pa - ambient_abs_pa);
    return l->log_sd_1 * l->log_sd_1 + DAY_SD_1 * DAY_SD_1 + warm * warm + high * high;
}

/* The middle one of the means, of few. */
static double median_of(int n, const struct forecast_learned past[])
{
    for (int i = 0; i < n; i++) {
        int below = 0, same = 0;
        for (int j = 0; j < n; j++) {
            below += past[j].log_mean_1 < past[i].log_mean_1;
            same += past[j].log_mean_1 == past[i].log_mean_1;
        }
        if (below <= (n - 1) / 2 && (n - 1) / 2 < below + same) {
            return past[i].log_mean_1;
        }
    }
    return 0;
}

struct forecast_prior forecast_prior_learned(int n, const struct forecast_learned past[],
                                             double temp_k, double ambient_abs_pa)
{
    struct forecast_prior prior = forecast_prior_label();
    double label = 1 / (DAYS_SD_1 * DAYS_SD_1);
    double sum = label, mean = 0, spread = 0, middle = median_of(n, past);
    for (int i = 0; i < n; i++) {
        double var = variance_of(&past[i], temp_k, ambient_abs_pa);
        double off = fabs(past[i].log_mean_1 - middle) / sqrt(var);
        double w = (off > ODD_DAY_1 ? ODD_DAY_1 / off : 1) / var;
        mean += w * past[i].log_mean_1;
        spread += w * (past[i].log_mean_1 - middle) * (past[i].log_mean_1 - middle);
        sum += w;
    }
    if (n > 0) {
        prior.log_mean_1 = mean / sum;
        /* of the mean, of the days, and of how they differed */
        prior.log_sd_1 = fmin(DAYS_SD_1, sqrt(1 / sum + DAY_SD_1 * DAY_SD_1 + spread / sum));
        prior.refills = n;
    }
    return prior;
}

static void make_heavy(struct forecast *f)
{
    for (int k = 0; k < FORECAST_KNOTS; k++) {
        double z = PART_KNOT_LOW_1 + PART_KNOT_STEP_1 * k;
        f->heavy_1[k] = z < 0 ? gsl_cdf_tdist_Pinv(gsl_cdf_ugaussian_P(z), FREEDOM_1)
                              : gsl_cdf_tdist_Qinv(gsl_cdf_ugaussian_Q(z), FREEDOM_1);
    }
}

/* The share of weak machines, and how a log ratio stands in the prior: below it less what the normal
 * z has below itself. */
struct reach {
    double log_mean_1, log_sd_1, weak_1, z;
};

static double reach_excess(double log_1, void *of)
{
    const struct reach *r = of;
    double x = log_1 - r->log_mean_1;
    double weak = (x - WEAK_MEAN_1) / WEAK_SD_1, usual = x / r->log_sd_1;
    if (r->z > 0) { /* small numbers subtract without loss */
        return gsl_cdf_ugaussian_Q(r->z) - r->weak_1 * gsl_cdf_ugaussian_Q(weak) -
               (1 - r->weak_1) * gsl_cdf_tdist_Q(usual, FREEDOM_1);
    }
    return r->weak_1 * gsl_cdf_ugaussian_P(weak) +
           (1 - r->weak_1) * gsl_cdf_tdist_P(usual, FREEDOM_1) - gsl_cdf_ugaussian_P(r->z);
}

/* A quantile of a mixture lies between those of its parts. */
static double reach_solve(gsl_root_fsolver *solver, struct reach *r, double heavy)
{
    double usual = r->log_mean_1 + r->log_sd_1 * heavy;
    double weak = r->log_mean_1 + WEAK_MEAN_1 + WEAK_SD_1 * r->z;
    double lo = fmin(usual, weak), hi = fmax(usual, weak);
    gsl_function excess = {.function = reach_excess, .params = r};
    if (hi - lo < REACH_NEAR_1 || gsl_root_fsolver_set(solver, &excess, lo, hi) != GSL_SUCCESS) {
        return usual;
    }
    int st = GSL_CONTINUE;
    for (int k = 0; k < REACH_ROUNDS && st == GSL_CONTINUE; k++) {
        (void)gsl_root_fsolver_iterate(solver);
        st = gsl_root_test_interval(gsl_root_fsolver_x_lower(solver),
                                    gsl_root_fsolver_x_upper(solver), REACH_NEAR_1, 0);
    }
    return gsl_root_fsolver_root(solver);
}

/* Normal to log ratio of the prior, for the same knots as make_heavy. */
static void make_ratio(struct forecast *f, gsl_root_fsolver *solver)
{
    struct reach r = {.log_mean_1 = f->prior.log_mean_1,
                      .log_sd_1 = f->prior.log_sd_1,
                      .weak_1 = forecast_prior_weak(&f->prior)};
    for (int k = 0; k < FORECAST_KNOTS; k++) {
        r.z = PART_KNOT_LOW_1 + PART_KNOT_STEP_1 * k;
        f->ratio_log_1[k] = reach_solve(solver, &r, f->heavy_1[k]);
    }
}

static void make_draws(struct forecast *f, gsl_qrng *sobol, const gsl_rng *rng)
{
    double shift[FORECAST_UNKNOWNS], u[FORECAST_UNKNOWNS];
    for (int d = 0; d < FORECAST_UNKNOWNS; d++) {
        shift[d] = gsl_rng_uniform_pos(rng);
    }
    for (int m = 0; m < f->members; m++) {
        gsl_qrng_get(sobol, u);
        for (int d = 0; d < FORECAST_UNKNOWNS; d++) {
            double v = u[d] + shift[d];
            f->draw_1[m][d] = gsl_cdf_ugaussian_Pinv(num_clamp(v - floor(v), 1e-9, 1 - 1e-9));
        }
        f->tail_1[m] = sqrt(CLOUD_FREEDOM_1 / gsl_ran_chisq(rng, CLOUD_FREEDOM_1));
    }
}

enum status forecast_init(struct forecast *f, unsigned long seed, int members,
                          const struct forecast_prior *prior)
{
    if (members < 100 || members > FORECAST_MEMBERS ||
        !(fabs(prior->log_mean_1) <= NOTE_RATIO_LOG_MOST_1) || !(prior->log_sd_1 > 0) ||
        prior->log_sd_1 > NOTE_RATIO_LOG_MOST_1 || prior->refills < 0) {
        return STATUS_E_DOMAIN;
    }
    gsl_qrng *sobol = gsl_qrng_alloc(gsl_qrng_sobol, FORECAST_UNKNOWNS);
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    gsl_root_fsolver *solver = gsl_root_fsolver_alloc(gsl_root_fsolver_brent);
    enum status st = sobol != NULL && rng != NULL && solver != NULL ? STATUS_OK : STATUS_E_MEMORY;
    if (st == STATUS_OK) {
        gsl_rng_set(rng, seed);
        f->prior = *prior;
        f->members = members;
        make_heavy(f);
        make_ratio(f, solver);
        make_draws(f, sobol, rng);
    }
    if (solver != NULL) {
        gsl_root_fsolver_free(solver);
    }
    if (rng != NULL) {
        gsl_rng_free(rng);
    }
    if (sobol != NULL) {
        gsl_qrng_free(sobol);
    }
    return st;
}
