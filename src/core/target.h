/* target.h - the pressure that a ground asks for: aim, floors, ceilings, stuck step. */
#ifndef SANDSHOE_CORE_TARGET_H
#define SANDSHOE_CORE_TARGET_H

#include <stdbool.h>

#include "base/num.h"
#include "base/status.h"
#include "core/ground.h"
#include "core/rig.h"
#include "core/tyre.h"

#define TARGET_TRAILER_1     0.85  /* share of the aim for wheels that only roll [practice] */
#define TARGET_REFUSE_1      0.33  /* deflection / section height that is never passed [practice] */
#define TARGET_STUCK_1       0.265 /* deflection of the stuck step [practice] */
#define TARGET_STUCK_ABOVE_1 0.015 /* at least this much above the aim [practice] */
#define TARGET_RIM_LOW_1     0.65  /* rim width / section width [practice] */
#define TARGET_RIM_HIGH_1    0.90

enum bound {
    BOUND_AIM,
    BOUND_DEFLECTION_LIMIT,
    BOUND_BEAD_FLOOR,
    BOUND_MAKER_FLOOR,
    BOUND_SIDE_SLOPE,
    BOUND_RIM_WIDTH,
    BOUND_ROAD
};

/* What the target of one axle depends on. */
struct target_question {
    const struct tyre *tyre;
    const struct ground *ground;
    enum wheel_kind wheel;
    bool trailer;
    bool rim_fits;
    double load_kg;      /* per tyre of the heavier side, level ground */
    double side_load_kg; /* downhill tyre on the side slope; 0 = level */
    double road_gauge_pa;
    double maker_floor_gauge_pa; /* 0 = none */
    double step_pa;              /* of the gauge */
};

/* Cold gauge pressures of one axle. */
struct target {
    struct maybe aim_gauge_pa; /* unrounded; none on the road */
    struct maybe deflection_floor_gauge_pa, bead_floor_gauge_pa, maker_floor_gauge_pa,
        side_slope_floor_gauge_pa;
    double floor_gauge_pa; /* the highest of them */
    double least_gauge_pa; /* below it even the driver's own pressure is refused */
    double target_gauge_pa;
    struct maybe stuck_gauge_pa;
    enum bound bound_by;
};

/* target_compute - target, floors and stuck step of an axle.
 *
 *   in   q
 *   out  t    Pa gauge, cold; untouched on error
 *   ret  STATUS_OK; E_DOMAIN; E_NO_SOLUTION (stiffness that does not rise with pressure)
 *   how  docs/theory.md C1-C3, C5, C6
 *   src  common practice; aims and limits are the ground's
 */
enum status target_compute(const struct target_question *q, struct target *t) MUST_CHECK;

/* target_bead_floor - the least pressure at which a bead is expected to stay.
 *
 *   in   t
 *   in   wheel, rock_steps, trailer
 *   ret  Pa gauge
 *   how  docs/theory.md C5
 *   src  common practice */
double target_bead_floor(const struct tyre *t, enum wheel_kind wheel, bool rock_steps,
                         bool trailer);

/* target_rim_fits - whether a rim is within the range for a section.
 *   in   rim_width_m  0 = not given
 *   in   section_width_m
 *   ret  true when it fits or is not given
 *   src  common practice */
bool target_rim_fits(double rim_width_m, double section_width_m);

/* bound_name - "aim", "deflection-limit", "bead-floor", "maker-floor", "side-slope", "rim-width",
 * "road".
 *   in   b    bound
 *   ret  a string constant
 *   src  none: definition */
const char *bound_name(enum bound b);

/* bound_change - what would let the target be lower, in words: "a rim that fits the tyre".
 *   in   b    bound
 *   ret  a string constant
 *   src  none: follows from the definition of the bound */
const char *bound_change(enum bound b);

#endif
