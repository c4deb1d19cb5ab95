/* test_advice.c - the main job end to end: what it fills in, what it judges, what it refuses. */
#include "support/check.h"
#include "support/rigs.h"

#include <math.h>
#include <string.h>

#include "core/advice_working.h"

static const struct conditions PLAIN = {.slope_1 = 0};

static enum status advise(const struct rig *r, const char *ground, const struct conditions *c,
                          struct advice *a)
{
    struct ground g = rigs_ground(ground);
    return advice_compute(r, &g, c, a);
}

static struct advice advised(const struct rig *r, const char *ground, const struct conditions *c)
{
    struct advice a;
    CHECK_STATUS(advise(r, ground, c, &a), STATUS_OK);
    return a;
}

/* ---- what is filled in ---- */

static void corner_of_the_pickup(void **state)
{
    (void)state;
    struct rig r = rigs_cabin_on();
    struct advice a = advised(&r, "dune-sand", &PLAIN);
    const struct axle_advice *x = &a.axle[AXLE_FRONT];
    const struct corner_advice *c = &x->corner[SIDE_LEFT];
    CHECK_CLOSE(x->section_height_m, 0.2286, 1e-9, 0, "35x12.50R17");
    CHECK_CLOSE(x->table_gauge_pa.v / PSI, 36.870578, 1e-6, 0, "65 (975/1450)^(1/0.7)");
    CHECK_CLOSE(c->load_kg, 975, 1e-9, 0, "half of 1950");
    CHECK_CLOSE(c->at.p_gauge_pa / PSI, 18, 1e-9, 0, "target");
    CHECK_CLOSE(c->at.loaded_radius_m, 0.4445 - c->at.deflection_m, 1e-12, 0, "R0 - d");
    CHECK_CLOSE(c->clearance_loss_m, c->at.deflection_m - c->road.deflection_m, 1e-12, 0, "A8");
    CHECK_CLOSE(c->retention_1, 18.0 / 38.0, 1e-12, 0, "p / p_road");
    CHECK_CLOSE(c->practice_speed_mps.v / KMH, 30, 1e-9, 0, "47 % of road pressure left");
    CHECK_CLOSE(c->at.capacity_kg.v, 1450 * pow(18.0 / 65.0, 0.7), 1e-9, 0, "A3");
    CHECK_CLOSE(c->at.patch.mean_pa * c->at.patch.area_m2, 975 * 9.80665, 1e-6, 0, "equilibrium");
    CHECK_CLOSE(a.cap_mps.v / KMH, 25, 1e-9, 0, "cap of the ground");
    assert_int_equal(a.cap_by, CAP_GROUND);
    assert_int_equal(a.flotation.method, FLOTATION_SAND_NUMBER);
    assert_false(a.axle[AXLE_MIDDLE].present);
}

/* A6, A7: e = 0.30 at 124 kPa; at 262 kPa 0.10. */
static void bands(void **state)
{
    (void)state;
    struct rig r = rigs_cabin_on();
    struct advice a = advised(&r, "dune-sand", &PLAIN);
    const struct corner_advice *c = &a.axle[AXLE_FRONT].corner[SIDE_RIGHT];
    CHECK_CLOSE(c->deflection_low_1 / c->at.deflection_1, 0.7, 1e-12, 0, "model A6");
    CHECK_CLOSE(c->deflection_high_1 / c->at.deflection_1, 1.3, 1e-12, 0, "model A6");
    CHECK_CLOSE(c->area_growth_low_1 / c->area_growth_1, 0.8, 1e-12, 0, "model A6");
    CHECK_CLOSE(c->area_growth_high_1 / c->area_growth_1, 1.2, 1e-12, 0, "model A6");
    assert_true(c->length_growth_low_1 < c->length_growth_1);
    assert_true(c->length_growth_high_1 >= c->length_growth_1);
}

static void sealed_road_is_the_road_pressure(void **state)
{
    (void)state;
    struct rig r = rigs_cabin_on();
    struct advice a = advised(&r, "sealed-road", &PLAIN);
    CHECK_CLOSE(a.axle[AXLE_REAR].target_gauge_pa / PSI, 48, 1e-9, 0, "road pressure");
    assert_false(a.axle[AXLE_REAR].aim_gauge_pa.is);
    assert_false(a.axle[AXLE_REAR].stuck_gauge_pa.is);
    assert_int_equal(a.axle[AXLE_REAR].bound_by, BOUND_ROAD);
    assert_false(a.cap_mps.is);
    assert_false(caution_raised(&a.cautions, CAUTION_HIGHWAY));
    CHECK_CLOSE(a.axle[AXLE_REAR].corner[0].area_growth_1, 1, 1e-12, 0, "nothing changed");
}

