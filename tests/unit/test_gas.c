/* test_gas.c - standard atmosphere and the gauge in another place. */
#include "support/check.h"

#include <math.h>

#include "base/units.h"
#include "core/gas.h"

#define USSA "US Standard Atmosphere 1976 (NOAA-S/T 76-1562)"

struct ambient_case {
    double height_m;
    struct check_row row;
};

// clang-format off
static const struct ambient_case AMBIENT[] = {
    {0.0,    {"air: ambient pressure", "0 m, Pa", 101325.00, 0.005, 0, USSA, "read"}},
    {500.0,  {"air: ambient pressure", "500 m, Pa", 95461.29, 0.005, 0, USSA ", formula", "own"}},
    {1000.0, {"air: ambient pressure", "1000 m, Pa", 89876.29, 0.005, 0, USSA ", formula", "own"}},
    {1500.0, {"air: ambient pressure", "1500 m, Pa", 84559.68, 0.005, 0, USSA ", formula", "own"}},
    {2000.0, {"air: ambient pressure", "2000 m, Pa", 79501.42, 0.005, 0, USSA ", formula", "own"}},
    {5000.0, {"air: ambient pressure", "5000 m, Pa", 54048.29, 0.005, 0, USSA ", formula", "own"}},
    {1000.0, {"air: ambient pressure", "1000 m, Pa, printed table", 89876, 0.5, 0, USSA ", table", "memory"}},
    {2000.0, {"air: ambient pressure", "2000 m, Pa, printed table", 79501, 0.5, 0, USSA ", table", "memory"}},
    {5000.0, {"air: ambient pressure", "5000 m, Pa, printed table", 54048, 0.5, 0, USSA ", table", "memory"}},
};
// clang-format on

static void ambient_is_the_standard_atmosphere(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof AMBIENT / sizeof AMBIENT[0]; i++) {
        double pa = 0.0;
        CHECK_STATUS(gas_ambient(AMBIENT[i].height_m, &pa), STATUS_OK);
        CHECK_ROW(&AMBIENT[i].row, pa);
    }
}

/* The geopotential values of the same formula, at the geometric height that has them. */
static void ambient_by_geopotential_height(void **state)
{
    (void)state;
    static const double table[][2] = {
        {500, 95460.84}, {1000, 89874.57}, {1500, 84556.00}, {2000, 79495.22}, {5000, 54019.91}};
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        double h = table[i][0], pa = 0.0;
        CHECK_STATUS(gas_ambient(6356766.0 * h / (6356766.0 - h), &pa), STATUS_OK);
        CHECK_CLOSE(pa, table[i][1], 0.005, 0, USSA ", geopotential");
    }
}

struct moved_case {
    double psi, from_c, to_c, to_pa;
    struct check_row row;
};

// clang-format off
static const struct moved_case MOVED[] = {
    {35, 20, 40, 101325, {"air: reading moved", "35 psi 20 to 40 C, kPa", 264.693036, 5e-7, 0, "ideal gas law", "own"}},
    {15, 20, 40, 101325, {"air: reading moved", "15 psi 20 to 40 C, kPa", 117.390069, 5e-7, 0, "ideal gas law", "own"}},
    {35, 20, -10, 101325, {"air: reading moved", "35 psi 20 to -10 C, kPa", 206.251709, 5e-7, 0, "ideal gas law", "own"}},
    {15, 25, 60, 101325, {"air: reading moved", "15 psi 25 to 60 C, kPa", 127.456652, 5e-7, 0, "ideal gas law", "own"}},
    {15, 20, 20, 79501.42, {"air: reading moved", "15 psi sealed at 0 m read at 2000 m, kPa", 18.1652 * 6.894757293168361, 0.00005 * 6.894757293168361, 0, "ideal gas law, " USSA, "own"}},
};
// clang-format on

