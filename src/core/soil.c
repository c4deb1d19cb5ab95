#include "core/soil.h"

#include "base/units.h"

/* Average cone index of the top 6 in against its gradient: G = CI / (3.47 in), Mason 2016. */
#define GRADIENT_DEPTH_M (3.47 * UNITS_M_PER_INCH)

static bool all_positive(size_t n, const double x[])
{
    for (size_t i = 0; i < n; i++) {
        if (!(isfinite(x[i]) && x[i] > 0)) {
            return false;
        }
    }
    return true;
}

static bool wheel_fits(const struct soil_wheel *w, double number)
{
    const double x[] = {w->load_n,           w->diameter_m,   w->width_m,
                        w->section_height_m, w->deflection_m, number};
    return all_positive(sizeof x / sizeof x[0], x);
}

/* ---- vehicle cone index: lb, in, psi inside ---- */

double soil_weight_factor(double load_kg)
{
    // clang-format off
    static const struct { double below_kip, slope, base; } band[] = {
        {2.0,      0.553,  0.0},
        {13.5,     0.033,  1.050},
        {20.0,     0.142, -0.420},
        {HUGE_VAL, 0.278, -3.115},
    };
    // clang-format on
    double kip = load_kg / UNITS_KG_PER_LB / 1000.0;
    if (!all_positive(1, &kip)) {
        return (double)NAN;
    }
    size_t i = 0;
    while (kip >= band[i].below_kip * (1.0 - 1e-12)) { /* an edge in kg still is the edge */
        i++;
    }
    return band[i].slope * kip + band[i].base;
}

double soil_mobility_index(const struct soil_axle *a)
{
    const double positive[] = {a->load_kg, a->diameter_m, a->width_m, a->clearance_m, a->tyres_1};
    if (!all_positive(sizeof positive / sizeof positive[0], positive)) {
        return (double)NAN;
    }
    double w_lb = a->load_kg / UNITS_KG_PER_LB;
    double d_in = a->diameter_m / UNITS_M_PER_INCH;
    double b_in = a->width_m / UNITS_M_PER_INCH;
    double contact = w_lb / (0.5 * a->tyres_1 * d_in * b_in);
    double tyre = (10.0 + b_in) / 100.0;
    double wheel_load = w_lb / 2000.0;
    double clearance = a->clearance_m / UNITS_M_PER_INCH / 10.0;
    double mi = contact * soil_weight_factor(a->load_kg) / tyre + wheel_load - clearance;
    mi *= (a->short_of_power ? 1.05 : 1.0) * (a->manual ? 1.05 : 1.0);
    return mi > 0 ? mi : 0;
}

double soil_vci1(double mi_1)
{
    double psi = mi_1 > 115.0 ? 4.1 * pow(mi_1, 0.446) : 11.48 + 0.2 * mi_1 - 39.2 / (mi_1 + 3.74);
    return mi_1 >= 0 && isfinite(mi_1) ? psi * UNITS_PA_PER_PSI : (double)NAN;
}

double soil_vci50(double mi_1)
{
    double psi = 28.23 + 0.43 * mi_1 - 92.67 / (mi_1 + 3.67);
    return mi_1 >= 0 && isfinite(mi_1) ? psi * UNITS_PA_PER_PSI : (double)NAN;
}

double soil_deflection_factor(double deflection_1)
{
    return isfinite(deflection_1) ? pow(0.15 / num_clamp(deflection_1, 0.10, 0.40), 0.25)
                                  : (double)NAN;
}

bool soil_deflection_covered(double deflection_1)
{
    return deflection_1 >= 0.10 && deflection_1 <= 0.40;
}

/* ---- wheel numerics on fine soil ---- */

double soil_clay_number(const struct soil_wheel *w, double strength_pa)
{
    return wheel_fits(w, strength_pa) ? strength_pa * w->width_m * w->diameter_m / w->load_n
                                      : (double)NAN;
}

static double brixius_shape(const struct soil_wheel *w)
{
    return (1.0 + 5.0 * w->deflection_m / w->section_height_m) /
           (1.0 + 3.0 * w->width_m / w->diameter_m);
}

double soil_brixius_number(const struct soil_wheel *w, double strength_pa)
{
    return soil_clay_number(w, strength_pa) * brixius_shape(w);
}

double soil_brixius_strength(const struct soil_wheel *w, double bn_1)
{
    return wheel_fits(w, bn_1) ? bn_1 * w->load_n / (w->width_m * w->diameter_m * brixius_shape(w))
                               : (double)NAN;
}

double soil_brixius_gross(double bn_1, double slip_1)
{
    return 0.88 * (1.0 - exp(-0.1 * bn_1)) * (1.0 - exp(-7.5 * slip_1)) + 0.04;
}

double soil_brixius_resistance(double bn_1, double slip_1)
{
    return 1.0 / bn_1 + 0.04 + 0.5 * slip_1 / sqrt(bn_1);
}

double soil_brixius_net(double bn_1, double slip_1)
{
    return soil_brixius_gross(bn_1, slip_1) - soil_brixius_resistance(bn_1, slip_1);
}

static double net_at_slip(double bn_1, const void *slip)
{
    return soil_brixius_net(bn_1, *(const double *)slip);
}

double soil_brixius_limit(double slip_1)
{
    return num_bisect(net_at_slip, &slip_1, 0.1, 1000.0);
}

