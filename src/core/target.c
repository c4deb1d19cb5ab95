#include "core/target.h"

#include <math.h>
#include <string.h>

#include "base/units.h"
#include "core/constants.h"

#define PSI                    UNITS_PA_PER_PSI

/* Bead floors, common practice (C5). */
#define BEAD_TALL_PA           (12.0 * PSI)
#define BEAD_LOW_PA            (20.0 * PSI)
#define BEAD_TALL_FROM_M       0.130 /* m of section height */
#define BEAD_PASSENGER_PA      (18.0 * PSI)
#define BEAD_TRAILER_PA        (15.0 * PSI)
#define BEAD_TRUCK_PA          (1.6 * UNITS_PA_PER_BAR)
#define BEADLOCK_PA            (8.0 * PSI)
#define BEADLOCK_ROCK_STEPS_PA (6.0 * PSI)
#define BEAD_STUCK_LESS_PA     (2.0 * PSI)

#define NEAR_1                 1e-9 /* share of a pressure: equal within rounding */

const char *bound_name(enum bound b)
{
    static const char *const names[] = {
        "aim", "deflection-limit", "bead-floor", "maker-floor", "side-slope", "rim-width", "road"};
    return b <= BOUND_ROAD ? names[b] : "?";
}

const char *bound_change(enum bound b)
{
    static const char *const changes[] = {
        "less load, or the softer end of the ground's aim range",
        "less load: this ground allows the tyre to bend no further",
        "a wheel and tyre that hold the bead better",
        "another tyre: the maker of this one says so",
        "a lesser side slope, or less load up high",
        "a rim that fits the tyre",
        "a higher road pressure to come down from",
    };
    return b <= BOUND_ROAD ? changes[b] : "?";
}

bool target_rim_fits(double rim_width_m, double section_width_m)
{
    double share_1 = rim_width_m / section_width_m;
    return rim_width_m <= 0.0 ||
           (share_1 >= TARGET_RIM_LOW_1 - NEAR_1 && share_1 <= TARGET_RIM_HIGH_1 + NEAR_1);
}

double target_bead_floor(const struct tyre *t, enum wheel_kind wheel, bool rock_steps, bool trailer)
{
    double floor_pa = t->section_height_m >= BEAD_TALL_FROM_M - NEAR_1 ? BEAD_TALL_PA : BEAD_LOW_PA;
    if (wheel == WHEEL_BEADLOCK) {
        floor_pa = rock_steps ? BEADLOCK_ROCK_STEPS_PA : BEADLOCK_PA;
    }
    floor_pa = fmax(floor_pa, t->passenger ? BEAD_PASSENGER_PA : 0.0);
    floor_pa = fmax(floor_pa, trailer ? BEAD_TRAILER_PA : 0.0);
    return fmax(floor_pa, t->truck ? BEAD_TRUCK_PA : 0.0);
}

/* The pressure at which a load deflects the tyre by a share of its section height; 0 where the
 * carcass alone is stiffer. */
static enum status pressure_for(const struct target_question *q, double load_kg,
                                double deflection_1, double *p_gauge_pa)
{
    double p_pa = 0.0;
    enum status s = tyre_pressure_for_deflection(q->tyre, load_kg * GRAVITY_M_S2,
                                                 deflection_1 * q->tyre->section_height_m, &p_pa);
    if (s >= 0) {
        *p_gauge_pa = fmax(0.0, p_pa);
    }
    return s;
}

static double limit_1(const struct ground *g)
{
    return fmin(g->limit_1, TARGET_REFUSE_1);
}

static double aim_1(const struct target_question *q)
{
    return q->ground->aim_1 * (q->trailer ? TARGET_TRAILER_1 : 1.0);
}

static double ceiling_pa(const struct target_question *q)
{
    double max_pa = q->tyre->max_gauge_pa;
    return max_pa > 0.0 ? fmin(q->road_gauge_pa, max_pa) : q->road_gauge_pa;
}

static bool in_domain(const struct target_question *q)
{
    const double x[] = {q->load_kg, q->side_load_kg,  q->road_gauge_pa,  q->maker_floor_gauge_pa,
                        q->step_pa, q->ground->aim_1, q->ground->limit_1};
    return num_all_finite(sizeof x / sizeof x[0], x) && q->load_kg > 0.0 &&
           q->side_load_kg >= 0.0 && q->road_gauge_pa > 0.0 && q->maker_floor_gauge_pa >= 0.0 &&
           q->step_pa > 0.0 &&
           (q->ground->road || (q->ground->aim_1 > 0.0 && q->ground->limit_1 > 0.0));
}

/* ---- floors (C2) ---- */

/* A pressure that the driver may choose himself, and where the stuck step ends (C5, C6). */
static double least_pa(const struct target_question *q, double bead_pa)
{
    bool firm = q->wheel == WHEEL_BEADLOCK || q->tyre->truck;
    return fmax(firm ? bead_pa : bead_pa - BEAD_STUCK_LESS_PA, q->maker_floor_gauge_pa);
}

