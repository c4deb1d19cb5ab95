/* trip_caution.h - what a plan warns of, before the acts that it asks for. */
#ifndef SANDSHOE_SIM_TRIP_CAUTION_H
#define SANDSHOE_SIM_TRIP_CAUTION_H

#include "base/status.h"
#include "core/caution.h"
#include "sim/trip.h"

/* trip_cautions - append the cautions of a plan: readings that will be too low, legs without a
 * stop, changes that the source cannot make, what the rig itself raises, reminders of the acts.
 *
 *   in   in, p  p of trip_compute, not refused
 *   out  list   appended
 *   ret  STATUS_OK; as advice_compute
 *   src  core/caution_table.h
 */
enum status trip_cautions(const struct trip_in *in, const struct trip_plan *p,
                          struct caution_list *list) MUST_CHECK;

/* trip_least_to_set - the reading to set before a leg so that no later one falls below its floor,
 * rounded up to the gauge step.
 *   in   in, leg, axle
 *   ret  Pa gauge
 *   src  model C3, G3 */
double trip_least_to_set(const struct trip_in *in, const struct trip_leg_plan *leg, int axle);

#endif
