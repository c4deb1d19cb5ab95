/* test_loadindex.c - load index, speed symbol, the load-speed bonus. */
#include "support/check.h"

#include <math.h>

#include "core/loadindex.h"

#define ARRAY   "load index array of an open vehicle library, UN R54 Annex 4"
#define ANNEX_4 "UN R54 Annex 4"
#define ANNEX_8 "UN R54 Annex 8"

struct index_case {
    int li;
    struct check_row row;
};

// clang-format off
static const struct index_case LOADS[] = {
    {60,  {"tyre: load index", "LI 60, kg", 250, 0, 0, ARRAY, "read"}},
    {69,  {"tyre: load index", "LI 69, kg", 325, 0, 0, ARRAY, "read"}},
    {75,  {"tyre: load index", "LI 75, kg", 387, 0, 0, ARRAY, "read"}},
    {81,  {"tyre: load index", "LI 81, kg", 462, 0, 0, ARRAY, "read"}},
    {92,  {"tyre: load index", "LI 92, kg", 630, 0, 0, ARRAY, "read"}},
    {98,  {"tyre: load index", "LI 98, kg", 750, 0, 0, ARRAY, "read"}},
    {110, {"tyre: load index", "LI 110, kg", 1060, 0, 0, ARRAY, "read"}},
    {112, {"tyre: load index", "LI 112, kg", 1120, 0, 0, ARRAY, "read"}},
    {113, {"tyre: load index", "LI 113, kg", 1150, 0, 0, ARRAY, "read"}},
    {116, {"tyre: load index", "LI 116, kg", 1250, 0, 0, ARRAY, "read"}},
    {118, {"tyre: load index", "LI 118, kg", 1320, 0, 0, ARRAY, "read"}},
    {119, {"tyre: load index", "LI 119, kg", 1360, 0, 0, ARRAY, "read"}},
    {121, {"tyre: load index", "LI 121, kg", 1450, 0, 0, ARRAY, "read"}},
    {136, {"tyre: load index", "LI 136, kg", 2240, 0, 0, ARRAY, "read"}},
    {150, {"tyre: load index", "LI 150, kg", 3350, 0, 0, ARRAY, "read"}},
    {160, {"tyre: load index", "LI 160, kg", 4500, 0, 0, ANNEX_4, "memory"}},
    {168, {"tyre: load index", "LI 168, kg", 5600, 0, 0, ANNEX_4, "memory"}},
    {169, {"tyre: load index", "LI 169, kg (the array read has 5850)", 5800, 0, 0, ANNEX_4, "memory"}},
    {179, {"tyre: load index", "LI 179, kg", 7750, 0, 0, ANNEX_4, "memory"}},
};

/* The whole array once more, as printed in the source; a slip in one copy shows. */
static const int PRINTED[10][10] = {
    {250, 257, 265, 272, 280, 290, 300, 307, 315, 325},
    {335, 345, 355, 365, 375, 387, 400, 412, 425, 437},
    {450, 462, 475, 487, 500, 515, 530, 545, 560, 580},
    {600, 615, 630, 650, 670, 690, 710, 730, 750, 775},
    {800, 825, 850, 875, 900, 925, 950, 975, 1000, 1030},
    {1060, 1090, 1120, 1150, 1180, 1215, 1250, 1285, 1320, 1360},
    {1400, 1450, 1500, 1550, 1600, 1650, 1700, 1750, 1800, 1850},
    {1900, 1950, 2000, 2060, 2120, 2180, 2240, 2300, 2360, 2430},
    {2500, 2575, 2650, 2725, 2800, 2900, 3000, 3075, 3150, 3250},
    {3350},
};
// clang-format on

static void loads_are_those_of_the_table(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof LOADS / sizeof LOADS[0]; i++) {
        double kg = 0.0;
        CHECK_STATUS(loadindex_kg(LOADS[i].li, &kg),
                     LOADS[i].li <= 150 ? STATUS_OK : STATUS_W_ASSUMED);
        CHECK_ROW(&LOADS[i].row, kg);
    }
    for (int li = 60; li <= 150; li++) {
        double kg = 0.0;
        CHECK_STATUS(loadindex_kg(li, &kg), STATUS_OK);
        CHECK_CLOSE(kg, PRINTED[(li - 60) / 10][(li - 60) % 10], 0, 0, ARRAY);
    }
}

