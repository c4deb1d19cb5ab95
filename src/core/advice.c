/* advice.c - the main job, step by step: loads, refusals, targets, corners, cap, flotation. */
#include "core/advice.h"

#include <math.h>

#include "core/advice_part.h"
#include "core/constants.h"
#include "core/gas.h"
#include "core/speed.h"

#define MET_WITHIN   1e-9 /* share: a limit is met within it */
#define STEP_SLACK_1 1e-6 /* of the gauge step, as in the rounding of targets */

/* What is known before any pressure is. */
struct job {
    struct advice a;
    struct loads loads;
    double step_pa;
    bool sloped;
    double tipping_1;
};

/* ---- inputs ---- */

static bool maybe_within(struct maybe m, double lo, double hi)
{
    return !m.is || (m.v >= lo && m.v <= hi); /* NaN fails */
}

static bool conditions_sound(const struct conditions *c)
{
    bool sound = maybe_within(c->tyre_temp_k, 150.0, 500.0) &&
                 maybe_within(c->air_temp_k, 150.0, 400.0) &&
                 maybe_within(c->speed_mps, 0.0, 200.0) && fabs(c->slope_1) <= 2.0;
    for (int a = 0; a < AXLE_COUNT; a++) {
        struct maybe at = c->at_gauge_pa[a];
        sound = sound && (!at.is || (at.v > 0.0 && at.v <= TYRE_GAUGE_MAX_PA));
    }
    return sound;
}

static bool rig_sound(const struct rig *r)
{
    const double in[] = {r->clearance_m, r->power_w,           r->cg_height_m,        r->track_m,
                         r->wheelbase_m, r->air.gauge_step_pa, r->air.gauge_offset_pa};
    return num_all_finite(sizeof in / sizeof in[0], in);
}

static bool axle_sound(const struct axle *x)
{
    const double in[] = {x->road_gauge_pa, x->road_temp_k, x->floor_gauge_pa, x->rim_width_m,
                         x->rating_kg};
    return num_all_finite(5, in) && x->road_gauge_pa > 0.0 &&
           x->road_gauge_pa <= TYRE_GAUGE_MAX_PA && x->road_temp_k > 0.0 &&
           x->floor_gauge_pa >= 0.0 && x->rim_width_m >= 0.0;
}

/* The tyre as the model takes it: a tape height without its load was taken at the load as the
 * profile has it (items switched off in a session change nothing), and paired tyres without a
 * moulded load go by their second index. */
static void complete_spec(struct axle *x, double calibration_kg)
{
    struct tyre_spec *t = &x->tyre;
    if (t->cal.cal_gauge_pa > 0.0 && t->cal.cal_load_kg <= 0.0) {
        t->cal.cal_load_kg = calibration_kg;
    }
    if (x->wheels == 4 && t->max_load_kg <= 0.0 && t->load_index == 0) {
        t->load_index = t->size.load_index_dual;
    }
}

static enum status set_axle(struct job *j, enum axle_id id, double calibration_kg)
{
    struct axle *axle = &j->a.rig.axle[id];
    struct axle_advice *x = &j->a.axle[id];
    const struct axle_load *l = &j->loads.axle[id];
    if (!axle_sound(axle)) {
        return STATUS_E_DOMAIN;
    }
    complete_spec(axle, calibration_kg);
    enum status s = tyre_init(&axle->tyre, &x->tyre);
    if (s < 0) {
        return s;
    }
    x->present = true;
    x->load_kg = l->load_kg;
    x->heavier_kg = l->heavier_kg;
    x->section_height_m = x->tyre.section_height_m;
    x->corner[SIDE_LEFT].load_kg = l->per_tyre_kg[SIDE_LEFT];
    x->corner[SIDE_RIGHT].load_kg = l->per_tyre_kg[SIDE_RIGHT];
    return STATUS_OK;
}

static enum status set_axles(struct job *j)
{
    struct loads whole;
    enum status s = load_axles(&j->a.rig, false, &j->loads);
    if (s == STATUS_OK) {
        s = load_axles(&j->a.rig, true, &whole);
    }
    for (int a = 0; a < AXLE_COUNT && s == STATUS_OK; a++) {
        if (j->loads.axle[a].present) {
            s = set_axle(j, (enum axle_id)a, whole.axle[a].heavier_kg);
        }
    }
    return s;
}

