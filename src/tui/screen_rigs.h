/* screen_rigs.h - the rigs on the search path. */
#ifndef SANDSHOE_TUI_SCREEN_RIGS_H
#define SANDSHOE_TUI_SCREEN_RIGS_H

#include "tui/host.h"
#include "tui/keymap.h"
#include "tui/widget.h"

struct model;

struct rigs_state {
    int n;
    struct host_rig rig[HOST_RIGS];
    struct list list;
    char why[HOST_MESSAGE];
};

void rigs_enter(struct model *m);
bool rigs_act(struct model *m, enum action a, int key);
void rigs_render(const struct model *m, struct frame *f, struct rect body);

#endif
