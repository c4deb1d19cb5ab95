#include "sim/trip_route.h"

#include <float.h>
#include <math.h>

#include "core/gas.h"
#include "sim/trip_judge.h"

#define UNDER_1 0.05 /* share under the road pressure that is worth a recheck, own choice */
#define TABLE_1 0.01 /* share below the load table that is one, model B3 */

struct route_point route_start(const struct trip *t)
{
    return (struct route_point){t->height_start_m, t->air_temp_start_k};
}

struct route_point route_after(const struct trip_leg *leg, struct route_point before)
{
    return (struct route_point){maybe_or(leg->height_end_m, before.height_m),
                                maybe_or(leg->air_temp_k, before.temp_k)};
}

enum status route_reads(const struct route_sealed *t, struct route_point at, double *gauge_pa)
{
    double ambient_abs_pa = 0.0;
    enum status s = gas_ambient(at.height_m, &ambient_abs_pa);
    if (s < 0) {
        return s;
    }
    return gas_gauge_moved(t->gauge_pa, t->temp_k, t->ambient_abs_pa, at.temp_k, ambient_abs_pa,
                           gauge_pa);
}

enum status route_set(const struct trip_in *in, int axle, const struct trip_level *level,
                      struct route_point at, struct route_sealed *t)
{
    struct route_sealed cold = {.gauge_pa = level->cold_gauge_pa[axle],
                                .temp_k = in->rig->axle[axle].road_temp_k};
    struct route_sealed got = {.temp_k = at.temp_k};
    enum status s = gas_ambient(at.height_m, &got.ambient_abs_pa);
    cold.ambient_abs_pa = got.ambient_abs_pa;
    if (s >= 0) {
        s = route_reads(&cold, at, &got.gauge_pa);
    }
    if (s < 0) {
        return s;
    }
    got.gauge_pa = level->road ? fmax(got.gauge_pa, cold.gauge_pa) : got.gauge_pa;
    *t = got;
    return STATUS_OK;
}

static struct route_point start_of(const struct trip_leg_plan *leg)
{
    return (struct route_point){leg->start_height_m, leg->start_temp_k};
}

static struct route_point end_of(const struct trip_leg_plan *leg)
{
    return (struct route_point){leg->end_height_m, leg->end_temp_k};
}

/* Below the floor on soft pressures; under the load table or 5 % on road pressure. */
static void judge_axle(const struct trip_in *in, const struct advice *own, int x, bool on_road,
                       struct trip_leg_plan *leg)
{
    const struct axle_advice *a = &own->axle[x];
    double reads_pa = leg->end_gauge_pa[x];
    leg->floor_gauge_pa[x] = judge_floor(own, x, leg->cold_gauge_pa[x]);
    leg->low[x] = reads_pa < leg->floor_gauge_pa[x];
    if (on_road) {
        double road_pa = in->rig->axle[x].road_gauge_pa;
        double table_pa = fmin(maybe_or(a->table_gauge_pa, 0.0), road_pa);
        double least_pa = fmax((1.0 - TABLE_1) * table_pa, (1.0 - UNDER_1) * road_pa);
        leg->under[x] = reads_pa < least_pa;
    }
}

/* An axle along the route: its air, and the level that it was set to. */
struct axle_air {
    struct route_sealed sealed;
    double cold_gauge_pa;
};

/* From home: the road pressure as it was set cold, at the height of the start. */
static enum status leave_home(const struct trip_in *in, const struct trip_plan *p,
                              struct axle_air air[AXLE_COUNT])
{
    double ambient_abs_pa = 0.0;
    enum status s = gas_ambient(in->trip->height_start_m, &ambient_abs_pa);
    for (int x = 0; x < AXLE_COUNT; x++) {
        double cold_pa = p->level[p->n_level - 1].cold_gauge_pa[x];
        air[x] =
            (struct axle_air){.sealed = {cold_pa, in->rig->axle[x].road_temp_k, ambient_abs_pa},
                              .cold_gauge_pa = cold_pa};
    }
    return s;
}

/* Set an axle where its cold figure changes; elsewhere its air stays as it is. */
static enum status axle_along(const struct trip_in *in, int x, const struct trip_level *level,
                              struct axle_air *air, struct trip_leg_plan *leg)
{
    enum status s = STATUS_OK;
    bool set = fabs(air->cold_gauge_pa - level->cold_gauge_pa[x]) > TRIP_SAME_PA;
    if (set) {
        air->cold_gauge_pa = level->cold_gauge_pa[x];
        s = route_set(in, x, level, start_of(leg), &air->sealed);
    }
    if (s >= 0) {
        s = route_reads(&air->sealed, start_of(leg), &leg->set_gauge_pa[x]);
    }
    if (s >= 0) {
        s = route_reads(&air->sealed, end_of(leg), &leg->end_gauge_pa[x]);
    }
    leg->set_gauge_pa[x] += set ? in->rig->air.gauge_offset_pa : 0.0;
    return s;
}

