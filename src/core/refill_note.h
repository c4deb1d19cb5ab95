/* refill_note.h - notes in a refill log that a reader needs to see the same numbers: the day, the
 * rig's changes and what was believed of the source. Any other note is for people.
 *
 *   0 note air 24 C               0 note prior -0.21 0.12 3
 *   0 note tyres 31 C             0 note set air.hose_bore 8 mm
 *   0 note height 1200 m          0 note found low: rear-right
 *   9 note taken back 2           the next two events undo the last act that was left */
#ifndef SANDSHOE_CORE_REFILL_NOTE_H
#define SANDSHOE_CORE_REFILL_NOTE_H

#include <stdbool.h>

#include "base/num.h"
#include "core/refill_log.h"

/* Neither the log of a ratio nor its spread is ever larger: a machine of 1/150 or 150 times its
 * label is a slip of the pen. */
#define NOTE_RATIO_LOG_MOST_1 5.0

enum refill_note_kind {
    NOTE_WORDS,  /* for people */
    NOTE_AIR,    /* si: K */
    NOTE_TYRES,  /* si: K */
    NOTE_HEIGHT, /* si: m */
    NOTE_PRIOR,  /* delivery over volume, relative to the profile's: log mean, log sd, refills */
    NOTE_SET,    /* key, value: a change of the rig that is in no file */
    NOTE_LOW,    /* corners: found low, so no air for them in this job */
    NOTE_BACK    /* events: so many that follow take the last act back */
};

struct refill_note {
    enum refill_note_kind kind;
    double si;
    double log_mean_1, log_sd_1;
    int refills;
    unsigned corners;
    int events;
    char key[48], value[80];
};

/* refill_note_read - what a note says.
 *   in   text  of a NOTE event
 *   ret  the note; NOTE_WORDS for any text that is none of the forms
 *   src  none: format of this program */
struct refill_note refill_note_read(const char *text);

/* refill_note_put - append a note's text; refill_note_read gives it back.
 *   in   n
 *   out  out  text
 *   ret  nothing
 *   src  none: format of this program */
void refill_note_put(const struct refill_note *n, struct text *out);

#endif
