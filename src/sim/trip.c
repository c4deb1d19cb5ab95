/* trip.c - the planner: shortest way through (group of legs) x (level).
 *
 *   home --change--> group 1 --change--> group 2 ...        a group: legs between two stops
 *        road         level a             level b           cost-to-go is summed from the end back
 */
#include "sim/trip.h"

#include <float.h>
#include <string.h>

#include "sim/trip_route.h"

#define SAME_PA      1.0  /* Pa */
#define IMPOSSIBLE_S 1e7  /* s: a change that the source cannot make; still comparable */
#define TIE_S        1e-6 /* s: a change must save more than this */

struct group {
    int first, last;         /* legs */
    double height_m, temp_k; /* of the place before it */
    bool allowed[TRIP_LEVELS];
    bool soft_on_road; /* soft ground and a sealed road without a stop between */
    double drive_s[TRIP_LEVELS];
    double to_go_s[TRIP_LEVELS]; /* from entering the group at a level to the end */
};

struct planner {
    const struct trip_in *in;
    int n_level, n_group;
    struct trip_level level[TRIP_LEVELS];
    struct group group[TRIP_LEGS];
    struct trip_change change[TRIP_LEVELS][TRIP_LEVELS]; /* scratch of one place */
};

static double change_cost_s(const struct trip_change *c)
{
    return c->possible ? c->time_s : IMPOSSIBLE_S;
}

static void cut_into_groups(struct planner *pl)
{
    const struct trip *t = pl->in->trip;
    struct route_point at = route_start(t);
    int n = 0;
    for (int i = 0; i < t->n_leg; i++) {
        if (i == 0 || t->leg[i - 1].stop_after) {
            pl->group[n++] =
                (struct group){.first = i, .height_m = at.height_m, .temp_k = at.temp_k};
        }
        pl->group[n - 1].last = i;
        at = route_after(&t->leg[i], at);
    }
    pl->n_group = n;
}

static bool group_admits(const struct planner *pl, const struct group *g, int level, bool up_too)
{
    for (int i = g->first; i <= g->last; i++) {
        if (!trip_admits(pl->in, i, &pl->level[level], up_too)) {
            return false;
        }
    }
    return true;
}

/* The softest level named by a leg of the group: what rules when nothing fits every leg. */
static int softest_own_level(const struct planner *pl, const struct group *g)
{
    int best = pl->n_level - 1;
    for (int i = g->first; i <= g->last; i++) {
        for (int l = 0; l < pl->n_level; l++) {
            if (strcmp(pl->level[l].name, pl->in->ground[i]->name) == 0 &&
                pl->level[l].cold_gauge_pa[AXLE_FRONT] <
                    pl->level[best].cold_gauge_pa[AXLE_FRONT]) {
                best = l;
            }
        }
    }
    return best;
}

static void allow_levels(const struct planner *pl, struct group *g)
{
    bool any = false;
    for (int pass = 0; pass < 2 && !any; pass++) {
        g->soft_on_road = pass == 1;
        for (int l = 0; l < pl->n_level; l++) {
            g->allowed[l] = group_admits(pl, g, l, pass == 0);
            any = any || g->allowed[l];
        }
    }
    if (!any) {
        g->allowed[softest_own_level(pl, g)] = true;
    }
}

static enum status drive_times(const struct planner *pl, struct group *g)
{
    for (int l = 0; l < pl->n_level; l++) {
        g->drive_s[l] = 0.0;
        for (int i = g->first; i <= g->last && g->allowed[l]; i++) {
            struct maybe cap;
            double t_s = 0.0;
            enum status s = trip_drive(pl->in, i, &pl->level[l], &cap, &t_s);
            if (s < 0) {
                return s;
            }
            g->drive_s[l] += t_s;
        }
    }
    return STATUS_OK;
}

/* Every change that can be wanted at the place before a group. */
static enum status changes_before(struct planner *pl, int gi, const bool from_allowed[])
{
    const struct group *g = &pl->group[gi];
    for (int a = 0; a < pl->n_level; a++) {
        for (int b = 0; b < pl->n_level; b++) {
            pl->change[a][b] = (struct trip_change){.possible = true};
            if (a == b || !from_allowed[a] || !g->allowed[b]) {
                continue;
            }
            enum status s = trip_change_at(pl->in, &pl->level[a], &pl->level[b], g->height_m,
                                           g->temp_k, &pl->change[a][b]);
            if (s < 0) {
                return s;
            }
        }
    }
    return STATUS_OK;
}

