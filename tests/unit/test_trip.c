/* test_trip.c - the plan for a route: the practitioner's own cases, the laws of going up and down,
 * what it refuses. The sum of minutes is checked in test_trip_best.c. */
#include "support/check.h"

#include <math.h>
#include <string.h>

#include "sim/trip_caution.h"
#include "sim/trip_route.h"
#include "support/rigs.h"
#include "support/trips.h"

#define MIN 60.0

static double psi(double pa)
{
    return pa / PSI;
}

static const struct trip_level *level_of(const struct trip_plan *p, int leg)
{
    return &p->level[p->leg[leg].level];
}

/* ---- two firm links between sand, reference practice 4.1 ---- */

static struct trip_plan with_link(double km)
{
    struct trips_case c;
    trips_start(&c, rigs_cabin_on());
    trips_leg(&c, "dune-sand", 14, 30);
    trips_leg(&c, "graded-gravel", km, 70);
    trips_leg(&c, "dune-sand", 9, 30);
    trips_leg(&c, "sealed-road", 180, 100);
    return trips_plan(&c);
}

static void a_long_link_pays_a_part_refill(void **state)
{
    (void)state;
    struct trip_plan p = with_link(22);
    assert_int_equal(p.leg[0].action, TRIP_DOWN);
    assert_int_equal(p.leg[1].action, TRIP_PART_UP);
    assert_int_equal(p.leg[1].why, TRIP_WHY_PAYS);
    assert_string_equal(level_of(&p, 1)->name, "graded-gravel");
    assert_int_equal(p.leg[2].action, TRIP_DOWN);
    assert_int_equal(p.leg[3].action, TRIP_UP);
    CHECK_BETWEEN((p.leg[1].action_s + p.leg[2].action_s) / MIN, 10, 16,
                  "practice 4.1: part refill and second drop about 12-15 min");
    CHECK_CLOSE(p.leg[1].drive_s / MIN, 22 / 70.0 * 60, 1e-9, 0, "22 km at 70 km/h, 4.1: 19 min");
    CHECK_BETWEEN(p.leg[1].change_saves_s.v / MIN, 5, 25, "practice 4.1: saves 34 less 12-15 min");
    assert_true(p.leg[1].other_loses_s.v > 0);
    assert_string_equal(p.level[p.leg[1].other_level].name, "road");
}

static void a_short_link_does_not(void **state)
{
    (void)state;
    struct trip_plan p = with_link(6);
    assert_int_equal(p.leg[1].action, TRIP_NONE);
    assert_int_equal(p.leg[1].why, TRIP_WHY_NOT_WORTH);
    assert_string_equal(level_of(&p, 1)->name, "dune-sand");
    assert_string_equal(p.level[p.leg[1].other_level].name, "graded-gravel");
    assert_true(p.leg[1].other_loses_s.v > 0);
    CHECK_BETWEEN(p.leg[1].cap_mps.v / KMH, 20, 30, "practice 4.1: soft cap 25 km/h");
    assert_true(p.leg[1].past_limit);
    assert_int_equal(p.leg[2].action, TRIP_NONE);
}

/* ---- S4: a touring wagon with a trailer on corrugations, a sand spur, tarmac ---- */

