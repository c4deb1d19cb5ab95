/* test_tyre_properties.c - what must hold of any tyre: monotone, invertible, continuous, bounded,
 * scaling. Random tyres from a fixed seed that is printed when one fails. */
#include "support/check.h"

#include <math.h>
#include <stdio.h>

#include <gsl/gsl_rng.h>

#include "core/constants.h"
#include "support/tyres.h"

enum { SEED = 20251, TYRES = 400 };

#define ANY "holds for any tyre"

struct sample {
    struct tyre t;
    char size[32];
    double load_n, p_pa;
};

static double between(gsl_rng *r, double lo, double hi)
{
    return lo + (hi - lo) * gsl_rng_uniform(r);
}

static void random_size(gsl_rng *r, char *size, size_t cap)
{
    int width = 5 * (int)between(r, 37, 64), ratio = 5 * (int)between(r, 8, 17);
    int rim = 14 + (int)gsl_rng_uniform_int(r, 7);
    switch (gsl_rng_uniform_int(r, 5)) {
    case 0:
        snprintf(size, cap, "P%d/%dR%d", width, ratio, rim);
        break;
    case 1:
        snprintf(size, cap, "LT%d/%dR%d", width, ratio, rim);
        break;
    case 2:
        snprintf(size, cap, "%dx%.2fR%dLT", 29 + (int)gsl_rng_uniform_int(r, 10),
                 between(r, 10.5, 14.5), 15 + (int)gsl_rng_uniform_int(r, 3));
        break;
    case 3:
        snprintf(size, cap, "%d/%dR%dC", width, ratio, rim);
        break;
    default:
        snprintf(size, cap, "%d/80R22.5", width);
        break;
    }
}

static struct sample random_sample(gsl_rng *r)
{
    struct sample s;
    random_size(r, s.size, sizeof s.size);
    double max_kg = between(r, 500, 2200);
    s.t = tyres_made(s.size, max_kg, between(r, 240, 850));
    s.load_n = GRAVITY_M_S2 * between(r, 0.05, 1.0) * max_kg;
    s.p_pa = between(r, 30e3, 700e3);
    return s;
}

/* Runs check on TYRES random samples and names the one that fails. */
static void for_any_tyre(void (*check)(const struct sample *s))
{
    gsl_rng *r = gsl_rng_alloc(gsl_rng_mt19937);
    gsl_rng_set(r, SEED);
    for (int i = 0; i < TYRES; i++) {
        struct sample s = random_sample(r);
        print_message("seed %d #%d: %s %.1f N %.0f Pa\n", SEED, i, s.size, s.load_n, s.p_pa);
        check(&s);
    }
    gsl_rng_free(r);
}

static double deflection(const struct sample *s, double load_share_1, double p_share_1)
{
    double d_m = 0.0;
    CHECK_STATUS(tyre_deflection(&s->t, load_share_1 * s->load_n, p_share_1 * s->p_pa, &d_m),
                 STATUS_OK);
    return d_m;
}

static void check_monotone(const struct sample *s)
{
    assert_true(deflection(s, 1.01, 1.0) > deflection(s, 1.0, 1.0));
    assert_true(deflection(s, 1.0, 1.01) < deflection(s, 1.0, 1.0));
    CHECK_CLOSE(deflection(s, 0.0, 1.0), 0.0, 0, 0, "no load, no deflection");
    double c1 = tyres_capacity_kg(&s->t, s->p_pa / 1e3);
    double c2 = tyres_capacity_kg(&s->t, 1.01 * s->p_pa / 1e3);
    assert_true(c2 > c1 || c1 >= s->t.max_load_kg);
    assert_true(c2 <= s->t.max_load_kg);
}

static void deflection_and_capacity_are_monotone(void **state)
{
    (void)state;
    for_any_tyre(check_monotone);
}

