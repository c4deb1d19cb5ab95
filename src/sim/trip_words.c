#include "sim/trip_words.h"

#include <float.h>
#include <math.h>

#include "sim/trip_caution.h"

#define HARDLY_S 90.0 /* s: a gain that a stop is hardly worth, own choice */

static void put_minutes(long min, struct text *t)
{
    if (min >= 60) {
        text_put(t, "%ld h ", min / 60);
    }
    text_put(t, "%ld min", min % 60);
}

double trip_words_minutes(double time_s)
{
    return fmax(0.0, ceil(time_s / 60.0 - 1e-9));
}

void trip_words_span(double time_s, struct text *t)
{
    put_minutes((long)trip_words_minutes(time_s), t);
}

/* A difference: to the nearest, and in seconds where it is hardly one. */
static void put_difference(double s, struct text *t)
{
    if (s < HARDLY_S) {
        text_put(t, "%.0f s", s);
    } else {
        put_minutes(lround(s / 60.0), t);
    }
}

void trip_words_axles(const struct trip_words *w, const double gauge_pa[], int more, struct text *t)
{
    const char *gap = "";
    for (int x = 0; x < AXLE_COUNT; x++) {
        if (w->in->rig->axle[x].present) {
            text_put(t, "%s%s ", gap, axle_name((enum axle_id)x));
            units_put_bare(t, gauge_pa[x], Q_PRESSURE, w->u, more);
            gap = ", ";
        }
    }
}

void trip_words_place(const struct trip_words *w, double height_m, double temp_k, struct text *t)
{
    text_put(t, "%.0f m, ", height_m);
    units_put(t, temp_k, Q_TEMPERATURE, w->u, 0);
}

/* A blank between two sentences. */
static void gap(struct text *t)
{
    if (t->len > 0 && t->s[t->len - 1] != ' ') {
        text_char(t, ' ', 1);
    }
}

/* "road pressure", "the pressures of dune-sand" */
static void put_level(const struct trip_words *w, int level, struct text *t)
{
    const struct trip_level *l = &w->plan->level[level];
    text_put(t, l->road ? "road pressure" : "the pressures of %s", l->name);
}

/* A pressure set here that will be too low later: said first. */
static void put_low(const struct trip_words *w, const struct trip_leg_plan *l, struct text *t)
{
    if (l->warn_leg < 0) {
        return;
    }
    const struct trip_leg_plan *there = &w->plan->leg[l->warn_leg];
    gap(t);
    text_put(t, "BEFORE YOU DO: at the end of leg %d (", l->warn_leg + 1);
    trip_words_place(w, there->end_height_m, there->end_temp_k, t);
    text_put(t, ") it will read too little:");
    for (int x = 0; x < AXLE_COUNT; x++) {
        if (there->low[x]) {
            text_put(t, " %s ", axle_name((enum axle_id)x));
            units_put_bare(t, there->end_gauge_pa[x], Q_PRESSURE, w->u, 0);
            text_put(t, " (floor ");
            units_put_bare(t, there->floor_gauge_pa[x], Q_PRESSURE, w->u, 0);
            text_put(t, ")");
        }
    }
    text_put(t, ". Set no less than");
    for (int x = 0; x < AXLE_COUNT; x++) {
        if (l->least_set_gauge_pa[x] > 0.0) {
            text_put(t, " %s ", axle_name((enum axle_id)x));
            units_put_bare(t, trip_least_to_set(w->in, l, x), Q_PRESSURE, w->u, w->more);
        }
    }
    text_put(t, " here.");
}

