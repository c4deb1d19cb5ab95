/* screen_danger.h - what can hurt someone, read before the first act of a job. */
#ifndef SANDSHOE_TUI_SCREEN_DANGER_H
#define SANDSHOE_TUI_SCREEN_DANGER_H

#include "tui/frame.h"
#include "tui/keymap.h"
#include "tui/screen.h"

struct danger_state {
    enum screen_id then;      /* where one was going */
    struct caution_list list; /* of the rig, the ground and the act */
};

/* danger_ahead - gather the cautions of the act that a screen tells the steps of; true when a
 * danger among them was not acknowledged in this job. */
bool danger_ahead(struct model *m, enum screen_id then);

bool danger_act(struct model *m, enum action a, int key);
void danger_render(const struct model *m, struct frame *f, struct rect body);

#endif
