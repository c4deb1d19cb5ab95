#include "app/journal.h"

#include <errno.h>
#include <fcntl.h>
#include <libgen.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include <zlib.h>

enum { CRC_TAIL = 10 }; /* " *XXXXXXXX" */

static unsigned long crc_of(const char *s, size_t n)
{
    return crc32(crc32(0L, Z_NULL, 0), (const Bytef *)s, (uInt)n);
}

const char *journal_reason(int error)
{
    static const struct {
        int error;
        const char *words;
    } reasons[] = {{ENOSPC, "disk full"},  {EDQUOT, "disk full"}, {EROFS, "read-only"},
                   {EACCES, "no access"},  {EPERM, "no access"},  {ENOENT, "no folder"},
                   {ENOTDIR, "no folder"}, {EIO, "disk error"}};
    for (size_t i = 0; i < sizeof reasons / sizeof *reasons; i++) {
        if (reasons[i].error == error) {
            return reasons[i].words;
        }
    }
    return "not possible";
}

static enum status failed(struct journal *j, const char *what)
{
    int error = errno;
    snprintf(j->why, sizeof j->why, "%s: %s: %s", journal_reason(error), what, strerror(error));
    return STATUS_E_SYSTEM;
}

static ssize_t call_write(const struct journal *j, const char *bytes, size_t n)
{
    return j->calls.write ? j->calls.write(j->fd, bytes, n) : write(j->fd, bytes, n);
}

static int call_fsync(const struct journal *j)
{
    return j->calls.fsync ? j->calls.fsync(j->fd) : fsync(j->fd);
}

/* All of it or nothing: what a failed write left is cut off again. */
static enum status cut_back(struct journal *j, const char *what)
{
    enum status s = failed(j, what);
    return ftruncate(j->fd, j->end) == 0 ? s : failed(j, "journal cannot be cut back");
}

static enum status write_line(struct journal *j, const char *line, size_t n)
{
    size_t done = 0;
    while (done < n) {
        ssize_t w = call_write(j, line + done, n - done);
        if (w < 0 && errno == EINTR) {
            continue;
        }
        if (w <= 0) {
            return cut_back(j, "journal not written");
        }
        done += (size_t)w;
    }
    if (call_fsync(j) != 0) {
        return cut_back(j, "journal not on disk");
    }
    j->end += (off_t)n;
    return STATUS_OK;
}

/* The name of a new file is on disk only when its folder is. */
static void sync_folder(const char *path)
{
    char copy[JOURNAL_PATH];
    snprintf(copy, sizeof copy, "%s", path);
    int fd = open(dirname(copy), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd >= 0) {
        (void)fsync(fd);
        close(fd);
    }
}

enum status journal_create(struct journal *j, const char *path, struct journal_calls calls)
{
    static const char head[] = REFILL_LOG_HEAD "\n";
    *j = (struct journal){.fd = -1, .calls = calls};
    snprintf(j->path, sizeof j->path, "%s", path);
    j->fd = open(path, O_WRONLY | O_CREAT | O_EXCL | O_APPEND | O_CLOEXEC, 0644);
    if (j->fd < 0) {
        return failed(j, path);
    }
    sync_folder(path);
    enum status s = write_line(j, head, sizeof head - 1);
    if (s < STATUS_OK) {
        journal_close(j);
        (void)unlink(path);
    }
    return s;
}

void journal_end(struct journal *j)
{
    bool empty = j->fd >= 0 && j->end <= (off_t)sizeof REFILL_LOG_HEAD; /* with its newline */
    journal_close(j);
    if (empty) {
        (void)unlink(j->path);
    }
}

enum status journal_reopen(struct journal *j, const char *path, off_t whole_bytes,
                           struct journal_calls calls)
{
    *j = (struct journal){.fd = -1, .end = whole_bytes, .calls = calls};
    snprintf(j->path, sizeof j->path, "%s", path);
    j->fd = open(path, O_WRONLY | O_APPEND | O_CLOEXEC);
    if (j->fd < 0 || ftruncate(j->fd, whole_bytes) != 0) {
        enum status s = failed(j, path);
        journal_close(j);
        return s;
    }
    return STATUS_OK;
}

enum status journal_append(struct journal *j, const struct log_event *e)
{
    char line[LOG_LINE + CRC_TAIL + 2];
    struct text t = text_over(line, LOG_LINE);
    if (j->fd < 0) {
        return STATUS_E_SYSTEM;
    }
    refill_log_put(e, &t);
    size_t n = t.len;
    n += (size_t)snprintf(line + n, sizeof line - n, " *%08lX\n", crc_of(line, n));
    return write_line(j, line, n);
}

void journal_close(struct journal *j)
{
    if (j->fd >= 0) {
        close(j->fd);
    }
    j->fd = -1;
}

enum tail { TAIL_NONE, TAIL_AGREES, TAIL_DIFFERS };