static void corrugations_with_a_sand_spur(void **state)
{
    (void)state;
    static struct trips_case c;
    trips_start(&c, rigs_tourer());
    c.rig.air.compressor.swept_m3_s = 70 / 6e4; /* 45-50 L/min delivered */
    trips_leg(&c, "corrugated-road", 240, 80);
    trips_leg(&c, "dry-sand", 6, 30);
    trips_leg(&c, "dry-sand", 6, 30);
    trips_leg(&c, "corrugated-road", 240, 80);
    trips_leg(&c, "sealed-road", 120, 90);
    struct trip_plan p = trips_plan(&c);
    assert_int_equal(p.leg[0].action, TRIP_DOWN);
    assert_int_equal(p.leg[0].why, TRIP_WHY_PAYS); /* "Is it worth it for 240 km?" yes */
    CHECK_BETWEEN(psi(p.leg[0].cold_gauge_pa[AXLE_FRONT]), 28, 31, "practice S4");
    CHECK_BETWEEN(psi(p.leg[0].cold_gauge_pa[AXLE_REAR]), 33, 37, "practice S4");
    CHECK_BETWEEN(psi(p.leg[0].cold_gauge_pa[AXLE_TRAILER]), 34, 38, "practice S4");
    CHECK_CLOSE(p.leg[0].cap_mps.v / KMH, 80, 1e-9, 0, "practice S4: cap 80");
    CHECK_BETWEEN(psi(p.leg[1].cold_gauge_pa[AXLE_FRONT]), 18, 20, "practice S4");
    CHECK_BETWEEN(psi(p.leg[1].cold_gauge_pa[AXLE_REAR]), 22, 25, "practice S4");
    CHECK_BETWEEN(psi(p.leg[1].cold_gauge_pa[AXLE_TRAILER]), 22, 27, "practice S4: trailer too");
    assert_int_equal(p.leg[2].action, TRIP_NONE);
    assert_int_equal(p.leg[3].action, TRIP_PART_UP); /* to the corrugated-road targets only */
    assert_string_equal(level_of(&p, 3)->name, "corrugated-road");
    CHECK_BETWEEN(p.leg[3].free_air_m3 * 1e3, 280, 380, "practice S4: 331 L");
    CHECK_BETWEEN((p.leg[3].action_s - TRIP_INSPECT_S) / MIN, 6, 10, "practice S4: about 7 min");
    assert_int_equal(p.leg[4].action, TRIP_UP);
    assert_int_equal(p.leg[4].why, TRIP_WHY_ROAD);
    CHECK_BETWEEN(p.leg[4].free_air_m3 * 1e3, 205, 280, "practice S4: 243 L");
    CHECK_CLOSE(p.free_air_m3, p.leg[3].free_air_m3 + p.leg[4].free_air_m3, 1e-12, 0, "sum");
}

/* ---- S7: height and temperature ---- */

static struct rig s7_rig(double road_c)
{
    struct rig r = rigs_tourer();
    r.axle[AXLE_TRAILER].present = false;
    for (int x = AXLE_FRONT; x <= AXLE_REAR; x++) {
        rigs_set_axle(&r, (enum axle_id)x, "LT265/70R17", 1300, 36 * PSI, 1450, 80 * PSI);
        r.axle[x].road_temp_k = road_c + 273.15;
    }
    return r;
}

/* the three figures of S7, and the gas law by hand with the standard atmosphere's pressures */
static const struct {
    struct check_row row, hand;
    double set_psi, from_c, from_m, to_c, to_m;
} READINGS[] = {
    {{"trip: height and temperature", "18 psi at 300 m, 5 C: at 3400 m, 24 C reads psi", 24.5, 0.5,
      0, "practice S7: 24-25", "practice"},
     {"trip: height and temperature", "the same, (124106 + 97773) 297.15/278.15 - 66617 Pa", 24.72,
      0.005, 0, "gas law; US Standard Atmosphere 1976", "own"},
     18,
     5,
     300,
     24,
     3400},
    {{"trip: height and temperature", "18 psi at 3400 m, 24 C: at 300 m, -5 C reads psi", 11, 0.5,
      0, "practice S7: about 11", "practice"},
     {"trip: height and temperature", "the same, (124106 + 66617) 268.15/297.15 - 97773 Pa", 10.78,
      0.005, 0, "gas law; US Standard Atmosphere 1976", "own"},
     18,
     24,
     3400,
     -5,
     300},
    {{"trip: height and temperature", "36 psi at 3400 m, 24 C: at 300 m, -5 C reads psi", 27, 0.5,
      0, "practice S7: about 27", "practice"},
     {"trip: height and temperature", "the same, (248211 + 66617) 268.15/297.15 - 97773 Pa", 27.03,
      0.005, 0, "gas law; US Standard Atmosphere 1976", "own"},
     36,
     24,
     3400,
     -5,
     300},
};

