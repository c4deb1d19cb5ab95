/* bench_trip.c - a plan of eight legs over six grounds, the work behind each key on the screen. */
#include <string.h>

#include "base/units.h"
#include "bench/bench.h"
#include "sim/trip.h"

#define PSI UNITS_PA_PER_PSI

static volatile double sink; /* keeps the optimiser from dropping the work */

struct work {
    struct rig rig;
    struct trip trip;
    struct ground ground[TRIP_LEGS];
    struct trip_in in;
};

static void plan(void *context)
{
    const struct work *w = context;
    struct trip_plan p;
    sink = trip_compute(&w->in, &p) == STATUS_OK ? p.total_s : -1;
}

static void add_leg(struct work *w, const char *name, enum ground_kind kind, double aim_1,
                    double km)
{
    int i = w->trip.n_leg++;
    struct ground *g = &w->ground[i];
    *g = (struct ground){.kind = kind,
                         .aim_1 = aim_1,
                         .aim_low_1 = aim_1 - 0.01,
                         .aim_high_1 = aim_1 + 0.03,
                         .limit_1 = aim_1 + 0.08,
                         .cap_mps = maybe_of(8),
                         .road = !(aim_1 > 0)};
    snprintf(g->name, sizeof g->name, "%s", name);
    g->strength_pa = kind == GROUND_FIRM ? maybe_none() : maybe_of(60 * PSI);
    w->trip.leg[i] = (struct trip_leg){.length_m = km * 1e3, .speed_mps = 20, .stop_after = true};
    w->in.ground[i] = g;
}

static struct rig pickup(void)
{
    struct rig r = {.driven = DRIVEN_ALL, .clearance_m = 0.24, .power_w = 120e3};
    for (int a = AXLE_FRONT; a <= AXLE_REAR; a += AXLE_REAR - AXLE_FRONT) {
        struct axle *x = &r.axle[a];
        *x = (struct axle){.present = true,
                           .load_kg = a == AXLE_FRONT ? 1950 : 2350,
                           .left_share_1 = 0.5,
                           .wheels = 2,
                           .road_gauge_pa = (a == AXLE_FRONT ? 38 : 48) * PSI,
                           .road_temp_k = 293.15};
        if (designation_parse("35x12.50R17LT", &x->tyre.size) < 0) {
            exit(1);
        }
        x->tyre.max_load_kg = 1450;
        x->tyre.max_gauge_pa = 65 * PSI;
    }
    r.air = (struct air_system){.main_length_m = 3, .branch_length_m = 3, .hose_bore_m = 6.35e-3};
    r.air.compressor = (struct compressor){
        .swept_m3_s = 166 / 6e4, .clearance_1 = 0.06, .exponent_1 = 1.25, .sag_1 = 0.1};
    return r;
}

int main(void)
{
    static struct work w;
    w.rig = pickup();
    w.trip.air_temp_start_k = 293.15;
    w.in = (struct trip_in){.rig = &w.rig, .trip = &w.trip};
    add_leg(&w, "gravel", GROUND_FIRM, 0.135, 20);
    add_leg(&w, "dune", GROUND_SAND, 0.22, 10);
    add_leg(&w, "gravel", GROUND_FIRM, 0.135, 22);
    add_leg(&w, "damp", GROUND_SAND, 0.18, 8);
    add_leg(&w, "bog", GROUND_FINE, 0.25, 1);
    add_leg(&w, "stony", GROUND_FIRM, 0.19, 12);
    add_leg(&w, "dune", GROUND_SAND, 0.22, 4);
    add_leg(&w, "road", GROUND_FIRM, 0, 120);
    for (int i = 0; i < w.trip.n_leg; i++) { /* equal grounds are one entry, as in a catalogue */
        for (int k = 0; k < i; k++) {
            if (strcmp(w.ground[k].name, w.ground[i].name) == 0) {
                w.in.ground[i] = w.in.ground[k];
            }
        }
    }
    bench_print("trip_8_legs", plan, &w);
    return 0;
}
