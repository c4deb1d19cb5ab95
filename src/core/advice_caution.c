/* Which cautions a finished advice raises: the conditions beside the table's "when". */
#include <math.h>
#include <string.h>

#include "core/advice_part.h"
#include "core/speed.h"

#define PSI_15_PA      (15.0 * UNITS_PA_PER_PSI)
#define NEAR_1         1e-6 /* share: equal within rounding */
#define TABLE_SHORT_1  0.01 /* road pressure short of the table by more is a caution (B3) */
#define MOULDED_PAIR_1 0.01 /* 240 kPa and 35 psi, 650 kPa and 95 psi: one figure, moulded twice */
#define TABLE_MARGIN_1 0.05 /* up to here above it there is no margin (B3) */

static struct caution *raise(struct advice *a, enum caution_code code, int axle)
{
    return caution_at_axle(caution_raise(&a->cautions, code), (enum axle_id)axle);
}

static struct caution *with_pa(struct caution *c, int i, double p_gauge_pa)
{
    return caution_with(c, i, Q_PRESSURE, p_gauge_pa, 0);
}

static struct caution *with_kg(struct caution *c, int i, double kg)
{
    return caution_with(c, i, Q_MASS, kg, 0);
}

static bool softened(const struct axle_advice *x)
{
    return x->present && advice_judged_pa(x) < x->road_gauge_pa * (1.0 - NEAR_1);
}

static bool any_softened(const struct advice *a)
{
    for (int i = 0; i < AXLE_COUNT; i++) {
        if (softened(&a->axle[i])) {
            return true;
        }
    }
    return false;
}

/* What is true of a size is said once, not for every axle that wears it. */
static bool said_before(const struct advice *a, int axle)
{
    for (int i = 0; i < axle; i++) {
        if (a->axle[i].present &&
            strcmp(a->rig.axle[i].tyre.size.text, a->rig.axle[axle].tyre.size.text) == 0) {
            return true;
        }
    }
    return false;
}

/* ---- of a tyre ---- */

static bool aspect_open(const struct tyre_spec *t)
{
    return t->size.aspect_assumed && t->outside_diameter_m <= 0.0;
}

static void raise_of_tyre(struct advice *a, int i)
{
    const struct axle_advice *x = &a->axle[i];
    const struct tyre_spec *spec = &a->rig.axle[i].tyre;
    if (said_before(a, i)) {
        return;
    }
    if (x->tyre.max_load_kg <= 0.0 || x->tyre.max_gauge_pa <= 0.0) {
        (void)raise(a, CAUTION_CAPACITY_UNKNOWN, i);
    }
    if (x->tyre.bias) {
        (void)raise(a, CAUTION_BIAS, i);
    }
    if (aspect_open(spec)) {
        (void)caution_with(raise(a, CAUTION_ASPECT_ASSUMED, i), 0, Q_LENGTH, x->section_height_m,
                           0);
    }
}

/* The lowest pressure whose capacity no table covers; 0 = none. */
static double extrapolated_pa(const struct advice *a)
{
    double least_pa = 0.0, kg = 0.0;
    for (int i = 0; i < AXLE_COUNT; i++) {
        const struct axle_advice *x = &a->axle[i];
        double p_pa = x->present ? advice_judged_pa(x) : 0.0;
        if (x->present && tyre_capacity(&x->tyre, p_pa, &kg) == STATUS_W_EXTRAPOLATED &&
            (least_pa <= 0.0 || p_pa < least_pa)) {
            least_pa = p_pa;
        }
    }
    return least_pa;
}

/* ---- of the road pressure (B3) ---- */

static void raise_of_road(struct advice *a, int i)
{
    const struct axle_advice *x = &a->axle[i];
    double road_pa = x->road_gauge_pa, max_pa = x->tyre.max_gauge_pa;
    if (max_pa > 0.0 && road_pa > max_pa * (1.0 + MOULDED_PAIR_1)) {
        (void)with_pa(with_pa(raise(a, CAUTION_ROAD_ABOVE_MAX, i), 0, road_pa), 1, max_pa);
    }
    if (!x->table_gauge_pa.is) {
        return;
    }
    double table_pa = x->table_gauge_pa.v, margin_1 = road_pa / table_pa - 1.0;
    struct caution *c = NULL;
    if (margin_1 < -TABLE_SHORT_1) {
        c = raise(a, CAUTION_ROAD_BELOW_TABLE, i);
    } else if (margin_1 <= TABLE_MARGIN_1) {
        c = raise(a, CAUTION_NO_MARGIN, i);
    }
    if (c) {
        (void)caution_with(with_pa(c, 0, road_pa), 1, Q_PRESSURE, table_pa, 1);
    }
}

/* ---- of the loads ---- */

