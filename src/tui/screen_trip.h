/* screen_trip.h - a route's plan with the rig as it stands: legs, pressure along the way, what to
 * do before the leg marked, what the gauge will read where it reads least. */
#ifndef SANDSHOE_TUI_SCREEN_TRIP_H
#define SANDSHOE_TUI_SCREEN_TRIP_H

#include "core/trip_plan.h"
#include "sim/trip.h"
#include "tui/host.h"
#include "tui/keymap.h"
#include "tui/widget.h"

struct model;

struct trip_state {
    bool open;     /* a trip is open: plan and legs hold */
    bool choosing; /* the list of trips is shown */
    int n;
    struct host_trip found[HOST_TRIPS];
    struct list list;
    char why[HOST_MESSAGE];
    struct trip trip;
    enum status status; /* of trip_compute */
    struct trip_plan plan;
    struct list legs;
    int top; /* first line in sight of the leg's words */
};

void trip_enter(struct model *m);
bool trip_act(struct model *m, enum action a, int key);
void trip_render(const struct model *m, struct frame *f, struct rect body);

/* trip_follow - plan anew after a change of the rig. */
void trip_follow(struct model *m);

#endif
