/* test_air_tables.c - the simulation against the reference's tables (95 L set). Those runs stop at
 * a hot 35 psi on the gauge; ours stops at a settled pressure, so it is asked for the pressure at
 * which the energy model's run of the same case settles. */
#include "support/check.h"

#include <math.h>
#include <stdio.h>

#include "base/units.h"
#include "sim/heat.h"
#include "support/air.h"

static const char RUNS[] = "own: energy-model tables of the reference, 95 L set, hot 35 psi";
static const double PSI = UNITS_PA_PER_PSI;

/* Time at which ours has what the energy model's hot stop settles to; the last corner's. */
static double our_time(const struct air_case *c, const double to_psi[])
{
    struct energy_rig r = air_truth(c);
    struct energy_state es;
    double done[ENERGY_CORNERS], from[4], to[4], last = 0;
    for (int i = 0; i < c->n; i++) {
        r.corner[i].target_gauge_pa = to_psi[i] * PSI;
    }
    energy_begin(&r, &es);
    assert_true(energy_fill(&r, ENERGY_HOT, 3000, &es, done));
    for (int i = 0; i < c->n; i++) {
        from[i] = r.corner[i].start_gauge_pa;
        to[i] = energy_settled_gauge(&r, &es, i);
    }
    struct source source;
    struct line l;
    struct run_state s;
    air_line(c, &source, &l);
    assert_true(air_fill(&l, from, to, 0, done, &s));
    for (int i = 0; i < c->n; i++) {
        last = fmax(last, done[i]);
    }
    return last;
}

struct table_row {
    struct air_case c;
    double times; /* hook-ups of this kind one after the other */
    struct check_row row;
};

static void check_table(const struct table_row *t, size_t n)
{
    static const double to[] = {35, 35, 35, 35};
    for (size_t i = 0; i < n; i++) {
        struct check_row row = t[i].row;
        row.topic = "air: tables of runs";
        row.tol_rel = 0.02;
        row.src = RUNS;
        row.status = "own";
        struct air_case c = t[i].c;
        c.friction_1 = 1; /* as those runs */
        CHECK_ROW(&row, t[i].times * our_time(&c, to));
    }
}

// clang-format off
static void hook_ups(void **state)
{
    (void)state;
    static const struct table_row t[] = {
        {{.n = 1}, 4, {.name = "four one at a time, s", .want = 340}},
        {{.n = 2}, 2, {.name = "four in pairs, s", .want = 307}},
        {{.n = 4}, 1, {.name = "four linked, s", .want = 295}},
        {{.n = 1, .inlet_temp_k = 333.15}, 4, {.name = "one at a time, intake 60 C, s", .want = 373}},
        {{.n = 2, .inlet_temp_k = 333.15}, 2, {.name = "pairs, intake 60 C, s", .want = 343}},
        {{.n = 4, .inlet_temp_k = 333.15}, 1, {.name = "linked, intake 60 C, s", .want = 332}},
        {{.n = 1, .ambient_abs_pa = 79501}, 4, {.name = "one at a time, 2000 m, s", .want = 434}},
        {{.n = 2, .ambient_abs_pa = 79501}, 2, {.name = "pairs, 2000 m, s", .want = 395}},
        {{.n = 4, .ambient_abs_pa = 79501}, 1, {.name = "linked, 2000 m, s", .want = 382}},
        {{.n = 1, .core_m2 = 1e-6}, 4, {.name = "one at a time, core 1.0 mm2, s", .want = 361}},
        {{.n = 2, .core_m2 = 1e-6}, 2, {.name = "pairs, core 1.0 mm2, s", .want = 317}},
        {{.n = 4, .core_m2 = 1e-6}, 1, {.name = "linked, core 1.0 mm2, s", .want = 299}},
        {{.n = 1, .core_m2 = 1.6e-6}, 4, {.name = "one at a time, core 1.6 mm2, s", .want = 321}},
        {{.n = 2, .core_m2 = 1.6e-6}, 2, {.name = "pairs, core 1.6 mm2, s", .want = 299}},
        {{.n = 4, .core_m2 = 1.6e-6}, 1, {.name = "linked, core 1.6 mm2, s", .want = 293}},
        {{.n = 1, .scale_1 = 2}, 4, {.name = "one at a time, two machines, s", .want = 201}},
        {{.n = 2, .scale_1 = 2}, 2, {.name = "pairs, two machines, s", .want = 170}},
        {{.n = 4, .scale_1 = 2}, 1, {.name = "linked, two machines, s", .want = 155}},
        {{.n = 4, .bore_m = 5e-3}, 1, {.name = "linked, hose 5 mm, s", .want = 298.8}},
        {{.n = 4, .bore_m = 9.5e-3}, 1, {.name = "linked, hose 9.5 mm, s", .want = 293.9}},
        {{.n = 4, .volume_m3 = .075, .core_m2 = .99e-6, .swept_m3_s = 106.6 / 6e4}, 1,
         {.name = "linked, 75 L set, s", .want = 295.3}},
        {{.n = 4, .volume_m3 = .117, .core_m2 = 1.54e-6, .swept_m3_s = 166 / 6e4}, 1,
         {.name = "linked, 117 L set, s", .want = 295.5}},
        {{.n = 1, .shop_gauge_pa = 90 * UNITS_PA_PER_PSI, .shop_m2 = 8e-6}, 1, {.name = "shop air 90 psi, one, s", .want = 79}},
        {{.n = 4, .shop_gauge_pa = 90 * UNITS_PA_PER_PSI, .shop_m2 = 8e-6}, 1, {.name = "shop air 90 psi, linked, s", .want = 94}},
        {{.n = 4, .shop_gauge_pa = 90 * UNITS_PA_PER_PSI, .shop_m2 = 8e-6, .core_m2 = 6e-6, .core_b_1 = .45}, 1,
         {.name = "shop air 90 psi, linked, cores out, s", .want = 57}},
    };
    check_table(t, sizeof t / sizeof t[0]);
}
// clang-format on

