/* test_clock_settle.c - corners that were shut: each is counted down, read and judged by itself. */
#include "support/check.h"

#include <string.h>

#include "support/clock_runs.h"

#define FRONT_LEFT  LOG_CORNER_BIT(AXLE_FRONT, SIDE_LEFT)
#define FRONT_RIGHT LOG_CORNER_BIT(AXLE_FRONT, SIDE_RIGHT)
#define REAR_LEFT   LOG_CORNER_BIT(AXLE_REAR, SIDE_LEFT)
#define REAR_RIGHT  LOG_CORNER_BIT(AXLE_REAR, SIDE_RIGHT)

static void press(struct tui_session *t, const char *keys, double at_s)
{
    clock_wait(t, at_s);
    for (; *keys != '\0'; keys++)
        clock_press(t, *keys == '\n' ? TKEY_ENTER : *keys, at_s);
    model_update(&t->model, &(struct event){.kind = EVENT_SAVE, .now_ns = (int64_t)(at_s * 1e9)});
}

/* rear-left shut at 30 s, front-left at 36 s, the others at 42 s */
static struct tui_session *shut_apart(void)
{
    struct tui_session *t = clock_session();
    tui_script(t, CLOCK_DOWN);
    press(t, "hjd", 30);
    press(t, "kd", 36);
    press(t, "ldjd", 42);
    assert_int_equal(job(t)->session.dropped, job(t)->session.present);
    return t;
}

static void assert_calls(struct tui_session *t, enum clock_call call, unsigned corners)
{
    struct clock_prompt p = clock_prompt_of(&t->model);
    assert_int_equal(p.call, call);
    assert_int_equal(p.corners, corners);
}

/* 20 s of settling each, from its own stop */
static void each_corner_settles_by_itself(void **state)
{
    (void)state;
    struct tui_session *t = shut_apart();
    clock_wait(t, 43);
    assert_shows(clock_frame(t),
                 "Settled in 7 s, then read rear-left; in 13 s front-left; in 19 s");
    assert_calls(t, CALL_NONE, 0);
    clock_wait(t, 50);
    assert_calls(t, CALL_READ, REAR_LEFT);
    clock_wait(t, 56);
    assert_calls(t, CALL_READ, REAR_LEFT | FRONT_LEFT);
    press(t, "\n", 57); /* seen: no bell, still to read */
    assert_calls(t, CALL_NONE, 0);
    clock_wait(t, 62);
    assert_calls(t, CALL_READ, FRONT_RIGHT | REAR_RIGHT);
    assert_shows(clock_frame(t), "Still to read: front-left rear-left.");
    tui_end(t);
}

/* the call to read outlives the reading of another corner */
static void a_reading_answers_for_its_own_corner(void **state)
{
    (void)state;
    struct tui_session *t = shut_apart();
    clock_wait(t, 65);
    assert_calls(t, CALL_READ, job(t)->session.present);
    press(t, "33\n", 66); /* rear-right is picked */
    assert_calls(t, CALL_READ, FRONT_LEFT | FRONT_RIGHT | REAR_LEFT);
    tui_end(t);
}

/* half a minute down from 38 psi is not 18: shut is not done */
static void shut_is_not_at_its_target(void **state)
{
    (void)state;
    struct tui_session *t = shut_apart();
    clock_wait(t, 43);
    assert_shows(clock_frame(t), "SETTLES");
    assert_hides(clock_frame(t), "DONE");
    press(t, "\n", 65);
    assert_shows(clock_frame(t), "READ NOW");
    assert_hides(clock_frame(t), "AT TARGET");
    press(t, "a33\n", 66);
    assert_shows(clock_frame(t), "HIGH");
    assert_hides(clock_frame(t), "AT TARGET");
    assert_hides(clock_frame(t), "DONE");
    press(t, "18\ny ", 67); /* and the air key: nothing is open any more */
    assert_shows(clock_frame(t), "DONE");
    assert_shows(clock_frame(t), "AT TARGET");
    tui_end(t);
}

