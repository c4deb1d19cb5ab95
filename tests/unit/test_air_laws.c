/* test_air_laws.c - what must hold whatever the numbers: air is neither made nor lost, finer steps
 * change nothing, the closed form agrees, nothing worse is faster, nothing hangs. */
#include "support/check.h"

#include <math.h>
#include <stdio.h>

#include "base/units.h"
#include "sim/down.h"
#include "sim/hookup.h"
#include "support/air.h"

static const double PSI = UNITS_PA_PER_PSI;

static double total_kg(const struct line *l, const struct run_state *s)
{
    double sum = s->tank_kg;
    for (int i = 0; i < l->n; i++) {
        sum += l->vessel[i].count_1 * s->mass_kg[i];
    }
    return sum;
}

static void air_is_kept(void **state)
{
    (void)state;
    static const struct {
        struct air_case c;
        double tank_psi;
        const char *name;
    } t[] = {
        {{.n = 4}, 0, "four linked: air delivered less air gained, share"},
        {{.n = 1}, 0, "one: air delivered less air gained, share"},
        {{.n = 4, .tank_m3 = .019}, 100, "tank in line: air delivered less air gained, share"},
        {{.n = 2, .core_m2 = 6e-6, .core_b_1 = .45}, 0, "cores out: the same, share"},
    };
    for (size_t i = 0; i < sizeof t / sizeof t[0]; i++) {
        struct source source;
        struct line l;
        struct run_state s, begin;
        double p[4], from[4], to[4], done[4];
        for (int k = 0; k < 4; k++) {
            from[k] = (10 + 3 * k) * PSI;
            p[k] = from[k] + 101325;
            to[k] = (30 + 2 * k) * PSI;
        }
        air_line(&t[i].c, &source, &l);
        CHECK_STATUS(run_begin(&l, p, t[i].tank_psi * PSI + 101325, &begin), STATUS_OK);
        assert_true(air_fill(&l, from, to, t[i].tank_psi * PSI, done, &s));
        double gained = total_kg(&l, &s) - total_kg(&l, &begin);
        struct check_row row = {"air: conservation and convergence",
                                t[i].name,
                                0,
                                1e-6,
                                0,
                                "no air is made or lost",
                                "own"};
        CHECK_ROW(&row, (s.delivered_kg - gained) / s.delivered_kg);
    }
}

/* Mass of the first vessel after span_s in pieces of h_s, each one step. */
static double mass_after(const struct line *l, const double p[], double span_s, double h_s)
{
    struct run_state s;
    CHECK_STATUS(run_begin(l, p, 0, &s), STATUS_OK);
    for (double t = h_s; t <= span_s + 1e-9; t += h_s) {
        s.step_s = 0;
        CHECK_STATUS(run_to_time(l, t, &s), STATUS_OK);
    }
    return s.mass_kg[0];
}

/* A smooth fill takes one step of any length; two corners that equalise show the order. */
static void steps_converge(void **state)
{
    (void)state;
    struct air_case c = {.n = 2};
    struct source source;
    struct line l;
    double p[2] = {101325 + 15 * PSI, 101325 + 18 * PSI};
    air_line(&c, &source, &l);
    double fine = mass_after(&l, p, 96, .5);
    static const struct check_row row = {"air: conservation and convergence",
                                         "one step of 96 s against 0.5 s, relative in mass",
                                         0,
                                         1e-7,
                                         0,
                                         "the program's own fine steps",
                                         "own"};
    CHECK_ROW(&row, fabs(mass_after(&l, p, 96, 96) / fine - 1));

    struct air_case twice = {.n = 2, .core_m2 = 2.5e-6};
    air_line(&twice, &source, &l);
    source.kind = SOURCE_NONE;
    p[0] = 101325 + 45 * PSI;
    fine = mass_after(&l, p, 32, .125);
    double e16 = fabs(mass_after(&l, p, 32, 16) / fine - 1);
    double e8 = fabs(mass_after(&l, p, 32, 8) / fine - 1);
    printf("[ measured ] equalising, error with 16 and 8 s steps: %.1e %.1e, order %.1f\n", e16, e8,
           log2(e16 / e8));
    CHECK_BETWEEN(e8, 0, 1e-7, "own fine steps");
    CHECK_BETWEEN(log2(e16 / e8), 3.5, 6.5, "fifth order, less the tolerance of the node");
}

