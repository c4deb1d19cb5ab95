/* test_clock_kill.c - twenty kills of a live session at moments of chance: what it called saved is in
 * the record, and the next start goes on from it.  SANDSHOE names the program. */
#include "support/check.h"

#include <dirent.h>
#include <poll.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>

#include "tty/vt.h"

enum { KILLS = 20, RECORD = 200000 };

static char home[] = "/tmp/sandshoe-kill-XXXXXX";

static struct vt *begin(void)
{
    struct vt_start start = {
        .term = "xterm-256color", .rig = "flatbed-cabin", .rows = 24, .cols = 80, .home = home};
    struct vt *v = calloc(1, sizeof *v);
    assert_non_null(v);
    vt_open(v, &start);
    return v;
}

/* The one record there is, as text; "" when there is none yet. */
static void read_record(char text[RECORD])
{
    char dir[200], path[600];
    struct dirent **entry = NULL;
    snprintf(dir, sizeof dir, "%s/sandshoe/logs", home);
    int n = scandir(dir, &entry, NULL, alphasort);
    text[0] = '\0';
    for (int i = 0; i < n; i++) {
        snprintf(path, sizeof path, "%s/%s", dir, entry[i]->d_name);
        FILE *f = entry[i]->d_name[0] != '.' ? fopen(path, "r") : NULL;
        if (f != NULL) {
            text[fread(text, 1, RECORD - 1, f)] = '\0';
            fclose(f);
        }
        free(entry[i]);
    }
    free(entry);
}

static int readings_in(const char *text)
{
    int n = 0;
    for (const char *at = text; (at = strstr(at, " read ")) != NULL; at++)
        n += strchr(at, '\n') != NULL;
    return n;
}

/* Until the record holds n readings and the screen says so. */
static void wait_saved(struct vt *v, int n)
{
    static char text[RECORD];
    struct timespec start, now;
    clock_gettime(CLOCK_MONOTONIC, &start);
    do {
        vt_wait(v, "saved");
        read_record(text);
        clock_gettime(CLOCK_MONOTONIC, &now);
        if ((now.tv_sec - start.tv_sec) * 1000 > VT_DEADLINE_MS)
            fail_msg("%d readings in the record, not %d:\n%s", readings_in(text), n, text);
    } while (readings_in(text) < n);
    vt_wait(v, "saved");
}

static void first_air(struct vt *v)
{
    vt_wait(v, "FRONT");
    vt_send(v, "gu");
    vt_wait(v, "CAP 25 km/h");
    vt_send(v, "a");
    vt_wait(v, "air down");
    vt_send(v, "ua18\r");
    wait_saved(v, 1);
    vt_send(v, " ");
    vt_wait(v, "No air-down");
    vt_send(v, "y");
    vt_wait(v, "Before you start");
    vt_send(v, "\r\r\r");
    vt_wait(v, "AIR ON");
}

static void go_on(struct vt *v, int n)
{
    char words[32];
    snprintf(words, sizeof words, "%d readings", n);
    vt_wait(v, "An unfinished job");
    vt_wait(v, words);
    vt_send(v, "y");
    vt_wait(v, "Did air flow all that time");
    vt_send(v, "y");
    vt_wait(v, "AIR ON");
    vt_wait(v, "saved");
}

/* A reading that counts, then one that is cut off at a moment of chance. */
static void read_and_kill(struct vt *v, int n, unsigned *seed)
{
    static char promised[RECORD], after[RECORD];
    vt_send(v, "26\r");
    wait_saved(v, n);
    read_record(promised);
    vt_send(v, "27\r");
    struct pollfd never = {.fd = -1};
    poll(&never, 1, (int)(rand_r(seed) % 40)); /* the moment of chance, ms */
    kill(v->program, SIGKILL);
    int status = vt_wait_end(v);
    assert_true(WIFSIGNALED(status) || WEXITSTATUS(status) != 0);
    read_record(after);
    if (strncmp(promised, after, strlen(promised)) != 0)
        fail_msg("saved:\n%s\nafter the kill:\n%s", promised, after);
}

static void twenty_kills_lose_nothing(void **state)
{
    (void)state;
    static char text[RECORD];
    unsigned seed = 20260525;
    printf("seed %u\n", seed);
    struct vt *v = begin();
    first_air(v);
    for (int i = 0; i < KILLS; i++) {
        read_record(text);
        int n = readings_in(text);
        if (i > 0)
            go_on(v, n);
        read_and_kill(v, n + 1, &seed);
        vt_close(v);
        free(v);
        v = begin();
    }
    read_record(text);
    assert_true(readings_in(text) > KILLS);
    go_on(v, readings_in(text));
    vt_send(v, "\003");
    vt_wait_end(v);
    vt_close(v);
    free(v);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(twenty_kills_lose_nothing)};
    signal(SIGPIPE, SIG_IGN);
    if (mkdtemp(home) == NULL)
        return 2;
    int failed = check_run("clock kill", tests, sizeof tests / sizeof *tests, argc, argv);
    vt_remove_tree(home);
    return failed;
}