static void raise_of_load(struct advice *a, const struct loads *l, int i)
{
    const struct axle_load *x = &l->axle[i];
    const struct maybe *slope = &a->conditions.cross_slope_rad;
    double tipping_1 = 0.0;
    if (load_uneven(x) > LOAD_UNEVEN_1 + NEAR_1) {
        struct caution *c = raise(a, CAUTION_LEFT_RIGHT, i);
        (void)with_kg(with_kg(c, 0, x->per_tyre_kg[SIDE_LEFT]), 1, x->per_tyre_kg[SIDE_RIGHT]);
    }
    if (!slope->is || load_tipping(&a->rig, slope->v, &tipping_1) < 0) {
        return;
    }
    double downhill_kg = load_downhill_kg(x, slope->v, tipping_1);
    if (downhill_kg > LOAD_SIDE_HIGH_1 * x->heavier_kg * (1.0 + NEAR_1)) {
        struct caution *c = raise(a, CAUTION_SIDE_SLOPE_LOAD, i);
        (void)with_kg(with_kg(c, 0, downhill_kg), 1, x->heavier_kg);
    }
}

/* ---- of the pressures ---- */

static void raise_of_own_pressure(struct advice *a, int i)
{
    const struct axle_advice *x = &a->axle[i];
    double at_pa = x->at_gauge_pa.v, max_pa = x->tyre.max_gauge_pa;
    if (!x->at_gauge_pa.is) {
        return;
    }
    if (x->stuck_gauge_pa.is && at_pa < x->stuck_gauge_pa.v * (1.0 - NEAR_1)) {
        (void)with_pa(with_pa(raise(a, CAUTION_AT_BELOW_STUCK, i), 0, at_pa), 1,
                      x->stuck_gauge_pa.v);
    } else if (at_pa < x->floor_gauge_pa * (1.0 - NEAR_1)) {
        struct caution *c = with_pa(raise(a, CAUTION_AT_BELOW_FLOOR, i), 0, at_pa);
        (void)caution_with(c, 1, Q_PRESSURE, x->floor_gauge_pa, 1);
    }
    if (max_pa > 0.0 && at_pa > max_pa * (1.0 + NEAR_1)) {
        (void)with_pa(with_pa(raise(a, CAUTION_OVER_INFLATION, i), 0, at_pa), 1, max_pa);
    }
}

static void raise_of_reading(struct advice *a, int i)
{
    const struct axle_advice *x = &a->axle[i];
    double max_pa = x->tyre.max_gauge_pa;
    double inside_pa = x->set_now_gauge_pa - a->rig.air.gauge_offset_pa;
    if (max_pa > 0.0 && inside_pa > max_pa * (1.0 + NEAR_1)) {
        (void)with_pa(with_pa(raise(a, CAUTION_OVER_INFLATION, i), 0, inside_pa), 1, max_pa);
    }
}

static void raise_of_pressure(struct advice *a, int i)
{
    const struct axle_advice *x = &a->axle[i];
    const struct axle *axle = &a->rig.axle[i];
    double judged_pa = advice_judged_pa(x);
    if (x->bound_by == BOUND_RIM_WIDTH) {
        struct caution *c = raise(a, CAUTION_RIM_WIDTH, i);
        c = caution_with(c, 0, Q_LENGTH, axle->rim_width_m, 0);
        (void)caution_with(c, 1, Q_LENGTH, x->tyre.section_width_m, 0);
    }
    if (x->floor_gauge_pa > x->road_gauge_pa * (1.0 + NEAR_1)) {
        struct caution *c = raise(a, CAUTION_FLOOR_ABOVE_ROAD, i);
        (void)with_pa(caution_with(c, 0, Q_PRESSURE, x->floor_gauge_pa, 1), 1, x->road_gauge_pa);
    }
    if (axle->wheel != WHEEL_BEADLOCK && judged_pa < PSI_15_PA * (1.0 - NEAR_1)) {
        (void)with_pa(raise(a, CAUTION_BELOW_15, i), 0, judged_pa);
    }
    if (x->stuck_gauge_pa.is) {
        (void)with_pa(raise(a, CAUTION_STUCK_STEP, i), 0, x->stuck_gauge_pa.v);
    }
}

/* ---- of the ground and the day ---- */

static bool soft(const struct ground *g)
{
    return g->kind != GROUND_FIRM && g->kind != GROUND_ICE;
}

static void raise_of_ground(struct advice *a)
{
    const struct flotation *f = &a->flotation;
    struct caution_list *list = &a->cautions;
    if (a->ground.kind == GROUND_ICE) {
        (void)caution_raise(list, CAUTION_ICE);
    }
    if (a->ground.slick) {
        (void)caution_raise(list, CAUTION_SLICK);
    }
    if (soft(&a->ground) && f->method == FLOTATION_NONE) {
        (void)caution_raise(list, CAUTION_STRENGTH_UNKNOWN);
    }
    if (f->passes == PASSES_STICK) {
        (void)caution_raise(list, CAUTION_LIKELY_STUCK);
    }
    if (f->clearance_assumed) {
        (void)caution_with(caution_raise(list, CAUTION_CLEARANCE_ASSUMED), 0, Q_LENGTH,
                           FLOTATION_CLEARANCE_M, 0);
    }
    if (f->deflection_clamped) {
        (void)caution_raise(list, CAUTION_DEFLECTION_CLAMPED);
    }
}

