/* num.h - small numeric helpers and the "maybe" number. */
#ifndef SANDSHOE_BASE_NUM_H
#define SANDSHOE_BASE_NUM_H

#include <math.h>
#include <stdbool.h>
#include <stddef.h>

#define NUM_PI 3.14159265358979323846

/* A number that may be absent (null in JSON, blank in a table). Never holds NaN or infinity. */
struct maybe {
    bool is;
    double v;
};

static inline struct maybe maybe_none(void)
{
    return (struct maybe){false, 0.0};
}

/* maybe_of - v, or nothing when v is not finite. */
static inline struct maybe maybe_of(double v)
{
    return isfinite(v) ? (struct maybe){true, v} : maybe_none();
}

static inline double maybe_or(struct maybe m, double otherwise)
{
    return m.is ? m.v : otherwise;
}

/* num_all_finite - true when all n numbers are finite. */
bool num_all_finite(size_t n, const double x[]);

static inline double num_clamp(double x, double lo, double hi)
{
    return x < lo ? lo : x > hi ? hi : x;
}

/* num_read - cut the next number, blanks before it allowed, off the front of a text; false and
 * nothing changed when there is none or it is not finite. */
bool num_read(const char **at, double *v);

/* num_lerp - piecewise linear y(x) through n knots with rising x; held constant outside. */
double num_lerp(size_t n, const double x[], const double y[], double at);

/* num_ceil_to - the smallest multiple of step not below x; within 1e-6 step counts as met. */
double num_ceil_to(double x, double step);

/* num_bisect - where a rising f crosses 0 between lo and hi; f may jump. The nearer end where it
 * does not cross. with is handed to f. */
double num_bisect(double (*f)(double x, const void *with), const void *with, double lo, double hi);

#endif