static double off_series(int from, int to)
{
    double worst = 0.0;
    for (int li = from; li <= to; li++) {
        double kg = 0.0;
        assert_true(loadindex_kg(li, &kg) >= 0);
        worst = fmax(worst, fabs(kg / (45.0 * pow(10.0, li / 80.0)) - 1.0));
    }
    return worst;
}

static void loads_follow_the_preferred_numbers(void **state)
{
    (void)state;
    static const struct check_row row = {"tyre: load index",
                                         "largest |kg / (45 10^(LI/80)) - 1|, LI 60..150",
                                         0.017434711803705816,
                                         1e-9,
                                         0,
                                         "preferred numbers R80",
                                         "own"};
    CHECK_ROW(&row, off_series(60, 150));
    CHECK_BETWEEN(off_series(151, 179), 0.0, 0.02, "preferred numbers R80");
}

static void loads_rise_and_invert(void **state)
{
    (void)state;
    double last = 0.0;
    for (int li = 60; li <= 179; li++) {
        double kg = 0.0;
        int back = 0;
        assert_true(loadindex_kg(li, &kg) >= 0);
        assert_true(kg > last);
        CHECK_STATUS(loadindex_for_kg(kg, &back), li == 179 ? STATUS_W_CLAMPED : STATUS_OK);
        assert_int_equal(back, li);
        if (li > 60) {
            CHECK_STATUS(loadindex_for_kg(kg - 0.1, &back), STATUS_OK);
            assert_int_equal(back, li - 1);
        }
        last = kg;
    }
}

static void symbols_are_speeds(void **state)
{
    (void)state;
    static const struct {
        const char *symbol;
        double kmh;
        const char *status;
    } table[] = {
        {"A1", 5, "memory"},  {"A2", 10, "memory"}, {"A3", 15, "memory"}, {"A4", 20, "memory"},
        {"A5", 25, "memory"}, {"A6", 30, "memory"}, {"A7", 35, "memory"}, {"A8", 40, "memory"},
        {"B", 50, "memory"},  {"C", 60, "memory"},  {"D", 65, "memory"},  {"E", 70, "memory"},
        {"F", 80, "memory"},  {"G", 90, "memory"},  {"J", 100, "read"},   {"K", 110, "read"},
        {"L", 120, "read"},   {"M", 130, "read"},   {"N", 140, "read"},   {"P", 150, "read"},
        {"Q", 160, "read"},   {"R", 170, "read"},   {"S", 180, "read"},   {"T", 190, "read"},
        {"U", 200, "read"},   {"H", 210, "read"},   {"V", 240, "read"},   {"W", 270, "read"},
        {"Y", 300, "read"},
    };
    for (size_t i = 0; i < sizeof table / sizeof table[0]; i++) {
        double v = 0.0;
        const struct check_row row = {
            "tyre: speed symbol",           table[i].symbol, table[i].kmh, 1e-9, 0,
            "UN R30 / R54 par. 2.29, km/h", table[i].status};
        CHECK_STATUS(loadindex_speed(table[i].symbol, &v), STATUS_OK);
        CHECK_ROW(&row, v * 3.6);
    }
}

/* UN R54 Annex 8 as recalled, per cent: what LI <= 121 gain, and the columns F, G, J..M. */
static const struct {
    int kmh;
    double light, f, g, j;
} ANNEX[] = {
    {5, 90, 110, 110, 110},    {10, 75, 80, 80, 80}, {15, 60, 65, 65, 65},    {20, 50, 50, 50, 50},
    {25, 42, 35, 35, 35},      {30, 35, 25, 25, 25}, {35, 29, 19, 19, 19},    {40, 25, 15, 15, 15},
    {45, 22, 13, 13, 13},      {50, 20, 12, 12, 12}, {55, 17.5, 11, 11, 11},  {60, 15, 10, 10, 10},
    {65, 13.5, 7.5, 8.5, 8.5}, {70, 12.5, 5, 7, 7},  {75, 11, 2.5, 5.5, 5.5}, {80, 10, 0, 4, 4},
    {85, 8.5, 0, 2, 3},        {90, 7.5, 0, 0, 2},   {95, 6.5, 0, 0, 1},      {100, 5, 0, 0, 0},
    {105, 3.75, 0, 0, 0},      {110, 2.5, 0, 0, 0},  {115, 1.25, 0, 0, 0},
};

static double speed_kmh(int li, const char *symbol, double need_1)
{
    double v = -1.0;
    CHECK_STATUS(loadindex_bonus_speed(li, symbol, need_1, &v), STATUS_OK);
    return v * 3.6;
}

