/* Fine soil: the vehicle cone index where it applies, else pull minus resistance; Brixius and
 * Maclaurin beside it. */
#include "core/flotation_part.h"

/* Beyond this no soil stays fine and soft: the bracket of the root, 10 MPa. */
#define STRONGEST_PA 10e6

/* ---- cross-checks ---- */

static double brixius_needed(const struct soil_wheel *w)
{
    return soil_brixius_strength(w, soil_brixius_limit(SOIL_SLIP_1));
}

static double maclaurin_needed(const struct soil_wheel *w)
{
    return soil_maclaurin_strength(w, SOIL_MACLAURIN_1);
}

static struct flotation_other other(const struct mobility *m, enum flotation_method method,
                                    double (*needed)(const struct soil_wheel *w))
{
    return (struct flotation_other){
        .method = method,
        .needed_road_pa = maybe_of(part_worst(m, AT_ROAD, needed, NULL)),
        .needed_target_pa = maybe_of(part_worst(m, AT_TARGET, needed, NULL)),
    };
}

static struct maybe other_at(const struct flotation_other *o, int at)
{
    return at == AT_ROAD ? o->needed_road_pa : o->needed_target_pa;
}

/* ---- vehicle cone index ---- */

/* The published relation is for vehicles that pull with every axle. */
static bool vci_applies(const struct mobility *m)
{
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (m->axle[a].present && (m->axle[a].trailer || !m->axle[a].driven)) {
            return false;
        }
    }
    return true;
}

struct vci {
    double once_pa, repeated_pa;
    enum axle_id axle;
};

/* Strengths that the worst axle needs with every load scaled, the deflection kept. */
static struct vci vci_at(const struct mobility *m, int at, double scale)
{
    struct vci worst = {0, 0, AXLE_FRONT};
    double total_kg = scale * part_total_kg(m);
    for (int i = 0; i < AXLE_COUNT; i++) {
        const struct mobility_axle *x = &m->axle[i];
        if (!x->present) {
            continue;
        }
        struct soil_axle a = {
            .load_kg = scale * x->load_kg,
            .tyres_1 = x->tyres,
            .diameter_m = x->outside_diameter_m,
            .width_m = x->section_width_m,
            .clearance_m = m->clearance_m,
            .short_of_power = m->power_w > 0 && m->power_w < SOIL_ENOUGH_W_KG * total_kg,
            .manual = m->gearbox == GEARBOX_MANUAL,
        };
        double mi = soil_mobility_index(&a);
        double once_pa = soil_vci1(mi) * soil_deflection_factor(x->deflection_1[at]);
        worst.repeated_pa = fmax(worst.repeated_pa, soil_vci50(mi));
        if (once_pa > worst.once_pa) {
            worst.once_pa = once_pa;
            worst.axle = (enum axle_id)i;
        }
    }
    return worst;
}

struct unloading {
    const struct mobility *m;
    double wanted_pa;
};

static double needed_less_wanted(double scale, const void *with)
{
    const struct unloading *u = with;
    return vci_at(u->m, AT_ROAD, scale).once_pa - u->wanted_pa;
}

/* The mobility index is not proportional to load, so the scale is searched for. */
static struct maybe vci_unload(const struct mobility *m, double road_pa, double target_pa)
{
    struct unloading u = {m, target_pa};
    if (target_pa >= road_pa || needed_less_wanted(0.2, &u) > 0) {
        return maybe_none();
    }
    return maybe_of(part_total_kg(m) * (1.0 - num_bisect(needed_less_wanted, &u, 0.2, 1.0)));
}

static enum passes vci_verdict(const struct flotation *f, int at)
{
    double strength_pa = f->strength_pa.v;
    double once_pa = at == AT_ROAD ? f->needed_road_pa.v : f->needed_target_pa.v;
    bool stuck = strength_pa <= once_pa;
    for (int i = 0; i < f->n_other; i++) {
        if ((strength_pa <= other_at(&f->other[i], at).v) != stuck) {
            return PASSES_UNCERTAIN;
        }
    }
    if (stuck) {
        return PASSES_STICK;
    }
    return strength_pa >= f->repeated_pa.v ? PASSES_REPEATED : PASSES_FEW;
}

static bool any_clamped(const struct mobility *m)
{
    for (int a = 0; a < AXLE_COUNT; a++) {
        const struct mobility_axle *x = &m->axle[a];
        if (x->present && !(soil_deflection_covered(x->deflection_1[AT_ROAD]) &&
                            soil_deflection_covered(x->deflection_1[AT_TARGET]))) {
            return true;
        }
    }
    return false;
}

