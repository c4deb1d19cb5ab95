/* test_clock_resume.c - nothing is lost: kills at every write, disks that fail, gaps in the record. */
#include "support/check.h"

#include <errno.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "app/files.h"
#include "support/clock_runs.h"

static struct journal_events found;

/* ---- kills ---- */

#define JOB                                                                                        \
    CLOCK_ON "tick 60\ntype 24\nkeys Enter z\ntype 25\nkeys Enter\ntick 9\nkeys Space\ntick 25\n"  \
             "type 24\nkeys Enter d\n"

static int writes_left;
static size_t cut_at; /* bytes of the last write that reach the file */

static ssize_t write_and_die(int fd, const void *bytes, size_t n)
{
    if (--writes_left == 0) {
        size_t part = cut_at < n ? cut_at : n;
        ssize_t done = part > 0 ? write(fd, bytes, part) : 0;
        _exit(done < 0 ? 3 : 0);
    }
    return write(fd, bytes, n);
}

/* The program in a process of its own, killed in its n-th write; true: it lived to the end. */
static bool run_until_write(struct tui_session *t, int n, size_t part)
{
    int status = 0;
    pid_t child = fork();
    assert_true(child >= 0);
    if (child == 0) {
        writes_left = n;
        cut_at = part;
        t->files.log.calls.write = write_and_die;
        tui_script(t, JOB);
        _exit(9);
    }
    assert_int_equal(waitpid(child, &status, 0), child);
    assert_true(WIFEXITED(status) && (WEXITSTATUS(status) == 0 || WEXITSTATUS(status) == 9));
    return WEXITSTATUS(status) == 9;
}

static int readings(const struct journal_events *e)
{
    int n = 0;
    for (int i = 0; i < e->n; i++)
        n += e->event[i].word == LOG_READ;
    return n;
}

/* n - 1 lines were promised: head, then events. They are there, and what goes on from them goes on
 * from all of them. */
static void restart_has_all(struct tui_session *t, int n, size_t part)
{
    int promised = n >= 2 ? n - 2 : 0;
    clock_last_log(t, &found);
    assert_true(found.n == promised || (part > 200 && found.n == promised + 1));
    int read = readings(&found), events = found.n;
    clock_restart(t);
    if (read == 0) {
        assert_int_equal(t->model.editor, SCREEN_NONE);
        return;
    }
    assert_int_equal(t->model.editor, EDITOR_RESUME);
    const char *frame = tui_script(t, "keys y\ntext\n");
    assert_int_equal(job(t)->session.n_reading, read);
    assert_true(job(t)->n_event >= events);
    if (part > 0 && part < 20)
        assert_shows(frame, "cut off and is left out");
    if (job(t)->session.air)
        tui_script(t, "keys n\n");
    tui_script(t, "keys a\ntype 25\nkeys Enter y\n");
    clock_last_log(t, &found);
    assert_int_equal(readings(&found), read + 1);
}

static void a_kill_at_every_write_loses_nothing(void **state)
{
    (void)state;
    static const size_t parts[] = {0, 7, 1000};
    bool lived = false;
    int n = 2; /* the first write is the head line */
    for (; !lived && n < 60; n++)
        for (size_t k = 0; k < sizeof parts / sizeof *parts && !lived; k++) {
            struct tui_session *t = clock_session();
            lived = run_until_write(t, n, parts[k]);
            if (!lived)
                restart_has_all(t, n, parts[k]);
            tui_end(t);
        }
    assert_true(n > 14); /* every event of the job had its kill */
}

/* ---- a disk that fails ---- */

static bool disk_full;

static ssize_t write_to_full(int fd, const void *bytes, size_t n)
{
    if (!disk_full)
        return write(fd, bytes, n);
    ssize_t some = write(fd, bytes, n / 2);
    (void)some;
    errno = ENOSPC;
    return -1;
}

