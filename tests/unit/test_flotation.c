/* test_flotation.c - needed strength, gain and verdicts of the reference's pickup. */
#include "support/check.h"

#include <math.h>

#include "core/constants.h"
#include "core/flotation.h"
#include "support/pickup.h"

#define COUNT(a) (sizeof(a) / sizeof((a)[0]))
#define REF      "reference pickup, own arithmetic"

/* ---- the sanity table of the reference ---- */

static void pickup_on_fine_soil(void **state)
{
    (void)state;
    static const struct check_row road = {
        "flotation: pickup", "needed psi, 12 % (vci)", 20.24, 0.005, 0, REF, "own"};
    static const struct check_row target = {
        "flotation: pickup", "needed psi, 22 % (vci)", 17.40, 0.005, 0, REF, "own"};
    static const struct check_row repeated = {
        "flotation: pickup", "VCI50 psi", 44.53, 0.005, 0, REF, "own"};
    static const struct check_row gain = {
        "flotation: pickup", "gain (vci)", 0.14, 0.005, 0, REF, "own"};
    static const struct check_row mass = {
        "flotation: pickup", "mass equivalent kg (vci)", 770, 5, 0, REF, "own"};
    static const struct check_row scale = {
        "flotation: pickup", "load scale (vci)", 0.743, 5e-4, 0, REF, "own"};
    struct mobility m = pickup();
    struct flotation f = on(&m, GROUND_FINE, 45);
    assert_int_equal(f.method, FLOTATION_VCI);
    CHECK_ROW(&road, f.needed_road_pa.v / PSI);
    CHECK_ROW(&target, f.needed_target_pa.v / PSI);
    CHECK_ROW(&repeated, f.repeated_pa.v / PSI);
    CHECK_ROW(&gain, f.gain_1.v);
    CHECK_ROW(&mass, f.mass_equivalent_kg.v);
    CHECK_ROW(&scale, 1 - f.mass_equivalent_kg.v / 3000);
    assert_int_equal(f.ruling_axle, AXLE_FRONT);
    assert_false(f.pull_margin_1.is || f.sinkage_m.is || f.deflection_clamped);
}

static void pickup_cross_checks(void **state)
{
    (void)state;
    static const struct check_row row[] = {
        {"flotation: pickup", "brixius psi, 12 %, slip 0.2", 24.67, 0.005, 0,
         "Brixius 1987, own bisection", "own"},
        {"flotation: pickup", "brixius psi, 22 %, slip 0.2", 18.80, 0.005, 0,
         "Brixius 1987, own bisection", "own"},
        {"flotation: pickup", "maclaurin psi, 12 %", 27.6, 0.05, 0, "Maclaurin, own",
         "second-hand"},
        {"flotation: pickup", "maclaurin psi, 22 %", 21.6, 0.05, 0, "Maclaurin, own",
         "second-hand"},
    };
    struct mobility m = pickup();
    struct flotation f = on(&m, GROUND_FINE, 45);
    assert_int_equal(f.n_other, 2);
    assert_int_equal(f.other[0].method, FLOTATION_BRIXIUS);
    assert_int_equal(f.other[1].method, FLOTATION_MACLAURIN);
    for (int i = 0; i < 2; i++) {
        CHECK_ROW(&row[2 * i], f.other[i].needed_road_pa.v / PSI);
        CHECK_ROW(&row[2 * i + 1], f.other[i].needed_target_pa.v / PSI);
    }
}

static void pickup_mean_maximum_pressure(void **state)
{
    (void)state;
    static const struct check_row road = {"flotation: pickup",
                                          "MMP kPa, 12 %, front axle",
                                          250.95,
                                          0.01,
                                          0,
                                          "235.27 x 1600/1500",
                                          "memory"};
    static const struct check_row target = {"flotation: pickup",
                                            "MMP kPa, 22 %, front axle",
                                            185.34,
                                            0.01,
                                            0,
                                            "173.76 x 1600/1500",
                                            "memory"};
    static const struct check_row mass = {
        "flotation: pickup", "mass equivalent kg (MMP ratio)", 784, 0.5, 0, REF, "memory"};
    struct mobility m = pickup_with_trailer(); /* which does not count */
    m.axle[AXLE_TRAILER].load_kg = 5000;
    struct flotation f = on(&m, GROUND_SAND, 45);
    CHECK_ROW(&road, f.mmp_road_pa.v / 1000);
    CHECK_ROW(&target, f.mmp_target_pa.v / 1000);
    CHECK_ROW(&mass, 3000 * (1 - f.mmp_target_pa.v / f.mmp_road_pa.v));
}