/* the end record compares what both sides were left with, not a start with an end */
static void sides_are_compared_as_they_were_left(void **state)
{
    (void)state;
    for (int both = 0; both < 2; both++) {
        struct tui_session *t = shut_apart();
        press(t, "33\n", 66); /* rear-right */
        press(t, both ? "h30\n" : "h", 67);
        press(t, "ey", 68);
        assert_shows(clock_frame(t), "record: air down");
        if (both)
            assert_shows(clock_frame(t), "differ by 3 psi");
        else
            assert_hides(clock_frame(t), "differ");
        tui_end(t);
    }
}

/* another ground: the job keeps its targets, says so, and takes the new ones on t */
static void a_job_keeps_its_targets(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin("flatbed-cabin", "greasy-clay", 80, 24);
    const struct session *s = &job(t)->session;
    tui_script(t, "keys a a\ntype 38\nkeys Enter\n");
    double clay_pa = s->in.corner[0].target_gauge_pa;
    assert_hides(clock_frame(t), "Targets kept");
    model_ground(&t->model, (int)(ground_find(&t->grounds, "dune-sand") - t->grounds.item));
    clock_wait(t, 1);
    CHECK_CLOSE(s->in.corner[0].target_gauge_pa, clay_pa, 1, 0, "the job's own");
    assert_shows(clock_frame(t), "Targets kept; now 18/23 psi, t takes them.");
    press(t, "t", 2);
    CHECK_CLOSE(s->in.corner[0].target_gauge_pa, 18 * UNITS_PA_PER_PSI, 1, 0, "dune sand's");
    assert_hides(clock_frame(t), "Targets kept");
    press(t, "zz", 3);
    CHECK_CLOSE(s->in.corner[0].target_gauge_pa, clay_pa, 1, 0, "taken back");
    assert_shows(clock_frame(t), "Targets kept");
    model_ground(&t->model, (int)(ground_find(&t->grounds, "sealed-road") - t->grounds.item));
    clock_wait(t, 4); /* nobody lets down to a road's pressures */
    assert_hides(clock_frame(t), "Targets kept");
    tui_end(t);
}

/* three axles: each is told where to stop, also where rows are few; the footer leads to the rest */
static void every_axle_is_told_where_to_stop(void **state)
{
    (void)state;
    static const struct {
        int cols, rows;
        const char *words[3];
    } sizes[] = {{80, 24, {"front: stop at", "rear: stop at", "trailer: stop at"}},
                 {60, 20, {"stop at: front ", ", rear ", ", trailer "}}};
    struct tui_session *t = tui_begin("touring-wagon", "dune-sand", 80, 24);
    tui_script(t, "keys a u a\ntype 15\nkeys Enter Space y Enter Enter Enter\n");
    clock_wait(t, 30);
    assert_true(job(t)->session.air);
    for (size_t i = 0; i < 2; i++) {
        t->cols = sizes[i].cols;
        t->rows = sizes[i].rows;
        for (int k = 0; k < 3; k++)
            assert_shows(clock_frame(t), sizes[i].words[k]);
        assert_shows(clock_frame(t), "z undo");
        assert_shows(clock_frame(t), "? help");
    }
    tui_end(t);
}

/* up: a corner taken off while the others fill is read when it has settled; on again, it is not */
static void a_corner_off_the_line_is_read_while_others_fill(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    tui_script(t, CLOCK_ON);
    press(t, "hjd", 60);
    clock_wait(t, 79);
    assert_calls(t, CALL_NONE, 0);
    clock_wait(t, 81);
    assert_true(job(t)->session.air);
    assert_calls(t, CALL_READ, REAR_LEFT);
    press(t, "d", 82);
    assert_calls(t, CALL_NONE, 0);
    tui_end(t);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(each_corner_settles_by_itself),
        cmocka_unit_test(a_reading_answers_for_its_own_corner),
        cmocka_unit_test(shut_is_not_at_its_target),
        cmocka_unit_test(sides_are_compared_as_they_were_left),
        cmocka_unit_test(a_job_keeps_its_targets),
        cmocka_unit_test(every_axle_is_told_where_to_stop),
        cmocka_unit_test(a_corner_off_the_line_is_read_while_others_fill),
    };
    return check_run("clock settle", tests, sizeof tests / sizeof *tests, argc, argv);
}