static void readings_of_s7(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof READINGS / sizeof READINGS[0]; i++) {
        struct trips_case c;
        struct route_sealed air;
        double reads_pa = 0;
        struct route_point from = {READINGS[i].from_m, READINGS[i].from_c + 273.15},
                           to = {READINGS[i].to_m, READINGS[i].to_c + 273.15};
        struct trip_level level = {.cold_gauge_pa = {[AXLE_FRONT] = READINGS[i].set_psi * PSI}};
        trips_start(&c, s7_rig(READINGS[i].from_c));
        struct trip_in in = trips_in(&c);
        CHECK_STATUS(route_set(&in, AXLE_FRONT, &level, from, &air), STATUS_OK);
        CHECK_STATUS(route_reads(&air, to, &reads_pa), STATUS_OK);
        CHECK_ROW(&READINGS[i].row, psi(reads_pa));
        CHECK_ROW(&READINGS[i].hand, psi(reads_pa));
    }
}

/* load tables know pressures: in the cold the road figure is what the gauge must show */
static void road_pressure_is_not_set_below_its_figure(void **state)
{
    (void)state;
    static struct trips_case c;
    struct trip_level road = {.road = true}, soft = {.road = false};
    struct route_sealed air;
    trips_start(&c, s7_rig(20));
    struct trip_in in = trips_in(&c);
    road.cold_gauge_pa[AXLE_FRONT] = 36 * PSI;
    soft.cold_gauge_pa[AXLE_FRONT] = 18 * PSI;
    const struct route_point cold = {0, 253.15}, hot = {0, 313.15};
    CHECK_STATUS(route_set(&in, AXLE_FRONT, &road, cold, &air), STATUS_OK);
    CHECK_CLOSE(psi(air.gauge_pa), 36, 1e-9, 0, "its figure");
    CHECK_STATUS(route_set(&in, AXLE_FRONT, &road, hot, &air), STATUS_OK);
    CHECK_CLOSE(psi(air.gauge_pa), (36 + 14.6959) * 313.15 / 293.15 - 14.6959, 1e-4, 0, "A10");
    CHECK_STATUS(route_set(&in, AXLE_FRONT, &soft, cold, &air), STATUS_OK);
    CHECK_CLOSE(psi(air.gauge_pa), (18 + 14.6959) * 253.15 / 293.15 - 14.6959, 1e-4, 0, "A10");
}

static void at_the_top_it_reads_high(void **state)
{
    (void)state;
    static struct trips_case c;
    trips_start(&c, s7_rig(5)); /* 18 cold is what is set at dawn, at 5 C */
    c.trip.height_start_m = 300;
    c.trip.air_temp_start_k = 278.15;
    trips_leg(&c, "dune-sand", 20, 25);
    trips_end(&c, 3400, 24);
    struct trip_plan p = trips_plan(&c);
    double set = psi(p.leg[0].set_gauge_pa[AXLE_FRONT]);
    CHECK_CLOSE(set, psi(p.leg[0].cold_gauge_pa[AXLE_FRONT]), 1e-9, 0, "set at road_temp");
    /* S7: 18 reads 24-25: +6.8 psi at 5 C -> 24 C, 300 -> 3400 m; by the gas law for this set */
    double top = (set * PSI + 97773) * 297.15 / 278.15 - 66617;
    CHECK_CLOSE(p.leg[0].end_gauge_pa[AXLE_FRONT] / PSI, top / PSI, 0.01, 0,
                "US Standard Atmosphere: 97773 Pa at 300 m, 66617 Pa at 3400 m");
    CHECK_BETWEEN(psi(p.leg[0].end_gauge_pa[AXLE_FRONT]) - set, 6, 7.2, "practice S7: 24-25 of 18");
}