/* ---- cold, warm, high ---- */

static void reading_to_set_now(void **state)
{
    (void)state;
    struct rig r = rigs_cabin_on();
    struct conditions c = {.tyre_temp_k = maybe_of(313.15), .air_temp_k = maybe_of(273.15)};
    struct advice cold = advised(&r, "dune-sand", &PLAIN), warm = advised(&r, "dune-sand", &c);
    CHECK_CLOSE(warm.axle[0].set_now_gauge_pa / PSI, 20.230663, 1e-6, 0,
                "(18 psi + 101.325 kPa) 313.15/293.15, own arithmetic");
    CHECK_CLOSE(warm.axle[0].target_gauge_pa, cold.axle[0].target_gauge_pa, 0, 0,
                "the cold target knows no temperature");
    CHECK_CLOSE(cold.axle[0].set_now_gauge_pa / PSI, 18, 1e-9, 0, "tyres at road_temp");
    c.tyre_temp_k = maybe_none();
    struct advice frost = advised(&r, "dune-sand", &c);
    double pa = 101325;
    CHECK_CLOSE((frost.axle[0].set_now_gauge_pa + pa) * 293.15 / 273.15 - pa, 18 * PSI, 1e-6, 0,
                "back to the cold pressure");
    r.air.gauge_offset_pa = 2 * PSI;
    struct advice high = advised(&r, "dune-sand", &PLAIN);
    CHECK_CLOSE(high.axle[0].set_now_gauge_pa / PSI, 20, 1e-9, 0, "gauge reads 2 psi high");
    CHECK_CLOSE(high.axle[0].target_gauge_pa / PSI, 18, 1e-9, 0, "the offset enters readings only");
}

static void height_changes_the_reading(void **state)
{
    (void)state;
    struct rig r = rigs_cabin_on();
    struct conditions c = {.tyre_temp_k = maybe_of(313.15), .height_m = maybe_of(3000)};
    struct advice a = advised(&r, "dune-sand", &c);
    double pa = 70108.5; /* US Standard Atmosphere 1976, 3000 m */
    CHECK_CLOSE(a.axle[0].set_now_gauge_pa, (18 * PSI + pa) * 313.15 / 293.15 - pa, 2, 0,
                "US Standard Atmosphere 1976");
}

/* ---- the driver's own pressures ---- */

static struct conditions judging(double front_psi, double rear_psi)
{
    struct conditions c = PLAIN;
    c.at_gauge_pa[AXLE_FRONT] = front_psi > 0 ? maybe_of(front_psi * PSI) : maybe_none();
    c.at_gauge_pa[AXLE_REAR] = rear_psi > 0 ? maybe_of(rear_psi * PSI) : maybe_none();
    return c;
}

static void own_pressures_are_judged(void **state)
{
    (void)state;
    struct rig r = rigs_cabin_on();
    struct conditions c = judging(16, 0);
    struct advice a = advised(&r, "dune-sand", &c);
    CHECK_CLOSE(a.axle[AXLE_FRONT].corner[0].at.p_gauge_pa / PSI, 16, 1e-9, 0, "judged");
    CHECK_CLOSE(a.axle[AXLE_FRONT].target_gauge_pa / PSI, 18, 1e-9, 0, "still the advice");
    CHECK_CLOSE(a.axle[AXLE_REAR].corner[0].at.p_gauge_pa / PSI, 23, 1e-9, 0, "not given");
    assert_false(a.axle[AXLE_REAR].at_gauge_pa.is);
    CHECK_CLOSE(a.axle[AXLE_FRONT].target_stiffness_n_m /
                    a.axle[AXLE_FRONT].corner[0].at.stiffness_n_m,
                189.786359 / 172.458201, 1e-5, 0, "A4 at 18 and 16 psi, own arithmetic");
    assert_false(caution_any_danger(&a.cautions));
    /* 16/38 is 42 %: 30 km/h by what is left; 23.8 % deflection: 30 km/h */
    CHECK_CLOSE(a.axle[AXLE_FRONT].corner[0].practice_speed_mps.v / KMH, 30, 1e-9, 0, "C7");
}