/* A need of exactly a row's bonus is met at that row's speed, a little more only below it. */
static void check_column(size_t i, int li, const char *symbol, double pct)
{
    if (pct > 0.0) {
        CHECK_CLOSE(speed_kmh(li, symbol, pct / 100.0), ANNEX[i].kmh, 1e-9, 0, ANNEX_8);
        double before = i > 0 ? ANNEX[i - 1].kmh : 0.0;
        CHECK_CLOSE(speed_kmh(li, symbol, pct / 100.0 + 1e-4), before, 1e-9, 0, ANNEX_8);
    }
}

static void bonus_is_the_annex_row_by_row(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof ANNEX / sizeof ANNEX[0]; i++) {
        static const char *const light[] = {"", "L", "M", "N", "P", "Q", "T"};
        static const char *const fast[] = {"", "J", "K", "L", "M", "N"};
        for (size_t k = 0; k < sizeof light / sizeof light[0]; k++) {
            check_column(i, 121, light[k], ANNEX[i].light);
        }
        for (size_t k = 0; k < sizeof fast / sizeof fast[0]; k++) {
            check_column(i, 122, fast[k], ANNEX[i].j);
        }
        check_column(i, 150, "F", ANNEX[i].f);
        check_column(i, 150, "G", ANNEX[i].g);
    }
}

struct bonus_case {
    int li;
    const char *symbol;
    double need_1;
    struct check_row row;
};

// clang-format off
static const struct bonus_case BONUSES[] = {
    {121, "", 0.25, {"tyre: load-speed bonus", "LI 121, need 25 %, km/h", 40, 1e-9, 0, ANNEX_8, "memory"}},
    {122, "", 0.15, {"tyre: load-speed bonus", "LI 122, need 15 %, km/h", 40, 1e-9, 0, ANNEX_8, "memory"}},
    {121, "", 0.15, {"tyre: load-speed bonus", "LI 121, need 15 %, km/h", 60, 1e-9, 0, ANNEX_8, "memory"}},
    {122, "", 0.10, {"tyre: load-speed bonus", "LI 122, need 10 %, km/h", 60, 1e-9, 0, ANNEX_8, "memory"}},
    {122, "K", 0.04, {"tyre: load-speed bonus", "LI 122 K, need 4 %, km/h", 80, 1e-9, 0, ANNEX_8, "memory"}},
    {121, "", 1.10, {"tyre: load-speed bonus", "LI 121, need 110 %, km/h (standing)", 0, 0, 0, ANNEX_8, "memory"}},
    {121, "", 1.29, {"tyre: load-speed bonus", "LI 121, need 129 %, km/h (outside)", 0, 0, 0, ANNEX_8, "memory"}},
    {150, "", (1.0 / 0.621306) - 1.0, {"tyre: load-speed bonus", "LI 150, need of 38 psi on 75 (61 %), km/h", 15, 1e-9, 0, ANNEX_8, "own"}},
};
// clang-format on

static void bonus_check_values(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof BONUSES / sizeof BONUSES[0]; i++) {
        const struct bonus_case *c = &BONUSES[i];
        CHECK_ROW(&c->row, speed_kmh(c->li, c->symbol, c->need_1));
    }
}

static void a_met_need_leaves_the_symbol(void **state)
{
    (void)state;
    double v = 0.0;
    CHECK_STATUS(loadindex_bonus_speed(121, "", 0.0, &v), STATUS_W_CLAMPED);
    CHECK_CLOSE(v * 3.6, 120, 1e-9, 0, "default symbol L");
    CHECK_STATUS(loadindex_bonus_speed(122, "", -0.3, &v), STATUS_W_CLAMPED);
    CHECK_CLOSE(v * 3.6, 100, 1e-9, 0, "default symbol J");
    CHECK_STATUS(loadindex_bonus_speed(116, "T", -0.3, &v), STATUS_W_CLAMPED);
    CHECK_CLOSE(v * 3.6, 190, 1e-9, 0, "symbol T");
}

