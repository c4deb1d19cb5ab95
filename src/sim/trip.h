/* trip.h - the plan for a route: which pressure on which leg, where to change it, and what that
 * costs.
 *
 * Between two places where one can stop, one pressure level holds (a group of legs). A level is the
 * set of targets of one of the trip's grounds, or the road pressures. The planner picks the levels
 * that make the sum of driving and changing shortest. */
#ifndef SANDSHOE_SIM_TRIP_H
#define SANDSHOE_SIM_TRIP_H

#include <stdbool.h>

#include "base/num.h"
#include "base/status.h"
#include "core/advice.h"
#include "core/trip_plan.h"

enum { TRIP_LEVELS = TRIP_LEGS + 1, TRIP_INSPECT_S = 300 };
#define TRIP_SAME_PA 1.0 /* Pa: pressures closer than this are one */

/* Cold gauge pressures of a level; 0 for an axle that there is not. */
struct trip_level {
    char name[GROUND_NAME]; /* ground, or "road" */
    bool road;
    double cold_gauge_pa[AXLE_COUNT];
};

struct trip_in {
    const struct rig *rig;
    const struct trip *trip;
    const struct ground *ground[TRIP_LEGS]; /* of each leg, resolved */
};

enum trip_action { TRIP_NONE, TRIP_DOWN, TRIP_UP, TRIP_PART_UP };

/* Why the level before a leg is what it is. */
enum trip_why {
    TRIP_WHY_START,     /* as it left home */
    TRIP_WHY_SOFT,      /* soft ground in the group forces it down */
    TRIP_WHY_SHARP,     /* edges force it up */
    TRIP_WHY_ROAD,      /* a sealed road forces it up */
    TRIP_WHY_PAYS,      /* the time saved is more than the change costs */
    TRIP_WHY_NOT_WORTH, /* kept: a change would cost more than it saves */
    TRIP_WHY_FITS,      /* kept: the level before is this leg's own */
    TRIP_WHY_NO_STOP,   /* kept: no place to stop before this leg */
    TRIP_WHY_NO_AIR     /* kept: the air source cannot make another */
};

struct trip_leg_plan {
    int level;
    double cold_gauge_pa[AXLE_COUNT];
    struct maybe cap_mps;
    struct maybe pace_mps; /* tyres harder than firm ground asks for are driven this slow, G5 */
    bool past_limit;       /* softer than this firm ground's limit: at the cap, and no longer */
    double drive_s;        /* at min(cap, pace, wished speed) */
    double drive_wish_s;   /* at the wished speed alone */
    enum trip_action action;
    double action_s; /* down, up, moves, rests and the look round after an up */
    double rest_s;
    double free_air_m3;
    enum trip_why why;
    struct maybe change_saves_s; /* this change against keeping the level before */
    int other_level;             /* the best of the choices not taken, or -1 */
    struct maybe other_loses_s;  /* what it would cost more */
    struct maybe abort_cap_mps;  /* an up before this leg: cap if the air fails there */
    bool source_too_weak;        /* the air source cannot make the change before this leg; its
                                    minutes are those without the filling */
    bool forced_soft;            /* no place to stop between soft ground and this one */
    double start_height_m, end_height_m, start_temp_k, end_temp_k;
    double set_gauge_pa[AXLE_COUNT];   /* at the start, tyres as warm as the air: what a gauge
                                         reads, or the reading to set where it is changed */
    double end_gauge_pa[AXLE_COUNT];   /* what a gauge will read at the end */
    double floor_gauge_pa[AXLE_COUNT]; /* below this it is too low here */
    bool low[AXLE_COUNT];              /* it will then read below that */
    bool under[AXLE_COUNT]; /* on road pressure: below the load table's pressure, or 5 % under */
    int warn_leg;           /* a pressure set before this leg will be too low at the end of that
                               one, or -1 */
    double least_set_gauge_pa[AXLE_COUNT]; /* what to set instead */
};

