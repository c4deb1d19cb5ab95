#include "support/pickup.h"

#include "core/constants.h"
#include "support/check.h"

struct mobility_axle axle_of(double load_kg, double road_pa, double target_pa)
{
    double corner_n = load_kg * GRAVITY_M_S2 / 2;
    return (struct mobility_axle){
        .present = true,
        .driven = true,
        .load_kg = load_kg,
        .tyres = 2,
        .outside_diameter_m = 0.889,
        .section_width_m = 0.3175,
        .section_height_m = 0.2286,
        .deflection_1 = {0.12, 0.22},
        .patch_area_m2 = {corner_n / road_pa, corner_n / target_pa},
        .patch_length_m = {0.2, 0.3},
    };
}

struct mobility pickup(void)
{
    struct mobility m = {.clearance_m = 0.254, .gearbox = GEARBOX_AUTOMATIC};
    m.axle[AXLE_FRONT] = axle_of(1600, 35 * PSI, 15 * PSI);
    m.axle[AXLE_REAR] = axle_of(1400, 35 * PSI, 15 * PSI);
    return m;
}

struct mobility pickup_with_trailer(void)
{
    struct mobility m = pickup();
    m.axle[AXLE_TRAILER] = axle_of(900, 35 * PSI, 15 * PSI);
    m.axle[AXLE_TRAILER].driven = false;
    m.axle[AXLE_TRAILER].trailer = true;
    return m;
}

struct ground ground_of(enum ground_kind kind, double psi)
{
    struct ground g = {.kind = kind};
    g.strength_pa = psi > 0 ? maybe_of(psi * PSI) : maybe_none();
    return g;
}

struct ground snow_of(double density_kg_m3, double depth_m)
{
    struct ground g = {.kind = GROUND_SNOW};
    g.snow_density_kg_m3 = maybe_of(density_kg_m3);
    g.snow_depth_m = maybe_of(depth_m);
    return g;
}

struct flotation must(const struct mobility *m, const struct ground *g, enum status want)
{
    struct flotation f = {0};
    CHECK_STATUS(flotation_compute(m, g, &f), want);
    return f;
}

struct flotation on(const struct mobility *m, enum ground_kind kind, double psi)
{
    struct ground g = ground_of(kind, psi);
    return must(m, &g, STATUS_OK);
}

struct soil_wheel pickup_table_wheel(double deflection_1)
{
    return (struct soil_wheel){
        .load_n = 800 * GRAVITY_M_S2,
        .diameter_m = 0.889,
        .width_m = 0.3175,
        .section_height_m = 0.2286,
        .deflection_m = deflection_1 * 0.2286,
    };
}
