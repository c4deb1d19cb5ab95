#include "sim/source.h"

#include <math.h>

#include <gsl/gsl_errno.h>
#include <gsl/gsl_interp.h>

#include "core/constants.h"
#include "sim/element.h"

/* A flow curve over gauge pressure at sea level: knots with value and slope. */
struct points {
    int n;
    double p_gauge_pa[RIG_FLOW_POINTS + 1], q_m3_s[RIG_FLOW_POINTS + 1], slope[RIG_FLOW_POINTS + 1];
};

static bool points_valid(const struct compressor *c)
{
    for (int i = 0; i < c->n_flow; i++) {
        if (!isfinite(c->flow_gauge_pa[i]) || !isfinite(c->flow_m3_s[i]) || c->flow_m3_s[i] < 0 ||
            (i > 0 && c->flow_gauge_pa[i] <= c->flow_gauge_pa[i - 1])) {
            return false;
        }
    }
    return c->n_flow <= RIG_FLOW_POINTS;
}

static bool machine_valid(const struct compressor *c)
{
    if (c->n_flow > 0) {
        return points_valid(c);
    }
    const double x[] = {c->swept_m3_s, c->clearance_1, c->exponent_1, c->sag_1};
    return num_all_finite(4, x) && c->swept_m3_s > 0 && c->clearance_1 >= 0 && c->exponent_1 >= 1 &&
           c->sag_1 >= 0;
}

/* The slopes of the monotone cubics: Steffen's need three points, two make a straight line. */
static enum status points_slopes(struct points *t)
{
    if (t->n < 3) {
        double s =
            t->n == 2 ? (t->q_m3_s[1] - t->q_m3_s[0]) / (t->p_gauge_pa[1] - t->p_gauge_pa[0]) : 0.0;
        t->slope[0] = t->slope[1] = s;
        return STATUS_OK;
    }
    gsl_interp *g = gsl_interp_alloc(gsl_interp_steffen, (size_t)t->n);
    if (g == NULL) {
        return STATUS_E_MEMORY;
    }
    int err = gsl_interp_init(g, t->p_gauge_pa, t->q_m3_s, (size_t)t->n);
    for (int i = 0; err == GSL_SUCCESS && i < t->n; i++) {
        err = gsl_interp_eval_deriv_e(g, t->p_gauge_pa, t->q_m3_s, t->p_gauge_pa[i], NULL,
                                      &t->slope[i]);
    }
    gsl_interp_free(g);
    return err == GSL_SUCCESS ? STATUS_OK : STATUS_E_DOMAIN;
}

static enum status points_of(const struct compressor *c, struct points *t)
{
    t->n = c->n_flow;
    for (int i = 0; i < t->n; i++) {
        t->p_gauge_pa[i] = c->flow_gauge_pa[i];
        t->q_m3_s[i] = c->flow_m3_s[i];
    }
    return points_slopes(t);
}

/* Value and slope at x; beyond either end the slope is held. */
static void points_at(const struct points *t, double x, double *q, double *dq)
{
    int last = t->n - 1;
    int i = x <= t->p_gauge_pa[0] ? 0 : last;
    if (x <= t->p_gauge_pa[0] || x >= t->p_gauge_pa[last]) {
        *q = t->q_m3_s[i] + t->slope[i] * (x - t->p_gauge_pa[i]);
        *dq = t->slope[i];
        return;
    }
    for (i = 0; x >= t->p_gauge_pa[i + 1]; i++) {
    }
    double h = t->p_gauge_pa[i + 1] - t->p_gauge_pa[i], u = (x - t->p_gauge_pa[i]) / h;
    double s0 = t->slope[i] * h, s1 = t->slope[i + 1] * h, d = t->q_m3_s[i + 1] - t->q_m3_s[i];
    *q = t->q_m3_s[i] + u * (s0 + u * (3 * d - 2 * s0 - s1 + u * (s0 + s1 - 2 * d)));
    *dq = (s0 + u * (2 * (3 * d - 2 * s0 - s1) + 3 * u * (s0 + s1 - 2 * d))) / h;
}

/* Free-air flow points act at the equal pressure ratio and scale with the inlet density. */
static void machine_at(const struct compressor *c, const struct points *t, double pa, double t_in_k,
                       double pc, double *m, double *dm)
{
    double warm_k = t_in_k + SOURCE_SUCTION_K;
    if (t->n > 0) {
        points_at(t, AIR_SEA_LEVEL_PA * (pc / pa - 1), m, dm);
        double rho = AIR_FREE_KG_M3 * (pa / AIR_SEA_LEVEL_PA) *
                     (AIR_FREE_TEMP_K + SOURCE_SUCTION_K) / warm_k;
        *m *= rho;
        *dm *= rho * AIR_SEA_LEVEL_PA / pa;
        return;
    }
    double swept_kg_s = c->swept_m3_s * pa / (AIR_R_J_KG_K * warm_k);
    double r = c->clearance_1 * pow(pc / pa, 1 / c->exponent_1);
    *m = swept_kg_s * (1 + c->clearance_1 - r);
    *dm = -swept_kg_s * r / (c->exponent_1 * pc);
}

