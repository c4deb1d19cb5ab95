#include <math.h>

#include <gsl/gsl_cdf.h>

#include "base/num.h"
#include "core/constants.h"
#include "sim/forecast_part.h"

/* Widths of the unknowns, model F1: own judgement from reference texts, sections 8 and 12. */
#define VOLUME_SD_1       0.10 /* log: the volume rule */
#define CORE_SD_1         0.31 /* log, Student-t5: valve cores, no published flow figure */
#define SAG_LIKELY_1      0.10 /* speed lost per 100 psi: usual, and at most */
#define SAG_MOST_1        0.50
#define SAG_IN_POINTS_1   0.10   /* the sag that a maker's flow points hold already [memory] */
#define STRETCH_LOW       0.5e-7 /* 1/Pa */
#define STRETCH_HIGH      4e-7
#define OVER_LOW_1        0.7
#define OVER_HIGH_1       1.6
/* Scales of Student-t5, whose standard deviation is 1.29 of them: twins differ by 2-3 % in volume;
 * the tails take in a leak, a kinked hose, a chuck half on. */
#define OWN_VOLUME_1      0.02
#define OWN_CORE_1        0.07
/* Letting down, no line evens corners out: a pin half pressed or a dirty core shows in full, and
 * is more common than the tails have it. Beyond this many standard normals they are stretched. */
#define OWN_ODD_1         2.6
#define OWN_CORE_MOST_1   2.5 /* log */
/* Of a corner out of step, which its mates say nothing of: log, Student-t5, down to a pin not pressed. */
#define APART_CORE_1      0.4
#define APART_CORE_MOST_1 6.0

static double at_knots(const double knot[FORECAST_KNOTS], double z)
{
    double x = (z - PART_KNOT_LOW_1) / PART_KNOT_STEP_1;
    int k = (int)num_clamp(x, 0, FORECAST_KNOTS - 2);
    return knot[k] + (x - k) * (knot[k + 1] - knot[k]);
}

/* A standard normal stretched to Student-t5. */
static double heavy(const struct forecast *f, double z)
{
    return at_knots(f->heavy_1, z);
}

static double uniform(double z, double lo, double hi)
{
    return lo + (hi - lo) * gsl_cdf_ugaussian_P(z);
}

/* A triangle from 0 to the most, its tip at the usual value. */
static double sag_of(double z)
{
    double u = gsl_cdf_ugaussian_P(z), most = SAG_MOST_1, tip = SAG_LIKELY_1;
    return u < tip / most ? sqrt(u * most * tip) : most - sqrt((1 - u) * most * (most - tip));
}

/* The line pressure that drives a flow through hose and core into a vessel: the ellipse of the core
 * solved for the pressure before it, then the hose. */
static double line_for(const struct line_vessel *v, double area_m2, double temp_k, double p_abs_pa,
                       double flow_kg_s)
{
    double b = fmin(v->b_1, 0.49), g = 1 - b, m = flow_kg_s / element_conductance(area_m2, temp_k);
    double before = m; /* choked */
    if (p_abs_pa > b * m) {
        double a = g * g - b * b, c = p_abs_pa * p_abs_pa + g * g * m * m;
        before = (sqrt(b * b * p_abs_pa * p_abs_pa + a * c) - b * p_abs_pa) / a;
    }
    return sqrt(before * before + v->hose_si * flow_kg_s * flow_kg_s);
}

/* The ratio is how fast the tyres fill half way, whatever cores, sag and stretch are: so a reading
 * tells the ratio and leaves the others as they were. The delivery that does it follows. */
static double delivery_scale(const struct plan *p, const struct unknowns *u)
{
    const struct line *l = &p->line;
    double pa = l->ambient_abs_pa, mid = p->middle_abs_pa, room = 0, cores = 0, shares = 0;
    int first = -1;
    for (int i = 0; i < p->n; i++) {
        if (p->middle_open >> i & 1u) {
            const struct line_vessel *v = &l->vessel[i];
            room +=
                v->count_1 * v->volume_m3 * u->volume_1[i] * (1 + u->stretch_1_pa * (2 * mid - pa));
            cores += v->count_1 * u->area_1[i];
            shares += v->count_1;
            first = first < 0 ? i : first;
        }
    }
    if (p->source.kind == SOURCE_NONE || first < 0) {
        return u->ratio_1;
    }
    double flow = u->ratio_1 * p->middle_kg_s * room / p->middle_m3, slope = 0;
    const struct line_vessel *v = &l->vessel[first];
    double line = line_for(v, v->area_m2 * cores / shares, l->temp_k, mid, flow / shares);
    double outlet = sqrt(line * line + l->main_si * flow * flow);
    double label = source_flow(&p->source, 1, u->extra_sag_1, outlet, &slope);
    return flow / fmax(label, 0.02 * p->middle_kg_s);
}

/* What all cores of a kind have in common. Without its core a stem flows as its bore does, which
 * tells nothing of cores; letting down has no source, so its sag's place is free. */
static void common_areas(const struct plan *p, const double z[], double area_1[2])
{
    area_1[VALVE_CORE_IN] = area_1[VALVE_CORE_OUT] = exp(CORE_SD_1 * heavy(p->f, z[Z_CORE]));
    if (!p->s->up) {
        area_1[VALVE_CORE_OUT] = exp(CORE_SD_1 * heavy(p->f, z[Z_SAG]));
    }
}

/* log of a corner's core against its mates'. */
static double own_core(const struct plan *p, int i, double z)
{
    if (p->apart >> i & 1u) {
        return num_clamp(APART_CORE_1 * heavy(p->f, z), -APART_CORE_MOST_1, APART_CORE_MOST_1);
    }
    double x = OWN_CORE_1 * heavy(p->f, z), odd = p->s->up ? 0 : z / OWN_ODD_1;
    return num_clamp(x * (1 + pow(odd, 6)), -OWN_CORE_MOST_1, OWN_CORE_MOST_1);
}

void unknowns_of(const struct plan *p, const double z[], struct unknowns *u)
{
    double volume = exp(VOLUME_SD_1 * z[Z_VOLUME]), area_1[2];
    common_areas(p, z, area_1);
    u->ratio_1 = exp(at_knots(p->f->ratio_log_1, z[Z_RATIO]));
    u->extra_sag_1 = sag_of(z[Z_SAG]) - (p->own_sag_1 > 0 ? p->own_sag_1 : SAG_IN_POINTS_1);
    u->stretch_1_pa = uniform(z[Z_STRETCH], STRETCH_LOW, STRETCH_HIGH);
    u->over_1 = OVER_LOW_1 * exp(uniform(z[Z_OVER], 0, log(OVER_HIGH_1 / OVER_LOW_1)));
    u->pace_1 = z[Z_PACE];
    for (int i = 0; i < p->n; i++) {
        u->volume_1[i] = volume * exp(OWN_VOLUME_1 * heavy(p->f, z[Z_OWN(i, Z_OWN_VOLUME)]));
        u->area_1[i] = area_1[plan_core(p, i)] * exp(own_core(p, i, z[Z_OWN(i, Z_OWN_CORE)]));
        u->start_gauge_pa[i] = p->s->start_gauge_pa[p->corner_of[i]] +
                               p->shared_start_pa * z[Z_START] +
                               p->own_start_pa[i] * z[Z_OWN(i, Z_OWN_START)];
    }
    u->scale_1 = delivery_scale(p, u);
}
