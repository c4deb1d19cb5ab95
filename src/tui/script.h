/* script.h - a session without a terminal: keys and ticks in, frames out, the same every time.
 *
 *   keys g u Tab      press keys, by the names of the key table
 *   type 1950 kg      type characters
 *   size 60x20        another window
 *   tick 30           30 seconds pass
 *   dump              the frame, text and styles
 *   text              the frame, text alone
 *   # a comment
 */
#ifndef SANDSHOE_TUI_SCRIPT_H
#define SANDSHOE_TUI_SCRIPT_H

#include "tui/loop.h"

struct script {
    const struct loop_client *client; /* its clock is not asked */
    int rows, cols;
    bool ascii;
    int64_t now_ns;
    void (*out)(void *to, const char *text); /* a frame, when one is asked for */
    void *to;
};

/* script_run - feed a script; why names the line that cannot be read.
 *   ret  STATUS_OK; E_SYNTAX; E_MEMORY */
enum status script_run(struct script *s, const char *lines, struct text *why) MUST_CHECK;

/* script_size - read "80x24". */
bool script_size(const char *s, int *cols, int *rows);

#endif