static void own_pressures_below_the_floors(void **state)
{
    (void)state;
    struct rig r = rigs_cabin_on();
    struct conditions c = judging(13, 23); /* under the stuck step of 14, over the floor of 12 */
    struct advice a = advised(&r, "dune-sand", &c);
    assert_true(caution_raised(&a.cautions, CAUTION_AT_BELOW_STUCK));
    assert_true(caution_any_danger(&a.cautions));
    c = judging(20, 23); /* firm ground has no stuck step; its floor is the limit of 20.2 psi */
    a = advised(&r, "graded-gravel", &c);
    assert_true(caution_raised(&a.cautions, CAUTION_AT_BELOW_FLOOR));
    c = judging(70, 0);
    a = advised(&r, "dune-sand", &c);
    assert_true(caution_raised(&a.cautions, CAUTION_OVER_INFLATION));
    assert_true(caution_any_danger(&a.cautions));
}

static void own_pressures_that_are_refused(void **state)
{
    (void)state;
    struct advice a;
    struct rig r = rigs_bed_bare();
    struct conditions c = judging(0, 9.9); /* bead floor 12 less 2 */
    CHECK_STATUS(advise(&r, "dune-sand", &c, &a), STATUS_E_REFUSED);
    assert_int_equal(a.refusal.code, REFUSAL_TOO_LOW);
    assert_int_equal(a.refusal.axle, AXLE_REAR);
    CHECK_CLOSE(a.refusal.least_gauge_pa / PSI, 10, 1e-9, 0, "12 - 2");
    c = judging(0, 10);
    CHECK_STATUS(advise(&r, "dune-sand", &c, &a), STATUS_OK);
    r.axle[AXLE_REAR].floor_gauge_pa = 14 * PSI;
    c = judging(0, 13.9);
    CHECK_STATUS(advise(&r, "dune-sand", &c, &a), STATUS_E_REFUSED);
    r = rigs_cabin_on();
    c = judging(0, 12.5); /* 33 % at 12.577 psi */
    CHECK_STATUS(advise(&r, "dune-sand", &c, &a), STATUS_E_REFUSED);
    CHECK_BETWEEN(a.refusal.share_1, 0.33, 0.34, "own arithmetic");
    c = judging(0, 12.6);
    CHECK_STATUS(advise(&r, "dune-sand", &c, &a), STATUS_OK);
    r = rigs_buggy();
    c = judging(7.9, 0); /* beadlocks: the floor itself */
    CHECK_STATUS(advise(&r, "dune-sand", &c, &a), STATUS_E_REFUSED);
    CHECK_STATUS(advise(&r, "rock-steps", &c, &a), STATUS_OK);
    r = rigs_truck_12t();
    c = PLAIN;
    c.at_gauge_pa[AXLE_FRONT] = maybe_of(1.59 * BAR);
    CHECK_STATUS(advise(&r, "dune-sand", &c, &a), STATUS_E_REFUSED);
}

/* ---- speed ---- */

static void asked_speed(void **state)
{
    (void)state;
    struct rig r = rigs_cabin_on();
    struct conditions c = {.speed_mps = maybe_of(25 * KMH)};
    struct advice a = advised(&r, "dune-sand", &c);
    assert_false(caution_raised(&a.cautions, CAUTION_ASKED_SPEED)); /* exactly at the cap */
    c.speed_mps = maybe_of(25.1 * KMH);
    a = advised(&r, "dune-sand", &c);
    assert_true(caution_raised(&a.cautions, CAUTION_ASKED_SPEED));
    assert_true(caution_any_danger(&a.cautions));
    a = advised(&r, "sealed-road", &c);
    assert_false(caution_raised(&a.cautions, CAUTION_ASKED_SPEED));
}

static void what_is_left_can_rule_the_cap(void **state)
{
    (void)state;
    struct rig r = rigs_buggy();
    r.axle[AXLE_FRONT].road_gauge_pa = 26 * PSI; /* 11 of 26 psi: 42 % left */
    struct advice a = advised(&r, "corrugated-road", &PLAIN);
    assert_int_equal(a.cap_by, CAP_RETENTION);
    assert_true(a.cap_mps.v < 80 * KMH);
}