static void staged(void **state)
{
    (void)state;
    static const double to[] = {35, 35, 30, 30};
    static const struct check_row row = {
        "air: tables of runs", "front 35, rear 30, linked, s", 256, 0, .02, RUNS, "own"};
    struct air_case c = {.n = 4};
    CHECK_ROW(&row, our_time(&c, to));
}

/* Stopping at a settled 35: isothermal runs of the reference. */
static void isothermal(void **state)
{
    (void)state;
    static const struct check_row row[] = {
        {"air: tables of runs", "isothermal, one at a time to a settled 35, s", 361.1, .5, 0, RUNS,
         "own"},
        {"air: tables of runs", "isothermal, pairs to a settled 35, s", 318.0, .5, 0, RUNS, "own"},
        {"air: tables of runs", "isothermal, four to a settled 35, s", 300.8, .6, 0, RUNS, "own"},
    };
    static const int n[] = {1, 2, 4};
    for (int i = 0; i < 3; i++) {
        struct air_case c = {.n = n[i]};
        struct source source;
        struct line l;
        struct run_state s;
        double from[4], to[4], done[4];
        for (int k = 0; k < 4; k++) {
            from[k] = 15 * PSI;
            to[k] = 35 * PSI;
        }
        air_line(&c, &source, &l);
        assert_true(air_fill(&l, from, to, 0, done, &s));
        CHECK_ROW(&row[i], done[0] * (4 / n[i]));
    }
}

static void line_pressures(void **state)
{
    (void)state;
    static const struct {
        int n;
        double want[3];
    } t[] = {{1, {78.7, 79.8, 82.1}}, {2, {42.1, 46.4, 52.2}}, {4, {24.0, 31.6, 40.1}}};
    for (int i = 0; i < 3; i++) {
        struct air_case c = {.n = t[i].n};
        struct source source;
        struct line l;
        air_line(&c, &source, &l);
        for (int k = 0; k < 3; k++) {
            double p[4], root = 0;
            for (int j = 0; j < 4; j++) {
                p[j] = 101325 + (15 + 10 * k) * PSI;
            }
            struct line_flow f;
            line_solve(&l, (1u << l.n) - 1, true, p, 0, &root, &f);
            char name[64];
            (void)snprintf(name, sizeof name, "line with %d open at %d psi, psi", t[i].n,
                           15 + 10 * k);
            struct check_row row = {
                "air: tables of runs", name, t[i].want[k], .05, .02, RUNS, "own"};
            CHECK_ROW(&row, (f.line_abs_pa - 101325) / PSI);
        }
    }
}

