/* test_clock_acts.c - corners off the line, and what the rows and the record say of them. */
#include "support/check.h"

#include <string.h>

#include "support/clock_runs.h"

#define SINGLE_UP                                                                                  \
    "keys a u o o a\ntype 18\nkeys Enter Space y Enter Enter Enter\ntick 9\n" /* rear-left fills */
#define REAR_LEFT   LOG_CORNER_BIT(AXLE_REAR, SIDE_LEFT)
#define FRONT_RIGHT LOG_CORNER_BIT(AXLE_FRONT, SIDE_RIGHT)

/* a corner that waits is left out: air stays in the one that fills, and only that is ever read */
static void leaving_out_a_waiting_corner_stops_nothing(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    tui_script(t, SINGLE_UP "keys Right d\n");
    assert_int_equal(job(t)->session.dropped, FRONT_RIGHT);
    assert_true(job(t)->session.air);
    assert_int_equal(session_open(&job(t)->session), REAR_LEFT);
    tui_script(t, "keys Space\ntick 40\n");
    assert_int_equal(clock_prompt_of(&t->model).call, CALL_READ);
    assert_int_equal(clock_prompt_of(&t->model).corners, REAR_LEFT);
    tui_end(t);
}

/* every corner off the line with the source on: stop it, then end; short of the target is said */
static void with_all_corners_off_air_is_stopped(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    assert_shows(tui_script(t, CLOCK_ON "tick 40\nkeys a d\ntick 1\ntext\n"),
                 "STOP AIR: every corner is off");
    tui_script(t, "tick 42\nkeys Enter\ntick 30\n");
    assert_false(job(t)->session.air);
    assert_int_equal(clock_prompt_of(&t->model).call, CALL_READ);
    assert_shows(tui_script(t, "tick 80\ntype 21\nkeys Enter\ntick 1\ntext\n"),
                 "ALL OFF, not at target: all");
    assert_shows(tui_script(t, "keys Enter\ntext\n"), "End the job here?");
    tui_script(t, "keys y\n");
    assert_true(job(t)->session.done);
    tui_end(t);
}

/* let down, the last valve shut is the end of the air */
static void the_last_valve_shut_ends_the_air(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    tui_script(t, CLOCK_DOWN "tick 20\nkeys a d\n");
    assert_false(job(t)->session.air);
    tui_script(t, "keys z\n");
    assert_true(job(t)->session.air);
    assert_shows(tui_script(t, "tick 30\nkeys d d\ntext\n"), "Back on. Space when air flows.");
    assert_false(job(t)->session.air);
    tui_end(t);
}

static void a_job_the_wrong_way_is_told_so(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    const char *frame = tui_script(t, "keys a a\ntype 15\nkeys Enter Space\ntext\n");
    assert_shows(frame, "Nothing to let down: no corner is above its target");
    tui_end(t);
    t = clock_session();
    frame = tui_script(t, "keys a u a\ntype 55\nkeys Enter Space\ntext\n");
    assert_shows(frame, "Nothing to fill: no corner on the line is below its target");
    tui_end(t);
}

/* with the air stopped there is nothing to shut now */
static void stopped_air_asks_for_no_haste(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    tui_script(t, CLOCK_DOWN "tick 9\n");
    for (int i = 0; i < 60 && clock_prompt_of(&t->model).call == CALL_NONE; i++)
        clock_wait(t, 20 + 10 * (i + 1));
    assert_shows(clock_frame(t), "SHUT NOW");
    double at_s = clock_now_s(&t->model);
    clock_press(t, ' ', at_s);
    clock_wait(t, at_s + 1);
    assert_hides(clock_frame(t), "SHUT NOW");
    assert_shows(clock_frame(t), "REACHED");
    tui_end(t);
}

/* a reading stands as it was typed, before the first air and as the start */
static void half_a_psi_is_shown(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    const char *frame = tui_script(t, "keys a a\ntype 47.5\nkeys Enter\ntext\n");
    assert_shows(frame, " 47.5  47.5");
    tui_end(t);
}

/* no finish time for a corner without air; undone readings do not count; the stop is its off */
static void the_record_tells_what_was(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    tui_script(t, "keys a u a\ntype 18\nkeys Enter Left d Space y Enter Enter Enter\ntick 30\n");
    assert_true(job(t)->session.air);
    const char *frame = tui_script(t, "text\n"), *row = strstr(frame, "[front left]");
    assert_non_null(row);
    const char *no_air = strstr(row, "NO AIR"), *time = strchr(row, ':');
    assert_true(no_air != NULL && time != NULL && time > no_air);
    tui_script(
        t, "tick 60\nkeys Space\ntick 25\nkeys a\ntype 22\nkeys Enter z\ntype 23\nkeys Enter\n");
    frame = tui_script(t, "keys e y\ntext\n");
    assert_shows(frame, "2 readings");
    assert_shows(frame, "1:00"); /* of air, then stopped */
    assert_shows(frame, "no air");
    tui_end(t);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(leaving_out_a_waiting_corner_stops_nothing),
        cmocka_unit_test(with_all_corners_off_air_is_stopped),
        cmocka_unit_test(the_last_valve_shut_ends_the_air),
        cmocka_unit_test(a_job_the_wrong_way_is_told_so),
        cmocka_unit_test(stopped_air_asks_for_no_haste),
        cmocka_unit_test(half_a_psi_is_shown),
        cmocka_unit_test(the_record_tells_what_was),
    };
    return check_run("clock acts", tests, sizeof tests / sizeof *tests, argc, argv);
}
