/* test_trip_best.c - is the plan really the shortest? Every admissible sequence of levels is tried
 * for random trips of up to six legs and compared with the planner's sum. */
#include "support/check.h"

#include <float.h>
#include <math.h>

#include "support/rigs.h"
#include "support/trips.h"

enum { TRIPS = 120, MOST_LEGS = 6 };

/* ---- seeded random numbers, the same on every machine ---- */

static uint32_t next_random(uint32_t *seed)
{
    *seed = *seed * 1664525u + 1013904223u; /* Numerical Recipes, 2nd ed., 1992, p. 284 */
    return *seed >> 8;
}

static double between(uint32_t *seed, double lo, double hi)
{
    return lo + (hi - lo) * next_random(seed) / 16777216.0;
}

static struct rig random_rig(uint32_t *seed)
{
    switch (next_random(seed) % 4) {
    case 0:
        return rigs_cabin_on();
    case 1:
        return rigs_bed_bare();
    case 2:
        return rigs_light_wagon();
    default:
        return rigs_tourer();
    }
}

static void random_trip(uint32_t seed, struct trips_case *c)
{
    static const char *const grounds[] = {"sealed-road", "graded-gravel", "corrugated-road",
                                          "stony-track", "rock-steps",    "damp-sand",
                                          "dune-sand",   "wet-field",     "packed-snow"};
    trips_start(c, random_rig(&seed));
    c->rig.air.hookup = (enum hookup)(next_random(&seed) % HOOKUP_COUNT);
    c->rig.air.compressor.swept_m3_s = between(&seed, 60, 300) / 6e4;
    c->rig.air.compressor.run_time_s = between(&seed, 300, 1500);
    c->trip.height_start_m = between(&seed, 0, 3000);
    c->trip.air_temp_start_k = between(&seed, 263, 308);
    int n = 1 + (int)(next_random(&seed) % MOST_LEGS);
    for (int i = 0; i < n; i++) {
        const char *g = grounds[next_random(&seed) % (sizeof grounds / sizeof grounds[0])];
        double km = pow(10, between(&seed, -0.5, 2));
        struct trip_leg *l = trips_leg(c, g, km, between(&seed, 15, 100));
        l->stop_after = next_random(&seed) % 4 != 0;
        l->height_end_m = maybe_of(between(&seed, 0, 3000));
        l->air_temp_k = maybe_of(between(&seed, 263, 308));
    }
}

/* ---- the search: a depth-first walk over groups of legs ---- */

struct search {
    struct trip_in in;
    int n_level;
    struct trip_level level[TRIP_LEVELS];
    double best_s;
    long tried;
};

static int last_of_group(const struct trip *t, int first)
{
    int last = first;
    while (last + 1 < t->n_leg && !t->leg[last].stop_after) {
        last++;
    }
    return last;
}

static bool admitted(const struct search *s, int first, int last, int level, bool up_too)
{
    for (int i = first; i <= last; i++) {
        if (!trip_admits(&s->in, i, &s->level[level], up_too)) {
            return false;
        }
    }
    return true;
}

/* Levels of a group: those that every leg admits, else those that its soft ground admits. */
static void admissible(const struct search *s, int first, int last, bool may[])
{
    bool any = false;
    for (int pass = 0; pass < 2 && !any; pass++) {
        for (int l = 0; l < s->n_level; l++) {
            may[l] = admitted(s, first, last, l, pass == 0);
            any = any || may[l];
        }
    }
    assert_true(any);
}

static double drive_s(const struct search *s, int first, int last, int level)
{
    double sum_s = 0;
    for (int i = first; i <= last; i++) {
        struct maybe cap;
        double t_s = 0;
        CHECK_STATUS(trip_drive(&s->in, i, &s->level[level], &cap, &t_s), STATUS_OK);
        sum_s += t_s;
    }
    return sum_s;
}

static double change_s(const struct search *s, int first, int from, int to)
{
    const struct trip *t = s->in.trip;
    double height_m = first > 0 ? t->leg[first - 1].height_end_m.v : t->height_start_m;
    double temp_k = first > 0 ? t->leg[first - 1].air_temp_k.v : t->air_temp_start_k;
    struct trip_change c;
    if (from == to) {
        return 0;
    }
    CHECK_STATUS(trip_change_at(&s->in, &s->level[from], &s->level[to], height_m, temp_k, &c),
                 STATUS_OK);
    assert_true(c.possible);
    return c.time_s;
}

static void search_from(struct search *s, int first, int from, double so_far_s)
{
    bool may[TRIP_LEVELS] = {false};
    if (first == s->in.trip->n_leg) {
        s->tried++;
        s->best_s = fmin(s->best_s, so_far_s);
        return;
    }
    int last = last_of_group(s->in.trip, first);
    admissible(s, first, last, may);
    for (int l = 0; l < s->n_level; l++) {
        if (may[l]) {
            search_from(s, last + 1, l,
                        so_far_s + change_s(s, first, from, l) + drive_s(s, first, last, l));
        }
    }
}

static void the_planner_finds_the_shortest(void **state)
{
    (void)state;
    static struct trips_case c;
    long tried = 0, changes = 0, part_ups = 0;
    for (uint32_t seed = 1; seed <= TRIPS; seed++) {
        struct search s = {.best_s = DBL_MAX};
        struct refusal r;
        random_trip(seed, &c);
        s.in = trips_in(&c);
        CHECK_STATUS(trip_levels(&s.in, s.level, &s.n_level, &r), STATUS_OK);
        search_from(&s, 0, s.n_level - 1, 0);
        struct trip_plan p = trips_plan(&c);
        if (!(fabs(p.total_s - s.best_s) <= 1e-6)) {
            fail_msg("seed %u: planner %.9f s, search %.9f s over %ld sequences", (unsigned)seed,
                     p.total_s, s.best_s, s.tried);
        }
        CHECK_CLOSE(p.drive_s + p.action_s, p.total_s, 1e-9, 0, "definition");
        for (int i = 0; i < p.n_leg; i++) {
            changes += p.leg[i].action != TRIP_NONE;
            part_ups += p.leg[i].action == TRIP_PART_UP;
        }
        tried += s.tried;
    }
    /* the comparison means something only when there was something to choose */
    assert_true(tried > 20 * TRIPS);
    assert_true(changes > TRIPS);
    assert_true(part_ups > 10);
}

/* What a leg says of its change agrees with plans in which that change is taken away. */
static void what_a_change_saves_is_what_it_saves(void **state)
{
    (void)state;
    static struct trips_case c;
    trips_start(&c, rigs_cabin_on());
    trips_leg(&c, "dune-sand", 14, 30);
    trips_leg(&c, "graded-gravel", 22, 70);
    trips_leg(&c, "dune-sand", 9, 30);
    trips_leg(&c, "sealed-road", 100, 90);
    struct trip_plan with = trips_plan(&c);
    c.trip.leg[0].stop_after = false; /* no stop, no part refill */
    struct trip_plan without = trips_plan(&c);
    assert_int_equal(with.leg[1].action, TRIP_PART_UP);
    assert_int_equal(without.leg[1].action, TRIP_NONE);
    CHECK_CLOSE(with.leg[1].change_saves_s.v, without.total_s - with.total_s, 1e-6, 0,
                "two plans that differ in nothing else");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_planner_finds_the_shortest),
        cmocka_unit_test(what_a_change_saves_is_what_it_saves),
    };
    return check_run("trip_best", tests, sizeof tests / sizeof tests[0], argc, argv);
}
