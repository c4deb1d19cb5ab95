#include "support/sweep.h"

#include <math.h>
#include <string.h>

#include "support/check.h"

enum { BAD = 3, PATTERN = 0x5a };
static const double bad[BAD] = {(double)NAN, HUGE_VAL, -HUGE_VAL};

void sweep(size_t n, double *const field[], const char *const name[], attempt *try)
{
    for (size_t f = 0; f < n; f++) {
        double was = *field[f];
        for (int b = 0; b < BAD; b++) {
            *field[f] = bad[b];
            enum status s = try();
            if (s != STATUS_E_DOMAIN) {
                fail_msg("%s = %g gives status %d", name[f], bad[b], (int)s);
            }
        }
        *field[f] = was;
    }
    CHECK_STATUS(try(), STATUS_OK); /* it was the bad numbers that were refused */
}

void sweep_fill(void *out, size_t n)
{
    memset(out, PATTERN, n);
}

void sweep_untouched(const void *out, size_t n)
{
    const unsigned char *byte = out;
    for (size_t i = 0; i < n; i++) {
        if (byte[i] != PATTERN) {
            fail_msg("output touched on error, byte %zu of %zu", i, n);
        }
    }
}
