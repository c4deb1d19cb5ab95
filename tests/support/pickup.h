/* pickup.h - the vehicles and grounds that the flotation tests share. */
#ifndef SANDSHOE_TESTS_PICKUP_H
#define SANDSHOE_TESTS_PICKUP_H

#include "base/units.h"
#include "core/flotation.h"
#include "core/soil.h"

#define PSI UNITS_PA_PER_PSI

/* axle_of - a driven single axle on 35x12.50 at 12 % (road) and 22 % (target), with patches as if
 * the pressure carried all. */
struct mobility_axle axle_of(double load_kg, double road_pa, double target_pa);

/* pickup - the reference's 3000 kg: 1600 and 1400 kg, 10 in clear, 35 to 15 psi. */
struct mobility pickup(void);
struct mobility pickup_with_trailer(void);

/* ground_of - of a strength in psi, 0 for none; snow_of - by density and depth. */
struct ground ground_of(enum ground_kind kind, double psi);
struct ground snow_of(double density_kg_m3, double depth_m);

/* must - flotation with the wanted status; on - the same on a ground of a strength, fine. */
struct flotation must(const struct mobility *m, const struct ground *g, enum status want);
struct flotation on(const struct mobility *m, enum ground_kind kind, double psi);

/* pickup_table_wheel - the check tables' wheel: 800 kg (7.845 kN) on 35x12.50. */
struct soil_wheel pickup_table_wheel(double deflection_1);

#endif