static enum status begin(struct job *j, const struct rig *rig, const struct ground *ground,
                         const struct conditions *conditions)
{
    *j = (struct job){.a = {.rig = *rig, .ground = *ground, .conditions = *conditions}};
    j->step_pa = rig_gauge_step(rig);
    if (!conditions_sound(conditions) || !rig_sound(rig) ||
        !maybe_within(ground->cap_mps, 0.0, 200.0)) {
        return STATUS_E_DOMAIN;
    }
    enum status s = gas_ambient(maybe_or(conditions->height_m, 0.0), &j->a.ambient_abs_pa);
    if (s == STATUS_OK && conditions->cross_slope_rad.is) {
        j->sloped = true;
        s = load_tipping(rig, conditions->cross_slope_rad.v, &j->tipping_1);
    }
    return s == STATUS_OK ? set_axles(j) : s;
}

/* ---- refusals ---- */

/* Capacity alone is told of a rig that nothing is advised for; at its road pressure. */
static void set_capacity(struct job *j)
{
    for (int a = 0; a < AXLE_COUNT; a++) {
        struct axle_advice *x = &j->a.axle[a];
        double kg = 0.0;
        if (x->present && tyre_capacity(&x->tyre, j->a.rig.axle[a].road_gauge_pa, &kg) >= 0) {
            for (int side = 0; side < SIDE_COUNT; side++) {
                x->corner[side].road.capacity_kg = maybe_of(kg);
                x->corner[side].at.capacity_kg = maybe_of(kg);
            }
        }
    }
}

/* Everything but loads and capacities goes back to zero. */
static enum status refuse(struct job *j, const struct refusal *r)
{
    for (int a = 0; a < AXLE_COUNT; a++) {
        struct axle_advice *x = &j->a.axle[a];
        struct axle_advice kept = {.present = x->present,
                                   .load_kg = x->load_kg,
                                   .heavier_kg = x->heavier_kg,
                                   .tyre = x->tyre,
                                   .section_height_m = x->section_height_m};
        for (int side = 0; side < SIDE_COUNT; side++) {
            kept.corner[side].load_kg = x->corner[side].load_kg;
        }
        *x = kept;
    }
    j->a.refusal = *r;
    set_capacity(j);
    advice_raise_refused(&j->a, &j->loads);
    return STATUS_E_REFUSED;
}

static enum status check_refusals(struct job *j)
{
    struct tyre tyre[AXLE_COUNT];
    struct refusal r = {.code = REFUSAL_NONE};
    for (int a = 0; a < AXLE_COUNT; a++) {
        tyre[a] = j->a.axle[a].tyre;
    }
    if (load_check(&j->a.rig, &j->loads, tyre, &r) == STATUS_E_REFUSED) {
        return refuse(j, &r);
    }
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (j->a.axle[a].present && j->a.rig.axle[a].wheel == WHEEL_MULTI_PIECE) {
            r = (struct refusal){
                .code = REFUSAL_MULTI_PIECE, .axle = (enum axle_id)a, .has_axle = true};
            return refuse(j, &r);
        }
    }
    if (j->sloped && j->tipping_1 >= LOAD_TIPPING_1 - MET_WITHIN) {
        r = (struct refusal){.code = REFUSAL_SIDE_SLOPE, .share_1 = j->tipping_1};
        return refuse(j, &r);
    }
    return STATUS_OK;
}

/* A pressure below every floor, or one that deflects the tyre past a third, is refused. */
static enum status check_judged(struct job *j, enum axle_id id, double least_pa)
{
    const struct axle_advice *x = &j->a.axle[id];
    double p_pa = advice_judged_pa(x), d_m = 0.0;
    if (tyre_deflection(&x->tyre, x->heavier_kg * GRAVITY_M_S2, p_pa, &d_m) < 0) {
        return STATUS_E_DOMAIN;
    }
    struct refusal r = {
        .code = REFUSAL_TOO_LOW, .axle = id, .has_axle = true, .have_gauge_pa = p_pa};
    r.share_1 = d_m / x->section_height_m;
    if (x->at_gauge_pa.is && p_pa < least_pa - STEP_SLACK_1 * j->step_pa) {
        r.least_gauge_pa = least_pa;
        return refuse(j, &r);
    }
    return r.share_1 > TARGET_REFUSE_1 + MET_WITHIN ? refuse(j, &r) : STATUS_OK;
}

