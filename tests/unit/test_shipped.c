/* test_shipped.c - every shipped rig on every shipped ground: an answer, within every limit. */
#include "support/check.h"
#include "support/rigs.h"

#include <string.h>

#include "base/diag.h"
#include "core/advice_working.h"
#include "profile/profile.h"

static struct ini ini;
static struct diag_list diags;
static struct compressor_list compressors;
static struct ground_list grounds;
static struct working work;

static const char *const RIGS[] = {"flatbed-cabin", "flatbed-bare",     "light-wagon",
                                   "touring-wagon", "expedition-truck", "rock-buggy"};

static void forget(void)
{
    ini.n = ini.n_file = 0;
    diags.n = diags.dropped = 0;
}

static struct rig shipped_rig(const char *name)
{
    char path[128];
    struct text t = text_over(path, sizeof path);
    struct rig r;
    text_put(&t, "profiles/rigs/%s.ini", name);
    forget();
    CHECK_STATUS(rig_load(path, 0, NULL, &compressors, &ini, &r, &diags), STATUS_OK);
    return r;
}

static int load_all(void **state)
{
    (void)state;
    static const char *const heads[] = {"twin-12v", "single-12v", "portable-12v", "engine-driven",
                                        "shop-air"};
    compressors.n = grounds.n = 0;
    for (size_t i = 0; i < sizeof heads / sizeof heads[0]; i++) {
        char path[128];
        struct text t = text_over(path, sizeof path);
        struct compressor c;
        text_put(&t, "profiles/compressors/%s.ini", heads[i]);
        forget();
        if (compressor_load(path, &ini, &c, &diags) != STATUS_OK) {
            return -1;
        }
        compressor_list_add(&compressors, path, &c);
    }
    forget();
    return profile_read("profiles/grounds.ini", &ini, &diags) == STATUS_OK &&
                   grounds_from_ini(&ini, &grounds, &diags) == STATUS_OK
               ? 0
               : -1;
}

static void check_corner(const struct advice *a, const struct axle_advice *x,
                         const struct corner_advice *c)
{
    assert_true(c->at.deflection_1 >= c->road.deflection_1 - 1e-12);
    assert_true(c->at.deflection_1 <= 0.33 + 1e-9);
    assert_true(a->ground.road || x->bound_by == BOUND_ROAD ||
                c->at.deflection_1 <= a->ground.limit_1 + 1e-9);
    assert_true(c->area_growth_1 >= 1 - 1e-12 && c->length_growth_1 >= 1 - 1e-12);
    assert_true(c->deflection_low_1 < c->deflection_high_1);
    assert_true(c->at.capacity_kg.is && c->at.capacity_kg.v > 0);
}

static void check_axle(const struct advice *a, const struct axle_advice *x)
{
    assert_true(x->target_gauge_pa <= x->road_gauge_pa + 1e-6);
    assert_true(x->target_gauge_pa <= x->tyre.max_gauge_pa + 1e-6);
    assert_true(x->target_gauge_pa >= x->floor_gauge_pa - 1e-3 || x->bound_by == BOUND_ROAD);
    assert_true(!x->stuck_gauge_pa.is || x->stuck_gauge_pa.v < x->target_gauge_pa);
    for (int side = 0; side < SIDE_COUNT; side++) {
        check_corner(a, x, &x->corner[side]);
        struct maybe cap = x->corner[side].practice_speed_mps;
        assert_true(!cap.is || (a->cap_mps.is && a->cap_mps.v <= cap.v));
    }
}