/* ---- refusals ---- */

static void nothing_but_loads_when_refused(void **state)
{
    (void)state;
    struct rig r = rigs_cabin_on();
    struct advice a;
    r.axle[AXLE_REAR].wheel = WHEEL_MULTI_PIECE;
    CHECK_STATUS(advise(&r, "dune-sand", &PLAIN, &a), STATUS_E_REFUSED);
    assert_int_equal(a.refusal.code, REFUSAL_MULTI_PIECE);
    const struct axle_advice *x = &a.axle[AXLE_REAR];
    CHECK_CLOSE(x->corner[1].load_kg, 1175, 1e-9, 0, "half of 2350");
    CHECK_CLOSE(x->corner[1].at.capacity_kg.v, 1450 * pow(48.0 / 65.0, 0.7), 1e-9, 0, "A3");
    CHECK_CLOSE(x->target_gauge_pa, 0, 0, 0, "nothing advised");
    CHECK_CLOSE(x->corner[1].at.deflection_1, 0, 0, 0, "nothing advised");
    assert_false(x->stuck_gauge_pa.is);
    assert_false(a.cap_mps.is);
    assert_true(caution_raised(&a.cautions, CAUTION_MULTI_PIECE));
}

static void side_slope_rules_and_refuses(void **state)
{
    (void)state;
    struct rig r = rigs_cabin_on();
    struct advice a;
    struct conditions c = {.cross_slope_rad = maybe_of(15 * NUM_PI / 180)};
    CHECK_STATUS(advise(&r, "damp-sand", &c, &a), STATUS_E_MISSING);
    r.cg_height_m = 1.15;
    r.track_m = 1.65;
    a = advised(&r, "damp-sand", &c);
    CHECK_CLOSE(a.axle[AXLE_FRONT].side_slope_floor_gauge_pa.v / PSI, 16.358579, 1e-6, 0,
                "30 % under 1293.5 kg, own arithmetic");
    assert_true(caution_raised(&a.cautions, CAUTION_SIDE_SLOPE_LOAD)); /* 1.327 times level */
    c.cross_slope_rad = maybe_of(29.8 * NUM_PI / 180);
    CHECK_STATUS(advise(&r, "damp-sand", &c, &a), STATUS_OK);
    c.cross_slope_rad = maybe_of(-29.9 * NUM_PI / 180); /* 0.4 at 29.852 degrees */
    CHECK_STATUS(advise(&r, "damp-sand", &c, &a), STATUS_E_REFUSED);
    assert_int_equal(a.refusal.code, REFUSAL_SIDE_SLOPE);
    CHECK_BETWEEN(a.refusal.share_1, 0.4, 0.41, "statics");
}

static void words_of_refusals(void **state)
{
    (void)state;
    char buf[400];
    struct text t = text_over(buf, sizeof buf);
    struct refusal r = {.code = REFUSAL_OVERLOAD_TYRE, .axle = AXLE_REAR, .has_axle = true};
    r.have_kg = 1550;
    r.rated_kg = 1450;
    r.excess_kg = 200;
    r.share_1 = 1550.0 / 1450.0;
    refusal_put(&r, UNITS_PSI, &t);
    CHECK_TEXT(buf,
               "A tyre on the rear axle carries 1550 kg, moulded for 1450 kg (107 %). Pressure "
               "cannot mend an overload.");
    text_clear(&t);
    refusal_put_way_out(&r, UNITS_PSI, &t);
    assert_non_null(strstr(buf, "Remove about 200 kg from the rear"));
    for (int c = REFUSAL_OVERLOAD_TYRE; c <= REFUSAL_FLAMMABLES; c++) {
        r.code = (enum refusal_code)c;
        text_clear(&t);
        refusal_put(&r, UNITS_BAR, &t);
        assert_true(t.len > 20 && !t.cut);
        text_clear(&t);
        refusal_put_way_out(&r, UNITS_BAR, &t);
        assert_true(t.len > 20 && !t.cut);
        assert_string_not_equal(refusal_name(r.code), "none");
    }
}

/* ---- cautions ---- */