/* ---- pressures ---- */

static enum status set_target(struct job *j, enum axle_id id, struct target *t)
{
    const struct axle *axle = &j->a.rig.axle[id];
    const struct axle_advice *x = &j->a.axle[id];
    struct target_question q = {
        .tyre = &x->tyre,
        .ground = &j->a.ground,
        .wheel = axle->wheel,
        .trailer = axle_is_trailer(id),
        .rim_fits = target_rim_fits(axle->rim_width_m, x->tyre.section_width_m),
        .load_kg = x->heavier_kg,
        .road_gauge_pa = axle->road_gauge_pa,
        .maker_floor_gauge_pa = axle->floor_gauge_pa,
        .step_pa = j->step_pa,
    };
    if (j->sloped) {
        q.side_load_kg =
            load_downhill_kg(&j->loads.axle[id], j->a.conditions.cross_slope_rad.v, j->tipping_1);
    }
    return target_compute(&q, t);
}

/* The least that any choice of the driver's may be: a lower pressure is refused. */
static enum status set_least(struct axle_advice *x, const struct target *t)
{
    double third_pa = 0.0;
    enum status s = tyre_pressure_for_deflection(&x->tyre, x->heavier_kg * GRAVITY_M_S2,
                                                 TARGET_REFUSE_1 * x->section_height_m, &third_pa);
    x->least_gauge_pa = fmax(t->least_gauge_pa, third_pa);
    return s;
}

/* The reading to set now, on a gauge that may read high, with tyres that may be warm (A10). */
static enum status set_reading(struct job *j, enum axle_id id)
{
    struct axle_advice *x = &j->a.axle[id];
    const struct conditions *c = &j->a.conditions;
    double road_k = j->a.rig.axle[id].road_temp_k;
    double tyre_k = maybe_or(c->tyre_temp_k, maybe_or(c->air_temp_k, road_k));
    double pa = j->a.ambient_abs_pa, reading_pa = 0.0;
    enum status s = gas_gauge_moved(x->target_gauge_pa, road_k, pa, tyre_k, pa, &reading_pa);
    j->a.tyre_temp_k[id] = tyre_k;
    x->set_now_gauge_pa = reading_pa + j->a.rig.air.gauge_offset_pa;
    return s;
}

static void keep_target(struct axle_advice *x, const struct target *t)
{
    x->aim_gauge_pa = t->aim_gauge_pa;
    x->floor_gauge_pa = t->floor_gauge_pa;
    x->deflection_floor_gauge_pa = t->deflection_floor_gauge_pa;
    x->bead_floor_gauge_pa = t->bead_floor_gauge_pa;
    x->maker_floor_gauge_pa = t->maker_floor_gauge_pa;
    x->side_slope_floor_gauge_pa = t->side_slope_floor_gauge_pa;
    x->target_gauge_pa = t->target_gauge_pa;
    x->stuck_gauge_pa = t->stuck_gauge_pa;
    x->bound_by = t->bound_by;
}

static enum status advise_axle(struct job *j, enum axle_id id)
{
    struct axle_advice *x = &j->a.axle[id];
    struct target t;
    enum status s = set_target(j, id, &t);
    if (s < 0) {
        return s;
    }
    keep_target(x, &t);
    if (set_least(x, &t) < 0 ||
        tyre_stiffness(&x->tyre, x->target_gauge_pa, &x->target_stiffness_n_m) < 0) {
        return STATUS_E_DOMAIN;
    }
    double table_pa = 0.0;
    if (tyre_pressure_for_load(&x->tyre, x->heavier_kg, &table_pa) >= 0) {
        x->table_gauge_pa = maybe_of(table_pa);
    }
    x->road_gauge_pa = j->a.rig.axle[id].road_gauge_pa;
    x->at_gauge_pa = j->a.conditions.at_gauge_pa[id];
    s = set_reading(j, id);
    if (s == STATUS_OK) {
        s = check_judged(j, id, t.least_gauge_pa);
    }
    for (int side = 0; side < SIDE_COUNT && s == STATUS_OK; side++) {
        s = advice_corner(x, &j->a.rig.axle[id], advice_judged_pa(x), &x->corner[side]);
    }
    return s;
}

