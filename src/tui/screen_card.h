/* screen_card.h - the glovebox card from here: its size, where it went, the printer when asked. */
#ifndef SANDSHOE_TUI_SCREEN_CARD_H
#define SANDSHOE_TUI_SCREEN_CARD_H

#include "tui/frame.h"
#include "tui/host.h"
#include "tui/keymap.h"

struct model;

struct card_state {
    int size;             /* of those the card comes in */
    char path[HOST_PATH]; /* where it went; "" = not made yet */
    bool failed;
    char said[HOST_MESSAGE];
};

void card_enter(struct model *m);
bool card_act(struct model *m, enum action a, int key);
void card_render(const struct model *m, struct frame *f, struct rect body);

#endif
