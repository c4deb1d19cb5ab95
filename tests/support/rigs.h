/* rigs.h - invented rigs and the grounds of the catalogue, built without reading a file. */
#ifndef SANDSHOE_TESTS_RIGS_H
#define SANDSHOE_TESTS_RIGS_H

#include "core/advice.h"

#define PSI UNITS_PA_PER_PSI
#define BAR UNITS_PA_PER_BAR
#define KMH (1.0 / 3.6)

/* rigs_ground - a ground of the catalogue by name; fails the test when there is none. */
struct ground rigs_ground(const char *name);

/* rigs_set_axle - a present axle on plain wheels: size, load, road pressure, moulded maximum. */
void rigs_set_axle(struct rig *r, enum axle_id a, const char *size, double load_kg, double road_pa,
                   double max_kg, double max_pa);

struct rig rigs_cabin_on(void);
struct rig rigs_bed_bare(void);
struct rig rigs_light_wagon(void);
struct rig rigs_tourer(void);    /* with a trailer */
struct rig rigs_buggy(void);     /* beadlocks */
struct rig rigs_truck_12t(void); /* bar */

/* rigs_advise - advice that must come without refusal. */
struct advice rigs_advise(const struct rig *r, const char *ground);

#endif
