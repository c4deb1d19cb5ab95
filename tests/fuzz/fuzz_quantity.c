/* fuzz_quantity.c - text read as a quantity is finite; written in its unit and read again it is the
 * same number, and a third time changes nothing. */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/units.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void wrong(const char *text, const char *what)
{
    fprintf(stderr, "fuzz_quantity: \"%s\": %s\n", text, what);
    abort();
}

static void round_trip(double si, enum quantity q, enum unit_system u)
{
    char once[512];
    char twice[512];
    double back = 0.0;
    double again = 0.0;
    struct text a = text_over(once, sizeof once);
    struct text b = text_over(twice, sizeof twice);
    units_put(&a, si, q, u, 9);
    if (units_parse(once, q, &back) != STATUS_OK) {
        wrong(once, "what was written cannot be read");
    }
    double unit = fabs(units_in(si, q, units_symbol(q, u)));
    double tolerance = 1e-8 * fabs(si) + 1e-5 * (unit > 0.0 ? fabs(si) / unit : 1.0) + 1e-6;
    if (!(fabs(back - si) <= tolerance)) {
        wrong(once, "another number came back");
    }
    units_put(&b, back, q, u, 9);
    if (units_parse(twice, q, &again) != STATUS_OK || fabs(again - back) > tolerance) {
        wrong(twice, "not a fixed point");
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char text[256];
    if (size < 1 || size > sizeof text) {
        return 0;
    }
    enum quantity q = (enum quantity)(data[0] % QUANTITY_COUNT);
    memcpy(text, data + 1, size - 1);
    text[size - 1] = '\0';
    double si = 7.0;
    enum status s = units_parse(text, q, &si);
    if (s < 0 ? si != 7.0 : !isfinite(si)) {
        wrong(text, "touched on error, or not finite");
    }
    if (s == STATUS_OK && fabs(si) < 1e30) {
        for (int u = UNITS_PSI; u <= UNITS_KPA; u++) {
            round_trip(si, q, (enum unit_system)u);
        }
    }
    return 0;
}
