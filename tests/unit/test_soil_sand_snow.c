/* test_soil_sand_snow.c - sand, snow and mean maximum pressure against their check values. */
#include "support/check.h"

#include <math.h>

#include "base/units.h"
#include "core/constants.h"
#include "core/soil.h"
#include "support/pickup.h"

#define PSI        UNITS_PA_PER_PSI
#define LB         UNITS_KG_PER_LB
#define IN         UNITS_M_PER_INCH
#define SECOND     "second-hand"
#define TURNAGE    "Turnage 1972 with CI/3.47 (Mason 2016), own arithmetic"
#define CR951      "CRREL Report 95-1 table A5"
#define WES_MEMORY "WES curves, own arithmetic"
#define LINES      "CRREL 95-1 lines, own arithmetic"
#define COUNT(a)   (sizeof(a) / sizeof((a)[0]))

/* ---- sand ---- */

static void sand_numbers(void **state)
{
    (void)state;
#define SAND(what, at, want, tol, src, status)                                                     \
    {                                                                                              \
        "soil: sand", what ", " at, want, tol, 0, src, status                                      \
    }
#define SAND_ROW(psi, deflection_1, at, ns, pull, cp)                                              \
    {                                                                                              \
        psi, deflection_1, SAND("Ns", at, ns, 0.005, TURNAGE, "memory"),                           \
            SAND("P20/W", at, pull, 5e-4, WES_MEMORY, "memory"),                                   \
            SAND("contact pressure kPa", at, cp, 0.05, "Mason 2016 eq. 10, own", SECOND)           \
    }
    static const struct {
        double psi, deflection_1;
        struct check_row ns, pull, cp;
    } t[] = {
        SAND_ROW(20, 0.12, "20 psi, 12 %", 3.59, -0.087, 50.6),
        SAND_ROW(20, 0.22, "20 psi, 22 %", 6.58, 0.092, 42.6),
        SAND_ROW(30, 0.12, "30 psi, 12 %", 5.38, 0.035, 50.6),
        SAND_ROW(50, 0.12, "50 psi, 12 %", 8.97, 0.175, 50.6),
        SAND_ROW(50, 0.22, "50 psi, 22 %", 16.45, 0.307, 42.6),
        SAND_ROW(50, 0.30, "50 psi, 30 %", 22.43, 0.358, 38.5),
    };
#undef SAND_ROW
#undef SAND
    for (size_t i = 0; i < COUNT(t); i++) {
        struct soil_wheel w = pickup_table_wheel(t[i].deflection_1);
        double pa = t[i].psi * PSI;
        double ns = soil_sand_number(&w, pa);
        CHECK_ROW(&t[i].ns, ns);
        CHECK_ROW(&t[i].pull, soil_sand_pull(ns));
        CHECK_ROW(&t[i].cp, soil_contact_pressure(&w) / 1000);
        CHECK_CLOSE(soil_sand_towed(&w, pa), 0.21 * soil_contact_pressure(&w) / pa + 0.04, 1e-15, 0,
                    "Williams 2017 eq. 9 at zero slip");
        CHECK_CLOSE(soil_sand_strength(&w, ns), pa, 0, 1e-13, "inverse");
    }
}

static void sand_minimum_strength(void **state)
{
    (void)state;
#define LEAST(at, want, digits)                                                                    \
    {                                                                                              \
        "soil: sand, least CI", at, want, digits, 0, TURNAGE, "own"                                \
    }
    static const struct {
        double deflection_1;
        struct check_row row[3]; /* P20/W 0, 0.10, 0.20 */
    } t[] = {
        {0.12,
         {LEAST("psi, 12 %, pull 0", 26.7, 0.05), LEAST("psi, 12 %, pull 0.10", 37.7, 0.05),
          LEAST("psi, 12 %, pull 0.20", 55.4, 0.05)}},
        {0.22,
         {LEAST("psi, 22 %, pull 0", 14.6, 0.05), LEAST("psi, 22 %, pull 0.10", 20.6, 0.05),
          LEAST("psi, 22 %, pull 0.20", 30.2, 0.05)}},
        {0.30,
         {LEAST("psi, 30 %, pull 0", 10.7, 0.05), LEAST("psi, 30 %, pull 0.10", 15.1, 0.05),
          LEAST("psi, 30 %, pull 0.20", 22.2, 0.05)}},
        {0.35,
         {LEAST("psi, 35 %, pull 0", 9.2, 0.05), LEAST("psi, 35 %, pull 0.10", 12.9, 0.05),
          LEAST("psi, 35 %, pull 0.20", 19.0, 0.05)}},
    };
#undef LEAST
    static const struct check_row number[] = {
        {"soil: sand, least CI", "Ns at pull 0", 4.79, 0.005, 0, WES_MEMORY, "memory"},
        {"soil: sand, least CI", "Ns at pull 0.10", 6.77, 0.005, 0, WES_MEMORY, "memory"},
        {"soil: sand, least CI", "Ns at pull 0.20", 9.94, 0.005, 0, WES_MEMORY, "memory"},
    };
    for (int p = 0; p < 3; p++) {
        double ns = soil_sand_number_for(0.1 * p);
        CHECK_ROW(&number[p], ns);
        for (size_t i = 0; i < COUNT(t); i++) {
            struct soil_wheel w = pickup_table_wheel(t[i].deflection_1);
            CHECK_ROW(&t[i].row[p], soil_sand_strength(&w, ns) / PSI);
        }
    }
}

