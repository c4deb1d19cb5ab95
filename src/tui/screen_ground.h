/* screen_ground.h - the ground chooser: one letter takes a ground. */
#ifndef SANDSHOE_TUI_SCREEN_GROUND_H
#define SANDSHOE_TUI_SCREEN_GROUND_H

#include "core/ground.h"
#include "tui/keymap.h"
#include "tui/widget.h"

struct model;

struct ground_state {
    struct list list;
};

/* ground_letters - a letter for each ground: the first of its name that is free, for ever the same
 * for the shipped ones; letters that move or leave are not given. 0 where none is left. */
void ground_letters(const struct ground_list *grounds, char letters[GROUND_MAX]);

void ground_enter(struct model *m);
bool ground_act(struct model *m, enum action a, int key);
void ground_render(const struct model *m, struct frame *f, struct rect body);

#endif
