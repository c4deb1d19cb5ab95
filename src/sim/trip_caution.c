#include "sim/trip_caution.h"

#include <math.h>
#include <stdio.h>

#include "sim/trip_judge.h"

#define FALL_PA                                                                                    \
    (2.0 * UNITS_PA_PER_PSI) /* Pa: a fall that one would notice on a gauge, own choice */

double trip_least_to_set(const struct trip_in *in, const struct trip_leg_plan *leg, int axle)
{
    return num_ceil_to(leg->least_set_gauge_pa[axle], rig_gauge_step(in->rig));
}

static struct caution *raise(struct caution_list *list, enum caution_code code, int leg)
{
    struct caution *c = caution_raise(list, code);
    snprintf(c->word, sizeof c->word, "%d", leg + 1);
    return c;
}

static struct caution *raise_capped(struct caution_list *list, enum caution_code code, int leg,
                                    double cap_mps)
{
    return caution_with(raise(list, code, leg), 0, Q_SPEED, cap_mps, 0);
}

/* ---- readings ---- */

/* The first leg on the air set before leg i where an axle reads too little, or -1. */
static int low_on(const struct trip_plan *p, int i, int axle)
{
    for (int k = i; k < p->n_leg && (k == i || p->leg[k].action == TRIP_NONE); k++) {
        if (p->leg[k].low[axle]) {
            return k;
        }
    }
    return -1;
}

static void set_too_low(const struct trip_in *in, const struct trip_plan *p, int i,
                        struct caution_list *list)
{
    const struct trip_leg_plan *set = &p->leg[i];
    for (int x = 0; x < AXLE_COUNT && set->warn_leg >= 0; x++) {
        int at = low_on(p, i, x);
        if (at < 0) {
            continue;
        }
        struct caution *c = caution_at_axle(raise(list, CAUTION_TRIP_LOW, i), (enum axle_id)x);
        (void)caution_with(c, 0, Q_PRESSURE, p->leg[at].end_gauge_pa[x], 0);
        (void)caution_with(c, 1, Q_PRESSURE, p->leg[at].floor_gauge_pa[x], 0);
        (void)caution_with(c, 2, Q_PRESSURE, trip_least_to_set(in, set, x), 0);
        (void)caution_with(c, 3, Q_NUMBER, at + 1, -3);
    }
}

static void under_road(const struct trip_in *in, const struct trip_plan *p, int i,
                       struct caution_list *list)
{
    const struct trip_leg_plan *leg = &p->leg[i];
    for (int x = 0; x < AXLE_COUNT; x++) {
        if (leg->under[x]) {
            struct caution *c =
                caution_at_axle(raise(list, CAUTION_TRIP_UNDER, i), (enum axle_id)x);
            (void)caution_with(c, 0, Q_PRESSURE, leg->end_gauge_pa[x], 0);
            (void)caution_with(c, 1, Q_PRESSURE, in->rig->axle[x].road_gauge_pa, 0);
        }
    }
}

/* A reading to set above what is moulded on the sidewall. */
static void over_moulded(const struct trip_in *in, const struct trip_plan *p, int i,
                         struct caution_list *list)
{
    const struct trip_leg_plan *leg = &p->leg[i];
    for (int x = 0; x < AXLE_COUNT && leg->action != TRIP_NONE; x++) {
        double max_pa = in->rig->axle[x].tyre.max_gauge_pa;
        if (in->rig->axle[x].present && max_pa > 0.0 && leg->set_gauge_pa[x] > max_pa) {
            struct caution *c = caution_raise(list, CAUTION_OVER_INFLATION);
            (void)caution_at_axle(c, (enum axle_id)x);
            (void)caution_with(c, 0, Q_PRESSURE, leg->set_gauge_pa[x], 0);
            (void)caution_with(c, 1, Q_PRESSURE, max_pa, 0);
        }
    }
}

/* The greatest fall of a reading between the place where it was set and a later leg's end. */
static double greatest_fall(const struct trip_in *in, const struct trip_plan *p)
{
    double set_pa[AXLE_COUNT] = {0.0};
    double fall_pa = 0.0;
    for (int i = 0; i < p->n_leg; i++) {
        const struct trip_leg_plan *leg = &p->leg[i];
        for (int x = 0; x < AXLE_COUNT; x++) {
            bool set = i == 0 || leg->action != TRIP_NONE;
            set_pa[x] = set ? leg->set_gauge_pa[x] : set_pa[x];
            if (in->rig->axle[x].present) {
                fall_pa = fmax(fall_pa, set_pa[x] - leg->end_gauge_pa[x]);
            }
        }
    }
    return fall_pa;
}

