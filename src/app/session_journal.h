/* session_journal.h - the records of timed jobs as files: one a job below $XDG_STATE_HOME/sandshoe/logs,
 * its name the time it began and the rig's. Whoever writes one holds a lock on it. */
#ifndef SANDSHOE_APP_SESSION_JOURNAL_H
#define SANDSHOE_APP_SESSION_JOURNAL_H

#include "app/journal.h"
#include "tui/host.h"

struct session_journal {
    char dir[HOST_PATH];          /* "" = nowhere to write */
    char learned_file[HOST_PATH]; /* "" = not kept */
    struct journal_calls calls;   /* NULL members: the real ones */
    struct journal journal;
    bool open;
};

/* session_journal_init - the usual folders of this environment. */
void session_journal_init(struct session_journal *s);

/* The callbacks of struct session_host, for a rig by its short name. */
void session_log_stamp(void *self, struct log_event *e);
bool session_log_begin(struct session_journal *s, const char *rig, bool up, struct text *why);
bool session_log_append(struct session_journal *s, const struct log_event *e, struct text *why);
void session_log_end(struct session_journal *s);
bool session_log_left(const struct session_journal *s, int max, struct log_event event[],
                      struct host_left *left);
bool session_log_resume(struct session_journal *s, const struct host_left *left, struct text *why);
bool session_log_let_down(const struct session_journal *s, const char *rig);

/* session_log_is_empty - a file that holds no event: it is no record. */
bool session_log_is_empty(const char *path);

#endif