static void check_inverses(const struct sample *s)
{
    double p_pa = 0.0, kg = s->load_n / GRAVITY_M_S2;
    CHECK_STATUS(tyre_pressure_for_deflection(&s->t, s->load_n, deflection(s, 1.0, 1.0), &p_pa),
                 STATUS_OK);
    CHECK_CLOSE(p_pa, s->p_pa, 1e-3, 1e-10, "pressure to deflection and back");
    assert_true(tyre_pressure_for_load(&s->t, kg, &p_pa) >= 0);
    assert_true(p_pa <= s->t.max_gauge_pa * (1.0 + 1e-12));
    CHECK_CLOSE(tyres_capacity_kg(&s->t, p_pa / 1e3), kg, 0, 1e-12, "load to pressure and back");
    assert_true(tyre_pressure_for_load(&s->t, s->t.max_load_kg, &p_pa) >= 0);
    CHECK_CLOSE(p_pa, s->t.max_gauge_pa, 0, 1e-12, "the moulded maximum belongs together");
}

static void inverses_round_trip(void **state)
{
    (void)state;
    for_any_tyre(check_inverses);
}

/* The quadratic, put back into F = K d (1 + c d/SH); at 20 % of the height Ks is the secant. */
static void check_law(const struct sample *s)
{
    double d_m = deflection(s, 1.0, 1.0), k_n_m = 0.0, sh = s->t.section_height_m;
    CHECK_STATUS(tyre_stiffness(&s->t, s->p_pa, &k_n_m), STATUS_OK);
    CHECK_CLOSE(k_n_m / 1.12 * d_m * (1.0 + 0.6 * d_m / sh), s->load_n, 0, 1e-12,
                "progressive law");
    double at20_m = 0.0;
    if (tyre_deflection(&s->t, k_n_m * 0.2 * sh, s->p_pa, &at20_m) == STATUS_OK) {
        CHECK_CLOSE(at20_m, 0.2 * sh, 0, 1e-12, "Ks is the secant at 20 % of section height");
    }
    CHECK_CLOSE(deflection(s, 1e-9, 1.0), 1.12e-9 * s->load_n / k_n_m, 0, 1e-8,
                "a vanishing load deflects in proportion");
}

static void deflection_obeys_its_law(void **state)
{
    (void)state;
    for_any_tyre(check_law);
}

static void check_patch(const struct sample *s)
{
    struct tyre_patch p, more;
    double d_m = fmin(deflection(s, 1.0, 1.0), 0.4 * s->t.section_height_m);
    CHECK_STATUS(tyre_patch_at(&s->t, s->load_n, d_m, &p), STATUS_OK);
    CHECK_STATUS(tyre_patch_at(&s->t, s->load_n, 1.01 * d_m, &more), STATUS_OK);
    CHECK_CLOSE(p.length_m * p.width_m * 0.86, p.area_m2, 0, 1e-12, "area of its shape");
    CHECK_CLOSE(p.mean_pa * p.area_m2, s->load_n, 0, 1e-12, "the ground carries the load");
    CHECK_CLOSE(more.area_m2 / p.area_m2, 1.01, 1e-12, 0, "area is proportional to deflection");
    assert_true(p.width_m <= s->t.tread_width_m * (1.0 + 1e-12));
    assert_true(p.length_m >= p.length_alone_m);
    assert_true(more.length_m > p.length_m && more.width_m >= p.width_m * (1.0 - 1e-12));
}

static void patch_grows_with_deflection(void **state)
{
    (void)state;
    for_any_tyre(check_patch);
}

/* Near the rule R0 - d/3 at the reference deflection, and nearly at rest once the belt is flat. */
static void check_radius(const struct sample *s)
{
    double r0 = 1e3 * s->t.r0_m, d0 = 1e3 * s->t.d0_m, last = r0;
    for (double d = 0.1 * d0; d < fmin(3.0 * d0, r0); d *= 1.1) {
        double re = tyres_rolling_radius_mm(&s->t, d);
        assert_true(re < last);
        last = re;
    }
    double lost = r0 - tyres_rolling_radius_mm(&s->t, d0);
    CHECK_BETWEEN(lost / d0, 0.9 / 3.0, 1.0 / 3.0, "R0 - d/3, as coded in a vehicle library");
    double more = r0 - tyres_rolling_radius_mm(&s->t, fmin(2.0 * d0, r0));
    CHECK_BETWEEN(more / lost, 1.0, 1.1, "a belted radial keeps its belt length");
}

static void rolling_radius_falls_a_little(void **state)
{
    (void)state;
    for_any_tyre(check_radius);
}

