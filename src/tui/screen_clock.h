/* screen_clock.h - the air clock: timed air-down and air-up, told by the gauge, saved as it goes. */
#ifndef SANDSHOE_TUI_SCREEN_CLOCK_H
#define SANDSHOE_TUI_SCREEN_CLOCK_H

#include <stdint.h>

#include "tui/clock_ask.h"
#include "tui/clock_job.h"
#include "tui/entry.h"
#include "tui/event.h"
#include "tui/frame.h"
#include "tui/host.h"
#include "tui/keymap.h"

struct model;

struct clock_state {
    struct clock_job job;
    struct clock_limits limits[REFILL_CORNERS];
    bool turned, up;           /* the direction was chosen by key; which */
    bool all;                  /* every corner is picked, not the model's one */
    struct entry entry;        /* digits typed */
    bool flowing, flowing_set; /* the reading is taken while air flows; chosen by key */
    struct clock_question ask;
    unsigned low_asked;
    bool down_asked, weak_asked;
    bool starting; /* Space was pressed and dangers are being read */
    bool muted;
    int64_t bell_ns;  /* of the last bell */
    unsigned heeded;  /* corners out of step that were looked at */
    double read_s;    /* the stop whose call to read was acknowledged */
    int64_t seen_ns;  /* of the last event: a hole behind it is shown */
    int64_t retry_ns; /* when to try the disk again */
    bool log_open;
    bool learned; /* lesson holds what the refill taught */
    struct forecast_learned lesson;
    bool resuming;         /* the record left is taken in when the rig is computed */
    bool resumed;          /* the job goes on in the file that was left */
    bool anew;             /* prepared from a record whose gap is unknown */
    struct host_left left; /* an unfinished record of an earlier session */
};

void clock_enter(struct model *m);
bool clock_typing(const struct model *m);
void clock_type(struct model *m, int key);
bool clock_act(struct model *m, enum action a, int key);
void clock_render(const struct model *m, struct frame *f, struct rect body);

/* clock_follow - a job not begun follows the rig, the ground and the day. */
void clock_follow(struct model *m);

/* clock_tick - time has passed; clock_save - what was committed goes to disk and into the forecast. */
void clock_tick(struct model *m);
void clock_save(struct model *m);

/* clock_next_change - instant of the next change that comes by itself; < 0 none. */
int64_t clock_next_change(const struct model *m);

/* clock_flows - air is on in a job. */
bool clock_flows(const struct model *m);

/* clock_prompt_of - what the driver has to do now; clock_call_words - in words, for every
 * screen; false: nothing. */
struct clock_prompt clock_prompt_of(const struct model *m);
bool clock_call_words(const struct model *m, struct text *out);

/* clock_corners_put - a selection by name; "all" when it is. */
void clock_corners_put(const struct model *m, unsigned corners, struct text *out);

/* clock_flash - whether a call shows in reverse at this moment. */
bool clock_flash(const struct model *m);

/* Parts of the clock that lie in files of their own */

/* clock_commit - one event: applied, shown, saved after the frame. false: refused, and said. */
bool clock_commit(struct model *m, struct log_event e);

/* clock_start - air on, by way of all that has to be asked before; clock_answer - a question's yes
 * or no. */
void clock_start(struct model *m);
void clock_answer(struct model *m, bool yes);

/* clock_begin - open the record of the job prepared; false: said why not. */
bool clock_begin(struct model *m);

/* clock_new_targets - whether the ground and day of now have other targets than the job was begun
 * with and has; clock_take_targets - take them; false: there are none. */
bool clock_new_targets(const struct model *m, double target_gauge_pa[REFILL_CORNERS]);
bool clock_take_targets(struct model *m);

/* clock_reading - the digits typed as a reading of the corners picked. */
void clock_reading(struct model *m);

/* clock_heed - do what the prompt asks for. */
void clock_heed(struct model *m);

/* clock_finish - the job is done: learn from it. */
void clock_finish(struct model *m);

/* clock_picked - corners picked; clock_now_s - log time of the model's instant. */
unsigned clock_picked(const struct model *m);
double clock_now_s(const struct model *m);

#endif
