/* test_flotation_laws.c - what must hold for any vehicle: seeded random rigs. */
#include "support/check.h"

#include <math.h>
#include <stdio.h>

#include <gsl/gsl_rng.h>

#include "core/flotation.h"
#include "support/pickup.h"

#define COUNT(a) (sizeof(a) / sizeof((a)[0]))

enum { SEED = 20260117, RIGS = 400 };

static double between(gsl_rng *r, double lo, double hi)
{
    return lo + (hi - lo) * gsl_rng_uniform(r);
}

static struct mobility_axle random_axle(gsl_rng *r)
{
    double load_kg = between(r, 400, 3500);
    struct mobility_axle a = axle_of(load_kg, between(r, 2e5, 5e5), between(r, 5e4, 2e5));
    a.tyres = load_kg > 2500 ? 4 : 2;
    a.section_height_m = between(r, 0.12, 0.30);
    a.outside_diameter_m = 2 * a.section_height_m + between(r, 0.33, 0.52);
    a.section_width_m = between(r, 0.16, 0.42);
    a.deflection_1[0] = between(r, 0.10, 0.17);
    a.deflection_1[1] = a.deflection_1[0] + between(r, 0.01, 0.18);
    return a;
}

/* Any pattern of two or three axles and trailer, at least one of them driven. */
static struct mobility random_rig(gsl_rng *r)
{
    struct mobility m = {.clearance_m = between(r, 0.12, 0.4), .power_w = between(r, 0, 6e4)};
    m.gearbox = gsl_rng_uniform(r) < 0.5 ? GEARBOX_AUTOMATIC : GEARBOX_MANUAL;
    m.axle[AXLE_FRONT] = random_axle(r);
    m.axle[AXLE_REAR] = random_axle(r);
    if (gsl_rng_uniform(r) < 0.3) {
        m.axle[AXLE_MIDDLE] = random_axle(r);
    }
    m.axle[AXLE_FRONT].driven = gsl_rng_uniform(r) < 0.7;
    if (gsl_rng_uniform(r) < 0.3) {
        m.axle[AXLE_TRAILER] = random_axle(r);
        m.axle[AXLE_TRAILER].trailer = true;
        m.axle[AXLE_TRAILER].driven = false;
    }
    return m;
}

static void scale_loads(struct mobility *m, double by)
{
    for (int a = 0; a < AXLE_COUNT; a++) {
        m->axle[a].load_kg *= by;
    }
}

static struct flotation any(const struct mobility *m, enum ground_kind kind, double psi)
{
    struct ground g = ground_of(kind, psi);
    struct flotation f = {0};
    assert_true(flotation_compute(m, &g, &f) >= 0);
    return f;
}

typedef void law(gsl_rng *r, const struct mobility *m, enum ground_kind kind);

static void for_many_rigs(law *holds)
{
    gsl_rng *r = gsl_rng_alloc(gsl_rng_mt19937);
    gsl_rng_set(r, SEED);
    for (int i = 0; i < RIGS; i++) {
        struct mobility m = random_rig(r);
        holds(r, &m, i % 2 ? GROUND_SAND : GROUND_FINE);
    }
    gsl_rng_free(r);
}

/* ---- the laws ---- */

static void deflection_never_costs(gsl_rng *r, const struct mobility *m, enum ground_kind kind)
{
    struct flotation f = any(m, kind, 40);
    assert_true(f.needed_target_pa.v < f.needed_road_pa.v && f.gain_1.v > 0 && f.gain_1.v < 1);
    struct mobility more = *m;
    int a = gsl_rng_uniform(r) < 0.5 ? AXLE_FRONT : AXLE_REAR;
    more.axle[a].deflection_1[1] += between(r, 0, 0.05);
    struct flotation g = any(&more, kind, 40);
    assert_true(g.needed_target_pa.v <= f.needed_target_pa.v * (1 + 1e-12));
    for (int i = 0; i < f.n_other; i++) {
        assert_true(g.other[i].needed_target_pa.v <= f.other[i].needed_target_pa.v * (1 + 1e-12));
    }
}

/* The published VCI1 drops by 0.35 % where its branches meet at MI 115. */
static void load_never_helps(gsl_rng *r, const struct mobility *m, enum ground_kind kind)
{
    struct flotation f = any(m, kind, 40);
    struct mobility more = *m;
    scale_loads(&more, between(r, 1, 1.5));
    struct flotation g = any(&more, kind, 40);
    assert_true(g.needed_road_pa.v >= f.needed_road_pa.v * (1 - 0.0036));
    assert_true(g.needed_target_pa.v >= f.needed_target_pa.v * (1 - 0.0036));
}

/* Better is higher: stick, uncertain, a few, repeatedly. */
static int rank(enum passes p)
{
    return p == PASSES_STICK ? 0 : p == PASSES_UNCERTAIN ? 1 : p == PASSES_FEW ? 2 : 3;
}

static void stronger_ground_never_reads_worse(gsl_rng *r, const struct mobility *m,
                                              enum ground_kind kind)
{
    int road = 0;
    int target = 0;
    for (double psi = between(r, 4, 6); psi < 300; psi *= 1.12) {
        struct flotation f = any(m, kind, psi);
        assert_true(f.passes != PASSES_NA && f.passes_road != PASSES_NA);
        assert_true(rank(f.passes) >= target && rank(f.passes_road) >= road);
        target = rank(f.passes);
        road = rank(f.passes_road);
        assert_false(kind == GROUND_SAND && f.passes == PASSES_REPEATED);
    }
}