static void cautions_of_the_profile(void **state)
{
    (void)state;
    struct rig r = rigs_cabin_on();
    struct advice a = advised(&r, "dune-sand", &PLAIN);
    assert_true(caution_raised(&a.cautions, CAUTION_NO_MARGIN));
    assert_false(caution_raised(&a.cautions, CAUTION_ROAD_BELOW_TABLE));
    r.axle[AXLE_REAR].road_gauge_pa = 47 * PSI; /* 48.13 asked for: 2.3 % short */
    r.axle[AXLE_REAR].left_share_1 = 0.5;
    r.axle[AXLE_FRONT].road_gauge_pa = 39 * PSI; /* 5.8 % above */
    a = advised(&r, "dune-sand", &PLAIN);
    assert_true(caution_raised(&a.cautions, CAUTION_ROAD_BELOW_TABLE));
    assert_false(caution_raised(&a.cautions, CAUTION_NO_MARGIN));
    r.axle[AXLE_FRONT].left_share_1 = 0.53; /* 12 % */
    r.axle[AXLE_FRONT].rim_width_m = 12 * UNITS_M_PER_INCH;
    a = advised(&r, "dune-sand", &PLAIN);
    assert_true(caution_raised(&a.cautions, CAUTION_LEFT_RIGHT));
    assert_true(caution_raised(&a.cautions, CAUTION_RIM_WIDTH));
    assert_true(caution_any_danger(&a.cautions));
    CHECK_CLOSE(a.axle[AXLE_FRONT].target_gauge_pa / PSI, 39, 1e-9, 0, "stays at road pressure");
}

static void cautions_of_the_tyre(void **state)
{
    (void)state;
    struct rig r = rigs_cabin_on();
    rigs_set_axle(&r, AXLE_FRONT, "7.50-16", 1500, 40 * PSI, 0, 0);
    struct advice a = advised(&r, "dune-sand", &PLAIN);
    assert_true(caution_raised(&a.cautions, CAUTION_BIAS));
    assert_true(caution_raised(&a.cautions, CAUTION_ASPECT_ASSUMED));
    assert_true(caution_raised(&a.cautions, CAUTION_CAPACITY_UNKNOWN));
    assert_false(a.axle[AXLE_FRONT].corner[0].standard_speed_mps.is);
    r.axle[AXLE_REAR].road_gauge_pa = 70 * PSI;
    a = advised(&r, "sealed-road", &PLAIN);
    assert_true(caution_raised(&a.cautions, CAUTION_ROAD_ABOVE_MAX));
    CHECK_CLOSE(a.axle[AXLE_REAR].target_gauge_pa / PSI, 65, 1e-9, 0, "moulded maximum");
    r.axle[AXLE_REAR].road_gauge_pa = 35 * PSI; /* moulded 240 kPa (35 psi) [TRA, memory] */
    r.axle[AXLE_REAR].tyre.max_gauge_pa = 240e3;
    a = advised(&r, "sealed-road", &PLAIN);
    assert_false(caution_raised(&a.cautions, CAUTION_ROAD_ABOVE_MAX));
}

static void warm_reading_above_the_maximum(void **state)
{
    (void)state;
    struct rig r = rigs_cabin_on();
    r.axle[AXLE_REAR].road_gauge_pa = 65 * PSI;
    struct conditions c = {.tyre_temp_k = maybe_of(313.15)};
    struct advice a = advised(&r, "sealed-road", &c);
    assert_true(caution_raised(&a.cautions, CAUTION_OVER_INFLATION));
    assert_true(caution_any_danger(&a.cautions));
    a = advised(&r, "dune-sand", &c);
    assert_false(caution_raised(&a.cautions, CAUTION_OVER_INFLATION));
}

