/* flotation.h - what the ground must be able to carry, before and after airing down. */
#ifndef SANDSHOE_CORE_FLOTATION_H
#define SANDSHOE_CORE_FLOTATION_H

#include <stdbool.h>

#include "base/num.h"
#include "base/status.h"
#include "core/ground.h"
#include "core/rig.h"

enum flotation_method {
    FLOTATION_NONE, /* firm ground, ice */
    FLOTATION_VCI,
    FLOTATION_SAND_NUMBER,
    FLOTATION_PULL,
    FLOTATION_SHALLOW_SNOW,
    FLOTATION_BRIXIUS, /* cross-check only */
    FLOTATION_MACLAURIN
};

#define FLOTATION_CLEARANCE_M 0.2 /* m, taken when the clearance is not given [practice] */

enum passes { PASSES_NA, PASSES_REPEATED, PASSES_FEW, PASSES_UNCERTAIN, PASSES_STICK };

/* One axle as the ground feels it. */
struct mobility_axle {
    bool present, driven, trailer;
    double load_kg; /* whole axle */
    int tyres;      /* on the axle: 2 or 4 */
    double outside_diameter_m, section_width_m, section_height_m;
    double deflection_1[2]; /* d / SH: [0] at road pressure, [1] at target */
    double patch_area_m2[2];
    double patch_length_m[2];
};

struct mobility {
    struct mobility_axle axle[AXLE_COUNT];
    double clearance_m; /* 0 = not given */
    double power_w;     /* 0 = not given: enough is assumed */
    enum gearbox gearbox;
    double slope_1; /* rise / run uphill; downhill (below 0) counts as level */
};

struct flotation_other {
    enum flotation_method method;
    struct maybe needed_road_pa, needed_target_pa;
};

struct flotation {
    enum flotation_method method;
    struct maybe needed_road_pa, needed_target_pa; /* strength: cone index as pressure */
    struct maybe gain_1;                           /* 1 - target / road */
    struct maybe mass_equivalent_kg; /* to unload at road pressure for the same needed strength */
    struct maybe strength_pa;        /* of the ground as used */
    enum passes passes;              /* at the target */
    enum passes passes_road;         /* at road pressure */
    int n_other;
    struct flotation_other other[2];
    struct maybe mmp_road_pa, mmp_target_pa;
    struct maybe pull_margin_1; /* at the target */
    struct maybe pull_margin_road_1;
    struct maybe sinkage_m;   /* snow, at the target */
    struct maybe repeated_pa; /* vci: strength for fifty passes, same at road and target */
    struct maybe traction_road_1, traction_target_1; /* snow, ice: of the driven load */
    enum axle_id ruling_axle;                        /* whose needed strength rules at the target */
    bool slick;
    bool deflection_clamped; /* DCF outside 0.10..0.40 */
    bool clearance_assumed;  /* FLOTATION_CLEARANCE_M was taken */
};

/* flotation_compute - the flotation of a vehicle on a ground.
 *
 *   in   m  the vehicle with deflections at road pressure [0] and at target [1]
 *   in   g  the ground
 *   out  f  needed strengths, gain, verdict, cross-checks; untouched on error
 *   ret  STATUS_OK; W_CLAMPED (deflection outside the method's range); W_ASSUMED (clearance not
 *        given; f->clearance_assumed); E_DOMAIN; E_MISSING (the ground lacks what its kind needs,
 *        or no axle is driven)
 *   how  docs/theory.md D
 *   src  Priddy & Willoughby 2006; Turnage 1972 [memory]; CRREL 95-1; Rowland 1972 [memory]
 */
enum status flotation_compute(const struct mobility *m, const struct ground *g,
                              struct flotation *f) MUST_CHECK;

/* flotation_method_name - "vci", "sand-number", "pull-minus-resistance", "shallow-snow", "none",
 * "brixius", "maclaurin".
 *   in   m    method
 *   ret  a string constant
 *   src  none: definition */
const char *flotation_method_name(enum flotation_method m);

/* passes_name - "repeatedly", "a few", "likely to stick", "uncertain", "not applicable".
 *   in   p    verdict
 *   ret  a string constant
 *   src  none: definition */
const char *passes_name(enum passes p);

#endif