/* Whole refills against half-second steps: under 0.1 s. */
static void one_step_is_enough(void **state)
{
    (void)state;
    static const struct {
        struct air_case c;
        double from[4], to[4];
        const char *name;
    } t[] = {
        {{.n = 4}, {15, 15, 15, 15}, {35, 35, 30, 30}, "staged 35/30: last, s"},
        {{.n = 4}, {18, 18, 22, 22}, {38, 38, 48, 48}, "staged 38/48: last, s"},
        {{.n = 4}, {34, 10, 12, 14}, {35, 35, 35, 35}, "unequal starts: last, s"},
        {{.n = 4, .core_m2 = 6e-6, .core_b_1 = .45},
         {30, 5, 5, 5},
         {36, 36, 36, 36},
         "unequal starts, cores out: last, s"},
        {{.n = 1, .scale_1 = .2}, {5}, {80}, "weak machine, one to 80: s"},
        {{.n = 4, .shop_gauge_pa = 620e3, .shop_m2 = 8e-6},
         {10, 10, 10, 10},
         {60, 60, 45, 45},
         "shop air, staged: last, s"},
    };
    for (size_t i = 0; i < sizeof t / sizeof t[0]; i++) {
        struct source source;
        struct line l;
        struct run_state s;
        double from[4], to[4], p[4], done[4], fast = 0;
        for (int k = 0; k < 4; k++) {
            from[k] = t[i].from[k] * PSI;
            to[k] = t[i].to[k] * PSI;
            p[k] = from[k] + 101325;
        }
        air_line(&t[i].c, &source, &l);
        assert_true(air_fill(&l, from, to, 0, done, &s));
        for (int k = 0; k < l.n; k++) {
            fast = fmax(fast, done[k]);
        }
        CHECK_STATUS(run_begin(&l, p, 0, &s), STATUS_OK);
        struct run_until u = {.watch = (1u << l.n) - 1};
        for (int k = 0; k < l.n; k++) {
            u.target_kg[k] = line_mass(&l, k, to[k] + 101325);
        }
        while (u.watch != 0) {
            struct run_event e;
            s.step_s = 0;
            u.time_s = s.time_s + 0.5;
            CHECK_STATUS(run_to_event(&l, &u, &s, &e), STATUS_OK);
            u.watch &= ~e.reached;
            s.open &= ~e.reached;
        }
        struct check_row row = {"air: conservation and convergence",   t[i].name, s.time_s, 0.1, 0,
                                "the program's own half-second steps", "own"};
        CHECK_ROW(&row, fast);
    }
}

/* Outlet pressure of n equal open corners at p, by bisection on the machine's curve. */
static double outlet_by_bisection(const struct line *l, double p)
{
    double lo = p, hi = p + 3e6, slope = 0;
    for (int i = 0; i < 80; i++) {
        double pc = 0.5 * (lo + hi), m = source_flow(l->source, l->scale_1, 0, pc, &slope);
        double square = pc * pc - l->main_si * m * m;
        double take = l->n * branch_flow(&l->branch[0], sqrt(fmax(square, 1)), p, &slope);
        *(m > take ? &lo : &hi) = pc;
    }
    return 0.5 * (lo + hi);
}

/* Equal corners: t = N int (dM/dp)/m_c dp by Simpson. */
static void closed_form(void **state)
{
    (void)state;
    static const int n[] = {1, 2, 4};
    for (int i = 0; i < 3; i++) {
        struct air_case c = {.n = n[i]};
        struct source source;
        struct line l;
        struct run_state s;
        double from[4], to[4], done[4], sum = 0, slope = 0;
        air_line(&c, &source, &l);
        double p0 = 15 * PSI, p1 = 35 * PSI, h = (p1 - p0) / 200;
        for (int k = 0; k <= 200; k++) {
            double p = 101325 + p0 + k * h;
            double m = source_flow(&source, 1, 0, outlet_by_bisection(&l, p), &slope);
            double w = k == 0 || k == 200 ? 1 : k % 2 == 1 ? 4 : 2;
            double dm_dp = .095 * (1 + 2e-7 * (2 * p - 101325)) / (287.05 * 293.15);
            sum += w * h / 3 * n[i] * dm_dp / m;
        }
        for (int k = 0; k < 4; k++) {
            from[k] = p0;
            to[k] = p1;
        }
        assert_true(air_fill(&l, from, to, 0, done, &s));
        char name[48];
        (void)snprintf(name, sizeof name, "%d equal, closed form in pressure, s", n[i]);
        struct check_row row = {"air: conservation and convergence",
                                name,
                                sum,
                                .01,
                                0,
                                "quadrature over pressure, outlet by bisection",
                                "own"};
        CHECK_ROW(&row, done[0]);
    }
}

static double linked_s(const struct refill_in *in)
{
    struct refill_out out;
    CHECK_STATUS(refill_compute(in, &out), STATUS_OK);
    assert_true(out.plan[HOOKUP_LINKED].possible);
    return out.plan[HOOKUP_LINKED].running_s;
}

