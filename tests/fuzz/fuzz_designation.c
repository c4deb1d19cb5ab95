/* fuzz_designation.c - any text: a finite, consistent tyre or a status, and no touched output. */
#include <math.h>
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "core/designation.h"
#include "core/tyre.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static void expect(int holds)
{
    if (!holds) {
        abort();
    }
}

static void check_tyre(const struct designation *d)
{
    struct tyre_spec spec = {.size = *d};
    struct tyre t;
    double d_m = 0.0, v_m3 = 0.0;
    enum status s = tyre_init(&spec, &t);
    if (s < 0) {
        return;
    }
    expect(tyre_deflection(&t, 7000.0, 150000.0, &d_m) >= 0 && isfinite(d_m) && d_m > 0.0);
    expect(tyre_air_volume(&t, &v_m3) >= 0 && isfinite(v_m3) && v_m3 > 0.0);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char text[256];
    size_t n = size < sizeof text ? size : sizeof text - 1;
    struct designation d, kept;
    memset(&kept, 0x5a, sizeof kept);
    memcpy(&d, &kept, sizeof d);
    memcpy(text, data, n);
    text[n] = '\0';
    if (designation_parse(text, &d) < 0) {
        expect(memcmp(&d, &kept, sizeof d) == 0);
        return 0;
    }
    double od_m = d.rim_diameter_m + 2.0 * d.section_height_m;
    expect(isfinite(d.outside_diameter_m) && fabs(od_m - d.outside_diameter_m) < 1e-9);
    expect(d.section_width_m >= 0.1 && d.aspect_1 > 0.0 && isfinite(d.aspect_1));
    check_tyre(&d);
    return 0;
}
