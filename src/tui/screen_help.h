/* screen_help.h - all keys, from the key table; all cautions, from theirs; whose word goes first. */
#ifndef SANDSHOE_TUI_SCREEN_HELP_H
#define SANDSHOE_TUI_SCREEN_HELP_H

#include "tui/keymap.h"
#include "tui/widget.h"

struct model;

struct help_state {
    struct list list;
    bool cautions; /* entered for the cautions, not for the keys */
};

bool help_act(struct model *m, enum action a, int key);
void help_render(const struct model *m, struct frame *f, struct rect body);

#endif
