#include "core/rig.h"

const char *axle_name(enum axle_id a)
{
    static const char *const names[] = {"front", "middle", "rear", "trailer", "trailer2"};
    return a < AXLE_COUNT ? names[a] : "?";
}

const char *corner_name(enum axle_id a, enum side s)
{
    static const char *const names[AXLE_COUNT][SIDE_COUNT] = {
        {"front-left", "front-right"},       {"middle-left", "middle-right"},
        {"rear-left", "rear-right"},         {"trailer-left", "trailer-right"},
        {"trailer2-left", "trailer2-right"},
    };
    return a < AXLE_COUNT && s < SIDE_COUNT ? names[a][s] : "?";
}

bool axle_is_trailer(enum axle_id a)
{
    return a == AXLE_TRAILER || a == AXLE_TRAILER2;
}

bool axle_is_driven(const struct rig *rig, enum axle_id a)
{
    if (axle_is_trailer(a) || !rig->axle[a].present) {
        return false;
    }
    if (rig->driven == DRIVEN_ALL) {
        return true;
    }
    return (a == AXLE_FRONT) == (rig->driven == DRIVEN_FRONT);
}

double rig_gauge_step(const struct rig *rig)
{
    return rig->air.gauge_step_pa > 0.0 ? rig->air.gauge_step_pa : units_step(rig->units);
}

const char *hookup_name(enum hookup h)
{
    static const char *const names[] = {"linked", "pairs", "single"};
    return h < HOOKUP_COUNT ? names[h] : "?";
}
