/* clock_job.h - a timed refill or air-down as it goes: what happened, what follows, what to do next.
 * No screen and no file: events in, state out.
 *
 *   key -> log event -> session (reducer) -> forecast
 *                   \-> list of events, of which the first n_saved are on disk
 *
 * Time is that of the log: seconds since the record was opened, from two instants and never summed. */
#ifndef SANDSHOE_TUI_CLOCK_JOB_H
#define SANDSHOE_TUI_CLOCK_JOB_H

#include <stdint.h>

#include "core/refill_log.h"
#include "sim/forecast.h"

enum { CLOCK_EVENTS = 400, CLOCK_ACTS = 160, CLOCK_WHY = 160 };

#define CLOCK_SETTLE_S 20.0 /* from stop to a settled reading, 15..30 s; practice of the trade */

/* One committed act that can be taken back. */
struct clock_act {
    enum log_word word; /* READ DROP TARGET HOOKUP CORE GAP */
    unsigned corners;
    double p_gauge_pa; /* READ */
    double gap_s;      /* GAP */
    enum unit_system unit;
    enum hookup hookup; /* before the change */
    unsigned core_out, joined;
    bool air; /* DROP: it stopped the air as well */
    double target_gauge_pa[REFILL_CORNERS];
};

enum clock_saving { CLOCK_SAVED, CLOCK_TO_SAVE, CLOCK_UNSAVED };

struct clock_job {
    bool begun; /* the record is open */
    int64_t zero_ns;
    struct session session;
    double run_time_s, rest_time_s; /* of the label; rest 0 = continuous */
    struct forecast_prior prior;
    struct forecast forecast;
    bool drawn; /* the forecast's random numbers are there */
    bool stale; /* an event is not in the forecast yet */
    bool known; /* out tells something */
    struct forecast_out out;
    double stop_s[REFILL_CORNERS]; /* when air last stopped in it; < 0 = flows, or never did */
    double rest_from_s;
    int n_event, n_saved;
    struct log_event event[CLOCK_EVENTS];
    enum clock_saving saving;
    char why_unsaved[CLOCK_WHY];
    unsigned low;  /* found low: no air for them in this job */
    unsigned told; /* targets told: the head of a record ends with the last of them */
    int back;      /* events still to come of an undo at back_s */
    double back_s;
    int n_act;
    struct clock_act act[CLOCK_ACTS];
};

/* What the driver has to do now. */
enum clock_call {
    CALL_NONE,
    CALL_CHECK,     /* a corner is out of step */
    CALL_DROP,      /* take these corners off the line, or close their valves */
    CALL_STOP,      /* all that are left are at target, or none is on the line: stop the air */
    CALL_REST,      /* the compressor is due its rest */
    CALL_REST_OVER, /* go on */
    CALL_READ,      /* air is settled: read the gauge */
    CALL_END        /* nothing is left to fill: end the job; corners fell short of their target */
};

struct clock_prompt {
    enum clock_call call;
    unsigned corners;
};

/* clock_job_prepare - a job not begun: what it would start from. */
void clock_job_prepare(struct clock_job *j, const struct refill_in *in, bool up,
                       enum hookup hookup);

/* clock_job_time - log time of an instant, to the millisecond as the log writes it; never before
 * the last event. */
double clock_job_time(const struct clock_job *j, int64_t now_ns);

/* clock_job_apply - one event into session and list, as the log will give it back.
 *   ret  STATUS_OK; as session_apply; E_FULL; the job is untouched on error and why says why */
enum status clock_job_apply(struct clock_job *j, struct log_event e, struct text *why) MUST_CHECK;

/* clock_job_undo - take the last act back; what says which. E_MISSING: there is none. */
enum status clock_job_undo(struct clock_job *j, double now_s, enum unit_system u,
                           struct text *what) MUST_CHECK;

/* clock_job_forecast - bring the forecast up to the last event; clock_job_tick - to a later time. */
void clock_job_forecast(struct clock_job *j, double now_s);
void clock_job_tick(struct clock_job *j, double now_s);

/* clock_run_used - running time that counts against the label's duty: a rest of rest_time clears it,
 * a shorter pause its part. */
double clock_run_used(const struct clock_job *j, double now_s);

/* clock_note_stop - after an event: the corners that air stopped flowing in by it. */
void clock_note_stop(struct clock_job *j, const struct session *before, double at_s);

/* clock_reading_since - the settled reading of a corner since air stopped in it; NULL: none. */
const struct session_reading *clock_reading_since(const struct clock_job *j, int i);

/* clock_settle_left - seconds until a reading of these corners is a settled one; 0 when it is. */
double clock_settle_left(const struct clock_job *j, unsigned corners, double now_s);

/* clock_unread - corners that air stopped in and that were not read since, settled or not yet;
 * clock_read_due - those that have settled and stopped after read_s, the stop whose call to read was
 * acknowledged; clock_reached - corners at their target by their last reading since the stop, without
 * one by the forecast; clock_left_out - taken off before the first air. All bits. */
unsigned clock_unread(const struct clock_job *j);
unsigned clock_read_due(const struct clock_job *j, double now_s, double read_s);
unsigned clock_reached(const struct clock_job *j);
unsigned clock_left_out(const struct session *s);

/* clock_rest_left - seconds of rest still due; 0 when not resting. */
double clock_rest_left(const struct clock_job *j, double now_s);

/* clock_elapsed - wall time since the first air; clock_remaining - expected wall time to the end with
 * the rests that fall in it, INFINITY when it does not get there, < 0 when unknown. */
double clock_elapsed(const struct clock_job *j, double now_s);
double clock_remaining(const struct clock_job *j, double now_s);

/* clock_job_prompt - what is to be done now; heeded are the corners whose check was acknowledged,
 * read_s the stop whose call to read was. */
struct clock_prompt clock_job_prompt(const struct clock_job *j, double now_s, unsigned heeded,
                                     double read_s);

#endif
