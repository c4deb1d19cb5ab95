/* run.h - air flowing through a line, from one event to the next.
 *
 * State: the mass in every vessel (isothermal), so that no air is ever lost by rounding.  An
 * adaptive Runge-Kutta 5(4) step runs either in time, or in the mass of the vessel that will
 * reach its target first: then the step ends on the target itself and nothing has to be searched.
 *
 *   p |            ___--- o target        struct line l;  line_prepare(&l);
 *     |      __--``       |               run_begin(&l, from_abs_pa, &s);
 *     |   .-`             |               run_to_event(&l, &until, &s, &event);  repeat
 *     +-------------------+---- t         run_to_time(&l, 60, &s);
 */
#ifndef SANDSHOE_SIM_RUN_H
#define SANDSHOE_SIM_RUN_H

#include <stdbool.h>

#include "base/status.h"
#include "sim/line.h"

enum { RUN_STEPS_MAX = 600 };

#define RUN_FOREVER_S 1e9     /* s, "no end of time" */
#define RUN_STUCK_S   43200.0 /* s, 12 h: a target further away counts as never reached */

struct run_state {
    double time_s;                /* elapsed, as summed over the calls */
    double delivered_kg;          /* out of the source */
    double tank_kg;               /* in the tank at the outlet */
    double mass_kg[LINE_VESSELS]; /* in one vessel of each entry */
    unsigned open;                /* bit i: vessel i is on the line */
    bool on;                      /* the source runs */
    double root_si;               /* warm start of the node */
    double step_s;                /* step size that the last call ended with; 0 = free */
};

struct run_until {
    double time_s;                  /* absolute, in state time; RUN_FOREVER_S = none */
    unsigned watch;                 /* bit i: stop when vessel i has target_kg[i] */
    double target_kg[LINE_VESSELS]; /* line_mass of the target */
    double cut_out_abs_pa;          /* outlet pressure that stops the machine; 0 = none */
    double cut_in_abs_pa;           /* with a tank: pressure that starts it again */
};

enum run_why {
    RUN_TIME,    /* the time is up */
    RUN_TARGET,  /* one or more watched vessels have their target: see reached */
    RUN_CUT_OUT, /* the outlet stands at the cut-out: the caller stops the machine or holds it */
    RUN_CUT_IN,  /* the tank has fallen to the cut-in */
    RUN_STUCK,   /* no watched vessel rises any more, and no end of time was set */
    RUN_STEPS    /* gave up after RUN_STEPS_MAX steps */
};

struct run_event {
    enum run_why why;
    unsigned reached;
    int evaluations; /* of the node, for benchmarks */
};

/* run_begin - vessels at their pressures, all on the line, source running, time 0.
 *
 *   in   l, p_abs_pa[l->n], tank_abs_pa (0 without a tank)
 *   out  s
 *   ret  STATUS_OK; E_DOMAIN
 *   src  none: bookkeeping
 */
enum status run_begin(const struct line *l, const double p_abs_pa[], double tank_abs_pa,
                      struct run_state *s) MUST_CHECK;

/* run_to_event - let the air flow until the first of the things in until.
 *
 *   in   l, until
 *   in,out  s      at the event
 *   out  event
 *   ret  STATUS_OK; E_DOMAIN (non-finite result; s untouched)
 *   how  docs/theory.md E5; targets met within RUN_TARGET_PA of pressure count as reached
 *   src  Dormand and Prince, J. Comput. Appl. Math. 6, 1980; Henon, Physica D 5, 1982 [memory]
 */
enum status run_to_event(const struct line *l, const struct run_until *until, struct run_state *s,
                         struct run_event *event) MUST_CHECK;

/* run_to_time - let the air flow until a time, whatever is reached on the way.
 *
 *   in   l, time_s   absolute, in state time; not after s->time_s = nothing happens
 *   in,out  s
 *   ret  STATUS_OK; E_DOMAIN; E_NO_SOLUTION (step cap)
 *   src  as run_to_event
 */
enum status run_to_time(const struct line *l, double time_s, struct run_state *s) MUST_CHECK;

/* run_flow - pressures and flows at a state: the flowing line reading is line_abs_pa - ambient.
 *
 *   in   l, s
 *   out  f
 *   ret  nothing
 *   src  line_solve
 */
void run_flow(const struct line *l, const struct run_state *s, struct line_flow *f);

#define RUN_TARGET_PA 20.0 /* Pa, a target this close counts as reached; model E5 */

#endif
