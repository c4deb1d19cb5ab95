/* truth_down.h - invented air-downs to judge the forecast by: each tyre empties through a hole of its
 * own in the energy model (never src/sim), its air cold from expanding and warmed by the wall; what
 * the driver sees of it is rounded and noted as log events.
 *
 * The spreads are those of truth.h, for the same reasons. */
#ifndef SANDSHOE_TESTS_TRUTH_DOWN_H
#define SANDSHOE_TESTS_TRUTH_DOWN_H

#include <gsl/gsl_rng.h>

#include "core/refill_log.h"
#include "support/energy.h"

enum { DOWN_CORNERS = 4, DOWN_EVENTS = 120, DOWN_READS = 4 };

enum down_way {
    DOWN_TOGETHER, /* all four open and shut as one */
    DOWN_WALKED,   /* each opened and shut as the driver comes by: its own second or so off */
    DOWN_SINGLE    /* one corner after the other */
};
enum down_read {
    DOWN_EACH, /* every open corner is read and noted */
    DOWN_ONE,  /* the first open corner is read and noted */
    DOWN_ALL   /* the first open corner is read and noted for all */
};
enum down_odd { DOWN_PLAIN, DOWN_SLOW, DOWN_LARGE };

struct down_case {
    const char *name;
    bool core_out;
    enum down_way way;
    enum down_read read;
    double start_psi[DOWN_CORNERS], target_psi[DOWN_CORNERS]; /* front, then rear; left first */
    double step_psi;                                          /* of the gauge */
    enum down_odd odd;
    double read_s[DOWN_READS]; /* running times of the readings */
};

/* One air-down: the log, and where in it a round of readings has just been noted. */
struct down_truth {
    int n_event;
    struct log_event event[DOWN_EVENTS];
    int n_read;
    int after[DOWN_READS];                    /* events up to and with the reading */
    double read_s[DOWN_READS];                /* its running time, as the log has it */
    double read_pa[DOWN_READS][DOWN_CORNERS]; /* as noted; NAN where nothing was */
    double late_s[DOWN_READS][DOWN_CORNERS];  /* by then, running time of the log less open_s */
    double start_pa[DOWN_CORNERS];            /* as noted */
    double open_s[DOWN_CORNERS];  /* true running time when settled at the target; NAN when never */
    double shut_s[DOWN_CORNERS];  /* the same by the log */
    double shut_pa[DOWN_CORNERS]; /* noted then; NAN when it was not read */
    double creep_pa[DOWN_CORNERS]; /* settled less gauge then */
    int odd_corner;
};

/* down_label - the rig as its profile says. */
struct energy_rig down_label(const struct down_case *c);

/* down_make - one air-down of a case. */
void down_make(const struct down_case *c, const gsl_rng *rng, struct down_truth *t);

/* down_finish - when the last corner is there by the log's running time, foreseen at reading n. */
double down_finish(const struct down_truth *t, int n);

/* down_corner_bit - log bit of one of the four corners. */
unsigned down_corner_bit(int i);

#endif
