/* session.h - what has happened in a timed refill or air-down, told by log events: a pure reducer.
 * The live clock and replay apply the same events to it and so see the same state.
 *
 *   log time      0 ------- 60 ---- 75 -------------- 230 ----- 300
 *   air              on         off        on
 *   open corners     all        all        all            rear
 *   spans         [   1      ][  2  ][       3         ][    4   ]
 *
 * Running time counts spans with air on only. */
#ifndef SANDSHOE_SIM_SESSION_H
#define SANDSHOE_SIM_SESSION_H

#include <stdbool.h>

#include "base/status.h"
#include "base/text.h"
#include "core/refill_log.h"
#include "sim/refill.h"

enum { SESSION_SPANS = 160, SESSION_READINGS = 120 };

/* A stretch of log time in which nothing was switched. */
struct session_span {
    double from_s;  /* log time */
    double lasts_s; /* wall time */
    bool air;       /* the source feeds */
    bool told;      /* a gap: told afterwards, may be taken back */
    unsigned open;  /* corners connected to the line */
};

struct session_reading {
    double at_s;       /* log time */
    double running_s;  /* running time then */
    int span;          /* index of the span that ends at the reading */
    unsigned corners;  /* present corners it was read from */
    double p_gauge_pa; /* true gauge: the rig's gauge offset is taken out */
    bool flowing;
    bool undone;
};

struct session {
    struct refill_in in; /* air system, volumes, ambient; corner targets as set by events */
    bool up;             /* false: airing down */
    enum hookup hookup;
    unsigned present;  /* corners that take part */
    unsigned started;  /* corners with a settled reading before the first air */
    unsigned core_out; /* let down with the valve core out; the others with it in */
    unsigned dropped;  /* disconnected by a drop event */
    unsigned waited;   /* of those: not on the line when they were left out */
    unsigned joined;   /* pairs and single: connected by a join event; 0 = in order */
    double drop_at_s[REFILL_CORNERS]; /* log time; meaningful for dropped corners */
    double drop_running_s[REFILL_CORNERS];
    double start_gauge_pa[REFILL_CORNERS];
    bool air, resting, done;
    double now_s;       /* log time of the last event */
    double first_air_s; /* log time of the first air on; < 0 before it */
    double running_s;   /* up to now_s */
    int n_span, n_reading;
    int first_reading; /* index of the first one after the first air; what is before it stands */
    struct session_span span[SESSION_SPANS];
    struct session_reading reading[SESSION_READINGS];
};

/* session_init - an empty session.
 *   in   in  air system, volumes, ambient, temperatures; targets may be set already
 *   out  s
 *   ret  nothing
 *   src  none: bookkeeping */
void session_init(const struct refill_in *in, struct session *s);

/* session_apply - apply one event.
 *
 *   in   e    times never run backwards
 *   out  s    untouched on error
 *   out  why  what is wrong, when the return is below 0
 *   ret  STATUS_OK; E_DOMAIN (not finite, time runs backwards, a reading of an absent corner, first air
 *        without a start reading, cores of a job up or changed after the first air); E_FULL (too
 *        many events)
 *   src  none: meaning of the log, sandshoe-profile(5)
 */
enum status session_apply(struct session *s, const struct log_event *e,
                          struct text *why) MUST_CHECK;

/* session_running - running time at a log time at or after the last event, s.
 *   in   s, at_s
 *   ret  s
 *   src  none: definition of running time */
double session_running(const struct session *s, double at_s);

/* session_open - the corners that are connected now.
 *   in   s
 *   ret  bits; linked: all of the tow vehicle that are not dropped, then the trailer's axles by its
 *        tail (letting down: all at once); pairs, single: the group in work
 *   src  none: definition of the hook-ups */
unsigned session_open(const struct session *s);

/* session_order - the groups of a hook-up in working order: by falling (target - start), ties front
 * to rear, trailer last.
 *   in   s
 *   out  group  bits of each group, at most REFILL_CORNERS
 *   ret  number of groups
 *   src  none: definition of the hook-ups */
int session_order(const struct session *s, unsigned group[REFILL_CORNERS]);

/* session_last_reading - the latest reading of a corner that was not undone.
 *   in   s, corner (index)
 *   ret  the reading or NULL
 *   src  none: look-up */
const struct session_reading *session_last_reading(const struct session *s, int corner);

/* session_found_low - corners that may have been driven low: an own start reading below 0.8 of the
 * target and more than 5 psi under the axle mate.
 *   in   s
 *   ret  bits
 *   src  29 CFR 1910.177 (80 %), model of the refusals */
unsigned session_found_low(const struct session *s);

#endif
