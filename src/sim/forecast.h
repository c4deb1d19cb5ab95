/* forecast.h - when will it be done? A weighted ensemble of full simulations that learns from
 * every gauge reading of a timed refill or air-down.
 *
 *      p |                    .-'..-'   each member: one machine, one set of tyres, one start;
 *        |             o  .-'.:-'.-'    simulated through the session as it happened, weighted by
 *        |        o .-'.:-'.-'          how well it meets the readings (o), then run on to the
 *        |   .-'.:-'.-'                 targets: the spread of the ends is the band
 *        +------------------------- t
 *
 * The outcome is a function of seed, prior and session alone: live and replay agree, and an undo is
 * simply a shorter list of readings.
 *
 *   static struct forecast f;                      about 1 MB, the caller's
 *   forecast_init(&f, 1, FORECAST_MEMBERS, &prior);
 *   forecast_update(&f, &session, now_s, &out);    after every event: 10..30 ms
 *   forecast_tick(&f, &session, now_s, &out);      between events: pressures now, under 2 ms */
#ifndef SANDSHOE_SIM_FORECAST_H
#define SANDSHOE_SIM_FORECAST_H

#include <stdbool.h>

#include "base/status.h"
#include "sim/session.h"

enum {
    FORECAST_MEMBERS = 1024, /* the most, and what the clock uses */
    FORECAST_SEEN = 24,      /* latest numbers read that are told beside what was expected */
    FORECAST_FEW = 64,       /* equally likely members kept for forecast_tick */
    FORECAST_COMMON = 8,     /* unknowns that all corners share */
    FORECAST_OWN = 3,        /* unknowns of each corner */
    FORECAST_UNKNOWNS = FORECAST_COMMON + FORECAST_OWN * REFILL_CORNERS,
    FORECAST_KNOTS = 241
};

/* What is believed of the machine before the first reading: delivery over volume, relative to the
 * profile's, is exp(log_mean_1 + log_sd_1 T) with T Student-t of 5 degrees of freedom; or, with a
 * share that earlier refills make smaller, it lies far below that. */
struct forecast_prior {
    double log_mean_1;
    double log_sd_1;
    int refills; /* earlier refills it rests on; 0 = the label alone */
};

/* What one finished refill taught. */
struct forecast_learned {
    double log_mean_1; /* of delivery over volume relative to the profile's */
    double log_sd_1;
    double temp_k;         /* of the air drawn */
    double ambient_abs_pa; /* stands for height */
};

/* Quantiles. INFINITY where that share of the members never arrives. */
struct forecast_time {
    double p05_s, p25_s, p50_s, p75_s, p95_s;
};

struct forecast_gauge {
    double p05_gauge_pa, p50_gauge_pa, p95_gauge_pa;
};

struct forecast_ratio {
    double p05_1, p50_1, p95_1;
};

enum forecast_fit {
    FORECAST_GOOD,
    FORECAST_POOR,       /* the readings do not suit any machine of this kind: bands widened */
    FORECAST_OUT_OF_STEP /* one corner differs: hose, valve, leak or bead - stop and look */
};

enum forecast_state {
    FORECAST_WAITING,  /* not on the line yet (pairs, single), or before the first air */
    FORECAST_FILLING,  /* air flows: up or down */
    FORECAST_PAUSED,   /* on the line, air off or resting */
    FORECAST_DROP_NOW, /* more likely than not at its target: disconnect it */
    FORECAST_DONE,     /* dropped, or the job is done */
    FORECAST_CHECK     /* out of step */
};

struct forecast_corner {
    bool present;
    enum forecast_state state;
    struct forecast_time finish;      /* running time from the first air on */
    struct forecast_time finish_wall; /* the same plus the pauses recorded so far */
    struct forecast_gauge settled;    /* now, were it left to settle; true gauge */
    struct forecast_gauge hot;        /* now, on the valve itself just after stopping */
    double target_gauge_pa;
    double stop_reading_gauge_pa; /* to stop at, on the user's gauge: offset is in */
    double settle_by_pa;          /* stop reading less what it settles to */
    double at_target_1;           /* probability that the target is reached by now */
    double residual_1;            /* worst recent reading less expected, in standard errors */
    enum forecast_fit fit;
};

/* A number that was read, beside what the most probable machine and tyres would have shown. */
struct forecast_seen {
    double at_s;                             /* log time */
    double read_gauge_pa, expected_gauge_pa; /* true gauge */
    double residual_1;                       /* read less expected, in standard errors */
    unsigned corners;                        /* it speaks for: their mean, or their line */
    bool flowing;
};

struct forecast_out {
    struct forecast_time finish; /* of the last corner, running time */
    struct forecast_time finish_wall;
    struct forecast_ratio delivery; /* over volume, relative to the profile's */
    struct forecast_gauge line;     /* now: what a gauge on the line shows while air flows */
    double running_s;               /* at now */
    double paused_s;                /* wall time from the first air on, less running_s */
    double arrives_1;               /* probability that every target is reached at all */
    enum forecast_fit fit;
    unsigned out_of_step; /* corners to look at */
    int readings;         /* used: not undone, after the first air */
    int rounds;           /* of resampling beyond the first */
    double effective_1;   /* effective number of members */
    int n_seen;
    struct forecast_seen seen[FORECAST_SEEN];
    struct forecast_corner corner[REFILL_CORNERS];
};

