/* fuzz_air.c - any numbers at all as a refill and a let-down: a status, or finite results. */
#include <math.h>
#include <stddef.h>
#include <stdint.h>
#include <string.h>

#include "sim/down.h"
#include "sim/refill.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

/* The next number of the input: half the time a plain one within lo..hi, else raw bits. */
static double next(const uint8_t **data, size_t *size, double lo, double hi)
{
    uint8_t bytes[9] = {0};
    size_t n = *size < sizeof bytes ? *size : sizeof bytes;
    memcpy(bytes, *data, n);
    *data += n;
    *size -= n;
    double raw;
    memcpy(&raw, bytes + 1, sizeof raw);
    uint16_t plain = (uint16_t)(bytes[1] << 8 | bytes[2]);
    return bytes[0] > 250 ? raw : lo + (hi - lo) * plain / 65535.0;
}

static void require(int ok)
{
    if (!ok) {
        __builtin_trap();
    }
}

static void down(const uint8_t *data, size_t size)
{
    struct down_corner c = {
        .volume_m3 = next(&data, &size, 0.01, 0.5),
        .from_gauge_pa = next(&data, &size, 0, 8e5),
        .to_gauge_pa = next(&data, &size, -1e4, 8e5),
        .ambient_abs_pa = next(&data, &size, 3e4, 1.1e5),
        .tyre_temp_k = next(&data, &size, 220, 350),
        .gauge_offset_pa = next(&data, &size, -2e4, 2e4),
    };
    struct down_result r;
    if (down_compute(&c, &r) >= STATUS_OK) {
        for (int k = 0; k < 2; k++) {
            require(isfinite(r.time_s[k]) && r.time_s[k] >= 0);
            require(isfinite(r.stop_reading_gauge_pa[k]) && isfinite(r.creep_pa[k]));
        }
    }
}

static void air_of(const uint8_t **data, size_t *size, struct air_system *a)
{
    double pick = next(data, size, 0, 3);
    a->source = pick < 1 ? AIR_COMPRESSOR : pick < 2 ? AIR_REGULATOR : AIR_TANK;
    a->compressor.swept_m3_s = next(data, size, 0, 1e-2);
    a->compressor.clearance_1 = next(data, size, 0, 0.3);
    a->compressor.exponent_1 = next(data, size, 1, 1.4);
    a->compressor.sag_1 = next(data, size, 0, 1);
    a->compressor.run_time_s = next(data, size, -100, 2000);
    a->compressor.rest_time_s = next(data, size, -100, 2000);
    a->compressor.cut_out_gauge_pa = next(data, size, -5e5, 1e6);
    a->main_length_m = next(data, size, 0, 20);
    a->branch_length_m = next(data, size, 0, 20);
    a->hose_bore_m = next(data, size, 0.002, 0.02);
    a->move_time_s = next(data, size, 0, 100);
    a->tank_volume_m3 = fmax(0, next(data, size, -0.1, 0.1));
    a->tank_gauge_pa = next(data, size, 0, 1e6);
    a->regulator_gauge_pa = next(data, size, 0, 1e6);
    a->regulator_area_m2 = next(data, size, 0, 2e-5);
    a->check_valves = next(data, size, 0, 1) > 0.5;
    a->valve = next(data, size, 0, 1) > 0.5 ? VALVE_CORE_OUT : VALVE_CORE_IN;
    a->spare = next(data, size, 0, 1) > 0.7;
    a->spare_volume_m3 = next(data, size, 0, 0.3);
    a->spare_gauge_pa = next(data, size, 0, 8e5);
}

static void up(const uint8_t *data, size_t size)
{
    struct refill_in in = {.ambient_abs_pa = next(&data, &size, 3e4, 1.1e5),
                           .tyre_temp_k = next(&data, &size, 220, 350),
                           .inlet_temp_k = next(&data, &size, 220, 370)};
    air_of(&data, &size, &in.air);
    for (int c = 0; c < REFILL_CORNERS; c++) {
        in.corner[c].present = next(&data, &size, 0, 1) > 0.4;
        in.corner[c].tyres = next(&data, &size, 0, 1) > 0.8 ? 2 : 1;
        in.corner[c].volume_m3 = next(&data, &size, 0.01, 0.5);
        in.corner[c].from_gauge_pa = next(&data, &size, 0, 4e5);
        in.corner[c].target_gauge_pa = next(&data, &size, 0, 8e5);
        in.corner[c].gravel_gauge_pa = next(&data, &size, 0, 5e5);
    }
    static struct refill_out out;
    if (refill_compute(&in, &out) < STATUS_OK) {
        return;
    }
    for (int h = 0; h < HOOKUP_COUNT; h++) {
        const struct refill_plan *p = &out.plan[h];
        require(isfinite(p->total_s) && p->total_s >= 0 && p->n_step <= REFILL_STEPS);
        for (int c = 0; c < REFILL_CORNERS; c++) {
            require(isfinite(p->corner[c].done_s) && isfinite(p->corner[c].settled_gauge_pa));
            require(isfinite(p->corner[c].stop_reading_gauge_pa));
            require(isfinite(p->corner[c].line_reading_gauge_pa));
        }
    }
    require(isfinite(out.free_air_m3) && isfinite(out.at_target_free_m3_s));
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    if (size > 0 && data[0] % 4 == 0) {
        down(data + 1, size - 1);
    } else {
        up(data, size);
    }
    return 0;
}
