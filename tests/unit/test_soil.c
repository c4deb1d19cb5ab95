/* test_soil.c - the published relations of soft ground against their check values. */
#include "support/check.h"

#include <math.h>

#include "base/units.h"
#include "core/soil.h"

#define PSI      UNITS_PA_PER_PSI
#define LB       UNITS_KG_PER_LB
#define IN       UNITS_M_PER_INCH

#define COUNT(a) (sizeof(a) / sizeof((a)[0]))

/* ---- vehicle cone index ---- */

#define P99      "Priddy 1999 p. 42, own arithmetic"
#define PW06     "Priddy & Willoughby 2006 p. 8, own arithmetic"

static void weight_factor_bands(void **state)
{
    (void)state;
    static const struct {
        double lb;
        struct check_row row;
    } t[] = {
        {1999, {"soil: weight factor", "1999 lb", 1.1054, 5e-5, 0, P99, "second-hand"}},
        {2000, {"soil: weight factor", "2000 lb", 1.1160, 5e-5, 0, P99, "second-hand"}},
        {13499, {"soil: weight factor", "13499 lb", 1.4955, 5e-5, 0, P99, "second-hand"}},
        {13500, {"soil: weight factor", "13500 lb", 1.4970, 5e-5, 0, P99, "second-hand"}},
        {19999, {"soil: weight factor", "19999 lb", 2.4199, 5e-5, 0, P99, "second-hand"}},
        {20000, {"soil: weight factor", "20000 lb", 2.4450, 5e-5, 0, P99, "second-hand"}},
    };
    for (size_t i = 0; i < COUNT(t); i++) {
        CHECK_ROW(&t[i].row, soil_weight_factor(t[i].lb * LB));
    }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(weight_factor_bands),
    };
    return check_run("soil", tests, COUNT(tests), argc, argv);
}