/* ---- the whole rig ---- */

static void take_cap(struct advice *a, struct maybe mps, enum cap_by by, enum axle_id axle)
{
    if (mps.is && (!a->cap_mps.is || mps.v < a->cap_mps.v)) {
        a->cap_mps = mps;
        a->cap_by = by;
        a->cap_axle = axle;
    }
}

static void set_cap(struct advice *a)
{
    take_cap(a, a->ground.cap_mps, CAP_GROUND, AXLE_FRONT);
    for (int i = 0; i < AXLE_COUNT; i++) {
        for (int side = 0; a->axle[i].present && side < SIDE_COUNT; side++) {
            const struct corner_advice *c = &a->axle[i].corner[side];
            take_cap(a, c->deflection_cap_mps, CAP_DEFLECTION, (enum axle_id)i);
            take_cap(a, c->retention_cap_mps, CAP_RETENTION, (enum axle_id)i);
        }
    }
}

static double mean_of(double left, double right)
{
    return (left + right) / 2.0;
}

static struct mobility_axle mobility_of(const struct advice *a, enum axle_id id)
{
    const struct axle_advice *x = &a->axle[id];
    const struct corner_advice *l = &x->corner[SIDE_LEFT], *r = &x->corner[SIDE_RIGHT];
    return (struct mobility_axle){
        .present = true,
        .driven = axle_is_driven(&a->rig, id),
        .trailer = axle_is_trailer(id),
        .load_kg = x->load_kg,
        .tyres = a->rig.axle[id].wheels,
        .outside_diameter_m = 2.0 * x->tyre.r0_m,
        .section_width_m = x->tyre.section_width_m,
        .section_height_m = x->section_height_m,
        .deflection_1 = {mean_of(l->road.deflection_1, r->road.deflection_1),
                         mean_of(l->at.deflection_1, r->at.deflection_1)},
        .patch_area_m2 = {mean_of(l->road.patch.area_m2, r->road.patch.area_m2),
                          mean_of(l->at.patch.area_m2, r->at.patch.area_m2)},
        .patch_length_m = {mean_of(l->road.patch.length_m, r->road.patch.length_m),
                           mean_of(l->at.patch.length_m, r->at.patch.length_m)},
    };
}

/* A ground that does not tell its strength has no flotation; the pressures stand without it. */
static enum status set_flotation(struct advice *a)
{
    struct mobility m = {.clearance_m = a->rig.clearance_m,
                         .power_w = a->rig.power_w,
                         .gearbox = a->rig.gearbox,
                         .slope_1 = a->conditions.slope_1};
    for (int i = 0; i < AXLE_COUNT; i++) {
        if (a->axle[i].present) {
            m.axle[i] = mobility_of(a, (enum axle_id)i);
        }
    }
    enum status s = flotation_compute(&m, &a->ground, &a->flotation);
    return s == STATUS_E_MISSING || s >= 0 ? STATUS_OK : s;
}

static enum status advise(struct job *j)
{
    enum status s = check_refusals(j);
    for (int a = 0; a < AXLE_COUNT && s == STATUS_OK; a++) {
        if (j->a.axle[a].present) {
            s = advise_axle(j, (enum axle_id)a);
        }
    }
    if (s != STATUS_OK) {
        return s;
    }
    set_cap(&j->a);
    s = set_flotation(&j->a);
    if (s == STATUS_OK) {
        advice_raise(&j->a, &j->loads);
    }
    return s;
}

enum status advice_compute(const struct rig *rig, const struct ground *ground,
                           const struct conditions *conditions, struct advice *a)
{
    struct job j;
    enum status s = begin(&j, rig, ground, conditions);
    if (s == STATUS_OK) {
        s = advise(&j);
    }
    if (s == STATUS_OK || s == STATUS_E_REFUSED) {
        *a = j.a;
    }
    return s;
}