static void cautions_of_the_ground(void **state)
{
    (void)state;
    struct rig r = rigs_bed_bare();
    struct advice a = advised(&r, "greasy-clay", &PLAIN);
    assert_true(caution_raised(&a.cautions, CAUTION_SLICK));
    a = advised(&r, "ice", &PLAIN);
    assert_true(caution_raised(&a.cautions, CAUTION_ICE));
    a = advised(&r, "bog", &PLAIN);
    assert_true(caution_raised(&a.cautions, CAUTION_LAW));
    struct ground g = rigs_ground("dune-sand");
    g.strength_pa = maybe_none();
    CHECK_STATUS(advice_compute(&r, &g, &PLAIN, &a), STATUS_OK);
    assert_true(caution_raised(&a.cautions, CAUTION_STRENGTH_UNKNOWN));
    g.cap_mps = maybe_none();
    g.aim_1 = 0.13;
    CHECK_STATUS(advice_compute(&r, &g, &PLAIN, &a), STATUS_OK);
    assert_false(a.cap_mps.is);
    assert_true(caution_raised(&a.cautions, CAUTION_HIGHWAY_NO_CAP));
    r.clearance_m = 0;
    a = advised(&r, "loose-snow", &PLAIN);
    assert_true(caution_raised(&a.cautions, CAUTION_CLEARANCE_ASSUMED));
}

/* ---- calibration and duals ---- */

/* A tape height belongs to the load as profiled: switching a load item off in a session must not
 * make the tyre stiffer. */
static void calibration_load(void **state)
{
    (void)state;
    struct rig r = rigs_cabin_on();
    r.wheelbase_m = 3.3;
    r.n_mass = 1;
    r.mass[0] = (struct added_mass){.mass_kg = 200, .position_m = 0};
    r.axle[AXLE_FRONT].tyre.cal.cal_gauge_pa = 35 * PSI;
    r.axle[AXLE_FRONT].tyre.cal.cal_height_m = 0.415;
    struct advice on = advised(&r, "dune-sand", &PLAIN);
    r.mass[0].off = true;
    struct advice off = advised(&r, "dune-sand", &PLAIN);
    CHECK_CLOSE(off.axle[0].tyre.kcal_1, on.axle[0].tyre.kcal_1, 1e-12, 0, "one tyre");
    CHECK_CLOSE(on.rig.axle[0].tyre.cal.cal_load_kg, 1075, 1e-9, 0, "heavier corner");
    r.axle[AXLE_FRONT].tyre.cal.cal_height_m = 0.30;
    struct advice a;
    CHECK_STATUS(advise(&r, "dune-sand", &PLAIN, &a), STATUS_E_MEASURE_AGAIN);
}

static void duals_go_by_the_second_index(void **state)
{
    (void)state;
    struct rig r = rigs_tourer();
    rigs_set_axle(&r, AXLE_REAR, "LT265/70R17 121/118S", 3400, 60 * PSI, 0, 80 * PSI);
    r.axle[AXLE_REAR].wheels = 4;
    struct advice a = advised(&r, "graded-gravel", &PLAIN);
    CHECK_CLOSE(a.axle[AXLE_REAR].tyre.max_load_kg, 1320, 1e-9, 0, "load index 118");
    CHECK_CLOSE(a.axle[AXLE_REAR].corner[0].load_kg, 850, 1e-9, 0, "a tyre of four");
    assert_true(caution_raised(&a.cautions, CAUTION_DUALS));
}

/* ---- properties ---- */

static void left_and_right_are_alike(void **state)
{
    (void)state;
    struct rig r = rigs_tourer(), mirrored = r;
    r.axle[AXLE_REAR].left_share_1 = 0.56;
    mirrored.axle[AXLE_REAR].left_share_1 = 0.44;
    struct advice a = advised(&r, "dune-sand", &PLAIN), b = advised(&mirrored, "dune-sand", &PLAIN);
    const char *src = "mirror image";
    CHECK_CLOSE(a.axle[2].target_gauge_pa, b.axle[2].target_gauge_pa, 1e-9, 0, src);
    CHECK_CLOSE(a.axle[2].corner[0].at.deflection_1, b.axle[2].corner[1].at.deflection_1, 1e-12, 0,
                src);
    CHECK_CLOSE(a.flotation.needed_target_pa.v, b.flotation.needed_target_pa.v, 0, 1e-12, src);
    CHECK_CLOSE(a.flotation.needed_road_pa.v, b.flotation.needed_road_pa.v, 0, 1e-12, src);
    CHECK_CLOSE(a.axle[0].corner[0].at.deflection_1, a.axle[0].corner[1].at.deflection_1, 0, 0,
                "even axle");
}

