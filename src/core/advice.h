/* advice.h - the main job: a rig, a ground and today's conditions give pressures, footprint,
 * flotation, limits, speed cap and cautions for every corner. */
#ifndef SANDSHOE_CORE_ADVICE_H
#define SANDSHOE_CORE_ADVICE_H

#include <stdbool.h>

#include "base/num.h"
#include "base/status.h"
#include "core/caution.h"
#include "core/flotation.h"
#include "core/ground.h"
#include "core/refusal.h"
#include "core/rig.h"
#include "core/target.h"
#include "core/tyre.h"

/* Today's circumstances; what is none falls back as the meaning of each option says. */
struct conditions {
    struct maybe tyre_temp_k;
    struct maybe air_temp_k;
    struct maybe height_m;
    struct maybe speed_mps;               /* asked */
    double slope_1;                       /* rise / run */
    struct maybe cross_slope_rad;         /* side slope */
    struct maybe at_gauge_pa[AXLE_COUNT]; /* judge these pressures */
};

/* What one corner does at a pressure. */
struct corner_state {
    double p_gauge_pa;
    double deflection_m, deflection_1;
    double loaded_radius_m, rolling_radius_m;
    struct tyre_patch patch;
    double stiffness_n_m;
    struct maybe capacity_kg;
};

struct corner_advice {
    double load_kg;               /* per tyre, level ground */
    struct corner_state road, at; /* at road pressure; at the target, or at --at-pressure */
    double deflection_low_1, deflection_high_1;
    double clearance_loss_m;
    double area_growth_1, area_growth_low_1, area_growth_high_1;
    double length_growth_1, length_growth_low_1, length_growth_high_1;
    struct maybe standard_speed_mps; /* none = nothing limits; 0 = nothing covers it */
    struct maybe practice_speed_mps; /* lower of deflection and retention caps; none = no cap */
    struct maybe deflection_cap_mps, retention_cap_mps;
    double retention_1; /* Rb = p / p_road, an index */
};

/* One axle: pressures are cold gauge at road_temp_k. */
struct axle_advice {
    bool present;
    double load_kg;    /* whole axle, after added masses */
    double heavier_kg; /* per tyre of the heavier side */
    struct tyre tyre;
    double section_height_m;
    double road_gauge_pa;
    struct maybe aim_gauge_pa; /* unrounded pressure of the aim; none on the road */
    double floor_gauge_pa;     /* the highest floor */
    double least_gauge_pa;     /* what bead, maker and a third of deflection never allow less of */
    struct maybe deflection_floor_gauge_pa, bead_floor_gauge_pa, maker_floor_gauge_pa,
        side_slope_floor_gauge_pa;
    double target_gauge_pa;
    double target_stiffness_n_m; /* Ks at the target, whatever pressure is judged */
    struct maybe stuck_gauge_pa;
    double set_now_gauge_pa;     /* reading to set now: temperature, height, gauge offset */
    struct maybe at_gauge_pa;    /* --at-pressure of this axle */
    struct maybe table_gauge_pa; /* A3 pressure for the heavier corner's load */
    enum bound bound_by;
    struct corner_advice corner[SIDE_COUNT];
};

enum cap_by { CAP_NONE, CAP_GROUND, CAP_DEFLECTION, CAP_RETENTION };

struct advice {
    struct rig rig; /* as computed with (masses applied to loads in axle[]) */
    struct ground ground;
    struct conditions conditions;
    double ambient_abs_pa;
    double tyre_temp_k[AXLE_COUNT]; /* that set_now_gauge_pa belongs to */
    struct refusal refusal;
    struct axle_advice axle[AXLE_COUNT];
    struct flotation flotation;
    struct maybe cap_mps; /* none = no cap below the road's */
    enum cap_by cap_by;
    enum axle_id cap_axle;
    struct caution_list cautions;
};

/* advice_compute - do the main job.
 *
 *   in   rig, ground, conditions
 *   out  a  everything; when refused, a->refusal is set, loads and capacities are filled and the
 *           rest is zero
 *   ret  STATUS_OK; STATUS_E_REFUSED (a filled as said); E_DOMAIN; E_MISSING (side slope without
 *        cg_height and track); E_MEASURE_AGAIN
 *   how  docs/theory.md B, C
 *   src  model C; each number's source in core/working
 */
enum status advice_compute(const struct rig *rig, const struct ground *ground,
                           const struct conditions *conditions, struct advice *a) MUST_CHECK;

#endif
