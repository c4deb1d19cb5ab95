/* test_quick.c - the rig of three answers and what it says it assumed. */
#include "support/check.h"
#include "support/rigs.h"

#include <math.h>
#include <string.h>

#include "core/quick.h"
#include "profile/profile.h"

static struct quick_form form(const char *tyre)
{
    return (struct quick_form){.tyre = tyre, .front_load_kg = 1950, .rear_load_kg = 2350};
}

static struct rig rig_of(const struct quick_form *in, struct caution_list *assumed)
{
    struct rig r;
    *assumed = (struct caution_list){.n = 0};
    CHECK_STATUS(quick_rig(in, &r, assumed), STATUS_OK);
    return r;
}

static bool says(const struct caution_list *list, const char *words)
{
    char buf[300];
    for (int i = 0; i < list->n; i++) {
        struct text t = text_over(buf, sizeof buf);
        caution_put(&list->item[i], UNITS_PSI, &t);
        if (strstr(buf, words)) {
            return true;
        }
    }
    return false;
}

static void ratings_come_from_the_text(void **state)
{
    (void)state;
    static const struct {
        const char *tyre;
        double max_kg, max_pa; /* 0 = unknown */
        char range;
    } t[] = {
        {"35x12.50R17LT 121 E", 1450, 450e3, 'E'}, /* wide: 65 psi */
        {"LT265/70R17 121/118S", 1450, 550e3, 'E'}, {"LT265/70R17 112 C", 1120, 350e3, 'C'},
        {"35x12.50R17LT", 0, 450e3, 'E'},           {"265/70R17 115T", 1215, 240e3, 0},
        {"265/70R17 116T XL", 1250, 290e3, 0},      {"7.50R16", 0, 0, 0},
    };
    for (size_t i = 0; i < sizeof t / sizeof t[0]; i++) {
        struct caution_list assumed;
        struct quick_form in = form(t[i].tyre);
        in.front_load_kg = in.rear_load_kg = 1200;
        struct rig r = rig_of(&in, &assumed);
        const struct tyre_spec *spec = &r.axle[AXLE_REAR].tyre;
        CHECK_CLOSE(spec->max_load_kg, t[i].max_kg, 0, 0, "load index table, UN R54 Annex 4");
        CHECK_CLOSE(spec->max_gauge_pa, t[i].max_pa, 1e-6, 0, "TRA usual pressures");
        assert_int_equal(spec->load_range, t[i].range);
    }
}

static void road_pressure_is_estimated(void **state)
{
    (void)state;
    static const struct {
        const char *tyre;
        double load_kg, road_pa;
    } t[] = {
        /* 450 kPa (975/1450)^(1/0.7) = 255.3 kPa = 37.02 psi; + 10 % = 40.7 */
        {"35x12.50R17LT 121 E", 1950, 41 * PSI},
        {"35x12.50R17LT 121 E", 900, 26 * PSI}, /* at least */
        {"35x12.50R17LT 121 E", 2890, 450e3},   /* never above the maximum */
        {"35x12.50R17LT 121 E", 3100, 450e3},   /* overloaded: refused by the advice */
        {"35x12.50R17LT", 1950, 35 * PSI},      /* capacity unknown */
    };
    for (size_t i = 0; i < sizeof t / sizeof t[0]; i++) {
        struct caution_list assumed;
        struct quick_form in = form(t[i].tyre);
        in.front_load_kg = t[i].load_kg;
        struct rig r = rig_of(&in, &assumed);
        CHECK_CLOSE(r.axle[AXLE_FRONT].road_gauge_pa, t[i].road_pa, 1e-6, 0,
                    "A3 and 10 %, own arithmetic");
        assert_true(r.axle[AXLE_FRONT].road_estimated);
        assert_true(says(&assumed, "estimated: your placard rules"));
    }
}

static void given_pressures_stand(void **state)
{
    (void)state;
    struct caution_list assumed;
    struct quick_form in = form("35x12.50R17LT 121 E");
    in.front_road_gauge_pa = maybe_of(38 * PSI);
    in.rear_road_gauge_pa = maybe_of(48 * PSI);
    struct rig r = rig_of(&in, &assumed);
    CHECK_CLOSE(r.axle[AXLE_REAR].road_gauge_pa, 48 * PSI, 0, 0, "as given");
    assert_false(r.axle[AXLE_REAR].road_estimated);
    assert_false(says(&assumed, "estimated"));
    assert_true(says(&assumed, "1450 kg, from load index 121"));
    assert_true(says(&assumed, "no trailer"));
}

