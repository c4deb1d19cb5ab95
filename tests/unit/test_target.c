/* test_target.c - aim, floors, ceilings, rounding, stuck step of one axle. */
#include "support/check.h"
#include "support/rigs.h"

#include <math.h>
#include <string.h>

#include "core/target.h"

#define OWN "model A4, A5, C1, own arithmetic"

struct setup {
    struct tyre tyre;
    struct ground ground;
    struct target_question q;
};

static void set_up(struct setup *s, const char *size, double max_kg, double max_pa, double load_kg,
                   double road_pa, const char *ground)
{
    struct tyre_spec spec = {.max_load_kg = max_kg, .max_gauge_pa = max_pa};
    assert_true(designation_parse(size, &spec.size) >= 0);
    assert_true(tyre_init(&spec, &s->tyre) >= 0);
    s->ground = rigs_ground(ground);
    s->q = (struct target_question){.tyre = &s->tyre,
                                    .ground = &s->ground,
                                    .rim_fits = true,
                                    .load_kg = load_kg,
                                    .road_gauge_pa = road_pa,
                                    .step_pa = PSI};
}

static void set_up_35(struct setup *s, double load_kg, double road_psi, const char *ground)
{
    set_up(s, "35x12.50R17LT", 1450, 65 * PSI, load_kg, road_psi * PSI, ground);
}

static struct target target_of(const struct setup *s)
{
    struct target t;
    CHECK_STATUS(target_compute(&s->q, &t), STATUS_OK);
    return t;
}

/* The model's equations worked by hand for the pickup with its cabin. */
static void aim_and_limit_by_hand(void **state)
{
    (void)state;
    static const struct {
        double load_kg, road_psi, aim_psi, limit_psi, target_psi;
    } t[] = {{975, 38, 17.805821, 9.771501, 18}, {1175, 48, 22.259316, 12.576930, 23}};
    for (size_t i = 0; i < sizeof t / sizeof t[0]; i++) {
        struct setup s;
        set_up_35(&s, t[i].load_kg, t[i].road_psi, "dune-sand");
        struct target got = target_of(&s);
        CHECK_CLOSE(got.aim_gauge_pa.v / PSI, t[i].aim_psi, 1e-6, 0, OWN);
        CHECK_CLOSE(got.deflection_floor_gauge_pa.v / PSI, t[i].limit_psi, 1e-6, 0, OWN);
        CHECK_CLOSE(got.target_gauge_pa / PSI, t[i].target_psi, 1e-9, 0, "up to the next psi");
        assert_int_equal(got.bound_by, BOUND_AIM);
    }
}

static void trailer_aims_at_less(void **state)
{
    (void)state;
    struct setup s;
    set_up(&s, "LT265/70R17", 1450, 80 * PSI, 725, 45 * PSI, "corrugated-road");
    s.q.trailer = true;
    CHECK_CLOSE(target_of(&s).aim_gauge_pa.v / PSI, 35.454860, 1e-6, 0, OWN);
}

static void bead_floors(void **state)
{
    (void)state;
    static const struct {
        const char *size;
        enum wheel_kind wheel;
        bool rock_steps, trailer;
        double floor_pa;
    } t[] = {
        {"35x12.50R17LT", WHEEL_PLAIN, false, false, 12 * PSI},
        {"35x12.50R17LT", WHEEL_BEADLOCK, false, false, 8 * PSI},
        {"35x12.50R17LT", WHEEL_BEADLOCK, true, false, 6 * PSI},
        {"35x12.50R17LT", WHEEL_PLAIN, true, false, 12 * PSI},
        {"LT265/45R20", WHEEL_PLAIN, false, false, 20 * PSI}, /* section height 119 mm */
        {"LT265/45R20", WHEEL_BEADLOCK, false, false, 8 * PSI},
        {"265/70R17 115T", WHEEL_PLAIN, false, false, 18 * PSI},
        {"265/70R17 115T", WHEEL_BEADLOCK, false, false, 18 * PSI},
        {"P265/45R20", WHEEL_PLAIN, false, false, 20 * PSI}, /* the highest that applies */
        {"LT265/70R17", WHEEL_PLAIN, false, true, 15 * PSI},
        {"LT265/70R17", WHEEL_BEADLOCK, false, true, 15 * PSI},
        {"395/85R20", WHEEL_PLAIN, false, false, 1.6 * BAR},
        {"395/85R20", WHEEL_BEADLOCK, false, false, 1.6 * BAR},
        {"9.00R20", WHEEL_PLAIN, false, true, 1.6 * BAR},
    };
    for (size_t i = 0; i < sizeof t / sizeof t[0]; i++) {
        struct tyre_spec spec = {.max_load_kg = 1000, .max_gauge_pa = 5 * BAR};
        struct tyre tyre;
        assert_true(designation_parse(t[i].size, &spec.size) >= 0);
        assert_true(tyre_init(&spec, &tyre) >= 0);
        CHECK_CLOSE(target_bead_floor(&tyre, t[i].wheel, t[i].rock_steps, t[i].trailer),
                    t[i].floor_pa, 1e-6, 0, "model C5, common practice");
    }
}

