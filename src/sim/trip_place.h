/* trip_place.h - a place where pressures are changed: its air, its height, its air source, made
 * once for the many changes that the planner weighs there. */
#ifndef SANDSHOE_SIM_TRIP_PLACE_H
#define SANDSHOE_SIM_TRIP_PLACE_H

#include "base/status.h"
#include "sim/refill.h"
#include "sim/source.h"
#include "sim/trip.h"
#include "sim/trip_route.h"

struct trip_place {
    struct route_point at;
    struct refill_in air;
    struct source source;
};

/* place_init - make the place.
 *   in   in
 *   in   at  tyres and intake are as warm as the air there
 *   out  p   untouched on error
 *   ret  STATUS_OK; E_DOMAIN; E_MEMORY
 *   src  model E1, E2 */
enum status place_init(const struct trip_in *in, struct route_point at,
                       struct trip_place *p) MUST_CHECK;

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