/* A tank at the outlet and n tyres behind bare cores, by forward Euler at 2 ms. */
static double tank_by_euler(int n, double tank_m3, double tank_psi, double to_psi)
{
    const double rt = 287.05 * 293.15, pa = 101325, k = 2e-7, v = .095, e = 1 - k * pa;
    const double cp = 1.25e-6 * .68473 / sqrt(rt), dt = 2e-3;
    double tank = (pa + tank_psi * PSI) * tank_m3 / rt;
    double tyre = (pa + 15 * PSI) * v * (1 + k * 15 * PSI) / rt, p = 0, t = 0;
    for (; t < 1000; t += dt) {
        double x = tyre * rt / v, pt = tank * rt / tank_m3;
        p = (sqrt(e * e + 4 * k * x) - e) / (2 * k);
        if (p - pa >= to_psi * PSI) {
            break;
        }
        double up = fmax(p, pt), r = fmin(fmin(p, pt) / up, .998), q = r > .3 ? (r - .3) / .7 : 0;
        double m = cp * up * sqrt(1 - q * q) * fmin(1, (1 - fmin(p, pt) / up) / .002);
        m = pt > p ? m : -m;
        double machine = 135 / 6e4 * pa / (287.05 * 308.15) * (1.06 - .06 * pow(pt / pa, .8)) *
                         (1 - .1 * (pt - pa) / 689475.7);
        tyre += m * dt;
        tank += (machine - n * m) * dt;
    }
    return t;
}

/* to_psi: settled; over_psi: what a gauge would read above it on stopping. */
static double tank_by_run(int n, double tank_m3, double tank_psi, double to_psi, double hose_m,
                          double *over_psi)
{
    struct air_case c = {
        .n = n, .tank_m3 = tank_m3, .hose_m = hose_m, .bore_m = hose_m < 1 ? 1 : 0};
    struct source source;
    struct line l;
    struct run_state s;
    struct line_flow f;
    double from[4], to[4], done[4];
    for (int k = 0; k < 4; k++) {
        from[k] = 15 * PSI;
        to[k] = to_psi * PSI;
    }
    air_line(&c, &source, &l);
    l.main_si = 0; /* the reference's tank hangs at the branching point, ours at the source */
    assert_true(air_fill(&l, from, to, tank_psi * PSI, done, &s));
    s.open = (1u << n) - 1;
    run_flow(&l, &s, &f);
    *over_psi = heat_over_read(to[0] + 101325, .095, 293.15, f.vessel_kg_s[0]) / PSI;
    return done[0];
}

/* Against the table, whose runs stop at a hot 35; and against the integration above where the
 * table cannot be repeated: an empty tank and one tyre (136 and 174 s), and 120 psi with four
 * (233 s), where the air balance alone asks for 241 s. */
static void tanks(void **state)
{
    (void)state;
    static const char TANK_RUNS[] =
        "own: runs of the reference, 95 L set, hot 35 psi; their tank warms and "
        "cools, ours does not: 3 %";
    static const struct {
        int n;
        double litres, psi;
        struct check_row row;
    } t[] = {
        {4, 19, 0, {.name = "empty 19 L tank in line, four, s", .want = 323}},
        {1, 19, 80, {.name = "19 L tank at 80 psi, one tyre, s", .want = 85.3}},
        {4, 19, 80, {.name = "19 L tank at 80 psi, four, s", .want = 266}},
        {1, 19, 120, {.name = "19 L tank at 120 psi, one tyre, s", .want = 65}},
        {4, 19, 120, {.name = "19 L tank at 120 psi, bare cores, four, s"}},
        {1, 19, 0, {.name = "empty 19 L tank, bare core, one tyre, s"}},
        {4, 19, 0, {.name = "empty 19 L tank, bare cores, four, s"}},
        {1, 38, 0, {.name = "empty 38 L tank, bare core, one tyre, s"}},
        {4, 38, 0, {.name = "empty 38 L tank, bare cores, four, s"}},
    };
    for (size_t i = 0; i < sizeof t / sizeof t[0]; i++) {
        double m3 = t[i].litres * 1e-3, over = 0, time = 0;
        bool table = t[i].row.want > 0;
        for (int k = 0; k < (table ? 4 : 1); k++) { /* settled + over-read = 35 */
            time = tank_by_run(t[i].n, m3, t[i].psi, 35 - over, table ? 3 : 1e-6, &over);
        }
        struct check_row row = {"air: tanks and spares",
                                t[i].row.name,
                                t[i].row.want,
                                table ? .5 : .02,
                                table ? .03 : 5e-4,
                                table ? TANK_RUNS : "own: forward Euler at 2 ms",
                                "own"};
        row.want = table ? row.want : tank_by_euler(t[i].n, m3, t[i].psi, 35);
        CHECK_ROW(&row, time);
    }
}