/* The ensemble. Everything in it is written by the functions below only. */
struct forecast {
    struct forecast_prior prior;
    int members;
    double heavy_1[FORECAST_KNOTS];                     /* normal to Student-t5, -6..6 */
    double ratio_log_1[FORECAST_KNOTS];                 /* normal to log of the prior's ratio */
    double draw_1[FORECAST_MEMBERS][FORECAST_UNKNOWNS]; /* standard normals, made once */
    double tail_1[FORECAST_MEMBERS];                    /* widens some draws: heavy tails */
    double z_1[FORECAST_MEMBERS][FORECAST_UNKNOWNS];    /* the members, as standard normals */
    double log_weight_1[FORECAST_MEMBERS];
    double weight_1[FORECAST_MEMBERS]; /* sum 1 */
    double ratio_1[FORECAST_MEMBERS];  /* delivery over volume */
    double finish_s[FORECAST_MEMBERS][REFILL_CORNERS];
    double settled_gauge_pa[FORECAST_MEMBERS][REFILL_CORNERS];
    double hot_gauge_pa[FORECAST_MEMBERS][REFILL_CORNERS];
    double line_gauge_pa[FORECAST_MEMBERS];
    int few[FORECAST_FEW];
    unsigned apart; /* corners whose core is not judged by their mates' */
};

/* forecast_prior_label - the prior for a machine known by its label alone.
 *   in   none
 *   ret  Student-t5, 17 % wide, about the label; one machine in four far weaker
 *   src  model F1; own */
struct forecast_prior forecast_prior_label(void);

/* forecast_prior_weak - the share of machines far below what is believed of the usual ones.
 *   in   prior
 *   ret  0..1; a quarter by the label alone, less the more refills it rests on
 *   src  docs/theory/F-forecast.md F1; own */
double forecast_prior_weak(const struct forecast_prior *prior);

/* forecast_prior_learned - the prior after earlier refills with this air system.
 *
 *   in   n >= 0, past[n]          what each taught
 *   in   temp_k, ambient_abs_pa   of the refill to come
 *   ret  the label's prior for n = 0
 *   how  weighted mean in which an odd day loses its weight; never narrower than the days differ,
 *        docs/theory/F-forecast.md F5
 *   src  Huber, Ann. Math. Stat. 35, 1964 [memory]; own
 */
struct forecast_prior forecast_prior_learned(int n, const struct forecast_learned past[],
                                             double temp_k, double ambient_abs_pa);

/* forecast_init - draw the ensemble's random numbers.
 *
 *   in   seed     the same seed gives the same forecasts
 *   in   members  100..FORECAST_MEMBERS
 *   in   prior    its logs within 5, a spread above 0
 *   out  f
 *   ret  STATUS_OK; E_DOMAIN; E_MEMORY
 *   how  a shifted Sobol sequence, docs/theory/F-forecast.md F1
 *   src  Sobol 1967 as in GSL
 */
enum status forecast_init(struct forecast *f, unsigned long seed, int members,
                          const struct forecast_prior *prior) MUST_CHECK;

/* forecast_update - the forecast of a session.
 *
 *   in,out  f
 *   in   s      with start readings for all its corners
 *   in   now_s  log time, not before the last event
 *   out  out    untouched on error
 *   ret  STATUS_OK; E_DOMAIN; E_MISSING (no start readings or targets yet); E_NO_SOLUTION
 *   how  docs/theory/F-forecast.md F1-F4
 *   src  Bugallo et al., adaptive importance sampling, IEEE Sig. Proc. Mag. 34, 2017 [memory]; own
 */
enum status forecast_update(struct forecast *f, const struct session *s, double now_s,
                            struct forecast_out *out) MUST_CHECK;

/* forecast_tick - pressures and states at a later moment of the same session; the finish times stay
 * those of the last forecast_update.
 *
 *   in   f, s, now_s  as last given to forecast_update, but later
 *   in,out  out       of forecast_update
 *   ret  STATUS_OK; E_DOMAIN; E_MISSING
 *   src  as forecast_update
 */
enum status forecast_tick(struct forecast *f, const struct session *s, double now_s,
                          struct forecast_out *out) MUST_CHECK;

/* forecast_learn - what the refill of the last forecast_update taught of the machine.
 *
 *   in   f, s
 *   out  l    untouched on error
 *   ret  STATUS_OK; E_MISSING (air-down, or no reading after the first air); E_DOMAIN
 *   src  model F5
 */
enum status forecast_learn(const struct forecast *f, const struct session *s,
                           struct forecast_learned *l) MUST_CHECK;

/* forecast_fit_name - "good", "poor", "out of step".
 *   in   fit
 *   ret  a string constant
 *   src  none: definition */
const char *forecast_fit_name(enum forecast_fit fit);

#endif
