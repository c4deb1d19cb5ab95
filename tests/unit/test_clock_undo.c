/* test_clock_undo.c - acts taken back: the state before, after a restart too; what no key undoes. */
#include "support/check.h"

#include <string.h>

#include "support/clock_runs.h"

#define CLOCK_SINGLE_UP "keys a\ntype 18\nkeys Enter Space y Enter Enter Enter\n"

/* one key gives a tyre found low no air, nor does an undo, nor a restart: 29 CFR 1910.177 (e)(2) */
static void a_tyre_found_low_stays_without(void **state)
{
    (void)state;
    const unsigned bit = LOG_CORNER_BIT(AXLE_REAR, SIDE_RIGHT);
    for (int restarted = 0; restarted < 2; restarted++) {
        struct tui_session *t = clock_session();
        tui_script(t, "keys a u a\ntype 18\nkeys Enter Down Left\ntype 23\nkeys Enter Right\n"
                      "type 17\nkeys Enter Space y Space y Enter Enter Enter\ntick 5\n");
        assert_true(job(t)->session.air && (job(t)->session.dropped & bit) != 0);
        if (restarted) {
            clock_restart(t);
            tui_script(t, "keys y y Down Right\n");
        }
        assert_shows(tui_script(t, "keys d\ntext\n"), "Found low: no air for it in this job");
        assert_true((job(t)->session.dropped & bit) != 0);
        tui_script(t, "keys Left d z z z z\n");
        assert_int_equal(job(t)->session.dropped, bit);
        assert_shows(tui_script(t, "text\n"), "NO AIR");
        tui_script(t, "keys a d d\n");
        assert_int_equal(job(t)->session.dropped, bit);
        tui_end(t);
    }
}

static void same_state(const struct session *now, const struct session *then)
{
    assert_int_equal(session_open(now), session_open(then));
    assert_int_equal(now->dropped, then->dropped);
    assert_int_equal(now->hookup, then->hookup);
    assert_int_equal(now->air, then->air);
    assert_int_equal(now->started, then->started);
    for (int i = 0; i < REFILL_CORNERS; i++) {
        CHECK_CLOSE(now->start_gauge_pa[i], then->start_gauge_pa[i], 1, 0, "the state before");
        CHECK_CLOSE(now->in.corner[i].target_gauge_pa, then->in.corner[i].target_gauge_pa, 1, 0,
                    "the state before");
    }
}

/* z gives back the state before, whatever the act and the hook-up, after a restart as well */
static void an_undo_gives_the_state_before(void **state)
{
    (void)state;
    static const char *const jobs[] = {CLOCK_ON, CLOCK_DOWN, "keys a u o\n" CLOCK_SINGLE_UP,
                                       "keys a u o o\n" CLOCK_SINGLE_UP};
    static const char *const acts[] = {"keys d\n",
                                       "keys a d\n",
                                       "keys Right d\n",
                                       "keys o\n",
                                       "type 30\nkeys t\n",
                                       "keys Right\ntype 29\nkeys t\n",
                                       "type 25\nkeys Enter\n"};
    for (size_t k = 0; k < sizeof jobs / sizeof *jobs; k++)
        for (size_t i = 0; i < 2 * (sizeof acts / sizeof *acts); i++) {
            struct tui_session *t = clock_session();
            tui_script(t, jobs[k]);
            tui_script(t, "tick 9\n");
            struct session before = job(t)->session;
            int acts_before = job(t)->n_act;
            tui_script(t, acts[i / 2]);
            tui_script(t, t->model.at.clock.ask.kind == ASK_KEEP ? "keys y\n" : "");
            if (i % 2 != 0) {
                clock_restart(t);
                tui_script(t, "keys y\n");
                tui_script(t, t->model.at.clock.ask.kind == ASK_GAP ? "keys y\n" : "");
                const struct clock_act *last = &job(t)->act[job(t)->n_act - 1];
                tui_script(t, last->word == LOG_GAP ? "keys z\n" : ""); /* it is an act, too */
            }
            assert_int_equal(job(t)->n_act, acts_before + 1);
            tui_script(t, "keys z\n");
            same_state(&job(t)->session, &before);
            assert_int_equal(job(t)->n_act, acts_before);
            tui_end(t);
        }
}

/* readings of the start undone: what was planned from stands again */
static void start_readings_undone_leave_nothing(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    tui_script(t, "keys a\n");
    struct session before = job(t)->session;
    tui_script(t, "keys a\ntype 38\nkeys Enter z\n");
    same_state(&job(t)->session, &before);
    tui_end(t);
}

/* the log of a restarted job holds its undos: they are no acts to take back */
static void an_undo_is_no_act_after_a_restart(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    tui_script(t, CLOCK_DOWN "tick 9\nkeys a\ntype 30\nkeys t Right\ntype 22\nkeys t z\n");
    double before_pa = job(t)->session.in.corner[1].target_gauge_pa;
    assert_int_equal(job(t)->n_act, 1);
    clock_restart(t);
    tui_script(t, "keys y y\n");
    CHECK_CLOSE(job(t)->session.in.corner[1].target_gauge_pa, before_pa, 1, 0, "30 psi");
    assert_int_equal(job(t)->n_act, 1);
    assert_shows(tui_script(t, "keys z\ntext\n"), "Undone: new target of all");
    assert_shows(tui_script(t, "keys z\ntext\n"), "Nothing to undo since the first air");
    tui_end(t);
}

/* back on the line takes the act of that corner from the list, not the latest */
static void a_corner_joined_leaves_the_others_acts(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    const unsigned left = LOG_CORNER_BIT(AXLE_FRONT, SIDE_LEFT),
                   right = LOG_CORNER_BIT(AXLE_FRONT, SIDE_RIGHT);
    tui_script(t, CLOCK_ON "tick 9\nkeys Left d Right d Left d\n");
    assert_int_equal(job(t)->session.dropped, right);
    assert_shows(tui_script(t, "keys z\ntext\n"), "Undone: taken off: front-right");
    assert_int_equal(job(t)->session.dropped, 0);
    assert_true((job(t)->session.present & left) != 0);
    tui_end(t);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(a_tyre_found_low_stays_without),
        cmocka_unit_test(an_undo_gives_the_state_before),
        cmocka_unit_test(start_readings_undone_leave_nothing),
        cmocka_unit_test(an_undo_is_no_act_after_a_restart),
        cmocka_unit_test(a_corner_joined_leaves_the_others_acts),
    };
    return check_run("clock undo", tests, sizeof tests / sizeof *tests, argc, argv);
}