static void units_change_no_more_than_a_step(void **state)
{
    (void)state;
    static const char *const grounds[] = {"graded-gravel", "rock-steps", "dune-sand", "bog"};
    for (size_t i = 0; i < sizeof grounds / sizeof grounds[0]; i++) {
        struct rig psi = rigs_cabin_on(), bar = psi;
        bar.units = UNITS_BAR;
        struct advice a = advised(&psi, grounds[i], &PLAIN), b = advised(&bar, grounds[i], &PLAIN);
        CHECK_CLOSE(b.axle[0].target_gauge_pa, a.axle[0].target_gauge_pa, 0.1 * BAR, 0, "one step");
        CHECK_CLOSE(b.axle[0].aim_gauge_pa.v, a.axle[0].aim_gauge_pa.v, 0, 0, "unrounded");
    }
}

static void nothing_is_ever_not_a_number(void **state)
{
    (void)state;
    static const double loads_kg[] = {1e-3, 20, 500, 2500, 2900, 1e5, 1e300};
    static const double roads_pa[] = {1, 1000, 30e3, 2e5, 1.9e6, 1e9};
    for (size_t i = 0; i < sizeof loads_kg / sizeof loads_kg[0]; i++) {
        for (size_t k = 0; k < sizeof roads_pa / sizeof roads_pa[0]; k++) {
            struct rig r = rigs_cabin_on();
            struct advice a;
            r.axle[AXLE_REAR].load_kg = loads_kg[i];
            r.axle[AXLE_REAR].road_gauge_pa = roads_pa[k];
            enum status s = advise(&r, "dune-sand", &PLAIN, &a);
            assert_true(s == STATUS_OK || s == STATUS_E_REFUSED || s == STATUS_E_DOMAIN);
            if (s == STATUS_OK) {
                const struct corner_advice *c = &a.axle[AXLE_REAR].corner[0];
                const double x[] = {a.axle[AXLE_REAR].target_gauge_pa, c->at.deflection_1,
                                    c->at.patch.length_m, c->area_growth_high_1};
                assert_true(num_all_finite(4, x));
                assert_true(c->at.deflection_1 <= 0.33 + 1e-9);
            }
        }
    }
}

static void domain(void **state)
{
    (void)state;
    struct rig r = rigs_cabin_on();
    struct advice a = {.cap_mps = {true, 7}};
    struct conditions bad[] = {
        {.tyre_temp_k = {true, (double)NAN}},
        {.air_temp_k = {true, -1}},
        {.speed_mps = {true, -5}},
        {.slope_1 = (double)INFINITY},
        {.height_m = {true, 40000}},
        {.at_gauge_pa[AXLE_FRONT] = {true, 0}},
        {.slope_1 = (double)NAN},
    };
    for (size_t i = 0; i < sizeof bad / sizeof bad[0]; i++) {
        CHECK_STATUS(advise(&r, "dune-sand", &bad[i], &a), STATUS_E_DOMAIN);
    }
    r.axle[AXLE_FRONT].road_gauge_pa = (double)NAN;
    CHECK_STATUS(advise(&r, "dune-sand", &PLAIN, &a), STATUS_E_DOMAIN);
    CHECK_CLOSE(a.cap_mps.v, 7, 0, 0, "untouched");
}

/* ---- the working ---- */

static struct working W;

static const struct working_row *row_of(const char *where, const char *symbol)
{
    for (int i = 0; i < W.n; i++) {
        if (strcmp(W.row[i].where, where) == 0 && strcmp(W.row[i].symbol, symbol) == 0) {
            return &W.row[i];
        }
    }
    fail_msg("no row %s of %s", symbol, where);
    return NULL;
}

