/* screen_form.h - small forms over the day's circumstances: temperatures and height, speed asked,
 * side slope.  What is typed counts at once; Esc brings the old values back. */
#ifndef SANDSHOE_TUI_SCREEN_FORM_H
#define SANDSHOE_TUI_SCREEN_FORM_H

#include "tui/entry.h"
#include "tui/keymap.h"
#include "tui/outing.h"

struct model;

enum { FORM_FIELDS = 3 };

struct form_state {
    int at; /* the field typed in */
    struct entry entry[FORM_FIELDS];
    char why[FORM_FIELDS][ENTRY_TEXT]; /* what is wrong beside the field */
    struct outing before;
};

void form_enter(struct model *m);
bool form_typing(const struct model *m);
void form_type(struct model *m, int key);
bool form_act(struct model *m, enum action a, int key);
void form_render(const struct model *m, struct frame *f, struct rect body);

#endif
