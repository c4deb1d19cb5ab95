/* model.h - the session as a pure state: events change it, frames show it.
 *
 *   event -> model_update -> effects for the loop
 *   model -> model_render -> frame
 */
#ifndef SANDSHOE_TUI_MODEL_H
#define SANDSHOE_TUI_MODEL_H

#include "core/working.h"
#include "tui/event.h"
#include "tui/loop.h"
#include "tui/outing.h"
#include "tui/screen.h"
#include "tui/screen_states.h"

enum { MODEL_ROWS_MIN = 20, MODEL_COLS_MIN = 60, MODEL_MESSAGE = 200 };

struct model {
    const struct session_host *host;
    const struct ground_list *grounds;
    int rows, cols;
    int64_t now_ns;
    enum screen_id screen; /* what fills the body */
    enum screen_id editor; /* lies over it; SCREEN_NONE = none */
    enum screen_id before; /* where back leads to from the screen */
    struct outing outing;
    struct results results;
    struct working working;
    struct undo_list undo;
    enum axle_id axle; /* the corner picked */
    enum side side;
    bool acknowledged[CAUTION_COUNT]; /* dangers read and heeded in this job */
    char message[MODEL_MESSAGE];      /* what the last key did; gone with the next one */
    enum style message_style;
    bool leaving;     /* the last key asked to leave with changes that are not saved */
    bool keep_ground; /* the ground is to be remembered for the next start */
    bool dirty;       /* the outing changed: compute before the frame */
    int effects;
    struct screen_states at; /* one sub-state a screen */
};

/* What a session starts from. */
struct model_start {
    const struct session_host *host;
    const struct ground_list *grounds; /* outlives the model */
    struct rig_source source;          /* SOURCE_NONE: the three questions */
    int n_edit;
    const struct rig_edit *edit;  /* changes on top of the source, not saved */
    struct conditions conditions; /* as given on the command line */
    bool has_units;
    enum unit_system units;
    const char *ground; /* section name asked for; NULL or "" = the last one used */
};

/* model_init - a session as it starts.
 *
 *   in   start
 *   out  m       some 500 kB, the caller's
 *   out  report  why the rig cannot be loaded
 *   ret  STATUS_OK; E_MISSING (the rig was not loaded: the report says why; m asks the three
 *        questions); E_UNKNOWN (no such ground) */
enum status model_init(const struct model_start *start, struct model *m,
                       struct load_report *report) MUST_CHECK;

/* model_update - one event; returns enum effect flags. */
int model_update(struct model *m, const struct event *e);

/* model_render - the frame of the state; any frame size. */
void model_render(const struct model *m, struct frame *f);

/* model_next_change - instant of the next change that comes by itself, ns; < 0 none. */
int64_t model_next_change(const struct model *m);

/* model_client - the same four functions for the loop and for scripts; now_ns is the caller's. */
struct loop_client model_client(struct model *m, int64_t (*now_ns)(void));

/* For screens */

/* model_say - the line under the body, until the next key. */
void model_say(struct model *m, enum style style, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* model_changed - note a change for undo (before: the outing as it was) and compute anew. */
void model_changed(struct model *m, const struct outing *before, const char *format, ...)
    __attribute__((format(printf, 3, 4)));

/* model_go - to a screen; by way of the dangers when it tells steps. */
void model_go(struct model *m, enum screen_id screen);

/* model_edit - open an editor over the screen; model_leave - close it. */
void model_edit(struct model *m, enum screen_id editor);
void model_leave(struct model *m);

/* model_ground - take a ground of the catalogue. */
void model_ground(struct model *m, int ground);

/* model_open - take a rig; false: the report says why not. */
bool model_open(struct model *m, const struct rig_source *source, struct load_report *report);

/* model_undo - take the last change back; true: the key had its use. */
bool model_undo(struct model *m);

/* model_units - the pressure unit shown. */
enum unit_system model_units(const struct model *m);

#endif
