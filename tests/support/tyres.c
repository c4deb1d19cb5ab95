#include "support/tyres.h"

#include "support/check.h"

struct tyre_spec tyres_spec(const char *size, double max_kg, double max_kpa)
{
    struct tyre_spec spec = {.max_load_kg = max_kg, .max_gauge_pa = 1000.0 * max_kpa};
    assert_true(designation_parse(size, &spec.size) >= 0);
    return spec;
}

struct tyre tyres_made(const char *size, double max_kg, double max_kpa)
{
    struct tyre_spec spec = tyres_spec(size, max_kg, max_kpa);
    struct tyre t;
    assert_true(tyre_init(&spec, &t) >= 0);
    return t;
}

double tyres_stiffness_n_mm(const struct tyre *t, double p_kpa)
{
    double k_n_m = 0.0;
    assert_true(tyre_stiffness(t, 1000.0 * p_kpa, &k_n_m) >= 0);
    return k_n_m / 1000.0;
}

double tyres_deflection_mm(const struct tyre *t, double load_kg, double p_kpa)
{
    double d_m = 0.0;
    assert_true(tyre_deflection(t, load_kg * TYRES_G_M_S2, 1000.0 * p_kpa, &d_m) >= 0);
    return 1000.0 * d_m;
}

double tyres_capacity_kg(const struct tyre *t, double p_kpa)
{
    double kg = 0.0;
    assert_true(tyre_capacity(t, 1000.0 * p_kpa, &kg) >= 0);
    return kg;
}

double tyres_rolling_radius_mm(const struct tyre *t, double d_mm)
{
    double re_m = 0.0;
    assert_true(tyre_rolling_radius(t, d_mm / 1000.0, &re_m) >= 0);
    return 1000.0 * re_m;
}

struct tyre_patch tyres_patch(const struct tyre *t, double load_kg, double p_kpa)
{
    struct tyre_patch patch;
    double d_m = tyres_deflection_mm(t, load_kg, p_kpa) / 1000.0;
    assert_true(tyre_patch_at(t, load_kg * TYRES_G_M_S2, d_m, &patch) >= 0);
    return patch;
}