static void the_highest_floor_rules(void **state)
{
    (void)state;
    struct setup s;
    set_up_35(&s, 500, 30, "dune-sand"); /* light: the aim lies below the bead floor */
    struct target t = target_of(&s);
    assert_int_equal(t.bound_by, BOUND_BEAD_FLOOR);
    CHECK_CLOSE(t.target_gauge_pa / PSI, 12, 1e-9, 0, "bead floor, already a whole psi");
    s.q.maker_floor_gauge_pa = 14.2 * PSI;
    t = target_of(&s);
    assert_int_equal(t.bound_by, BOUND_MAKER_FLOOR);
    CHECK_CLOSE(t.target_gauge_pa / PSI, 15, 1e-9, 0, "14.2 up to the next psi");
    s.q.side_load_kg = 1600;
    t = target_of(&s);
    assert_int_equal(t.bound_by, BOUND_SIDE_SLOPE);
    s.ground.limit_1 = 0.10; /* a limit below the aim */
    s.q.side_load_kg = 0;
    assert_int_equal(target_of(&s).bound_by, BOUND_DEFLECTION_LIMIT);
}

static void ceilings(void **state)
{
    (void)state;
    struct setup s;
    set_up_35(&s, 975, 15, "dune-sand"); /* already softer than the aim */
    struct target t = target_of(&s);
    assert_int_equal(t.bound_by, BOUND_ROAD);
    CHECK_CLOSE(t.target_gauge_pa / PSI, 15, 1e-9, 0, "road pressure");
    s.q.road_gauge_pa = 17.9 * PSI; /* rounding up must not pass the road pressure */
    t = target_of(&s);
    assert_int_equal(t.bound_by, BOUND_AIM);
    CHECK_CLOSE(t.target_gauge_pa / PSI, 17.9, 1e-9, 0, "road pressure");
    s.q.road_gauge_pa = 80 * PSI; /* above the moulded maximum */
    s.ground = rigs_ground("sealed-road");
    t = target_of(&s);
    CHECK_CLOSE(t.target_gauge_pa / PSI, 65, 1e-9, 0, "moulded maximum");
    assert_int_equal(t.bound_by, BOUND_ROAD);
    assert_false(t.aim_gauge_pa.is);
    assert_false(t.stuck_gauge_pa.is);
}

static void floors_above_road(void **state)
{
    (void)state;
    struct setup s;
    set_up_35(&s, 1175, 20, "graded-gravel"); /* the limit of the ground asks for 25 */
    struct target t = target_of(&s);
    assert_true(t.floor_gauge_pa > 20 * PSI);
    assert_int_equal(t.bound_by, BOUND_ROAD);
    CHECK_CLOSE(t.target_gauge_pa / PSI, 20, 1e-9, 0, "road pressure");
    set_up_35(&s, 975, 38, "dune-sand");
    s.q.maker_floor_gauge_pa = 40 * PSI;
    t = target_of(&s);
    assert_int_equal(t.bound_by, BOUND_ROAD);
    CHECK_CLOSE(t.floor_gauge_pa / PSI, 40, 1e-9, 0, "tyre maker's floor");
    assert_false(t.stuck_gauge_pa.is); /* it would not be lower */
}

