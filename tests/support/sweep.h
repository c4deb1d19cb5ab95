/* sweep.h - not a number and infinity, put into every number of an input in turn. */
#ifndef SANDSHOE_TESTS_SWEEP_H
#define SANDSHOE_TESTS_SWEEP_H

#include <stddef.h>

#include "base/status.h"

/* One call of the function under test with the inputs as they stand. It fails the test itself when
 * an output is touched on error. */
typedef enum status attempt(void);

/* sweep - every field with every bad number must give E_DOMAIN, and the good ones STATUS_OK. */
void sweep(size_t n, double *const field[], const char *const name[], attempt *try);

/* sweep_fill, sweep_untouched - a pattern into an output, and whether all of it is still there. */
void sweep_fill(void *out, size_t n);
void sweep_untouched(const void *out, size_t n);

/* FIELDS(F) lists the fields as F(a) F(b); SWEEP_FIELDS makes the two tables of them. */
#define SWEEP_ADDRESS(f) &f,
#define SWEEP_NAME(f)    #f,
#define SWEEP_FIELDS(fields)                                                                       \
    double *const field[] = {fields(SWEEP_ADDRESS)};                                               \
    static const char *const name[] = {fields(SWEEP_NAME)}
#define SWEEP(try) sweep(sizeof field / sizeof field[0], field, name, try)

#endif
