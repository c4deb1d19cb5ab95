/* journal.h - refill logs on disk: append with fsync and a checksum a line; read with every mistake.
 *
 * A line that was promised (journal_append returned fine) is on disk. A write that fails is cut
 * back to the end of the last whole line; the session goes on in memory and may try again. */
#ifndef SANDSHOE_APP_JOURNAL_H
#define SANDSHOE_APP_JOURNAL_H

#include <stdbool.h>
#include <stddef.h>
#include <sys/types.h>

#include "base/diag.h"
#include "base/status.h"
#include "core/refill_log.h"

enum { JOURNAL_EVENTS = 400, JOURNAL_PATH = 512 };

/* The system calls that a test may replace; NULL members mean the real ones. */
struct journal_calls {
    ssize_t (*write)(int fd, const void *bytes, size_t n);
    int (*fsync)(int fd);
};

struct journal {
    int fd;    /* -1: closed */
    off_t end; /* of the last whole line */
    char path[JOURNAL_PATH];
    struct journal_calls calls;
    char why[160]; /* of the last failure: "disk full: ", then the rest */
};

struct journal_events {
    int n;
    bool torn;         /* the last line was cut off and left out */
    bool checked;      /* every line carried a checksum that agrees */
    off_t whole_bytes; /* length up to and including the last whole line */
    struct log_event event[JOURNAL_EVENTS];
    int line[JOURNAL_EVENTS]; /* of the file, from 1 */
};

/* journal_reason - a system error in two words: "disk full". */
const char *journal_reason(int error);

/* journal_create - start a new file (never over an old one) with the head line on disk; none is left
 * behind when that fails. */
enum status journal_create(struct journal *j, const char *path,
                           struct journal_calls calls) MUST_CHECK;

/* journal_reopen - go on with a file that journal_read has read; a torn last line is cut off. */
enum status journal_reopen(struct journal *j, const char *path, off_t whole_bytes,
                           struct journal_calls calls) MUST_CHECK;

/* journal_append - one event: written, then fsync. On failure j->why says why and the file ends
 * with its last whole line. */
enum status journal_append(struct journal *j, const struct log_event *e) MUST_CHECK;

void journal_close(struct journal *j);

/* journal_end - close it for good: a file without any event goes. */
void journal_end(struct journal *j);

/* journal_parse - read a log from memory. Hand-written lines need no checksum; one that is there
 * must agree. A last line without newline is torn: left out, unless it reads well without one and
 * carries no checksum of which a part is missing. Mistakes go to diags; fine means none. */
enum status journal_parse(const char *path, const char *bytes, size_t n, struct journal_events *out,
                          struct diag_list *diags) MUST_CHECK;

#endif