static void working_shows_every_number(void **state)
{
    (void)state;
    struct rig r = rigs_tourer();
    struct conditions c = judging(19, 0);
    struct advice a = advised(&r, "dune-sand", &c);
    W.n = 0;
    advice_working(&a, &W);
    const struct corner_advice *t = &a.axle[AXLE_TRAILER].corner[SIDE_RIGHT];
    const char *src = "the advice";
    CHECK_CLOSE(row_of("front", "p_target")->si, a.axle[0].target_gauge_pa, 0, 0, src);
    CHECK_CLOSE(row_of("front", "p")->si, 19 * PSI, 0, 0, src);
    CHECK_CLOSE(row_of("trailer-right", "d/SH")->si, t->at.deflection_1, 0, 0, src);
    CHECK_CLOSE(row_of("trailer-right", "d/SH")->high.v, t->deflection_high_1, 0, 0, src);
    CHECK_CLOSE(row_of("trailer-right", "cap")->si, t->at.capacity_kg.v, 0, 0, src);
    CHECK_CLOSE(row_of("", "v_cap")->si, a.cap_mps.v, 0, 0, src);
    for (int i = 0; i < W.n; i++) {
        assert_true(W.row[i].equation[0] != '\0' && W.row[i].source[0] != '\0');
        assert_true(isfinite(W.row[i].si));
    }
    r.axle[AXLE_REAR].wheel = WHEEL_MULTI_PIECE;
    CHECK_STATUS(advise(&r, "dune-sand", &c, &a), STATUS_E_REFUSED);
    W.n = 0;
    advice_working(&a, &W);
    assert_true(row_of("rear-left", "cap")->si > 0);
    for (int i = 0; i < W.n; i++) {
        assert_string_not_equal(W.row[i].symbol, "p_target");
    }
}

static void working_lines_fit(void **state)
{
    (void)state;
    struct rig r = rigs_truck_12t();
    struct advice a = advised(&r, "wet-field", &PLAIN);
    char buf[2000];
    W.n = 0;
    advice_working(&a, &W);
    assert_true(W.n > 60 && W.n < WORKING_ROWS);
    for (int i = 0; i < W.n; i++) {
        struct text t = text_over(buf, sizeof buf);
        working_put(&W.row[i], UNITS_BAR, 80, &t);
        assert_false(t.cut);
        for (const char *line = buf; *line != '\0'; line += strcspn(line, "\n") + 1) {
            assert_true(strcspn(line, "\n") <= 80);
        }
    }
    struct text t = text_over(buf, sizeof buf);
    working_put(row_of("front", "p_now"), UNITS_BAR, 80, &t);
    assert_non_null(strstr(buf, "A10: (p_target + pa) T/T_road - pa + offset; with T = 20.0 C"));
    assert_non_null(strstr(buf, "(published)"));
}

static void a_full_working_drops_rows(void **state)
{
    (void)state;
    W.n = 0;
    for (int i = 0; i < WORKING_ROWS + 3; i++) {
        struct working_row *row =
            working_add(&W, "", "x", "", "A1", "", "", STANDING_D, i, Q_NUMBER);
        for (int k = 0; k < WORKING_INPUTS + 2; k++) {
            (void)working_in(row, "y", k, Q_NUMBER);
        }
        assert_int_equal(row->n_in, WORKING_INPUTS);
    }
    assert_int_equal(W.n, WORKING_ROWS);
    CHECK_CLOSE(W.row[WORKING_ROWS - 1].si, WORKING_ROWS - 1, 0, 0, "the first rows are kept");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(corner_of_the_pickup),
        cmocka_unit_test(bands),
        cmocka_unit_test(sealed_road_is_the_road_pressure),
        cmocka_unit_test(reading_to_set_now),
        cmocka_unit_test(height_changes_the_reading),
        cmocka_unit_test(own_pressures_are_judged),
        cmocka_unit_test(own_pressures_below_the_floors),
        cmocka_unit_test(own_pressures_that_are_refused),
        cmocka_unit_test(asked_speed),
        cmocka_unit_test(what_is_left_can_rule_the_cap),
        cmocka_unit_test(nothing_but_loads_when_refused),
        cmocka_unit_test(side_slope_rules_and_refuses),
        cmocka_unit_test(words_of_refusals),
        cmocka_unit_test(cautions_of_the_profile),
        cmocka_unit_test(cautions_of_the_tyre),
        cmocka_unit_test(warm_reading_above_the_maximum),
        cmocka_unit_test(cautions_of_the_ground),
        cmocka_unit_test(calibration_load),
        cmocka_unit_test(duals_go_by_the_second_index),
        cmocka_unit_test(left_and_right_are_alike),
        cmocka_unit_test(units_change_no_more_than_a_step),
        cmocka_unit_test(nothing_is_ever_not_a_number),
        cmocka_unit_test(domain),
        cmocka_unit_test(working_shows_every_number),
        cmocka_unit_test(working_lines_fit),
        cmocka_unit_test(a_full_working_drops_rows),
    };
    return check_run("advice", tests, sizeof tests / sizeof tests[0], argc, argv);
}