static int fsync_of_full(int fd)
{
    errno = EIO;
    return disk_full ? -1 : fsync(fd);
}

static void fails_and_mends(struct tui_session *t)
{
    tui_script(t, CLOCK_ON);
    disk_full = true;
    const char *frame = tui_script(t, "tick 30\ntype 22\nkeys Enter\ntext\n");
    assert_shows(frame, "NOT SAVED");
    assert_int_equal(job(t)->session.n_reading, 2);
    tui_script(t, "tick 31\ntick 36\nkeys Space\n");
    assert_false(job(t)->session.air); /* it keeps running */
    disk_full = false;
    clock_wait(t, 120);
    assert_shows(clock_frame(t), "saved");
    clock_last_log(t, &found);
    assert_int_equal(found.n, job(t)->n_event);
    assert_true(found.checked && !found.torn);
    tui_end(t);
}

static void a_full_disk_is_said_and_mended(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    t->files.log.calls.write = write_to_full;
    fails_and_mends(t);
}

static void a_line_not_synced_is_written_again_once(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    t->files.log.calls.fsync = fsync_of_full;
    fails_and_mends(t);
}

/* tried again every 5 s for three minutes: no heap of empty files; short words, nothing hidden */
static void a_disk_full_from_the_start_leaves_nothing(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    char path[HOST_PATH];
    t->files.log.calls.write = write_to_full;
    disk_full = true;
    tui_script(t, CLOCK_ON);
    for (int i = 1; i < 180; i++)
        clock_wait(t, i);
    assert_false(clock_log_path(t, path));
    assert_shows(clock_frame(t), "NOT SAVED (disk full): kept in memory");
    t->cols = 60;
    t->rows = 20;
    assert_shows(clock_frame(t), "AIR ON");
    assert_shows(clock_frame(t), "NOT SAVED (disk full) in memory");
    t->model.at.clock.muted = true;
    assert_shows(clock_frame(t), "AIR ON  muted");
    assert_shows(clock_frame(t), "NOT SAVED (disk full)");
    disk_full = false;
    clock_wait(t, 200);
    clock_last_log(t, &found);
    assert_int_equal(found.n, job(t)->n_event);
    tui_end(t);
}

/* A record of an earlier start of the machine that began ago_s before now by the calendar. */
static void leave_record(struct tui_session *t, int ago_s, const char *more)
{
    char path[HOST_PATH + 64], wall[64], words[200];
    struct text why = text_over(words, sizeof words);
    time_t then = time(NULL) - ago_s;
    struct tm day;
    assert_non_null(gmtime_r(&then, &day));
    assert_true(strftime(wall, sizeof wall, "%Y-%m-%dT%H:%M:%S+0000", &day) > 0);
    snprintf(path, sizeof path, "%s/2026-01-01-000000-flatbed-cabin-up.log", t->files.log.dir);
    CHECK_STATUS(file_make_folders(path, &why), STATUS_OK);
    FILE *f = fopen(path, "w");
    assert_non_null(f);
    fprintf(f, "%s\n0 started %s boot 0123abcd-0123+7.5\n0 rig profiles/rigs/flatbed-cabin.ini\n",
            REFILL_LOG_HEAD, wall);
    fprintf(f,
            "0 job up\n0 hookup linked\n0 target front 38 psi\n0 target rear 48 psi\n"
            "0 read all 18 psi settled\n10 air on\n%s",
            more);
    assert_int_equal(fclose(f), 0);
}

/* what a power cut left of a job with nothing in it hides no earlier one */
static void an_empty_record_hides_no_other(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    char path[HOST_PATH + 32];
    leave_record(t, 300, "70 air off\n");
    snprintf(path, sizeof path, "%s/2026-02-01-000000-x-up.log", t->files.log.dir);
    FILE *f = fopen(path, "w");
    assert_non_null(f);
    fprintf(f, "%s\n", REFILL_LOG_HEAD);
    assert_int_equal(fclose(f), 0);
    clock_restart(t);
    assert_int_equal(t->model.editor, EDITOR_RESUME);
    tui_end(t);
}