static double maclaurin_area(const struct soil_wheel *w)
{
    return pow(w->width_m * w->diameter_m, 0.8) * pow(w->deflection_m, 0.4);
}

double soil_maclaurin_strength(const struct soil_wheel *w, double nm_1)
{
    return wheel_fits(w, nm_1) ? nm_1 * w->load_n / maclaurin_area(w) : (double)NAN;
}

/* ---- sand ---- */

/* (b d)^1.5 (d/h) / 3.47 in: m2, turns a cone index into Ns W. */
static double sand_area(const struct soil_wheel *w)
{
    double area_m2 = w->width_m * w->diameter_m;
    return area_m2 * sqrt(area_m2) * w->deflection_m / w->section_height_m / GRADIENT_DEPTH_M;
}

double soil_sand_number(const struct soil_wheel *w, double strength_pa)
{
    return wheel_fits(w, strength_pa) ? strength_pa * sand_area(w) / w->load_n : (double)NAN;
}

double soil_sand_strength(const struct soil_wheel *w, double ns_1)
{
    return wheel_fits(w, ns_1) ? ns_1 * w->load_n / sand_area(w) : (double)NAN;
}

double soil_sand_pull(double ns_1)
{
    return 0.53 - 4.5 / (ns_1 + 3.7);
}

double soil_sand_number_for(double pull_1)
{
    return 4.5 / (0.53 - pull_1) - 3.7;
}

double soil_contact_pressure(const struct soil_wheel *w)
{
    if (!wheel_fits(w, 1.0)) {
        return (double)NAN;
    }
    double a0_m = w->deflection_m + 0.026 * w->diameter_m;
    double half_length_m = sqrt(w->diameter_m * a0_m - a0_m * a0_m);
    return w->load_n /
           (2.0 * w->width_m * half_length_m * pow(w->width_m / w->section_height_m, 0.52));
}

double soil_sand_towed(const struct soil_wheel *w, double strength_pa)
{
    return all_positive(1, &strength_pa) ? 0.21 * soil_contact_pressure(w) / strength_pa + 0.04
                                         : (double)NAN;
}

/* ---- strength by soil class and moisture ---- */

static double strength_by_moisture(double a, double b, double moisture_1)
{
    if (!all_positive(1, &moisture_1)) {
        return (double)NAN;
    }
    double psi = exp(a + b * log(100.0 * moisture_1));
    return fmin(psi * UNITS_PA_PER_PSI, SOIL_TOP_PA);
}

double soil_rci(enum soil_class soil, double moisture_1)
{
    // clang-format off
    static const struct { double a, b; } fit[] = {
        [SOIL_SM] = {12.542, -2.955}, [SOIL_SC] = {12.542, -2.955}, [SOIL_ML] = {11.936, -2.407},
        [SOIL_CL] = {15.506, -3.530}, [SOIL_CH] = {13.686, -2.705}, [SOIL_OH] = {12.189, -1.942},
    };
    // clang-format on
    if (soil == SOIL_NONE || soil > SOIL_OH) {
        return (double)NAN;
    }
    return strength_by_moisture(fit[soil].a, fit[soil].b, moisture_1);
}

double soil_clean_sand(double moisture_1)
{
    return strength_by_moisture(3.987, 0.815, moisture_1);
}

/* ---- snow: kPa inside ---- */

double soil_snow_traction(enum soil_snow line, double pressure_pa)
{
    static const struct {
        double factor, exponent;
    } fit[] = {
        [SOIL_SNOW_FRESH] = {0.851, 0.823},
        [SOIL_SNOW_PACKED] = {0.321, 0.97},
        [SOIL_SNOW_ICE] = {0.127, 1.06},
    };
    return all_positive(1, &pressure_pa)
               ? 1000.0 * fit[line].factor * pow(pressure_pa / 1000.0, fit[line].exponent)
               : (double)NAN;
}

/* Density that a wheel presses snow to, CRREL 95-7. */
static double pressed_density(double pressure_pa)
{
    return pressure_pa > 700e3   ? 650.0
           : pressure_pa > 350e3 ? 600.0
           : pressure_pa > 210e3 ? 550.0
                                 : 500.0;
}

double soil_snow_sinkage(double depth_m, double density_kg_m3, double pressure_pa)
{
    const double x[] = {depth_m, density_kg_m3, pressure_pa};
    if (!all_positive(3, x)) {
        return (double)NAN;
    }
    return fmax(0.0, depth_m * (1.0 - density_kg_m3 / pressed_density(pressure_pa)));
}

double soil_snow_resistance(double density_kg_m3, double width_m, double arc_m)
{
    return 68.083 * pow(density_kg_m3 * width_m * arc_m, 0.9135);
}

/* ---- mean maximum pressure ---- */

struct maybe soil_mmp_factor(int axles, int driven)
{
    static const double k[5][5] = {
        [2] = {0, 4.40, 3.65},
        [3] = {0, 5.25, 4.35, 3.90},
        [4] = {0, 6.05, 4.95, 4.44, 4.10},
    };
    if (axles < 2 || axles > 4 || driven < 1 || driven > axles) {
        return maybe_none();
    }
    return maybe_of(k[axles][driven]);
}

double soil_mmp(const struct soil_wheel *w, double factor_1)
{
    if (!wheel_fits(w, factor_1)) {
        return (double)NAN;
    }
    return factor_1 * w->load_n /
           (pow(w->width_m, 0.85) * pow(w->diameter_m, 1.15) *
            sqrt(w->deflection_m / w->section_height_m));
}