static void a_drop_at_the_top_is_warned_of_before(void **state)
{
    (void)state;
    static struct trips_case c;
    trips_start(&c, s7_rig(24)); /* the cold figure is what is set at the top */
    for (int x = AXLE_FRONT; x <= AXLE_REAR; x++) {
        c.rig.axle[x].floor_gauge_pa = 13 * PSI;
    }
    c.trip.height_start_m = 3400;
    c.trip.air_temp_start_k = 297.15;
    trips_leg(&c, "dry-sand", 20, 25);
    trips_end(&c, 300, -5);
    trips_leg(&c, "sealed-road", 60, 90);
    struct trip_plan p = trips_plan(&c);
    const struct trip_leg_plan *drop = &p.leg[0];
    double set = psi(drop->set_gauge_pa[AXLE_FRONT]);
    CHECK_BETWEEN(set, 17, 19, "practice S7: set 18");
    CHECK_BETWEEN(psi(drop->end_gauge_pa[AXLE_FRONT]) - (set - 18), 10.5, 11.5,
                  "practice S7: predicted about 11 at the bottom");
    assert_int_equal(drop->action, TRIP_DOWN);
    assert_int_equal(drop->warn_leg, 0); /* stands with the drop itself */
    assert_true(drop->low[AXLE_FRONT]);
    /* what to set instead is at the floor, 13 psi, at the bottom */
    double floor = (drop->least_set_gauge_pa[AXLE_FRONT] + 66617) * 268.15 / 297.15 - 97773;
    CHECK_CLOSE(floor / PSI, psi(drop->floor_gauge_pa[AXLE_FRONT]), 0.01, 0, "gas law");
    assert_true(psi(drop->floor_gauge_pa[AXLE_FRONT]) >= 13);
    assert_int_equal(p.coldest_leg, 0);
    CHECK_CLOSE(p.coldest_gauge_pa[AXLE_FRONT], drop->end_gauge_pa[AXLE_FRONT], 0, 0, "same place");
}

static void road_pressure_set_at_the_top_is_under_below(void **state)
{
    (void)state;
    static struct trips_case c;
    trips_start(&c, s7_rig(24));
    c.trip.height_start_m = 3400;
    c.trip.air_temp_start_k = 297.15;
    trips_leg(&c, "sealed-road", 40, 80);
    trips_end(&c, 300, -5);
    struct trip_plan p = trips_plan(&c);
    CHECK_CLOSE(psi(p.leg[0].set_gauge_pa[AXLE_FRONT]), 36, 1e-9, 0, "practice S7");
    CHECK_BETWEEN(psi(p.leg[0].end_gauge_pa[AXLE_FRONT]), 26.5, 27.5, "practice S7: about 27");
    assert_true(p.leg[0].under[AXLE_FRONT]); /* 25 % under: recheck before the highway */
    assert_false(p.leg[0].low[AXLE_FRONT]);
    assert_int_equal(p.leg[0].warn_leg, -1);
}

static void a_refill_at_the_top_takes_longer(void **state)
{
    (void)state;
    static struct trips_case c;
    struct trip_level level[TRIP_LEVELS];
    struct refusal r;
    struct trip_change low, high;
    int n = 0;
    trips_start(&c, s7_rig(20));
    trips_leg(&c, "dry-sand", 5, 25);
    struct trip_in in = trips_in(&c);
    CHECK_STATUS(trip_levels(&in, level, &n, &r), STATUS_OK);
    assert_int_equal(n, 2);
    CHECK_STATUS(trip_change_at(&in, &level[0], &level[1], 300, 293.15, &low), STATUS_OK);
    CHECK_STATUS(trip_change_at(&in, &level[0], &level[1], 3400, 293.15, &high), STATUS_OK);
    CHECK_BETWEEN((high.time_s - TRIP_INSPECT_S) / (low.time_s - TRIP_INSPECT_S), 1.4, 1.6,
                  "practice S7: about 1.5 x as long");
    CHECK_CLOSE(high.free_air_m3, low.free_air_m3, 0, 1e-12, "the same gauge rise");
}

/* ---- what forces a change, model G1 ---- */

static void rock_and_sealed_road_force_going_up(void **state)
{
    (void)state;
    static struct trips_case c;
    trips_start(&c, rigs_cabin_on());
    trips_leg(&c, "dune-sand", 5, 25);
    trips_leg(&c, "rock-steps", 0.5, 10);
    trips_leg(&c, "dune-sand", 5, 25);
    trips_leg(&c, "sealed-road", 1, 50);
    struct trip_plan p = trips_plan(&c);
    assert_int_equal(p.leg[1].action, TRIP_PART_UP);
    assert_int_equal(p.leg[1].why, TRIP_WHY_SHARP);
    assert_false(p.leg[1].change_saves_s.is);
    assert_int_equal(p.leg[3].action, TRIP_UP);
    assert_int_equal(p.leg[3].why, TRIP_WHY_ROAD);
    assert_true(p.leg[3].abort_cap_mps.is && p.leg[3].abort_cap_mps.v <= 30 * KMH + 1e-9);
    c.ground[1].sharp = false; /* without edges the half kilometre is driven slowly */
    p = trips_plan(&c);
    assert_int_equal(p.leg[1].action, TRIP_NONE);
}

