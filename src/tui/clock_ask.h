/* clock_ask.h - what is asked before it counts: readings that look wrong, tyres found low, a source
 * too weak, a gap in the record. */
#ifndef SANDSHOE_TUI_CLOCK_ASK_H
#define SANDSHOE_TUI_CLOCK_ASK_H

#include "tui/clock_job.h"

enum clock_ask {
    ASK_NOTHING,
    ASK_KEEP,   /* a reading that looks wrong */
    ASK_LOW,    /* was this corner found low? */
    ASK_DOWN,   /* no air-down is on record: did you let them down yourself? */
    ASK_WEAK,   /* the source does not reach the target: start all the same? */
    ASK_GAP,    /* did air flow while nobody recorded? */
    ASK_LONG,   /* more air than the tyres take: told so all the same? */
    ASK_FORGET, /* forget what was learned of the source? */
    ASK_END     /* end the job while air flows? */
};

struct clock_question {
    enum clock_ask kind;
    struct log_event event; /* KEEP: stored on yes; LONG: the gap told, on: air flows still */
    unsigned corners;       /* LOW */
    char words[240];
};

/* What a corner may read. */
struct clock_limits {
    double max_gauge_pa;   /* moulded; 0 = unknown */
    double floor_gauge_pa; /* of the ground it stands on; 0 = none */
    double least_gauge_pa; /* a target below it is refused */
};

/* clock_doubt - whether a reading has to be asked about; words say what is odd.
 *
 *   in   j       before the reading
 *   in   limits  of each corner
 *   in   e       a READ event in unit u
 */
bool clock_doubt(const struct clock_job *j, const struct clock_limits limits[REFILL_CORNERS],
                 const struct log_event *e, enum unit_system u, struct text *words);

#endif
