#include "core/loadrange.h"

#include <stdbool.h>
#include <stddef.h>

struct range_row {
    char range;
    double narrow_pa, wide_pa; /* 0 = not made */
};

// clang-format off
static const struct range_row LIGHT_TRUCK[] = {
    {'B', 240e3, 0},
    {'C', 350e3, 240e3},
    {'D', 450e3, 350e3},
    {'E', 550e3, 450e3},
    {'F', 650e3, 550e3},
};
// clang-format on

static const double WIDE_M = 0.295; /* m, section width up to which a tyre counts as narrow */
static const double STANDARD_PA = 240e3;
static const double EXTRA_LOAD_PA = 290e3;

enum status loadrange_usual_pressure(const struct designation *size, char range, double *p_gauge_pa)
{
    bool passenger = size->family == TYRE_P_METRIC || size->family == TYRE_EURO_METRIC;
    if (passenger && range == 0) {
        *p_gauge_pa = size->extra_load ? EXTRA_LOAD_PA : STANDARD_PA;
        return STATUS_W_ASSUMED;
    }
    if (size->family != TYRE_LT_METRIC && size->family != TYRE_FLOTATION) {
        return STATUS_E_UNKNOWN;
    }
    bool wide = size->section_width_m > WIDE_M + 1e-9;
    for (size_t i = 0; i < sizeof LIGHT_TRUCK / sizeof LIGHT_TRUCK[0]; i++) {
        double p = wide ? LIGHT_TRUCK[i].wide_pa : LIGHT_TRUCK[i].narrow_pa;
        if (LIGHT_TRUCK[i].range == range && p > 0.0) {
            *p_gauge_pa = p;
            return STATUS_W_ASSUMED;
        }
    }
    return STATUS_E_UNKNOWN;
}
