#include "support/air.h"

#include "support/check.h"

#include "base/units.h"

static double pick(double x, double otherwise)
{
    return x > 0 ? x : otherwise;
}

void air_line(const struct air_case *c, struct source *source, struct line *line)
{
    double pa = pick(c->ambient_abs_pa, 101325), t = pick(c->temp_k, 293.15);
    struct air_system a = {.source = c->shop_m2 > 0 ? AIR_REGULATOR : AIR_COMPRESSOR,
                           .regulator_gauge_pa = c->shop_gauge_pa,
                           .regulator_area_m2 = c->shop_m2};
    a.compressor = (struct compressor){.swept_m3_s = pick(c->swept_m3_s, 135 / 6e4),
                                       .clearance_1 = 0.06,
                                       .exponent_1 = 1.25,
                                       .sag_1 = 0.10};
    CHECK_STATUS(source_init(&a, pa, pick(c->inlet_temp_k, 293.15), source), STATUS_OK);
    double flow = c->shop_m2 > 0 ? 300 / 6e4 : 0.81 * a.compressor.swept_m3_s;
    double q = flow * 1.204 * pick(c->scale_1, 1), bore = pick(c->bore_m, 6.35e-3);
    double length = pick(c->hose_m, 3) * pick(c->friction_1, HOSE_EXCESS_1) / HOSE_EXCESS_1;
    *line = (struct line){.source = source,
                          .scale_1 = pick(c->scale_1, 1),
                          .ambient_abs_pa = pa,
                          .temp_k = t,
                          .tank_m3 = c->tank_m3,
                          .n = c->n,
                          .main_si = hose_constant(length, bore, t, q)};
    for (int i = 0; i < c->n; i++) {
        line->vessel[i] = (struct line_vessel){.count_1 = 1,
                                               .volume_m3 = pick(c->volume_m3, 0.095),
                                               .stretch_1_pa = 2e-7,
                                               .area_m2 = pick(c->core_m2, 1.25e-6),
                                               .b_1 = pick(c->core_b_1, 0.3),
                                               .hose_si = hose_constant(length, bore, t, q / c->n)};
    }
    CHECK_STATUS(line_prepare(line), STATUS_OK);
}

struct energy_rig air_truth(const struct air_case *c)
{
    struct energy_rig r = energy_default();
    r.n = c->n;
    r.ambient_abs_pa = pick(c->ambient_abs_pa, r.ambient_abs_pa);
    r.temp_k = pick(c->temp_k, r.temp_k);
    r.inlet_temp_k = pick(c->inlet_temp_k, r.inlet_temp_k);
    r.swept_m3_s = pick(c->swept_m3_s, r.swept_m3_s);
    r.scale_1 = pick(c->scale_1, r.scale_1);
    r.bore_m = pick(c->bore_m, r.bore_m);
    r.main_m = r.branch_m = pick(c->hose_m, r.main_m);
    r.friction_1 = pick(c->friction_1, r.friction_1);
    r.regulator_gauge_pa = c->shop_gauge_pa;
    r.regulator_m2 = c->shop_m2;
    for (int i = 0; i < r.n; i++) {
        r.corner[i].volume_m3 = pick(c->volume_m3, r.corner[i].volume_m3);
        r.corner[i].core_m2 = pick(c->core_m2, r.corner[i].core_m2);
        r.corner[i].core_b_1 = pick(c->core_b_1, r.corner[i].core_b_1);
    }
    return r;
}

bool air_fill(const struct line *l, const double from_gauge_pa[], const double to_gauge_pa[],
              double tank_gauge_pa, double done_s[], struct run_state *end)
{
    struct run_until until = {.time_s = RUN_FOREVER_S, .watch = (1u << l->n) - 1};
    double from[LINE_VESSELS];
    for (int i = 0; i < l->n; i++) {
        from[i] = from_gauge_pa[i] + l->ambient_abs_pa;
        until.target_kg[i] = line_mass(l, i, to_gauge_pa[i] + l->ambient_abs_pa);
    }
    CHECK_STATUS(run_begin(l, from, tank_gauge_pa + l->ambient_abs_pa, end), STATUS_OK);
    while (until.watch != 0) {
        struct run_event e;
        CHECK_STATUS(run_to_event(l, &until, end, &e), STATUS_OK);
        if (e.why != RUN_TARGET) {
            return false;
        }
        for (int i = 0; i < l->n; i++) {
            if (e.reached >> i & 1u) {
                done_s[i] = end->time_s;
            }
        }
        until.watch &= ~e.reached;
        end->open &= ~e.reached;
    }
    return true;
}

struct refill_in air_pickup(double front_from, double rear_from, double front_to, double rear_to)
{
    struct refill_in in = {.ambient_abs_pa = 101325, .tyre_temp_k = 293.15, .inlet_temp_k = 293.15};
    in.air = (struct air_system){.source = AIR_COMPRESSOR,
                                 .main_length_m = 3,
                                 .branch_length_m = 3,
                                 .tail_length_m = 5,
                                 .hose_bore_m = 6.35e-3,
                                 .move_time_s = 25};
    in.air.compressor = (struct compressor){.swept_m3_s = 166 / 6e4,
                                            .clearance_1 = 0.06,
                                            .exponent_1 = 1.25,
                                            .sag_1 = 0.1,
                                            .run_time_s = 900,
                                            .rest_time_s = 900,
                                            .cut_out_gauge_pa = 110 * AIR_PSI};
    for (int s = 0; s < SIDE_COUNT; s++) {
        in.corner[REFILL_CORNER(AXLE_FRONT, s)] =
            (struct refill_corner_in){.present = true,
                                      .tyres = 1,
                                      .volume_m3 = 0.11745,
                                      .from_gauge_pa = front_from * AIR_PSI,
                                      .target_gauge_pa = front_to * AIR_PSI,
                                      .gravel_gauge_pa = 0.75 * front_to * AIR_PSI};
        in.corner[REFILL_CORNER(AXLE_REAR, s)] =
            (struct refill_corner_in){.present = true,
                                      .tyres = 1,
                                      .volume_m3 = 0.11745,
                                      .from_gauge_pa = rear_from * AIR_PSI,
                                      .target_gauge_pa = rear_to * AIR_PSI,
                                      .gravel_gauge_pa = 0.75 * rear_to * AIR_PSI};
    }
    return in;
}