/* A passenger tyre's capacity has no step at 180 kPa, and none at the moulded pressure. */
static void passenger_capacity_is_continuous(void **state)
{
    (void)state;
    static const double max_kpa[] = {170, 180, 240, 250, 290, 340};
    for (size_t i = 0; i < sizeof max_kpa / sizeof max_kpa[0]; i++) {
        struct tyre t = tyres_made("P265/70R17", 1150, max_kpa[i]);
        const double at_kpa[] = {180.0, max_kpa[i]};
        for (size_t k = 0; k < 2; k++) {
            double below = tyres_capacity_kg(&t, at_kpa[k] * (1.0 - 1e-12));
            double above = tyres_capacity_kg(&t, at_kpa[k] * (1.0 + 1e-12));
            CHECK_CLOSE(below, above, 0, 1e-11, ANY);
        }
        CHECK_BETWEEN(tyres_capacity_kg(&t, 1.0) / 1150.0, 0.0, 0.02, "no air, no load");
    }
}

/* A tyre twice as large in every direction: Rhyne's G doubles, so does the area's scale; the
 * volume is eightfold, the patch at twice the deflection fourfold. */
static void a_tyre_twice_as_large(void **state)
{
    (void)state;
    struct tyre_spec small = tyres_spec("205/60R15", 0, 0), large = small;
    small.tread_width_m = 0.160;
    large.tread_width_m = 0.320;
    large.size.section_width_m *= 2;
    large.size.section_height_m *= 2;
    large.size.rim_diameter_m *= 2;
    large.size.outside_diameter_m *= 2;
    struct tyre a, b;
    struct tyre_patch pa, pb;
    double va = 0.0, vb = 0.0;
    CHECK_STATUS(tyre_init(&small, &a), STATUS_OK);
    CHECK_STATUS(tyre_init(&large, &b), STATUS_OK);
    CHECK_CLOSE(b.k1_n_m_pa, 2.0 * a.k1_n_m_pa, 0, 1e-12, "slope scales with length");
    CHECK_CLOSE(b.k0_n_m, a.k0_n_m, 0, 1e-12, "the intercept is a constant of the fit");
    CHECK_STATUS(tyre_air_volume(&a, &va), STATUS_OK);
    CHECK_STATUS(tyre_air_volume(&b, &vb), STATUS_OK);
    CHECK_CLOSE(vb, 8.0 * va, 0, 1e-12, "volume scales with its cube");
    CHECK_STATUS(tyre_patch_at(&a, 4000, 0.02, &pa), STATUS_OK);
    CHECK_STATUS(tyre_patch_at(&b, 16000, 0.04, &pb), STATUS_OK);
    CHECK_CLOSE(pb.area_m2, 4.0 * pa.area_m2, 0, 1e-12, "area scales with its square");
    CHECK_CLOSE(pb.length_m, 2.0 * pa.length_m, 0, 1e-12, "the same shape");
    CHECK_CLOSE(pb.mean_pa, pa.mean_pa, 0, 1e-12, "the same pressure");
}

/* Equal shares of load and stiffness give equal deflection: only their ratio counts. */
static void check_ratio(const struct sample *s)
{
    struct tyre stiff = s->t;
    double d_m = 0.0;
    stiff.k0_n_m *= 1.5;
    stiff.k1_n_m_pa *= 1.5;
    CHECK_STATUS(tyre_deflection(&stiff, 1.5 * s->load_n, s->p_pa, &d_m), STATUS_OK);
    CHECK_CLOSE(d_m, deflection(s, 1.0, 1.0), 0, 1e-12, "half stiffer, half heavier");
}

static void only_the_ratio_of_load_and_stiffness_counts(void **state)
{
    (void)state;
    for_any_tyre(check_ratio);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(deflection_and_capacity_are_monotone),
        cmocka_unit_test(inverses_round_trip),
        cmocka_unit_test(deflection_obeys_its_law),
        cmocka_unit_test(patch_grows_with_deflection),
        cmocka_unit_test(rolling_radius_falls_a_little),
        cmocka_unit_test(passenger_capacity_is_continuous),
        cmocka_unit_test(a_tyre_twice_as_large),
        cmocka_unit_test(only_the_ratio_of_load_and_stiffness_counts),
    };
    return check_run("tyre properties", tests, sizeof tests / sizeof tests[0], argc, argv);
}
