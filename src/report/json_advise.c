#include "report/json_advise.h"

#include "report/json_working.h"

/* A number in a unit, or null where nothing is advised. */
struct put {
    struct json *j;
    bool known;
};

static void put_in(const struct put *p, const char *key, double si, enum quantity q,
                   const char *unit)
{
    if (p->known) {
        json_put_number(p->j, key, units_in(si, q, unit));
    } else {
        json_put_null(p->j, key);
    }
}

static void put_maybe_in(struct json *j, const char *key, struct maybe m, enum quantity q,
                         const char *unit)
{
    const struct put p = {j, m.is};
    put_in(&p, key, m.v, q, unit);
}

static void put_kpa(const struct put *p, const char *key, double pa)
{
    put_in(p, key, pa, Q_PRESSURE, "kPa");
}

static void put_maybe_kpa(struct json *j, const char *key, struct maybe m)
{
    put_maybe_in(j, key, m, Q_PRESSURE, "kPa");
}

static void put_mm(const struct put *p, const char *key, double m)
{
    put_in(p, key, m, Q_LENGTH, "mm");
}

static void put_1(const struct put *p, const char *key, double share_1)
{
    put_in(p, key, share_1, Q_NUMBER, "");
}

static void put_band(const struct put *p, const char *key, double lo, double hi)
{
    if (p->known) {
        json_put_pair(p->j, key, lo, hi);
    } else {
        json_put_null(p->j, key);
    }
}

/* ---- one corner ---- */

static void put_pressures(const struct put *p, const struct axle_advice *x)
{
    put_kpa(p, "road_kpa", x->road_gauge_pa);
    put_maybe_kpa(p->j, "aim_kpa", x->aim_gauge_pa);
    put_kpa(p, "floor_kpa", x->floor_gauge_pa);
    put_kpa(p, "target_kpa", x->target_gauge_pa);
    if (x->at_gauge_pa.is) {
        put_maybe_kpa(p->j, "at_kpa", x->at_gauge_pa);
    }
    put_kpa(p, "set_now_kpa", x->set_now_gauge_pa);
    put_maybe_kpa(p->j, "stuck_kpa", x->stuck_gauge_pa);
    if (p->known) {
        json_put_text(p->j, "bound_by", bound_name(x->bound_by));
    } else {
        json_put_null(p->j, "bound_by");
    }
}

static void put_shape(const struct put *p, const struct corner_advice *c)
{
    put_1(p, "deflection_road", c->road.deflection_1);
    put_1(p, "deflection", c->at.deflection_1);
    put_mm(p, "deflection_mm", c->at.deflection_m);
    put_band(p, "deflection_band", c->deflection_low_1, c->deflection_high_1);
    put_mm(p, "loaded_radius_mm", c->at.loaded_radius_m);
    put_mm(p, "clearance_loss_mm", c->clearance_loss_m);
    put_mm(p, "rolling_radius_mm", c->at.rolling_radius_m);
}

static void put_patch(const struct put *p, const struct corner_advice *c)
{
    put_mm(p, "patch_length_road_mm", c->road.patch.length_m);
    put_mm(p, "patch_length_mm", c->at.patch.length_m);
    put_mm(p, "patch_width_mm", c->at.patch.width_m);
    put_in(p, "patch_area_road_cm2", c->road.patch.area_m2, Q_AREA, "cm2");
    put_in(p, "patch_area_cm2", c->at.patch.area_m2, Q_AREA, "cm2");
    put_1(p, "area_growth", c->area_growth_1);
    put_band(p, "area_growth_band", c->area_growth_low_1, c->area_growth_high_1);
    put_1(p, "length_growth", c->length_growth_1);
    put_band(p, "length_growth_band", c->length_growth_low_1, c->length_growth_high_1);
    put_kpa(p, "ground_pressure_kpa", c->at.patch.mean_pa);
}

