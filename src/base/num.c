#include "base/num.h"

#include <stdlib.h>

bool num_all_finite(size_t n, const double x[])
{
    for (size_t i = 0; i < n; i++) {
        if (!isfinite(x[i])) {
            return false;
        }
    }
    return true;
}

bool num_read(const char **at, double *v)
{
    char *end = NULL;
    double got = strtod(*at, &end);
    if (end == *at || !isfinite(got)) {
        return false;
    }
    *at = end;
    *v = got;
    return true;
}

double num_lerp(size_t n, const double x[], const double y[], double at)
{
    if (at <= x[0]) {
        return y[0];
    }
    for (size_t i = 1; i < n; i++) {
        if (at <= x[i]) {
            double f = (at - x[i - 1]) / (x[i] - x[i - 1]);
            return y[i - 1] + f * (y[i] - y[i - 1]);
        }
    }
    return y[n - 1];
}

double num_ceil_to(double x, double step)
{
    return step * ceil(x / step - 1e-6);
}

double num_bisect(double (*f)(double x, const void *with), const void *with, double lo, double hi)
{
    for (int i = 0; i < 60; i++) {
        double mid = 0.5 * (lo + hi);
        if (f(mid, with) < 0) {
            lo = mid;
        } else {
            hi = mid;
        }
    }
    return 0.5 * (lo + hi);
}
