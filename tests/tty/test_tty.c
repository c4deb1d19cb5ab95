/* test_tty.c - the session on a real terminal line: start, keys, resize, suspend, signals, poor
 * terminals.  SANDSHOE names the program. */
#include "support/check.h"

#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/wait.h>
#include <termios.h>
#include <unistd.h>

#include "tty/vt.h"

static char home[] = "/tmp/sandshoe-tty-XXXXXX";

static struct vt_start usual(void)
{
    return (struct vt_start){
        .term = "xterm-256color", .rig = "flatbed-cabin", .rows = 24, .cols = 80, .home = home};
}

static struct vt *begin(const struct vt_start *start)
{
    struct vt *v = calloc(1, sizeof *v);
    assert_non_null(v);
    vt_open(v, start);
    return v;
}

static struct vt *on_corners(void)
{
    struct vt_start start = usual();
    struct vt *v = begin(&start);
    vt_wait(v, "Corners");
    vt_wait(v, "FRONT");
    return v;
}

static void finish(struct vt *v)
{
    vt_close(v);
    free(v);
}

static void ends_well(struct vt *v)
{
    int status = vt_wait_end(v);
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), 0);
    assert_true(vt_modes_restored(v));
    assert_false(vt_shows(v, "FRONT"));
    finish(v);
}

static void starts_shows_and_leaves(void **state)
{
    (void)state;
    struct vt *v = on_corners();
    assert_false(vt_modes_restored(v));
    vt_send(v, "q");
    ends_well(v);
}

static void keys_act(void **state)
{
    (void)state;
    struct vt *v = on_corners();
    vt_send(v, "g");
    vt_wait(v, "Which ground?");
    vt_send(v, "u");
    vt_wait(v, "CAP 25 km/h");
    vt_send(v, "\033OB"); /* arrow down, as a keypad in application mode sends it */
    vt_wait(v, "[rear left]");
    vt_send(v, "\t");
    vt_wait(v, "[rear right]");
    vt_send(v, "g");
    vt_wait(v, "Which ground?");
    vt_send(v, "\033"); /* Esc alone */
    vt_wait_gone(v, "Which ground?");
    vt_send(v, "q");
    ends_well(v);
}

static void resizes_live(void **state)
{
    (void)state;
    struct vt *v = on_corners();
    vt_resize(v, 43, 132);
    vt_wait(v, "e edit");
    vt_resize(v, 10, 40);
    vt_wait(v, "needs 60x20, have 40x10");
    vt_resize(v, 20, 60);
    vt_wait(v, "front L");
    vt_send(v, "q");
    ends_well(v);
}

/* An interrupt that empties the queue after the program has seen a key in it leaves the program in
 * a read that never ends: the line must keep its queue, now and after a stop. */
static void an_interrupt_leaves_the_queue_alone(void **state)
{
    (void)state;
    struct vt *v = on_corners();
    struct termios now;
    assert_int_equal(tcgetattr(v->line, &now), 0);
    assert_true((now.c_lflag & NOFLSH) != 0);
    vt_send(v, "\032");
    vt_wait_stopped(v);
    vt_continue(v);
    vt_wait(v, "FRONT");
    assert_int_equal(tcgetattr(v->line, &now), 0);
    assert_true((now.c_lflag & NOFLSH) != 0);
    vt_send(v, "j\003");
    ends_well(v);
}

static void suspends_and_comes_back(void **state)
{
    (void)state;
    struct vt *v = on_corners();
    vt_send(v, "\032");
    vt_wait_stopped(v);
    assert_true(vt_modes_restored(v));
    vt_wait_gone(v, "FRONT");
    vt_continue(v);
    vt_wait(v, "FRONT");
    assert_false(vt_modes_restored(v));
    vt_send(v, "p");
    vt_wait(v, "Footprint");
    vt_send(v, "qq");
    ends_well(v);
}

static void comes_back_to_another_size(void **state)
{
    (void)state;
    struct vt *v = on_corners();
    vt_send(v, "\032");
    vt_wait_stopped(v);
    vt_resize(v, 20, 60);
    vt_continue(v);
    vt_wait(v, "front L");
    vt_send(v, "q");
    ends_well(v);
}

static void signals_put_the_terminal_back(void **state)
{
    (void)state;
    static const int signals[] = {SIGTERM, SIGHUP, SIGINT};
    for (size_t i = 0; i < sizeof signals / sizeof *signals; i++) {
        struct vt *v = on_corners();
        kill(v->program, signals[i]);
        ends_well(v);
    }
    struct vt *v = on_corners();
    vt_send(v, "\003");
    ends_well(v);
}

