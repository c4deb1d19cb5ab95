/* trip.c - the planner: shortest way through (group of legs) x (level).
 *
 *   home --change--> group 1 --change--> group 2 ...        a group: legs between two stops
 *        road         level a             level b           cost-to-go is summed from the end back
 */
#include "sim/trip.h"

#include <float.h>
#include <math.h>
#include <string.h>

#include "sim/trip_judge.h"
#include "sim/trip_place.h"
#include "sim/trip_route.h"

#define IMPOSSIBLE_S 1e7  /* s: a change that the source cannot make; still comparable */
#define TIE_S        1e-6 /* s: a change must save more than this */

struct group {
    int first, last; /* legs */
    struct route_point before;
    bool allowed[TRIP_LEVELS];
    bool mixed; /* soft ground and edges or sealed road without a stop between */
    double drive_s[TRIP_LEVELS];
    double to_go_s[TRIP_LEVELS]; /* from entering the group at a level to the end */
};

struct planner {
    const struct trip_in *in;
    int n_level, n_group;
    struct trip_level level[TRIP_LEVELS];
    int own[TRIP_LEGS]; /* level of the leg's own ground */
    struct trip_judged judged[TRIP_LEGS][TRIP_LEVELS];
    struct group group[TRIP_LEGS];
    struct trip_change change[TRIP_LEVELS][TRIP_LEVELS]; /* of one place at a time */
};

/* A change that the source cannot make is the last resort, and comes as late as it can. */
static double change_cost_s(const struct planner *pl, const struct group *g, int from, int to)
{
    const struct trip_change *c = &pl->change[from][to];
    return c->possible ? c->time_s : IMPOSSIBLE_S * (double)(pl->group + pl->n_group - g);
}

/* ---- legs and groups ---- */

static void cut_into_groups(struct planner *pl)
{
    const struct trip *t = pl->in->trip;
    struct route_point at = route_start(t);
    int n = 0;
    for (int i = 0; i < t->n_leg; i++) {
        if (i == 0 || t->leg[i - 1].stop_after) {
            pl->group[n++] = (struct group){.first = i, .before = at};
        }
        pl->group[n - 1].last = i;
        at = route_after(&t->leg[i], at);
    }
    pl->n_group = n;
}

/* An earlier leg over the same ground and slope, or -1. */
static int same_leg(const struct planner *pl, int leg)
{
    for (int i = 0; i < leg; i++) {
        if (pl->in->ground[i] == pl->in->ground[leg] &&
            !(fabs(pl->in->trip->leg[i].slope_1 - pl->in->trip->leg[leg].slope_1) > 0.0)) {
            return i;
        }
    }
    return -1;
}

static enum status judge_all_levels(struct planner *pl, int leg)
{
    struct advice own;
    struct trip_level l;
    int same = same_leg(pl, leg);
    if (same >= 0) {
        pl->own[leg] = pl->own[same];
        memcpy(pl->judged[leg], pl->judged[same], sizeof pl->judged[leg]);
        return STATUS_OK;
    }
    enum status s = judge_own(pl->in, leg, &own);
    if (s >= 0) {
        judge_level_of(&own, &l);
        pl->own[leg] = trip_level_find(pl->n_level, pl->level, &l);
    }
    for (int i = 0; i < pl->n_level && s >= 0; i++) {
        s = judge_leg(pl->in, leg, &own, &pl->level[i], &pl->judged[leg][i]);
    }
    return s;
}

static bool group_admits(const struct planner *pl, const struct group *g, int level, bool all)
{
    for (int i = g->first; i <= g->last; i++) {
        const struct trip_judged *j = &pl->judged[i][level];
        if (all ? !j->admits_all : !j->admits) {
            return false;
        }
    }
    return true;
}

/* The softest own level of the group that no leg refuses: what rules when nothing fits. */
static int softest_own_level(const struct planner *pl, const struct group *g)
{
    int best = -1;
    for (int i = g->first; i <= g->last; i++) {
        int l = pl->own[i];
        bool refused = l < 0;
        for (int k = g->first; k <= g->last && !refused; k++) {
            refused = pl->judged[k][l].refused;
        }
        if (!refused && (best < 0 || pl->level[l].cold_gauge_pa[AXLE_FRONT] <
                                         pl->level[best].cold_gauge_pa[AXLE_FRONT])) {
            best = l;
        }
    }
    return best;
}

static enum status allow_levels(const struct planner *pl, struct group *g)
{
    bool any = false;
    for (int pass = 0; pass < 2 && !any; pass++) {
        g->mixed = pass == 1;
        for (int l = 0; l < pl->n_level; l++) {
            g->allowed[l] = group_admits(pl, g, l, pass == 0);
            any = any || g->allowed[l];
        }
    }
    if (!any) {
        int l = softest_own_level(pl, g);
        if (l < 0) {
            return STATUS_E_NO_SOLUTION;
        }
        g->allowed[l] = true;
    }
    return STATUS_OK;
}

