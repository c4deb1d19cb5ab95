/* refill_log.h - one line of a refill log: text to event and back. The journal of a live session
 * and a hand-written file are the same language:
 *
 *   TIME WORD ARGUMENTS   [# comment]
 *   60   read all 19 psi settled
 */
#ifndef SANDSHOE_CORE_REFILL_LOG_H
#define SANDSHOE_CORE_REFILL_LOG_H

#include <stdbool.h>

#include "base/status.h"
#include "base/text.h"
#include "base/units.h"
#include "core/rig.h"

#define REFILL_LOG_HEAD "# sandshoe refill log 1"

enum { LOG_CORNERS = AXLE_COUNT * SIDE_COUNT, LOG_TEXT = 256, LOG_LINE = 512 };

/* bit of a corner in a selection; LOG_ALL selects every corner there is */
#define LOG_CORNER_BIT(axle, side) (1U << ((unsigned)(axle)*SIDE_COUNT + (unsigned)(side)))
#define LOG_AXLE_BITS(axle)        (3U << ((unsigned)(axle)*SIDE_COUNT))
#define LOG_ALL                    ((1U << LOG_CORNERS) - 1U)

enum log_word {
    LOG_STARTED, /* started WALLTIME boot ID */
    LOG_CLOCK,   /* clock WALLTIME: a resume */
    LOG_RIG,     /* rig PATH */
    LOG_JOB,     /* job up | job down [core-in | core-out] */
    LOG_CORE,    /* core [CORNER] in | core [CORNER] out: the valves of a job down */
    LOG_HOOKUP,  /* hookup linked */
    LOG_TARGET,  /* target CORNER PRESSURE */
    LOG_READ,    /* read CORNER PRESSURE settled|flowing */
    LOG_AIR,     /* air on | air off */
    LOG_DROP,    /* drop CORNER: disconnected */
    LOG_JOIN,    /* join CORNER: connected again */
    LOG_REST,
    LOG_RESUME,
    LOG_UNDO, /* takes back the last reading; undo gap: the last gap */
    LOG_NOTE,
    LOG_GAP, /* gap SECONDS: air flowed that long while nothing was recorded */
    LOG_DONE,
    LOG_WORD_COUNT
};

/* One event. Which fields count is said beside the word above. */
struct log_event {
    double at_s;
    double p_gauge_pa; /* TARGET READ: as the gauge showed it */
    double gap_s;      /* GAP */
    enum log_word word;
    unsigned corners; /* CORE TARGET READ DROP JOIN */
    enum log_core {
        LOG_CORE_AS_RIG,
        LOG_CORE_IN,
        LOG_CORE_OUT
    } core;                /* CORE; JOB down: the valves, when it says so */
    enum hookup hookup;    /* HOOKUP */
    enum unit_system unit; /* TARGET READ: the unit as written */
    bool flowing;          /* READ: from the line while air flows */
    bool on;               /* AIR on; JOB up; UNDO of a gap */
    char text[LOG_TEXT];   /* RIG path, NOTE text, STARTED and CLOCK wall time */
    char boot[48];         /* STARTED */
};

/* refill_log_parse - read one line.
 *
 *   in   line  without newline and checksum; comments and blank lines are E_MISSING
 *   out  e     untouched on error
 *   out  why   what is wrong, for the reader, when the return is below 0 and not E_MISSING
 *   ret  STATUS_OK; E_MISSING (nothing on this line); E_SYNTAX; E_UNKNOWN (word, corner);
 *        E_UNIT_MISSING and the other statuses of units_parse; E_DOMAIN (time, pressure)
 *   src  none: format of this program, sandshoe-profile(5)
 */
enum status refill_log_parse(const char *line, struct log_event *e, struct text *why) MUST_CHECK;

/* refill_log_put - append the line of an event, without newline; parse gives the event back.
 *   in   e
 *   out  out  text
 *   ret  nothing
 *   src  none: format of this program */
void refill_log_put(const struct log_event *e, struct text *out);

/* refill_log_corners - a selection by name: all, an axle, a corner.
 *   in   name
 *   out  corners  bits; untouched on error
 *   ret  STATUS_OK; E_UNKNOWN
 *   src  none: definition */
enum status refill_log_corners(const char *name, unsigned *corners) MUST_CHECK;

/* refill_log_corners_put - append the shortest names of a selection, blank between.
 *   in   corners
 *   out  out  text
 *   ret  nothing
 *   src  none: definition */
void refill_log_corners_put(unsigned corners, struct text *out);

#endif
