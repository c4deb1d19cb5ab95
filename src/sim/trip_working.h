/* trip_working.h - the working behind a trip's plan, leg by leg. */
#ifndef SANDSHOE_SIM_TRIP_WORKING_H
#define SANDSHOE_SIM_TRIP_WORKING_H

#include "core/working.h"
#include "sim/trip.h"

/* trip_working - append the rows of every leg: pressures, caps, times, changes, readings.
 *
 *   in   in, p  p of trip_compute, not refused
 *   out  w      rows appended
 *   ret  nothing
 *   how  equation numbers of docs/theory.md
 *   src  core/refs.h, model G
 */
void trip_working(const struct trip_in *in, const struct trip_plan *p, struct working *w);

#endif
