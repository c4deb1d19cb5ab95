/* fuzz_options.c - any command line is read or refused with a word about why; what is read is
 * finite. Words are separated by NUL bytes. */
#include <math.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "app/options.h"

enum { FUZZ_WORDS = 40, FUZZ_BYTES = 2048 };

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void must_be_finite(struct maybe m)
{
    if (m.is && !isfinite(m.v)) {
        abort();
    }
}

static void sound(const struct options *o)
{
    const struct maybe all[] = {o->front_kg,    o->rear_kg,   o->at_temp_k, o->at_height_m,
                                o->tyre_temp_k, o->speed_mps, o->slope_1,   o->cross_slope_rad};
    for (size_t i = 0; i < sizeof all / sizeof all[0]; i++) {
        must_be_finite(all[i]);
    }
    for (int a = 0; a < AXLE_COUNT; a++) {
        must_be_finite(o->at_pressure.axle[a]);
        must_be_finite(o->road.axle[a]);
    }
    for (int c = 0; c < LOG_CORNERS; c++) {
        must_be_finite(o->from.corner[c]);
    }
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char bytes[FUZZ_BYTES + 1], why[512];
    const char *argv[FUZZ_WORDS] = {"sandshoe"};
    struct options o;
    struct text w = text_over(why, sizeof why);
    int n = 1;
    size = size < FUZZ_BYTES ? size : FUZZ_BYTES;
    memcpy(bytes, data, size);
    bytes[size] = '\0';
    for (size_t at = 0; at < size && n < FUZZ_WORDS; at += strlen(bytes + at) + 1) {
        argv[n++] = bytes + at;
    }
    if (options_parse(n, argv, &o, &w) == STATUS_OK) {
        sound(&o);
    } else if (w.len == 0) {
        abort();
    }
    return 0;
}
