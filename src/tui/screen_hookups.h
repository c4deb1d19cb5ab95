/* screen_hookups.h - minutes back up, hook-up beside hook-up; the steps in order; what would save
 * time. */
#ifndef SANDSHOE_TUI_SCREEN_HOOKUPS_H
#define SANDSHOE_TUI_SCREEN_HOOKUPS_H

#include "core/rig.h"
#include "tui/frame.h"
#include "tui/keymap.h"

struct model;

struct hookups_state {
    enum hookup picked;
    int top; /* first step in sight */
};

void hookups_enter(struct model *m);
bool hookups_act(struct model *m, enum action a, int key);
void hookups_render(const struct model *m, struct frame *f, struct rect body);

#endif
