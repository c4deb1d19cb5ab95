/* trip_plan.h - a trip as its file describes it: plain data, SI. */
#ifndef SANDSHOE_CORE_TRIP_PLAN_H
#define SANDSHOE_CORE_TRIP_PLAN_H

#include <stdbool.h>

#include "base/num.h"
#include "core/ground.h"
#include "core/rig.h"

enum { TRIP_LEGS = 24 };

struct trip_leg {
    char ground[GROUND_NAME]; /* section name in the ground catalogue */
    double length_m;
    double speed_mps;          /* the speed one would like */
    struct maybe height_end_m; /* none: as at the start of the leg */
    struct maybe air_temp_k;   /* none: as on the leg before */
    double slope_1;            /* rise / run, 0 when not given */
    bool stop_after;           /* level place to stop and refill at its end */
};

struct trip {
    char name[RIG_NAME];
    char rig[RIG_NAME]; /* name or path */
    char date[32];      /* YYYY-MM-DD; "" = not given */
    char path[256];
    double height_start_m;
    double air_temp_start_k;
    int n_leg;
    struct trip_leg leg[TRIP_LEGS];
};

#endif