/* Hotter, higher, longer, narrower, weaker: never faster. */
static void worse_is_never_faster(void **state)
{
    (void)state;
    double last[6] = {0};
    for (int k = 0; k < 25; k++) {
        struct refill_in in[6];
        for (int i = 0; i < 6; i++) {
            in[i] = air_pickup(15, 18, 35, 42);
            in[i].air.compressor.run_time_s = 0;
        }
        in[0].inlet_temp_k = 253.15 + 4 * k;
        in[1].ambient_abs_pa = 101325 - 2000 * k;
        in[2].air.main_length_m = k;
        in[3].air.branch_length_m = k;
        in[4].air.hose_bore_m = 12e-3 - 3e-4 * k;
        in[5].air.compressor.swept_m3_s = (250 - 8 * k) / 6e4;
        for (int i = 0; i < 6; i++) {
            double t = linked_s(&in[i]);
            assert_true(t >= last[i] - 1e-3);
            last[i] = t;
        }
    }
}

static void linked_corners_equalise(void **state)
{
    (void)state;
    struct air_case c = {.n = 4, .core_m2 = 6e-6, .core_b_1 = .45};
    struct source source;
    struct line l;
    struct run_state s;
    air_line(&c, &source, &l);
    double p[4] = {101325 + 40 * PSI, 101325 + 10 * PSI, 101325 + 12 * PSI, 101325 + 33 * PSI};
    CHECK_STATUS(run_begin(&l, p, 0, &s), STATUS_OK);
    s.on = false;
    double before = total_kg(&l, &s), top = p[0];
    for (int t = 5; t <= 600; t += 5) {
        CHECK_STATUS(run_to_time(&l, t, &s), STATUS_OK);
        double now = line_pressure(&l, 0, s.mass_kg[0]);
        assert_true(now <= top + 1);
        top = now;
    }
    CHECK_CLOSE(total_kg(&l, &s), before, 0, 1e-12, "closed line keeps its air");
    for (int i = 1; i < 4; i++) {
        CHECK_CLOSE(line_pressure(&l, i, s.mass_kg[i]), top, 5, 0, "all alike at last");
    }
    for (int i = 0; i < 4; i++) {
        l.vessel[i].no_outflow = true;
    }
    CHECK_STATUS(line_prepare(&l), STATUS_OK);
    CHECK_STATUS(run_begin(&l, p, 0, &s), STATUS_OK);
    s.on = false;
    CHECK_STATUS(run_to_time(&l, 600, &s), STATUS_OK);
    CHECK_CLOSE(line_pressure(&l, 0, s.mass_kg[0]), p[0], 1e-6, 0, "check valves hold it");
}

static double uniform(unsigned long long *seed, double lo, double hi)
{
    *seed = *seed * 6364136223846793005ULL + 1442695040888963407ULL;
    return lo + (hi - lo) * (double)(*seed >> 11) / 9007199254740992.0;
}

static struct refill_in random_refill(unsigned long long *seed)
{
    struct refill_in in = {.ambient_abs_pa = uniform(seed, 5e4, 1.05e5),
                           .tyre_temp_k = uniform(seed, 250, 340),
                           .inlet_temp_k = uniform(seed, 250, 350),
                           .run_used_s = uniform(seed, -500, 1000)};
    in.run_used_s = fmax(0, in.run_used_s);
    struct air_system *a = &in.air;
    a->source = (enum air_source)(int)uniform(seed, 0, 2.999);
    a->valve = uniform(seed, 0, 1) > .8 ? VALVE_CORE_OUT : VALVE_CORE_IN;
    a->main_length_m = uniform(seed, -1, 10);
    a->branch_length_m = uniform(seed, 0, 10);
    a->tail_length_m = uniform(seed, 0, 10);
    a->hose_bore_m = uniform(seed, 3e-3, 12e-3);
    a->move_time_s = uniform(seed, 0, 60);
    a->check_valves = uniform(seed, 0, 1) > .5;
    a->regulator_gauge_pa = uniform(seed, 1e4, 1e6);
    a->regulator_area_m2 = uniform(seed, 1e-6, 2e-5);
    a->tank_volume_m3 = uniform(seed, 0, 1) > .5 ? uniform(seed, .001, .1) : 0;
    a->tank_gauge_pa = uniform(seed, 0, 1e6);
    a->spare = uniform(seed, 0, 1) > .6;
    a->spare_volume_m3 = uniform(seed, .01, .3);
    a->spare_gauge_pa = uniform(seed, 0, 8e5);
    a->spare_check_valve = uniform(seed, 0, 1) > .5;
    a->compressor =
        (struct compressor){.swept_m3_s = uniform(seed, 5, 400) / 6e4,
                            .clearance_1 = uniform(seed, 0, .3),
                            .exponent_1 = uniform(seed, 1, 1.4),
                            .sag_1 = uniform(seed, 0, 1),
                            .run_time_s = uniform(seed, 0, 1) > .5 ? uniform(seed, 1, 2000) : 0,
                            .rest_time_s = uniform(seed, 0, 2000),
                            .cut_out_gauge_pa = uniform(seed, -5e5, 1e6)};
    for (int c = 0; c < REFILL_CORNERS; c++) {
        in.corner[c] = (struct refill_corner_in){.present = uniform(seed, 0, 1) > .4,
                                                 .tyres = uniform(seed, 0, 1) > .8 ? 2 : 1,
                                                 .volume_m3 = uniform(seed, .01, .5),
                                                 .from_gauge_pa = uniform(seed, 0, 3e5),
                                                 .target_gauge_pa = uniform(seed, 0, 7e5),
                                                 .gravel_gauge_pa = uniform(seed, 0, 4e5)};
    }
    return in;
}

