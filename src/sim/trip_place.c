#include "sim/trip_place.h"

#include <math.h>

#include "core/constants.h"
#include "core/gas.h"
#include "sim/down.h"
#include "sim/hookup.h"

/* Readings of one axle at a place: where it stands and where it goes. */
struct axle_move {
    bool falls, rises;
    double from_gauge_pa, to_gauge_pa;
};

enum status place_init(const struct trip_in *in, struct route_point at, struct trip_place *p)
{
    struct trip_place got = {.at = at};
    double inlet_k = maybe_or(in->rig->air.inlet_temp_k, at.temp_k);
    double ambient_abs_pa = 0.0;
    enum status s = gas_ambient(at.height_m, &ambient_abs_pa);
    if (s >= 0) {
        s = refill_in_of(in->rig, ambient_abs_pa, at.temp_k, inlet_k, &got.air);
    }
    if (s >= 0) {
        s = source_init(&in->rig->air, ambient_abs_pa, inlet_k, &got.source);
    }
    if (s >= 0) {
        *p = got;
    }
    return s;
}

static enum status axle_moves(const struct trip_in *in, const struct trip_place *p,
                              const struct trip_level *from, const struct trip_level *to,
                              struct axle_move move[AXLE_COUNT])
{
    for (int x = 0; x < AXLE_COUNT; x++) {
        struct axle_move *m = &move[x];
        *m = (struct axle_move){.falls = false};
        if (!in->rig->axle[x].present) {
            continue;
        }
        struct route_sealed a, b;
        enum status s = route_set(in, x, from, p->at, &a);
        if (s >= 0) {
            s = route_set(in, x, to, p->at, &b);
        }
        if (s < 0) {
            return s;
        }
        m->from_gauge_pa = a.gauge_pa;
        m->to_gauge_pa = b.gauge_pa;
        m->falls = m->to_gauge_pa < m->from_gauge_pa - TRIP_SAME_PA;
        m->rises = m->to_gauge_pa > m->from_gauge_pa + TRIP_SAME_PA;
    }
    return STATUS_OK;
}

/* Seconds of one valve of a corner. */
static enum status valve_time(const struct trip_in *in, const struct trip_place *p, int axle,
                              const struct axle_move *m, double *time_s)
{
    const struct refill_corner_in *c = &p->air.corner[REFILL_CORNER(axle, SIDE_LEFT)];
    struct down_corner d = {.volume_m3 = c->volume_m3 / c->tyres,
                            .from_gauge_pa = m->from_gauge_pa,
                            .to_gauge_pa = m->to_gauge_pa,
                            .ambient_abs_pa = p->air.ambient_abs_pa,
                            .tyre_temp_k = p->at.temp_k};
    struct down_result r;
    enum status s = down_compute(&d, &r);
    if (s >= 0) {
        *time_s = r.time_s[in->rig->air.valve];
    }
    return s;
}

/* Let the falling axles down: all at once, an axle at a time, or a valve at a time. */
static enum status down_time(const struct trip_in *in, const struct trip_place *p,
                             const struct axle_move move[AXLE_COUNT], double *time_s)
{
    double sum_s = 0.0;
    double longest_s = 0.0;
    int turns = 0;
    for (int x = 0; x < AXLE_COUNT; x++) {
        double t_s = 0.0;
        if (!move[x].falls) {
            continue;
        }
        enum status s = valve_time(in, p, x, &move[x], &t_s);
        if (s < 0) {
            return s;
        }
        int valves = in->rig->air.hookup == HOOKUP_SINGLE ? in->rig->axle[x].wheels : 1;
        sum_s += valves * t_s;
        longest_s = fmax(longest_s, t_s);
        turns += valves;
    }
    bool one_go = in->rig->air.hookup == HOOKUP_LINKED || turns == 0;
    *time_s = one_go ? longest_s : sum_s + (turns - 1) * in->rig->air.move_time_s;
    return STATUS_OK;
}

/* The corners that rise; returns the free air they take. */
static double rising_corners(const struct trip_place *p, const struct axle_move move[],
                             struct refill_in *air)
{
    double free_m3 = 0.0;
    for (int i = 0; i < REFILL_CORNERS; i++) {
        struct refill_corner_in *k = &air->corner[i];
        const struct axle_move *m = &move[i / SIDE_COUNT];
        k->present = k->present && m->rises;
        k->from_gauge_pa = k->gravel_gauge_pa = m->from_gauge_pa;
        k->target_gauge_pa = m->to_gauge_pa;
        if (k->present) {
            free_m3 += k->volume_m3 * (m->to_gauge_pa - m->from_gauge_pa) / AIR_SEA_LEVEL_PA *
                       AIR_FREE_TEMP_K / p->at.temp_k;
        }
    }
    return free_m3;
}

/* Refill of the rising axles with the rig's own hook-up. */
static enum status up_time(const struct trip_in *in, const struct trip_place *p,
                           const struct axle_move move[AXLE_COUNT], struct trip_change *c)
{
    const struct hookup_change as_rigged = {.scale_1 = 1.0, .valve = in->rig->air.valve};
    struct refill_in air = p->air;
    struct refill_plan plan;
    double free_m3 = rising_corners(p, move, &air);
    if (!(free_m3 > 0.0)) {
        return STATUS_OK;
    }
    if (!refill_in_valid(&air)) {
        return STATUS_E_DOMAIN;
    }
    enum status s = hookup_plan(&air, &p->source, &as_rigged, air.air.hookup, &plan);
    if (s < 0) {
        return s;
    }
    c->possible = plan.possible;
    c->rest_s = plan.rest_s;
    c->free_air_m3 = free_m3;
    c->time_s += plan.total_s + TRIP_INSPECT_S;
    return STATUS_OK;
}

enum status place_change(const struct trip_in *in, const struct trip_place *p,
                         const struct trip_level *from, const struct trip_level *to,
                         struct trip_change *c)
{
    struct trip_change got = {.possible = true};
    struct axle_move move[AXLE_COUNT];
    enum status s = axle_moves(in, p, from, to, move);
    if (s >= 0) {
        s = down_time(in, p, move, &got.time_s);
    }
    if (s >= 0) {
        s = up_time(in, p, move, &got);
    }
    if (s >= 0) {
        *c = got;
    }
    return s < 0 ? s : STATUS_OK;
}

enum status trip_change_at(const struct trip_in *in, const struct trip_level *from,
                           const struct trip_level *to, double height_m, double temp_k,
                           struct trip_change *c)
{
    struct trip_place p;
    enum status s = place_init(in, (struct route_point){height_m, temp_k}, &p);
    return s < 0 ? s : place_change(in, &p, from, to, c);
}