static enum status machine_init(const struct compressor *c, double pa, double t_in_k,
                                struct source *s)
{
    struct points t = {.n = 0};
    enum status st = points_of(c, &t);
    if (st != STATUS_OK) {
        return st;
    }
    s->kind = SOURCE_MACHINE;
    s->sag_1 = c->n_flow > 0 ? 0 : c->sag_1;
    s->step_pa = SOURCE_SPAN_PA / SOURCE_CUBICS;
    s->per_step_1_pa = 1 / s->step_pa;
    double m1 = 0, d1 = 0;
    machine_at(c, &t, pa, t_in_k, pa, &m1, &d1);
    for (int i = 0; i < SOURCE_CUBICS; i++) {
        double m0 = m1, s0 = d1 * s->step_pa;
        machine_at(c, &t, pa, t_in_k, pa + (i + 1) * s->step_pa, &m1, &d1);
        double s1 = d1 * s->step_pa, d = m1 - m0;
        s->cubic_kg_s[i][0] = m0;
        s->cubic_kg_s[i][1] = s0;
        s->cubic_kg_s[i][2] = 3 * d - 2 * s0 - s1;
        s->cubic_kg_s[i][3] = s0 + s1 - 2 * d;
    }
    return STATUS_OK;
}

static enum status regulator_init(const struct air_system *air, double pa, double t_in_k,
                                  struct source *s)
{
    if (!isfinite(air->regulator_gauge_pa) || !isfinite(air->regulator_area_m2) ||
        air->regulator_gauge_pa <= 0 || air->regulator_area_m2 <= 0) {
        return STATUS_E_DOMAIN;
    }
    s->kind = SOURCE_REGULATOR;
    s->regulator_abs_pa = air->regulator_gauge_pa + pa;
    s->regulator_si = element_conductance(air->regulator_area_m2, t_in_k);
    return STATUS_OK;
}

enum status source_init(const struct air_system *air, double ambient_abs_pa, double inlet_temp_k,
                        struct source *s)
{
    if (!(ambient_abs_pa > 0) || !(inlet_temp_k > 0) || !isfinite(ambient_abs_pa) ||
        !isfinite(inlet_temp_k) ||
        (air->source == AIR_COMPRESSOR && !machine_valid(&air->compressor))) {
        return STATUS_E_DOMAIN;
    }
    struct source made = {.kind = SOURCE_NONE, .ambient_abs_pa = ambient_abs_pa};
    enum status st = STATUS_OK;
    if (air->source == AIR_COMPRESSOR) {
        st = machine_init(&air->compressor, ambient_abs_pa, inlet_temp_k, &made);
    } else if (air->source == AIR_REGULATOR) {
        st = regulator_init(air, ambient_abs_pa, inlet_temp_k, &made);
    }
    if (st == STATUS_OK) {
        *s = made;
    }
    return st;
}

static double machine_flow(const struct source *s, double sag_1, double pc, double *slope)
{
    double x = (pc - s->ambient_abs_pa) * s->per_step_1_pa;
    double over = x > SOURCE_CUBICS ? x - SOURCE_CUBICS : 0;
    x = !(x > 0) ? 0 : x < SOURCE_CUBICS ? x : SOURCE_CUBICS - 1e-9; /* not a number: 0 */
    int i = (int)x;
    double u = x - i;
    const double *c = s->cubic_kg_s[i];
    double d = c[1] + u * (2 * c[2] + u * 3 * c[3]);
    double m = c[0] + u * (c[1] + u * (c[2] + u * c[3])) + d * over;
    double sag_1_pa = sag_1 * (1 / SOURCE_SAG_PA), f = 1 - sag_1_pa * (pc - s->ambient_abs_pa);
    *slope = d * s->per_step_1_pa * f - m * sag_1_pa;
    return f > 0 ? m * f : 0;
}

double source_flow(const struct source *s, double scale_1, double extra_sag_1, double outlet_abs_pa,
                   double *slope_si)
{
    double m = 0, d = 0;
    if (s->kind == SOURCE_MACHINE) {
        m = machine_flow(s, s->sag_1 + extra_sag_1, outlet_abs_pa, &d);
    } else if (s->kind == SOURCE_REGULATOR) {
        m = element_flow(s->regulator_si, SOURCE_REGULATOR_B, s->regulator_abs_pa, outlet_abs_pa,
                         &d);
    }
    m *= scale_1;
    *slope_si = m > 0 ? d * scale_1 : 0;
    return m > 0 ? m : 0;
}
