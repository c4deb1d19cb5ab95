#include <math.h>

#include <gsl/gsl_cdf.h>

#include "base/num.h"
#include "sim/forecast_part.h"

#define FAR_1 30.0 /* standard errors: from here the tail's leading term serves */

/* log of the normal probability between lo and hi, both in standard errors. */
static double log_interval(double lo, double hi)
{
    if (lo < 0 && hi <= 0) {
        double t = -lo;
        lo = -hi;
        hi = t;
    }
    if (lo > FAR_1) {
        return -0.5 * lo * lo - log(lo * sqrt(2 * NUM_PI));
    }
    double share = lo > 0 ? gsl_cdf_ugaussian_Q(lo) - gsl_cdf_ugaussian_Q(hi)
                          : gsl_cdf_ugaussian_P(hi) - gsl_cdf_ugaussian_P(lo);
    return log(fmax(share, 1e-300));
}

double like_of(const struct plan *p, const double expected_pa[])
{
    double sum = 0;
    for (int k = 0; k < p->n_obs; k++) {
        const struct observation *o = &p->obs[k];
        double off = o->p_gauge_pa - expected_pa[k];
        sum += log_interval((off - o->half_pa) / o->sigma_pa, (off + o->half_pa) / o->sigma_pa);
    }
    return sum;
}
