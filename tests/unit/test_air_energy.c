/* test_air_energy.c - the energy model against its closed limits and the reference runs, then the
 * simulation against the energy model: when it is done, and what a gauge reads on stopping. */
#include "support/check.h"

#include <math.h>

#include "base/units.h"
#include "sim/heat.h"
#include "support/air.h"

static const char RUNS[] = "own: energy-model runs of the reference, 95 L set";
static const double PSI = UNITS_PA_PER_PSI;

/* One rigid insulated tyre filled fast from a large supply at its own temperature. */
static double adiabatic_k(double t_k, double from_abs, double to_abs)
{
    struct energy_rig r = energy_default();
    r.n = 1;
    r.temp_k = t_k;
    r.hose_w_m_k = 0;
    r.main_m = r.branch_m = 0;
    r.regulator_gauge_pa = 2 * to_abs;
    r.regulator_m2 = 2e-5;
    r.step_s = 0.01;
    r.corner[0] = (struct energy_corner){.volume_m3 = .095,
                                         .core_m2 = 1e-5,
                                         .core_b_1 = .3,
                                         .start_gauge_pa = from_abs - r.ambient_abs_pa,
                                         .target_gauge_pa = to_abs - r.ambient_abs_pa};
    struct energy_state s;
    double done[ENERGY_CORNERS];
    energy_begin(&r, &s);
    assert_true(energy_fill(&r, ENERGY_HOT, 1000, &s, done));
    return energy_temp(&r, &s, 0);
}

static void charging_limits(void **state)
{
    (void)state;
    static const char OPEN[] = "unsteady-flow energy balance T2/T1 = g/(1 + (g-1) p1/p2)";
    static const struct check_row row[] = {
        {"air: energy reference", "evacuated adiabatic vessel, line 300 K, K", 420, .5, 0,
         "textbook result, Cengel and Boles ch. 5", "read"},
        {"air: energy reference", "T2/T1, p2/p1 3", 1.2353, 5e-5, 0, OPEN, "own"},
        {"air: energy reference", "T2/T1, p2/p1 10", 1.3462, 5e-5, 0, OPEN, "own"},
        {"air: energy reference", "T2/T1, p2/p1 100", 1.3944, 5e-5, 0, OPEN, "own"},
        {"air: energy reference", "15 to 35 psi adiabatic, K", 331.24, .005, 0, OPEN, "own"},
    };
    CHECK_ROW(&row[0], adiabatic_k(300, 10, 2e5));
    CHECK_ROW(&row[1], adiabatic_k(300, 1e5, 3e5) / 300);
    CHECK_ROW(&row[2], adiabatic_k(300, 1e5, 1e6) / 300);
    CHECK_ROW(&row[3], adiabatic_k(300, 1e4, 1e6) / 300);
    CHECK_ROW(&row[4], adiabatic_k(293.15, 101325 + 15 * PSI, 101325 + 35 * PSI));
}

/* Blow-down through a hole in the tyre. */
static struct energy_state blown(double hf, double stretch, double s_mm2, double b, double to_psi)
{
    struct energy_rig r = energy_default();
    r.n = 1;
    r.step_s = 0.02;
    r.corner[0] = (struct energy_corner){.volume_m3 = .095,
                                         .stretch_1_pa = stretch,
                                         .core_m2 = 1e-6,
                                         .core_b_1 = b,
                                         .hf_1 = hf,
                                         .leak_m2 = s_mm2 * 1e-6,
                                         .start_gauge_pa = 35 * PSI};
    struct energy_state s, before;
    energy_begin(&r, &s);
    s.open = 0;
    while (energy_hot_gauge(&r, &s, 0) > to_psi * PSI) {
        before = s;
        energy_to(&r, s.time_s + r.step_s, &s);
    }
    double p0 = energy_hot_gauge(&r, &before, 0), p1 = energy_hot_gauge(&r, &s, 0);
    energy_to(&r, before.time_s + r.step_s * (p0 - to_psi * PSI) / (p0 - p1), &before);
    return before;
}

