/* trip_place.h - a place where pressures are changed: its air, its height, its air source, made
 * once for the many changes that the planner weighs there. */
#ifndef SANDSHOE_SIM_TRIP_PLACE_H
#define SANDSHOE_SIM_TRIP_PLACE_H

#include "base/status.h"
#include "sim/refill.h"
#include "sim/source.h"
#include "sim/trip.h"

struct trip_place {
    double ambient_abs_pa, temp_k;
    struct refill_in air;
    struct source source;
};

/* place_init - make the place.
 *   in   in
 *   in   height_m, temp_k  of the place; tyres and intake are as warm as the air
 *   out  p   untouched on error
 *   ret  STATUS_OK; E_DOMAIN; E_MEMORY
 *   src  model E1, E2 */
enum status place_init(const struct trip_in *in, double height_m, double temp_k,
                       struct trip_place *p) MUST_CHECK;

/* place_reading - what a gauge reads here for a cold pressure of an axle.
 *   in   in, p, axle, cold_gauge_pa
 *   out  gauge_pa
 *   ret  STATUS_OK; E_DOMAIN
 *   src  ideal gas law */
enum status place_reading(const struct trip_in *in, const struct trip_place *p, int axle,
                          double cold_gauge_pa, double *gauge_pa) MUST_CHECK;

/* place_change - what going from one level to another costs here.
 *   in   in, p, from, to
 *   out  c   s, m3
 *   ret  STATUS_OK; E_DOMAIN and others of hookup_plan
 *   how  docs/theory.md G2; the tyres are taken to stand as if they had been set here
 *   src  model G2, E7-E9 */
enum status place_change(const struct trip_in *in, const struct trip_place *p,
                         const struct trip_level *from, const struct trip_level *to,
                         struct trip_change *c) MUST_CHECK;

#endif