static void pickup_on_sand(void **state)
{
    (void)state;
    static const struct check_row road = {
        "flotation: pickup", "needed psi, 12 % (sand)", 37.7, 0.05, 0, REF, "memory"};
    static const struct check_row target = {
        "flotation: pickup", "needed psi, 22 % (sand)", 20.6, 0.05, 0, REF, "memory"};
    static const struct check_row gain = {
        "flotation: pickup", "gain (sand)", 0.45, 0.005, 0, REF, "memory"};
    struct mobility m = pickup();
    struct flotation f = on(&m, GROUND_SAND, 50);
    assert_int_equal(f.method, FLOTATION_SAND_NUMBER);
    CHECK_ROW(&road, f.needed_road_pa.v / PSI);
    CHECK_ROW(&target, f.needed_target_pa.v / PSI);
    CHECK_ROW(&gain, f.gain_1.v);
    CHECK_CLOSE(f.mass_equivalent_kg.v, 3000 * (1 - 12.0 / 22.0), 1e-9, 0,
                "Ns goes with deflection / load: closed form");
    assert_int_equal(f.n_other, 0);
    assert_false(f.repeated_pa.is);
}

/* The needed CI goes with load over deflection (model D2), so five times the deflection is worth
 * four fifths of the load; beyond that the model's bisection on 0.2..1 reaches nothing (D4). */
static void no_mass_equivalent_below_a_fifth_of_the_load(void **state)
{
    (void)state;
    struct mobility m = pickup();
    for (int a = 0; a < AXLE_COUNT; a++) {
        m.axle[a].deflection_1[0] = 0.06;
        m.axle[a].deflection_1[1] = 0.298;
    }
    struct flotation f = on(&m, GROUND_SAND, 50);
    CHECK_CLOSE(f.mass_equivalent_kg.v, 3000 * (1 - 0.06 / 0.298), 1e-6, 0, "2395.97 kg of 3000");
    for (int a = 0; a < AXLE_COUNT; a++) {
        m.axle[a].deflection_1[1] = 0.302;
    }
    f = on(&m, GROUND_SAND, 50);
    CHECK_CLOSE(f.gain_1.v, 1 - 0.06 / 0.302, 1e-9, 0, "0.801325: more than 0.8");
    assert_false(f.mass_equivalent_kg.is);
}

/* Both axles at 1600 kg pull what the table says of the front wheel. */
static void sand_margin_of_equal_axles(void **state)
{
    (void)state;
    struct mobility m = pickup();
    m.axle[AXLE_REAR] = m.axle[AXLE_FRONT];
    struct flotation f = on(&m, GROUND_SAND, 50);
    CHECK_CLOSE(f.pull_margin_road_1.v, 0.175 - 0.05, 5e-4, 0, "P20/W 0.175, reference 2.1");
    CHECK_CLOSE(f.pull_margin_1.v, 0.307 - 0.05, 5e-4, 0, "P20/W 0.307, reference 2.1");
    m.slope_1 = 0.75;
    f = on(&m, GROUND_SAND, 50);
    CHECK_CLOSE(f.pull_margin_1.v, 0.307 - 0.6 - 0.05, 5e-4, 0, "3-4-5 slope: sine 0.6");
    m.slope_1 = -0.75;
    f = on(&m, GROUND_SAND, 50);
    CHECK_CLOSE(f.pull_margin_1.v, 0.307 - 0.05, 5e-4, 0, "downhill counts as level");
}

static void pickup_on_snow(void **state)
{
    (void)state;
    static const struct check_row road = {
        "flotation: pickup", "fresh snow T/W, 35 psi", 0.322, 5e-4, 0, REF, "memory"};
    static const struct check_row target = {
        "flotation: pickup", "fresh snow T/W, 15 psi", 0.374, 5e-4, 0, REF, "memory"};
    static const struct check_row z = {
        "flotation: pickup", "fresh snow sinkage m, 15 psi", 0.120, 5e-4, 0, REF, "read"};
    struct mobility m = pickup();
    struct ground g = snow_of(200, 0.20);
    struct flotation f = must(&m, &g, STATUS_OK);
    assert_int_equal(f.method, FLOTATION_SHALLOW_SNOW);
    CHECK_ROW(&road, f.traction_road_1.v);
    CHECK_ROW(&target, f.traction_target_1.v);
    CHECK_ROW(&z, f.sinkage_m.v);
    assert_int_equal(f.passes, PASSES_UNCERTAIN);
    assert_false(f.needed_road_pa.is || f.needed_target_pa.is || f.gain_1.is);
    assert_false(f.mass_equivalent_kg.is || f.strength_pa.is);
}

/* ---- verdicts ---- */