static void drive_times(const struct planner *pl, struct group *g)
{
    for (int l = 0; l < pl->n_level; l++) {
        g->drive_s[l] = 0.0;
        for (int i = g->first; i <= g->last && g->allowed[l]; i++) {
            g->drive_s[l] += judge_time(&pl->in->trip->leg[i], pl->judged[i][l].cap_mps,
                                        pl->judged[i][l].pace_mps);
        }
    }
}

/* ---- cost to go, from the end back ---- */

/* Every change that can be wanted at the place before a group. */
static enum status changes_before(struct planner *pl, int gi, const bool from[])
{
    const struct group *g = &pl->group[gi];
    struct trip_place here;
    enum status s = place_init(pl->in, g->before, &here);
    for (int a = 0; a < pl->n_level && s >= 0; a++) {
        for (int b = 0; b < pl->n_level && s >= 0; b++) {
            pl->change[a][b] = (struct trip_change){.possible = true};
            if (a != b && from[a] && g->allowed[b]) {
                s = place_change(pl->in, &here, &pl->level[a], &pl->level[b], &pl->change[a][b]);
            }
        }
    }
    return s;
}

/* The best level to enter a group with, coming from another; staying wins a tie. */
static int best_next(const struct planner *pl, const struct group *g, int from, double *cost_s)
{
    int best = g->allowed[from] ? from : -1;
    *cost_s = g->allowed[from] ? g->to_go_s[from] : DBL_MAX;
    for (int b = 0; b < pl->n_level; b++) {
        double c_s = change_cost_s(pl, g, from, b) + g->to_go_s[b];
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
        bool last = gi + 1 == pl->n_group;
        enum status s = last ? STATUS_OK : changes_before(pl, gi + 1, g->allowed);
        if (s < 0) {
            return s;
        }
        for (int l = 0; l < pl->n_level; l++) {
            double next_s = 0.0;
            if (g->allowed[l] && !last) {
                (void)best_next(pl, &pl->group[gi + 1], l, &next_s);
            }
            g->to_go_s[l] = g->drive_s[l] + next_s;
        }
    }
    return STATUS_OK;
}

/* ---- what was chosen, and why ---- */

static enum trip_action action_of(const struct planner *pl, int from, int to)
{
    for (int x = 0; x < AXLE_COUNT && from != to; x++) {
        if (pl->level[to].cold_gauge_pa[x] > pl->level[from].cold_gauge_pa[x] + TRIP_SAME_PA) {
            return pl->level[to].road ? TRIP_UP : TRIP_PART_UP;
        }
    }
    return from == to ? TRIP_NONE : TRIP_DOWN;
}

/* Which ground of the group made the change necessary. */
static enum trip_why forced_by(const struct planner *pl, const struct group *g, int from)
{
    bool road = false;
    for (int i = g->first; i <= g->last; i++) {
        if (!pl->judged[i][from].admits) {
            return TRIP_WHY_SOFT;
        }
        road = road || pl->in->ground[i]->road;
    }
    return road ? TRIP_WHY_ROAD : TRIP_WHY_SHARP;
}

static enum trip_why why_of(const struct planner *pl, int gi, int from, int to)
{
    const struct group *g = &pl->group[gi];
    if (from != to) {
        return g->allowed[from] ? TRIP_WHY_PAYS : forced_by(pl, g, from);
    }
    if (pl->own[g->first] == to) {
        return TRIP_WHY_FITS;
    }
    return gi == 0 ? TRIP_WHY_START : TRIP_WHY_NOT_WORTH;
}

/* Both sums may hold the price of a change that cannot be made later on: it cancels. */
static struct maybe difference(double a_s, double b_s)
{
    return fabs(a_s - b_s) < IMPOSSIBLE_S / 2 ? maybe_of(a_s - b_s) : maybe_none();
}

/* What the change saves against keeping the level, and what the best other choice would lose. */
static void weigh(const struct planner *pl, const struct group *g, int from, int to,
                  struct trip_leg_plan *leg)
{
    double best_s = change_cost_s(pl, g, from, to) + g->to_go_s[to];
    double least_s = DBL_MAX;
    int other = -1;
    if (from != to && g->allowed[from]) {
        leg->change_saves_s = difference(g->to_go_s[from], best_s);
    }
    for (int b = 0; b < pl->n_level; b++) {
        double cost_s = change_cost_s(pl, g, from, b) + g->to_go_s[b];
        if (b != to && b != from && g->allowed[b] && cost_s < least_s) {
            least_s = cost_s;
            other = b;
        }
    }
    leg->other_loses_s = other >= 0 ? difference(least_s, best_s) : maybe_none();
    leg->other_level = leg->other_loses_s.is ? other : -1;
    if (leg->why == TRIP_WHY_NOT_WORTH && other >= 0 && !leg->other_loses_s.is) {
        leg->why = TRIP_WHY_NO_AIR;
    }
}