static void every_rig_on_every_ground(void **state)
{
    (void)state;
    assert_true(grounds.n >= 13);
    for (size_t i = 0; i < sizeof RIGS / sizeof RIGS[0]; i++) {
        struct rig r = shipped_rig(RIGS[i]);
        for (int g = 0; g < grounds.n; g++) {
            struct conditions c = {.slope_1 = 0};
            struct advice a;
            print_message("%s on %s\n", RIGS[i], grounds.item[g].name);
            CHECK_STATUS(advice_compute(&r, &grounds.item[g], &c, &a), STATUS_OK);
            assert_false(caution_any_danger(&a.cautions));
            assert_true(a.cautions.n > 0 && a.cautions.n < CAUTION_LIST);
            for (int k = 0; k < AXLE_COUNT; k++) {
                if (a.axle[k].present) {
                    check_axle(&a, &a.axle[k]);
                }
            }
            work.n = 0;
            advice_working(&a, &work);
            assert_true(work.n > 50 && work.n < WORKING_ROWS);
        }
    }
}

/* The catalogue as shipped says what the model's table says: the tests' own copy of it. */
static void catalogue_is_the_models(void **state)
{
    (void)state;
    static const char *const names[] = {
        "sealed-road", "graded-gravel", "corrugated-road", "stony-track", "rock-steps",
        "damp-sand",   "dry-sand",      "dune-sand",       "greasy-clay", "wet-field",
        "bog",         "loose-snow",    "packed-snow"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        const struct ground *got = ground_find(&grounds, names[i]);
        struct ground want = rigs_ground(names[i]);
        assert_non_null(got);
        const char *src = "model C4, common practice";
        print_message("%s\n", names[i]);
        assert_int_equal(got->kind, want.kind);
        assert_int_equal(got->road, want.road);
        assert_int_equal(got->slick, want.slick);
        assert_int_equal(got->cap_mps.is, want.cap_mps.is);
        CHECK_CLOSE(maybe_or(got->cap_mps, 0), maybe_or(want.cap_mps, 0), 1e-12, 0, src);
        if (!want.road) {
            CHECK_CLOSE(got->aim_1, want.aim_1, 1e-12, 0, src);
            CHECK_CLOSE(got->aim_low_1, want.aim_low_1, 1e-12, 0, src);
            CHECK_CLOSE(got->aim_high_1, want.aim_high_1, 1e-12, 0, src);
            CHECK_CLOSE(got->limit_1, want.limit_1, 1e-12, 0, src);
        }
        CHECK_CLOSE(maybe_or(got->strength_pa, 0), maybe_or(want.strength_pa, 0), 1e-6, 0, src);
        CHECK_CLOSE(maybe_or(got->snow_density_kg_m3, 0), maybe_or(want.snow_density_kg_m3, 0),
                    1e-9, 0, src);
    }
}

/* The bands of practice on the profiles that are shipped, not on the tests' own. */
static void shipped_rigs_meet_practice(void **state)
{
    (void)state;
    static const struct {
        const char *rig, *ground;
        double front_lo, front_hi, rear_lo, rear_hi; /* psi */
    } t[] = {
        {"flatbed-cabin", "dune-sand", 16, 20, 20, 25},
        {"light-wagon", "dry-sand", 12, 16, 12, 16},
        {"touring-wagon", "corrugated-road", 28, 31, 33, 37},
        {"touring-wagon", "dune-sand", 18, 20, 22, 25},
    };
    for (size_t i = 0; i < sizeof t / sizeof t[0]; i++) {
        struct rig r = shipped_rig(t[i].rig);
        struct conditions c = {.slope_1 = 0};
        struct advice a;
        CHECK_STATUS(advice_compute(&r, ground_find(&grounds, t[i].ground), &c, &a), STATUS_OK);
        CHECK_BETWEEN(a.axle[AXLE_FRONT].target_gauge_pa / PSI, t[i].front_lo, t[i].front_hi,
                      "S1, S3, S4 [practice]");
        CHECK_BETWEEN(a.axle[AXLE_REAR].target_gauge_pa / PSI, t[i].rear_lo, t[i].rear_hi,
                      "S1, S3, S4 [practice]");
    }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(every_rig_on_every_ground, load_all),
        cmocka_unit_test_setup(catalogue_is_the_models, load_all),
        cmocka_unit_test_setup(shipped_rigs_meet_practice, load_all),
    };
    return check_run("shipped", tests, sizeof tests / sizeof tests[0], argc, argv);
}