static void rim_out_of_range(void **state)
{
    (void)state;
    struct setup s;
    set_up_35(&s, 975, 38, "dune-sand");
    s.q.rim_fits = false;
    struct target t = target_of(&s);
    assert_int_equal(t.bound_by, BOUND_RIM_WIDTH);
    CHECK_CLOSE(t.target_gauge_pa / PSI, 38, 1e-9, 0, "road pressure");
    assert_false(t.stuck_gauge_pa.is);
    double sn_m = 12.5 * UNITS_M_PER_INCH;
    assert_true(target_rim_fits(0, sn_m));
    assert_true(target_rim_fits(0.65 * sn_m, sn_m));
    assert_true(target_rim_fits(0.90 * sn_m, sn_m));
    assert_false(target_rim_fits(0.649 * sn_m, sn_m));
    assert_false(target_rim_fits(0.901 * sn_m, sn_m));
}

static void gauge_steps(void **state)
{
    (void)state;
    static const struct {
        double step_pa, target_pa;
    } t[] = {/* 17.805821 psi = 122.767 kPa */
             {PSI, 18 * PSI},
             {0.5 * PSI, 18 * PSI},
             {0.1 * BAR, 1.3 * BAR},
             {5000, 125000},
             {0.1 * PSI, 17.9 * PSI}};
    for (size_t i = 0; i < sizeof t / sizeof t[0]; i++) {
        struct setup s;
        set_up_35(&s, 975, 38, "dune-sand");
        s.q.step_pa = t[i].step_pa;
        CHECK_CLOSE(target_of(&s).target_gauge_pa, t[i].target_pa, 1e-6, 0, "up to the step");
    }
}

static void stuck_step(void **state)
{
    (void)state;
    struct setup s;
    set_up_35(&s, 975, 38, "dune-sand"); /* 26.5 % at 13.699 psi */
    CHECK_CLOSE(target_of(&s).stuck_gauge_pa.v / PSI, 14, 1e-9, 0, OWN);
    s.ground.limit_1 = 0.24; /* never past the limit of the ground */
    double at_limit_pa = target_of(&s).deflection_floor_gauge_pa.v;
    CHECK_CLOSE(target_of(&s).stuck_gauge_pa.v, ceil(at_limit_pa / PSI) * PSI, 1e-6, 0, "model C6");
    set_up_35(&s, 975, 38, "dune-sand");
    s.q.step_pa = 0.001 * PSI;
    s.ground.aim_1 = 0.28; /* 1.5 points above the aim is 29.5 % */
    CHECK_CLOSE(target_of(&s).stuck_gauge_pa.v / PSI, 11.667098, 1e-3, 0, OWN);
    s.q.side_load_kg = 1150; /* the downhill tyre within the limit */
    struct target sloped = target_of(&s);
    CHECK_CLOSE(sloped.stuck_gauge_pa.v, sloped.side_slope_floor_gauge_pa.v, 0.001 * PSI, 0,
                "model B4");
    set_up_35(&s, 500, 30, "dune-sand");
    CHECK_CLOSE(target_of(&s).stuck_gauge_pa.v / PSI, 10, 1e-9, 0, "bead floor less 2 psi");
    s.q.maker_floor_gauge_pa = 11 * PSI;
    CHECK_CLOSE(target_of(&s).stuck_gauge_pa.v / PSI, 11, 1e-9, 0, "tyre maker's floor");
    s.q.wheel = WHEEL_BEADLOCK;
    s.q.maker_floor_gauge_pa = 0;
    assert_false(target_of(&s).stuck_gauge_pa.is); /* not below a beadlock's floor of 8 */
    set_up(&s, "395/85R20", 5600, 7.6 * BAR, 2600, 3.5 * BAR, "dune-sand");
    s.q.step_pa = 0.1 * BAR;
    CHECK_CLOSE(target_of(&s).stuck_gauge_pa.v / BAR, 1.6, 1e-9, 0, "truck size: 1.6 bar");
}