/* Cuts a checksum off the end of a line of n bytes and compares it. */
static enum tail cut_checksum(char *line, size_t *n)
{
    if (*n < CRC_TAIL || line[*n - CRC_TAIL] != ' ' || line[*n - CRC_TAIL + 1] != '*') {
        return TAIL_NONE;
    }
    char *end = NULL;
    unsigned long said = strtoul(line + *n - CRC_TAIL + 2, &end, 16);
    if (end != line + *n) {
        return TAIL_NONE;
    }
    *n -= CRC_TAIL;
    line[*n] = '\0';
    return crc_of(line, *n) == said ? TAIL_AGREES : TAIL_DIFFERS;
}

struct reader {
    const char *path;
    int line;
    double last_s;
    bool all_checked;
    bool rig, done; /* told already */
    struct journal_events *out;
    struct diag_list *diags;
};

static void complain(struct reader *r, enum status code, const char *text)
{
    struct diag d = {.code = code, .line = r->line};
    diag_copy(d.file, sizeof d.file, r->path);
    diag_copy(d.text, sizeof d.text, text);
    diag_add(r->diags, &d);
}

static void keep_event(struct reader *r, const struct log_event *e)
{
    if (r->out->n == JOURNAL_EVENTS) {
        complain(r, STATUS_E_FULL, "more events than a log may hold (400)");
        return;
    }
    if (e->at_s < r->last_s) {
        complain(r, STATUS_E_DOMAIN, "time runs backwards");
        return;
    }
    if (r->done && e->word != LOG_NOTE) {
        complain(r, STATUS_E_DOMAIN, "an event after 'done': the job has ended");
        return;
    }
    if (r->rig && e->word == LOG_RIG) {
        complain(r, STATUS_E_DOMAIN, "a second 'rig' line: a log is of one rig");
        return;
    }
    r->done = r->done || e->word == LOG_DONE;
    r->rig = r->rig || e->word == LOG_RIG;
    r->last_s = e->at_s;
    r->out->line[r->out->n] = r->line;
    r->out->event[r->out->n++] = *e;
}

static void read_line(struct reader *r, char *line, size_t n)
{
    char why[DIAG_TEXT];
    struct text w = text_over(why, sizeof why);
    struct log_event e;
    if (memchr(line, '\0', n)) {
        complain(r, STATUS_E_SYNTAX, "a NUL byte");
        return;
    }
    enum tail tail = cut_checksum(line, &n);
    if (tail == TAIL_DIFFERS) {
        complain(r, STATUS_E_SYNTAX, "the checksum does not agree: the line was changed");
        return;
    }
    enum status s = refill_log_parse(line, &e, &w);
    if (s == STATUS_OK) {
        r->all_checked = r->all_checked && tail == TAIL_AGREES;
        keep_event(r, &e);
    } else if (s != STATUS_E_MISSING) {
        complain(r, s, why);
    }
}

/* A last line without newline counts when it is whole all the same. */
static bool last_line_is_whole(const char *line, size_t n, bool live)
{
    char copy[LOG_LINE];
    char why[DIAG_TEXT];
    struct text w = text_over(why, sizeof why);
    struct log_event e;
    if (n >= sizeof copy) {
        return false;
    }
    memcpy(copy, line, n);
    copy[n] = '\0';
    enum tail tail = cut_checksum(copy, &n);
    if (tail == TAIL_NONE && live) {
        return false; /* the other lines carry one */
    }
    enum status s = refill_log_parse(copy, &e, &w);
    return tail != TAIL_DIFFERS && (s == STATUS_OK || s == STATUS_E_MISSING);
}

static bool head_is_right(struct reader *r, const char *bytes, size_t n)
{
    size_t len = sizeof REFILL_LOG_HEAD - 1;
    r->line = 1;
    if (n >= len && memcmp(bytes, REFILL_LOG_HEAD, len) == 0 &&
        (n == len || bytes[len] == '\n' || bytes[len] == '\r')) {
        return true;
    }
    complain(r, STATUS_E_SYNTAX, "a refill log begins with '" REFILL_LOG_HEAD "'");
    return false;
}

enum status journal_parse(const char *path, const char *bytes, size_t n, struct journal_events *out,
                          struct diag_list *diags)
{
    struct reader r = {.path = path, .all_checked = true, .out = out, .diags = diags};
    int before = diags->n;
    *out = (struct journal_events){.n = 0};
    if (!head_is_right(&r, bytes, n)) {
        return STATUS_E_SYNTAX;
    }
    size_t at = 0;
    for (r.line = 1; at < n; r.line++) {
        char copy[LOG_LINE + CRC_TAIL];
        const char *nl = memchr(bytes + at, '\n', n - at);
        size_t len = nl ? (size_t)(nl - (bytes + at)) : n - at;
        if (!nl && !last_line_is_whole(bytes + at, len, out->n > 0 && r.all_checked)) {
            out->torn = true;
            break;
        }
        if (len >= sizeof copy) {
            complain(&r, STATUS_E_SYNTAX, "the line is too long");
        } else {
            memcpy(copy, bytes + at, len);
            copy[len] = '\0';
            read_line(&r, copy, len);
        }
        at += len + (nl ? 1 : 0);
        out->whole_bytes = (off_t)at;
    }
    out->checked = out->n > 0 && r.all_checked;
    return diags->n > before ? STATUS_E_SYNTAX : STATUS_OK;
}