static enum status set_deflection_floors(const struct target_question *q, struct target *t)
{
    double p_pa = 0.0;
    enum status s = pressure_for(q, q->load_kg, limit_1(q->ground), &p_pa);
    if (s < 0) {
        return s;
    }
    t->deflection_floor_gauge_pa = maybe_of(p_pa);
    if (q->side_load_kg > 0.0) {
        s = pressure_for(q, q->side_load_kg, limit_1(q->ground), &p_pa);
        t->side_slope_floor_gauge_pa = s < 0 ? maybe_none() : maybe_of(p_pa);
    }
    return s;
}

/* The ruling floor is the highest; of equals the first in this order. */
static enum bound set_ruling_floor(struct target *t)
{
    const struct maybe floors[] = {t->deflection_floor_gauge_pa, t->bead_floor_gauge_pa,
                                   t->maker_floor_gauge_pa, t->side_slope_floor_gauge_pa};
    static const enum bound bounds[] = {BOUND_DEFLECTION_LIMIT, BOUND_BEAD_FLOOR, BOUND_MAKER_FLOOR,
                                        BOUND_SIDE_SLOPE};
    enum bound by = BOUND_BEAD_FLOOR;
    for (size_t i = 0; i < sizeof bounds / sizeof bounds[0]; i++) {
        if (floors[i].is && floors[i].v > t->floor_gauge_pa * (1.0 + NEAR_1)) {
            t->floor_gauge_pa = floors[i].v;
            by = bounds[i];
        }
    }
    return by;
}

static enum status set_floors(const struct target_question *q, struct target *t, enum bound *by)
{
    bool rock_steps = strcmp(q->ground->name, "rock-steps") == 0;
    double bead_pa = target_bead_floor(q->tyre, q->wheel, rock_steps, q->trailer);
    t->bead_floor_gauge_pa = maybe_of(bead_pa);
    if (q->maker_floor_gauge_pa > 0.0) {
        t->maker_floor_gauge_pa = maybe_of(q->maker_floor_gauge_pa);
    }
    t->least_gauge_pa = least_pa(q, bead_pa);
    enum status s = q->ground->road ? STATUS_OK : set_deflection_floors(q, t);
    *by = set_ruling_floor(t);
    return s;
}

/* ---- target and stuck step (C3, C6) ---- */

static double round_up(const struct target_question *q, double p_pa)
{
    return fmin(num_ceil_to(p_pa, q->step_pa), ceiling_pa(q));
}

static void set_target(const struct target_question *q, enum bound floor_by, struct target *t)
{
    double ceiling = ceiling_pa(q);
    if (!q->rim_fits || q->ground->road) {
        t->target_gauge_pa = ceiling;
        t->bound_by = q->rim_fits ? BOUND_ROAD : BOUND_RIM_WIDTH;
        return;
    }
    double wanted_pa = fmax(t->aim_gauge_pa.v, t->floor_gauge_pa);
    bool aimed = t->aim_gauge_pa.v >= t->floor_gauge_pa * (1.0 - NEAR_1);
    t->target_gauge_pa = round_up(q, wanted_pa);
    t->bound_by = aimed ? BOUND_AIM : floor_by;
    if (wanted_pa > ceiling * (1.0 + NEAR_1)) {
        t->bound_by = BOUND_ROAD;
    }
}

static bool has_stuck_step(const struct target_question *q)
{
    return ground_is_soft(q->ground) && !q->ground->road && q->rim_fits;
}

static enum status set_stuck(const struct target_question *q, struct target *t)
{
    if (!has_stuck_step(q)) {
        return STATUS_OK;
    }
    double d_1 = fmax(TARGET_STUCK_1, aim_1(q) + TARGET_STUCK_ABOVE_1);
    double p_pa = 0.0;
    enum status s = pressure_for(q, q->load_kg, fmin(d_1, limit_1(q->ground)), &p_pa);
    if (s < 0) {
        return s;
    }
    p_pa = fmax(p_pa, fmax(t->least_gauge_pa, maybe_or(t->side_slope_floor_gauge_pa, 0.0)));
    p_pa = round_up(q, p_pa);
    if (p_pa < t->target_gauge_pa - 1e-6 * q->step_pa) {
        t->stuck_gauge_pa = maybe_of(p_pa);
    }
    return s;
}

enum status target_compute(const struct target_question *q, struct target *t)
{
    struct target made = {.floor_gauge_pa = 0.0};
    enum bound floor_by = BOUND_BEAD_FLOOR;
    if (!in_domain(q)) {
        return STATUS_E_DOMAIN;
    }
    enum status s = set_floors(q, &made, &floor_by);
    if (s >= 0 && !q->ground->road) {
        double p_pa = 0.0;
        s = pressure_for(q, q->load_kg, aim_1(q), &p_pa);
        made.aim_gauge_pa = s < 0 ? maybe_none() : maybe_of(p_pa);
    }
    if (s >= 0) {
        set_target(q, floor_by, &made);
        s = set_stuck(q, &made);
    }
    if (s >= 0) {
        *t = made;
    }
    return s < 0 ? s : STATUS_OK;
}