static void blow_down_limits(void **state)
{
    (void)state;
    struct energy_rig r = energy_default();
    r.n = 1;
    static const struct check_row row[] = {
        {"air: energy reference", "adiabatic 35 to 15 psi, K", 253.0, .05, 0,
         "isentropic expansion 293.15 (29.696/49.696)^0.2857", "own"},
        {"air: energy reference", "adiabatic 35 to 15 psi, settles at psi", 19.7, .05, 0,
         "constant volume back to 293.15 K", "own"},
        {"air: energy reference", "core out 6 mm2, 35 to 15 psi, s", 43, .5, 0, RUNS, "own"},
        {"air: energy reference", "core out 6 mm2, gas colder by, K", 9.2, .05, .02, RUNS, "own"},
        {"air: energy reference", "core out 6 mm2, settles at psi", 15.9, .05, 0, RUNS, "own"},
        {"air: energy reference", "pin pressed 1.25 mm2, 35 to 15 psi, s", 214, .5, .01, RUNS,
         "own"},
        {"air: energy reference", "pin pressed 1.25 mm2, settles at psi", 15.3, .05, 0, RUNS,
         "own"},
    };
    r.corner[0].stretch_1_pa = 0;
    struct energy_state s = blown(0, 0, 6, .5, 15);
    CHECK_ROW(&row[0], energy_temp(&r, &s, 0));
    CHECK_ROW(&row[1], energy_settled_gauge(&r, &s, 0) / PSI);
    r.corner[0].stretch_1_pa = 2e-7;
    s = blown(2, 2e-7, 6, .45, 15);
    CHECK_ROW(&row[2], s.time_s);
    CHECK_ROW(&row[3], 293.15 - energy_temp(&r, &s, 0));
    CHECK_ROW(&row[4], energy_settled_gauge(&r, &s, 0) / PSI);
    s = blown(2, 2e-7, 1.25, .3, 15);
    CHECK_ROW(&row[5], s.time_s);
    CHECK_ROW(&row[6], energy_settled_gauge(&r, &s, 0) / PSI);
}

static void reference_runs(void **state)
{
    (void)state;
    static const struct {
        int n;
        struct check_row hot, settled;
    } t[] = {
        {4,
         {"air: energy reference", "four to a hot 35 psi, s", 295.4, .05, .001, RUNS, "own"},
         {"air: energy reference", "four: settles at psi", 34.64, .005, 0, RUNS, "own"}},
        {2,
         {"air: energy reference", "pair to a hot 35 psi, s", 153.5, .6, 0, RUNS, "own"},
         {"air: energy reference", "pair: settles at psi", 34.3, .05, 0, RUNS, "own"}},
        {1,
         {"air: energy reference", "one to a hot 35 psi, s", 85, .5, 0, RUNS, "own"},
         {"air: energy reference", "one: settles at psi", 33.8, .05, 0, RUNS, "own"}},
    };
    for (int i = 0; i < 3; i++) {
        struct energy_rig r = energy_default();
        struct energy_state s;
        double done[ENERGY_CORNERS];
        r.n = t[i].n;
        energy_begin(&r, &s);
        assert_true(energy_fill(&r, ENERGY_HOT, 1000, &s, done));
        CHECK_ROW(&t[i].hot, done[0]);
        CHECK_ROW(&t[i].settled, energy_settled_gauge(&r, &s, 0) / PSI);
    }
}

/* After stopping at 35.00 the reading creeps down. */
static void settling_curve(void **state)
{
    (void)state;
    static const double after[] = {5, 10, 20, 30, 60, 120};
    static const struct check_row row[] = {
        {"air: energy reference", "stopped at 35, four linked, after 5 s, psi", 34.90, .006, 0,
         RUNS, "own"},
        {"air: energy reference", "stopped at 35, four linked, after 10 s, psi", 34.83, .006, 0,
         RUNS, "own"},
        {"air: energy reference", "stopped at 35, four linked, after 20 s, psi", 34.75, .006, 0,
         RUNS, "own"},
        {"air: energy reference", "stopped at 35, four linked, after 30 s, psi", 34.71, .006, 0,
         RUNS, "own"},
        {"air: energy reference", "stopped at 35, four linked, after 60 s, psi", 34.67, .006, 0,
         RUNS, "own"},
        {"air: energy reference", "stopped at 35, four linked, after 120 s, psi", 34.65, .006, 0,
         RUNS, "own"},
    };
    struct energy_rig r = energy_default();
    struct energy_state s;
    double done[ENERGY_CORNERS];
    energy_begin(&r, &s);
    assert_true(energy_fill(&r, ENERGY_HOT, 1000, &s, done));
    double stop = s.time_s;
    for (int i = 0; i < 6; i++) {
        energy_to(&r, stop + after[i], &s);
        CHECK_ROW(&row[i], energy_hot_gauge(&r, &s, 0) / PSI);
    }
}