static void without_a_folder_it_goes_on_in_memory(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    snprintf(t->files.log.dir, HOST_PATH, "/proc/none/logs");
    assert_shows(tui_script(t, CLOCK_MID "text\n"), "NOT SAVED");
    assert_int_equal(job(t)->session.n_reading, 2);
    tui_end(t);
}

/* ---- gaps ---- */

static struct tui_session *with_record(int ago_s, const char *more)
{
    struct tui_session *t = clock_session();
    leave_record(t, ago_s, more);
    clock_restart(t);
    assert_int_equal(t->model.editor, EDITOR_RESUME);
    return t;
}

/* 70 s into the record, 300 s after its start: 230 s unknown (a second or two for the test) */
static void the_gap_is_shown_and_asked_about(void **state)
{
    (void)state;
    static const struct {
        const char *answer;
        double running_s;
        bool air;
    } rows[] = {
        {"keys y\n", 290, true}, {"keys n\n", 60, false}, {"type 2\nkeys Enter\n", 180, false}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        struct tui_session *t = with_record(300, "70 read all 26 psi flowing\n");
        assert_shows(tui_script(t, "text\n"), "Since then 3:5");
        assert_shows(tui_script(t, "keys y\ntext\n"), "The record stops 3:5");
        tui_script(t, rows[i].answer);
        const struct session *s = &job(t)->session;
        CHECK_CLOSE(session_running(s, s->now_s), rows[i].running_s, 3, 0, "the answer");
        assert_int_equal(s->air, rows[i].air);
        CHECK_CLOSE(s->now_s, 300, 3, 0, "the calendar");
        clock_last_log(t, &found);
        assert_int_equal(found.n, job(t)->n_event);
        tui_end(t);
    }
}

/* 500 minutes for "5.00": asked about, asked anew on no; on yes it can be taken back */
static void an_absurd_gap_is_questioned_and_undone(void **state)
{
    (void)state;
    struct tui_session *t = with_record(-4000, "70 read all 26 psi flowing\n");
    t->cols = 60;
    t->rows = 20;
    tui_script(t, "keys y\n");
    assert_shows(tui_script(t, "type 500\ntext\n"), "minutes 500");
    assert_shows(tui_script(t, "keys Enter\ntext\n"), "500:00 of air?");
    CHECK_CLOSE(job(t)->session.running_s, 60, 0.1, 0, "the record: nothing taken yet");
    tui_script(t, "keys q\n");
    assert_int_equal(t->model.at.clock.ask.kind, ASK_LONG); /* it has to be answered */
    assert_shows(tui_script(t, "keys n\ntext\n"), "The record stops with air on");
    tui_script(t, "type 500\nkeys Enter y\n");
    CHECK_CLOSE(job(t)->session.running_s, 30060, 0.1, 0, "60 s on record and 500 min told");
    tui_script(t, "keys a\ntype 30\nkeys Enter y\n");
    assert_shows(tui_script(t, "keys z\ntext\n"), "Undone: reading");
    assert_shows(tui_script(t, "keys z\ntext\n"), "Undone: 500 min of air in the gap");
    CHECK_CLOSE(job(t)->session.running_s, 60, 0.1, 0, "the record");
    clock_last_log(t, &found);
    struct session s;
    clock_replay(t, &found, &s);
    CHECK_CLOSE(s.running_s, 60, 0.1, 0, "read back");
    assert_int_equal(s.n_span, job(t)->session.n_span);
    tui_end(t);
}