static void a_crash_puts_it_back_too(void **state)
{
    (void)state;
    struct vt *v = on_corners();
    kill(v->program, SIGSEGV);
    int status = vt_wait_end(v);
    assert_true(WIFSIGNALED(status) || WEXITSTATUS(status) != 0);
    assert_true(vt_modes_restored(v));
    vt_wait_gone(v, "FRONT");
    finish(v);
}

static void an_old_terminal_serves(void **state)
{
    (void)state;
    struct vt_start start = usual();
    start.term = "vt100";
    struct vt *v = begin(&start);
    vt_wait(v, "FRONT");
    vt_send(v, "gu");
    vt_wait(v, "CAP 25 km/h");
    vt_send(v, "q");
    int status = vt_wait_end(v);
    assert_true(WIFEXITED(status) && WEXITSTATUS(status) == 0);
    assert_true(vt_modes_restored(v));
    finish(v);
}

static void says_and_ends(const struct vt_start *start, int exit_status, const char *words)
{
    struct vt *v = begin(start);
    int status = vt_wait_end(v);
    assert_true(WIFEXITED(status));
    assert_int_equal(WEXITSTATUS(status), exit_status);
    if (strstr(v->said, words) == NULL)
        fail_msg("said: %s", v->said);
    assert_true(vt_modes_restored(v));
    finish(v);
}

static void poor_terminals_are_told(void **state)
{
    (void)state;
    struct vt_start start = usual();
    start.term = "dumb";
    says_and_ends(&start, 5, "cannot place the cursor");
    start.term = "no-such-terminal";
    says_and_ends(&start, 5, "not known here");
}

static void a_pipe_is_told(void **state)
{
    (void)state;
    struct vt_start start = usual();
    start.stdin_null = true;
    says_and_ends(&start, 2, "needs a terminal");
}

static void without_a_rig_it_asks(void **state)
{
    (void)state;
    struct vt_start start = usual();
    start.rig = NULL;
    struct vt *v = begin(&start);
    vt_wait(v, "tyre size");
    vt_send(v, "35x12.50R17LT 121 E\r1950\r2350\ru");
    vt_wait(v, "CAP 25 km/h");
    vt_send(v, "\r");
    vt_wait(v, "FRONT");
    vt_send(v, "\003");
    ends_well(v);
}

static bool any_colour(const struct vt *v)
{
    for (int row = 0; row < v->rows; row++)
        for (int col = 0; col < v->cols; col++) {
            VTermScreenCell cell;
            VTermPos pos = {row, col};
            vterm_screen_get_cell(v->screen, pos, &cell);
            if (!VTERM_COLOR_IS_DEFAULT_FG(&cell.fg) || !VTERM_COLOR_IS_DEFAULT_BG(&cell.bg))
                return true;
        }
    return false;
}

static void no_color_is_heeded(void **state)
{
    (void)state;
    struct vt_start start = usual();
    for (int i = 0; i < 2; i++) {
        start.no_color = i == 1;
        struct vt *v = begin(&start);
        vt_wait(v, "FRONT");
        vt_send(v, "gu");
        vt_wait(v, "DANGER");
        vt_wait(v, "CAP 25 km/h");
        assert_int_equal(any_colour(v), !start.no_color);
        vt_send(v, "q");
        ends_well(v);
    }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(starts_shows_and_leaves),
        cmocka_unit_test(keys_act),
        cmocka_unit_test(resizes_live),
        cmocka_unit_test(an_interrupt_leaves_the_queue_alone),
        cmocka_unit_test(suspends_and_comes_back),
        cmocka_unit_test(comes_back_to_another_size),
        cmocka_unit_test(signals_put_the_terminal_back),
        cmocka_unit_test(a_crash_puts_it_back_too),
        cmocka_unit_test(an_old_terminal_serves),
        cmocka_unit_test(poor_terminals_are_told),
        cmocka_unit_test(a_pipe_is_told),
        cmocka_unit_test(without_a_rig_it_asks),
        cmocka_unit_test(no_color_is_heeded),
    };
    signal(SIGPIPE, SIG_IGN);
    if (mkdtemp(home) == NULL)
        return 2;
    int failed = check_run("tty", tests, sizeof tests / sizeof *tests, argc, argv);
    vt_remove_tree(home);
    return failed;
}
