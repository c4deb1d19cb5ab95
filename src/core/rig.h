/* rig.h - a rig as its profile describes it: plain data, SI, no behaviour.
 * Positive quantities that were not given are 0 unless the field is a struct maybe. */
#ifndef SANDSHOE_CORE_RIG_H
#define SANDSHOE_CORE_RIG_H

#include <stdbool.h>

#include "base/num.h"
#include "base/units.h"
#include "core/tyre.h"

enum axle_id { AXLE_FRONT, AXLE_MIDDLE, AXLE_REAR, AXLE_TRAILER, AXLE_TRAILER2, AXLE_COUNT };
enum side { SIDE_LEFT, SIDE_RIGHT, SIDE_COUNT };
enum driven { DRIVEN_ALL, DRIVEN_FRONT, DRIVEN_REAR };
enum gearbox { GEARBOX_AUTOMATIC, GEARBOX_MANUAL };
enum wheel_kind { WHEEL_PLAIN, WHEEL_BEADLOCK, WHEEL_MULTI_PIECE };
enum air_source { AIR_COMPRESSOR, AIR_REGULATOR, AIR_TANK };
enum hookup { HOOKUP_LINKED, HOOKUP_PAIRS, HOOKUP_SINGLE, HOOKUP_COUNT };
enum valve_state { VALVE_CORE_IN, VALVE_CORE_OUT };

enum { RIG_MASSES = 16, RIG_FLOW_POINTS = 12, RIG_NAME = 64 };

struct axle {
    bool present;
    double load_kg;      /* whole axle as weighed */
    double left_share_1; /* 0.5 by default */
    double rating_kg;    /* 0 = not given */
    int wheels;          /* 2, or 4 for duals */
    struct tyre_spec tyre;
    enum wheel_kind wheel;
    double rim_width_m; /* 0 = not given */
    double road_gauge_pa;
    bool road_estimated; /* quick form: not the user's own figure */
    double road_temp_k;
    double floor_gauge_pa; /* tyre maker's own minimum; 0 = none */
    double ball_load_kg;   /* trailer: information */
};

struct added_mass {
    char what[RIG_NAME];
    double mass_kg;    /* negative removes */
    double position_m; /* behind the front axle */
    bool off;          /* switched off in a session; a profile's items are on */
};

struct compressor {
    char name[RIG_NAME];
    int n_flow; /* > 0: flow points; 0: the swept form */
    double flow_gauge_pa[RIG_FLOW_POINTS];
    double flow_m3_s[RIG_FLOW_POINTS]; /* free air */
    double swept_m3_s, clearance_1, exponent_1;
    double sag_1;                   /* speed lost per 100 psi */
    double run_time_s, rest_time_s; /* rest 0 = continuous */
    double cut_out_gauge_pa;        /* 0 = none */
};

struct air_system {
    enum air_source source;
    struct compressor compressor;
    double cut_in_gauge_pa;
    double regulator_gauge_pa, regulator_area_m2;
    double tank_volume_m3, tank_gauge_pa;
    enum hookup hookup;
    double main_length_m, branch_length_m, tail_length_m, hose_bore_m;
    enum valve_state valve;
    double move_time_s;
    struct maybe inlet_temp_k;
    double gauge_step_pa;
    double gauge_offset_pa;
    bool check_valves;
    bool spare; /* a spare carried as an air tank */
    double spare_volume_m3, spare_gauge_pa;
    bool spare_check_valve;
    bool springs;
    double springs_usual_gauge_pa, springs_minimum_gauge_pa;
};

struct rig {
    char name[RIG_NAME];
    char load_state[RIG_NAME];
    char path[256]; /* where it was read from; "" = quick form */
    enum driven driven;
    double clearance_m; /* 0 = not given */
    double power_w;
    enum gearbox gearbox;
    double cg_height_m, track_m, wheelbase_m; /* 0 = not given */
    enum unit_system units;                   /* of the road pressures as written */
    struct axle axle[AXLE_COUNT];
    int n_mass;
    struct added_mass mass[RIG_MASSES];
    struct air_system air;
    bool quick; /* made from the quick form: assumptions are listed */
};

/* axle_name - "front", "middle", "rear", "trailer", "trailer2".
 *   in   a    axle
 *   ret  a string constant
 *   src  none: definition */
const char *axle_name(enum axle_id a);

/* corner_name - "front-left" ...
 *   in   a, s  corner
 *   ret  a string constant
 *   src  none: definition */
const char *corner_name(enum axle_id a, enum side s);

/* axle_is_trailer - trailer axles only roll.
 *   in   a    axle
 *   ret  true for the trailer's axles
 *   src  none: definition */
bool axle_is_trailer(enum axle_id a);

/* axle_is_driven - whether a present axle is driven.
 *   in   rig, a
 *   ret  false for absent and trailer axles; "rear" drives every axle behind the front
 *   src  none: definition */
bool axle_is_driven(const struct rig *rig, enum axle_id a);

/* rig_gauge_step - the smallest step that the rig's gauge shows.
 *   in   rig
 *   ret  Pa; that of its units where none is given
 *   src  none: definition */
double rig_gauge_step(const struct rig *rig);

/* hookup_name - "linked", "pairs", "single".
 *   in   h    hook-up
 *   ret  a string constant
 *   src  none: definition */
const char *hookup_name(enum hookup h);

#endif
