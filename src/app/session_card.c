#include "app/session_card.h"

#include <fcntl.h>
#include <stdio.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "app/card_job.h"
#include "app/clock.h"
#include "app/files.h"

enum { CARD_NAMES = 99 };

static void say_fault(enum status st, const struct card_job_report *fault, enum unit_system u,
                      struct text *message)
{
    text_put(message, "no card: ");
    if (st == STATUS_E_REFUSED) {
        refusal_put(&fault->refusal, u, message);
    } else {
        text_put(message, "%s", fault->what[0] != '\0' ? fault->what : status_text(st));
    }
}

/* "flatbed-cabin" of a path; the quick form has none */
static void stem_of(const char *path, const char *instead, char out[80])
{
    const char *slash = strrchr(path, '/');
    const char *name = slash != NULL ? slash + 1 : path;
    int n = (int)strcspn(name, ".");
    snprintf(out, 80, "%.*s", n < 60 ? n : 60, name);
    if (n == 0) {
        snprintf(out, 80, "%s", instead);
    }
}

static bool write_free(const char *stem, const unsigned char *bytes, size_t n, char path[HOST_PATH],
                       struct text *message)
{
    enum status st = STATUS_E_REFUSED;
    for (int i = 1; i <= CARD_NAMES && st == STATUS_E_REFUSED; i++) {
        char number[8] = "";
        if (i > 1) {
            snprintf(number, sizeof number, "-%d", i);
        }
        snprintf(path, HOST_PATH, "%s-card%s.pdf", stem, number);
        text_clear(message);
        st = file_write(path, (const char *)bytes, n, false, message);
    }
    if (st >= STATUS_OK) {
        text_clear(message);
    }
    return st >= STATUS_OK;
}

/* the whole path, as far as it can be told */
static void make_absolute(char path[HOST_PATH])
{
    char folder[HOST_PATH], name[100];
    snprintf(name, sizeof name, "%.99s", path);
    if (getcwd(folder, sizeof folder) != NULL && strlen(folder) + strlen(name) + 2 < HOST_PATH) {
        snprintf(path, HOST_PATH, "%.400s/%s", folder, name);
    }
}

/* the PDF of a job under a name that is free */
static bool make_pdf(const struct card_job *job, const char *stem, char path[HOST_PATH],
                     struct text *message)
{
    static unsigned char bytes[CARD_PDF_MAX];
    struct card_job_report fault = {.what = ""};
    size_t n = 0;
    enum status st = card_job_pdf(job, sizeof bytes, bytes, &n, &fault);
    if (st < STATUS_OK) {
        say_fault(st, &fault, job->units, message);
        return false;
    }
    if (!write_free(stem, bytes, n, path, message)) {
        path[0] = '\0';
        return false;
    }
    make_absolute(path);
    return true;
}

bool session_card(const struct rig *rig, const struct ground_list *grounds,
                  const struct conditions *day, enum unit_system u, const char *size,
                  char path[HOST_PATH], struct text *message)
{
    char date[CLOCK_DATE], stem[80];
    struct card_job job = {
        .rig = rig, .catalogue = grounds, .conditions = *day, .units = u, .date = date};
    clock_today(date);
    stem_of(rig->path, "rig", stem);
    if (card_size_from_name(size, &job.size) < STATUS_OK) {
        text_put(message, "no card is of the size %s", size);
        return false;
    }
    return make_pdf(&job, stem, path, message);
}

bool session_trip_card(const struct rig *rig, const struct trip *trip,
                       const struct ground_list *grounds, enum unit_system u, char path[HOST_PATH],
                       struct text *message)
{
    char date[CLOCK_DATE], stem[80];
    struct card_job job = {.rig = rig,
                           .trip = trip,
                           .catalogue = grounds,
                           .units = u,
                           .size = CARD_A6,
                           .date = trip->date[0] != '\0' ? trip->date : date};
    clock_today(date);
    stem_of(trip->path, "trip", stem);
    return make_pdf(&job, stem, path, message);
}

static void run_lp(const char *path)
{
    int null = open("/dev/null", O_RDWR | O_CLOEXEC);
    for (int fd = STDIN_FILENO; null >= 0 && fd <= STDERR_FILENO; fd++) {
        dup2(null, fd);
    }
    execlp("lp", "lp", "--", path, (char *)NULL);
    _exit(127);
}

bool session_print(const char *path, struct text *message)
{
    int status = -1;
    pid_t pid = fork();
    if (pid == 0) {
        run_lp(path);
    }
    bool ended = pid > 0 && waitpid(pid, &status, 0) == pid && WIFEXITED(status);
    bool printed = ended && WEXITSTATUS(status) == 0;
    if (printed) {
        text_put(message, "Sent to the printer (lp): %s", path);
    } else if (ended && WEXITSTATUS(status) == 127) {
        text_put(message, "There is no lp command here. The card: %s", path);
    } else {
        text_put(message, "lp did not take it. The card: %s", path);
    }
    return printed;
}
