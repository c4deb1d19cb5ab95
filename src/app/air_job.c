#include "app/air_job.h"

#include <math.h>

#include "core/gas.h"

#define FOUND_LOW_1  0.8                      /* share of the target, 29 CFR 1910.177 */
#define FOUND_LOW_PA (5.0 * UNITS_PA_PER_PSI) /* under the axle mate, common practice */
#define INLET_K      293.15                   /* air drawn, when nothing is said of it */
#define ABOVE_1      1e-6                     /* share: above beyond rounding */

/* What a cold pressure of an axle is now, true gauge. */
static enum status now_pa(const struct advice *a, int axle, double cold_pa, double *pa)
{
    return gas_gauge_moved(cold_pa, a->rig.axle[axle].road_temp_k, a->ambient_abs_pa,
                           a->tyre_temp_k[axle], a->ambient_abs_pa, pa);
}

/* The temperature of the tyres now: an advice that was refused has not settled it. */
static double tyre_temp_k(const struct advice *a, int axle)
{
    const struct conditions *c = &a->conditions;
    return maybe_or(c->tyre_temp_k, maybe_or(c->air_temp_k, a->rig.axle[axle].road_temp_k));
}

/* ---- down ---- */

static enum status let_down(const struct advice *a, int corner, struct maybe reading,
                            struct down_line *line)
{
    int axle = corner / SIDE_COUNT;
    const struct axle_advice *x = &a->axle[axle];
    double offset_pa = a->rig.air.gauge_offset_pa, from_pa = 0.0, volume_m3 = 0.0;
    enum status s = tyre_air_volume(&x->tyre, &volume_m3);
    if (s >= 0) {
        s = now_pa(a, axle, x->road_gauge_pa, &from_pa);
    }
    if (s < 0) {
        return s;
    }
    from_pa = reading.is ? reading.v - offset_pa : from_pa;
    line->from_reading_pa = from_pa + offset_pa;
    line->to_reading_pa = x->set_now_gauge_pa;
    line->in = (struct down_corner){.volume_m3 = volume_m3,
                                    .from_gauge_pa = from_pa,
                                    .to_gauge_pa = x->set_now_gauge_pa - offset_pa,
                                    .ambient_abs_pa = a->ambient_abs_pa,
                                    .tyre_temp_k = a->tyre_temp_k[axle],
                                    .gauge_offset_pa = offset_pa};
    return down_compute(&line->in, &line->result);
}

enum status down_job(const struct advice *a, const struct corner_pressures *from,
                     struct down_report *r)
{
    enum status s = a->refusal.code != REFUSAL_NONE ? STATUS_E_REFUSED : STATUS_OK;
    *r = (struct down_report){.rig = &a->rig,
                              .ground = &a->ground,
                              .conditions = a->conditions,
                              .tyre_temp_k = tyre_temp_k(a, AXLE_FRONT),
                              .road_temp_k = a->rig.axle[AXLE_FRONT].road_temp_k,
                              .refusal = a->refusal,
                              .cautions = a->cautions};
    for (int c = 0; c < REFILL_CORNERS; c++) {
        struct down_line *line = &r->corner[c];
        const struct axle_advice *x = &a->axle[c / SIDE_COUNT];
        line->present = x->present;
        line->load_kg = x->corner[c % SIDE_COUNT].load_kg;
        if (line->present && s == STATUS_OK) {
            s = let_down(a, c, from->corner[c], line);
        }
    }
    if (s == STATUS_OK) {
        caution_remind(&r->cautions, CAUTION_JOB_DOWN, &a->rig);
    }
    return s;
}

/* ---- up ---- */

unsigned air_found_low(const struct refill_in *in)
{
    unsigned low = 0;
    for (int c = 0; c < REFILL_CORNERS; c++) {
        const struct refill_corner_in *one = &in->corner[c], *mate = &in->corner[c ^ 1];
        if (one->present && mate->present &&
            one->from_gauge_pa < FOUND_LOW_1 * one->target_gauge_pa &&
            one->from_gauge_pa < mate->from_gauge_pa - FOUND_LOW_PA) {
            low |= 1U << c;
        }
    }
    return low;
}

static enum status set_corner(const struct up_question *q, int corner, struct refill_corner_in *in)
{
    const struct advice *a = q->from;
    int axle = corner / SIDE_COUNT;
    struct maybe reading = q->read->corner[corner];
    double gravel_pa = q->gravel ? q->gravel->axle[axle].target_gauge_pa : q->cold_gauge_pa[axle];
    in->cold_gauge_pa = q->cold_gauge_pa[axle];
    enum status s = now_pa(a, axle, in->cold_gauge_pa, &in->target_gauge_pa);
    if (s >= 0) {
        s = now_pa(a, axle, gravel_pa, &in->gravel_gauge_pa);
    }
    if (s >= 0) {
        s = now_pa(a, axle, a->axle[axle].target_gauge_pa, &in->from_gauge_pa);
    }
    if (reading.is) {
        in->from_gauge_pa = reading.v - a->rig.air.gauge_offset_pa;
    }
    return s;
}

