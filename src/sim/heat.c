#include "sim/heat.h"

#include <math.h>

#include "core/constants.h"
#include "sim/element.h"

double heat_wall_coefficient(double diff_k, double p_abs_pa, double temp_k)
{
    double rho = p_abs_pa / (AIR_R_J_KG_K * temp_k);
    double ra_m3 = GRAVITY_M_S2 * diff_k * rho * rho * AIR_CP_J_KG_K /
                   (temp_k * AIR_VISCOSITY_PA_S * AIR_CONDUCT_W_M_K);
    return 0.13 * AIR_CONDUCT_W_M_K * cbrt(ra_m3);
}

double heat_excess(double p_abs_pa, double volume_m3, double temp_k, double flow_kg_s,
                   double cooled_by_inflow_1)
{
    if (!(flow_kg_s > 0)) {
        return 0;
    }
    double relative = volume_m3 / HEAT_WALL_M3;
    double wall_m2 = HEAT_WALL_M2 * cbrt(relative * relative);
    /* heat = g dT^(4/3) + c dT is convex: Newton from above falls to the root */
    double g = HEAT_WALL_FACTOR_1 * heat_wall_coefficient(1, p_abs_pa, temp_k) * wall_m2;
    double c = cooled_by_inflow_1 * flow_kg_s * AIR_CP_J_KG_K;
    double heat_w = flow_kg_s * AIR_R_J_KG_K * temp_k;
    double dt_k = pow(heat_w / g, 0.75);
    for (int i = 0; i < 6; i++) {
        double root = cbrt(dt_k);
        dt_k -= (g * root * dt_k + c * dt_k - heat_w) / (4.0 / 3 * g * root + c);
    }
    return dt_k;
}

double heat_over_read(double p_abs_pa, double volume_m3, double temp_k, double flow_kg_s)
{
    double free_l_min = flow_kg_s / AIR_FREE_KG_M3 * 6e4;
    double strong = fmin(1.5, 1 + 0.005 * fmax(0, free_l_min - 30));
    return p_abs_pa / temp_k * heat_excess(p_abs_pa, volume_m3, temp_k, flow_kg_s, 1) * strong;
}