static void slow_symbols_gain_no_speed_beyond_their_own(void **state)
{
    (void)state;
    static const char *const slow[] = {"A1", "A8", "B", "E", "F", "G", "J", "K"};
    for (size_t i = 0; i < sizeof slow / sizeof slow[0]; i++) {
        for (int li = 118; li <= 124; li += 3) {
            for (double need_1 = 0.01; need_1 < 1.2; need_1 += 0.07) {
                double own = 0.0, got = 0.0;
                CHECK_STATUS(loadindex_speed(slow[i], &own), STATUS_OK);
                CHECK_STATUS(loadindex_bonus_speed(li, slow[i], need_1, &got), STATUS_OK);
                assert_true(got < own);
            }
        }
    }
}

/* The lesser of two columns where the lighter tyres have none of their own; none below F. */
static void symbols_without_a_column(void **state)
{
    (void)state;
    CHECK_CLOSE(speed_kmh(118, "J", 0.20), 30, 1e-9, 0, "25 % at 30 km/h in the column J");
    CHECK_CLOSE(speed_kmh(118, "J", 1.00), 0, 0, 0, "light tyres gain 90 % at 5 km/h");
    CHECK_CLOSE(speed_kmh(118, "J", 0.80), 5, 1e-9, 0, "light tyres gain 75 % at 10 km/h");
    CHECK_CLOSE(speed_kmh(118, "G", 0.02), 85, 1e-9, 0, "2 % at 85 km/h in the column G");
    CHECK_CLOSE(speed_kmh(118, "E", 0.01), 0, 0, 0, "no column E");
    CHECK_CLOSE(speed_kmh(150, "E", 0.01), 0, 0, 0, "no column E");
    CHECK_CLOSE(speed_kmh(150, "F", 0.01), 75, 1e-9, 0, "2.5 % at 75 km/h in the column F");
}

static void speed_falls_as_the_need_rises(void **state)
{
    (void)state;
    for (int li = 100; li <= 150; li += 25) {
        double last = HUGE_VAL;
        for (double need_1 = 0.001; need_1 < 1.6; need_1 += 0.003) {
            double v = speed_kmh(li, "", need_1);
            assert_true(v <= last);
            last = v;
        }
    }
}

static void nonsense_leaves_the_output_alone(void **state)
{
    (void)state;
    double v = 7.0;
    int li = 7;
    CHECK_STATUS(loadindex_kg(59, &v), STATUS_E_DOMAIN);
    CHECK_STATUS(loadindex_kg(180, &v), STATUS_E_DOMAIN);
    CHECK_STATUS(loadindex_kg(-1, &v), STATUS_E_DOMAIN);
    CHECK_STATUS(loadindex_speed("", &v), STATUS_E_UNKNOWN);
    CHECK_STATUS(loadindex_speed("A9", &v), STATUS_E_UNKNOWN);
    CHECK_STATUS(loadindex_speed("q", &v), STATUS_E_UNKNOWN);
    CHECK_STATUS(loadindex_bonus_speed(121, "I", 0.1, &v), STATUS_E_UNKNOWN);
    CHECK_STATUS(loadindex_bonus_speed(121, "", nan(""), &v), STATUS_E_DOMAIN);
    CHECK_STATUS(loadindex_bonus_speed(121, "", HUGE_VAL, &v), STATUS_E_DOMAIN);
    CHECK_STATUS(loadindex_bonus_speed(0, "", 0.1, &v), STATUS_E_DOMAIN);
    CHECK_STATUS(loadindex_for_kg(nan(""), &li), STATUS_E_DOMAIN);
    CHECK_STATUS(loadindex_for_kg(HUGE_VAL, &li), STATUS_E_DOMAIN);
    CHECK_STATUS(loadindex_for_kg(249.9, &li), STATUS_E_DOMAIN);
    CHECK_CLOSE(v, 7.0, 0, 0, "untouched on error");
    assert_int_equal(li, 7);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(loads_are_those_of_the_table),
        cmocka_unit_test(loads_follow_the_preferred_numbers),
        cmocka_unit_test(loads_rise_and_invert),
        cmocka_unit_test(symbols_are_speeds),
        cmocka_unit_test(bonus_is_the_annex_row_by_row),
        cmocka_unit_test(bonus_check_values),
        cmocka_unit_test(a_met_need_leaves_the_symbol),
        cmocka_unit_test(slow_symbols_gain_no_speed_beyond_their_own),
        cmocka_unit_test(symbols_without_a_column),
        cmocka_unit_test(speed_falls_as_the_need_rises),
        cmocka_unit_test(nonsense_leaves_the_output_alone),
    };
    return check_run("loadindex", tests, sizeof tests / sizeof tests[0], argc, argv);
}
