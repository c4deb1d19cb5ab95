#include "sim/element.h"

#include <math.h>

#include "base/num.h"
#include "core/constants.h"

double element_conductance(double area_m2, double temp_k)
{
    return area_m2 * ELEMENT_PSI_1 / sqrt(AIR_R_J_KG_K * temp_k);
}

/* Ellipse of ISO 6358 as a share of the choked flow; r is the pressure ratio, r > b. */
static double ellipse(double r, double b)
{
    double e = (r - b) / (1 - b);
    return e < 1 ? sqrt(1 - e * e) : 0;
}

double element_flow(double cp_si, double b_1, double up_abs_pa, double down_abs_pa,
                    double *slope_si)
{
    *slope_si = 0;
    if (!(down_abs_pa < up_abs_pa)) {
        return 0;
    }
    double r = down_abs_pa / up_abs_pa;
    if (r <= b_1) {
        return cp_si * up_abs_pa;
    }
    if (r > 1 - ELEMENT_LAMINAR_1) {
        double k = cp_si * ellipse(1 - ELEMENT_LAMINAR_1, b_1) / ELEMENT_LAMINAR_1;
        *slope_si = -k;
        return k * (up_abs_pa - down_abs_pa);
    }
    double w = ellipse(r, b_1);
    *slope_si = -cp_si * (r - b_1) / ((1 - b_1) * (1 - b_1) * w);
    return cp_si * up_abs_pa * w;
}

static double swamee_jain(double reynolds_1, double roughness_1)
{
    double l = log10(roughness_1 / 3.7 + 5.74 / pow(reynolds_1, 0.9));
    return 0.25 / (l * l);
}

double hose_friction(double reynolds_1, double roughness_1)
{
    const double laminar_end = 2300, turbulent_start = 4000; /* Re, usual limits [memory] */
    if (reynolds_1 >= turbulent_start) {
        return swamee_jain(reynolds_1, roughness_1);
    }
    if (reynolds_1 <= laminar_end) {
        return 64 / fmax(reynolds_1, 1);
    }
    double u = (reynolds_1 - laminar_end) / (turbulent_start - laminar_end);
    return (1 - u) * 64 / laminar_end + u * swamee_jain(turbulent_start, roughness_1);
}

double hose_constant(double length_m, double bore_m, double temp_k, double nominal_kg_s)
{
    if (!(length_m > 0) || !(bore_m > 0)) {
        return 0;
    }
    double area = NUM_PI / 4 * bore_m * bore_m;
    double re = 4 * nominal_kg_s / (NUM_PI * bore_m * AIR_VISCOSITY_PA_S);
    double f = HOSE_EXCESS_1 * hose_friction(re, HOSE_ROUGHNESS_M / bore_m);
    return AIR_R_J_KG_K * temp_k / (area * area) * (f * length_m / bore_m + HOSE_COUPLER_1);
}

/* Hose first, then core; P > p. */
static double forward(const struct branch *b, double up, double p, double *slope)
{
    double k2 = b->kap_1, c = b->b_1, g = b->g_1;
    if (p * b->cp_si <= c * up * b->choked_si) {
        *slope = b->choked_si;
        return b->choked_si * up;
    }
    double h = k2 * c * p;
    double pv = (sqrt(h * h + b->a_1 * (g * up * up + k2 * p * p)) - h) * b->over_a_1;
    double e = p - c * pv, x = e * b->over_b_1;
    double m = b->cp_si * sqrt((pv - x) * (pv + x));
    /* m (K + pv (1-b)^2 / (cp^2 G)) dm = P dP with G = (1-b)^2 pv + b (p - b pv) */
    double q = g * pv + c * e;
    *slope = up * q * b->cp_si * b->cp_si / (m * (k2 * q + pv * g));
    return m;
}

/* Core first, then hose; p > P. The flow is returned positive, the slope is d(-m)/dP. */
static double reverse(const struct branch *b, double line, double p, double *slope)
{
    double k2 = b->kap_1, c = b->b_1, g = (1 - c) * (1 - c);
    double a = g + k2, h = k2 * c * p;
    double q = (h + sqrt(h * h + a * (g * (line * line + k2 * p * p) - k2 * c * c * p * p))) / a;
    if (q <= c * p) { /* choked */
        *slope = 0;
        return b->cp_si * p;
    }
    double e = (q - c * p) / (1 - c);
    double m = b->cp_si * sqrt((p - e) * (p + e));
    *slope = line * b->cp_si * b->cp_si * (q - c * p) / (m * (k2 * (q - c * p) + q * g));
    return m;
}

struct branch branch_of(double area_m2, double b_1, double hose_si, double temp_k)
{
    struct branch b = {
        .cp_si = element_conductance(area_m2, temp_k), .b_1 = b_1, .hose_si = hose_si};
    b.kap_1 = hose_si * b.cp_si * b.cp_si;
    b.choked_si = b.cp_si / sqrt(1 + b.kap_1);
    b.g_1 = (1 - b_1) * (1 - b_1);
    b.a_1 = b.g_1 * (1 + b.kap_1) - b.kap_1 * b_1 * b_1;
    b.over_a_1 = 1 / b.a_1;
    b.over_b_1 = 1 / (1 - b_1);
    double slope = 0;
    b.forward_si = forward(&b, 1, 1 - ELEMENT_LAMINAR_1, &slope) / ELEMENT_LAMINAR_1;
    b.reverse_si = reverse(&b, 1 - ELEMENT_LAMINAR_1, 1, &slope) / ELEMENT_LAMINAR_1;
    return b;
}

double branch_flow(const struct branch *b, double line_abs_pa, double p_abs_pa, double *slope_si)
{
    double d = line_abs_pa - p_abs_pa;
    if (d >= ELEMENT_LAMINAR_1 * line_abs_pa) {
        return forward(b, line_abs_pa, p_abs_pa, slope_si);
    }
    if (-d >= ELEMENT_LAMINAR_1 * p_abs_pa) {
        return -reverse(b, line_abs_pa, p_abs_pa, slope_si);
    }
    *slope_si = d >= 0 ? b->forward_si : b->reverse_si;
    return *slope_si * d;
}
