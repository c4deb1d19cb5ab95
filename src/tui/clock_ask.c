#include "tui/clock_ask.h"

#include <math.h>

#define FAR_PA        (15.0 * UNITS_PA_PER_PSI) /* from the forecast; practice of the trade */
#define UNIT_FAR_1    0.9 /* ln of 2.5: a reading this far off may be in another unit; own choice */
#define UNIT_NEARER_1 0.5 /* and the other unit explains at least half of it; own choice */

/* What the gauge should show of a corner now; false: nothing is known. */
static bool expected(const struct clock_job *j, int corner, bool flowing, double *p_gauge_pa)
{
    if (!j->known || j->session.first_air_s < 0)
        return false;
    *p_gauge_pa = flowing && j->session.up ? j->out.line.p50_gauge_pa
                                           : j->out.corner[corner].settled.p50_gauge_pa;
    return isfinite(*p_gauge_pa);
}

/* Something near the truth to hold a unit against: the forecast, else what it should start from. */
static double anchor(const struct clock_job *j, int corner, bool flowing)
{
    double p = 0;
    return expected(j, corner, flowing, &p) ? p : j->session.in.corner[corner].from_gauge_pa;
}

/* "2.2 psi looks like bar" */
static bool other_unit(double p_gauge_pa, double anchor_pa, enum unit_system u, struct text *words)
{
    double v = units_in(p_gauge_pa, Q_PRESSURE, units_symbol(Q_PRESSURE, u));
    static const double pa_per[] = {
        [UNITS_PSI] = UNITS_PA_PER_PSI, [UNITS_BAR] = UNITS_PA_PER_BAR, [UNITS_KPA] = 1000};
    if (!(p_gauge_pa > 0) || !(anchor_pa > 0))
        return false;
    double off = fabs(log(p_gauge_pa / anchor_pa));
    for (int w = UNITS_PSI; w <= UNITS_KPA; w++) {
        double other = fabs(log(v * pa_per[w] / anchor_pa));
        if (w != (int)u && off > UNIT_FAR_1 && other < UNIT_NEARER_1 * off) {
            text_put(words, "%.4g looks like %s, not %s. ", v,
                     units_symbol(Q_PRESSURE, (enum unit_system)w), units_symbol(Q_PRESSURE, u));
            return true;
        }
    }
    return false;
}

static bool outside(const struct clock_limits *l, double p, enum unit_system u, struct text *words)
{
    bool above = l->max_gauge_pa > 0 && p > l->max_gauge_pa, below = p < l->floor_gauge_pa;
    if (!above && !below)
        return false;
    text_put(words, above ? "Above the moulded maximum, " : "Below the floor, ");
    units_put(words, above ? l->max_gauge_pa : l->floor_gauge_pa, Q_PRESSURE, u, 0);
    text_put(words, ". ");
    return true;
}

bool clock_doubt(const struct clock_job *j, const struct clock_limits limits[REFILL_CORNERS],
                 const struct log_event *e, enum unit_system u, struct text *words)
{
    double p = e->p_gauge_pa - j->session.in.air.gauge_offset_pa, want = 0;
    for (int i = 0; i < REFILL_CORNERS; i++) {
        if (!(e->corners & j->session.present & (1u << i)))
            continue;
        if (other_unit(p, anchor(j, i, e->flowing), u, words))
            return true;
        if (!e->flowing && outside(&limits[i], p, u, words))
            return true;
        if (expected(j, i, e->flowing, &want) && fabs(p - want) > FAR_PA) {
            text_put(words, "The forecast is ");
            units_put(words, want, Q_PRESSURE, u, 0);
            text_put(words, ". ");
            return true;
        }
    }
    return false;
}
