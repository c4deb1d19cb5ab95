/* What one corner does at its road pressure and at the pressure that is judged. */
#include <math.h>

#include "core/advice_part.h"
#include "core/constants.h"
#include "core/speed.h"

#define GROWTH_ERROR_1 0.05 /* least half-width of the band of the area growth, own (A6) */

double advice_judged_pa(const struct axle_advice *x)
{
    return maybe_or(x->at_gauge_pa, x->target_gauge_pa);
}

static enum status state_at(const struct tyre *t, double load_kg, double p_gauge_pa,
                            struct corner_state *out)
{
    double load_n = load_kg * GRAVITY_M_S2, capacity_kg = 0.0;
    struct corner_state s = {.p_gauge_pa = p_gauge_pa};
    if (tyre_stiffness(t, p_gauge_pa, &s.stiffness_n_m) < 0 ||
        tyre_deflection(t, load_n, p_gauge_pa, &s.deflection_m) < 0 ||
        tyre_patch_at(t, load_n, s.deflection_m, &s.patch) < 0 ||
        tyre_rolling_radius(t, s.deflection_m, &s.rolling_radius_m) < 0) {
        return STATUS_E_DOMAIN;
    }
    s.deflection_1 = s.deflection_m / t->section_height_m;
    s.loaded_radius_m = t->r0_m - s.deflection_m;
    if (tyre_capacity(t, p_gauge_pa, &capacity_kg) >= 0) {
        s.capacity_kg = maybe_of(capacity_kg);
    }
    *out = s;
    return STATUS_OK;
}

/* The bands of A6 and A7: an error common to both pressures cancels in the ratio of the areas. */
static enum status set_bands(const struct tyre *t, struct corner_advice *c)
{
    double at_1 = 0.0, road_1 = 0.0;
    if (tyre_deflection_error(t, c->at.p_gauge_pa, &at_1) < 0 ||
        tyre_deflection_error(t, c->road.p_gauge_pa, &road_1) < 0) {
        return STATUS_E_DOMAIN;
    }
    const struct tyre_patch *road = &c->road.patch, *at = &c->at.patch;
    double spread_1 = fmax(GROWTH_ERROR_1, fabs(at_1 - road_1));
    double alone_1 = at->length_alone_m / road->length_alone_m;
    c->deflection_low_1 = c->at.deflection_1 * (1.0 - at_1);
    c->deflection_high_1 = c->at.deflection_1 * (1.0 + at_1);
    c->clearance_loss_m = c->at.deflection_m - c->road.deflection_m;
    c->area_growth_1 = at->area_m2 / road->area_m2;
    c->area_growth_low_1 = c->area_growth_1 * (1.0 - spread_1);
    c->area_growth_high_1 = c->area_growth_1 * (1.0 + spread_1);
    c->length_growth_1 = at->length_m / road->length_m;
    c->length_growth_low_1 = fmin(alone_1, c->length_growth_1);
    c->length_growth_high_1 = fmax(alone_1, c->length_growth_1);
    return STATUS_OK;
}

static enum status set_speeds(const struct axle *axle, struct corner_advice *c)
{
    c->retention_1 = c->at.p_gauge_pa / c->road.p_gauge_pa;
    c->deflection_cap_mps = speed_deflection_cap(c->at.deflection_1);
    c->retention_cap_mps = speed_retention_cap(c->retention_1);
    c->practice_speed_mps = speed_lower(c->deflection_cap_mps, c->retention_cap_mps);
    c->standard_speed_mps = maybe_none();
    if (!c->at.capacity_kg.is) {
        return STATUS_OK;
    }
    return speed_standard(&axle->tyre, axle->wheels == 4, c->load_kg, c->at.capacity_kg.v,
                          &c->standard_speed_mps);
}

enum status advice_corner(const struct axle_advice *x, const struct axle *axle, double p_gauge_pa,
                          struct corner_advice *c)
{
    enum status s = state_at(&x->tyre, c->load_kg, x->road_gauge_pa, &c->road);
    if (s == STATUS_OK) {
        s = state_at(&x->tyre, c->load_kg, p_gauge_pa, &c->at);
    }
    if (s == STATUS_OK) {
        s = set_bands(&x->tyre, c);
    }
    return s == STATUS_OK ? set_speeds(axle, c) : s;
}
