#include "sim/trip_judge.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/speed.h"

/* The advice for a leg, judged at a level when one is given. */
static enum status leg_advice(const struct trip_in *in, int leg, const struct trip_level *level,
                              struct advice *a)
{
    struct conditions c = {.slope_1 = in->trip->leg[leg].slope_1};
    for (int x = 0; level && x < AXLE_COUNT; x++) {
        if (in->rig->axle[x].present) {
            c.at_gauge_pa[x] = maybe_of(level->cold_gauge_pa[x]);
        }
    }
    return advice_compute(in->rig, in->ground[leg], &c, a);
}

enum status judge_own(const struct trip_in *in, int leg, struct advice *own)
{
    return leg_advice(in, leg, NULL, own);
}

static double wheel_floor(const struct axle_advice *a)
{
    return fmax(maybe_or(a->bead_floor_gauge_pa, 0.0), maybe_or(a->maker_floor_gauge_pa, 0.0));
}

double judge_floor(const struct advice *own, int axle, double cold_gauge_pa)
{
    const struct axle_advice *a = &own->axle[axle];
    bool above = cold_gauge_pa >= a->floor_gauge_pa - TRIP_SAME_PA;
    return above ? a->floor_gauge_pa : fmin(wheel_floor(a), cold_gauge_pa);
}

static void admit(const struct ground *g, const struct advice *own, const struct trip_level *level,
                  struct trip_judged *j)
{
    bool soft = ground_is_soft(g);
    j->admits = j->admits_all = true;
    for (int x = 0; x < AXLE_COUNT; x++) {
        const struct axle_advice *a = &own->axle[x];
        double p_pa = level->cold_gauge_pa[x];
        if (!a->present) {
            continue;
        }
        double least_pa = fmin(soft ? a->floor_gauge_pa : wheel_floor(a), a->target_gauge_pa);
        if (p_pa < least_pa - TRIP_SAME_PA || (soft && p_pa > a->target_gauge_pa + TRIP_SAME_PA)) {
            j->admits = false;
        }
        if ((g->road || g->sharp) && p_pa < a->target_gauge_pa - TRIP_SAME_PA) {
            j->admits_all = false;
        }
        j->past_limit = j->past_limit || (!soft && !g->road &&
                                          p_pa < fmin(maybe_or(a->deflection_floor_gauge_pa, 0.0),
                                                      a->target_gauge_pa) -
                                                     TRIP_SAME_PA);
    }
    j->admits_all = j->admits_all && j->admits;
}

/* On firm unsealed ground the tyre that is hardest against its own target sets the pace. */
static struct maybe rough_pace(const struct ground *g, const struct advice *own,
                               const struct advice *at)
{
    double share_1 = 1.0;
    if (g->kind != GROUND_FIRM || g->road || !own->cap_mps.is) {
        return maybe_none();
    }
    for (int x = 0; x < AXLE_COUNT; x++) {
        if (own->axle[x].present) {
            share_1 = fmin(share_1, own->axle[x].corner[SIDE_LEFT].at.stiffness_n_m /
                                        at->axle[x].corner[SIDE_LEFT].at.stiffness_n_m);
        }
    }
    return share_1 < 1.0 ? maybe_of(own->cap_mps.v * share_1) : maybe_none();
}

enum status judge_leg(const struct trip_in *in, int leg, const struct advice *own,
                      const struct trip_level *level, struct trip_judged *j)
{
    struct trip_judged got = {.admits = false};
    struct advice at;
    enum status s = leg_advice(in, leg, level, &at);
    if (s == STATUS_E_REFUSED) {
        *j = (struct trip_judged){.refused = true};
        return STATUS_OK;
    }
    if (s < 0) {
        return s;
    }
    admit(in->ground[leg], own, level, &got);
    got.pace_mps = rough_pace(in->ground[leg], own, &at);
    got.cap_mps = at.cap_mps;
    *j = got;
    return STATUS_OK;
}

double judge_time(const struct trip_leg *leg, struct maybe cap_mps, struct maybe pace_mps)
{
    struct maybe limit = speed_lower(cap_mps, pace_mps);
    return leg->length_m / fmin(leg->speed_mps, maybe_or(limit, leg->speed_mps));
}

bool trip_admits(const struct trip_in *in, int leg, const struct trip_level *level, bool up_too)
{
    struct advice own;
    struct trip_judged j;
    if (judge_own(in, leg, &own) < 0 || judge_leg(in, leg, &own, level, &j) < 0) {
        return false;
    }
    return up_too ? j.admits_all : j.admits;
}

enum status trip_drive(const struct trip_in *in, int leg, const struct trip_level *level,
                       struct maybe *cap_mps, double *time_s)
{
    struct advice own;
    struct trip_judged j;
    enum status s = judge_own(in, leg, &own);
    if (s >= 0) {
        s = judge_leg(in, leg, &own, level, &j);
    }
    if (s < 0) {
        return s;
    }
    if (j.refused) {
        return STATUS_E_REFUSED;
    }
    *cap_mps = j.cap_mps;
    *time_s = judge_time(&in->trip->leg[leg], j.cap_mps, j.pace_mps);
    return STATUS_OK;
}

/* ---- levels ---- */

static bool same_level(const struct trip_level *a, const struct trip_level *b)
{
    for (int x = 0; x < AXLE_COUNT; x++) {
        if (fabs(a->cold_gauge_pa[x] - b->cold_gauge_pa[x]) > TRIP_SAME_PA) {
            return false;
        }
    }
    return true;
}

int trip_level_find(int n, const struct trip_level level[], const struct trip_level *wanted)
{
    for (int i = n - 1; i >= 0; i--) {
        if (same_level(&level[i], wanted)) {
            return i;
        }
    }
    return -1;
}

static struct trip_level level_of_road(const struct rig *rig)
{
    struct trip_level road = {.name = "road", .road = true};
    for (int x = 0; x < AXLE_COUNT; x++) {
        const struct axle *a = &rig->axle[x];
        double most_pa = a->tyre.max_gauge_pa > 0.0 ? a->tyre.max_gauge_pa : a->road_gauge_pa;
        road.cold_gauge_pa[x] = a->present ? fmin(a->road_gauge_pa, most_pa) : 0.0;
    }
    return road;
}

void judge_level_of(const struct advice *own, struct trip_level *level)
{
    *level = (struct trip_level){.road = own->ground.road};
    snprintf(level->name, sizeof level->name, "%s", own->ground.name);
    for (int x = 0; x < AXLE_COUNT; x++) {
        level->cold_gauge_pa[x] = own->axle[x].present ? own->axle[x].target_gauge_pa : 0.0;
    }
}

enum status trip_levels(const struct trip_in *in, struct trip_level level[TRIP_LEVELS], int *n,
                        struct refusal *refusal)
{
    struct trip_level road = level_of_road(in->rig);
    int count = 0;
    for (int i = 0; i < in->trip->n_leg; i++) {
        struct advice own;
        struct trip_level l;
        enum status s = judge_own(in, i, &own);
        if (s < 0) {
            *refusal = s == STATUS_E_REFUSED ? own.refusal : *refusal;
            return s;
        }
        judge_level_of(&own, &l);
        if (!l.road && !same_level(&l, &road) && trip_level_find(count, level, &l) < 0) {
            level[count++] = l;
        }
    }
    level[count] = road;
    *n = count + 1;
    return STATUS_OK;
}
