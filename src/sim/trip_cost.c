/* trip_cost.c - what a level may be driven on, how long that takes, and what a change costs. */
#include "sim/trip.h"

#include <stdio.h>
#include <string.h>

#include "core/gas.h"
#include "sim/down.h"
#include "sim/refill.h"

#define SAME_PA      1.0   /* Pa: two cold pressures closer than this are one */
#define PACKED_KG_M3 400.0 /* kg/m3: snow this dense carries like a firm ground, model D3 */

const char *trip_action_name(enum trip_action a)
{
    static const char *const names[] = {"none", "down", "up", "part-up"};
    return a <= TRIP_PART_UP ? names[a] : "?";
}

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

static bool level_known(const struct trip_level level[], int n, const char *name)
{
    for (int i = 0; i < n; i++) {
        if (strcmp(level[i].name, name) == 0) {
            return true;
        }
    }
    return false;
}

static void level_of_road(const struct rig *rig, struct trip_level *level)
{
    *level = (struct trip_level){.name = "road"};
    for (int x = 0; x < AXLE_COUNT; x++) {
        level->cold_gauge_pa[x] = rig->axle[x].present ? rig->axle[x].road_gauge_pa : 0.0;
    }
}

enum status trip_levels(const struct trip_in *in, struct trip_level level[TRIP_LEVELS], int *n,
                        struct refusal *refusal)
{
    int count = 0;
    for (int i = 0; i < in->trip->n_leg; i++) {
        const struct ground *g = in->ground[i];
        struct advice a;
        if (g->road || level_known(level, count, g->name)) {
            continue;
        }
        enum status s = leg_advice(in, i, NULL, &a);
        if (s < 0) {
            *refusal = a.refusal;
            return s;
        }
        level[count] = (struct trip_level){.name = ""};
        snprintf(level[count].name, sizeof level[count].name, "%s", g->name);
        for (int x = 0; x < AXLE_COUNT; x++) {
            level[count].cold_gauge_pa[x] = a.axle[x].present ? a.axle[x].target_gauge_pa : 0.0;
        }
        count++;
    }
    level_of_road(in->rig, &level[count]);
    *n = count + 1;
    return STATUS_OK;
}

/* Ground that a hard tyre sinks into: it must come down before it. */
static bool is_soft(const struct ground *g)
{
    if (g->kind == GROUND_SNOW) {
        return maybe_or(g->snow_density_kg_m3, 0.0) < PACKED_KG_M3;
    }
    return g->kind == GROUND_SAND || g->kind == GROUND_FINE;
}

bool trip_admits(const struct trip_in *in, int leg, const struct trip_level *level, bool up_too)
{
    const struct ground *g = in->ground[leg];
    struct advice own;
    struct advice at;
    if (leg_advice(in, leg, NULL, &own) < 0 || leg_advice(in, leg, level, &at) < 0) {
        return false;
    }
    for (int x = 0; x < AXLE_COUNT; x++) {
        const struct axle_advice *a = &own.axle[x];
        double p_pa = level->cold_gauge_pa[x];
        if (!a->present) {
            continue;
        }
        if (is_soft(g) && (p_pa > a->target_gauge_pa + SAME_PA ||
                           p_pa < fmin(a->floor_gauge_pa, a->target_gauge_pa) - SAME_PA)) {
            return false;
        }
        if (up_too && (g->road || g->sharp) && p_pa < a->target_gauge_pa - SAME_PA) {
            return false;
        }
    }
    return true;
}

enum status trip_drive(const struct trip_in *in, int leg, const struct trip_level *level,
                       struct maybe *cap_mps, double *time_s)
{
    const struct trip_leg *l = &in->trip->leg[leg];
    struct advice at;
    enum status s = leg_advice(in, leg, level, &at);
    if (s < 0) {
        return s;
    }
    *cap_mps = at.cap_mps;
    *time_s = l->length_m / fmin(l->speed_mps, maybe_or(at.cap_mps, l->speed_mps));
    return STATUS_OK;
}

/* Readings of one axle at a place: where it stands and where it goes. */
struct axle_move {
    double from_gauge_pa, to_gauge_pa;
};

