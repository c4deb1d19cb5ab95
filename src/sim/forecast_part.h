/* forecast_part.h - what the files of the forecast share; nobody else includes it.
 *
 * Every unknown is a standard normal z, mapped to a quantity by unknowns_of: so the prior is the
 * same simple cloud in every problem, however heavy the tails of the quantities are. Corners are
 * counted densely here: 0..n-1 are the present ones, and they are the vessels of the line. */
#ifndef SANDSHOE_SIM_FORECAST_PART_H
#define SANDSHOE_SIM_FORECAST_PART_H

#include "sim/forecast.h"
#include "sim/run.h"

enum { PART_OBS = 256, PART_HOSES = 24, PART_DEFLATE = 257 };

#define PART_KNOT_STEP_1 0.05 /* of the table from normal to Student-t5 */
#define PART_KNOT_LOW_1  (-6.0)

/* The common unknowns, then those of each corner. */
enum { Z_RATIO, Z_VOLUME, Z_CORE, Z_SAG, Z_STRETCH, Z_OVER, Z_START, Z_PACE };
enum { Z_OWN_VOLUME, Z_OWN_CORE, Z_OWN_START };
#define Z_OWN(i, which) (FORECAST_COMMON + FORECAST_OWN * (i) + (which))

/* A member's unknowns as quantities. */
struct unknowns {
    double ratio_1;     /* how fast the tyres fill half way, relative to the profile's */
    double scale_1;     /* delivery at no back pressure */
    double extra_sag_1; /* beside the source's own */
    double stretch_1_pa;
    double over_1; /* over-read relative to the rule */
    double pace_1; /* standard normal: what the model itself may be off by */
    double volume_1[REFILL_CORNERS], area_1[REFILL_CORNERS]; /* relative to the profile's */
    double start_gauge_pa[REFILL_CORNERS];
};

/* One number that was read. */
struct observation {
    int span;    /* of the session: it ends at the reading */
    unsigned at; /* dense corners whose mean was read; or the line, when flowing */
    bool flowing;
    double at_s; /* log time */
    double p_gauge_pa;
    double sigma_pa; /* of gauge, clock and model; the rounding comes on top */
    double half_pa;  /* half a step of the gauge */
};

/* Hoses as hookup_line makes them for a set of open corners. */
struct hoses {
    unsigned open;
    double main_si, branch_si;
};

/* Time to let a unit tyre down to a pressure, tabulated over the root of the gauge pressure. */
struct deflate {
    double top_pa;                                             /* gauge, of the last knot */
    double plain_si[PART_DEFLATE], stretched_si[PART_DEFLATE]; /* from there: int dp/(p w) ... */
};

/* All that the members have in common in one update. */
struct plan {
    const struct forecast *f;
    const struct session *s;
    double now_s;
    struct source source;
    struct line line; /* nominal: one vessel a corner, the spare last */
    struct run_until until;
    int n, dims;
    int corner_of[REFILL_CORNERS]; /* REFILL_CORNER of a dense corner */
    unsigned spare;                /* bit of the spare's vessel, or 0 */
    unsigned apart;                /* dense; cores not judged by their mates' */
    double tank_abs_pa, held_abs_pa;
    double own_sag_1;
    /* half way of the first group: pressure, label's flow, and room of its tyres with stretch */
    unsigned middle_open;
    double middle_abs_pa, middle_kg_s, middle_m3;
    double middle_drop_pa; /* from the line to the tyres */
    double shared_start_pa, own_start_pa[REFILL_CORNERS];
    double over_si[REFILL_CORNERS];   /* over-read per flow and pressure, s/kg */
    double creep_s[REFILL_CORNERS];   /* its time constant just after stopping */
    double flow_kg_s[REFILL_CORNERS]; /* the flow these two are for */
    unsigned open_now;
    int n_group;
    unsigned group[REFILL_CORNERS]; /* of the hook-up, in order */
    unsigned dropped;
    int n_hose;
    struct hoses hose[PART_HOSES];
    struct deflate deflate[2]; /* core in, core out */
    int n_obs;
    struct observation obs[PART_OBS];
};

/* What one member says. */
struct member_out {
    double expected_pa[PART_OBS];
    double finish_s[REFILL_CORNERS];                                       /* dense; running time */
    double settled_gauge_pa[REFILL_CORNERS], hot_gauge_pa[REFILL_CORNERS]; /* now */
    double line_gauge_pa;
    double running_s; /* now */
};

