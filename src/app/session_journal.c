#include "app/session_journal.h"

#include <dirent.h>
#include <errno.h>
#include <fcntl.h>
#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/file.h>
#include <unistd.h>

#include "app/clock.h"
#include "app/files.h"
#include "app/paths.h"

enum { LOG_BYTES = JOURNAL_EVENTS * LOG_LINE, LOG_NAMES = 512, LOG_NAME = 128, LOG_LOOK_BACK = 40 };

void session_journal_init(struct session_journal *s)
{
    char path[PATHS_LEN];
    s->dir[0] = s->learned_file[0] = '\0';
    s->journal.fd = -1;
    if (paths_state("logs", path) == STATUS_OK) {
        snprintf(s->dir, sizeof s->dir, "%s", path);
    }
    if (paths_state("learned", path) == STATUS_OK) {
        snprintf(s->learned_file, sizeof s->learned_file, "%s", path);
    }
}

void session_log_stamp(void *self, struct log_event *e)
{
    char wall[CLOCK_WALL];
    char boot[CLOCK_BOOT];
    (void)self;
    clock_wall(wall);
    clock_boot(boot);
    snprintf(e->text, sizeof e->text, "%s", wall[0] != '\0' ? wall : "unknown");
    snprintf(e->boot, sizeof e->boot, "%s", boot);
}

/* "flatbed-cabin" of "flatbed-cabin.ini": plain characters only */
static void stem_of(const char *rig, struct text *out)
{
    const char *dot = strrchr(rig, '.');
    size_t n = dot && dot != rig ? (size_t)(dot - rig) : strlen(rig);
    for (size_t i = 0; i < n && i < 48; i++) {
        char c = rig[i];
        if (!strchr("abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_", c)) {
            c = '-';
        }
        text_char(out, c, 1);
    }
}

static void lock(struct session_journal *s)
{
    s->open = s->journal.fd >= 0;
    if (s->open) {
        (void)flock(s->journal.fd, LOCK_EX | LOCK_NB);
    }
}

static bool folders_for(struct session_journal *s, const char *path)
{
    char words[JOURNAL_PATH + 64];
    struct text why = text_over(words, sizeof words);
    errno = 0;
    if (file_make_folders(path, &why) >= STATUS_OK) {
        return true;
    }
    struct text out = text_over(s->journal.why, sizeof s->journal.why);
    text_put(&out, "%s: %s", journal_reason(errno), words);
    return false;
}

bool session_log_begin(struct session_journal *s, const char *rig, bool up, struct text *why)
{
    char path[JOURNAL_PATH];
    char when[CLOCK_WALL];
    char stem[64];
    struct text t = text_over(stem, sizeof stem);
    enum status st = STATUS_E_MISSING;
    if (s->dir[0] == '\0') {
        text_put(why, "no folder for records");
        return false;
    }
    clock_wall_name(when);
    stem_of(rig, &t);
    for (int i = 0; i < 10 && st < STATUS_OK; i++) { /* two jobs may begin in one second */
        int n = snprintf(path, sizeof path, "%s/%s-%s-%s%.*d.log", s->dir, when, stem,
                         up ? "up" : "down", i > 0, i);
        if (n < 0 || n >= (int)sizeof path || !folders_for(s, path)) {
            break;
        }
        if (access(path, F_OK) == 0) {
            continue;
        }
        st = journal_create(&s->journal, path, s->calls);
    }
    if (st < STATUS_OK) {
        text_put(why, "%s", s->journal.why);
        journal_close(&s->journal);
        return false;
    }
    lock(s);
    return true;
}

bool session_log_append(struct session_journal *s, const struct log_event *e, struct text *why)
{
    if (journal_append(&s->journal, e) >= STATUS_OK) {
        return true;
    }
    text_put(why, "%s", s->journal.why);
    return false;
}

void session_log_end(struct session_journal *s)
{
    journal_end(&s->journal);
    s->open = false;
}

/* ---- looking back ---- */

static int later_first(const void *a, const void *b)
{
    return -strcmp(a, b);
}

/* Names of the records, the latest first. */
static int names_of(const char *dir, char names[LOG_NAMES][LOG_NAME])
{
    DIR *d = dir[0] != '\0' ? opendir(dir) : NULL;
    const struct dirent *e;
    int n = 0;
    while (d && n < LOG_NAMES && (e = readdir(d)) != NULL) {
        size_t len = strlen(e->d_name);
        if (len > 4 && len < LOG_NAME && strcmp(e->d_name + len - 4, ".log") == 0) {
            snprintf(names[n++], LOG_NAME, "%.*s", LOG_NAME - 1, e->d_name);
        }
    }
    if (d) {
        closedir(d);
    }
    qsort(names, (size_t)n, LOG_NAME, later_first);
    return n;
}