static void no_stuck_step(void **state)
{
    (void)state;
    static const char *const grounds[] = {"sealed-road", "graded-gravel", "corrugated-road",
                                          "stony-track", "rock-steps",    "packed-snow",
                                          "ice"};
    for (size_t i = 0; i < sizeof grounds / sizeof grounds[0]; i++) {
        struct setup s;
        set_up_35(&s, 975, 38, grounds[i]);
        assert_false(target_of(&s).stuck_gauge_pa.is);
    }
    struct setup s;
    set_up_35(&s, 975, 38, "loose-snow");
    assert_true(target_of(&s).stuck_gauge_pa.is);
}

static void a_third_is_never_passed(void **state)
{
    (void)state;
    struct setup s;
    set_up_35(&s, 975, 38, "dune-sand");
    s.ground.aim_1 = 0.36; /* an edited catalogue */
    s.ground.limit_1 = 0.40;
    struct target t = target_of(&s);
    assert_int_equal(t.bound_by, BOUND_BEAD_FLOOR);
    CHECK_CLOSE(t.deflection_floor_gauge_pa.v / PSI, 9.771501, 1e-6, 0, OWN);
}

static void more_load_never_asks_for_less(void **state)
{
    (void)state;
    struct setup s;
    set_up_35(&s, 975, 60, "dune-sand");
    double before_pa = 0, before_aim_pa = 0;
    for (int kg = 100; kg <= 1450; kg += 25) {
        s.q.load_kg = kg;
        struct target t = target_of(&s);
        assert_true(t.target_gauge_pa >= before_pa);
        assert_true(t.aim_gauge_pa.v >= before_aim_pa);
        assert_true(t.target_gauge_pa <= 60 * PSI + 1e-6);
        before_pa = t.target_gauge_pa;
        before_aim_pa = t.aim_gauge_pa.v;
    }
    s.q.load_kg = 975;
    before_pa = 60 * PSI;
    for (int pct = 10; pct <= 33; pct++) {
        s.ground.aim_1 = pct / 100.0;
        struct target t = target_of(&s);
        assert_true(t.target_gauge_pa <= before_pa);
        before_pa = t.target_gauge_pa;
    }
}

static void domain(void **state)
{
    (void)state;
    struct setup s;
    struct target t = {.target_gauge_pa = 7};
    set_up_35(&s, 975, 38, "dune-sand");
    struct target_question good = s.q;
    s.q.load_kg = (double)NAN;
    CHECK_STATUS(target_compute(&s.q, &t), STATUS_E_DOMAIN);
    s.q = good;
    s.q.step_pa = 0;
    CHECK_STATUS(target_compute(&s.q, &t), STATUS_E_DOMAIN);
    s.q = good;
    s.q.road_gauge_pa = (double)INFINITY;
    CHECK_STATUS(target_compute(&s.q, &t), STATUS_E_DOMAIN);
    s.q = good;
    s.ground.aim_1 = 0;
    CHECK_STATUS(target_compute(&s.q, &t), STATUS_E_DOMAIN);
    CHECK_CLOSE(t.target_gauge_pa, 7, 0, 0, "untouched");
}

static void names(void **state)
{
    (void)state;
    static const char *const want[] = {
        "aim", "deflection-limit", "bead-floor", "maker-floor", "side-slope", "rim-width", "road"};
    for (int b = BOUND_AIM; b <= BOUND_ROAD; b++) {
        CHECK_TEXT(bound_name((enum bound)b), want[b]);
        assert_true(strlen(bound_change((enum bound)b)) > 10);
    }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(aim_and_limit_by_hand),
        cmocka_unit_test(trailer_aims_at_less),
        cmocka_unit_test(bead_floors),
        cmocka_unit_test(the_highest_floor_rules),
        cmocka_unit_test(ceilings),
        cmocka_unit_test(floors_above_road),
        cmocka_unit_test(rim_out_of_range),
        cmocka_unit_test(gauge_steps),
        cmocka_unit_test(stuck_step),
        cmocka_unit_test(no_stuck_step),
        cmocka_unit_test(a_third_is_never_passed),
        cmocka_unit_test(more_load_never_asks_for_less),
        cmocka_unit_test(domain),
        cmocka_unit_test(names),
    };
    return check_run("target", tests, sizeof tests / sizeof tests[0], argc, argv);
}
