/* screen_weights.h - axle loads as weighed and the load items on top: on or off, changed, added. */
#ifndef SANDSHOE_TUI_SCREEN_WEIGHTS_H
#define SANDSHOE_TUI_SCREEN_WEIGHTS_H

#include "tui/entry.h"
#include "tui/keymap.h"
#include "tui/outing.h"
#include "tui/widget.h"

struct model;

enum { WEIGHTS_FIELDS = 3 };

struct weights_state {
    struct list list;
    enum { WEIGHTS_LOOK, WEIGHTS_CHANGE, WEIGHTS_ADD } doing;
    int field; /* while adding: words, mass, place */
    struct entry entry[WEIGHTS_FIELDS];
    struct outing before;
    char why[HOST_MESSAGE];
};

void weights_enter(struct model *m);
bool weights_typing(const struct model *m);
void weights_type(struct model *m, int key);
bool weights_act(struct model *m, enum action a, int key);
void weights_render(const struct model *m, struct frame *f, struct rect body);

#endif
