#include "sim/trip_route.h"

#include <float.h>

#include "core/gas.h"

#define UNDER_1 0.05 /* share under the road pressure that is worth a recheck, own choice */

struct route_point route_start(const struct trip *t)
{
    return (struct route_point){t->height_start_m, t->air_temp_start_k};
}

struct route_point route_after(const struct trip_leg *leg, struct route_point before)
{
    return (struct route_point){maybe_or(leg->height_end_m, before.height_m),
                                maybe_or(leg->air_temp_k, before.temp_k)};
}

/* The sealed air of an axle: what it was set to, cold, and where. */
struct sealed {
    double cold_gauge_pa, road_temp_k, set_ambient_abs_pa;
};

static enum status sealed_reads(const struct sealed *t, struct route_point at, double *gauge_pa)
{
    double ambient_abs_pa = 0.0;
    enum status s = gas_ambient(at.height_m, &ambient_abs_pa);
    if (s < 0) {
        return s;
    }
    return gas_gauge_moved(t->cold_gauge_pa, t->road_temp_k, t->set_ambient_abs_pa, at.temp_k,
                           ambient_abs_pa, gauge_pa);
}

static enum status set_axle(struct sealed *t, double cold_gauge_pa, struct route_point at,
                            double *set_gauge_pa)
{
    enum status s = gas_ambient(at.height_m, &t->set_ambient_abs_pa);
    if (s < 0) {
        return s;
    }
    t->cold_gauge_pa = cold_gauge_pa;
    return sealed_reads(t, at, set_gauge_pa);
}

/* Below the floor on soft pressures; under the load table or 5 % on road pressure. */
static void judge_axle(const struct trip_in *in, const struct advice *own, int x, bool on_road,
                       struct trip_leg_plan *leg)
{
    const struct axle_advice *a = &own->axle[x];
    double reads_pa = leg->end_gauge_pa[x];
    if (on_road) {
        double least_pa = fmax(maybe_or(a->table_gauge_pa, 0.0),
                               (1.0 - UNDER_1) * in->rig->axle[x].road_gauge_pa);
        leg->under[x] = reads_pa < least_pa;
    } else {
        leg->low[x] = reads_pa < fmin(a->floor_gauge_pa, leg->cold_gauge_pa[x]);
    }
}

static enum status predict_leg(const struct trip_in *in, int i, bool set_here, bool on_road,
                               struct sealed sealed[], struct trip_leg_plan *leg)
{
    struct route_point start = {leg->start_height_m, leg->start_temp_k};
    struct route_point end = {leg->end_height_m, leg->end_temp_k};
    struct conditions none = {.slope_1 = 0.0};
    struct advice own;
    enum status s = advice_compute(in->rig, in->ground[i], &none, &own);
    for (int x = 0; x < AXLE_COUNT && s >= 0; x++) {
        if (!in->rig->axle[x].present) {
            continue;
        }
        if (set_here) {
            s = set_axle(&sealed[x], leg->cold_gauge_pa[x], start, &leg->set_gauge_pa[x]);
        } else {
            s = sealed_reads(&sealed[x], start, &leg->set_gauge_pa[x]);
        }
        if (s >= 0) {
            s = sealed_reads(&sealed[x], end, &leg->end_gauge_pa[x]);
        }
        judge_axle(in, &own, x, on_road, leg);
    }
    return s;
}

/* The leg's end where the front reads least against what it was set to. */
static void note_coldest(struct trip_plan *p, int i, double *worst_pa)
{
    const struct trip_leg_plan *leg = &p->leg[i];
    double drop_pa = leg->end_gauge_pa[AXLE_FRONT] - leg->cold_gauge_pa[AXLE_FRONT];
    if (drop_pa >= *worst_pa) {
        return;
    }
    *worst_pa = drop_pa;
    p->coldest_leg = i;
    p->coldest_height_m = leg->end_height_m;
    p->coldest_temp_k = leg->end_temp_k;
    for (int x = 0; x < AXLE_COUNT; x++) {
        p->coldest_gauge_pa[x] = leg->end_gauge_pa[x];
    }
}

enum status route_predict(const struct trip_in *in, struct trip_plan *p)
{
    struct route_point at = route_start(in->trip);
    struct sealed sealed[AXLE_COUNT];
    double worst_pa = DBL_MAX;
    for (int x = 0; x < AXLE_COUNT; x++) {
        sealed[x] = (struct sealed){.road_temp_k = in->rig->axle[x].road_temp_k};
    }
    for (int i = 0; i < p->n_leg; i++) {
        struct trip_leg_plan *leg = &p->leg[i];
        struct route_point next = route_after(&in->trip->leg[i], at);
        leg->start_height_m = at.height_m;
        leg->start_temp_k = at.temp_k;
        leg->end_height_m = next.height_m;
        leg->end_temp_k = next.temp_k;
        bool set_here = i == 0 || leg->action != TRIP_NONE;
        bool on_road = leg->level == p->n_level - 1;
        enum status s = predict_leg(in, i, set_here, on_road, sealed, leg);
        if (s < 0) {
            return s;
        }
        note_coldest(p, i, &worst_pa);
        at = next;
    }
    return STATUS_OK;
}
