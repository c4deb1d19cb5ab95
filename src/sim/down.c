#include "sim/down.h"

#include <math.h>

#include "base/num.h"
#include "core/constants.h"
#include "sim/element.h"
#include "sim/heat.h"
#include "sim/line.h"

/* Creep-back of a 95 L tyre let down to 15 psi through S mm2, own energy runs: the anchors that
 * the formula scales. */
struct valve {
    double area_m2, b_1;
    double anchor_m2, anchor_creep_pa;
};
static const struct valve valves[2] = {
    [VALVE_CORE_IN] = {VALVE_IN_M2, VALVE_IN_B_1, 1.25e-6, 0.3 * 6894.757},
    [VALVE_CORE_OUT] = {VALVE_OUT_M2, VALVE_OUT_B_1, 6e-6, 0.9 * 6894.757},
};
#define ANCHOR_ABS_PA (AIR_SEA_LEVEL_PA + 15 * 6894.757)

static double creep_formula(double p_abs_pa, double pa, double v_m3, double t_k, double area_m2,
                            double b)
{
    double slope = 0;
    double m = element_flow(element_conductance(area_m2, t_k), b, p_abs_pa, pa, &slope);
    return p_abs_pa / t_k * heat_excess(p_abs_pa, v_m3, t_k, m, 0);
}

static double creep_back(const struct down_corner *c, const struct valve *v)
{
    double anchor = creep_formula(ANCHOR_ABS_PA, AIR_SEA_LEVEL_PA, HEAT_WALL_M3, AIR_FREE_TEMP_K,
                                  v->anchor_m2, v->b_1);
    double now = creep_formula(c->to_gauge_pa + c->ambient_abs_pa, c->ambient_abs_pa, c->volume_m3,
                               c->tyre_temp_k, v->area_m2, v->b_1);
    return v->anchor_creep_pa * now / anchor;
}

/* Seconds times conductance per unit of x = sqrt(gauge pressure), where the flow is subsonic. */
static double subsonic_rate(const struct down_vessel *v, double x)
{
    double pa = v->ambient_abs_pa, p = pa + x * x, e = (pa / p - v->b_1) / (1 - v->b_1);
    double per_dp = (1 + v->stretch_1_pa * (2 * p - pa)) / p;
    if (x < 1e-3) { /* the limit of 2 x / sqrt(1 - e^2) */
        return per_dp * sqrt(2 * p * (1 - v->b_1));
    }
    return per_dp * 2 * x / sqrt((1 - e) * (1 + e));
}

double down_blow_off(const struct down_vessel *v, double from_abs_pa, double to_abs_pa)
{
    enum { PARTS = 32 };
    double pa = v->ambient_abs_pa, k = v->stretch_1_pa;
    double choke = fmax(to_abs_pa, fmin(from_abs_pa, pa / v->b_1));
    double sum = (1 - k * pa) * log(from_abs_pa / choke) + 2 * k * (from_abs_pa - choke);
    /* Simpson in x, in which the integrand is smooth down to an empty vessel */
    double x1 = sqrt(choke - pa), x0 = sqrt(to_abs_pa - pa), h = (x1 - x0) / PARTS;
    for (int i = 0; h > 0 && i <= PARTS; i++) {
        double weight = i == 0 || i == PARTS ? 1 : i % 2 == 1 ? 4 : 2;
        sum += weight * h / 3 * subsonic_rate(v, x0 + i * h);
    }
    return sum * v->volume_m3 /
           (AIR_R_J_KG_K * v->temp_k * element_conductance(v->area_m2, v->temp_k));
}

enum status down_compute(const struct down_corner *c, struct down_result *r)
{
    const double x[] = {c->volume_m3,      c->from_gauge_pa, c->to_gauge_pa,
                        c->ambient_abs_pa, c->tyre_temp_k,   c->gauge_offset_pa};
    if (!num_all_finite(6, x) || c->volume_m3 <= 0 || c->ambient_abs_pa <= 0 ||
        c->tyre_temp_k <= 0 || c->from_gauge_pa < 0) {
        return STATUS_E_DOMAIN;
    }
    if (c->to_gauge_pa < 0) {
        return STATUS_E_NO_SOLUTION;
    }
    struct down_result made = {{0}, {0}, {0}};
    double pa = c->ambient_abs_pa;
    for (int k = 0; k < 2; k++) {
        bool flows = c->from_gauge_pa > c->to_gauge_pa;
        if (flows) {
            const struct down_vessel v = {
                c->volume_m3, LINE_STRETCH_1_PA, valves[k].area_m2, valves[k].b_1,
                pa,           c->tyre_temp_k};
            made.time_s[k] = down_blow_off(&v, c->from_gauge_pa + pa, c->to_gauge_pa + pa);
            made.creep_pa[k] = fmin(creep_back(c, &valves[k]), c->to_gauge_pa);
        }
        made.stop_reading_gauge_pa[k] =
            (flows ? c->to_gauge_pa : c->from_gauge_pa) - made.creep_pa[k] + c->gauge_offset_pa;
    }
    const double y[] = {made.time_s[0], made.time_s[1], made.creep_pa[0], made.creep_pa[1]};
    if (!num_all_finite(4, y)) {
        return STATUS_E_DOMAIN;
    }
    *r = made;
    return STATUS_OK;
}