static void fill_leg(const struct planner *pl, const struct group *g, int leg, int level,
                     struct trip_leg_plan *out)
{
    const struct trip_leg *l = &pl->in->trip->leg[leg];
    const struct trip_judged *j = &pl->judged[leg][level];
    out->level = level;
    memcpy(out->cold_gauge_pa, pl->level[level].cold_gauge_pa, sizeof out->cold_gauge_pa);
    out->cap_mps = j->cap_mps;
    out->pace_mps = j->pace_mps;
    out->past_limit = j->past_limit;
    out->drive_s = judge_time(l, j->cap_mps, j->pace_mps);
    out->drive_wish_s = judge_time(l, maybe_none(), maybe_none());
    out->forced_soft = g->mixed && !j->admits_all;
    out->why = pl->own[leg] == level ? TRIP_WHY_FITS : TRIP_WHY_NO_STOP;
    out->other_level = out->warn_leg = -1;
}

static void fill_group(const struct planner *pl, int gi, int from, int to, struct trip_plan *p)
{
    const struct group *g = &pl->group[gi];
    for (int i = g->first; i <= g->last; i++) {
        fill_leg(pl, g, i, to, &p->leg[i]);
        p->drive_s += p->leg[i].drive_s;
    }
    struct trip_leg_plan *first = &p->leg[g->first];
    first->action = action_of(pl, from, to);
    first->why = why_of(pl, gi, from, to);
    weigh(pl, g, from, to, first);
    if (from != to) {
        const struct trip_change *c = &pl->change[from][to];
        first->action_s = c->time_s;
        first->rest_s = c->rest_s;
        first->free_air_m3 = c->free_air_m3;
        first->source_too_weak = !c->possible;
    }
    if (first->action == TRIP_UP || first->action == TRIP_PART_UP) {
        first->abort_cap_mps = pl->judged[g->first][from].cap_mps;
    }
    p->action_s += first->action_s;
    p->free_air_m3 += first->free_air_m3;
    p->no_air = p->no_air || first->source_too_weak;
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
        fill_group(pl, gi, at, to, p);
        at = to;
    }
    p->total_s = p->drive_s + p->action_s;
    return STATUS_OK;
}

static enum status prepare(struct planner *pl, struct refusal *refusal)
{
    enum status s = trip_levels(pl->in, pl->level, &pl->n_level, refusal);
    for (int i = 0; i < pl->in->trip->n_leg && s >= 0; i++) {
        s = judge_all_levels(pl, i);
    }
    if (s < 0) {
        return s;
    }
    cut_into_groups(pl);
    for (int gi = 0; gi < pl->n_group && s >= 0; gi++) {
        s = allow_levels(pl, &pl->group[gi]);
        drive_times(pl, &pl->group[gi]);
    }
    return s < 0 ? s : sum_back(pl);
}

static bool leg_in_domain(const struct trip_leg *l)
{
    const double x[] = {l->slope_1, maybe_or(l->height_end_m, 0.0), maybe_or(l->air_temp_k, 273.0)};
    return num_all_finite(3, x) && x[2] > 0.0 && l->length_m > 0.0 && l->length_m < 1e8 &&
           l->speed_mps > 0.0 && l->speed_mps < 100.0;
}

static bool trip_in_domain(const struct trip_in *in)
{
    const struct trip *t = in->trip;
    const double place[] = {t->height_start_m, t->air_temp_start_k};
    bool ok = t->n_leg >= 1 && t->n_leg <= TRIP_LEGS && num_all_finite(2, place) &&
              t->air_temp_start_k > 0.0;
    for (int i = 0; i < t->n_leg && ok; i++) {
        ok = in->ground[i] && leg_in_domain(&t->leg[i]);
    }
    return ok;
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

bool trip_reads_low(const struct trip_leg_plan *l)
{
    bool low = false;
    for (int x = 0; x < AXLE_COUNT; x++) {
        low = low || l->low[x] || l->under[x];
    }
    return low;
}

const char *trip_action_name(enum trip_action a)
{
    static const char *const names[] = {"none", "down", "up", "part-up"};
    return a <= TRIP_PART_UP ? names[a] : "?";
}

const char *trip_why_text(enum trip_why why)
{
    static const char *const texts[] = {
        [TRIP_WHY_START] = "as it left home",
        [TRIP_WHY_SOFT] = "soft ground ahead",
        [TRIP_WHY_SHARP] = "edges ahead pinch softer tyres",
        [TRIP_WHY_ROAD] = "sealed road ahead",
        [TRIP_WHY_PAYS] = "saves more time than it costs",
        [TRIP_WHY_NOT_WORTH] = "kept: a change would cost more than it saves",
        [TRIP_WHY_FITS] = "kept: it is this ground's own",
        [TRIP_WHY_NO_STOP] = "kept: no place to stop before it",
        [TRIP_WHY_NO_AIR] = "kept: the air source cannot change it",
    };
    return why <= TRIP_WHY_NO_AIR ? texts[why] : "?";
}
