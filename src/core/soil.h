/* soil.h - published relations between a wheel, its load and soft ground.
 *
 * SI at every interface; each relation's own units (lb and in inside the mobility index, kPa in
 * the snow lines) stay inside.  An input that is not finite, or a load, size or strength that is
 * not above 0, gives NaN; flotation_compute turns it into STATUS_E_DOMAIN.
 */
#ifndef SANDSHOE_CORE_SOIL_H
#define SANDSHOE_CORE_SOIL_H

#include <stdbool.h>

#include "base/num.h"
#include "base/units.h"
#include "core/ground.h"

#define SOIL_SLIP_1       0.2   /* slip at which pull is judged, as P20 and model D1 */
#define SOIL_SAND_PULL_1  0.10  /* pull / load that crosses sand, model D2 */
#define SOIL_MACLAURIN_1  2.09  /* Nm of zero pull: 0.8 = 3.2 / (Nm + 1.91) */
#define SOIL_PACKED_KG_M3 400.0 /* density from which snow counts as packed, model D3 */
#define SOIL_TOP_PA       (300.0 * UNITS_PA_PER_PSI) /* Pa, full scale of the cone, 300 psi */
#define SOIL_ENOUGH_W_KG  8.219941 /* W/kg, 10 hp a short ton: 10 x 745.69987 / 907.18474 */

/* One tyre on soft ground. */
struct soil_wheel {
    double load_n;
    double diameter_m, width_m, section_height_m;
    double deflection_m; /* on hard ground */
};

/* One axle as the mobility index sees it. */
struct soil_axle {
    double load_kg; /* whole axle */
    double tyres_1; /* on the axle; a mean for a vehicle taken as one */
    double diameter_m, width_m, clearance_m;
    bool short_of_power; /* below SOIL_ENOUGH_W_KG of the whole vehicle */
    bool manual;
};

enum soil_snow { SOIL_SNOW_FRESH, SOIL_SNOW_PACKED, SOIL_SNOW_ICE };

/* soil_weight_factor - weight factor of the mobility index, in four bands.
 *   in   load_kg  whole axle
 *   ret  factor
 *   how  docs/theory.md D1
 *   src  Priddy 1999, ERDC TR GL-99-8 p. 42 [second-hand]; 0.553 in the first band */
double soil_weight_factor(double load_kg);

/* soil_mobility_index - mobility index of one axle, self-propelled wheeled.
 *   in   a  the axle
 *   ret  index, not below 0 (own: the curves are not meant for it)
 *   how  docs/theory.md D1
 *   src  Priddy 1999, ERDC TR GL-99-8 pp. 42-43 [second-hand] */
double soil_mobility_index(const struct soil_axle *a);

/* soil_vci1 - strength for one pass, before the deflection factor; soil_vci50 - for fifty, which
 * takes no deflection factor.
 *   in   mi_1  mobility index, >= 0
 *   ret  rating cone index as pressure, Pa
 *   how  docs/theory.md D2, D4
 *   src  Priddy & Willoughby 2006 p. 8 [read]; VCI50 [second-hand] */
double soil_vci1(double mi_1);
double soil_vci50(double mi_1);

/* soil_deflection_factor - DCF, what deflection does to the one-pass strength.
 *   in   deflection_1  deflection / section height, clamped to 0.10..0.40
 *   ret  factor
 *   how  docs/theory.md D3
 *   src  Priddy & Willoughby 2006 p. 8 [read]; the clamp is own */
double soil_deflection_factor(double deflection_1);

/* soil_deflection_covered - whether soil_deflection_factor takes it without clamping.
 *   in   deflection_1
 *   ret  true within 0.10..0.40
 *   src  own choice; the published tests reach 37 % */
bool soil_deflection_covered(double deflection_1);

/* soil_clay_number - Cn = CI b d / W.
 *   in   w, strength_pa
 *   ret  number
 *   src  Wismer & Luth 1973 [memory] */
double soil_clay_number(const struct soil_wheel *w, double strength_pa);

/* soil_brixius_number - Bn, and soil_brixius_strength its inverse.
 *   in   w, strength_pa; bn_1
 *   ret  number; strength, Pa
 *   how  docs/theory.md D5
 *   src  Brixius 1987 [second-hand] */
double soil_brixius_number(const struct soil_wheel *w, double strength_pa);
double soil_brixius_strength(const struct soil_wheel *w, double bn_1);

/* soil_brixius_gross, soil_brixius_resistance, soil_brixius_net - of a bias tyre, / load.
 *   in   bn_1 > 0, slip_1 >= 0 (0: a wheel that only rolls)
 *   ret  force / load; net = gross - resistance
 *   how  docs/theory.md D6
 *   src  Brixius 1987, bias form with +0.04 in the gross [memory] */
