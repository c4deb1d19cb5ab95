/* test_journal.c - the journal on disk: every promised line is there, whatever fails. */
#include "support/check.h"

#include <errno.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <unistd.h>

#include "app/journal.h"

static char folder[64];
static char path[128];
static int writes_left; /* before the injected failure */
static size_t cut_to;   /* bytes that the failing write still puts out */

static int make_folder(void **state)
{
    (void)state;
    snprintf(folder, sizeof folder, "/tmp/sandshoe-journal-XXXXXX");
    if (!mkdtemp(folder)) {
        return -1;
    }
    snprintf(path, sizeof path, "%s/refill.log", folder);
    return 0;
}

static int drop_folder(void **state)
{
    (void)state;
    (void)unlink(path);
    return rmdir(folder);
}

static size_t slurp(char *buf, size_t cap)
{
    FILE *f = fopen(path, "r");
    assert_non_null(f);
    size_t n = fread(buf, 1, cap - 1, f);
    buf[n] = '\0';
    fclose(f);
    return n;
}

static struct log_event reading(int i)
{
    return (struct log_event){.at_s = i,
                              .word = LOG_READ,
                              .corners = LOG_ALL,
                              .p_gauge_pa = (15 + i) * UNITS_PA_PER_PSI,
                              .unit = UNITS_PSI};
}

static ssize_t failing_write(int fd, const void *bytes, size_t n)
{
    if (writes_left-- > 0) {
        return write(fd, bytes, n);
    }
    if (cut_to > 0) {
        ssize_t w = write(fd, bytes, cut_to < n ? cut_to : n);
        cut_to = 0;
        return w;
    }
    errno = ENOSPC;
    return -1;
}

static int read_back(struct journal_events *ev)
{
    char buf[8192];
    struct diag_list diags = {.n = 0};
    size_t n = slurp(buf, sizeof buf);
    CHECK_STATUS(journal_parse(path, buf, n, ev, &diags), STATUS_OK);
    return ev->n;
}

static void a_full_disk_cuts_back_to_whole_lines(void **state)
{
    (void)state;
    struct journal j;
    struct journal_events ev;
    for (size_t cut = 0; cut < 36; cut += 7) { /* a line of 36 bytes, cut everywhere */
        writes_left = 3;                       /* head and two lines */
        CHECK_STATUS(journal_create(&j, path, (struct journal_calls){.write = failing_write}),
                     STATUS_OK);
        for (int i = 0; i < 2; i++) {
            struct log_event e = reading(i);
            CHECK_STATUS(journal_append(&j, &e), STATUS_OK);
        }
        struct log_event e = reading(2);
        cut_to = cut;
        CHECK_STATUS(journal_append(&j, &e), STATUS_E_SYSTEM);
        assert_true(strstr(j.why, "No space left") != NULL);
        assert_true(strncmp(j.why, "disk full:", 10) == 0);
        writes_left = 10; /* room again: the next line follows cleanly */
        CHECK_STATUS(journal_append(&j, &e), STATUS_OK);
        journal_close(&j);
        assert_int_equal(read_back(&ev), 3);
        assert_false(ev.torn);
        assert_true(ev.checked);
        unlink(path);
    }
}

/* a file without an event is no record: not left by a full disk, nor by a job without one */
static void no_empty_file_is_left(void **state)
{
    (void)state;
    struct journal j;
    writes_left = 0;
    CHECK_STATUS(journal_create(&j, path, (struct journal_calls){.write = failing_write}),
                 STATUS_E_SYSTEM);
    assert_true(access(path, F_OK) != 0);
    CHECK_STATUS(journal_create(&j, path, (struct journal_calls){NULL, NULL}), STATUS_OK);
    journal_end(&j);
    assert_true(access(path, F_OK) != 0);
    CHECK_STATUS(journal_create(&j, path, (struct journal_calls){NULL, NULL}), STATUS_OK);
    struct log_event e = reading(0);
    CHECK_STATUS(journal_append(&j, &e), STATUS_OK);
    journal_end(&j);
    assert_true(access(path, F_OK) == 0);
    unlink(path);
}

