/* test_load.c - statics of added masses, corner loads, ratings, side slope. */
#include "support/check.h"
#include "support/rigs.h"

#include <math.h>

#include "core/load.h"

#define STATICS "statics by hand"

static struct rig with_mass(double mass_kg, double position_m)
{
    struct rig r = rigs_cabin_on();
    r.wheelbase_m = 3.3;
    r.n_mass = 1;
    r.mass[0] = (struct added_mass){.mass_kg = mass_kg, .position_m = position_m};
    return r;
}

static struct loads loads_of(const struct rig *r)
{
    struct loads l;
    CHECK_STATUS(load_axles(r, false, &l), STATUS_OK);
    return l;
}

static void masses_go_by_statics(void **state)
{
    (void)state;
    static const struct {
        double mass_kg, position_m, front_kg, rear_kg;
    } t[] = {
        {60, 1.2, 1988.181818, 2371.818182},   /* between the axles */
        {-100, 4.0, 1971.212121, 2228.787879}, /* taken off behind the rear axle */
        {80, 0.0, 2030, 2350},                 /* on the front axle */
        {80, 3.3, 1950, 2430},
    };
    for (size_t i = 0; i < sizeof t / sizeof t[0]; i++) {
        struct rig r = with_mass(t[i].mass_kg, t[i].position_m);
        struct loads l = loads_of(&r);
        CHECK_CLOSE(l.axle[AXLE_FRONT].load_kg, t[i].front_kg, 1e-6, 0, STATICS);
        CHECK_CLOSE(l.axle[AXLE_REAR].load_kg, t[i].rear_kg, 1e-6, 0, STATICS);
        CHECK_CLOSE(l.axle[AXLE_FRONT].load_kg + l.axle[AXLE_REAR].load_kg, 4300 + t[i].mass_kg,
                    1e-9, 0, "mass is conserved");
    }
}

static void bogie_shares_half_and_half(void **state)
{
    (void)state;
    struct rig r = with_mass(200, 3.3);
    rigs_set_axle(&r, AXLE_MIDDLE, "35x12.50R17LT", 2000, 48 * PSI, 1450, 65 * PSI);
    struct loads l = loads_of(&r);
    CHECK_CLOSE(l.axle[AXLE_MIDDLE].load_kg, 2100, 1e-9, 0, STATICS);
    CHECK_CLOSE(l.axle[AXLE_REAR].load_kg, 2450, 1e-9, 0, STATICS);
}

static void switched_off_masses_stay_behind(void **state)
{
    (void)state;
    struct rig r = with_mass(60, 1.2);
    r.mass[0].off = true;
    struct loads l;
    CHECK_CLOSE(loads_of(&r).axle[AXLE_FRONT].load_kg, 1950, 0, 0, "as weighed");
    CHECK_STATUS(load_axles(&r, true, &l), STATUS_OK);
    CHECK_CLOSE(l.axle[AXLE_FRONT].load_kg, 1988.181818, 1e-6, 0, STATICS);
}

static void corners_share_the_axle(void **state)
{
    (void)state;
    struct rig r = rigs_cabin_on();
    r.axle[AXLE_REAR].left_share_1 = 0.55;
    r.axle[AXLE_REAR].wheels = 4;
    struct axle_load x = loads_of(&r).axle[AXLE_REAR];
    CHECK_CLOSE(x.per_tyre_kg[SIDE_LEFT], 2350 * 0.55 / 2, 1e-9, 0, STATICS);
    CHECK_CLOSE(x.per_tyre_kg[SIDE_RIGHT], 2350 * 0.45 / 2, 1e-9, 0, STATICS);
    CHECK_CLOSE(x.heavier_kg, 646.25, 1e-9, 0, STATICS);
    CHECK_CLOSE(load_uneven(&x), 0.2, 1e-12, 0, STATICS);
}

static void errors_leave_the_output_alone(void **state)
{
    (void)state;
    struct loads l = {.axle[AXLE_FRONT].load_kg = 7};
    struct rig r = with_mass(-4000, 1.0); /* the front axle would lift */
    CHECK_STATUS(load_axles(&r, false, &l), STATUS_E_DOMAIN);
    r = with_mass(60, 1.2);
    r.wheelbase_m = 0;
    CHECK_STATUS(load_axles(&r, false, &l), STATUS_E_MISSING);
    r = rigs_cabin_on();
    r.axle[AXLE_REAR].present = false;
    CHECK_STATUS(load_axles(&r, false, &l), STATUS_E_MISSING);
    r = rigs_cabin_on();
    r.axle[AXLE_FRONT].load_kg = (double)NAN;
    CHECK_STATUS(load_axles(&r, false, &l), STATUS_E_DOMAIN);
    r = with_mass((double)INFINITY, 1.0);
    CHECK_STATUS(load_axles(&r, false, &l), STATUS_E_DOMAIN);
    CHECK_CLOSE(l.axle[AXLE_FRONT].load_kg, 7, 0, 0, "untouched");
}

