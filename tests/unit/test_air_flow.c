/* test_air_flow.c - restrictions, hoses and sources against tabulated and derived values. */
#include "support/check.h"

#include <math.h>

#include "core/constants.h"
#include "sim/element.h"
#include "sim/source.h"


static const char OWN[] = "own: formula worked by hand";

static void choked_flow(void **state)
{
    (void)state;
    static const struct check_row row = {.topic = "air: restrictions",
                                         .name = "choked flow, 1 mm2, 653 kPa abs, 20 C, kg/s",
                                         .want = 1.5414e-3,
                                         .tol_abs = 0.5e-7,
                                         .src = OWN,
                                         .status = "own"};
    double slope = 0;
    double up = 653e3;
    CHECK_ROW(&row, element_flow(element_conductance(1e-6, 293.15), 0.3, up, 101325, &slope));
    CHECK_CLOSE(slope, 0, 0, 0, "choked flow does not see what is downstream");
}

static void iso_ellipse(void **state)
{
    (void)state;
    static const double r[] = {.95, .90, .80, .70, .60};
    static const struct check_row row[] = {
        {"air: restrictions", "ISO 6358 ellipse b 0.3, ratio 0.95", .37115, 5e-6, 0, OWN, "own"},
        {"air: restrictions", "ISO 6358 ellipse b 0.3, ratio 0.90", .51508, 5e-6, 0, OWN, "own"},
        {"air: restrictions", "ISO 6358 ellipse b 0.3, ratio 0.80", .69985, 5e-6, 0, OWN, "own"},
        {"air: restrictions", "ISO 6358 ellipse b 0.3, ratio 0.70", .82065, 5e-6, 0, OWN, "own"},
        {"air: restrictions", "ISO 6358 ellipse b 0.3, ratio 0.60", .90351, 5e-6, 0, OWN, "own"},
    };
    static const struct check_row isentropic = {
        "air: restrictions",
        "ellipse b 0.5283 against the isentropic nozzle, ratio 0.90",
        .61715,
        0,
        0.0025,
        "own: isentropic flow function, 0.24 % apart",
        "own"};
    double slope = 0;
    for (int i = 0; i < 5; i++) {
        CHECK_ROW(&row[i], element_flow(1, .3, 1, r[i], &slope));
    }
    CHECK_ROW(&isentropic, element_flow(1, .5283, 1, .9, &slope));
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(choked_flow),
        cmocka_unit_test(iso_ellipse),
    };
    return check_run("air flow", tests, sizeof tests / sizeof tests[0], argc, argv);
}