static void an_old_file_is_never_overwritten(void **state)
{
    (void)state;
    struct journal j;
    CHECK_STATUS(journal_create(&j, path, (struct journal_calls){NULL, NULL}), STATUS_OK);
    journal_close(&j);
    CHECK_STATUS(journal_create(&j, path, (struct journal_calls){NULL, NULL}), STATUS_E_SYSTEM);
    assert_true(strstr(j.why, "File exists") != NULL);
}

static void every_torn_end_is_seen(void **state)
{
    (void)state;
    struct journal j;
    char buf[8192];
    CHECK_STATUS(journal_create(&j, path, (struct journal_calls){NULL, NULL}), STATUS_OK);
    for (int i = 0; i < 3; i++) {
        struct log_event e = reading(i);
        CHECK_STATUS(journal_append(&j, &e), STATUS_OK);
    }
    journal_close(&j);
    size_t n = slurp(buf, sizeof buf);
    size_t last = n - 1;
    while (buf[last - 1] != '\n') {
        last--;
    }
    for (size_t cut = last + 1; cut < n - 1; cut++) {
        struct journal_events ev;
        struct diag_list diags = {.n = 0};
        CHECK_STATUS(journal_parse(path, buf, cut, &ev, &diags), STATUS_OK);
        assert_int_equal(ev.n, 2);
        assert_true(ev.torn);
        assert_int_equal(ev.whole_bytes, last);
    }
}

static void a_reopened_file_goes_on_after_a_torn_line(void **state)
{
    (void)state;
    struct journal j;
    struct journal_events ev;
    CHECK_STATUS(journal_create(&j, path, (struct journal_calls){NULL, NULL}), STATUS_OK);
    struct log_event e = reading(0);
    CHECK_STATUS(journal_append(&j, &e), STATUS_OK);
    assert_int_equal(write(j.fd, "1 read all 16 p", 15), 15);
    journal_close(&j);
    assert_int_equal(read_back(&ev), 1);
    assert_true(ev.torn);
    CHECK_STATUS(journal_reopen(&j, path, ev.whole_bytes, (struct journal_calls){NULL, NULL}),
                 STATUS_OK);
    e = reading(1);
    CHECK_STATUS(journal_append(&j, &e), STATUS_OK);
    journal_close(&j);
    assert_int_equal(read_back(&ev), 2);
    assert_false(ev.torn);
}

static void a_changed_line_is_a_mistake_with_its_line(void **state)
{
    (void)state;
    struct journal j;
    char buf[8192];
    struct journal_events ev;
    struct diag_list diags = {.n = 0};
    CHECK_STATUS(journal_create(&j, path, (struct journal_calls){NULL, NULL}), STATUS_OK);
    struct log_event e = reading(0);
    CHECK_STATUS(journal_append(&j, &e), STATUS_OK);
    journal_close(&j);
    size_t n = slurp(buf, sizeof buf);
    char *digit = strstr(buf, "15 psi");
    assert_non_null(digit);
    digit[0] = '2';
    CHECK_STATUS(journal_parse(path, buf, n, &ev, &diags), STATUS_E_SYNTAX);
    assert_int_equal(diags.n, 1);
    assert_int_equal(diags.item[0].line, 2);
    assert_true(strstr(diags.item[0].text, "checksum") != NULL);
}

static void hand_written_lines_need_no_checksum(void **state)
{
    (void)state;
    static const char log[] = REFILL_LOG_HEAD "\n0 rig x.ini\n# pause\n0 read all 15 psi settled\n"
                                              "0 air on\n60 read all 19 psi settled";
    struct journal_events ev;
    struct diag_list diags = {.n = 0};
    CHECK_STATUS(journal_parse("x.log", log, sizeof log - 1, &ev, &diags), STATUS_OK);
    assert_int_equal(ev.n, 4);
    assert_false(ev.torn);
    assert_false(ev.checked);
}

