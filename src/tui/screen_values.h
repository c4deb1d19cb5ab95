/* screen_values.h - any value of the rig, changed in place for this session; what is wrong with it
 * stands beside it in the words of a profile check. */
#ifndef SANDSHOE_TUI_SCREEN_VALUES_H
#define SANDSHOE_TUI_SCREEN_VALUES_H

#include "tui/entry.h"
#include "tui/keymap.h"
#include "tui/outing.h"
#include "tui/widget.h"

struct model;

struct values_state {
    int n;
    struct host_value value[HOST_VALUES];
    struct list list;
    enum { VALUES_LOOK, VALUES_FIND, VALUES_CHANGE } doing;
    struct entry entry;
    struct outing before; /* as it was before the value was touched */
    char why[HOST_MESSAGE];
};

void values_enter(struct model *m);
bool values_typing(const struct model *m);
void values_type(struct model *m, int key);
bool values_act(struct model *m, enum action a, int key);
void values_render(const struct model *m, struct frame *f, struct rect body);

#endif