enum member_until { MEMBER_READINGS, MEMBER_NOW, MEMBER_FINISH };

#define FLOW_TOGETHER_S 0.05 /* s, targets this close are reached together */

/* Air flowing at the accuracy that a member needs. */
struct flow {
    const struct line *line;
    double rate_kg_s[LINE_VESSELS]; /* into one of each, now */
    double outlet_abs_pa;
    bool fresh; /* the rates are those of the present state */
};

struct flow_event {
    bool stop_at_target; /* in: stop there, else only note when */
    unsigned reached;
    double at_s[LINE_VESSELS]; /* when, for reached vessels */
    bool gave_up;              /* too many steps, or no target will be reached */
};

/* flow_begin - nothing known of the line yet.
 *   in   l    the caller keeps it
 *   out  w
 *   ret  nothing
 *   src  none: bookkeeping */
void flow_begin(const struct line *l, struct flow *w);

/* flow_refresh - the rates of the present state; after any change of the line or what is open.
 *   in,out  w, s
 *   ret  nothing
 *   src  line_solve */
void flow_refresh(struct flow *w, struct run_state *s);

/* flow_to_event - let air flow to u->time_s, a watched target, or past the cut-out; no tank.
 *   in   u
 *   in,out  w, s, e
 *   ret  STATUS_OK; E_DOMAIN
 *   how  within 0.1 s of run_to_event, docs/theory/F-forecast.md F1
 *   src  Bogacki and Shampine, Appl. Math. Lett. 2, 1989 [memory] */
enum status flow_to_event(struct flow *w, const struct run_until *u, struct run_state *s,
                          struct flow_event *e) MUST_CHECK;

/* flow_level - open vessels level out through the line, source off, no tank.
 *   in   l, lasts_s
 *   in,out  s
 *   ret  nothing
 *   src  own, within a few per cent of run_to_event */
void flow_level(const struct line *l, double lasts_s, struct run_state *s);

/* plan_make - what all members share.
 *   in   f, s, now_s
 *   out  p
 *   ret  STATUS_OK; E_DOMAIN; E_MISSING
 *   src  none: preparation */
enum status plan_make(const struct forecast *f, const struct session *s, double now_s,
                      struct plan *p) MUST_CHECK;

/* plan_observe - list the readings as numbers of certain corners, the latest PART_OBS of them.
 *   in,out  p
 *   ret  nothing
 *   src  none: meaning of the log, sandshoe-profile(5) */
void plan_observe(struct plan *p);

/* plan_dense - REFILL_CORNER bits to dense bits.
 *   in   p, corners
 *   ret  bits
 *   src  none: bookkeeping */
unsigned plan_dense(const struct plan *p, unsigned corners);

/* unknowns_of - standard normals to quantities.
 *   in   p, z_1[p->dims]
 *   out  u
 *   ret  nothing
 *   src  docs/theory/F-forecast.md F1 */
void unknowns_of(const struct plan *p, const double z_1[], struct unknowns *u);

/* member_run - simulate one member through the session, and on to the targets if asked.
 *   in   p, u, until  how far
 *   out  out
 *   ret  STATUS_OK; E_DOMAIN
 *   src  model E, F1 */
enum status member_run(const struct plan *p, const struct unknowns *u, enum member_until until,
                       struct member_out *out) MUST_CHECK;

/* member_deflate - the same for an air-down.
 *   in   p, u, until
 *   out  out
 *   ret  STATUS_OK; E_DOMAIN
 *   src  model E9, F1 */
enum status member_deflate(const struct plan *p, const struct unknowns *u, enum member_until until,
                           struct member_out *out) MUST_CHECK;

/* deflate_table - fill the table of a let-down through a core from the highest start.
 *   in   ambient_abs_pa, b_1, top_gauge_pa
 *   out  d
 *   ret  nothing
 *   src  isothermal blow-down through an ISO 6358 element */
void deflate_table(double ambient_abs_pa, double b_1, double top_gauge_pa, struct deflate *d);

/* plan_core - the valve that a dense corner is let down through.
 *   in   p, i
 *   ret  core in or out
 *   src  none: look-up */
