/* trip_draw.h - a plan as a strip: pressure along the route, heights and temperatures below. */
#ifndef SANDSHOE_TUI_TRIP_DRAW_H
#define SANDSHOE_TUI_TRIP_DRAW_H

#include "sim/trip.h"
#include "tui/frame.h"

struct trip_strip {
    const struct trip_in *in;
    const struct trip_plan *plan;
    enum axle_id axle;
    enum unit_system u;
    int marked;  /* leg */
    bool places; /* two rows more: height and temperature at each leg's end */
};

/* trip_strip_put - the strip in r: bars, a row of leg numbers with what is done before each (v down,
 * ^ up, | a stop without a change), and the places. */
void trip_strip_put(struct frame *f, struct rect r, const struct trip_strip *s);

/* trip_strip_columns - where each leg starts among cols columns, and the end in at[n_leg]: by
 * length, but no leg narrower than four columns while there is room. */
void trip_strip_columns(const struct trip *t, int cols, int at[TRIP_LEGS + 1]);

#endif
