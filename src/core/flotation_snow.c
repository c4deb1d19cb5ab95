/* Snow and ice: shallow-snow traction and sinkage. No needed strength, so no gain: the verdict is
 * never better than uncertain. */
#include "core/flotation_part.h"

#include "core/constants.h"

static bool areas_are_sound(const struct mobility *m)
{
    for (int a = 0; a < AXLE_COUNT; a++) {
        for (int at = AT_ROAD; m->axle[a].present && at <= AT_TARGET; at++) {
            double area_m2 = m->axle[a].patch_area_m2[at];
            if (!(isfinite(area_m2) && area_m2 > 0)) {
                return false;
            }
        }
    }
    return true;
}

static enum soil_snow line_of(const struct ground *g)
{
    if (g->kind == GROUND_ICE) {
        return SOIL_SNOW_ICE;
    }
    return g->snow_density_kg_m3.v >= SOIL_PACKED_KG_M3 ? SOIL_SNOW_PACKED : SOIL_SNOW_FRESH;
}

/* Contact pressure square to the slope, CRREL 95-1 example 2. */
static double pressure_pa(const struct mobility *m, const struct mobility_axle *a, int at)
{
    double sine = part_sine(m);
    return part_wheel(a, at).load_n * sqrt(1.0 - sine * sine) / a->patch_area_m2[at];
}

/* Traction over load, averaged over the driven load. */
static double traction_1(const struct mobility *m, enum soil_snow line, int at)
{
    double pull_kg = 0;
    double driven_kg = 0;
    for (int i = 0; i < AXLE_COUNT; i++) {
        const struct mobility_axle *a = &m->axle[i];
        if (part_pulls(a)) {
            double stress_pa = soil_snow_traction(line, pressure_pa(m, a, at));
            double load_n = part_wheel(a, at).load_n;
            pull_kg += a->load_kg * stress_pa * a->patch_area_m2[at] / load_n;
            driven_kg += a->load_kg;
        }
    }
    return pull_kg / driven_kg;
}

static double sinkage_m(const struct mobility *m, const struct ground *g, int at)
{
    double worst_m = 0;
    for (int i = 0; i < AXLE_COUNT; i++) {
        if (m->axle[i].present) {
            worst_m = fmax(worst_m, soil_snow_sinkage(g->snow_depth_m.v, g->snow_density_kg_m3.v,
                                                      pressure_pa(m, &m->axle[i], at)));
        }
    }
    return worst_m;
}

/* What holds the leading tyres, of the whole load; the others roll in their ruts. Indicative. */
static double resistance_1(const struct mobility *m, const struct ground *g, int at)
{
    int lead = 0;
    while (!m->axle[lead].present) {
        lead++;
    }
    const struct mobility_axle *a = &m->axle[lead];
    struct soil_wheel w = part_wheel(a, at);
    double radius_m = 0.5 * w.diameter_m - w.deflection_m;
    double z_m =
        soil_snow_sinkage(g->snow_depth_m.v, g->snow_density_kg_m3.v, pressure_pa(m, a, at));
    double arc_m = radius_m * acos(1.0 - fmin(z_m, radius_m) / radius_m);
    double r_n = soil_snow_resistance(g->snow_density_kg_m3.v, w.width_m, arc_m);
    return r_n * a->tyres / (part_total_kg(m) * GRAVITY_M_S2);
}

/* Pull that is left: traction of the driven share, less what the snow holds, slope and what is kept. */
static double margin_1(const struct mobility *m, double traction, double held)
{
    double driven_kg = 0;
    for (int a = 0; a < AXLE_COUNT; a++) {
        const struct mobility_axle *x = &m->axle[a];
        driven_kg += part_pulls(x) ? x->load_kg : 0;
    }
    return traction * driven_kg / part_total_kg(m) - held - part_sine(m) - MARGIN_KEPT_1;
}

/* Undercarriage drag holds a vehicle when it sinks to its clearance. */
static enum passes verdict(const struct mobility *m, double z_m)
{
    return z_m > 0.9 * m->clearance_m ? PASSES_STICK : PASSES_UNCERTAIN;
}

enum status snow_compute(const struct mobility *m, const struct ground *g, struct flotation *f)
{
    if (g->kind == GROUND_SNOW && !(g->snow_density_kg_m3.is && g->snow_depth_m.is)) {
        return STATUS_E_MISSING;
    }
    if (!areas_are_sound(m)) {
        return STATUS_E_DOMAIN;
    }
    enum soil_snow line = line_of(g);
    f->traction_road_1 = maybe_of(traction_1(m, line, AT_ROAD));
    f->traction_target_1 = maybe_of(traction_1(m, line, AT_TARGET));
    bool snow = line != SOIL_SNOW_ICE;
    f->pull_margin_road_1 =
        maybe_of(margin_1(m, f->traction_road_1.v, snow ? resistance_1(m, g, AT_ROAD) : 0));
    f->pull_margin_1 =
        maybe_of(margin_1(m, f->traction_target_1.v, snow ? resistance_1(m, g, AT_TARGET) : 0));
    f->passes = PASSES_UNCERTAIN;
    f->passes_road = PASSES_UNCERTAIN;
    if (snow) {
        f->method = FLOTATION_SHALLOW_SNOW;
        f->sinkage_m = maybe_of(sinkage_m(m, g, AT_TARGET));
        f->passes = verdict(m, f->sinkage_m.v);
        f->passes_road = verdict(m, sinkage_m(m, g, AT_ROAD));
    }
    return STATUS_OK;
}