static void soft_sand_forces_going_down(void **state)
{
    (void)state;
    static struct trips_case c;
    static const char *const soft[] = {"dune-sand", "dry-sand", "damp-sand", "greasy-clay",
                                       "wet-field", "bog",      "loose-snow"};
    static const char *const firm[] = {"graded-gravel", "packed-snow", "ice"};
    for (size_t i = 0; i < sizeof soft / sizeof soft[0]; i++) {
        trips_start(&c, rigs_cabin_on());
        trips_leg(&c, soft[i], 0.1, 5);
        struct trip_plan p = trips_plan(&c);
        assert_int_equal(p.leg[0].action, TRIP_DOWN);
        assert_int_equal(p.leg[0].why, TRIP_WHY_SOFT);
    }
    for (size_t i = 0; i < sizeof firm / sizeof firm[0]; i++) {
        trips_start(&c, rigs_cabin_on());
        trips_leg(&c, firm[i], 0.1, 5);
        struct trip_plan p = trips_plan(&c);
        assert_int_equal(p.leg[0].action, TRIP_NONE);
    }
}

static void hard_tyres_are_driven_slower_on_firm_ground(void **state)
{
    (void)state;
    static struct trips_case c;
    trips_start(&c, rigs_cabin_on());
    trips_leg(&c, "corrugated-road", 2, 80);
    struct trip_plan p = trips_plan(&c);
    assert_int_equal(p.leg[0].action, TRIP_NONE); /* 2 km are not worth a stop */
    CHECK_CLOSE(p.leg[0].cap_mps.v / KMH, 80, 1e-9, 0, "model C7: the ground's own cap");
    struct advice own = rigs_advise(&c.rig, "corrugated-road");
    double share = 1;
    for (int x = AXLE_FRONT; x <= AXLE_REAR; x += AXLE_REAR - AXLE_FRONT) {
        const struct corner_advice *k = &own.axle[x].corner[SIDE_LEFT];
        share = fmin(share, k->at.stiffness_n_m / k->road.stiffness_n_m);
    }
    CHECK_CLOSE(p.leg[0].pace_mps.v / KMH, 80 * share, 1e-9, 0, "theory G5");
    CHECK_CLOSE(p.leg[0].drive_s, 2000 / p.leg[0].pace_mps.v, 1e-9, 0, "theory G2");
}

/* ---- stops ---- */

static void without_a_stop_the_softest_leg_rules(void **state)
{
    (void)state;
    static struct trips_case c;
    trips_start(&c, rigs_cabin_on());
    trips_leg(&c, "graded-gravel", 40, 80)->stop_after = false;
    trips_leg(&c, "dune-sand", 3, 25)->stop_after = false;
    trips_leg(&c, "sealed-road", 10, 80);
    struct trip_plan p = trips_plan(&c);
    for (int i = 0; i < 3; i++) {
        assert_string_equal(level_of(&p, i)->name, "dune-sand");
    }
    assert_int_equal(p.leg[1].action, TRIP_NONE);
    assert_int_equal(p.leg[2].action, TRIP_NONE);
    assert_int_equal(p.leg[2].why, TRIP_WHY_NO_STOP);
    assert_false(p.leg[1].forced_soft);
    assert_true(p.leg[2].forced_soft); /* soft tyres on a sealed road: told */
    assert_true(p.leg[2].cap_mps.v <= 30 * KMH + 1e-9);
}

static void two_soft_grounds_in_one_group_take_the_softer(void **state)
{
    (void)state;
    static struct trips_case c;
    trips_start(&c, rigs_cabin_on());
    trips_leg(&c, "damp-sand", 4, 30)->stop_after = false;
    trips_leg(&c, "dune-sand", 4, 30);
    struct trip_plan p = trips_plan(&c);
    assert_string_equal(level_of(&p, 0)->name, "dune-sand");
    assert_string_equal(level_of(&p, 1)->name, "dune-sand");
}

/* ---- the air source ---- */

