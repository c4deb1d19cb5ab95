/* test_flotation_vehicle.c - trailers, undriven axles, vehicle data and errors. */
#include "support/check.h"

#include <math.h>
#include <string.h>

#include "core/constants.h"
#include "core/flotation.h"
#include "support/pickup.h"

#define COUNT(a) (sizeof(a) / sizeof((a)[0]))

/* ---- trailers and undriven axles ---- */

/* An independent writing of model D1's margin: forces of single wheels, in kN, m and kPa. */
static double margin_by_hand(const struct mobility *m, int at, double strength_kpa)
{
    double force_kn = 0;
    double weight_kn = 0;
    for (int i = 0; i < AXLE_COUNT; i++) {
        const struct mobility_axle *a = &m->axle[i];
        if (!a->present) {
            continue;
        }
        double w_kn = a->load_kg * 9.80665e-3 / a->tyres;
        double b = a->section_width_m;
        double d = a->outside_diameter_m;
        double bn = strength_kpa * b * d / w_kn * (1 + 5 * a->deflection_1[at]) / (1 + 3 * b / d);
        double net = 0.88 * (1 - exp(-0.1 * bn)) * (1 - exp(-1.5)) - 1 / bn - 0.1 / sqrt(bn);
        force_kn += a->tyres * w_kn * (a->driven && !a->trailer ? net : -1 / bn - 0.04);
        weight_kn += a->tyres * w_kn;
    }
    return force_kn / weight_kn - sin(atan(m->slope_1)) - 0.05;
}

static void check_pull_method(const struct mobility *m, double psi)
{
    struct flotation f = on(m, GROUND_FINE, psi);
    assert_int_equal(f.method, FLOTATION_PULL);
    assert_int_equal(f.n_other, 2);
    CHECK_CLOSE(f.pull_margin_road_1.v, margin_by_hand(m, 0, psi * PSI / 1000), 1e-12, 0, "D1");
    CHECK_CLOSE(f.pull_margin_1.v, margin_by_hand(m, 1, psi * PSI / 1000), 1e-12, 0, "D1");
    CHECK_CLOSE(margin_by_hand(m, 0, f.needed_road_pa.v / 1000), 0, 1e-9, 0, "needed: margin 0");
    CHECK_CLOSE(margin_by_hand(m, 1, f.needed_target_pa.v / 1000), 0, 1e-9, 0, "needed: margin 0");
    double margin = f.pull_margin_1.v;
    assert_int_equal(f.passes, margin > 0.05    ? PASSES_FEW
                               : margin < -0.05 ? PASSES_STICK
                                                : PASSES_UNCERTAIN);
    CHECK_CLOSE(f.mass_equivalent_kg.v,
                f.gain_1.v * (m->axle[0].load_kg + m->axle[2].load_kg + m->axle[3].load_kg), 1e-9,
                0, "needed strength goes with load");
}

static void pull_method_with_trailer_or_two_wheel_drive(void **state)
{
    (void)state;
    for (double psi = 15; psi < 90; psi += 5) {
        struct mobility m = pickup_with_trailer();
        check_pull_method(&m, psi);
        m.slope_1 = 0.08;
        check_pull_method(&m, psi);
        m = pickup();
        m.axle[AXLE_FRONT].driven = false;
        check_pull_method(&m, psi);
        m = pickup();
        m.axle[AXLE_REAR].driven = false;
        m.axle[AXLE_FRONT].tyres = 4;
        check_pull_method(&m, psi);
    }
}

static void pull_method_may_have_no_needed_strength(void **state)
{
    (void)state;
    struct mobility m = pickup();
    m.axle[AXLE_REAR].driven = false;
    m.slope_1 = 0.5; /* half the load drives: 0.36 at most, and 0.45 + 0.05 are wanted */
    struct flotation f = on(&m, GROUND_FINE, 60);
    assert_false(f.needed_road_pa.is || f.needed_target_pa.is || f.gain_1.is);
    assert_false(f.mass_equivalent_kg.is);
    assert_int_equal(f.passes, PASSES_STICK);
}

static void sand_margin_with_trailer(void **state)
{
    (void)state;
    struct mobility m = pickup();
    struct flotation alone = on(&m, GROUND_SAND, 40);
    m = pickup_with_trailer();
    struct flotation f = on(&m, GROUND_SAND, 40);
    CHECK_CLOSE(f.needed_target_pa.v, alone.needed_target_pa.v, 1e-9, 0, "driven axles only");
    double a0 = 0.22 * 0.2286 + 0.026 * 0.889;
    double cp_kpa = 900 * 9.80665e-3 / 2 /
                    (2 * 0.3175 * sqrt(0.889 * a0 - a0 * a0) * pow(0.3175 / 0.2286, 0.52));
    double held = 0.21 * cp_kpa / (40 * PSI / 1000) + 0.04;
    CHECK_CLOSE(f.pull_margin_1.v,
                ((alone.pull_margin_1.v + 0.05) * 3000 - held * 900) / 3900 - 0.05, 1e-12, 0,
                "Mason 2016 eq. 10 and Williams 2017 eq. 9, by hand");
}