/* Wheel numbers are force over load: k times the load needs k times the strength. */
static void sand_and_wheel_numbers_scale(gsl_rng *r, const struct mobility *m,
                                         enum ground_kind kind)
{
    double k = between(r, 0.5, 2);
    struct mobility scaled = *m;
    scale_loads(&scaled, k);
    struct flotation f = any(m, kind, 40);
    struct flotation g = any(&scaled, kind, 40 * k);
    const char *src = "dimensional analysis";
    for (int i = 0; i < f.n_other; i++) {
        CHECK_CLOSE(g.other[i].needed_road_pa.v, k * f.other[i].needed_road_pa.v, 0, 1e-9, src);
    }
    if (f.method != FLOTATION_VCI) {
        CHECK_CLOSE(g.needed_road_pa.v, k * f.needed_road_pa.v, 0, 1e-9, src);
        CHECK_CLOSE(g.pull_margin_1.v, f.pull_margin_1.v, 1e-9, 0, src);
        assert_int_equal(g.passes, f.passes);
    }
}

/* Unloading the mass equivalent at road pressure brings the needed strength to the target's; the
 * weight factor jumps between its bands, so the crossing is bracketed. */
static void mass_equivalent_does_what_it_says(gsl_rng *r, const struct mobility *m,
                                              enum ground_kind kind)
{
    (void)r;
    struct flotation f = any(m, kind, 40);
    double total_kg = 0;
    for (int a = 0; a < AXLE_COUNT; a++) {
        total_kg += m->axle[a].load_kg;
    }
    if (!f.mass_equivalent_kg.is) {
        struct mobility fifth = *m;
        scale_loads(&fifth, 0.2);
        assert_true(any(&fifth, kind, 40).needed_road_pa.v > f.needed_target_pa.v);
        return;
    }
    double scale = 1 - f.mass_equivalent_kg.v / total_kg;
    struct mobility under = *m;
    struct mobility over = *m;
    scale_loads(&under, scale * (1 - 1e-9));
    scale_loads(&over, scale * (1 + 1e-9));
    assert_true(any(&under, kind, 40).needed_road_pa.v <= f.needed_target_pa.v * (1 + 1e-9));
    assert_true(any(&over, kind, 40).needed_road_pa.v >= f.needed_target_pa.v * (1 - 1e-9));
}

static void method_follows_the_drive(gsl_rng *r, const struct mobility *m, enum ground_kind kind)
{
    (void)r;
    struct flotation f = any(m, kind, 40);
    bool all = m->axle[AXLE_FRONT].driven && !m->axle[AXLE_TRAILER].present;
    enum flotation_method fine = all ? FLOTATION_VCI : FLOTATION_PULL;
    assert_int_equal(f.method, kind == GROUND_SAND ? FLOTATION_SAND_NUMBER : fine);
    assert_int_equal(f.n_other, kind == GROUND_FINE ? 2 : 0);
    assert_true(f.pull_margin_1.is == (f.method != FLOTATION_VCI));
    assert_true(f.mmp_road_pa.is && f.mmp_target_pa.v < f.mmp_road_pa.v);
}

#define LAW(name)                                                                                  \
    static void law_##name(void **state)                                                           \
    {                                                                                              \
        (void)state;                                                                               \
        for_many_rigs(name);                                                                       \
    }
LAW(deflection_never_costs)
LAW(load_never_helps)
LAW(stronger_ground_never_reads_worse)
LAW(sand_and_wheel_numbers_scale)
LAW(mass_equivalent_does_what_it_says)
LAW(method_follows_the_drive)

/* Finite numbers of any size give a status and finite fields, never a surprise. */
static void extremes_stay_finite(void **state)
{
    (void)state;
    static const double x[] = {5e-324, 1e-300, 1e-9, 1e9, 1e300, 1.7e308};
    static const enum ground_kind kinds[] = {GROUND_SAND, GROUND_FINE, GROUND_SNOW, GROUND_ICE};
    for (size_t i = 0; i < COUNT(x) * COUNT(x) * COUNT(kinds); i++) {
        struct mobility m = pickup();
        struct ground g = snow_of(x[i % COUNT(x)], 0.2);
        g.kind = kinds[i / COUNT(x) / COUNT(x)];
        g.strength_pa = maybe_of(x[i % COUNT(x)]);
        m.axle[AXLE_REAR].load_kg = x[i / COUNT(x) % COUNT(x)];
        m.axle[AXLE_FRONT].patch_area_m2[1] = x[i % COUNT(x)];
        struct flotation f;
        enum status s = flotation_compute(&m, &g, &f);
        const struct maybe *const fields[] = {
            &f.needed_road_pa, &f.needed_target_pa,  &f.gain_1,    &f.mass_equivalent_kg,
            &f.pull_margin_1,  &f.traction_target_1, &f.sinkage_m, &f.mmp_road_pa};
        for (size_t k = 0; s >= 0 && k < COUNT(fields); k++) {
            assert_true(isfinite(fields[k]->v));
        }
    }
}

int main(int argc, char **argv)
{
    printf("seed %d\n", SEED);
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(law_deflection_never_costs),
        cmocka_unit_test(law_load_never_helps),
        cmocka_unit_test(law_stronger_ground_never_reads_worse),
        cmocka_unit_test(law_sand_and_wheel_numbers_scale),
        cmocka_unit_test(law_mass_equivalent_does_what_it_says),
        cmocka_unit_test(law_method_follows_the_drive),
        cmocka_unit_test(extremes_stay_finite),
    };
    return check_run("flotation laws", tests, COUNT(tests), argc, argv);
}
