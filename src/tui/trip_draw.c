#include "tui/trip_draw.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "tui/widget.h"

enum { AXIS = 6, LEAST = 4 }; /* columns of the scale; of the shortest leg */

void trip_strip_columns(const struct trip *t, int cols, int at[TRIP_LEGS + 1])
{
    double total_m = 0, sum_m = 0;
    int least = cols / t->n_leg < LEAST ? cols / t->n_leg : LEAST;
    double spare = cols - least * t->n_leg;
    for (int i = 0; i < t->n_leg; i++)
        total_m += t->leg[i].length_m;
    at[0] = 0;
    for (int i = 0; i < t->n_leg; i++) {
        sum_m += t->leg[i].length_m;
        at[i + 1] = least * (i + 1) + (int)lround(spare * sum_m / total_m);
    }
}

static double highest(const struct trip_strip *s)
{
    double most_pa = 1;
    for (int i = 0; i < s->plan->n_leg; i++) {
        const struct trip_leg_plan *l = &s->plan->leg[i];
        most_pa = fmax(most_pa, fmax(l->set_gauge_pa[s->axle], l->end_gauge_pa[s->axle]));
    }
    return most_pa;
}

/* one column, from the foot up in half rows */
static void column_put(struct frame *f, struct rect r, int col, double share_1, enum style style)
{
    int halves = (int)lround(fmax(share_1, 0) * 2 * r.rows);
    for (int k = 0; k < halves / 2; k++)
        frame_put(f, r.row + r.rows - 1 - k, col, style, "█");
    if (halves % 2 == 1)
        frame_put(f, r.row + r.rows - 1 - halves / 2, col, style, "▄");
}

static void bars_put(struct frame *f, struct rect r, const struct trip_strip *s, const int at[])
{
    double full_pa = highest(s);
    char value[32];
    frame_put_right(f, r.row, r.col + AXIS - 1, STYLE_LABEL, pressure_bare(value, full_pa, s->u));
    if (r.rows > 1)
        frame_put_right(f, r.row + r.rows - 1, r.col + AXIS - 1, STYLE_LABEL,
                        s->axle == AXLE_FRONT ? "front" : axle_name(s->axle));
    for (int i = 0; i < s->plan->n_leg; i++) {
        const struct trip_leg_plan *l = &s->plan->leg[i];
        double from_pa = l->set_gauge_pa[s->axle], rise_pa = l->end_gauge_pa[s->axle] - from_pa;
        enum style style = l->low[s->axle]  ? STYLE_DANGER
                           : i == s->marked ? STYLE_VALUE
                                            : STYLE_BAR;
        for (int c = at[i]; c < at[i + 1]; c++) {
            double share_1 = (c - at[i] + 0.5) / (at[i + 1] - at[i]);
            column_put(f, r, r.col + AXIS + c, (from_pa + share_1 * rise_pa) / full_pa, style);
        }
    }
}

static const char *sign_before(const struct trip_strip *s, int i)
{
    static const char *const acts[] = {"|", "v", "^", "^"};
    bool stop = i == 0 || s->in->trip->leg[i - 1].stop_after;
    return stop ? acts[s->plan->leg[i].action] : ":";
}

static void numbers_put(struct frame *f, int row, int col, const struct trip_strip *s,
                        const int at[])
{
    for (int i = 0; i < s->plan->n_leg; i++) {
        char number[16];
        int room = at[i + 1] - at[i];
        snprintf(number, sizeof number, "%s%d", sign_before(s, i), i + 1);
        frame_put_within(f, row, col + AXIS + at[i], room,
                         i == s->marked ? STYLE_CHOSEN : STYLE_TITLE, number);
    }
}

/* a figure at each leg's end, where it has room */
static void places_put(struct frame *f, int row, int col, const struct trip_strip *s,
                       const int at[], bool height)
{
    frame_put_right(f, row, col + AXIS - 1, STYLE_LABEL, height ? "m" : "C");
    for (int i = 0; i < s->plan->n_leg; i++) {
        const struct trip_leg_plan *l = &s->plan->leg[i];
        char figure[24];
        double v = height ? l->end_height_m : units_in(l->end_temp_k, Q_TEMPERATURE, "C");
        snprintf(figure, sizeof figure, "%.0f", v);
        if ((int)strlen(figure) < at[i + 1] - at[i])
            frame_put_right(f, row, col + AXIS + at[i + 1], STYLE_LABEL, figure);
    }
}

void trip_strip_put(struct frame *f, struct rect r, const struct trip_strip *s)
{
    int at[TRIP_LEGS + 1] = {0}, below = s->places ? 3 : 1;
    if (r.rows <= below || r.cols < AXIS + s->plan->n_leg)
        return;
    struct rect bars = {r.row, r.col, r.rows - below, r.cols};
    trip_strip_columns(s->in->trip, r.cols - AXIS, at);
    bars_put(f, bars, s, at);
    numbers_put(f, r.row + bars.rows, r.col, s, at);
    if (s->places) {
        places_put(f, r.row + bars.rows + 1, r.col, s, at, true);
        places_put(f, r.row + bars.rows + 2, r.col, s, at, false);
    }
}