/* The narrower tyre at the same load needs the stronger ground. */
static void ruling_axle_is_the_one_that_needs_most(void **state)
{
    (void)state;
    static const enum axle_id all[] = {AXLE_FRONT, AXLE_REAR};
    for (size_t i = 0; i < COUNT(all); i++) {
        struct mobility m = pickup_with_trailer();
        m.axle[AXLE_REAR].load_kg = 1600;
        m.axle[all[i]].section_width_m = 0.2;
        assert_int_equal(on(&m, GROUND_SAND, 60).ruling_axle, all[i]);
        assert_int_equal(on(&m, GROUND_FINE, 60).ruling_axle, all[i]);
        m.axle[AXLE_TRAILER].present = false;
        assert_int_equal(on(&m, GROUND_FINE, 60).ruling_axle, all[i]);
    }
}

/* A trailer only rolls, whatever its axle claims. */
static void a_trailer_never_pulls(void **state)
{
    (void)state;
    struct mobility m = pickup_with_trailer();
    double rolls = on(&m, GROUND_FINE, 60).pull_margin_1.v;
    m.axle[AXLE_TRAILER].driven = true;
    struct flotation f = on(&m, GROUND_FINE, 60);
    assert_int_equal(f.method, FLOTATION_PULL);
    CHECK_CLOSE(f.pull_margin_1.v, rolls, 0, 0, "definition");
}

/* ---- vehicle data ---- */

static void duals_halve_the_contact_factor(void **state)
{
    (void)state;
    struct mobility m = pickup();
    m.axle[AXLE_REAR] = axle_of(4000, 35 * PSI, 15 * PSI);
    m.axle[AXLE_REAR].tyres = 4;
    struct flotation f = on(&m, GROUND_FINE, 60);
    double lb = 4000 / 0.45359237; /* 8818.5: CPF 10.078, WF 1.3410, WLF 4.409, CLF 1 */
    double mi = lb / (0.5 * 4 * 35 * 12.5) * (0.033 * lb / 1000 + 1.05) / 0.225 + lb / 2000 - 1;
    double psi = (11.48 + 0.2 * mi - 39.2 / (mi + 3.74)) * pow(0.15 / 0.22, 0.25);
    CHECK_CLOSE(f.needed_target_pa.v / PSI, psi, 1e-9, 0, "Priddy 1999 with n = 4, by hand");
    assert_int_equal(f.ruling_axle, AXLE_REAR);
}

static void little_power_counts(void **state)
{
    (void)state;
    struct mobility m = pickup();
    double enough = on(&m, GROUND_FINE, 60).needed_road_pa.v;
    double ten_hp_a_ton_w = 10 * 745.699872 * 3000 / 907.18474;
    m.power_w = ten_hp_a_ton_w * 1.001;
    CHECK_CLOSE(on(&m, GROUND_FINE, 60).needed_road_pa.v, enough, 1e-9, 0, "unknown is enough");
    m.power_w = ten_hp_a_ton_w * 0.999;
    double mi = 42.5604655 * 1.05; /* the reference's front axle */
    CHECK_CLOSE(on(&m, GROUND_FINE, 60).needed_road_pa.v / PSI,
                (11.48 + 0.2 * mi - 39.2 / (mi + 3.74)) * pow(0.15 / 0.12, 0.25), 1e-6, 0,
                "EF 1.05 by hand");
}

static void clearance_is_assumed_aloud(void **state)
{
    (void)state;
    struct mobility m = pickup();
    struct ground g = ground_of(GROUND_FINE, 60);
    m.clearance_m = FLOTATION_CLEARANCE_M;
    struct flotation known = must(&m, &g, STATUS_OK);
    m.clearance_m = 0;
    struct flotation f = must(&m, &g, STATUS_W_ASSUMED);
    assert_true(f.clearance_assumed && !known.clearance_assumed);
    CHECK_CLOSE(f.needed_road_pa.v, known.needed_road_pa.v, 0, 0, "the assumed 0.2 m");
    g = snow_of(200, 0.2);
    assert_true(must(&m, &g, STATUS_W_ASSUMED).clearance_assumed);
    g = ground_of(GROUND_SAND, 60);
    assert_false(must(&m, &g, STATUS_OK).clearance_assumed);
}

static void deflection_outside_is_clamped_aloud(void **state)
{
    (void)state;
    struct mobility m = pickup();
    struct ground g = ground_of(GROUND_FINE, 60);
    m.axle[AXLE_FRONT].deflection_1[0] = m.axle[AXLE_REAR].deflection_1[0] = 0.10;
    double at_edge = must(&m, &g, STATUS_OK).needed_road_pa.v;
    m.axle[AXLE_FRONT].deflection_1[0] = m.axle[AXLE_REAR].deflection_1[0] = 0.06;
    struct flotation f = must(&m, &g, STATUS_W_CLAMPED);
    assert_true(f.deflection_clamped);
    CHECK_CLOSE(f.needed_road_pa.v, at_edge, 1e-9, 0, "clamped to 10 %");
}

