/* Sand: the sand number of the driven wheels, with the towed resistance of the rest. */
#include "core/flotation_part.h"

#define BAND_1 1.3 /* the sand pull is known to +-30 %, reference */

static double needed(const struct soil_wheel *w)
{
    return soil_sand_strength(w, soil_sand_number_for(SOIL_SAND_PULL_1));
}

static double pull(const struct soil_wheel *w, double strength_pa)
{
    return soil_sand_pull(soil_sand_number(w, strength_pa));
}

static enum passes verdict(double strength_pa, double needed_pa, double margin_1)
{
    if (strength_pa < needed_pa / BAND_1 || margin_1 < -MARGIN_DOUBT_1) {
        return PASSES_STICK;
    }
    return strength_pa >= BAND_1 * needed_pa && margin_1 > 0 ? PASSES_FEW : PASSES_UNCERTAIN;
}

/* Measured or catalogued, else by the moisture of clean sand. */
static struct maybe strength_of(const struct ground *g)
{
    if (g->strength_pa.is) {
        return g->strength_pa;
    }
    return g->moisture_1.is ? maybe_of(soil_clean_sand(g->moisture_1.v)) : maybe_none();
}

enum status sand_compute(const struct mobility *m, const struct ground *g, struct flotation *f)
{
    f->strength_pa = strength_of(g);
    if (!f->strength_pa.is) {
        return STATUS_E_MISSING;
    }
    double strength_pa = f->strength_pa.v;
    f->method = FLOTATION_SAND_NUMBER;
    f->needed_road_pa = maybe_of(part_worst(m, AT_ROAD, needed, NULL));
    f->needed_target_pa = maybe_of(part_worst(m, AT_TARGET, needed, &f->ruling_axle));
    f->gain_1 = part_gain(f->needed_road_pa, f->needed_target_pa);
    f->mass_equivalent_kg = part_unload(m, f);
    f->pull_margin_road_1 = maybe_of(part_margin(m, AT_ROAD, strength_pa, pull, soil_sand_towed));
    f->pull_margin_1 = maybe_of(part_margin(m, AT_TARGET, strength_pa, pull, soil_sand_towed));
    f->passes = verdict(strength_pa, f->needed_target_pa.v, f->pull_margin_1.v);
    f->passes_road = verdict(strength_pa, f->needed_road_pa.v, f->pull_margin_road_1.v);
    return STATUS_OK;
}
