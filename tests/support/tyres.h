/* tyres.h - tyres for the tests, from a size and a rating. */
#ifndef SANDSHOE_TESTS_TYRES_H
#define SANDSHOE_TESTS_TYRES_H

#include "core/tyre.h"

#define TYRES_G_M_S2 9.80665 /* m/s2, standard gravity */

/* tyres_spec - a size that must parse, with moulded maxima (0 = unknown). */
struct tyre_spec tyres_spec(const char *size, double max_kg, double max_kpa);

/* tyres_made - the tyre of that spec; fails the test when it cannot be made. */
struct tyre tyres_made(const char *size, double max_kg, double max_kpa);

/* Values that must exist: fail the test on an error, whatever warning there is. */
double tyres_stiffness_n_mm(const struct tyre *t, double p_kpa);
double tyres_deflection_mm(const struct tyre *t, double load_kg, double p_kpa);
double tyres_capacity_kg(const struct tyre *t, double p_kpa);
double tyres_rolling_radius_mm(const struct tyre *t, double d_mm);
struct tyre_patch tyres_patch(const struct tyre *t, double load_kg, double p_kpa);

#endif