/* ---- legs ---- */

static void of_leg(const struct trip_in *in, const struct trip_plan *p, int i,
                   struct caution_list *list)
{
    const struct trip_leg_plan *leg = &p->leg[i];
    double cap_mps = maybe_or(leg->cap_mps, in->trip->leg[i].speed_mps);
    set_too_low(in, p, i, list);
    over_moulded(in, p, i, list);
    if (leg->source_too_weak) {
        (void)raise_capped(list, CAUTION_TRIP_NO_AIR, i, maybe_or(leg->abort_cap_mps, cap_mps));
    }
    if (leg->forced_soft) {
        (void)raise_capped(list, CAUTION_TRIP_NO_STOP, i, cap_mps);
    } else if (leg->past_limit) {
        (void)raise_capped(list, CAUTION_TRIP_PAST_LIMIT, i, cap_mps);
    }
    under_road(in, p, i, list);
}

/* ---- the rig, whatever the ground ---- */

static bool of_rig(enum caution_code code)
{
    static const enum caution_code codes[] = {CAUTION_RIM_WIDTH,
                                              CAUTION_ROAD_ABOVE_MAX,
                                              CAUTION_ROAD_BELOW_TABLE,
                                              CAUTION_LEFT_RIGHT,
                                              CAUTION_CAPACITY_UNKNOWN,
                                              CAUTION_BIAS,
                                              CAUTION_BELOW_15,
                                              CAUTION_FLOOR_ABOVE_ROAD,
                                              CAUTION_SLICK,
                                              CAUTION_ASPECT_ASSUMED,
                                              CAUTION_NO_MARGIN,
                                              CAUTION_DUALS,
                                              CAUTION_BEADLOCK,
                                              CAUTION_LAW};
    for (size_t i = 0; i < sizeof codes / sizeof codes[0]; i++) {
        if (codes[i] == code) {
            return true;
        }
    }
    return false;
}

static bool raised_for(const struct caution_list *list, const struct caution *c)
{
    for (int i = 0; i < list->n; i++) {
        const struct caution *k = &list->item[i];
        if (k->code == c->code && k->has_axle == c->has_axle && k->axle == c->axle) {
            return true;
        }
    }
    return false;
}

/* What the advice for a leg's ground raises that holds for the whole trip, each once. */
static enum status of_ground(const struct trip_in *in, int i, struct caution_list *list)
{
    struct advice own;
    enum status s = judge_own(in, i, &own);
    if (s < 0) {
        return s;
    }
    if (own.flotation.passes == PASSES_STICK) {
        (void)raise(list, CAUTION_TRIP_STUCK, i);
    }
    for (int k = 0; k < own.cautions.n; k++) {
        const struct caution *c = &own.cautions.item[k];
        if (of_rig(c->code) && !raised_for(list, c)) {
            *caution_raise(list, c->code) = *c;
        }
    }
    return STATUS_OK;
}

static void remind(const struct trip_in *in, const struct trip_plan *p, struct caution_list *list)
{
    bool down = false;
    bool up = false;
    for (int i = 0; i < p->n_leg; i++) {
        down = down || p->leg[i].action == TRIP_DOWN;
        up = up || p->leg[i].action == TRIP_UP || p->leg[i].action == TRIP_PART_UP;
    }
    if (down || up) {
        (void)caution_raise(list, CAUTION_HIGHWAY_NO_CAP);
    }
    if (down) {
        caution_remind(list, CAUTION_JOB_DOWN, in->rig);
    }
    if (up) {
        caution_remind(list, CAUTION_JOB_UP, in->rig);
    }
}

enum status trip_cautions(const struct trip_in *in, const struct trip_plan *p,
                          struct caution_list *list)
{
    enum status s = STATUS_OK;
    double fall_pa = greatest_fall(in, p);
    for (int i = 0; i < p->n_leg; i++) {
        of_leg(in, p, i, list);
    }
    if (fall_pa > FALL_PA) {
        (void)caution_with(caution_raise(list, CAUTION_ALTITUDE_COLD), 0, Q_PRESSURE, fall_pa, 0);
    }
    for (int i = 0; i < p->n_leg && s >= 0; i++) {
        s = of_ground(in, i, list);
    }
    remind(in, p, list);
    return s < 0 ? s : STATUS_OK;
}
