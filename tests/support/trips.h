/* trips.h - invented trips, built without reading a file. */
#ifndef SANDSHOE_TESTS_TRIPS_H
#define SANDSHOE_TESTS_TRIPS_H

#include "sim/trip.h"

/* A trip with its rig and grounds beside it; trips_in points into it. */
struct trips_case {
    struct rig rig;
    struct trip trip;
    struct ground ground[TRIP_LEGS];
};

/* trips_start - a trip without legs, at sea level and 20 C; the rig gets four linked corners and a
 * compressor of 160 L/min on the label. */
void trips_start(struct trips_case *c, struct rig rig);

/* trips_leg - append a leg with a stop after it; returns it for height, temperature and the like. */
struct trip_leg *trips_leg(struct trips_case *c, const char *ground, double km, double kmh);

/* trips_end - where the last leg ends. */
void trips_end(struct trips_case *c, double height_m, double air_c);

struct trip_in trips_in(const struct trips_case *c);

/* trips_plan - a plan that must come without error. */
struct trip_plan trips_plan(const struct trips_case *c);

#endif
