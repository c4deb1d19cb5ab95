/* truth.h - invented refills to judge the forecast by: what really happens comes from the energy
 * model (never from src/sim), what the driver sees of it is rounded and noted as log events.
 *
 * Every refill has its own machine, tyres, cores, hoses and heat, drawn about the label. */
#ifndef SANDSHOE_TESTS_TRUTH_H
#define SANDSHOE_TESTS_TRUTH_H

#include <gsl/gsl_rng.h>

#include "core/refill_log.h"
#include "support/energy.h"

enum { TRUTH_CORNERS = 4, TRUTH_EVENTS = 120, TRUTH_READS = 8, TRUTH_LOOKS = 48 };

enum truth_odd { TRUTH_PLAIN, TRUTH_WEAK, TRUTH_LEAK, TRUTH_SEEP, TRUTH_SLOW };

struct truth_case {
    const char *name;
    enum hookup hookup;
    double target_psi[TRUTH_CORNERS]; /* front-left, front-right, rear-left, rear-right */
    double step_psi;                  /* of the gauge */
    bool flowing;                     /* read from the line while air flows */
    bool each;                        /* each corner is read, not one for all */
    enum truth_odd odd;
    int n_read;
    double read_s[TRUTH_READS]; /* running times of the readings */
};

/* One refill: the log, and where in it a reading has just been noted. */
struct truth {
    int n_event;
    struct log_event event[TRUTH_EVENTS];
    int n_read;
    int after[TRUTH_READS];     /* events up to and with the reading */
    double late_s[TRUTH_READS]; /* running time by the log less the true one, then */
    double read_s[TRUTH_READS]; /* its true running time */
    double read_pa[TRUTH_READS][TRUTH_CORNERS]; /* as noted, of open corners; NAN for others */
    double start_pa[TRUTH_CORNERS];
    double drop_pa[TRUTH_CORNERS]; /* as read when it was dropped; NAN when it was not read */
    double done_s[TRUTH_CORNERS];  /* running time; NAN when never reached */
    double finish_s;
    int odd_corner;
    /* every look at the gauge: what stood there, and what was read */
    int n_look, looks_by[TRUTH_READS]; /* up to and with a reading */
    double exact_pa[TRUTH_LOOKS], noted_pa[TRUTH_LOOKS];
};

/* truth_label - the rig as its profile says. */
struct energy_rig truth_label(const struct truth_case *c);

/* truth_gauge_sd_1 - how surely the eye meets the mark, in steps of the gauge, beside rounding. */
#define TRUTH_GAUGE_SD_1 0.3

/* truth_make - one refill of a case. */
void truth_make(const struct truth_case *c, const gsl_rng *rng, struct truth *t);

/* What the label promises, second by second of running time. */
enum { TRUTH_CURVE = 1200 };
struct truth_curve {
    int n;
    double settled_pa[TRUTH_CURVE][TRUTH_CORNERS], line_pa[TRUTH_CURVE];
    double finish_s;
};

void truth_nominal(const struct truth_case *c, struct truth_curve *curve);

/* truth_corner_bit - log bit of one of the four corners. */
unsigned truth_corner_bit(int i);

#endif
