/* flotation_part.h - what the methods of flotation share; for flotation*.c only. */
#ifndef SANDSHOE_CORE_FLOTATION_PART_H
#define SANDSHOE_CORE_FLOTATION_PART_H

#include "core/flotation.h"
#include "core/soil.h"

enum { AT_ROAD, AT_TARGET };

/* Of the pull over the load, model D1 and D2; a choice. */
#define MARGIN_KEPT_1  0.05 /* taken off every margin, kept in hand */
#define MARGIN_DOUBT_1 0.05 /* a margin this near to 0 is no verdict */

/* part_pulls - whether an axle of the tow vehicle is there and driven.
 *   in   a
 *   ret  true for those
 *   src  none: definition */
bool part_pulls(const struct mobility_axle *a);

/* part_wheel - one tyre of an axle with its share of the axle's load.
 *   in   a; at (AT_ROAD, AT_TARGET)
 *   ret  the wheel
 *   src  none: definition */
struct soil_wheel part_wheel(const struct mobility_axle *a, int at);

/* part_total_kg - load of all axles, trailer included.
 *   in   m
 *   ret  kg
 *   src  none: sum */
double part_total_kg(const struct mobility *m);

/* part_sine - sine of the slope; level for a downhill.
 *   in   m
 *   ret  0..1
 *   src  none: geometry */
double part_sine(const struct mobility *m);

/* part_worst - the greatest strength that any driven axle needs.
 *   in   m, at; needed (strength of one wheel, Pa)
 *   out  axle  whose it is; NULL when not asked
 *   ret  Pa
 *   how  docs/theory.md D16
 *   src  model: maximum over the driven axles */
double part_worst(const struct mobility *m, int at, double (*needed)(const struct soil_wheel *w),
                  enum axle_id *axle);

/* part_margin - pull that is left: driven wheels pull, the rest resist, each by its load, less
 * slope and MARGIN_KEPT_1.
 *   in   m, at, strength_pa; pull, resistance (force / load of one wheel at a strength)
 *   ret  force / total load
 *   how  docs/theory.md D17
 *   src  model D1, D2 */
double part_margin(const struct mobility *m, int at, double strength_pa,
                   double (*pull)(const struct soil_wheel *w, double strength_pa),
                   double (*resistance)(const struct soil_wheel *w, double strength_pa));

/* part_gain - 1 - target / road where both exist.
 *   in   road_pa, target_pa
 *   ret  gain or nothing
 *   how  docs/theory.md D18
 *   src  none: definition */
struct maybe part_gain(struct maybe road_pa, struct maybe target_pa);

/* part_unload - mass equivalent where the needed strength is proportional to the load.
 *   in   m, f (gain filled in)
 *   ret  kg, or nothing without a gain or below a fifth of the load
 *   how  docs/theory.md D19
 *   src  none: definition */
struct maybe part_unload(const struct mobility *m, const struct flotation *f);

/* fine_compute, sand_compute, snow_compute - the methods by kind of ground.
 *   in   m (checked), g
 *   out  f  its own fields
 *   ret  as flotation_compute
 *   how  docs/theory.md D
 *   src  as flotation_compute */
enum status fine_compute(const struct mobility *m, const struct ground *g,
                         struct flotation *f) MUST_CHECK;
enum status sand_compute(const struct mobility *m, const struct ground *g,
                         struct flotation *f) MUST_CHECK;
enum status snow_compute(const struct mobility *m, const struct ground *g,
                         struct flotation *f) MUST_CHECK;

#endif
