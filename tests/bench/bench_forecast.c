/* bench_forecast.c - the forecast after a third reading, and the pressures between readings. */
#include "base/units.h"
#include "bench/bench.h"
#include "sim/forecast.h"

#define PSI UNITS_PA_PER_PSI

struct work {
    struct forecast f;
    struct session s;
    struct forecast_out out;
};

static struct work w;
static volatile double sink;

static struct refill_in pickup(void)
{
    struct refill_in in = {.ambient_abs_pa = 101325, .tyre_temp_k = 293.15, .inlet_temp_k = 293.15};
    in.air = (struct air_system){.main_length_m = 3,
                                 .branch_length_m = 3,
                                 .hose_bore_m = 6.35e-3,
                                 .gauge_step_pa = PSI,
                                 .hookup = HOOKUP_LINKED};
    in.air.compressor = (struct compressor){
        .swept_m3_s = 166 / 6e4, .clearance_1 = 0.06, .exponent_1 = 1.25, .sag_1 = 0.1};
    for (int a = AXLE_FRONT; a <= AXLE_REAR; a += AXLE_REAR - AXLE_FRONT) {
        for (int s = 0; s < SIDE_COUNT; s++) {
            in.corner[REFILL_CORNER(a, s)] =
                (struct refill_corner_in){.present = true,
                                          .tyres = 1,
                                          .volume_m3 = 0.11745,
                                          .target_gauge_pa = (a == AXLE_FRONT ? 35 : 42) * PSI};
        }
    }
    return in;
}

static int apply_all(void)
{
    static const char *const lines[] = {"0 read all 15 psi settled",
                                        "0 air on",
                                        "60 air off",
                                        "70 read all 18 psi settled",
                                        "75 air on",
                                        "150 read all 28 psi flowing",
                                        "210 air off",
                                        "220 read all 27 psi settled"};
    for (size_t i = 0; i < sizeof lines / sizeof lines[0]; i++) {
        char why[200];
        struct text t = text_over(why, sizeof why);
        struct log_event e;
        if (refill_log_parse(lines[i], &e, &t) != STATUS_OK ||
            session_apply(&w.s, &e, &t) != STATUS_OK) {
            return 1;
        }
    }
    return 0;
}

static void update(void *context)
{
    struct work *k = context;
    sink = forecast_update(&k->f, &k->s, 225, &k->out) == STATUS_OK ? k->out.finish.p50_s : -1;
}

static void tick(void *context)
{
    struct work *k = context;
    sink = forecast_tick(&k->f, &k->s, 230, &k->out) == STATUS_OK ? k->out.line.p50_gauge_pa : -1;
}

int main(void)
{
    struct refill_in in = pickup();
    struct forecast_prior prior = forecast_prior_label();
    session_init(&in, &w.s);
    if (apply_all() != 0 || forecast_init(&w.f, 1, FORECAST_MEMBERS, &prior) != STATUS_OK) {
        return 1;
    }
    bench_print("forecast_update", update, &w);
    bench_print("forecast_tick", tick, &w);
    return 0;
}