/* n tyres and, as the last vessel, a spare; machine or not. */
static void with_spare(int n, bool machine, bool check, double stretch, struct source *source,
                       struct line *l)
{
    struct air_case c = {.n = n + 1};
    air_line(&c, source, l);
    if (!machine) {
        source->kind = SOURCE_NONE;
    }
    l->vessel[n].no_inflow = check;
    for (int i = 0; i <= n; i++) {
        l->vessel[i].stretch_1_pa = stretch;
    }
    CHECK_STATUS(line_prepare(l), STATUS_OK);
}

static double equalised_psi(int n, double stretch)
{
    struct source source;
    struct line l;
    struct run_state s;
    double p[5];
    with_spare(n, false, false, stretch, &source, &l);
    for (int i = 0; i <= n; i++) {
        p[i] = 101325 + (i == n ? 65 : 15) * PSI;
    }
    CHECK_STATUS(run_begin(&l, p, 0, &s), STATUS_OK);
    CHECK_STATUS(run_to_time(&l, 3600, &s), STATUS_OK);
    return (line_pressure(&l, 0, s.mass_kg[0]) - 101325) / PSI;
}

static void equalisation(void **state)
{
    (void)state;
    static const char EQ[] = "isothermal equalisation p = sum p V / sum V";
    static const struct check_row row[] = {
        {"air: tanks and spares", "spare 65 psi and one tyre at 15, psi", 40.0, .05, 0, EQ, "own"},
        {"air: tanks and spares", "spare 65 psi and two tyres at 15, psi", 31.7, .05, 0, EQ, "own"},
        {"air: tanks and spares", "spare 65 psi and four tyres at 15, psi", 25.0, .05, 0, EQ,
         "own"},
        {"air: tanks and spares", "one tyre, stretch 2 %/bar, psi", 40.8, .05, 0, EQ, "own"},
        {"air: tanks and spares", "two tyres, stretch 2 %/bar, psi", 32.4, .05, 0, EQ, "own"},
        {"air: tanks and spares", "four tyres, stretch 2 %/bar, psi", 25.5, .05, 0, EQ, "own"},
    };
    static const int n[] = {1, 2, 4};
    for (int i = 0; i < 3; i++) {
        CHECK_ROW(&row[i], equalised_psi(n[i], 0));
        CHECK_ROW(&row[3 + i], equalised_psi(n[i], 2e-7));
    }
}

static void linked_without_machine(void **state)
{
    (void)state;
    static const double at[] = {60, 120, 300};
    static const struct check_row row[] = {
        {"air: tanks and spares", "30/10/10/10 psi linked, after 60 s, psi", 24.6, .05, .02, RUNS,
         "own"},
        {"air: tanks and spares", "30/10/10/10 psi linked, after 120 s, psi", 20.7, .05, .02, RUNS,
         "own"},
        {"air: tanks and spares", "30/10/10/10 psi linked, after 300 s, psi", 15.2, .05, .02, RUNS,
         "own"},
    };
    struct air_case c = {.n = 4};
    struct source source;
    struct line l;
    struct run_state s;
    air_line(&c, &source, &l);
    double p[4];
    for (int i = 0; i < 4; i++) {
        p[i] = 101325 + (i == 0 ? 30 : 10) * PSI;
    }
    CHECK_STATUS(run_begin(&l, p, 0, &s), STATUS_OK);
    s.on = false;
    for (int i = 0; i < 3; i++) {
        CHECK_STATUS(run_to_time(&l, at[i], &s), STATUS_OK);
        CHECK_ROW(&row[i], (line_pressure(&l, 0, s.mass_kg[0]) - 101325) / PSI);
    }
}