static void readings_move_by_the_gas_law(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof MOVED / sizeof MOVED[0]; i++) {
        const struct moved_case *c = &MOVED[i];
        double pa = 0.0;
        CHECK_STATUS(gas_gauge_moved(c->psi * UNITS_PA_PER_PSI, c->from_c + 273.15, 101325.0,
                                     c->to_c + 273.15, c->to_pa, &pa),
                     STATUS_OK);
        CHECK_ROW(&c->row, pa / 1000.0);
    }
}

static void rule_of_thumb_depends_on_pressure(void **state)
{
    (void)state;
    static const double table[][2] = {{35, 0.94}, {15, 0.56}};
    for (size_t i = 0; i < 2; i++) {
        double pa = 0.0, t0 = (68.0 - 32.0) / 1.8 + 273.15, t1 = (78.0 - 32.0) / 1.8 + 273.15;
        double from = table[i][0] * UNITS_PA_PER_PSI;
        CHECK_STATUS(gas_gauge_moved(from, t0, 101325, t1, 101325, &pa), STATUS_OK);
        CHECK_CLOSE((pa - from) / UNITS_PA_PER_PSI, table[i][1], 0.005, 0,
                    "ideal gas law, 68 to 78 F, psi");
    }
}

static void there_and_back_changes_nothing(void **state)
{
    (void)state;
    for (int i = 0; i <= 20; i++) {
        double p = 20000.0 * i, q = 0.0, back = 0.0, t = 250.0 + 5.0 * i;
        CHECK_STATUS(gas_gauge_moved(p, 293.15, 101325, t, 80000, &q), STATUS_OK);
        CHECK_STATUS(gas_gauge_moved(q, t, 80000, 293.15, 101325, &back), STATUS_OK);
        CHECK_CLOSE(back, p, 1e-8, 1e-12, "a round trip is the identity");
    }
}

static void ambient_falls_with_height(void **state)
{
    (void)state;
    double last = HUGE_VAL;
    for (double h = -500.0; h <= 11000.0; h += 125.0) {
        double pa = 0.0;
        CHECK_STATUS(gas_ambient(h, &pa), STATUS_OK);
        assert_true(pa < last);
        last = pa;
    }
}

static void nonsense_leaves_the_output_alone(void **state)
{
    (void)state;
    const double heights[] = {nan(""), HUGE_VAL, -HUGE_VAL, -500.1, 11000.1};
    double pa = 7.0;
    for (size_t i = 0; i < sizeof heights / sizeof heights[0]; i++) {
        CHECK_STATUS(gas_ambient(heights[i], &pa), STATUS_E_DOMAIN);
    }
    const double bad[] = {nan(""), HUGE_VAL, -HUGE_VAL, -2e5};
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        double in[5] = {2e5, 293, 1e5, 293, 1e5};
        for (size_t k = 0; k < 5; k++) {
            double kept = in[k];
            in[k] = bad[i];
            CHECK_STATUS(gas_gauge_moved(in[0], in[1], in[2], in[3], in[4], &pa), STATUS_E_DOMAIN);
            in[k] = kept;
        }
    }
    CHECK_STATUS(gas_gauge_moved(2e5, 0.0, 1e5, 293, 1e5, &pa), STATUS_E_DOMAIN);
    CHECK_STATUS(gas_gauge_moved(1e300, 1e-10, 1e5, 1e10, 1e5, &pa), STATUS_E_DOMAIN);
    CHECK_CLOSE(pa, 7.0, 0, 0, "untouched on error");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ambient_is_the_standard_atmosphere),
        cmocka_unit_test(ambient_by_geopotential_height),
        cmocka_unit_test(readings_move_by_the_gas_law),
        cmocka_unit_test(rule_of_thumb_depends_on_pressure),
        cmocka_unit_test(there_and_back_changes_nothing),
        cmocka_unit_test(ambient_falls_with_height),
        cmocka_unit_test(nonsense_leaves_the_output_alone),
    };
    return check_run("gas", tests, sizeof tests / sizeof tests[0], argc, argv);
}
