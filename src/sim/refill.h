/* refill.h - how long up, which corner first, and what the gauge will say: the three hook-ups
 * side by side.  Pressures here are gauge readings at today's tyre temperature and height. */
#ifndef SANDSHOE_SIM_REFILL_H
#define SANDSHOE_SIM_REFILL_H

#include <stdbool.h>

#include "base/num.h"
#include "base/status.h"
#include "core/rig.h"

enum { REFILL_CORNERS = AXLE_COUNT * SIDE_COUNT, REFILL_STEPS = 40 };

/* index of a corner in every REFILL_CORNERS array: axle * SIDE_COUNT + side */
#define REFILL_CORNER(axle, side) ((int)(axle)*SIDE_COUNT + (int)(side))

struct refill_corner_in {
    bool present;                          /* takes part (a found-low corner does not) */
    int tyres;                             /* 1, or 2 for duals */
    double volume_m3;                      /* of all its tyres */
    double from_gauge_pa, target_gauge_pa; /* settled readings now */
    double cold_gauge_pa;                  /* the cold target, for the record */
    double gravel_gauge_pa; /* cold graded-gravel target corrected like target: the part-refill */
};

struct refill_in {
    struct air_system air;
    double ambient_abs_pa;
    double tyre_temp_k;
    double inlet_temp_k;
    struct refill_corner_in corner[REFILL_CORNERS];
    double run_used_s; /* of the compressor's run time, already spent */
};

enum refill_do { REFILL_DROP, REFILL_MOVE, REFILL_REST, REFILL_STOP };

struct refill_step {
    enum refill_do what;
    double at_s;      /* wall time from the first air on */
    double for_s;     /* rest, move */
    unsigned corners; /* bit REFILL_CORNER(...) */
};

struct refill_corner_out {
    double done_s;    /* wall time when its settled pressure has its target */
    double running_s; /* running time then */
    double settled_gauge_pa;
    double stop_reading_gauge_pa; /* a stopped-flow reading at the moment of stopping, + offset */
    double line_reading_gauge_pa; /* flowing, at the line's tap */
    double flow_free_m3_s;        /* into that corner at shut-off */
    bool reached;
};

struct refill_plan {
    enum hookup hookup;
    bool possible; /* false: the source cannot reach the targets; why in problem */
    enum refill_problem {
        REFILL_FINE,
        REFILL_SOURCE_WEAK, /* no flow left below a target */
        REFILL_CUT_OUT,     /* cut-out below a target */
        REFILL_TANK_EMPTY,
        REFILL_STEP_CAP,     /* gave up after the step cap */
        REFILL_NOTHING_TO_DO /* every corner is at or above its target */
    } problem;
    double running_s, rest_s, handling_s, total_s;
    bool part_refill;     /* plan B: all to gravel first, rest there, then finish */
    double other_total_s; /* the plan not chosen (A or B) when a rest falls; 0 = none */
    double longest_run_s; /* between rests */
    int n_step;
    struct refill_step step[REFILL_STEPS];
    struct refill_corner_out corner[REFILL_CORNERS];
};

struct refill_whatif {
    enum refill_whatif_kind {
        WHATIF_CORE_OUT,
        WHATIF_COOLER_INTAKE, /* inlet at outside air temperature, 20 K less */
        WHATIF_SECOND_SOURCE,
        WHATIF_VOLTAGE, /* engine off: delivery x 0.88 */
        WHATIF_REST_EARLIER,
        WHATIF_COUNT
    } kind;
    struct maybe gain_s; /* on the total of the rig's own hook-up; none = does not apply */
};

struct refill_out {
    struct refill_plan plan[HOOKUP_COUNT];
    double free_air_m3;           /* at 20 C, 101.325 kPa, stretch left out */
    double free_air_stretched_m3; /* with stretch */
    double at_target_free_m3_s;   /* at the line pressure of the highest target, last axle */
    struct refill_whatif whatif[WHATIF_COUNT];
};

/* refill_compute - all three hook-ups and the what-ifs.
 *
 *   in   in   corners, air system, ambient
 *   out  out  plans; untouched on error
 *   ret  STATUS_OK (a plan may still be impossible: look at problem); E_DOMAIN
 *   how  docs/theory.md E1-E8
 *   src  ISO 6358; Swamee & Jain 1976 [memory]; own
 */
enum status refill_compute(const struct refill_in *in, struct refill_out *out) MUST_CHECK;

/* refill_in_valid - whether every number is finite and in its domain.
 *   in   in
 *   ret  true if so: what hookup_plan relies on
 *   src  none: bookkeeping */
bool refill_in_valid(const struct refill_in *in);

/* refill_in_of - the air system and corner volumes of a rig; from and target are left 0.
 *
 *   in   rig, ambient_abs_pa, tyre_temp_k, inlet_temp_k
 *   out  in   corners present with volume and tyres; untouched on error
 *   ret  STATUS_OK; E_DOMAIN
 *   src  none: bookkeeping
 */
enum status refill_in_of(const struct rig *rig, double ambient_abs_pa, double tyre_temp_k,
                         double inlet_temp_k, struct refill_in *in) MUST_CHECK;

#endif