static void a_source_that_cannot_is_told(void **state)
{
    (void)state;
    static struct trips_case c;
    trips_start(&c, rigs_cabin_on());
    c.rig.air.compressor.cut_out_gauge_pa = 35 * PSI; /* front 38, rear 48 wanted */
    trips_leg(&c, "dune-sand", 5, 25);
    trips_leg(&c, "graded-gravel", 200, 80);
    trips_leg(&c, "sealed-road", 50, 90);
    struct trip_plan p = trips_plan(&c);
    assert_int_equal(p.leg[2].action, TRIP_UP); /* sealed road forces it */
    assert_true(p.leg[2].source_too_weak);
    assert_true(p.leg[2].abort_cap_mps.is);
    assert_int_equal(p.leg[1].action, TRIP_NONE); /* and no useless attempt before */
    assert_int_equal(p.leg[1].why, TRIP_WHY_NO_AIR);
    assert_false(p.leg[1].source_too_weak);
    assert_true(p.total_s < 24 * 3600);
}

static void rests_are_counted(void **state)
{
    (void)state;
    static struct trips_case c;
    trips_start(&c, rigs_cabin_on());
    trips_leg(&c, "dune-sand", 5, 25);
    trips_leg(&c, "sealed-road", 50, 90);
    struct trip_plan all_in_one = trips_plan(&c);
    c.rig.air.compressor.run_time_s = 200;
    c.rig.air.compressor.rest_time_s = 600;
    struct trip_plan rested = trips_plan(&c);
    CHECK_CLOSE(all_in_one.leg[1].rest_s, 0, 0, 0, "900 s of run time");
    assert_true(rested.leg[1].rest_s >= 600);
    CHECK_CLOSE(rested.leg[1].action_s - all_in_one.leg[1].action_s, rested.leg[1].rest_s, 1, 0,
                "the rest is the difference");
}

/* ---- cautions ---- */

static struct caution_list cautions_of(const struct trips_case *c)
{
    struct caution_list list = {.n = 0};
    struct trip_in in = trips_in(c);
    struct trip_plan p = trips_plan(c);
    CHECK_STATUS(trip_cautions(&in, &p, &list), STATUS_OK);
    return list;
}

static void what_can_go_wrong_is_a_caution(void **state)
{
    (void)state;
    static struct trips_case c;
    struct caution_list list;
    trips_start(&c, rigs_cabin_on());
    trips_leg(&c, "graded-gravel", 20, 60);
    trips_leg(&c, "sealed-road", 20, 60);
    list = cautions_of(&c);
    assert_false(caution_any_danger(&list)); /* nothing to do, nothing to fear */
    assert_false(caution_raised(&list, CAUTION_LINE_OF_FIRE));

    trips_start(&c, rigs_cabin_on());
    trips_leg(&c, "dune-sand", 14, 30)->stop_after = false;
    trips_leg(&c, "sealed-road", 20, 60);
    list = cautions_of(&c);
    assert_true(caution_raised(&list, CAUTION_TRIP_NO_STOP));
    assert_true(caution_any_danger(&list));
    assert_true(caution_raised(&list, CAUTION_BEAD)); /* reminders of letting down */
    assert_false(caution_raised(&list, CAUTION_LINE_OF_FIRE));

    c.trip.leg[0].stop_after = true;
    c.rig.air.compressor.cut_out_gauge_pa = 30 * PSI;
    list = cautions_of(&c);
    assert_false(caution_raised(&list, CAUTION_TRIP_NO_STOP));
    assert_true(caution_raised(&list, CAUTION_TRIP_NO_AIR));
    assert_true(caution_raised(&list, CAUTION_LINE_OF_FIRE));
}

static void a_reading_above_the_moulded_maximum_is_a_danger(void **state)
{
    (void)state;
    static struct trips_case c;
    trips_start(&c, rigs_cabin_on());
    c.rig.axle[AXLE_REAR].tyre.max_gauge_pa = 48 * PSI; /* the road pressure itself */
    c.rig.axle[AXLE_REAR].load_kg = 2000;
    trips_leg(&c, "dune-sand", 14, 30);
    trips_end(&c, 0, 20);
    trips_leg(&c, "sealed-road", 20, 60);
    struct caution_list cool = cautions_of(&c);
    assert_false(caution_raised(&cool, CAUTION_OVER_INFLATION));
    trips_end(&c, 0, 20);
    c.trip.leg[0].air_temp_k = maybe_of(313.15);
    struct caution_list hot = cautions_of(&c);
    assert_true(caution_raised(&hot, CAUTION_OVER_INFLATION));
    assert_true(caution_any_danger(&hot));
}