static void an_unknown_gap_begins_anew(void **state)
{
    (void)state;
    struct tui_session *t = with_record(300, "70 read all 26 psi flowing\n");
    assert_shows(tui_script(t, "keys y r\ntext\n"), "Read each corner anew");
    clock_last_log(t, &found);
    assert_int_equal(found.event[found.n - 1].word, LOG_DONE);
    tui_script(t, "keys a\ntype 31\nkeys Enter\n");
    clock_last_log(t, &found);
    assert_int_equal(readings(&found), 1);
    CHECK_CLOSE(job(t)->session.in.corner[0].target_gauge_pa, 38 * UNITS_PA_PER_PSI, 1, 0,
                "the record's target");
    assert_int_equal(job(t)->prior.refills, 1); /* what the first part told of the machine */
    tui_end(t);
}

/* cores that are out are out after a kill as well, gone on with or begun anew */
static void cores_are_kept_over_a_kill(void **state)
{
    (void)state;
    const unsigned left = LOG_CORNER_BIT(AXLE_FRONT, SIDE_LEFT);
    for (int anew = 0; anew < 2; anew++) {
        struct tui_session *t = clock_session();
        tui_script(t, "keys a i a\ntype 38\nkeys Enter Space Enter Enter Enter\ntick 20\n");
        assert_true(job(t)->session.air);
        clock_restart(t);
        assert_int_equal(t->model.editor, EDITOR_RESUME);
        assert_shows(tui_script(t, anew ? "keys y r\ntext\n" : "keys y y\ntext\n"), "air down");
        assert_int_equal(job(t)->begun, !anew);
        assert_int_equal(job(t)->session.core_out & job(t)->session.present, left);
        tui_script(t, "keys a\ntype 31\nkeys Enter\n");
        clock_last_log(t, &found);
        struct session s;
        clock_replay(t, &found, &s);
        assert_int_equal(s.core_out & s.present, left);
        tui_end(t);
    }
}

static void a_calendar_that_went_back_is_doubted(void **state)
{
    (void)state;
    struct tui_session *t = with_record(-4000, "70 read all 26 psi flowing\n");
    assert_shows(tui_script(t, "text\n"), "the calendar went back");
    assert_shows(tui_script(t, "keys y\ntext\n"), "unknown");
    tui_script(t, "type 1\nkeys Enter\n");
    CHECK_CLOSE(job(t)->session.running_s, 120, 0.1, 0, "60 s on record and a minute told");
    tui_end(t);
}

static void with_air_off_only_the_clock_is_noted(void **state)
{
    (void)state;
    struct tui_session *t = with_record(300, "70 air off\n80 read all 22 psi settled\n");
    tui_script(t, "keys y\n");
    assert_int_equal(t->model.at.clock.ask.kind, ASK_NOTHING);
    CHECK_CLOSE(job(t)->session.running_s, 60, 1e-9, 0, "the record");
    clock_last_log(t, &found);
    assert_int_equal(found.event[found.n - 1].word, LOG_CLOCK);
    tui_end(t);
}

static void a_record_left_is_closed_and_not_offered_again(void **state)
{
    (void)state;
    struct tui_session *t = with_record(300, "70 read all 26 psi flowing\n");
    tui_script(t, "keys n\n");
    clock_last_log(t, &found);
    assert_int_equal(found.event[found.n - 1].word, LOG_DONE);
    clock_restart(t);
    assert_int_equal(t->model.editor, SCREEN_NONE);
    tui_end(t);
}

static void a_record_that_is_written_is_not_offered(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    struct host_left left;
    static struct log_event event[CLOCK_EVENTS];
    tui_script(t, CLOCK_ON);
    assert_false(t->host.log_left(t->host.self, CLOCK_EVENTS, event, &left));
    session_log_end(&t->files.log);
    assert_true(t->host.log_left(t->host.self, CLOCK_EVENTS, event, &left));
    tui_end(t);
}