static void vci_compute(const struct mobility *m, struct flotation *f)
{
    struct vci road = vci_at(m, AT_ROAD, 1.0);
    struct vci target = vci_at(m, AT_TARGET, 1.0);
    f->method = FLOTATION_VCI;
    f->needed_road_pa = maybe_of(road.once_pa);
    f->needed_target_pa = maybe_of(target.once_pa);
    f->repeated_pa = maybe_of(target.repeated_pa);
    f->ruling_axle = target.axle;
    f->mass_equivalent_kg = vci_unload(m, road.once_pa, target.once_pa);
    f->passes = vci_verdict(f, AT_TARGET);
    f->passes_road = vci_verdict(f, AT_ROAD);
    f->deflection_clamped = any_clamped(m);
}

/* ---- pull minus resistance ---- */

static double pull(const struct soil_wheel *w, double strength_pa)
{
    return soil_brixius_net(soil_brixius_number(w, strength_pa), SOIL_SLIP_1);
}

static double rolling(const struct soil_wheel *w, double strength_pa)
{
    return soil_brixius_resistance(soil_brixius_number(w, strength_pa), 0.0);
}

struct pulling {
    const struct mobility *m;
    int at;
};

static double margin(double strength_pa, const void *with)
{
    const struct pulling *p = with;
    return part_margin(p->m, p->at, strength_pa, pull, rolling);
}

/* The strength at margin 0; none when no soil is strong enough, as on a steep slope. */
static struct maybe pull_needed(const struct mobility *m, int at)
{
    struct pulling p = {m, at};
    return margin(STRONGEST_PA, &p) > 0 ? maybe_of(num_bisect(margin, &p, 0.0, STRONGEST_PA))
                                        : maybe_none();
}

static enum passes pull_verdict(double margin_1)
{
    return margin_1 > MARGIN_DOUBT_1    ? PASSES_FEW
           : margin_1 < -MARGIN_DOUBT_1 ? PASSES_STICK
                                        : PASSES_UNCERTAIN;
}

static void pull_compute(const struct mobility *m, struct flotation *f)
{
    f->method = FLOTATION_PULL;
    f->needed_road_pa = pull_needed(m, AT_ROAD);
    f->needed_target_pa = pull_needed(m, AT_TARGET);
    f->gain_1 = part_gain(f->needed_road_pa, f->needed_target_pa);
    f->mass_equivalent_kg = part_unload(m, f);
    f->pull_margin_road_1 = maybe_of(part_margin(m, AT_ROAD, f->strength_pa.v, pull, rolling));
    f->pull_margin_1 = maybe_of(part_margin(m, AT_TARGET, f->strength_pa.v, pull, rolling));
    f->passes = pull_verdict(f->pull_margin_1.v);
    f->passes_road = pull_verdict(f->pull_margin_road_1.v);
    part_worst(m, AT_TARGET, brixius_needed, &f->ruling_axle);
}

/* ---- both ---- */

/* A slick top layer slides whatever lies below. */
static enum passes slid(enum passes p, bool slick)
{
    return slick && p != PASSES_STICK ? PASSES_UNCERTAIN : p;
}

/* Measured or catalogued, else by class and moisture. */
static struct maybe strength_of(const struct ground *g)
{
    if (g->strength_pa.is) {
        return g->strength_pa;
    }
    return g->moisture_1.is ? maybe_of(soil_rci(g->soil, g->moisture_1.v)) : maybe_none();
}

enum status fine_compute(const struct mobility *m, const struct ground *g, struct flotation *f)
{
    f->strength_pa = strength_of(g);
    if (!f->strength_pa.is) {
        return STATUS_E_MISSING;
    }
    f->n_other = 2;
    f->other[0] = other(m, FLOTATION_BRIXIUS, brixius_needed);
    f->other[1] = other(m, FLOTATION_MACLAURIN, maclaurin_needed);
    if (vci_applies(m)) {
        vci_compute(m, f);
    } else {
        pull_compute(m, f);
    }
    f->slick = g->slick;
    f->passes = slid(f->passes, g->slick);
    f->passes_road = slid(f->passes_road, g->slick);
    return f->deflection_clamped ? STATUS_W_CLAMPED : STATUS_OK;
}
