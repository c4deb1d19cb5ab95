/* host.h - what the session needs from outside: files.  The application fills this in; tests give
 * a small one of their own.  Callbacks return at once and keep no pointer they are given. */
#ifndef SANDSHOE_TUI_HOST_H
#define SANDSHOE_TUI_HOST_H

#include <stdbool.h>

#include "base/text.h"
#include "core/advice.h"
#include "core/ground.h"
#include "core/refill_log.h"
#include "core/rig.h"
#include "core/trip_plan.h"
#include "sim/forecast.h"

enum {
    HOST_PATH = 512,
    HOST_KEY = 48,
    HOST_VALUE = 80,
    HOST_RIGS = 64,
    HOST_TRIPS = 32,
    HOST_VALUES = 200,
    HOST_MESSAGE = 400,
    HOST_ASSUMED = 12
};

/* Where a rig comes from: a file, or the three answers as they were typed. */
struct rig_source {
    enum { SOURCE_NONE, SOURCE_FILE, SOURCE_QUICK } kind;
    char path[HOST_PATH];
    char tyre[HOST_VALUE], front[HOST_VALUE], rear[HOST_VALUE];
    enum unit_system units; /* of the three answers: targets go in steps of this gauge */
};

/* A change on top of the source, as a line of a profile: "front.axle_load", "2100 kg". */
struct rig_edit {
    char key[HOST_KEY];
    char value[HOST_VALUE];
};

/* A rig on the search path. */
struct host_rig {
    char name[RIG_NAME], load_state[RIG_NAME], path[HOST_PATH];
};

/* A trip on the search path. */
struct host_trip {
    char name[RIG_NAME], rig[RIG_NAME], path[HOST_PATH];
};

/* One value of the rig as a profile would write it; help says what it means and which values go. */
struct host_value {
    char key[HOST_KEY];
    char value[HOST_VALUE]; /* "" = not given */
    char help[160];
};

/* What loading said. */
struct load_report {
    int field; /* of the three answers: 0 tyre, 1 front, 2 rear; -1 = none of them */
    char message[HOST_MESSAGE]; /* the mistakes, as for a file; lines end in newlines */
    int n_assumed;
    char assumed[HOST_ASSUMED][96];
};

enum host_saved { HOST_SAVED, HOST_EXISTS, HOST_FAILED };

/* An unfinished record of an earlier session. */
struct host_left {
    bool is;
    char path[HOST_PATH];
    bool torn;     /* its last line was cut off and is left out */
    int n;         /* events, in the caller's array */
    double now_s;  /* log time now, were the record going on */
    bool doubtful; /* the calendar went back: how long it was is unknown */
};

struct session_host {
    void *self;

    /* load - the rig of a source with changes on top, validated as a file is; false: rig is
     * untouched and the report says why. */
    bool (*load)(void *self, const struct rig_source *source, int n, const struct rig_edit edits[],
                 struct rig *rig, struct load_report *report);

    /* rigs - those on the search path; returns how many, at most max. */
    int (*rigs)(void *self, int max, struct host_rig out[]);

    /* trips - those on the search path; returns how many, at most max. trip - one of them, its
     * grounds all known; false: trip is untouched and the report says why. */
    int (*trips)(void *self, int max, struct host_trip out[]);
    bool (*trip)(void *self, const char *path, struct trip *trip, struct load_report *report);

    /* trip_card - the card of a trip with the rig as it stands, as card. */
    bool (*trip_card)(void *self, const struct rig *rig, const struct trip *trip,
                      enum unit_system u, char path[HOST_PATH], struct text *message);

    /* values - every key that the rig has or may have, in file order, with the changes on top;
     * returns how many, at most max. */
    int (*values)(void *self, const struct rig_source *source, int n, const struct rig_edit edits[],
                  int max, struct host_value out[]);

    /* mass_section - the section that holds the rig's i-th load item, "mass-2"; beyond the last one
     * a section that is still free. */
    void (*mass_section)(void *self, const struct rig_source *source, int n,
                         const struct rig_edit edits[], int i, char section[HOST_KEY]);

    /* save - write source and changes as a profile called name; HOST_EXISTS unless overwrite when
     * there is one; path is where it went, message the reason of a failure. */
    enum host_saved (*save)(void *self, const struct rig_source *source, int n,
                            const struct rig_edit edits[], const char *name, bool overwrite,
                            char path[HOST_PATH], struct text *message);

    /* card - the glovebox card of the rig as it stands, as a PDF; size is "3x5", "a6" or "quarter";
     * path is where it went. */
    bool (*card)(void *self, const struct rig *rig, const struct conditions *day,
                 enum unit_system u, const char *size, char path[HOST_PATH], struct text *message);

    /* print - hand a file to the printer command; message says what came of it. */
    bool (*print)(void *self, const char *path, struct text *message);

    /* last_ground - the ground last used with a rig; false when none is known. */
    bool (*last_ground)(void *self, const struct rig *rig, char name[GROUND_NAME]);

    /* used_ground - keep it for the next start; failures are none of the session's business. */
    void (*used_ground)(void *self, const struct rig *rig, const char *name);

    /* The record of a timed job; all NULL when none is kept. */

    /* log_stamp - calendar and boot of a STARTED or CLOCK event. */
    void (*log_stamp)(void *self, struct log_event *e);

    /* log_rig - what names a rig's file from every folder: its whole path, where that is too long
     * its bare name. */
    void (*log_rig)(void *self, const char *path, char name[LOG_TEXT]);

    /* log_begin - a new file for a rig; log_append - an event, on disk when it returns true;
     * log_end - close it. */
    bool (*log_begin)(void *self, const struct rig *rig, bool up, struct text *why);
    bool (*log_append)(void *self, const struct log_event *e, struct text *why);
    void (*log_end)(void *self);

    /* log_left - the latest record when it is unfinished and nobody is at it; its events. */
    bool (*log_left)(void *self, int max, struct log_event event[], struct host_left *left);

    /* log_resume - go on with it. */
    bool (*log_resume)(void *self, const struct host_left *left, struct text *why);

    /* let_down - the last finished job with this rig in which air flowed was an air-down. */
    bool (*let_down)(void *self, const struct rig *rig);

    /* prior - what earlier refills with a rig's air system taught; learn - keep what one taught;
     * forget - all of it. */
    struct forecast_prior (*prior)(void *self, const struct rig *rig, double temp_k,
                                   double ambient_abs_pa);
    bool (*learn)(void *self, const struct rig *rig, const struct forecast_learned *lesson);
    bool (*forget)(void *self, const struct rig *rig);
};

#endif
