/* trip_route.h - places along a trip, and what a gauge will read there. */
#ifndef SANDSHOE_SIM_TRIP_ROUTE_H
#define SANDSHOE_SIM_TRIP_ROUTE_H

#include "base/status.h"
#include "sim/trip.h"

struct route_point {
    double height_m, temp_k;
};

/* route_start, route_after - the place where a trip starts; the place after a leg.
 *   in   t; leg and the place before it
 *   ret  height and air temperature
 *   src  none: what a leg does not say stays as it was */
struct route_point route_start(const struct trip *t);
struct route_point route_after(const struct trip_leg *leg, struct route_point before);

/* The sealed air of an axle: what it read, at which temperature and ambient pressure. */
struct route_sealed {
    double gauge_pa, temp_k, ambient_abs_pa;
};

/* route_reads - what a gauge reads on sealed air at a place, the tyre as warm as the air.
 *   in   t, at
 *   out  gauge_pa
 *   ret  STATUS_OK; E_DOMAIN
 *   src  ideal gas law */
enum status route_reads(const struct route_sealed *t, struct route_point at,
                        double *gauge_pa) MUST_CHECK;

/* route_set - set an axle to its pressure of a level at a place.
 *   in   in, axle, level, at
 *   out  t   its gauge_pa is the reading to set there, without the gauge's offset
 *   ret  STATUS_OK; E_DOMAIN
 *   how  docs/theory.md G3; road pressure is never set below its figure, however cold it is
 *   src  ideal gas law; practice S7: 27 psi against 36 in the cold is 25 % under */
enum status route_set(const struct trip_in *in, int axle, const struct trip_level *level,
                      struct route_point at, struct route_sealed *t) MUST_CHECK;

/* route_predict - fill in the readings along a plan whose levels are chosen.
 *
 *   in   in
 *   in,out  p  levels and actions in; places, readings to set, readings at each leg's end,
 *           warnings out
 *   ret  STATUS_OK; E_DOMAIN
 *   how  a set tyre is sealed: (p + pa)/T is constant until it is set again, docs/theory.md G3
 *   src  ideal gas law
 */
enum status route_predict(const struct trip_in *in, struct trip_plan *p) MUST_CHECK;

#endif