/* ---- snow ---- */

/* The tracked vehicle of CRREL 95-1: 23401 lb on 2 x 15 x 105 in2, entry angle 26 degrees. */
static void snow_examples(void **state)
{
    (void)state;
    double area_m2 = 2 * 15 * IN * 105 * IN;
    double w_n = 23401 * LB * GRAVITY_M_S2;
    double p_pa = w_n / area_m2;
    static const struct check_row fresh = {"soil: snow", "1: fresh 15 cm, traction N", 44134.3, 0,
                                           1e-5,         CR951 " (5 digits)",          "read"};
    static const struct check_row slope = {"soil: snow", "2: on 30 deg, traction N", 39207.1, 0,
                                           1e-5,         CR951 " (5 digits)",        "read"};
    static const struct check_row packed = {"soil: snow", "3: packed, traction N", 29692.1, 0,
                                            1e-5,         CR951 " (5 digits)",     "read"};
    static const struct check_row ice = {"soil: snow", "5: ice, traction N", 16741.3, 0,
                                         1e-5,         CR951 " (5 digits)",  "read"};
    static const struct check_row rut1 = {"soil: snow", "1: rut cm", 9.0, 0.05, 0, CR951, "read"};
    static const struct check_row rut5 = {"soil: snow", "5: rut cm", 7.2, 0.05, 0, CR951, "read"};
    CHECK_ROW(&fresh, area_m2 * soil_snow_traction(SOIL_SNOW_FRESH, p_pa));
    CHECK_ROW(&slope, area_m2 * soil_snow_traction(SOIL_SNOW_FRESH, p_pa * sqrt(0.75)));
    CHECK_ROW(&packed, area_m2 * soil_snow_traction(SOIL_SNOW_PACKED, p_pa));
    CHECK_ROW(&ice, area_m2 * soil_snow_traction(SOIL_SNOW_ICE, p_pa));
    CHECK_ROW(&rut1, 100 * soil_snow_sinkage(0.15, 200, p_pa));
    CHECK_ROW(&rut5, 100 * soil_snow_sinkage(0.12, 200, p_pa));
}

/* The exponent was back-solved from examples 1 and 5, so these guard the arithmetic only: the
 * report prints 5585.4 and 5275.1 N. 0.0375 W is the vehicle on a hard road. */
static void snow_resistance_examples(void **state)
{
    (void)state;
    static const struct check_row one = {"soil: snow",
                                         "1: resistance N (printed 5585.4)",
                                         5582.7,
                                         0.05,
                                         0,
                                         "CRREL 95-7, exponent fitted",
                                         "own"};
    static const struct check_row five = {"soil: snow",
                                          "5: resistance N (printed 5275.1)",
                                          5273.1,
                                          0.05,
                                          0,
                                          "CRREL 95-7, exponent fitted",
                                          "own"};
    double road_n = 0.0375 * 23401 * LB * GRAVITY_M_S2;
    double entry = sin(26 * NUM_PI / 180);
    CHECK_ROW(&one, road_n + 2 * soil_snow_resistance(200, 15 * IN, 0.09 / entry));
    CHECK_ROW(&five, road_n + 2 * soil_snow_resistance(200, 15 * IN, 0.072 / entry));
}