/* Limits of the pickup at target: vci 17.40, brixius 18.80, maclaurin 21.63, VCI50 44.53 psi. */
static void fine_verdict_asks_three_methods(void **state)
{
    (void)state;
    static const struct {
        double psi;
        enum passes road, target;
    } t[] = {
        {17.3, PASSES_STICK, PASSES_STICK},       {17.5, PASSES_STICK, PASSES_UNCERTAIN},
        {20.0, PASSES_STICK, PASSES_UNCERTAIN},   {20.3, PASSES_UNCERTAIN, PASSES_UNCERTAIN},
        {21.7, PASSES_UNCERTAIN, PASSES_FEW},     {25.0, PASSES_UNCERTAIN, PASSES_FEW},
        {27.7, PASSES_FEW, PASSES_FEW},           {44.5, PASSES_FEW, PASSES_FEW},
        {44.6, PASSES_REPEATED, PASSES_REPEATED},
    };
    struct mobility m = pickup();
    for (size_t i = 0; i < COUNT(t); i++) {
        struct ground g = ground_of(GROUND_FINE, t[i].psi);
        struct flotation f = must(&m, &g, STATUS_OK);
        assert_int_equal(f.passes_road, t[i].road);
        assert_int_equal(f.passes, t[i].target);
        g.slick = true;
        f = must(&m, &g, STATUS_OK);
        assert_true(f.slick);
        assert_int_equal(f.passes, t[i].target == PASSES_STICK ? PASSES_STICK : PASSES_UNCERTAIN);
        assert_int_equal(f.passes_road,
                         t[i].road == PASSES_STICK ? PASSES_STICK : PASSES_UNCERTAIN);
    }
}

/* Needed at target 20.56 psi, +-30 %: 15.82 and 26.73. */
static void sand_verdict_has_a_band(void **state)
{
    (void)state;
    static const struct {
        double psi;
        enum passes target;
    } t[] = {
        {15.7, PASSES_STICK}, {15.9, PASSES_UNCERTAIN}, {26.6, PASSES_UNCERTAIN},
        {26.8, PASSES_FEW},   {300, PASSES_FEW},
    };
    struct mobility m = pickup();
    for (size_t i = 0; i < COUNT(t); i++) {
        assert_int_equal(on(&m, GROUND_SAND, t[i].psi).passes, t[i].target);
    }
    m.slope_1 = 0.25; /* sines 0.243, 0.287, 0.371 against a pull of about 0.32 less 0.05 */
    assert_int_equal(on(&m, GROUND_SAND, 50).passes, PASSES_FEW);
    m.slope_1 = 0.30;
    assert_int_equal(on(&m, GROUND_SAND, 50).passes, PASSES_UNCERTAIN);
    m.slope_1 = 0.40;
    assert_int_equal(on(&m, GROUND_SAND, 50).passes, PASSES_STICK);
}

static void snow_verdict_by_clearance(void **state)
{
    (void)state;
    struct mobility m = pickup();
    struct ground g = snow_of(200, 0.37); /* sinks 0.222 m at 15 psi, 0.235 m at 35 psi */
    struct flotation f = must(&m, &g, STATUS_OK);
    CHECK_CLOSE(f.sinkage_m.v, 0.37 * 0.6, 1e-12, 0, "1 - 200/500, CRREL 95-7");
    assert_int_equal(f.passes, PASSES_UNCERTAIN); /* 0.9 x 0.254 = 0.2286 */
    assert_int_equal(f.passes_road, PASSES_STICK);
    g.snow_depth_m = maybe_of(0.39);
    assert_int_equal(must(&m, &g, STATUS_OK).passes, PASSES_STICK);
}

static void packed_snow_and_ice_lines(void **state)
{
    (void)state;
    struct mobility m = pickup();
    struct ground g = snow_of(400, 0.10);
    struct flotation f = must(&m, &g, STATUS_OK);
    CHECK_CLOSE(f.traction_target_1.v, 0.279, 5e-4, 0, "packed line, reference 2.2");
    g.snow_density_kg_m3 = maybe_of(399.9);
    f = must(&m, &g, STATUS_OK);
    CHECK_CLOSE(f.traction_target_1.v, 0.374, 5e-4, 0, "fresh line, reference 2.2");
    g.kind = GROUND_ICE;
    f = must(&m, &g, STATUS_OK);
    assert_int_equal(f.method, FLOTATION_NONE);
    assert_int_equal(f.passes, PASSES_UNCERTAIN);
    CHECK_CLOSE(f.traction_road_1.v, 0.177, 5e-4, 0, "ice line, reference 2.2");
    CHECK_CLOSE(f.traction_target_1.v, 0.168, 5e-4, 0, "airing down takes traction on ice");
    assert_false(f.needed_road_pa.is || f.gain_1.is || f.mass_equivalent_kg.is || f.sinkage_m.is);
    CHECK_CLOSE(f.mmp_target_pa.v / f.mmp_road_pa.v, sqrt(0.12 / 0.22), 1e-12, 0,
                "Rowland's form: as the root of the deflections");
}

