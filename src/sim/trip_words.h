/* trip_words.h - a plan in words, for every page and screen that shows one. */
#ifndef SANDSHOE_SIM_TRIP_WORDS_H
#define SANDSHOE_SIM_TRIP_WORDS_H

#include <stdbool.h>

#include "base/text.h"
#include "base/units.h"
#include "sim/trip.h"

struct trip_words {
    const struct trip_in *in;
    const struct trip_plan *plan; /* of in, not refused */
    enum unit_system u;
    int more; /* extra decimals of a pressure to set */
};

/* trip_words_minutes - whole minutes of a time, rounded up as on the card.
 *   in   time_s
 *   ret  minutes
 *   src  none: formatting */
double trip_words_minutes(double time_s);

/* trip_words_span - append a time in whole minutes, rounded up, "3 h 48 min", "27 min".
 *   in   time_s
 *   out  t   appended
 *   ret  nothing
 *   src  none: formatting */
void trip_words_span(double time_s, struct text *t);

/* trip_words_axles - append a pressure of each axle, "front 18, rear 23".
 *   in   w, gauge_pa
 *   in   more  extra decimals
 *   out  t   appended
 *   ret  nothing
 *   src  none: formatting */
void trip_words_axles(const struct trip_words *w, const double gauge_pa[], int more,
                      struct text *t);

/* trip_words_place - append "110 m, 30 C".
 *   in   w, height_m, temp_k
 *   out  t   appended
 *   ret  nothing
 *   src  none: formatting */
void trip_words_place(const struct trip_words *w, double height_m, double temp_k, struct text *t);

/* trip_words_act - append what is to be done before a leg and why, what stands against it first.
 *   in   w, leg
 *   out  t   appended
 *   ret  false: there is nothing to say before this leg, t untouched
 *   src  none: formatting */
bool trip_words_act(const struct trip_words *w, int leg, struct text *t);

#endif