/* "Part-up, 10 min, 543 L of free air: set front 36, rear 43 at 110 m, 30 C" */
static void put_set_here(const struct trip_words *w, const struct trip_leg_plan *l, struct text *t)
{
    static const char *const names[] = {"", "Down", "Up", "Part-up"};
    gap(t);
    if (l->source_too_weak) {
        text_put(t, "%s CANNOT BE MADE with the rig's own air", names[l->action]);
    } else {
        text_put(t, "%s, %.0f min", names[l->action], trip_words_minutes(l->action_s));
    }
    if (l->rest_s > 0.0) {
        text_put(t, " (%.0f of them the compressor's rest)", trip_words_minutes(l->rest_s));
    }
    if (l->free_air_m3 > 0.0) {
        text_put(t, ", %.0f L of free air", units_in(l->free_air_m3, Q_VOLUME, "L"));
    }
    text_put(t, ": set ");
    trip_words_axles(w, l->set_gauge_pa, w->more, t);
    text_put(t, " at ");
    trip_words_place(w, l->start_height_m, l->start_temp_k, t);
    text_put(t, ", more while the tyres are warm. To ");
    put_level(w, l->level, t);
    text_put(t, ": ");
}

static void put_reason(const struct trip_words *w, const struct trip_leg_plan *l, struct text *t)
{
    gap(t);
    if (!l->change_saves_s.is) {
        text_put(t, "%s", trip_why_text(l->why));
    } else {
        text_put(t, "saves ");
        put_difference(l->change_saves_s.v, t);
        text_put(t, " all told%s", l->change_saves_s.v < HARDLY_S ? ": leave it if you like" : "");
    }
    if (l->other_level >= 0 && l->other_loses_s.is) {
        text_put(t, "; ");
        put_level(w, l->other_level, t);
        if (l->other_loses_s.v < HARDLY_S) {
            text_put(t, " would take about as long");
        } else {
            text_put(t, " instead would lose ");
            put_difference(l->other_loses_s.v, t);
        }
    }
    text_put(t, ".");
}

static void put_abort(const struct trip_words *w, int i, struct text *t)
{
    const struct trip_leg_plan *l = &w->plan->leg[i];
    if (l->abort_cap_mps.is) {
        gap(t);
        text_put(t, "If the air fails here: ");
        units_put(t, l->abort_cap_mps.v, Q_SPEED, w->u, 0);
        text_put(t, " at most until there is other air%s.",
                 w->in->ground[i]->road ? ", and keep off fast roads" : "");
    }
}

static void put_too_soft(const struct trip_words *w, const struct trip_leg_plan *l, struct text *t)
{
    if (l->cap_mps.is) {
        gap(t);
        text_put(t, "Softer than this ground wants: ");
        units_put(t, l->cap_mps.v, Q_SPEED, w->u, 0);
        text_put(t, " at most.");
    }
}

/* Whether the pace of hard tyres on rough ground is what the driving time counts. */
static bool pace_rules(const struct trip_words *w, int i)
{
    const struct trip_leg_plan *l = &w->plan->leg[i];
    double other_mps = fmin(w->in->trip->leg[i].speed_mps, maybe_or(l->cap_mps, DBL_MAX));
    return l->pace_mps.is && l->pace_mps.v < other_mps;
}

static void put_pace(const struct trip_words *w, const struct trip_leg_plan *l, struct text *t)
{
    gap(t);
    text_put(t, "Tyres this hard shake the truck: counted at ");
    units_put(t, l->pace_mps.v, Q_SPEED, w->u, 0);
    text_put(t, ".");
}

bool trip_words_act(const struct trip_words *w, int leg, struct text *t)
{
    const struct trip_leg_plan *l = &w->plan->leg[leg];
    bool act = l->action != TRIP_NONE;
    bool too_soft = l->forced_soft || l->past_limit;
    bool too_hard = pace_rules(w, leg);
    bool plain = l->why == TRIP_WHY_FITS || l->why == TRIP_WHY_NO_STOP;
    if (!act && plain && !too_soft && !too_hard && l->warn_leg < 0) {
        return false;
    }
    put_low(w, l, t);
    if (act) {
        put_set_here(w, l, t);
    }
    put_reason(w, l, t);
    if (too_soft) {
        put_too_soft(w, l, t);
    }
    if (too_hard) {
        put_pace(w, l, t);
    }
    put_abort(w, leg, t);
    return true;
}
