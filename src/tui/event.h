/* event.h - everything that can happen to the session.  Time is an event too: nothing here or
 * below ever asks a clock. */
#ifndef SANDSHOE_TUI_EVENT_H
#define SANDSHOE_TUI_EVENT_H

#include <stdint.h>

/* Keys that are not characters lie above every code point. */
enum key {
    TKEY_CTRL_C = 3,
    TKEY_BACKSPACE = 8,
    TKEY_TAB = 9,
    TKEY_CTRL_L = 12,
    TKEY_ENTER = 13,
    TKEY_CTRL_U = 21,
    TKEY_ESC = 27,
    TKEY_SPACE = 32,
    TKEY_UP = 0x110000,
    TKEY_DOWN,
    TKEY_LEFT,
    TKEY_RIGHT,
    TKEY_BACKTAB,
    TKEY_HOME,
    TKEY_END,
    TKEY_PAGE_UP,
    TKEY_PAGE_DOWN,
    TKEY_F2,
    TKEY_F3,
    TKEY_OTHER
};

enum event_kind { EVENT_KEY, EVENT_RESIZE, EVENT_TICK, EVENT_SIGNAL, EVENT_SAVE };

enum event_signal { EVENT_STOP, EVENT_INTERRUPT, EVENT_TERMINATE, EVENT_HANGUP };

struct event {
    enum event_kind kind;
    int64_t now_ns; /* every event carries its time */
    int key;        /* EVENT_KEY: a code point or enum key */
    int rows, cols; /* EVENT_RESIZE */
    enum event_signal signal;
};

/* What the loop has to do after an event. */
enum effect {
    EFFECT_NONE = 0,
    EFFECT_REDRAW = 1,
    EFFECT_BEEP = 2,
    EFFECT_REPAINT = 4, /* the terminal's content is in doubt: write it all anew */
    EFFECT_SUSPEND = 8,
    EFFECT_QUIT = 16,
    EFFECT_SAVE = 32 /* show the frame, then send EVENT_SAVE */
};

#endif
