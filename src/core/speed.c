#include "core/speed.h"

#include <math.h>
#include <stddef.h>

#include "base/units.h"
#include "core/loadindex.h"

#define MET_WITHIN 1e-9 /* a threshold is met within this share */

enum { NO_CAP = -1 };

struct band {
    double edge_1;
    int kmh;
};

/* Deflection up to the edge, common practice. */
static const struct band DEFLECTION[] = {{0.15, NO_CAP}, {0.17, 80}, {0.22, 50},
                                         {0.25, 30},     {0.29, 20}, {0.33, 8}};
/* Share of road pressure from the edge on, common practice. */
static const struct band RETENTION[] = {{0.80, NO_CAP}, {0.65, 80}, {0.50, 50}, {0.40, 30}};
#define RETENTION_LEAST_KMH 15

static struct maybe cap_of(int kmh)
{
    return kmh == NO_CAP ? maybe_none() : maybe_of(kmh * UNITS_MPS_PER_KMH);
}

struct maybe speed_deflection_cap(double deflection_1)
{
    for (size_t i = 0; i < sizeof DEFLECTION / sizeof DEFLECTION[0]; i++) {
        if (deflection_1 <= DEFLECTION[i].edge_1 + MET_WITHIN) {
            return cap_of(DEFLECTION[i].kmh);
        }
    }
    return maybe_of(0.0);
}

struct maybe speed_retention_cap(double retention_1)
{
    for (size_t i = 0; i < sizeof RETENTION / sizeof RETENTION[0]; i++) {
        if (retention_1 >= RETENTION[i].edge_1 - MET_WITHIN) {
            return cap_of(RETENTION[i].kmh);
        }
    }
    return cap_of(RETENTION_LEAST_KMH);
}

struct maybe speed_lower(struct maybe a, struct maybe b)
{
    if (!a.is || !b.is) {
        return a.is ? a : b;
    }
    return a.v <= b.v ? a : b;
}

int speed_load_index(const struct tyre_spec *spec, bool dual)
{
    int li = spec->load_index;
    if (li == 0) {
        bool second = dual && spec->size.load_index_dual != 0;
        li = second ? spec->size.load_index_dual : spec->size.load_index;
    }
    if (li == 0 && loadindex_for_kg(spec->max_load_kg, &li) < 0) {
        return 0;
    }
    return li;
}

const char *speed_symbol(const struct tyre_spec *spec)
{
    return spec->speed_symbol[0] != '\0' ? spec->speed_symbol : spec->size.speed_symbol;
}

enum status speed_standard(const struct tyre_spec *spec, bool dual, double load_kg,
                           double capacity_kg, struct maybe *speed_mps)
{
    if (!isfinite(load_kg) || !isfinite(capacity_kg) || load_kg <= 0.0 || capacity_kg <= 0.0) {
        return STATUS_E_DOMAIN;
    }
    int li = speed_load_index(spec, dual);
    if (li == 0) {
        *speed_mps = maybe_none();
        return STATUS_OK;
    }
    double mps = 0.0;
    enum status s =
        loadindex_bonus_speed(li, speed_symbol(spec), load_kg / capacity_kg - 1.0, &mps);
    if (s < 0) {
        return s;
    }
    *speed_mps = s == STATUS_W_CLAMPED ? maybe_none() : maybe_of(mps);
    return STATUS_OK;
}