static void put_limits(const struct put *p, const struct axle_advice *x,
                       const struct corner_advice *c)
{
    put_in(p, "stiffness_n_mm", x->target_stiffness_n_m, Q_STIFFNESS, "N/mm");
    json_put_maybe(p->j, "capacity_kg", c->at.capacity_kg);
    put_maybe_in(p->j, "standard_speed_kmh", c->standard_speed_mps, Q_SPEED, "km/h");
    put_maybe_in(p->j, "practice_speed_kmh", c->practice_speed_mps, Q_SPEED, "km/h");
}

static void put_corner(struct json *j, const struct advice *a, enum axle_id axle, enum side side)
{
    const struct axle_advice *x = &a->axle[axle];
    const struct corner_advice *c = &x->corner[side];
    const struct put p = {j, a->refusal.code == REFUSAL_NONE};
    json_open_object(j, NULL);
    json_put_text(j, "corner", corner_name(axle, side));
    json_put_number(j, "load_kg", c->load_kg);
    json_put_text(j, "tyre", a->rig.axle[axle].tyre.size.text);
    json_put_integer(j, "tyres", a->rig.axle[axle].wheels / SIDE_COUNT);
    json_put_number(j, "section_height_mm", units_in(x->section_height_m, Q_LENGTH, "mm"));
    put_pressures(&p, x);
    put_shape(&p, c);
    put_patch(&p, c);
    put_limits(&p, x, c);
    json_close(j);
}

/* ---- flotation ---- */

static void put_other(struct json *j, const struct flotation_other *o)
{
    json_open_object(j, NULL);
    json_put_text(j, "method", flotation_method_name(o->method));
    put_maybe_kpa(j, "needed_road_kpa", o->needed_road_pa);
    put_maybe_kpa(j, "needed_target_kpa", o->needed_target_pa);
    json_close(j);
}

static void put_flotation(struct json *j, const struct flotation *f)
{
    json_open_object(j, "flotation");
    json_put_text(j, "method", flotation_method_name(f->method));
    put_maybe_kpa(j, "needed_road_kpa", f->needed_road_pa);
    put_maybe_kpa(j, "needed_target_kpa", f->needed_target_pa);
    json_put_maybe(j, "gain", f->gain_1);
    json_put_maybe(j, "mass_equivalent_kg", f->mass_equivalent_kg);
    put_maybe_kpa(j, "strength_kpa", f->strength_pa);
    json_put_text(j, "passes", passes_name(f->passes));
    json_open_array(j, "other");
    for (int i = 0; i < f->n_other; i++) {
        put_other(j, &f->other[i]);
    }
    json_close(j);
    put_maybe_kpa(j, "mmp_road_kpa", f->mmp_road_pa);
    put_maybe_kpa(j, "mmp_target_kpa", f->mmp_target_pa);
    json_put_maybe(j, "pull_margin", f->pull_margin_1);
    json_close(j);
}

enum status json_advise_put(const struct json_head *head, const struct advice *a,
                            const struct working *working, struct text *out)
{
    struct json j;
    bool refused = a->refusal.code != REFUSAL_NONE;
    json_begin(&j);
    json_part_head(&j, head);
    json_put_text(&j, "ground", a->ground.name);
    put_maybe_in(&j, "speed_cap_kmh", refused ? maybe_none() : a->cap_mps, Q_SPEED, "km/h");
    if (refused) {
        json_put_null(&j, "flotation");
    } else {
        put_flotation(&j, &a->flotation);
    }
    json_open_array(&j, "corners");
    for (int i = 0; i < AXLE_COUNT * SIDE_COUNT; i++) {
        if (a->axle[i / SIDE_COUNT].present) {
            put_corner(&j, a, (enum axle_id)(i / SIDE_COUNT), (enum side)(i % SIDE_COUNT));
        }
    }
    json_close(&j);
    if (working) {
        json_working_put(&j, "working", working);
    }
    return json_end(&j, out);
}