static bool read_log(const char *path, struct journal_events *out)
{
    static char bytes[LOG_BYTES];
    char words[200];
    struct text why = text_over(words, sizeof words);
    struct diag_list diags = {.n = 0};
    size_t n = 0;
    return file_read(path, bytes, sizeof bytes, &n, &why) == STATUS_OK &&
           journal_parse(path, bytes, n, out, &diags) >= STATUS_OK;
}

bool session_log_is_empty(const char *path)
{
    static struct journal_events read;
    return read_log(path, &read) && read.n == 0;
}

static bool someone_writes(const char *path)
{
    int fd = open(path, O_RDONLY | O_CLOEXEC);
    bool locked = fd >= 0 && flock(fd, LOCK_EX | LOCK_NB) != 0;
    if (fd >= 0) {
        close(fd);
    }
    return locked;
}

static bool holds(const struct journal_events *e, enum log_word word)
{
    for (int i = 0; i < e->n; i++) {
        if (e->event[i].word == word) {
            return true;
        }
    }
    return false;
}

/* Log time now: by the machine's own clock when it has not been started anew, else by calendar. */
static void time_left(const struct journal_events *e, struct host_left *left)
{
    double last_s = e->event[e->n - 1].at_s;
    double now_s = -1;
    for (int i = 0; i < e->n; i++) {
        const struct log_event *v = &e->event[i];
        double since_s = 0;
        if ((v->word == LOG_STARTED || v->word == LOG_CLOCK) &&
            clock_wall_since(v->text, &since_s)) {
            now_s = v->at_s + since_s;
        }
    }
    double since_s = 0;
    if (e->event[0].word == LOG_STARTED && clock_boot_since(e->event[0].boot, &since_s)) {
        now_s = e->event[0].at_s + since_s;
    }
    left->doubtful = now_s < last_s;
    left->now_s = fmax(now_s, last_s);
}

bool session_log_left(const struct session_journal *s, int max, struct log_event event[],
                      struct host_left *left)
{
    static char names[LOG_NAMES][LOG_NAME];
    static struct journal_events found;
    *left = (struct host_left){.is = false};
    int logs = names_of(s->dir, names), n = -1;
    for (int i = 0; i < logs && (i == 0 || session_log_is_empty(left->path)); i++) {
        n = snprintf(left->path, sizeof left->path, "%s/%s", s->dir, names[i]);
    }
    if (n < 0 || n >= (int)sizeof left->path || someone_writes(left->path) ||
        !read_log(left->path, &found) || holds(&found, LOG_DONE) || !holds(&found, LOG_READ) ||
        found.n > max) {
        return false;
    }
    left->is = true;
    left->torn = found.torn;
    left->n = found.n;
    time_left(&found, left);
    memcpy(event, found.event, (size_t)found.n * sizeof event[0]);
    return true;
}

bool session_log_resume(struct session_journal *s, const struct host_left *left, struct text *why)
{
    static struct journal_events found;
    if (!read_log(left->path, &found) ||
        journal_reopen(&s->journal, left->path, found.whole_bytes, s->calls) < STATUS_OK) {
        text_put(why, "%s", s->journal.why[0] != '\0' ? s->journal.why : "the record is gone");
        return false;
    }
    lock(s);
    return true;
}

/* The rig of a record, by the last part of its path. */
static bool is_of(const struct journal_events *e, const char *rig)
{
    for (int i = 0; i < e->n; i++) {
        if (e->event[i].word == LOG_RIG) {
            const char *slash = strrchr(e->event[i].text, '/');
            return strcmp(slash ? slash + 1 : e->event[i].text, rig) == 0;
        }
    }
    return false;
}

static bool goes_up(const struct journal_events *e)
{
    bool up = true;
    for (int i = 0; i < e->n; i++) {
        up = e->event[i].word == LOG_JOB ? e->event[i].on : up;
    }
    return up;
}

static bool had_air(const struct journal_events *e)
{
    for (int i = 0; i < e->n; i++) {
        if (e->event[i].word == LOG_AIR && e->event[i].on) {
            return true;
        }
    }
    return false;
}

/* A job without any air left the tyres as they were: the one before it tells. */
bool session_log_let_down(const struct session_journal *s, const char *rig)
{
    static char names[LOG_NAMES][LOG_NAME];
    static struct journal_events found;
    char path[JOURNAL_PATH];
    int n = names_of(s->dir, names);
    for (int i = 0, seen = 0; i < n && seen < LOG_LOOK_BACK; i++) {
        int len = snprintf(path, sizeof path, "%s/%s", s->dir, names[i]);
        bool is = len > 0 && len < (int)sizeof path && read_log(path, &found);
        seen += is && found.n > 0;
        if (is && is_of(&found, rig) && holds(&found, LOG_DONE) && had_air(&found)) {
            return !goes_up(&found);
        }
    }
    return false;
}