static void two_sizes_are_both_explained(void **state)
{
    (void)state;
    struct caution_list one, two;
    struct quick_form in = form("35x12.50R17LT 121 E");
    (void)rig_of(&in, &one);
    in.rear_tyre = "LT285/70R17 121/118S";
    struct rig r = rig_of(&in, &two);
    assert_true(two.n > one.n);
    CHECK_TEXT(r.axle[AXLE_REAR].tyre.size.text, "LT285/70R17");
    CHECK_TEXT(r.name, "35x12.50R17LT and LT285/70R17");
}

/* The same air as a profile that says nothing of it. */
static void air_is_the_profiles_default(void **state)
{
    (void)state;
    struct caution_list assumed;
    struct rig want;
    struct quick_form in = form("35x12.50R17LT 121 E");
    struct air_system got = rig_of(&in, &assumed).air;
    rig_defaults(&want);
    const char *src = "the schema's defaults";
    CHECK_CLOSE(got.compressor.swept_m3_s, want.air.compressor.swept_m3_s, 1e-12, 0, src);
    CHECK_CLOSE(got.compressor.clearance_1, want.air.compressor.clearance_1, 1e-12, 0, src);
    CHECK_CLOSE(got.compressor.exponent_1, want.air.compressor.exponent_1, 1e-12, 0, src);
    CHECK_CLOSE(got.compressor.sag_1, want.air.compressor.sag_1, 1e-12, 0, src);
    CHECK_CLOSE(got.compressor.run_time_s, want.air.compressor.run_time_s, 1e-9, 0, src);
    CHECK_CLOSE(got.compressor.rest_time_s, want.air.compressor.rest_time_s, 1e-9, 0, src);
    CHECK_CLOSE(got.compressor.cut_out_gauge_pa, want.air.compressor.cut_out_gauge_pa, 1e-9, 0,
                src);
    CHECK_CLOSE(got.main_length_m, want.air.main_length_m, 1e-12, 0, src);
    CHECK_CLOSE(got.branch_length_m, want.air.branch_length_m, 1e-12, 0, src);
    CHECK_CLOSE(got.tail_length_m, want.air.tail_length_m, 1e-12, 0, src);
    CHECK_CLOSE(got.hose_bore_m, want.air.hose_bore_m, 1e-12, 0, src);
    CHECK_CLOSE(got.move_time_s, want.air.move_time_s, 1e-12, 0, src);
    CHECK_CLOSE(got.regulator_area_m2, want.air.regulator_area_m2, 1e-15, 0, src);
    CHECK_CLOSE(got.gauge_step_pa, want.air.gauge_step_pa, 1e-9, 0, src);
    assert_int_equal(got.hookup, want.air.hookup);
    assert_int_equal(got.valve, want.air.valve);
    assert_int_equal(got.source, want.air.source);
    CHECK_TEXT(got.compressor.name, want.air.compressor.name);
}

static void wrong_answers_leave_everything_alone(void **state)
{
    (void)state;
    struct rig r = {.n_mass = 7};
    struct caution_list assumed = {.n = 0};
    struct quick_form in = form("35 by 12");
    CHECK_STATUS(quick_rig(&in, &r, &assumed), STATUS_E_SYNTAX);
    in = form("35x12.50R17LT 121 E");
    in.rear_load_kg = 0;
    CHECK_STATUS(quick_rig(&in, &r, &assumed), STATUS_E_DOMAIN);
    in.rear_load_kg = (double)NAN;
    CHECK_STATUS(quick_rig(&in, &r, &assumed), STATUS_E_DOMAIN);
    in = form("35x12.50R17LT 121 E");
    in.front_road_gauge_pa = maybe_of(-5);
    CHECK_STATUS(quick_rig(&in, &r, &assumed), STATUS_E_DOMAIN);
    assert_int_equal(r.n_mass, 7);
    assert_int_equal(assumed.n, 0);
}

static void it_can_be_advised(void **state)
{
    (void)state;
    struct caution_list assumed;
    struct quick_form in = form("35x12.50R17LT");
    struct rig r = rig_of(&in, &assumed);
    struct advice a = rigs_advise(&r, "dune-sand");
    assert_false(a.axle[AXLE_FRONT].corner[SIDE_LEFT].at.capacity_kg.is);
    assert_true(caution_raised(&a.cautions, CAUTION_CAPACITY_UNKNOWN));
    CHECK_BETWEEN(a.axle[AXLE_FRONT].target_gauge_pa / PSI, 16, 20, "S1 [practice]");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(ratings_come_from_the_text),
        cmocka_unit_test(road_pressure_is_estimated),
        cmocka_unit_test(given_pressures_stand),
        cmocka_unit_test(two_sizes_are_both_explained),
        cmocka_unit_test(air_is_the_profiles_default),
        cmocka_unit_test(wrong_answers_leave_everything_alone),
        cmocka_unit_test(it_can_be_advised),
    };
    return check_run("quick", tests, sizeof tests / sizeof tests[0], argc, argv);
}