static enum status axle_readings(const struct trip_in *in, int x, const struct trip_level *from,
                                 const struct trip_level *to, double ambient_abs_pa, double temp_k,
                                 struct axle_move *m)
{
    double road_temp_k = in->rig->axle[x].road_temp_k;
    enum status s = gas_gauge_moved(from->cold_gauge_pa[x], road_temp_k, ambient_abs_pa, temp_k,
                                    ambient_abs_pa, &m->from_gauge_pa);
    if (s < 0) {
        return s;
    }
    return gas_gauge_moved(to->cold_gauge_pa[x], road_temp_k, ambient_abs_pa, temp_k,
                           ambient_abs_pa, &m->to_gauge_pa);
}

/* Seconds to let the falling axles down: all at once, an axle at a time, or a valve at a time. */
static enum status down_time(const struct trip_in *in, const struct refill_in *air,
                             const struct axle_move move[AXLE_COUNT], double *time_s)
{
    enum hookup h = in->rig->air.hookup;
    double sum_s = 0.0;
    double longest_s = 0.0;
    int moves = -1;
    for (int x = 0; x < AXLE_COUNT; x++) {
        const struct refill_corner_in *c = &air->corner[REFILL_CORNER(x, SIDE_LEFT)];
        if (!in->rig->axle[x].present || move[x].to_gauge_pa >= move[x].from_gauge_pa - SAME_PA) {
            continue;
        }
        struct down_corner d = {.volume_m3 = c->volume_m3 / c->tyres,
                                .from_gauge_pa = move[x].from_gauge_pa,
                                .to_gauge_pa = move[x].to_gauge_pa,
                                .ambient_abs_pa = air->ambient_abs_pa,
                                .tyre_temp_k = air->tyre_temp_k};
        struct down_result r;
        enum status s = down_compute(&d, &r);
        if (s < 0) {
            return s;
        }
        int valves = h == HOOKUP_SINGLE ? 2 * c->tyres : 1;
        sum_s += valves * r.time_s[in->rig->air.valve];
        longest_s = fmax(longest_s, r.time_s[in->rig->air.valve]);
        moves += valves;
    }
    bool one_go = h == HOOKUP_LINKED || moves < 0;
    *time_s = one_go ? longest_s : sum_s + moves * in->rig->air.move_time_s;
    return STATUS_OK;
}

/* Refill of the rising axles with the rig's own hook-up. */
static enum status up_time(const struct trip_in *in, struct refill_in *air,
                           const struct axle_move move[AXLE_COUNT], struct trip_change *c)
{
    bool any = false;
    for (int i = 0; i < REFILL_CORNERS; i++) {
        struct refill_corner_in *k = &air->corner[i];
        const struct axle_move *m = &move[i / SIDE_COUNT];
        k->present = k->present && m->to_gauge_pa > m->from_gauge_pa + SAME_PA;
        k->from_gauge_pa = m->from_gauge_pa;
        k->target_gauge_pa = m->to_gauge_pa;
        k->gravel_gauge_pa = m->from_gauge_pa;
        any = any || k->present;
    }
    if (!any) {
        return STATUS_OK;
    }
    struct refill_out out;
    enum status s = refill_compute(air, &out);
    if (s < 0) {
        return s;
    }
    const struct refill_plan *p = &out.plan[in->rig->air.hookup];
    c->possible = p->possible;
    c->time_s += p->total_s + TRIP_INSPECT_S;
    c->rest_s = p->rest_s;
    c->free_air_m3 = out.free_air_m3;
    return STATUS_OK;
}

enum status trip_change_at(const struct trip_in *in, const struct trip_level *from,
                           const struct trip_level *to, double height_m, double temp_k,
                           struct trip_change *c)
{
    struct trip_change got = {.possible = true};
    struct axle_move move[AXLE_COUNT] = {{0.0, 0.0}};
    struct refill_in air;
    double ambient_abs_pa = 0.0;
    enum status s = gas_ambient(height_m, &ambient_abs_pa);
    if (s >= 0) {
        double inlet_k = maybe_or(in->rig->air.inlet_temp_k, temp_k);
        s = refill_in_of(in->rig, ambient_abs_pa, temp_k, inlet_k, &air);
    }
    for (int x = 0; x < AXLE_COUNT && s >= 0; x++) {
        if (in->rig->axle[x].present) {
            s = axle_readings(in, x, from, to, ambient_abs_pa, temp_k, &move[x]);
        }
    }
    if (s >= 0) {
        s = down_time(in, &air, move, &got.time_s);
    }
    if (s >= 0) {
        s = up_time(in, &air, move, &got);
    }
    if (s >= 0) {
        *c = got;
    }
    return s < 0 ? s : STATUS_OK;
}