static enum status check(const struct rig *r, struct refusal *why)
{
    struct loads l = loads_of(r);
    struct tyre tyre[AXLE_COUNT] = {{.r0_m = 0}};
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (r->axle[a].present) {
            assert_true(tyre_init(&r->axle[a].tyre, &tyre[a]) >= 0);
        }
    }
    return load_check(r, &l, tyre, why);
}

static void overload_says_how_much_and_where(void **state)
{
    (void)state;
    struct rig r = rigs_cabin_on();
    struct refusal why = {.code = REFUSAL_NONE};
    CHECK_STATUS(check(&r, &why), STATUS_OK);
    r.axle[AXLE_REAR].load_kg = 2900; /* exactly the moulded maximum */
    CHECK_STATUS(check(&r, &why), STATUS_OK);
    r.axle[AXLE_REAR].load_kg = 3100;
    CHECK_STATUS(check(&r, &why), STATUS_E_REFUSED);
    assert_int_equal(why.code, REFUSAL_OVERLOAD_TYRE);
    assert_int_equal(why.axle, AXLE_REAR);
    CHECK_CLOSE(why.excess_kg, 200, 1e-6, 0, "2 x (1550 - 1450)");
    CHECK_CLOSE(why.share_1, 1550.0 / 1450.0, 1e-12, 0, "107 %");
    r.axle[AXLE_FRONT].rating_kg = 1500; /* 450 to go: the worse of the two is told */
    CHECK_STATUS(check(&r, &why), STATUS_E_REFUSED);
    assert_int_equal(why.code, REFUSAL_OVERLOAD_AXLE);
    assert_int_equal(why.axle, AXLE_FRONT);
    CHECK_CLOSE(why.excess_kg, 450, 1e-6, 0, "1950 - 1500");
}

/* With an uneven axle the heavier side decides how much must go. */
static void uneven_overload(void **state)
{
    (void)state;
    struct rig r = rigs_cabin_on();
    struct refusal why;
    r.axle[AXLE_REAR].load_kg = 2600;
    r.axle[AXLE_REAR].left_share_1 = 0.6; /* 1560 on the left */
    CHECK_STATUS(check(&r, &why), STATUS_E_REFUSED);
    CHECK_CLOSE(why.excess_kg, 2600 - 1450 / 0.6, 1e-6, 0, STATICS);
}

static void side_slope(void **state)
{
    (void)state;
    struct rig r = rigs_cabin_on();
    double tipping_1 = 0, rad = 15 * NUM_PI / 180;
    CHECK_STATUS(load_tipping(&r, rad, &tipping_1), STATUS_E_MISSING);
    r.cg_height_m = 1.15;
    r.track_m = 1.65;
    CHECK_STATUS(load_tipping(&r, rad, &tipping_1), STATUS_OK);
    CHECK_CLOSE(tipping_1, 0.186752467, 1e-9, 0, STATICS);
    struct axle_load front = loads_of(&r).axle[AXLE_FRONT];
    CHECK_CLOSE(load_downhill_kg(&front, rad, tipping_1), 1293.536292, 1e-6, 0,
                "1950 cos(15) (1/2 + 1.15/1.65 tan(15))");
    double other_1 = 0;
    CHECK_STATUS(load_tipping(&r, -rad, &other_1), STATUS_OK);
    CHECK_CLOSE(other_1, tipping_1, 0, 0, "either side");
    CHECK_STATUS(load_tipping(&r, NUM_PI / 2, &other_1), STATUS_E_DOMAIN);
    CHECK_STATUS(load_tipping(&r, (double)NAN, &other_1), STATUS_E_DOMAIN);
    CHECK_CLOSE(load_downhill_kg(&front, 0.0, 0.0), front.heavier_kg, 1e-9, 0, "level ground");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(masses_go_by_statics),
        cmocka_unit_test(bogie_shares_half_and_half),
        cmocka_unit_test(switched_off_masses_stay_behind),
        cmocka_unit_test(corners_share_the_axle),
        cmocka_unit_test(errors_leave_the_output_alone),
        cmocka_unit_test(overload_says_how_much_and_where),
        cmocka_unit_test(uneven_overload),
        cmocka_unit_test(side_slope),
    };
    return check_run("load", tests, sizeof tests / sizeof tests[0], argc, argv);
}