/* an air-down closed before any air flowed let nothing down; air up closed so takes nothing back */
static void a_job_without_air_changes_nothing(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    const struct rig *rig = &t->model.outing.rig;
    tui_script(t, "keys a a\ntype 38\nkeys Enter\n");
    assert_false(job(t)->session.up);
    clock_restart(t);
    tui_script(t, "keys n\n");
    clock_last_log(t, &found);
    assert_int_equal(found.event[found.n - 1].word, LOG_DONE);
    assert_false(t->host.let_down(t->host.self, rig));
    sleep(1); /* records are told apart by the second */
    clock_restart(t);
    tui_script(t, CLOCK_DOWN "tick 60\nkeys Space\ntick 30\nkeys e y\n");
    assert_true(t->host.let_down(t->host.self, rig));
    sleep(1);
    clock_restart(t);
    tui_script(t, "keys a a\ntype 18\nkeys Enter e y\n");
    clock_last_log(t, &found);
    assert_true(found.event[2].word == LOG_JOB && found.event[2].on);
    assert_true(t->host.let_down(t->host.self, rig));
    tui_end(t);
}

/* ---- the rig of the record ---- */

/* started again in another folder, with another rig */
static void restart_elsewhere(struct tui_session *t)
{
    snprintf(t->model.outing.source.path, HOST_PATH, "%s/profiles/rigs/light-wagon.ini",
             SANDSHOE_SRCDIR);
    assert_int_equal(chdir("/"), 0);
    clock_restart(t);
    assert_int_equal(t->model.editor, EDITOR_RESUME);
}

static void a_record_opens_from_every_folder(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    tui_script(t, CLOCK_ON);
    clock_last_log(t, &found);
    assert_int_equal(found.event[1].word, LOG_RIG);
    assert_string_equal(found.event[1].text, SANDSHOE_SRCDIR "/profiles/rigs/flatbed-cabin.ini");
    restart_elsewhere(t);
    tui_script(t, "keys y y\n");
    assert_true(job(t)->begun);
    assert_string_equal(t->model.outing.rig.name, "flatbed with cabin");
    tui_end(t);
}

/* a rig that has moved is found by its name; one that is nowhere says what can be done */
static void a_rig_that_moved_is_found_by_name(void **state)
{
    (void)state;
    for (int there = 0; there < 2; there++) {
        struct tui_session *t = clock_session();
        leave_record(t, 300, "70 air off\n");
        snprintf(t->search.dir[1], PATHS_LEN, "%s", there ? SANDSHOE_SRCDIR "/profiles" : "/none");
        restart_elsewhere(t);
        const char *frame = tui_script(t, "keys y\ntext\n");
        assert_int_equal(job(t)->begun, there);
        if (!there)
            assert_shows(frame, "Rig flatbed-cabin.ini does not open. n closes the record");
        tui_end(t);
    }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_kill_at_every_write_loses_nothing),
        cmocka_unit_test(a_full_disk_is_said_and_mended),
        cmocka_unit_test(a_line_not_synced_is_written_again_once),
        cmocka_unit_test(a_disk_full_from_the_start_leaves_nothing),
        cmocka_unit_test(an_empty_record_hides_no_other),
        cmocka_unit_test(without_a_folder_it_goes_on_in_memory),
        cmocka_unit_test(the_gap_is_shown_and_asked_about),
        cmocka_unit_test(an_absurd_gap_is_questioned_and_undone),
        cmocka_unit_test(an_unknown_gap_begins_anew),
        cmocka_unit_test(cores_are_kept_over_a_kill),
        cmocka_unit_test(a_calendar_that_went_back_is_doubted),
        cmocka_unit_test(with_air_off_only_the_clock_is_noted),
        cmocka_unit_test(a_record_left_is_closed_and_not_offered_again),
        cmocka_unit_test(a_record_that_is_written_is_not_offered),
        cmocka_unit_test(a_job_without_air_changes_nothing),
        cmocka_unit_test(a_record_opens_from_every_folder),
        cmocka_unit_test(a_rig_that_moved_is_found_by_name),
    };
    return check_run("clock resume", tests, sizeof tests / sizeof *tests, argc, argv);
}