static void check_plan(const struct refill_in *in, const struct refill_plan *p)
{
    CHECK_CLOSE(p->total_s, p->running_s + p->rest_s + p->handling_s, 1e-6, 0, "definition");
    assert_true(isfinite(p->total_s) && p->total_s >= 0);
    assert_true(p->possible == (p->problem == REFILL_FINE || p->problem == REFILL_NOTHING_TO_DO));
    for (int c = 0; c < REFILL_CORNERS; c++) {
        const struct refill_corner_out *o = &p->corner[c];
        assert_true(isfinite(o->done_s) && isfinite(o->settled_gauge_pa) &&
                    isfinite(o->stop_reading_gauge_pa) && isfinite(o->line_reading_gauge_pa));
        assert_true(in->corner[c].present || !o->reached);
        if (in->corner[c].present && p->possible) {
            assert_true(o->reached);
            assert_true(o->settled_gauge_pa > in->corner[c].target_gauge_pa - 25);
            assert_true(o->done_s <= p->total_s + 1e-6);
        }
    }
}

static void nothing_hangs(void **state)
{
    (void)state;
    unsigned long long seed = 20240917;
    int fine = 0, seen[6] = {0};
    for (int k = 0; k < 1000; k++) {
        struct refill_in in = random_refill(&seed);
        struct refill_out out;
        enum status st = refill_compute(&in, &out);
        if (st != STATUS_OK) {
            CHECK_STATUS(st, STATUS_E_DOMAIN);
            continue;
        }
        fine++;
        for (int h = 0; h < HOOKUP_COUNT; h++) {
            check_plan(&in, &out.plan[h]);
            seen[out.plan[h].problem]++;
        }
    }
    printf("[ measured ] %d refills: fine %d, weak %d, cut-out %d, tank %d, cap %d, nothing %d\n",
           fine, seen[0], seen[1], seen[2], seen[3], seen[4], seen[5]);
    assert_true(fine > 500);
    assert_true(seen[REFILL_FINE] > 30 && seen[REFILL_SOURCE_WEAK] > 30 &&
                seen[REFILL_CUT_OUT] > 30 && seen[REFILL_TANK_EMPTY] > 30);
}

static void nonsense_is_refused(void **state)
{
    (void)state;
    struct refill_in in = air_pickup(15, 15, 35, 35);
    struct refill_out out;
    in.ambient_abs_pa = nan("");
    CHECK_STATUS(refill_compute(&in, &out), STATUS_E_DOMAIN);
    in = air_pickup(15, 15, 35, HUGE_VAL);
    CHECK_STATUS(refill_compute(&in, &out), STATUS_E_DOMAIN);
    in = air_pickup(15, 15, 35, 35);
    in.corner[0].volume_m3 = 0;
    CHECK_STATUS(refill_compute(&in, &out), STATUS_E_DOMAIN);
    struct down_corner d = {.1, nan(""), 1e5, 101325, 293.15, 0};
    struct down_result r;
    CHECK_STATUS(down_compute(&d, &r), STATUS_E_DOMAIN);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(air_is_kept),           cmocka_unit_test(steps_converge),
        cmocka_unit_test(one_step_is_enough),    cmocka_unit_test(closed_form),
        cmocka_unit_test(worse_is_never_faster), cmocka_unit_test(linked_corners_equalise),
        cmocka_unit_test(nothing_hangs),         cmocka_unit_test(nonsense_is_refused),
    };
    return check_run("air laws", tests, sizeof tests / sizeof tests[0], argc, argv);
}