static void spares(void **state)
{
    (void)state;
    static const struct check_row row[] = {
        {"air: tanks and spares", "full spare in a free line, one tyre, s", 99.6, 0, .02, RUNS,
         "own"},
        {"air: tanks and spares", "that spare ends at, psi", 69.2, .05, .02, RUNS, "own"},
        {"air: tanks and spares", "full spare with four linked, s", 214, .5, .02, RUNS, "own"},
        {"air: tanks and spares", "that spare ends at, psi (four)", 43, .5, .02, RUNS, "own"},
    };
    for (int i = 0; i < 2; i++) {
        int n = i == 0 ? 1 : 4;
        struct source source;
        struct line l;
        struct run_state s;
        struct run_event e;
        struct run_until u = {.time_s = RUN_FOREVER_S, .watch = 1};
        double p[5];
        with_spare(n, true, false, 2e-7, &source, &l);
        for (int k = 0; k <= n; k++) {
            p[k] = 101325 + (k == n ? 65 : 15) * PSI;
        }
        u.target_kg[0] = line_mass(&l, 0, 101325 + (n == 1 ? 33.82 : 34.5) * PSI);
        CHECK_STATUS(run_begin(&l, p, 0, &s), STATUS_OK);
        CHECK_STATUS(run_to_event(&l, &u, &s, &e), STATUS_OK);
        assert_int_equal(e.why, RUN_TARGET);
        CHECK_ROW(&row[2 * i], s.time_s);
        CHECK_ROW(&row[2 * i + 1], (line_pressure(&l, n, s.mass_kg[n]) - 101325) / PSI);
    }
}

/* One corner at 34, three at 10, machine running, to a hot 35. */
static void unequal_starts(void **state)
{
    (void)state;
    static const struct check_row row[] = {
        {"air: tanks and spares", "34/10/10/10 psi, free line: lowest of the first, psi", 32.0, .05,
         .02, RUNS, "own"},
        {"air: tanks and spares", "34/10/10/10 psi, free line: first done, s", 212, .5, .02, RUNS,
         "own"},
        {"air: tanks and spares", "34/10/10/10 psi, check valves: first done, s", 188, .5, .02,
         RUNS, "own"},
        {"air: tanks and spares", "34/10/10/10 psi: others done, s", 281, .5, .02, RUNS, "own"},
    };
    double from[4] = {34 * PSI, 10 * PSI, 10 * PSI, 10 * PSI}, low = 1e9, done[4];
    double to[4] = {34.72 * PSI, 34.5 * PSI, 34.5 * PSI, 34.5 * PSI}; /* over-read by flow then */
    struct air_case c = {.n = 4};
    struct source source;
    struct line l;
    struct run_state s;
    air_line(&c, &source, &l);
    assert_true(air_fill(&l, from, to, 0, done, &s));
    CHECK_ROW(&row[1], done[0]);
    CHECK_ROW(&row[3], done[1]);
    double p[4];
    for (int i = 0; i < 4; i++) {
        p[i] = from[i] + 101325;
    }
    CHECK_STATUS(run_begin(&l, p, 0, &s), STATUS_OK);
    for (int t = 1; t < 200; t++) {
        CHECK_STATUS(run_to_time(&l, t, &s), STATUS_OK);
        low = fmin(low, line_pressure(&l, 0, s.mass_kg[0]));
    }
    CHECK_ROW(&row[0], (low - 101325) / PSI);
    for (int i = 0; i < 4; i++) {
        l.vessel[i].no_outflow = true;
    }
    CHECK_STATUS(line_prepare(&l), STATUS_OK);
    assert_true(air_fill(&l, from, to, 0, done, &s));
    CHECK_ROW(&row[2], done[0]);
}

static void over_read_table(void **state)
{
    (void)state;
    static const struct {
        double q_l_min;
        struct check_row row;
    } t[] = {
        {27.5,
         {"air: stop reading over the settled pressure", "four linked, psi", .36, .005, .1, RUNS,
          "own"}},
        {52,
         {"air: stop reading over the settled pressure", "pairs, psi", .67, .005, .1, RUNS, "own"}},
        {93,
         {"air: stop reading over the settled pressure", "one, psi", 1.18, .005, .1, RUNS, "own"}},
    };
    for (int i = 0; i < 3; i++) {
        CHECK_ROW(&t[i].row,
                  heat_over_read(101325 + 35 * PSI, .095, 293.15, t[i].q_l_min / 6e4 * 1.204) /
                      PSI);
    }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(hook_ups),       cmocka_unit_test(staged),
        cmocka_unit_test(isothermal),     cmocka_unit_test(line_pressures),
        cmocka_unit_test(tanks),          cmocka_unit_test(equalisation),
        cmocka_unit_test(spares),         cmocka_unit_test(linked_without_machine),
        cmocka_unit_test(unequal_starts), cmocka_unit_test(over_read_table),
    };
    return check_run("air tables", tests, sizeof tests / sizeof tests[0], argc, argv);
}