static void every_mistake_of_a_log_is_told(void **state)
{
    (void)state;
    static const char log[] = REFILL_LOG_HEAD "\n0 rig x.ini\n5 reed all 15 psi settled\n"
                                              "5 read all 15 settled\n4 air on\n3 air off\n";
    struct journal_events ev;
    struct diag_list diags = {.n = 0};
    CHECK_STATUS(journal_parse("x.log", log, sizeof log - 1, &ev, &diags), STATUS_E_SYNTAX);
    assert_int_equal(diags.n, 3);
    assert_int_equal(diags.item[0].line, 3);
    assert_int_equal(diags.item[1].line, 4);
    assert_int_equal(diags.item[2].line, 6);
}

/* what stands after the end, and a rig that changes on the way */
static void a_log_is_of_one_job_and_rig(void **state)
{
    (void)state;
    static const char log[] =
        REFILL_LOG_HEAD "\n0 rig x.ini\n0 rig y.ini\n5 done\n6 note later\n7 air on\n"
                        "8 read all 15 psi settled\n";
    struct journal_events ev;
    struct diag_list diags = {.n = 0};
    CHECK_STATUS(journal_parse("x.log", log, sizeof log - 1, &ev, &diags), STATUS_E_SYNTAX);
    assert_int_equal(diags.n, 3);
    assert_int_equal(diags.item[0].line, 3);
    assert_int_equal(diags.item[1].line, 6);
    assert_int_equal(diags.item[2].line, 7);
}

/* A writer that is killed at a random moment: every line it was promised is there. */
static void twenty_kills_lose_nothing(void **state)
{
    (void)state;
    for (int round = 0; round < 20; round++) {
        int promised[2];
        assert_int_equal(pipe(promised), 0);
        pid_t pid = fork();
        if (pid == 0) {
            struct journal j;
            if (journal_create(&j, path, (struct journal_calls){NULL, NULL}) != STATUS_OK) {
                _exit(1);
            }
            for (int i = 0; i < 300; i++) {
                struct log_event e = reading(i);
                if (journal_append(&j, &e) != STATUS_OK || write(promised[1], "x", 1) != 1) {
                    _exit(1);
                }
            }
            _exit(0);
        }
        close(promised[1]);
        char c;
        int seen = 0;
        while (seen < 1 + 7 * round && read(promised[0], &c, 1) == 1) {
            seen++;
        }
        kill(pid, SIGKILL);
        waitpid(pid, NULL, 0);
        while (read(promised[0], &c, 1) == 1) {
            seen++;
        }
        close(promised[0]);
        struct journal_events ev;
        char buf[65536];
        struct diag_list diags = {.n = 0};
        size_t n = slurp(buf, sizeof buf);
        CHECK_STATUS(journal_parse(path, buf, n, &ev, &diags), STATUS_OK);
        CHECK_BETWEEN(ev.n, seen, seen + 1, "what was promised, and at most the line in work");
        unlink(path);
    }
}

int main(int argc, char **argv)
{
#define WITH_FOLDER(f) cmocka_unit_test_setup_teardown(f, make_folder, drop_folder)
    const struct CMUnitTest tests[] = {
        WITH_FOLDER(a_full_disk_cuts_back_to_whole_lines),
        WITH_FOLDER(no_empty_file_is_left),
        WITH_FOLDER(an_old_file_is_never_overwritten),
        WITH_FOLDER(every_torn_end_is_seen),
        WITH_FOLDER(a_reopened_file_goes_on_after_a_torn_line),
        WITH_FOLDER(a_changed_line_is_a_mistake_with_its_line),
        cmocka_unit_test(hand_written_lines_need_no_checksum),
        cmocka_unit_test(every_mistake_of_a_log_is_told),
        cmocka_unit_test(a_log_is_of_one_job_and_rig),
        WITH_FOLDER(twenty_kills_lose_nothing),
    };
    return check_run("journal", tests, sizeof tests / sizeof tests[0], argc, argv);
}
