/* bench_air.c - refills, one root of the line, a let-down. */
#include "base/units.h"
#include "bench/bench.h"
#include "sim/down.h"
#include "sim/hookup.h"
#include "sim/run.h"

#define PSI UNITS_PA_PER_PSI

static volatile double sink; /* keeps the optimiser from dropping the work */

struct work {
    struct refill_in in;
    struct source source;
    struct line line;
    struct run_state state;
    struct down_corner down;
};

static struct refill_in pickup(double rear_target_psi)
{
    struct refill_in in = {.ambient_abs_pa = 101325, .tyre_temp_k = 293.15, .inlet_temp_k = 293.15};
    in.air = (struct air_system){.main_length_m = 3, .branch_length_m = 3, .hose_bore_m = 6.35e-3};
    in.air.compressor = (struct compressor){
        .swept_m3_s = 166 / 6e4, .clearance_1 = 0.06, .exponent_1 = 1.25, .sag_1 = 0.1};
    for (int a = AXLE_FRONT; a <= AXLE_REAR; a += AXLE_REAR - AXLE_FRONT) {
        for (int s = 0; s < SIDE_COUNT; s++) {
            in.corner[REFILL_CORNER(a, s)] = (struct refill_corner_in){
                .present = true,
                .tyres = 1,
                .volume_m3 = 0.11745,
                .from_gauge_pa = 15 * PSI,
                .target_gauge_pa = (a == AXLE_FRONT ? 35 : rear_target_psi) * PSI};
        }
    }
    return in;
}

/* Hose, node, integration, drops, readings and steps: a whole linked plan. */
static void linked(void *context)
{
    const struct work *w = context;
    const struct hookup_change change = {.scale_1 = 1};
    struct refill_plan plan;
    sink = hookup_plan(&w->in, &w->source, &change, HOOKUP_LINKED, &plan) == STATUS_OK
               ? plan.total_s
               : -1;
}

static void thousand(void *context)
{
    for (int i = 0; i < 1000; i++) {
        linked(context);
    }
}

static void whole(void *context)
{
    const struct work *w = context;
    struct refill_out out;
    sink = refill_compute(&w->in, &out) == STATUS_OK ? out.free_air_m3 : -1;
}

static void node(void *context)
{
    struct work *w = context;
    struct line_flow f;
    double p[LINE_VESSELS], root = 0.99 * w->state.root_si; /* as warm as a stage leaves it */
    for (int i = 0; i < w->line.n; i++) {
        p[i] = line_pressure(&w->line, i, w->state.mass_kg[i]);
    }
    (void)line_solve(&w->line, w->state.open, true, p, 0, &root, &f);
    sink = f.line_abs_pa;
}

static void down(void *context)
{
    const struct work *w = context;
    struct down_result r;
    sink = down_compute(&w->down, &r) == STATUS_OK ? r.time_s[0] : -1;
}

/* Four different corners on a line, some way into the fill. */
static int line_ready(struct work *w)
{
    const struct hookup_change change = {.scale_1 = 1};
    double p[REFILL_CORNERS], target[REFILL_CORNERS], start[LINE_VESSELS];
    unsigned corners = 0;
    int vessel_of[REFILL_CORNERS];
    for (int c = 0; c < REFILL_CORNERS; c++) {
        p[c] = w->in.ambient_abs_pa + (15 + c) * PSI;
        target[c] = w->in.ambient_abs_pa + 35 * PSI;
        corners |= w->in.corner[c].present ? 1u << c : 0;
    }
    if (hookup_line(&w->in, &w->source, &change, corners, p, target, &w->line, vessel_of) < 0) {
        return 1;
    }
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (corners >> c & 1u) {
            start[vessel_of[c]] = p[c];
        }
    }
    return run_begin(&w->line, start, 0, &w->state) < 0 || run_to_time(&w->line, 60, &w->state) < 0;
}

int main(void)
{
    static struct work w;
    w.in = pickup(35);
    w.down = (struct down_corner){0.11745, 38 * PSI, 16 * PSI, 101325, 293.15, 0};
    if (source_init(&w.in.air, 101325, 293.15, &w.source) != STATUS_OK || line_ready(&w)) {
        return 1;
    }
    bench_print("refill_four_linked", linked, &w);
    w.in = pickup(30);
    bench_print("refill_staged", linked, &w);
    bench_print("refill_staged_1000", thousand, &w);
    bench_print("refill_all_hookups", whole, &w);
    bench_print("node_solve", node, &w);
    bench_print("down", down, &w);
    return 0;
}
