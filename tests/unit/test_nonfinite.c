/* test_nonfinite.c - not a number and infinity, put into every number of the inputs in turn: each
 * is refused, and what was there before stays. */
#include "support/check.h"
#include "support/rigs.h"

#include <math.h>

#include "sim/down.h"
#include "sim/refill.h"

enum { BAD = 3 };
static const double bad[BAD] = {(double)NAN, HUGE_VAL, -HUGE_VAL};

typedef enum status attempt(void);

/* Every field with every bad number; the one that is let through is named. */
static void sweep(size_t n, double *const field[], const char *const name[], attempt *try)
{
    for (size_t f = 0; f < n; f++) {
        double was = *field[f];
        for (int b = 0; b < BAD; b++) {
            *field[f] = bad[b];
            enum status s = try();
            if (s >= 0) {
                fail_msg("%s = %g gives status %d", name[f], bad[b], (int)s);
            }
        }
        *field[f] = was;
    }
    CHECK_STATUS(try(), STATUS_OK); /* it was the bad numbers that were refused */
}

#define SWEEP(field, name, try) sweep(sizeof(field) / sizeof(field)[0], field, name, try)

/* ---- the advice ---- */

static struct rig rig;
static struct ground ground;
static struct conditions day;

static enum status advise(void)
{
    struct advice a = {.cap_mps = {true, 7.0}};
    enum status s = advice_compute(&rig, &ground, &day, &a);
    if (s < 0 && s != STATUS_E_REFUSED) {
        CHECK_CLOSE(a.cap_mps.v, 7.0, 0, 0, "untouched on error");
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
#define ADDRESS(f) &f,
#define NAME(f)    #f,
    double *const field[] = {FIELDS(ADDRESS)};
    static const char *const name[] = {FIELDS(NAME)};
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
    SWEEP(field, name, advise);
}

/* ---- the refill and the way down ---- */

static struct refill_in up;

static enum status refill(void)
{
    static struct refill_out out;
    out.free_air_m3 = 7.0;
    enum status s = refill_compute(&up, &out);
    if (s < 0) {
        CHECK_CLOSE(out.free_air_m3, 7.0, 0, 0, "untouched on error");
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
    double *const field[] = {FIELDS(ADDRESS)};
    static const char *const name[] = {FIELDS(NAME)};
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
    SWEEP(field, name, refill);
}

static struct down_corner down;

static enum status let_down(void)
{
    struct down_result r = {.time_s = {7.0}};
    enum status s = down_compute(&down, &r);
    if (s < 0) {
        CHECK_CLOSE(r.time_s[0], 7.0, 0, 0, "untouched on error");
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
    double *const field[] = {FIELDS(ADDRESS)};
    static const char *const name[] = {FIELDS(NAME)};
#undef FIELDS
    down = (struct down_corner){.volume_m3 = 0.1,
                                .from_gauge_pa = 38.0 * PSI,
                                .to_gauge_pa = 18.0 * PSI,
                                .ambient_abs_pa = 101325.0,
                                .tyre_temp_k = 293.15};
    SWEEP(field, name, let_down);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(advice_takes_none),
        cmocka_unit_test(refill_takes_none),
        cmocka_unit_test(letting_down_takes_none),
    };
    return check_run("nonfinite", tests, sizeof tests / sizeof tests[0], argc, argv);
}