/* The simulation is done when the energy model is, to half a second in 300. */
static void finish_matches(void **state)
{
    (void)state;
    static const char SRC[] = "independent energy integration, settled targets";
    static const struct {
        struct air_case c;
        double to_psi[4];
        struct check_row row;
    } t[] = {
        {{.n = 4}, {35, 35, 35, 35}, {.name = "four linked 15 to 35, s"}},
        {{.n = 2}, {35, 35}, {.name = "pair 15 to 35, s"}},
        {{.n = 1}, {35}, {.name = "one 15 to 35, s"}},
        {{.n = 4}, {35, 35, 30, 30}, {.name = "front 35, rear 30: last, s"}},
        {{.n = 4, .volume_m3 = .11745, .core_m2 = 1.54e-6, .swept_m3_s = 166 / 6e4},
         {35, 35, 35, 35},
         {.name = "four linked, 117 L set, s"}},
        {{.n = 4, .volume_m3 = .11745, .core_m2 = 1.54e-6, .swept_m3_s = 166 / 6e4},
         {38, 38, 48, 48},
         {.name = "117 L set, 38 and 48: last, s"}},
        {{.n = 4, .inlet_temp_k = 333.15}, {35, 35, 35, 35}, {.name = "intake 60 C, s"}},
        {{.n = 4, .ambient_abs_pa = 79501}, {35, 35, 35, 35}, {.name = "at 2000 m, s"}},
        {{.n = 4, .core_m2 = 6e-6, .core_b_1 = .45}, {35, 35, 35, 35}, {.name = "cores out, s"}},
        {{.n = 4, .bore_m = 5e-3}, {35, 35, 35, 35}, {.name = "5 mm hose, s"}},
    };
    for (size_t i = 0; i < sizeof t / sizeof t[0]; i++) {
        struct air_case c = t[i].c;
        c.friction_1 = HOSE_EXCESS_1;
        struct energy_rig r = air_truth(&c);
        struct energy_state es;
        double from[4], to[4], truth[ENERGY_CORNERS], done[4], last = 0, want = 0;
        for (int k = 0; k < c.n; k++) {
            from[k] = r.corner[k].start_gauge_pa;
            to[k] = r.corner[k].target_gauge_pa = t[i].to_psi[k] * PSI;
        }
        energy_begin(&r, &es);
        assert_true(energy_fill(&r, ENERGY_SETTLED, 2000, &es, truth));
        struct source source;
        struct line l;
        struct run_state s;
        air_line(&c, &source, &l);
        assert_true(air_fill(&l, from, to, 0, done, &s));
        for (int k = 0; k < c.n; k++) {
            last = fmax(last, done[k]);
            want = fmax(want, truth[k]);
        }
        struct check_row row = {
            "air: finish against the energy model", t[i].row.name, want, 0, .5 / 300, SRC, "own"};
        CHECK_ROW(&row, last);
    }
}

/* What a gauge reads on stopping, over the settled pressure: the formula against the energy
 * model's excess at the instant of stopping. */
static void over_reads(void **state)
{
    (void)state;
    static const struct {
        int n;
        double volume_m3, core_mm2, swept_l, to_psi;
        const char *name;
    } t[] = {
        {4, .095, 1.25, 135, 35, "four 95 L to 35"},
        {2, .095, 1.25, 135, 35, "two 95 L to 35"},
        {1, .095, 1.25, 135, 35, "one 95 L to 35"},
        {4, .11745, 1.54, 166, 35, "four 117 L to 35"},
        {1, .11745, 1.54, 166, 48, "one 117 L to 48"},
        {4, .075, .99, 106.6, 35, "four 75 L to 35"},
        {2, .072, 1.54, 60, 44, "two 72 L, small machine, to 44"},
        {1, .038, 1.54, 25, 26, "one 38 L, portable machine, to 26"},
        {4, .265, 1.54, 250, 60, "four 265 L, strong machine, to 60"},
    };
    for (size_t i = 0; i < sizeof t / sizeof t[0]; i++) {
        struct air_case c = {.n = t[i].n,
                             .volume_m3 = t[i].volume_m3,
                             .core_m2 = t[i].core_mm2 * 1e-6,
                             .swept_m3_s = t[i].swept_l / 6e4};
        struct energy_rig r = air_truth(&c);
        for (int k = 0; k < c.n; k++) {
            r.corner[k].target_gauge_pa = t[i].to_psi * PSI;
        }
        struct energy_state s;
        double done[ENERGY_CORNERS];
        energy_begin(&r, &s);
        assert_true(energy_fill(&r, ENERGY_SETTLED, 5000, &s, done));
        double over = energy_hot_gauge(&r, &s, 0) - energy_settled_gauge(&r, &s, 0);
        s.open = (1u << c.n) - 1;
        double m = energy_flow(&r, &s, 0);
        struct check_row row = {
            "air: stop reading over the settled pressure", t[i].name, over / PSI, 0.01, .12,
            "independent energy integration, psi",         "own"};
        CHECK_ROW(&row, heat_over_read(t[i].to_psi * PSI + r.ambient_abs_pa, t[i].volume_m3,
                                       r.temp_k, m) /
                            PSI);
    }
}

static void wall_coefficient(void **state)
{
    (void)state;
    static const struct check_row row = {
        "air: stop reading over the settled pressure",
        "h at 2.3 K, 35 psi, natural, W/(m2 K)",
        4.7,
        .05,
        0,
        "Nu = 0.13 Ra^(1/3), Geankoplis 1993; number worked by hand",
        "read"};
    CHECK_ROW(&row, heat_wall_coefficient(2.3, 101325 + 35 * PSI, 293.15));
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(charging_limits),  cmocka_unit_test(blow_down_limits),
        cmocka_unit_test(reference_runs),   cmocka_unit_test(settling_curve),
        cmocka_unit_test(finish_matches),   cmocka_unit_test(over_reads),
        cmocka_unit_test(wall_coefficient),
    };
    return check_run("air energy", tests, sizeof tests / sizeof tests[0], argc, argv);
}
