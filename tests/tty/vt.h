/* vt.h - the program on a terminal line of its own, seen through a terminal emulator.
 *
 *   test <-- pipes --> keeper (session leader, as a shell is) --> sandshoe
 *     \______ pty master: bytes in and out, a screen of cells ______/
 *
 * The keeper starts the program in the foreground, tells when it stops or ends, and continues it.
 * Every wait is for a condition, with a deadline. */
#ifndef SANDSHOE_TESTS_VT_H
#define SANDSHOE_TESTS_VT_H

#include <stdbool.h>
#include <sys/types.h>
#include <termios.h>

#include <vterm.h>

enum { VT_DEADLINE_MS = 10000, VT_TEXT = 40000 };

struct vt {
    int master, line; /* the pty's two ends: line is kept open to look at its modes */
    int from_keeper, to_keeper;
    pid_t keeper, program;
    VTerm *vterm;
    VTermScreen *screen;
    int rows, cols;
    struct termios before;
    char said[VT_TEXT]; /* everything the program wrote, as bytes */
    size_t said_len;
};

struct vt_start {
    const char *term, *rig; /* rig NULL: no argument */
    int rows, cols;
    bool stdin_null; /* standard input is /dev/null instead of the terminal */
    bool no_color;
    const char *home; /* for the XDG folders */
};

void vt_open(struct vt *v, const struct vt_start *start);
void vt_close(struct vt *v);

void vt_send(struct vt *v, const char *bytes);
void vt_resize(struct vt *v, int rows, int cols);

/* vt_shows - whether a line of the screen holds the words now. */
bool vt_shows(const struct vt *v, const char *words);

/* vt_wait - until the screen shows the words (or no longer does); fails with the screen. */
void vt_wait(struct vt *v, const char *words);
void vt_wait_gone(struct vt *v, const char *words);

/* vt_wait_stopped - until the program is stopped; vt_continue - as the shell's fg. */
void vt_wait_stopped(struct vt *v);
void vt_continue(struct vt *v);

/* vt_wait_end - until it ended; returns its wait status. */
int vt_wait_end(struct vt *v);

/* vt_modes_restored - whether the line's modes are as before the start. */
bool vt_modes_restored(const struct vt *v);

/* a folder of the test, with all that is in it */
void vt_remove_tree(const char *dir);

#endif