enum valve_state plan_core(const struct plan *p, int i);

/* member_over_read - how much warmer than settled the gauge of a corner shows.
 *   in   p, u, i            dense corner
 *   in   p_abs_pa, flow_kg_s   settled; the flow at shut-off into one tyre, negative when emptying
 *   in   on_s, off_s        air flowed that long; has been off that long
 *   ret  Pa
 *   src  model E6; air settles by natural convection, own fit of the energy model */
double member_over_read(const struct plan *p, const struct unknowns *u, int i, double p_abs_pa,
                        double flow_kg_s, double on_s, double off_s);

/* like_of - log likelihood of all observations.
 *   in   p, expected_pa[p->n_obs]
 *   ret  log
 *   src  model F1: the probability of the interval that the gauge rounds */
double like_of(const struct plan *p, const double expected_pa[]);

/* Where members are drawn: a heavy-tailed cloud about a centre. */
struct cloud {
    int dims;
    double centre_1[FORECAST_UNKNOWNS];
    double root_1[FORECAST_UNKNOWNS][FORECAST_UNKNOWNS]; /* lower triangle: root root' = spread */
    double log_volume_1;                                 /* sum of log of the diagonal */
};

#define CLOUD_FREEDOM_1 8.0 /* degrees of freedom of its tails; own choice */
#define CLOUD_PRIOR_1   0.1 /* share of the members drawn from the prior whatever was read */

/* What a search ended with. */
struct found {
    double z_1[FORECAST_UNKNOWNS];
    double expected_pa[PART_OBS];
    double residual_1[PART_OBS];     /* reading less expected, in standard errors */
    double unlike_1[REFILL_CORNERS]; /* how unlike its mates a corner must be, in standard errors:
                                        negative when it fills too slowly */
};

/* search_best - the most probable unknowns and the cloud of plausible ones about them.
 *   in   p
 *   out  found, cloud
 *   ret  STATUS_OK; E_DOMAIN; E_NO_SOLUTION
 *   how  Gauss-Newton with differences; the cloud is the inverse of its normal matrix, widened
 *   src  textbook least squares */
enum status search_best(const struct plan *p, struct found *found, struct cloud *cloud) MUST_CHECK;

/* cloud_of_members - the cloud about the weighted members, mixed with the one they came from.
 *   in   f, members  the first so many of it, weighted
 *   in,out  cloud
 *   ret  STATUS_OK; E_NO_SOLUTION
 *   src  model F1: weighted mean and covariance times 1.5 */
enum status cloud_of_members(const struct forecast *f, int members, struct cloud *cloud) MUST_CHECK;

/* cloud_draw - one member out of the cloud, or of the prior.
 *   in   c, draw_1[c->dims], tail_1
 *   out  z_1
 *   ret  nothing
 *   src  multivariate Student-t */
void cloud_draw(const struct cloud *c, const double draw_1[], double tail_1, double z_1[]);

/* cloud_log_density - of the mixture of cloud and prior, relative to the prior's own density.
 *   in   c, z_1
 *   ret  log
 *   src  multivariate Student-t */
double cloud_log_density(const struct cloud *c, const double z_1[]);

/* Members at one moment, all equally likely. */
struct few {
    struct member_out member[FORECAST_FEW];
};

/* report_choose_few - the members that forecast_tick will run.
 *   in   p
 *   in,out  f
 *   ret  nothing
 *   src  systematic sampling, textbook */
void report_choose_few(struct forecast *f, const struct plan *p);

/* report_odd_one - the corner most out of step, of those not set apart yet.
 *   in   p, found
 *   in,out  out  its fit, and residuals of all
 *   ret  dense; -1 when there is none
 *   src  model F4 */
int report_odd_one(const struct plan *p, const struct found *found, struct forecast_out *out);

/* report_fit - how well the best unknowns meet the readings.
 * report_all - quantiles, states and stop readings from the weighted members.
 * report_tick - pressures and states from a few of them.
 *   in   f, p, found, few
 *   in,out  out
 *   ret  nothing
 *   src  model F3, F4 */
void report_fit(const struct plan *p, const struct found *found, struct forecast_out *out);
void report_all(struct forecast *f, const struct plan *p, struct forecast_out *out);
void report_tick(const struct plan *p, const struct few *few, struct forecast_out *out);

#endif
