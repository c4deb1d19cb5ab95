/* loop.h - the session on a terminal: waits for keys, signals and the next visible change, feeds
 * the model, shows its frames. */
#ifndef SANDSHOE_TUI_LOOP_H
#define SANDSHOE_TUI_LOOP_H

#include <stdint.h>

#include "base/text.h"
#include "tui/event.h"
#include "tui/frame.h"

/* What the loop drives: a model seen through four functions, so that the loop is tested with a
 * small one. */
struct loop_client {
    void *self;
    int (*update)(void *self, const struct event *e); /* returns enum effect flags */
    void (*render)(const void *self, struct frame *f);
    int64_t (*next_change_ns)(const void *self); /* instant of the next visible change; < 0 none */
    int64_t (*now_ns)(void);
};

/* loop_run - run until EFFECT_QUIT or a signal that ends the session; the terminal is put back.
 *
 *   in   c, colour, ascii
 *   out  why  what went wrong, in words
 *   ret  STATUS_OK; E_MISSING (no terminal); E_SYSTEM (terminal unusable, or no pipe); E_MEMORY */
enum status loop_run(const struct loop_client *c, bool colour, bool ascii,
                     struct text *why) MUST_CHECK;

#endif
