/* screen_working.h - the working: every number with its equation, inputs, source and standing. */
#ifndef SANDSHOE_TUI_SCREEN_WORKING_H
#define SANDSHOE_TUI_SCREEN_WORKING_H

#include "tui/entry.h"
#include "tui/keymap.h"
#include "tui/widget.h"

struct model;

struct working_state {
    struct list list; /* rows of the working */
    bool searching;   /* the words are being typed */
    struct entry words;
};

/* working_fill - the rows behind the screen one came from: all, or those of the axle picked. */
void working_fill(struct model *m);

void working_enter(struct model *m);
bool working_typing(const struct model *m);
void working_type(struct model *m, int key);
bool working_act(struct model *m, enum action a, int key);
void working_render(const struct model *m, struct frame *f, struct rect body);

#endif
