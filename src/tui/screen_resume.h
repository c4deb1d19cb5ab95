/* screen_resume.h - an unfinished record of an earlier session: go on with it or close it. */
#ifndef SANDSHOE_TUI_SCREEN_RESUME_H
#define SANDSHOE_TUI_SCREEN_RESUME_H

#include "tui/frame.h"
#include "tui/keymap.h"

struct log_event;
struct model;

/* resume_offer - look for one at the start; opens the editor when there is one. */
void resume_offer(struct model *m);

/* resume_replay - the job prepared takes in the record's events; called when the rig is loaded. */
void resume_replay(struct model *m);

/* resume_gap - the time nobody recorded: air flowed for flowed_s of it and flows still or not.
 * resume_anew - unknown: the record is closed and the corners are read anew. */
void resume_gap(struct model *m, double flowed_s, bool flows);
void resume_anew(struct model *m);

/* resume_told - the same as the driver tells it: more air than the tyres take is asked about first.
 * resume_told_again - the answer to that; no: the gap is asked about once more. */
void resume_told(struct model *m, double flowed_s, bool flows);
void resume_told_again(struct model *m, const struct log_event *gap, bool yes);

/* resume_gap_s - its length up to now. */
double resume_gap_s(const struct model *m);

bool resume_act(struct model *m, enum action a, int key);
void resume_render(const struct model *m, struct frame *f, struct rect body);

#endif
