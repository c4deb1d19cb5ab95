/* tui_session.h - a session over the shipped profiles, driven by scripts, without a terminal. */
#ifndef SANDSHOE_TESTS_TUI_SESSION_H
#define SANDSHOE_TESTS_TUI_SESSION_H

#include "app/session_host.h"
#include "tui/model.h"
#include "tui/script.h"

struct tui_session {
    struct session_files files;
    struct search_path search;
    struct session_host host;
    struct compressor_list compressors;
    struct ground_list grounds;
    struct model model;
    char save_dir[64]; /* a folder of its own below /tmp, gone with tui_end */
    int rows, cols;
    bool ascii;
    char out[400000]; /* what the last script dumped */
    size_t len;
};

/* tui_begin - rig: base name of a shipped rig, NULL for the three questions; ground: NULL = none. */
struct tui_session *tui_begin(const char *rig, const char *ground, int cols, int rows);
void tui_end(struct tui_session *t);

/* tui_script - run a script; returns what it dumped. Fails the test on a bad script. */
const char *tui_script(struct tui_session *t, const char *lines);

/* tui_file - the text of a file below the source folder, NULL when it cannot be read; freed by the
 * caller. */
char *tui_file(const char *path);

/* tui_golden - fail unless text is that of a file below the source folder; UPDATE=1 writes it. */
void tui_golden(const char *path, const char *text);

#endif