static enum status set_corners(const struct up_question *q, struct refill_in *in)
{
    const struct advice *a = q->from;
    double inlet_k = maybe_or(a->rig.air.inlet_temp_k, maybe_or(a->conditions.air_temp_k, INLET_K));
    enum status s =
        refill_in_of(&a->rig, a->ambient_abs_pa, tyre_temp_k(a, AXLE_FRONT), inlet_k, in);
    for (int c = 0; c < REFILL_CORNERS && s >= 0; c++) {
        if (in->corner[c].present) {
            s = set_corner(q, c, &in->corner[c]);
        }
    }
    return s;
}

/* Corners that get no air, each with its caution. */
static void leave_out(struct up_report *r)
{
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (r->found_low >> c & 1U) {
            struct caution *k = caution_raise(&r->cautions, CAUTION_FOUND_LOW);
            k->has_axle = true;
            k->has_side = true;
            k->axle = (enum axle_id)(c / SIDE_COUNT);
            k->side = (enum side)(c % SIDE_COUNT);
            r->in.corner[c].present = false;
        }
    }
    if (r->found_low) {
        r->refusal = (struct refusal){.code = REFUSAL_FOUND_LOW};
    }
}

static void raise_over_inflation(const struct advice *a, struct up_report *r)
{
    for (int axle = 0; axle < AXLE_COUNT; axle++) {
        double max_pa = a->axle[axle].tyre.max_gauge_pa;
        int c = REFILL_CORNER(axle, SIDE_LEFT);
        double to_pa = r->in.corner[c].target_gauge_pa;
        if (a->axle[axle].present && max_pa > 0.0 && to_pa > max_pa * (1.0 + ABOVE_1)) {
            struct caution *k = caution_at_axle(caution_raise(&r->cautions, CAUTION_OVER_INFLATION),
                                                (enum axle_id)axle);
            (void)caution_with(caution_with(k, 0, Q_PRESSURE, to_pa, 1), 1, Q_PRESSURE, max_pa, 0);
        }
    }
}

static void raise_rest(struct up_report *r)
{
    const struct refill_plan *p = &r->out.plan[r->rig->air.hookup];
    for (int i = 0; i < p->n_step; i++) {
        if (p->step[i].what == REFILL_REST) {
            struct caution *k = caution_raise(&r->cautions, CAUTION_COMPRESSOR_HOT);
            (void)caution_with(k, 0, Q_DURATION, p->step[i].for_s, 0);
            return;
        }
    }
}

static void begin(const struct up_question *q, struct up_report *r)
{
    const struct advice *a = q->from;
    *r = (struct up_report){.rig = &a->rig,
                            .conditions = a->conditions,
                            .tyre_temp_k = tyre_temp_k(a, AXLE_FRONT),
                            .road_temp_k = a->rig.axle[AXLE_FRONT].road_temp_k,
                            .refusal = a->refusal};
    struct text from = text_over(r->from, sizeof r->from);
    text_put(&from, "%s%s%s", q->read->given ? "the readings given" : "",
             q->read->given && q->from_name ? ", else " : "",
             q->from_name ? "the targets of " : "");
    text_put(&from, "%s", q->from_name ? q->from_name : "");
    struct text to = text_over(r->to, sizeof r->to);
    text_put(&to, "%s", q->to_name);
    for (int c = 0; c < REFILL_CORNERS; c++) {
        const struct axle_advice *x = &a->axle[c / SIDE_COUNT];
        r->present |= x->present ? 1U << c : 0U;
        r->load_kg[c] = x->corner[c % SIDE_COUNT].load_kg;
    }
    if (q->from_assumed && q->from_name) {
        struct caution *k = caution_raise(&r->cautions, CAUTION_ASSUMED);
        struct text w = text_over(k->word, sizeof k->word);
        text_put(&w, "the tyres stand at the targets of %s", q->from_name);
    }
}

enum status up_job(const struct up_question *q, struct up_report *r)
{
    begin(q, r);
    if (q->from->refusal.code != REFUSAL_NONE) {
        return STATUS_E_REFUSED;
    }
    enum status s = set_corners(q, &r->in);
    if (s < 0) {
        return s;
    }
    raise_over_inflation(q->from, r);
    r->found_low = (q->found_low | air_found_low(&r->in)) & r->present;
    leave_out(r);
    s = refill_compute(&r->in, &r->out);
    if (s < 0) {
        return s;
    }
    r->planned = true;
    raise_rest(r);
    caution_remind(&r->cautions, CAUTION_JOB_UP, r->rig);
    return r->found_low ? STATUS_E_REFUSED : STATUS_OK;
}
