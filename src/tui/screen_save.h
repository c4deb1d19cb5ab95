/* screen_save.h - the rig with its changes into a file: a new one, or an old one when confirmed. */
#ifndef SANDSHOE_TUI_SCREEN_SAVE_H
#define SANDSHOE_TUI_SCREEN_SAVE_H

#include "tui/entry.h"
#include "tui/keymap.h"

struct model;

struct save_state {
    struct entry name;
    bool confirming; /* there is a file of that name */
    char why[200];
};

void save_enter(struct model *m);
bool save_typing(const struct model *m);
void save_type(struct model *m, int key);
bool save_act(struct model *m, enum action a, int key);
void save_render(const struct model *m, struct frame *f, struct rect body);

#endif
