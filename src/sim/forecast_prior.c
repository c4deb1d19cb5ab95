#include <math.h>

#include <gsl/gsl_cdf.h>
#include <gsl/gsl_qrng.h>
#include <gsl/gsl_randist.h>
#include <gsl/gsl_rng.h>

#include "base/num.h"
#include "core/constants.h"
#include "sim/forecast_part.h"

#define RATIO_SD_1   0.30 /* log, Student-t5: delivery over volume against the label, model F1 */

#define KNOT_STEP_1  0.05
#define KNOT_LOW_1   (-6.0)

/* One refill's lesson about the next: days differ in voltage, heat and hands; own judgement. */
#define DAY_SD_1     0.10
#define PER_KELVIN_1 0.002 /* beyond what the model explains */
#define PER_PA_1     3e-7  /* 3 % per 10 kPa of ambient */
#define ODD_DAY_1    1.5   /* standard errors from the median: from there its weight falls */
#define FREEDOM_1    5.0

struct forecast_prior forecast_prior_label(void)
{
    return (struct forecast_prior){.log_mean_1 = 0, .log_sd_1 = RATIO_SD_1};
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
    double label = 1 / (prior.log_sd_1 * prior.log_sd_1);
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
        prior.log_sd_1 = fmin(RATIO_SD_1, sqrt(1 / sum + DAY_SD_1 * DAY_SD_1 + spread / sum));
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
    if (members < 100 || members > FORECAST_MEMBERS || !isfinite(prior->log_mean_1) ||
        !isfinite(prior->log_sd_1) || !(prior->log_sd_1 > 0)) {
        return STATUS_E_DOMAIN;
    }
    gsl_qrng *sobol = gsl_qrng_alloc(gsl_qrng_sobol, FORECAST_UNKNOWNS);
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    enum status st = sobol != NULL && rng != NULL ? STATUS_OK : STATUS_E_MEMORY;
    if (st == STATUS_OK) {
        gsl_rng_set(rng, seed);
        f->prior = *prior;
        f->members = members;
        make_heavy(f);
        make_draws(f, sobol, rng);
    }
    if (rng != NULL) {
        gsl_rng_free(rng);
    }
    if (sobol != NULL) {
        gsl_qrng_free(sobol);
    }
    return st;
}