static void strength_from_class_and_moisture(void **state)
{
    (void)state;
    struct mobility m = pickup();
    struct ground g = ground_of(GROUND_FINE, 0);
    g.soil = SOIL_CL;
    g.moisture_1 = maybe_of(0.25);
    CHECK_CLOSE(must(&m, &g, STATUS_OK).strength_pa.v / PSI, 63.0, 0.05, 0,
                "Sullivan & Anderson 2000, CL 25 %");
    g.strength_pa = maybe_of(45 * PSI);
    CHECK_CLOSE(must(&m, &g, STATUS_OK).strength_pa.v, 45 * PSI, 0, 0, "a measured value rules");
    g = ground_of(GROUND_SAND, 0);
    g.moisture_1 = maybe_of(0.05);
    CHECK_CLOSE(must(&m, &g, STATUS_OK).strength_pa.v / PSI, 200.1, 0.05, 0,
                "Sullivan & Anderson 2000, clean sand 5 %");
}

static void mmp_outside_its_table_is_none(void **state)
{
    (void)state;
    struct mobility m = pickup();
    m.axle[AXLE_REAR].present = false;
    struct flotation f = on(&m, GROUND_SAND, 60);
    assert_false(f.mmp_road_pa.is || f.mmp_target_pa.is);
}

/* ---- errors ---- */

static void refuses(const struct mobility *m, const struct ground *g, enum status want)
{
    struct flotation f;
    struct flotation before;
    memset(&f, 0x5a, sizeof f);
    memset(&before, 0x5a, sizeof before);
    CHECK_STATUS(flotation_compute(m, g, &f), want);
    assert_memory_equal(&f, &before, sizeof f);
}

static void no_number_is_refused(void **state)
{
    (void)state;
    static const enum ground_kind kinds[] = {GROUND_FIRM, GROUND_SAND, GROUND_FINE, GROUND_SNOW};
    const double bad[] = {(double)NAN, HUGE_VAL, -1};
    struct mobility m;
    struct mobility_axle *a = &m.axle[AXLE_REAR];
    double *const at[] = {
        &m.clearance_m,      &m.power_w,           &a->load_kg,         &a->outside_diameter_m,
        &a->section_width_m, &a->section_height_m, &a->deflection_1[0], &a->deflection_1[1],
    };
    for (size_t k = 0; k < COUNT(kinds); k++) {
        struct ground g = snow_of(200, 0.2);
        g.kind = kinds[k];
        g.strength_pa = maybe_of(60 * PSI);
        for (size_t i = 0; i < COUNT(at); i++) {
            for (size_t j = 0; j < COUNT(bad); j++) {
                m = pickup();
                *at[i] = bad[j];
                refuses(&m, &g, STATUS_E_DOMAIN);
            }
        }
        m = pickup();
        m.slope_1 = (double)NAN;
        refuses(&m, &g, STATUS_E_DOMAIN);
        m = pickup();
        a->tyres = 0;
        refuses(&m, &g, STATUS_E_DOMAIN);
        m = pickup();
        g.strength_pa = (struct maybe){true, (double)NAN};
        refuses(&m, &g, STATUS_E_DOMAIN);
    }
}

static void missing_values_are_named_missing(void **state)
{
    (void)state;
    struct mobility m = pickup();
    struct ground g = ground_of(GROUND_FINE, 0);
    refuses(&m, &g, STATUS_E_MISSING);
    g.soil = SOIL_CL;
    refuses(&m, &g, STATUS_E_MISSING);
    g = ground_of(GROUND_SAND, 0);
    refuses(&m, &g, STATUS_E_MISSING);
    g = snow_of(200, 0.2);
    g.snow_depth_m = maybe_none();
    refuses(&m, &g, STATUS_E_MISSING);
    g = snow_of(200, 0.2);
    m.axle[AXLE_REAR].patch_area_m2[1] = 0;
    refuses(&m, &g, STATUS_E_DOMAIN);
    m.axle[AXLE_FRONT].driven = m.axle[AXLE_REAR].driven = false;
    refuses(&m, &g, STATUS_E_MISSING);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pull_method_with_trailer_or_two_wheel_drive),
        cmocka_unit_test(pull_method_may_have_no_needed_strength),
        cmocka_unit_test(sand_margin_with_trailer),
        cmocka_unit_test(ruling_axle_is_the_one_that_needs_most),
        cmocka_unit_test(a_trailer_never_pulls),
        cmocka_unit_test(duals_halve_the_contact_factor),
        cmocka_unit_test(little_power_counts),
        cmocka_unit_test(clearance_is_assumed_aloud),
        cmocka_unit_test(deflection_outside_is_clamped_aloud),
        cmocka_unit_test(strength_from_class_and_moisture),
        cmocka_unit_test(mmp_outside_its_table_is_none),
        cmocka_unit_test(no_number_is_refused),
        cmocka_unit_test(missing_values_are_named_missing),
    };
    return check_run("flotation vehicle", tests, COUNT(tests), argc, argv);
}
