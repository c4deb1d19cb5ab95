/* screen.h - a screen: what it is called, which keys it adds, how it answers and how it looks.
 * All screens stand in one table (screens.c); a new one is a row there and a file of its own. */
#ifndef SANDSHOE_TUI_SCREEN_H
#define SANDSHOE_TUI_SCREEN_H

#include "core/caution.h"
#include "tui/frame.h"
#include "tui/keymap.h"

/* Screens fill the body; editors lie over a screen and go back to it. */
enum screen_id {
    SCREEN_NONE,
    SCREEN_QUESTIONS,
    SCREEN_CORNERS,
    SCREEN_FOOTPRINT,
    SCREEN_CLOCK,
    SCREEN_HOOKUPS,
    SCREEN_TRIP,
    SCREEN_WORKING,
    SCREEN_HELP,
    EDITOR_GROUND,
    EDITOR_WEIGHTS,
    EDITOR_AIR,
    EDITOR_SPEED,
    EDITOR_CROSS,
    EDITOR_VALUES,
    EDITOR_RIGS,
    EDITOR_SAVE,
    EDITOR_CARD,
    EDITOR_DANGER,
    EDITOR_RESUME,
    SCREEN_COUNT
};

struct model;

struct screen {
    const char *title;
    enum keymap_context context;
    enum action open;                       /* the session key that opens it; ACT_NONE = no key */
    bool tells_steps;                       /* its steps are an act: DANGER is shown before */
    enum caution_job job;                   /* which act */
    const enum action *footer;              /* keys worth naming; ends in ACT_NONE */
    bool (*typing)(const struct model *m);  /* NULL: never */
    void (*enter)(struct model *m);         /* NULL: nothing to prepare */
    void (*type)(struct model *m, int key); /* a character for the entry */
    bool (*act)(struct model *m, enum action a, int key); /* false: not for this screen */
    void (*render)(const struct model *m, struct frame *f, struct rect body);
};

/* screen_of - the row of a screen; one without render is not there. */
const struct screen *screen_of(enum screen_id id);

/* screen_opened_by - the screen that an action opens, or SCREEN_NONE. */
enum screen_id screen_opened_by(enum action a);

#endif