struct trip_plan {
    struct refusal refusal;
    int n_leg, n_level;
    struct trip_level level[TRIP_LEVELS];
    struct trip_leg_plan leg[TRIP_LEGS];
    double total_s, drive_s, action_s, free_air_m3;
    bool no_air;     /* a change that the source cannot make is among them */
    int coldest_leg; /* leg at whose end a sealed tyre reads least against its cold figure */
    double coldest_gauge_pa[AXLE_COUNT];
    double coldest_height_m, coldest_temp_k;
};

/* trip_compute - plan a trip.
 *
 *   in   in  rig, trip, the ground of each leg
 *   out  p   the plan; when refused only refusal is set; untouched on error
 *   ret  STATUS_OK; STATUS_E_REFUSED; E_DOMAIN; E_NO_SOLUTION (two legs without a stop between that
 *        no pressure serves); others of advice_compute
 *   how  shortest path over (group of legs) x (level), docs/theory.md G1-G2
 *   src  practice of part refills; own
 */
enum status trip_compute(const struct trip_in *in, struct trip_plan *p) MUST_CHECK;

/* The pieces the planner adds up, for whoever wants to check its sum. */

/* trip_levels - the levels of a trip; the last one is the road.
 *   in   in
 *   out  level, n  distinct levels
 *   ret  STATUS_OK; E_REFUSED with *refusal; as advice_compute
 *   src  model G2 */
enum status trip_levels(const struct trip_in *in, struct trip_level level[TRIP_LEVELS], int *n,
                        struct refusal *refusal) MUST_CHECK;

/* trip_level_find - a level by its pressures.
 *   in   n, level[n], wanted
 *   ret  its index, or -1
 *   src  none: look-up */
int trip_level_find(int n, const struct trip_level level[], const struct trip_level *wanted);

/* trip_admits - whether a level may be driven on a leg: soft ground wants it at least as soft as
 * its own target, sharp ground and sealed road at least as hard; never below a floor.
 *   in   in, leg, level
 *   in   up_too  false: only soft ground and floors are looked at
 *   ret  true when it may
 *   src  model G1 */
bool trip_admits(const struct trip_in *in, int leg, const struct trip_level *level, bool up_too);

/* trip_drive - driving time of a leg at a level.
 *   in   in, leg, level
 *   out  cap_mps, time_s  untouched on error
 *   ret  as advice_compute; E_REFUSED (not to be driven on at all)
 *   src  model G2 */
enum status trip_drive(const struct trip_in *in, int leg, const struct trip_level *level,
                       struct maybe *cap_mps, double *time_s) MUST_CHECK;

struct trip_change {
    double time_s, rest_s, free_air_m3;
    bool possible; /* false: the source cannot reach the level */
};

/* trip_change_at - what going from one level to another costs at a place.
 *   in   in, from, to
 *   in   height_m, temp_k  of the place; tyres at air temperature
 *   out  c  s, m3
 *   ret  STATUS_OK; E_DOMAIN
 *   src  model G2, E7-E9 */
enum status trip_change_at(const struct trip_in *in, const struct trip_level *from,
                           const struct trip_level *to, double height_m, double temp_k,
                           struct trip_change *c) MUST_CHECK;

/* trip_reads_low - whether a gauge will read too little at the end of a leg: below a floor, or short
 * of the road pressure's own bound.
 *   in   l
 *   ret  true when any axle does
 *   src  model G3 */
bool trip_reads_low(const struct trip_leg_plan *l);

/* trip_action_name - "none", "down", "up", "part-up".
 *   in   a
 *   ret  a string constant
 *   src  none: definition */
const char *trip_action_name(enum trip_action a);

/* trip_why_text - the reason in a few words, "soft ground ahead".
 *   in   why
 *   ret  a string constant
 *   src  none: definition */
const char *trip_why_text(enum trip_why why);

#endif
