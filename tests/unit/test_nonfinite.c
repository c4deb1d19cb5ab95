/* test_nonfinite.c - not a number and infinity, put into every number of the inputs in turn: each
 * is refused, and what was there before stays. */
#include "support/check.h"
#include "support/rigs.h"
#include "support/sweep.h"

#include "core/gas.h"
#include "core/loadindex.h"
#include "core/quick.h"
#include "core/speed.h"
#include "sim/down.h"
#include "sim/refill.h"

/* ---- the advice ---- */

static struct rig rig;
static struct ground ground;
static struct conditions day;

static enum status advise(void)
{
    static struct advice a;
    sweep_fill(&a, sizeof a);
    enum status s = advice_compute(&rig, &ground, &day, &a);
    if (s < 0 && s != STATUS_E_REFUSED) {
        sweep_untouched(&a, sizeof a);
    }
    return s;
}

static void advice_takes_none(void **state)
{
    (void)state;
    struct axle *x = &rig.axle[AXLE_REAR];
#define FIELDS(F)                                                                                  \
    F(x->load_kg)                                                                                  \
    F(x->left_share_1)                                                                             \
    F(x->road_gauge_pa)                                                                            \
    F(x->road_temp_k)                                                                              \
    F(x->floor_gauge_pa)                                                                           \
    F(x->rim_width_m)                                                                              \
    F(x->rating_kg)                                                                                \
    F(x->tyre.max_load_kg)                                                                         \
    F(x->tyre.max_gauge_pa)                                                                        \
    F(x->tyre.outside_diameter_m)                                                                  \
    F(x->tyre.section_width_m)                                                                     \
    F(x->tyre.tread_width_m)                                                                       \
    F(x->tyre.size.outside_diameter_m)                                                             \
    F(x->tyre.size.rim_diameter_m)                                                                 \
    F(x->tyre.size.section_width_m)                                                                \
    F(x->tyre.cal.cal_gauge_pa)                                                                    \
    F(x->tyre.cal.cal_height_m)                                                                    \
    F(x->tyre.cal.patch_length_m)                                                                  \
    F(rig.clearance_m)                                                                             \
    F(rig.power_w)                                                                                 \
    F(rig.air.gauge_offset_pa)                                                                     \
    F(rig.air.gauge_step_pa)                                                                       \
    F(rig.cg_height_m)                                                                             \
    F(rig.track_m)                                                                                 \
    F(rig.wheelbase_m)                                                                             \
    F(rig.mass[0].mass_kg)                                                                         \
    F(rig.mass[0].position_m)                                                                      \
    F(ground.aim_1)                                                                                \
    F(ground.limit_1)                                                                              \
    F(ground.strength_pa.v)                                                                        \
    F(ground.cap_mps.v)                                                                            \
    F(day.tyre_temp_k.v)                                                                           \
    F(day.air_temp_k.v)                                                                            \
    F(day.height_m.v)                                                                              \
    F(day.speed_mps.v)                                                                             \
    F(day.slope_1)                                                                                 \
    F(day.cross_slope_rad.v)                                                                       \
    F(day.at_gauge_pa[AXLE_REAR].v)
    SWEEP_FIELDS(FIELDS);
#undef FIELDS
    rig = rigs_cabin_on();
    ground = rigs_ground("dune-sand");
    rig.cg_height_m = 0.9;
    rig.track_m = 1.7;
    rig.wheelbase_m = 3.6;
    rig.n_mass = 1;
    rig.mass[0] = (struct added_mass){.mass_kg = 20.0, .position_m = 2.0};
    day = (struct conditions){.tyre_temp_k = maybe_of(300.0),
                              .air_temp_k = maybe_of(300.0),
                              .height_m = maybe_of(500.0),
                              .speed_mps = maybe_of(5.0),
                              .cross_slope_rad = maybe_of(0.05),
                              .at_gauge_pa[AXLE_REAR] = maybe_of(30.0 * PSI)};
    SWEEP(advise);
}

/* ---- the refill and the way down ---- */

static struct refill_in up;

