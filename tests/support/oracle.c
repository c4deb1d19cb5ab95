#include "support/oracle.h"

#include <math.h>
#include <stdlib.h>

#include <gsl/gsl_cdf.h>

#include "base/units.h"

#define LEAST_1 30.0 /* effective draws */

enum { LOOKS = TRUTH_READS + 1, SEED = 424242 };

static struct draw {
    int looks_by[TRUTH_READS];
    double exact_pa[LOOKS];
    double finish_s;
} * draws;

bool oracle_suits(const struct truth_case *c)
{
    return !c->each && !c->flowing && c->step_psi >= 1 && c->target_psi[0] == c->target_psi[2];
}

void oracle_end(void)
{
    free(draws);
    draws = NULL;
}

void oracle_begin(const struct truth_case *c)
{
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    oracle_end();
    draws = calloc(ORACLE_DRAWS, sizeof *draws);
    if (rng == NULL || draws == NULL) {
        abort();
    }
    gsl_rng_set(rng, SEED);
    for (int i = 0; i < ORACLE_DRAWS;) {
        static struct truth t;
        truth_make(c, rng, &t);
        if (!isfinite(t.finish_s)) {
            continue;
        }
        draws[i].finish_s = t.finish_s;
        for (int n = 0; n < t.n_read; n++) {
            draws[i].looks_by[n] = t.looks_by[n];
        }
        for (int k = 0; k < LOOKS; k++) {
            draws[i].exact_pa[k] = t.exact_pa[k];
        }
        i++;
    }
    gsl_rng_free(rng);
}

/* How likely a draw shows what was read. */
static double like(const struct draw *d, const struct truth *t, int looks, double step_pa)
{
    double w = 1;
    for (int k = 0; k < looks && w > 0; k++) {
        double off = t->noted_pa[k] - d->exact_pa[k], sd = TRUTH_GAUGE_SD_1 * step_pa;
        w *= gsl_cdf_gaussian_P(off + step_pa / 2, sd) - gsl_cdf_gaussian_P(off - step_pa / 2, sd);
    }
    return w;
}

double oracle_finish(const struct truth_case *c, const struct truth *t, int n)
{
    double sum = 0, squares = 0, mean = 0;
    int looks = t->looks_by[n - 1];
    for (int i = 0; i < ORACLE_DRAWS; i++) {
        if (draws[i].looks_by[n - 1] == looks && looks <= LOOKS) {
            double w = like(&draws[i], t, looks, c->step_psi * UNITS_PA_PER_PSI);
            sum += w;
            squares += w * w;
            mean += w * draws[i].finish_s;
        }
    }
    return sum * sum > LEAST_1 * squares ? mean / sum : (double)NAN;
}