/* The best level to enter a group with, coming from another; staying wins a tie. */
static int best_next(const struct planner *pl, const struct group *g, int from, double *cost_s)
{
    int best = -1;
    *cost_s = DBL_MAX;
    if (g->allowed[from]) {
        best = from;
        *cost_s = g->to_go_s[from];
    }
    for (int b = 0; b < pl->n_level; b++) {
        double c_s = change_cost_s(&pl->change[from][b]) + g->to_go_s[b];
        if (b != from && g->allowed[b] && c_s < *cost_s - TIE_S) {
            best = b;
            *cost_s = c_s;
        }
    }
    return best;
}

static enum status sum_back(struct planner *pl)
{
    for (int gi = pl->n_group - 1; gi >= 0; gi--) {
        struct group *g = &pl->group[gi];
        if (gi + 1 < pl->n_group) {
            enum status s = changes_before(pl, gi + 1, g->allowed);
            if (s < 0) {
                return s;
            }
        }
        for (int l = 0; l < pl->n_level; l++) {
            double next_s = 0.0;
            if (g->allowed[l] && gi + 1 < pl->n_group) {
                (void)best_next(pl, &pl->group[gi + 1], l, &next_s);
            }
            g->to_go_s[l] = g->drive_s[l] + next_s;
        }
    }
    return STATUS_OK;
}

static enum trip_action action_of(const struct planner *pl, int from, int to)
{
    double rise_pa = 0.0;
    if (from == to) {
        return TRIP_NONE;
    }
    for (int x = 0; x < AXLE_COUNT; x++) {
        rise_pa += pl->level[to].cold_gauge_pa[x] - pl->level[from].cold_gauge_pa[x];
    }
    if (rise_pa < 0.0) {
        return TRIP_DOWN;
    }
    return to == pl->n_level - 1 ? TRIP_UP : TRIP_PART_UP;
}

static bool is_own_level(const struct planner *pl, int leg, int level)
{
    const struct ground *g = pl->in->ground[leg];
    const char *own = g->road ? "road" : g->name;
    return strcmp(pl->level[level].name, own) == 0;
}

/* Which leg of the group made the change necessary. */
static enum trip_why forced_by(const struct planner *pl, const struct group *g, int from)
{
    for (int i = g->first; i <= g->last; i++) {
        if (!trip_admits(pl->in, i, &pl->level[from], false)) {
            return TRIP_WHY_SOFT;
        }
    }
    for (int i = g->first; i <= g->last; i++) {
        if (pl->in->ground[i]->road) {
            return TRIP_WHY_ROAD;
        }
    }
    return TRIP_WHY_SHARP;
}

static enum trip_why why_of(const struct planner *pl, int gi, int from, int to)
{
    const struct group *g = &pl->group[gi];
    if (from != to) {
        return g->allowed[from] ? TRIP_WHY_PAYS : forced_by(pl, g, from);
    }
    if (gi == 0 && to == pl->n_level - 1) {
        return TRIP_WHY_START;
    }
    return is_own_level(pl, g->first, to) ? TRIP_WHY_FITS : TRIP_WHY_NOT_WORTH;
}

/* What this change saves against keeping the level, or what the best other level would cost. */
static struct maybe change_saves(const struct planner *pl, const struct group *g, int from, int to)
{
    if (from != to) {
        double made_s = change_cost_s(&pl->change[from][to]) + g->to_go_s[to];
        return g->allowed[from] ? maybe_of(g->to_go_s[from] - made_s) : maybe_none();
    }
    double other_s = DBL_MAX;
    for (int b = 0; b < pl->n_level; b++) {
        if (b != from && g->allowed[b]) {
            other_s = fmin(other_s, change_cost_s(&pl->change[from][b]) + g->to_go_s[b]);
        }
    }
    return other_s < IMPOSSIBLE_S ? maybe_of(g->to_go_s[from] - other_s) : maybe_none();
}

static enum status fill_leg(const struct planner *pl, int leg, int level, struct trip_leg_plan *out)
{
    const struct trip_leg *l = &pl->in->trip->leg[leg];
    out->level = level;
    for (int x = 0; x < AXLE_COUNT; x++) {
        out->cold_gauge_pa[x] = pl->level[level].cold_gauge_pa[x];
    }
    out->drive_wish_s = l->length_m / l->speed_mps;
    return trip_drive(pl->in, leg, &pl->level[level], &out->cap_mps, &out->drive_s);
}