static void raise_of_speed(struct advice *a)
{
    const struct maybe *asked = &a->conditions.speed_mps;
    if (asked->is && a->cap_mps.is && asked->v > a->cap_mps.v * (1.0 + NEAR_1)) {
        struct caution *c = caution_raise(&a->cautions, CAUTION_ASKED_SPEED);
        (void)caution_with(caution_with(c, 0, Q_SPEED, asked->v, 0), 1, Q_SPEED, a->cap_mps.v, 0);
    }
}

/* Whether a standard-derived speed is shown that stands on the default symbol. */
static bool default_symbol_used(const struct advice *a)
{
    for (int i = 0; i < AXLE_COUNT; i++) {
        const struct corner_advice *c = a->axle[i].corner;
        if (a->axle[i].present && speed_symbol(&a->rig.axle[i].tyre)[0] == '\0' &&
            (c[SIDE_LEFT].standard_speed_mps.is || c[SIDE_RIGHT].standard_speed_mps.is)) {
            return true;
        }
    }
    return false;
}

static void raise_of_capacity(struct advice *a)
{
    double p_pa = extrapolated_pa(a);
    if (p_pa > 0.0) {
        (void)with_pa(caution_raise(&a->cautions, CAUTION_CAPACITY_EXTRAPOLATED), 0, p_pa);
    }
    if (default_symbol_used(a)) {
        (void)caution_raise(&a->cautions, CAUTION_SYMBOL_ASSUMED);
    }
}

/* ---- reminders ---- */

static void remind_of_wheels(struct advice *a)
{
    bool duals = false, beadlock = false;
    for (int i = 0; i < AXLE_COUNT; i++) {
        duals = duals || (softened(&a->axle[i]) && a->rig.axle[i].wheels == 4);
        beadlock = beadlock || (a->axle[i].present && a->rig.axle[i].wheel == WHEEL_BEADLOCK);
    }
    if (duals) {
        (void)caution_raise(&a->cautions, CAUTION_DUALS);
    }
    if (beadlock) {
        (void)caution_raise(&a->cautions, CAUTION_BEADLOCK);
    }
}

static void remind(struct advice *a)
{
    struct caution_list *list = &a->cautions;
    if (any_softened(a)) {
        struct caution *c =
            caution_raise(list, a->cap_mps.is ? CAUTION_HIGHWAY : CAUTION_HIGHWAY_NO_CAP);
        (void)caution_with(c, 0, Q_SPEED, maybe_or(a->cap_mps, 0.0), 0);
        (void)caution_raise(list, CAUTION_BEAD);
        (void)caution_raise(list, CAUTION_WARNING_LAMP);
    }
    remind_of_wheels(a);
    if (soft(&a->ground)) {
        (void)caution_raise(list, CAUTION_LAW);
    }
    (void)caution_raise(list, CAUTION_ESTIMATE);
}

void advice_raise(struct advice *a, const struct loads *l)
{
    raise_of_speed(a);
    for (int i = 0; i < AXLE_COUNT; i++) {
        if (a->axle[i].present) {
            raise_of_own_pressure(a, i);
            raise_of_reading(a, i);
            raise_of_pressure(a, i);
            raise_of_road(a, i);
            raise_of_load(a, l, i);
            raise_of_tyre(a, i);
        }
    }
    raise_of_ground(a);
    raise_of_capacity(a);
    remind(a);
}

void advice_raise_refused(struct advice *a, const struct loads *l)
{
    for (int i = 0; i < AXLE_COUNT; i++) {
        struct refusal r;
        const struct axle *axle = &a->rig.axle[i];
        if (!l->axle[i].present) {
            continue;
        }
        if (load_check_axle((enum axle_id)i, axle, &l->axle[i], &a->axle[i].tyre, &r) ==
            STATUS_E_REFUSED) {
            bool tyre = r.code == REFUSAL_OVERLOAD_TYRE;
            struct caution *c = raise(a, tyre ? CAUTION_OVERLOAD_TYRE : CAUTION_OVERLOAD_AXLE, i);
            (void)with_kg(with_kg(with_kg(c, 0, r.have_kg), 1, r.rated_kg), 2, r.excess_kg);
        }
        if (axle->wheel == WHEEL_MULTI_PIECE) {
            (void)raise(a, CAUTION_MULTI_PIECE, i);
        }
    }
    (void)caution_raise(&a->cautions, CAUTION_ESTIMATE);
}