static enum status predict_leg(const struct trip_in *in, int i, const struct trip_level *level,
                               struct axle_air air[], struct trip_leg_plan *leg)
{
    struct advice own;
    enum status s = judge_own(in, i, &own);
    for (int x = 0; x < AXLE_COUNT && s >= 0; x++) {
        if (in->rig->axle[x].present) {
            s = axle_along(in, x, level, &air[x], leg);
            judge_axle(in, &own, x, level->road, leg);
        }
    }
    return s;
}

/* ---- warnings that belong before an act ---- */

static bool any_low(const struct trip_leg_plan *leg)
{
    bool low = false;
    for (int x = 0; x < AXLE_COUNT; x++) {
        low = low || leg->low[x];
    }
    return low;
}

/* The reading to set at a place so that it is at the floor at a later one. */
static enum status least_to_set(const struct trip_in *in, const struct trip_leg_plan *set,
                                const struct trip_leg_plan *at, int x, double *gauge_pa)
{
    struct route_sealed floor = {.gauge_pa = at->floor_gauge_pa[x], .temp_k = at->end_temp_k};
    enum status s = gas_ambient(at->end_height_m, &floor.ambient_abs_pa);
    if (s >= 0) {
        s = route_reads(&floor, start_of(set), gauge_pa);
    }
    *gauge_pa += in->rig->air.gauge_offset_pa;
    return s;
}

static enum status note_least(const struct trip_in *in, const struct trip_leg_plan *there,
                              struct trip_leg_plan *set)
{
    for (int x = 0; x < AXLE_COUNT; x++) {
        double least_pa = 0.0;
        if (!there->low[x]) {
            continue;
        }
        enum status s = least_to_set(in, set, there, x, &least_pa);
        if (s < 0) {
            return s;
        }
        set->least_set_gauge_pa[x] = fmax(set->least_set_gauge_pa[x], least_pa);
    }
    return STATUS_OK;
}

/* Each reading that will be too low is told at the last place where pressures were set. */
static enum status warn_ahead(const struct trip_in *in, struct trip_plan *p)
{
    struct trip_leg_plan *set = &p->leg[0];
    enum status s = STATUS_OK;
    for (int i = 0; i < p->n_leg && s >= 0; i++) {
        set = p->leg[i].action != TRIP_NONE ? &p->leg[i] : set;
        if (any_low(&p->leg[i])) {
            set->warn_leg = set->warn_leg < 0 ? i : set->warn_leg;
            s = note_least(in, &p->leg[i], set);
        }
    }
    return s;
}

/* The leg's end where an axle reads least against its cold figure. */
static void note_coldest(const struct trip_in *in, struct trip_plan *p)
{
    double worst_pa = DBL_MAX;
    for (int i = 0; i < p->n_leg; i++) {
        const struct trip_leg_plan *leg = &p->leg[i];
        for (int x = 0; x < AXLE_COUNT; x++) {
            double fall_pa = leg->end_gauge_pa[x] - leg->cold_gauge_pa[x];
            if (in->rig->axle[x].present && fall_pa < worst_pa) {
                worst_pa = fall_pa;
                p->coldest_leg = i;
            }
        }
    }
    const struct trip_leg_plan *leg = &p->leg[p->coldest_leg];
    p->coldest_height_m = leg->end_height_m;
    p->coldest_temp_k = leg->end_temp_k;
    for (int x = 0; x < AXLE_COUNT; x++) {
        p->coldest_gauge_pa[x] = leg->end_gauge_pa[x];
    }
}

enum status route_predict(const struct trip_in *in, struct trip_plan *p)
{
    struct route_point at = route_start(in->trip);
    struct axle_air air[AXLE_COUNT];
    enum status s = leave_home(in, p, air);
    for (int i = 0; i < p->n_leg && s >= 0; i++) {
        struct trip_leg_plan *leg = &p->leg[i];
        struct route_point next = route_after(&in->trip->leg[i], at);
        leg->start_height_m = at.height_m;
        leg->start_temp_k = at.temp_k;
        leg->end_height_m = next.height_m;
        leg->end_temp_k = next.temp_k;
        s = predict_leg(in, i, &p->level[leg->level], air, leg);
        at = next;
    }
    if (s < 0) {
        return s;
    }
    note_coldest(in, p);
    return warn_ahead(in, p);
}
