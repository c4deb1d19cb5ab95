/* replay_report.h - forecasts over a recorded job, ready to be written. */
#ifndef SANDSHOE_REPORT_REPLAY_REPORT_H
#define SANDSHOE_REPORT_REPLAY_REPORT_H

#include <stdbool.h>

#include "core/caution.h"
#include "core/refusal.h"
#include "core/rig.h"
#include "sim/forecast.h"

/* The forecast that stood after a reading. */
struct replay_row {
    double at_s;      /* log time */
    unsigned corners; /* as written; LOG_ALL for all */
    double reading_pa;
    bool flowing;
    int reading; /* of the session */
    struct forecast_out out;
};

struct replay_report {
    const struct rig *rig;
    struct refusal refusal; /* a target that is too low: no forecasts then */
    struct caution_list cautions;
    struct session session; /* at the end of the log */
    int n_row;
    struct replay_row row[SESSION_READINGS];
    bool forecast; /* false: the log holds too little for one */
    struct forecast_out final;
    bool torn; /* the last line was cut off and left out */
};

#endif