static enum status refill(void)
{
    static struct refill_out out;
    sweep_fill(&out, sizeof out);
    enum status s = refill_compute(&up, &out);
    if (s < 0) {
        sweep_untouched(&out, sizeof out);
    }
    return s;
}

static void refill_takes_none(void **state)
{
    (void)state;
    struct refill_corner_in *c = &up.corner[REFILL_CORNER(AXLE_REAR, SIDE_LEFT)];
    struct compressor *k = &up.air.compressor;
#define FIELDS(F)                                                                                  \
    F(up.ambient_abs_pa)                                                                           \
    F(up.tyre_temp_k)                                                                              \
    F(up.inlet_temp_k)                                                                             \
    F(up.run_used_s)                                                                               \
    F(c->volume_m3)                                                                                \
    F(c->from_gauge_pa)                                                                            \
    F(c->target_gauge_pa)                                                                          \
    F(k->swept_m3_s)                                                                               \
    F(k->clearance_1)                                                                              \
    F(k->exponent_1)                                                                               \
    F(k->sag_1)                                                                                    \
    F(k->run_time_s)                                                                               \
    F(k->rest_time_s)                                                                              \
    F(k->cut_out_gauge_pa)                                                                         \
    F(up.air.main_length_m)                                                                        \
    F(up.air.branch_length_m)                                                                      \
    F(up.air.tail_length_m)                                                                        \
    F(up.air.hose_bore_m)                                                                          \
    F(up.air.move_time_s)                                                                          \
    F(up.air.gauge_offset_pa)                                                                      \
    F(up.air.tank_volume_m3)
    SWEEP_FIELDS(FIELDS);
#undef FIELDS
    rig = rigs_cabin_on();
    rig.air = (struct air_system){.source = AIR_COMPRESSOR,
                                  .compressor = {.swept_m3_s = 166e-3 / 60.0,
                                                 .clearance_1 = 0.06,
                                                 .exponent_1 = 1.25,
                                                 .sag_1 = 0.1,
                                                 .run_time_s = 1800.0,
                                                 .rest_time_s = 1800.0,
                                                 .cut_out_gauge_pa = 10e5},
                                  .main_length_m = 5.0,
                                  .branch_length_m = 3.0,
                                  .hose_bore_m = 0.006,
                                  .move_time_s = 30.0};
    CHECK_STATUS(refill_in_of(&rig, 101325.0, 293.15, 293.15, &up), STATUS_OK);
    for (int i = 0; i < REFILL_CORNERS; i++) {
        up.corner[i].from_gauge_pa = up.corner[i].gravel_gauge_pa = 18.0 * PSI;
        up.corner[i].target_gauge_pa = 38.0 * PSI;
    }
    SWEEP(refill);
}

static struct down_corner down;

static enum status let_down(void)
{
    struct down_result r;
    sweep_fill(&r, sizeof r);
    enum status s = down_compute(&down, &r);
    if (s < 0) {
        sweep_untouched(&r, sizeof r);
    }
    return s;
}

static void letting_down_takes_none(void **state)
{
    (void)state;
#define FIELDS(F)                                                                                  \
    F(down.volume_m3)                                                                              \
    F(down.from_gauge_pa)                                                                          \
    F(down.to_gauge_pa)                                                                            \
    F(down.ambient_abs_pa)                                                                         \
    F(down.tyre_temp_k)                                                                            \
    F(down.gauge_offset_pa)
    SWEEP_FIELDS(FIELDS);
#undef FIELDS
    down = (struct down_corner){.volume_m3 = 0.1,
                                .from_gauge_pa = 38.0 * PSI,
                                .to_gauge_pa = 18.0 * PSI,
                                .ambient_abs_pa = 101325.0,
                                .tyre_temp_k = 293.15};
    SWEEP(let_down);
}

/* ---- single formulas ---- */

static double x[6];

static enum status ambient(void)
{
    double out;
    sweep_fill(&out, sizeof out);
    enum status s = gas_ambient(x[0], &out);
    if (s < 0) {
        sweep_untouched(&out, sizeof out);
    }
    return s;
}