double soil_brixius_gross(double bn_1, double slip_1);
double soil_brixius_resistance(double bn_1, double slip_1);
double soil_brixius_net(double bn_1, double slip_1);

/* soil_brixius_limit - Bn at which the net pull at a slip is zero.
 *   in   slip_1 > 0
 *   ret  number
 *   how  bisection, docs/theory.md D6
 *   src  as soil_brixius_net */
double soil_brixius_limit(double slip_1);

/* soil_maclaurin_strength - the strength that gives a wheel its Nm.
 *   in   w, nm_1
 *   ret  Pa
 *   how  docs/theory.md D7
 *   src  Maclaurin 1990 by Saarilahti 2002 [second-hand] */
double soil_maclaurin_strength(const struct soil_wheel *w, double nm_1);

/* soil_sand_number - Ns from the average cone index of the top 6 in, and soil_sand_strength its
 * inverse.
 *   in   w, strength_pa; ns_1
 *   ret  number; strength, Pa
 *   how  docs/theory.md D9
 *   src  Turnage 1972 [memory]; CI / 3.47 in, Mason 2016 eq. 2 [second-hand] */
double soil_sand_number(const struct soil_wheel *w, double strength_pa);
double soil_sand_strength(const struct soil_wheel *w, double ns_1);

/* soil_sand_pull - P20/W, pull / load at 20 % slip, and soil_sand_number_for its inverse.
 *   in   ns_1 > 0; pull_1 < 0.53
 *   ret  pull / load; number
 *   how  docs/theory.md D10; +-30 %
 *   src  after the WES curves [memory, low confidence] */
double soil_sand_pull(double ns_1);
double soil_sand_number_for(double pull_1);

/* soil_contact_pressure - contact pressure of a tyre on sand.
 *   in   w
 *   ret  Pa
 *   how  docs/theory.md D11
 *   src  Mason 2016 eq. 10 [second-hand] */
double soil_contact_pressure(const struct soil_wheel *w);

/* soil_sand_towed - resistance / load of a wheel that only rolls on sand.
 *   in   w, strength_pa
 *   ret  force / load
 *   how  docs/theory.md D11
 *   src  Williams 2017 eq. 9 at zero slip [second-hand] */
double soil_sand_towed(const struct soil_wheel *w, double strength_pa);

/* soil_rci - rating cone index of fine soil by its class and moisture.
 *   in   soil, moisture_1 (by mass, > 0)
 *   ret  Pa, at most SOIL_TOP_PA; NaN for SOIL_NONE
 *   how  docs/theory.md D8
 *   src  Sullivan & Anderson 2000 [second-hand]; the cap is own */
double soil_rci(enum soil_class soil, double moisture_1);

/* soil_clean_sand - cone index of clean sand by its moisture; an average, too high for loose
 * dune faces.
 *   in   moisture_1 (by mass, > 0)
 *   ret  Pa, at most SOIL_TOP_PA
 *   how  docs/theory.md D8
 *   src  Sullivan & Anderson 2000 [second-hand]; the cap is own */
double soil_clean_sand(double moisture_1);

/* soil_snow_traction - traction stress on the hard-surface contact area.
 *   in   line, pressure_pa = load / contact area
 *   ret  Pa of contact area
 *   how  docs/theory.md D12
 *   src  CRREL Report 95-1 [read outputs, constants from memory] */
double soil_snow_traction(enum soil_snow line, double pressure_pa);

/* soil_snow_sinkage - depth that a wheel presses into snow.
 *   in   depth_m, density_kg_m3, pressure_pa
 *   ret  m, not below 0
 *   how  docs/theory.md D13
 *   src  CRREL Report 95-7 [read] */
double soil_snow_sinkage(double depth_m, double density_kg_m3, double pressure_pa);

/* soil_snow_resistance - force that holds one leading tyre; indicative.
 *   in   density_kg_m3, width_m, arc_m (length of tyre in the snow)
 *   ret  N
 *   how  docs/theory.md D14
 *   src  CRREL Report 95-7; coefficient from memory, exponent back-solved on a tracked vehicle */
double soil_snow_resistance(double density_kg_m3, double width_m, double arc_m);

/* soil_mmp_factor - K of the mean maximum pressure.
 *   in   axles, driven  numbers of axles of the vehicle
 *   ret  K, or nothing outside the table
 *   src  Rowland 1972, Larminie 1988 [memory] */
struct maybe soil_mmp_factor(int axles, int driven);

/* soil_mmp - mean maximum pressure under a tyre.
 *   in   w, factor_1 (soil_mmp_factor)
 *   ret  Pa
 *   how  docs/theory.md D15
 *   src  Rowland 1972 [memory] */
double soil_mmp(const struct soil_wheel *w, double factor_1);

#endif