static void snow_by_pressure(void **state)
{
    (void)state;
    static const struct {
        enum soil_snow line;
        double psi;
        struct check_row row;
    } t[] = {
        {SOIL_SNOW_FRESH, 35, {"soil: snow", "T/W fresh, 35 psi", 0.322, 5e-4, 0, LINES, "own"}},
        {SOIL_SNOW_FRESH, 15, {"soil: snow", "T/W fresh, 15 psi", 0.374, 5e-4, 0, LINES, "own"}},
        {SOIL_SNOW_PACKED, 35, {"soil: snow", "T/W packed, 35 psi", 0.272, 5e-4, 0, LINES, "own"}},
        {SOIL_SNOW_PACKED, 15, {"soil: snow", "T/W packed, 15 psi", 0.279, 5e-4, 0, LINES, "own"}},
        {SOIL_SNOW_ICE, 35, {"soil: snow", "T/W ice, 35 psi", 0.177, 5e-4, 0, LINES, "own"}},
        {SOIL_SNOW_ICE, 15, {"soil: snow", "T/W ice, 15 psi", 0.168, 5e-4, 0, LINES, "own"}},
    };
    for (size_t i = 0; i < COUNT(t); i++) {
        double p_pa = t[i].psi * PSI;
        CHECK_ROW(&t[i].row, soil_snow_traction(t[i].line, p_pa) / p_pa);
    }
    static const struct check_row hard = {
        "soil: snow", "sinkage m, 20 cm, 35 psi", 0.127, 5e-4, 0, "CRREL 95-7, own", "read"};
    static const struct check_row soft = {
        "soil: snow", "sinkage m, 20 cm, 15 psi", 0.120, 5e-4, 0, "CRREL 95-7, own", "read"};
    CHECK_ROW(&hard, soil_snow_sinkage(0.2, 200, 35 * PSI));
    CHECK_ROW(&soft, soil_snow_sinkage(0.2, 200, 15 * PSI));
    const char *steps = "final densities by pressure, CRREL 95-7";
    CHECK_CLOSE(soil_snow_sinkage(1, 300, 351e3), 0.5, 1e-15, 0, steps);
    CHECK_CLOSE(soil_snow_sinkage(1, 325, 701e3), 0.5, 1e-15, 0, steps);
    CHECK_CLOSE(soil_snow_sinkage(1, 520, 200e3), 0, 0, 0, "denser than pressed: nothing sinks");
}

/* ---- mean maximum pressure ---- */

static void mmp_of_the_pickup(void **state)
{
    (void)state;
    static const struct check_row road = {
        "soil: mean maximum pressure",  "kPa, 12 %", 235.27, 0.005, 0,
        "Rowland 1972, own arithmetic", "memory"};
    static const struct check_row target = {
        "soil: mean maximum pressure",  "kPa, 22 %", 173.76, 0.005, 0,
        "Rowland 1972, own arithmetic", "memory"};
    struct soil_wheel a = pickup_table_wheel(0.12);
    struct soil_wheel b = pickup_table_wheel(0.22);
    a.load_n = b.load_n = 3000 * GRAVITY_M_S2 / 4;
    CHECK_ROW(&road, soil_mmp(&a, soil_mmp_factor(2, 2).v) / 1000);
    CHECK_ROW(&target, soil_mmp(&b, soil_mmp_factor(2, 2).v) / 1000);
}

static void mmp_factors(void **state)
{
    (void)state;
    static const struct {
        int axles, driven;
        struct check_row row;
    } t[] = {
#define K(axles, driven, name, want)                                                               \
    {                                                                                              \
        axles, driven,                                                                             \
        {                                                                                          \
            "soil: mean maximum pressure", name, want, 0, 0, "Rowland 1972", "memory"              \
        }                                                                                          \
    }
        K(2, 2, "K, 2 axles, 2 driven", 3.65), K(2, 1, "K, 2 axles, 1 driven", 4.40),
        K(3, 3, "K, 3 axles, 3 driven", 3.90), K(3, 2, "K, 3 axles, 2 driven", 4.35),
        K(3, 1, "K, 3 axles, 1 driven", 5.25), K(4, 4, "K, 4 axles, 4 driven", 4.10),
        K(4, 3, "K, 4 axles, 3 driven", 4.44), K(4, 2, "K, 4 axles, 2 driven", 4.95),
        K(4, 1, "K, 4 axles, 1 driven", 6.05),
#undef K
    };
    for (size_t i = 0; i < COUNT(t); i++) {
        struct maybe k = soil_mmp_factor(t[i].axles, t[i].driven);
        assert_true(k.is);
        CHECK_ROW(&t[i].row, k.v);
    }
    assert_false(soil_mmp_factor(1, 1).is || soil_mmp_factor(5, 5).is);
    assert_false(soil_mmp_factor(2, 0).is || soil_mmp_factor(2, 3).is);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sand_numbers),     cmocka_unit_test(sand_minimum_strength),
        cmocka_unit_test(snow_examples),    cmocka_unit_test(snow_resistance_examples),
        cmocka_unit_test(snow_by_pressure), cmocka_unit_test(mmp_of_the_pickup),
        cmocka_unit_test(mmp_factors),
    };
    return check_run("soil, sand and snow", tests, COUNT(tests), argc, argv);
}
