#include "core/flotation.h"

#include "core/constants.h"
#include "core/flotation_part.h"

/* ---- shared by the methods ---- */

struct soil_wheel part_wheel(const struct mobility_axle *a, int at)
{
    return (struct soil_wheel){
        .load_n = a->load_kg * GRAVITY_M_S2 / a->tyres,
        .diameter_m = a->outside_diameter_m,
        .width_m = a->section_width_m,
        .section_height_m = a->section_height_m,
        .deflection_m = a->deflection_1[at] * a->section_height_m,
    };
}

double part_total_kg(const struct mobility *m)
{
    double kg = 0;
    for (int a = 0; a < AXLE_COUNT; a++) {
        kg += m->axle[a].present ? m->axle[a].load_kg : 0;
    }
    return kg;
}

double part_sine(const struct mobility *m)
{
    double slope = fmax(0.0, m->slope_1);
    return slope / sqrt(1.0 + slope * slope);
}

bool part_pulls(const struct mobility_axle *a)
{
    return a->present && a->driven && !a->trailer;
}

double part_worst(const struct mobility *m, int at, double (*needed)(const struct soil_wheel *w),
                  enum axle_id *axle)
{
    double worst_pa = 0;
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (!part_pulls(&m->axle[a])) {
            continue;
        }
        struct soil_wheel w = part_wheel(&m->axle[a], at);
        double pa = needed(&w);
        if (pa > worst_pa) {
            worst_pa = pa;
            if (axle) {
                *axle = (enum axle_id)a;
            }
        }
    }
    return worst_pa;
}

double part_margin(const struct mobility *m, int at, double strength_pa,
                   double (*pull)(const struct soil_wheel *w, double strength_pa),
                   double (*resistance)(const struct soil_wheel *w, double strength_pa))
{
    double sum_kg = 0;
    for (int a = 0; a < AXLE_COUNT; a++) {
        const struct mobility_axle *x = &m->axle[a];
        if (!x->present) {
            continue;
        }
        struct soil_wheel w = part_wheel(x, at);
        double share = part_pulls(x) ? pull(&w, strength_pa) : -resistance(&w, strength_pa);
        sum_kg += x->load_kg * share;
    }
    return sum_kg / part_total_kg(m) - part_sine(m) - MARGIN_KEPT_1;
}

struct maybe part_gain(struct maybe road_pa, struct maybe target_pa)
{
    return road_pa.is && target_pa.is ? maybe_of(1.0 - target_pa.v / road_pa.v) : maybe_none();
}

struct maybe part_unload(const struct mobility *m, const struct flotation *f)
{
    if (!f->gain_1.is || f->gain_1.v <= 0 || f->gain_1.v > 0.8) {
        return maybe_none();
    }
    return maybe_of(part_total_kg(m) * f->gain_1.v);
}

/* ---- mean maximum pressure ---- */

static struct maybe mmp_at(const struct mobility *m, int at)
{
    int axles = 0;
    int driven = 0;
    for (int a = 0; a < AXLE_COUNT; a++) {
        axles += m->axle[a].present && !m->axle[a].trailer;
        driven += part_pulls(&m->axle[a]);
    }
    struct maybe k = soil_mmp_factor(axles, driven);
    if (!k.is) {
        return k;
    }
    double worst_pa = 0;
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (m->axle[a].present && !m->axle[a].trailer) {
            struct soil_wheel w = part_wheel(&m->axle[a], at);
            worst_pa = fmax(worst_pa, soil_mmp(&w, k.v));
        }
    }
    return maybe_of(worst_pa);
}

/* ---- the door ---- */

static bool positive(double x)
{
    return isfinite(x) && x > 0;
}

static bool axle_is_sound(const struct mobility_axle *a)
{
    const bool deflected = positive(a->deflection_1[AT_ROAD]) && a->deflection_1[AT_ROAD] < 1 &&
                           positive(a->deflection_1[AT_TARGET]) && a->deflection_1[AT_TARGET] < 1;
    return deflected && positive(a->load_kg) && a->tyres >= 1 && positive(a->outside_diameter_m) &&
           positive(a->section_width_m) && positive(a->section_height_m) &&
           2.0 * a->section_height_m < a->outside_diameter_m;
}

static enum status check_vehicle(const struct mobility *m)
{
    const double x[] = {m->clearance_m, m->power_w, m->slope_1};
    if (!num_all_finite(3, x) || m->clearance_m < 0 || m->power_w < 0) {
        return STATUS_E_DOMAIN;
    }
    bool any = false;
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (m->axle[a].present && !axle_is_sound(&m->axle[a])) {
            return STATUS_E_DOMAIN;
        }
        any = any || part_pulls(&m->axle[a]);
    }
    return any ? STATUS_OK : STATUS_E_MISSING;
}

static bool ground_is_finite(const struct ground *g)
{
    const double x[] = {maybe_or(g->strength_pa, 1), maybe_or(g->moisture_1, 1),
                        maybe_or(g->snow_density_kg_m3, 1), maybe_or(g->snow_depth_m, 1)};
    for (int i = 0; i < 4; i++) {
        if (!positive(x[i])) {
            return false;
        }
    }
    return true;
}

static enum status by_kind(const struct mobility *m, const struct ground *g, struct flotation *f)
{
    switch (g->kind) {
    case GROUND_FINE:
        return fine_compute(m, g, f);
    case GROUND_SAND:
        return sand_compute(m, g, f);
    case GROUND_SNOW:
    case GROUND_ICE:
        return snow_compute(m, g, f);
    case GROUND_FIRM:
        return STATUS_OK;
    }
    return STATUS_E_DOMAIN;
}

enum status flotation_compute(const struct mobility *m, const struct ground *g, struct flotation *f)
{
    enum status s = check_vehicle(m);
    if (s != STATUS_OK) {
        return s;
    }
    if (!ground_is_finite(g)) {
        return STATUS_E_DOMAIN;
    }
    struct mobility taken = *m;
    taken.clearance_m = m->clearance_m > 0 ? m->clearance_m : FLOTATION_CLEARANCE_M;
    struct flotation made = {
        .method = FLOTATION_NONE, .passes = PASSES_NA, .passes_road = PASSES_NA};
    s = by_kind(&taken, g, &made);
    if (s < 0) {
        return s;
    }
    made.gain_1 = part_gain(made.needed_road_pa, made.needed_target_pa);
    made.mmp_road_pa = mmp_at(m, AT_ROAD); /* of the vehicle, whatever the ground */
    made.mmp_target_pa = mmp_at(m, AT_TARGET);
    bool clearance_used = made.method == FLOTATION_VCI || made.method == FLOTATION_SHALLOW_SNOW;
    made.clearance_assumed = clearance_used && m->clearance_m == 0;
    *f = made;
    return s == STATUS_OK && made.clearance_assumed ? STATUS_W_ASSUMED : s;
}

const char *flotation_method_name(enum flotation_method m)
{
    static const char *const names[] = {
        "none",         "vci",     "sand-number", "pull-minus-resistance",
        "shallow-snow", "brixius", "maclaurin",
    };
    return m <= FLOTATION_MACLAURIN ? names[m] : "?";
}

const char *passes_name(enum passes p)
{
    static const char *const names[] = {
        "not applicable", "repeatedly", "a few", "uncertain", "likely to stick",
    };
    return p <= PASSES_STICK ? names[p] : "?";
}