static enum status moved(void)
{
    double out;
    sweep_fill(&out, sizeof out);
    enum status s = gas_gauge_moved(x[0], x[1], x[2], x[3], x[4], &out);
    if (s < 0) {
        sweep_untouched(&out, sizeof out);
    }
    return s;
}

static struct tyre_spec tyre;

static enum status standard(void)
{
    struct maybe out;
    sweep_fill(&out, sizeof out);
    enum status s = speed_standard(&tyre, false, x[0], x[1], &out);
    if (s < 0) {
        sweep_untouched(&out, sizeof out);
    }
    return s;
}

static enum status index_of(void)
{
    int out;
    sweep_fill(&out, sizeof out);
    enum status s = loadindex_for_kg(x[0], &out);
    if (s < 0) {
        sweep_untouched(&out, sizeof out);
    }
    return s;
}

static enum status bonus(void)
{
    double out;
    sweep_fill(&out, sizeof out);
    enum status s = loadindex_bonus_speed(121, "S", x[0], &out);
    if (s < 0) {
        sweep_untouched(&out, sizeof out);
    }
    return s;
}

static void formulas_take_none(void **state)
{
    (void)state;
    double *const field[] = {&x[0], &x[1], &x[2], &x[3], &x[4]};
    static const char *const name[] = {"first", "second", "third", "fourth", "fifth"};
    x[0] = 1200.0; /* m */
    sweep(1, field, name, ambient);
    x[0] = 35.0 * PSI;
    x[1] = x[3] = 293.15;
    x[2] = x[4] = 101325.0;
    sweep(5, field, name, moved);
    tyre = rigs_cabin_on().axle[AXLE_REAR].tyre;
    x[0] = 1200.0; /* kg on 1000 kg: a bonus is wanted */
    x[1] = 1000.0;
    sweep(2, field, name, standard);
    sweep(1, field, name, index_of);
    x[0] = 0.2;
    sweep(1, field, name, bonus);
}

/* A speed that nobody can tell is the slowest, never "no cap". */
static void no_cap_is_never_told_of_no_number(void **state)
{
    (void)state;
    const double nan_1 = (double)NAN;
    struct maybe by_deflection = speed_deflection_cap(nan_1);
    struct maybe by_retention = speed_retention_cap(nan_1);
    assert_true(by_deflection.is && by_retention.is);
    CHECK_CLOSE(by_deflection.v, speed_deflection_cap(0.99).v, 0, 0, "the softest band");
    CHECK_CLOSE(by_retention.v, speed_retention_cap(0.01).v, 0, 0, "the softest band");
}

static struct quick_form form;

static enum status three_answers(void)
{
    static struct rig out;
    static struct caution_list list;
    list.n = 0;
    sweep_fill(&out, sizeof out);
    enum status s = quick_rig(&form, &out, &list);
    if (s < 0) {
        sweep_untouched(&out, sizeof out);
        assert_int_equal(list.n, 0);
    }
    return s;
}

static void three_answers_take_none(void **state)
{
    (void)state;
#define FIELDS(F)                                                                                  \
    F(form.front_load_kg)                                                                          \
    F(form.rear_load_kg)                                                                           \
    F(form.front_road_gauge_pa.v)                                                                  \
    F(form.rear_road_gauge_pa.v)
    SWEEP_FIELDS(FIELDS);
#undef FIELDS
    form = (struct quick_form){.tyre = "265/70R17",
                               .front_load_kg = 1300.0,
                               .rear_load_kg = 1500.0,
                               .front_road_gauge_pa = maybe_of(36.0 * PSI),
                               .rear_road_gauge_pa = maybe_of(40.0 * PSI)};
    SWEEP(three_answers);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(advice_takes_none),
        cmocka_unit_test(refill_takes_none),
        cmocka_unit_test(letting_down_takes_none),
        cmocka_unit_test(formulas_take_none),
        cmocka_unit_test(no_cap_is_never_told_of_no_number),
        cmocka_unit_test(three_answers_take_none),
    };
    return check_run("nonfinite", tests, sizeof tests / sizeof tests[0], argc, argv);
}