/* ---- refusals and bad numbers ---- */

static void an_overload_is_refused(void **state)
{
    (void)state;
    static struct trips_case c;
    struct trip_plan p;
    trips_start(&c, rigs_cabin_on());
    c.rig.axle[AXLE_REAR].load_kg = 3100;
    trips_leg(&c, "sealed-road", 5, 80);
    struct trip_in in = trips_in(&c);
    CHECK_STATUS(trip_compute(&in, &p), STATUS_E_REFUSED);
    assert_int_equal(p.refusal.code, REFUSAL_OVERLOAD_TYRE);
}

static void bad_numbers_leave_the_plan_alone(void **state)
{
    (void)state;
    static struct trips_case c;
    double *const field[] = {&c.trip.height_start_m,           &c.trip.air_temp_start_k,
                             &c.trip.leg[0].length_m,          &c.trip.leg[0].speed_mps,
                             &c.trip.leg[0].slope_1,           &c.trip.leg[0].height_end_m.v,
                             &c.trip.leg[0].air_temp_k.v,      &c.rig.axle[AXLE_FRONT].load_kg,
                             &c.rig.air.move_time_s,           &c.rig.air.main_length_m,
                             &c.rig.air.compressor.run_time_s, &c.ground[0].aim_1};
    const double bad[] = {(double)NAN, (double)INFINITY, -(double)INFINITY};
    for (size_t f = 0; f < sizeof field / sizeof field[0]; f++) {
        for (size_t b = 0; b < sizeof bad / sizeof bad[0]; b++) {
            struct trip_plan p;
            memset(&p, 0x5a, sizeof p);
            trips_start(&c, rigs_cabin_on());
            trips_leg(&c, "dune-sand", 5, 25);
            trips_end(&c, 100, 20);
            trips_leg(&c, "sealed-road", 5, 80);
            *field[f] = bad[b];
            struct trip_in in = trips_in(&c);
            if (trip_compute(&in, &p) >= 0) {
                fail_msg("field %zu with %g was taken", f, bad[b]);
            }
            assert_int_equal(((const unsigned char *)&p)[0], 0x5a);
        }
    }
    trips_start(&c, rigs_cabin_on());
    struct trip_in none = trips_in(&c);
    struct trip_plan p;
    CHECK_STATUS(trip_compute(&none, &p), STATUS_E_DOMAIN);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_long_link_pays_a_part_refill),
        cmocka_unit_test(a_short_link_does_not),
        cmocka_unit_test(corrugations_with_a_sand_spur),
        cmocka_unit_test(readings_of_s7),
        cmocka_unit_test(road_pressure_is_not_set_below_its_figure),
        cmocka_unit_test(at_the_top_it_reads_high),
        cmocka_unit_test(a_drop_at_the_top_is_warned_of_before),
        cmocka_unit_test(road_pressure_set_at_the_top_is_under_below),
        cmocka_unit_test(a_refill_at_the_top_takes_longer),
        cmocka_unit_test(rock_and_sealed_road_force_going_up),
        cmocka_unit_test(soft_sand_forces_going_down),
        cmocka_unit_test(hard_tyres_are_driven_slower_on_firm_ground),
        cmocka_unit_test(without_a_stop_the_softest_leg_rules),
        cmocka_unit_test(two_soft_grounds_in_one_group_take_the_softer),
        cmocka_unit_test(a_source_that_cannot_is_told),
        cmocka_unit_test(rests_are_counted),
        cmocka_unit_test(what_can_go_wrong_is_a_caution),
        cmocka_unit_test(a_reading_above_the_moulded_maximum_is_a_danger),
        cmocka_unit_test(an_overload_is_refused),
        cmocka_unit_test(bad_numbers_leave_the_plan_alone),
    };
    return check_run("trip", tests, sizeof tests / sizeof tests[0], argc, argv);
}