static enum status fill_group(struct planner *pl, int gi, int from, int to, struct trip_plan *p)
{
    const struct group *g = &pl->group[gi];
    const struct trip_change *c = &pl->change[from][to];
    for (int i = g->first; i <= g->last; i++) {
        struct trip_leg_plan *leg = &p->leg[i];
        enum status s = fill_leg(pl, i, to, leg);
        if (s < 0) {
            return s;
        }
        leg->forced_soft_on_road = g->soft_on_road && pl->in->ground[i]->road;
        leg->why = is_own_level(pl, i, to) ? TRIP_WHY_FITS : TRIP_WHY_NO_STOP;
        p->drive_s += leg->drive_s;
    }
    struct trip_leg_plan *first = &p->leg[g->first];
    first->action = action_of(pl, from, to);
    first->why = why_of(pl, gi, from, to);
    first->change_saves_s = change_saves(pl, g, from, to);
    first->action_s = from == to ? 0.0 : c->time_s;
    first->rest_s = from == to ? 0.0 : c->rest_s;
    first->free_air_m3 = from == to ? 0.0 : c->free_air_m3;
    first->source_too_weak = from != to && !c->possible;
    if (first->action == TRIP_UP || first->action == TRIP_PART_UP) {
        double t_s = 0.0;
        struct maybe cap = maybe_none();
        if (trip_drive(pl->in, g->first, &pl->level[from], &cap, &t_s) >= 0) {
            first->abort_cap_mps = cap;
        }
    }
    p->action_s += first->action_s;
    return STATUS_OK;
}

static enum status walk_forward(struct planner *pl, struct trip_plan *p)
{
    int at = pl->n_level - 1; /* from home on road pressure */
    for (int gi = 0; gi < pl->n_group; gi++) {
        bool from[TRIP_LEVELS] = {false};
        double cost_s = 0.0;
        from[at] = true;
        enum status s = changes_before(pl, gi, from);
        if (s < 0) {
            return s;
        }
        int to = best_next(pl, &pl->group[gi], at, &cost_s);
        s = fill_group(pl, gi, at, to, p);
        if (s < 0) {
            return s;
        }
        at = to;
    }
    p->total_s = p->drive_s + p->action_s;
    return STATUS_OK;
}

static enum status prepare(struct planner *pl, struct refusal *refusal)
{
    enum status s = trip_levels(pl->in, pl->level, &pl->n_level, refusal);
    if (s < 0) {
        return s;
    }
    cut_into_groups(pl);
    for (int gi = 0; gi < pl->n_group; gi++) {
        allow_levels(pl, &pl->group[gi]);
        s = drive_times(pl, &pl->group[gi]);
        if (s < 0) {
            return s;
        }
    }
    return sum_back(pl);
}

static bool trip_in_domain(const struct trip_in *in)
{
    const struct trip *t = in->trip;
    const double place[] = {t->height_start_m, t->air_temp_start_k};
    if (t->n_leg < 1 || t->n_leg > TRIP_LEGS || !num_all_finite(2, place) ||
        !(t->air_temp_start_k > 0.0)) {
        return false;
    }
    for (int i = 0; i < t->n_leg; i++) {
        const struct trip_leg *l = &t->leg[i];
        if (!in->ground[i] || !(l->length_m > 0.0 && l->length_m < 1e8) ||
            !(l->speed_mps > 0.0 && l->speed_mps < 100.0)) {
            return false;
        }
    }
    return true;
}

enum status trip_compute(const struct trip_in *in, struct trip_plan *p)
{
    struct planner pl = {.in = in};
    struct trip_plan got = {.n_leg = in->trip->n_leg};
    if (!trip_in_domain(in)) {
        return STATUS_E_DOMAIN;
    }
    enum status s = prepare(&pl, &got.refusal);
    if (s >= 0) {
        s = walk_forward(&pl, &got);
    }
    if (s >= 0) {
        got.n_level = pl.n_level;
        memcpy(got.level, pl.level, sizeof pl.level);
        s = route_predict(in, &got);
    }
    if (s >= 0 || s == STATUS_E_REFUSED) {
        *p = got;
    }
    return s > 0 ? STATUS_OK : s;
}