/* Leading tyres: arc R acos(1 - z/R), R = 0.4445 - 0.0503 m, z = 0.12 m, on 200 kg/m3. */
static void snow_margin_by_hand(void **state)
{
    (void)state;
    struct mobility m = pickup();
    struct ground g = snow_of(200, 0.20);
    double radius_m = 0.4445 - 0.22 * 0.2286;
    double arc_m = radius_m * acos(1 - 0.12 / radius_m);
    double held_n = 2 * 68.083 * pow(200 * 0.3175 * arc_m, 0.9135);
    double pull = 0.851 * pow(15 * PSI / 1000, -0.177);
    CHECK_CLOSE(must(&m, &g, STATUS_OK).pull_margin_1.v,
                pull - held_n / (3000 * GRAVITY_M_S2) - 0.05, 1e-12, 0, "by hand");
    g.kind = GROUND_ICE;
    m.axle[AXLE_FRONT].driven = false;
    m.slope_1 = 0.75; /* the contact pressure falls with cos 0.8 */
    double on_ice = 0.127 * pow(0.8 * 15 * PSI / 1000, 1.06) / (15 * PSI / 1000);
    CHECK_CLOSE(must(&m, &g, STATUS_OK).pull_margin_1.v, on_ice * 1400 / 3000 - 0.6 - 0.05, 1e-12,
                0, "by hand");
}

static void firm_ground_does_not_apply(void **state)
{
    (void)state;
    struct mobility m = pickup();
    struct ground g = {.kind = GROUND_FIRM};
    struct flotation f = must(&m, &g, STATUS_OK);
    assert_int_equal(f.method, FLOTATION_NONE);
    assert_int_equal(f.passes, PASSES_NA);
    assert_int_equal(f.passes_road, PASSES_NA);
    assert_false(f.needed_road_pa.is || f.needed_target_pa.is || f.gain_1.is);
    assert_false(f.mass_equivalent_kg.is || f.pull_margin_1.is);
    assert_true(f.mmp_road_pa.is && f.mmp_target_pa.is);
    assert_false(f.traction_target_1.is || f.strength_pa.is);
}

static void names(void **state)
{
    (void)state;
    CHECK_TEXT(flotation_method_name(FLOTATION_NONE), "none");
    CHECK_TEXT(flotation_method_name(FLOTATION_VCI), "vci");
    CHECK_TEXT(flotation_method_name(FLOTATION_SAND_NUMBER), "sand-number");
    CHECK_TEXT(flotation_method_name(FLOTATION_PULL), "pull-minus-resistance");
    CHECK_TEXT(flotation_method_name(FLOTATION_SHALLOW_SNOW), "shallow-snow");
    CHECK_TEXT(flotation_method_name(FLOTATION_BRIXIUS), "brixius");
    CHECK_TEXT(flotation_method_name(FLOTATION_MACLAURIN), "maclaurin");
    CHECK_TEXT(passes_name(PASSES_NA), "not applicable");
    CHECK_TEXT(passes_name(PASSES_REPEATED), "repeatedly");
    CHECK_TEXT(passes_name(PASSES_FEW), "a few");
    CHECK_TEXT(passes_name(PASSES_UNCERTAIN), "uncertain");
    CHECK_TEXT(passes_name(PASSES_STICK), "likely to stick");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pickup_on_fine_soil),
        cmocka_unit_test(pickup_cross_checks),
        cmocka_unit_test(pickup_mean_maximum_pressure),
        cmocka_unit_test(pickup_on_sand),
        cmocka_unit_test(no_mass_equivalent_below_a_fifth_of_the_load),
        cmocka_unit_test(sand_margin_of_equal_axles),
        cmocka_unit_test(pickup_on_snow),
        cmocka_unit_test(fine_verdict_asks_three_methods),
        cmocka_unit_test(sand_verdict_has_a_band),
        cmocka_unit_test(snow_verdict_by_clearance),
        cmocka_unit_test(packed_snow_and_ice_lines),
        cmocka_unit_test(snow_margin_by_hand),
        cmocka_unit_test(firm_ground_does_not_apply),
        cmocka_unit_test(names),
    };
    return check_run("flotation", tests, COUNT(tests), argc, argv);
}
