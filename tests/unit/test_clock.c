/* test_clock.c - the air clock through whole jobs: keys and ticks in, record and forecast out. */
#include "support/check.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "core/refill_note.h"
#include "support/clock_runs.h"
#include "tui/clock_rows.h"

/* what the screen says is what a reader of the file computes: same events, same forecast */
static void replay_gives_the_live_forecast(void **state)
{
    (void)state;
    static const char *const scripts[] = {
        CLOCK_MID, CLOCK_MID "type 30\nkeys Enter\ntick 9\nkeys z d\ntick 5\n",
        CLOCK_ON "tick 40\ntype 24\nkeys Enter o\ntick 20\nkeys r\ntick 30\nkeys Space\ntick 9\n",
        "keys t\ntype 5\nkeys Tab Tab\ntype 1500\nkeys Enter " CLOCK_ON_KEYS
        "tick 50\ntype 24\nkeys Enter\ntype 40\nkeys t\ntick 3\n"};
    static struct journal_events log;
    static struct forecast f;
    for (size_t i = 0; i < sizeof scripts / sizeof *scripts; i++) {
        struct tui_session *t = clock_session();
        struct forecast_out out;
        struct session s;
        tui_script(t, scripts[i]);
        clock_last_log(t, &log);
        assert_int_equal(log.n, job(t)->n_event);
        assert_true(log.checked);
        clock_replay(t, &log, &s);
        struct forecast_prior prior = forecast_prior_label();
        CHECK_STATUS(forecast_init(&f, 1, FORECAST_MEMBERS, &prior), STATUS_OK);
        double now_s = log.event[log.n - 1].at_s;
        CHECK_STATUS(forecast_update(&f, &s, now_s, &out), STATUS_OK);
        clock_job_forecast(job(t), now_s);
        for (int c = 0; c < REFILL_CORNERS; c++)
            CHECK_CLOSE(job(t)->out.corner[c].finish.p50_s, out.corner[c].finish.p50_s, 1e-6, 0,
                        "the record read back");
        CHECK_CLOSE(job(t)->out.finish.p95_s, out.finish.p95_s, 1e-6, 0, "the record read back");
        CHECK_CLOSE(job(t)->out.delivery.p50_1, out.delivery.p50_1, 1e-9, 0, "as before");
        tui_end(t);
    }
}

/* the frame says "saving", then the event is on disk, then it says "saved" */
static void the_frame_comes_before_the_disk(void **state)
{
    (void)state;
    static struct journal_events log;
    struct tui_session *t = clock_session();
    tui_script(t, CLOCK_ON);
    clock_last_log(t, &log);
    int before = log.n;
    int effects = clock_press(t, ' ', 5);
    assert_true((effects & EFFECT_SAVE) != 0 && (effects & EFFECT_REDRAW) != 0);
    assert_shows(clock_frame(t), "saving");
    clock_last_log(t, &log);
    assert_int_equal(log.n, before);
    model_update(&t->model, &(struct event){.kind = EVENT_SAVE, .now_ns = 5000000000});
    assert_shows(clock_frame(t), "saved");
    clock_last_log(t, &log);
    assert_int_equal(log.n, before + 1);
    tui_end(t);
}

/* undo goes back through readings, drops, targets; it says what; the record keeps it all */
static void undo_has_many_levels(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    tui_script(t, CLOCK_MID "type 30\nkeys Enter\ntype 40\nkeys t d\n");
    const struct session *s = &job(t)->session;
    assert_int_equal(s->dropped, s->present);
    assert_shows(tui_script(t, "keys z\ntext\n"), "Undone: taken off: all");
    assert_int_equal(s->dropped, 0);
    assert_shows(tui_script(t, "keys z\ntext\n"), "Undone: new target of all");
    CHECK_CLOSE(s->in.corner[0].target_gauge_pa, 38 * UNITS_PA_PER_PSI, 1, 0, "the rig's road");
    assert_shows(tui_script(t, "keys z\ntext\n"), "Undone: reading all 30.0 psi");
    assert_shows(tui_script(t, "keys z\ntext\n"), "Undone: reading all 23.0 psi. 0 more");
    assert_shows(tui_script(t, "keys z\ntext\n"), "Nothing to undo since the first air");
    int undone = 0;
    for (int i = 0; i < s->n_reading; i++)
        undone += s->reading[i].undone;
    assert_int_equal(undone, 2); /* the start reading stands: air has flowed from it */
    CHECK_CLOSE(s->start_gauge_pa[0], 18 * UNITS_PA_PER_PSI, 1, 0, "as read");
    tui_end(t);
}

/* what looks wrong is asked about and stored on yes only: S8 c and the plausibility rules */
static void doubtful_readings_are_asked_about(void **state)
{
    (void)state;
    static const struct {
        const char *typed, *words;
        int kept; /* no tyre holds 15 bar: not even on yes */
    } rows[] = {{"2.2", "2.2 looks like bar, not psi", 1},
                {"220", "220 looks like kPa, not psi", 0},
                {"66", "Above the moulded maximum, 65 psi", 1},
                {"12", "Below the floor", 1},
                {"45", "The forecast is", 1}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char script[128];
        struct tui_session *t = clock_session();
        tui_script(t, CLOCK_ON "tick 60\nkeys Space\ntick 25\n");
        int n = job(t)->session.n_reading;
        snprintf(script, sizeof script, "type %s\nkeys Enter\ntext\n", rows[i].typed);
        const char *frame = tui_script(t, script);
        assert_shows(frame, rows[i].words);
        assert_shows(frame, "Keep");
        assert_int_equal(job(t)->session.n_reading, n);
        tui_script(t, "keys n\n");
        assert_int_equal(job(t)->session.n_reading, n);
        tui_script(t, script);
        tui_script(t, "keys y\n");
        assert_int_equal(job(t)->session.n_reading, n + rows[i].kept);
        tui_script(t, "keys z\n");
        for (int r = 0; r < n + rows[i].kept; r++) /* the start stands */
            assert_int_equal(job(t)->session.reading[r].undone, r >= n);
        tui_end(t);
    }
}

/* no target past the bead, a casing or the moulded maximum; below the floor it is asked about:
 * contract, at-pressure: bead floor 12 psi for this size, refused 2 psi below */
static void targets_have_their_bounds(void **state)
{
    (void)state;
    static const struct {
        const char *typed, *words;
        double psi;
        bool asked, taken;
    } rows[] = {{"5", "Not taken: below what bead and casing take", 5, false, false},
                {"2", "Not taken: below what bead and casing take", 2, false, false},
                {"66", "Not taken: above the moulded maximum, 65.0 psi", 66, false, false},
                {"11", "CAUTION: below the floor, 12.0 psi", 11, true, false},
                {"19", "19.0", 19, false, true}};
    for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
        char script[64];
        struct tui_session *t = clock_session();
        tui_script(t, CLOCK_DOWN "tick 20\n");
        snprintf(script, sizeof script, "%stype %s\nkeys t\ntext\n",
                 rows[i].asked ? "keys Left\n" : "", rows[i].typed);
        double before_pa = job(t)->session.in.corner[0].target_gauge_pa;
        assert_shows(tui_script(t, script), rows[i].words);
        double typed_pa = rows[i].psi * UNITS_PA_PER_PSI;
        double now_pa = job(t)->session.in.corner[0].target_gauge_pa;
        CHECK_CLOSE(now_pa, rows[i].taken ? typed_pa : before_pa, 1, 0, "taken or left");
        assert_int_equal(t->model.at.clock.ask.kind, rows[i].asked ? ASK_KEEP : ASK_NOTHING);
        tui_script(t, rows[i].asked ? "keys y\n" : "");
        if (rows[i].asked)
            CHECK_CLOSE(job(t)->session.in.corner[0].target_gauge_pa, typed_pa, 1, 0, "yes");
        tui_end(t);
    }
}

/* 34, 34, 33, 11 and nobody let them down: the fourth gets no air, the others go on: S8 b */
static void a_tyre_found_low_gets_no_air(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    tui_script(t,
               "keys a u\ntype 34\nkeys Enter l\ntype 34\nkeys Enter j\ntype 11\nkeys Enter y h\n"
               "type 33\nkeys Enter\n");
    assert_shows(tui_script(t, "keys Space\ntext\n"), "rear-right reads 11 psi, its mate 33 psi");
    assert_shows(tui_script(t, "keys y\ntext\n"), "No air for it: fit the spare");
    tui_script(t, "keys Space y Enter Enter Enter\ntick 5\n");
    const struct session *s = &job(t)->session;
    assert_true(s->air);
    assert_int_equal(session_open(s), s->present & ~LOG_CORNER_BIT(AXLE_REAR, SIDE_RIGHT));
    assert_shows(tui_script(t, "text\n"), "NO AIR");
    tui_end(t);
}

static void without_an_air_down_on_record_it_asks(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    assert_shows(tui_script(t, CLOCK_BEFORE "keys Space\ntext\n"), "No air-down of this rig");
    tui_script(t, "keys n\n");
    assert_true(job(t)->session.first_air_s < 0);
    tui_end(t);
    /* with one it goes straight to the dangers */
    t = clock_session();
    tui_script(t, CLOCK_DOWN "tick 60\nkeys Space\ntick 30\nkeys e y Space\n");
    const char *frame = tui_script(t, "keys a\ntype 18\nkeys Enter Space\ntext\n");
    assert_true(job(t)->session.up);
    assert_shows(frame, "Nobody beside or over a tyre");
    tui_end(t);
}

static void nothing_starts_without_its_questions(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    assert_shows(tui_script(t, "keys a u Space\ntext\n"), "Read first");
    tui_script(t, "keys a\ntype 18\nkeys Enter Space y\n");
    assert_int_equal(t->model.editor, EDITOR_DANGER);
    tui_script(t, "keys q\n");
    assert_true(job(t)->session.first_air_s < 0);
    t->model.outing.rig.axle[AXLE_REAR].wheel = WHEEL_MULTI_PIECE;
    assert_shows(tui_script(t, "keys Space\ntext\n"), "Multi-piece wheels: no steps");
    assert_true(job(t)->session.first_air_s < 0);
    tui_end(t);
}

/* a compressor that cuts out below the target says so before the first air */
static void a_cut_out_below_the_target_is_said(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    t->model.outing.rig.air.compressor.cut_out_gauge_pa = 40 * UNITS_PA_PER_PSI;
    t->model.outing.rig.air.cut_in_gauge_pa = 20 * UNITS_PA_PER_PSI;
    t->model.dirty = true;
    assert_shows(tui_script(t, CLOCK_BEFORE "keys Space y\ntext\n"), "cuts out below a target");
    tui_end(t);
}

/* bell every three seconds from the call on until Enter; none when muted */
static void a_call_rings_until_it_is_heeded(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    tui_script(t, CLOCK_ON "tick 60\nkeys Space\n");
    double stop_s = job(t)->session.now_s;
    int bells = 0;
    for (int i = 0; i < 240; i++)
        bells += (clock_wait(t, stop_s + 0.25 * i) & EFFECT_BEEP) != 0;
    assert_int_equal(bells, 14); /* 20 s of settling, then 40 s: at 0, 3, ... 39 s */
    assert_shows(clock_frame(t), "READ NOW");
    clock_press(t, 'm', stop_s + 60);
    assert_int_equal(clock_wait(t, stop_s + 70) & EFFECT_BEEP, 0);
    clock_press(t, 'm', stop_s + 70);
    clock_press(t, TKEY_ENTER, stop_s + 71);
    assert_int_equal(clock_wait(t, stop_s + 80) & EFFECT_BEEP, 0);
    tui_end(t);
}

/* a lid shut for five minutes: time counts on, from instants, and the hole is said */
static void time_is_never_summed(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    tui_script(t, CLOCK_ON "tick 10\n");
    clock_wait(t, 310);
    CHECK_CLOSE(clock_elapsed(job(t), clock_now_s(&t->model)), 310, 1e-9, 0, "the two instants");
    assert_shows(clock_frame(t), "Nobody looked for 5:00");
    tui_end(t);
}

static void leaving_while_air_flows_is_warned_of(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    tui_script(t, CLOCK_ON "keys q\n");
    assert_int_equal(clock_press(t, 'q', 1) & EFFECT_QUIT, 0);
    assert_shows(clock_frame(t), "AIR IS FLOWING");
    assert_int_equal(clock_press(t, 'q', 2) & EFFECT_QUIT, 0); /* no answer */
    assert_shows(clock_frame(t), "AIR IS FLOWING");
    assert_int_equal(clock_press(t, 'n', 3) & EFFECT_QUIT, 0);
    assert_int_equal(t->model.editor, SCREEN_NONE);
    clock_press(t, 'q', 5);
    assert_true((clock_press(t, 'y', 6) & EFFECT_QUIT) != 0);
    clock_restart(t);
    assert_int_equal(t->model.editor, EDITOR_RESUME); /* the job goes on in its record */
    tui_end(t);
}

/* what a refill taught is the prior of the next, and stands in its record */
static void the_next_refill_knows_the_last(void **state)
{
    (void)state;
    static struct journal_events log;
    struct tui_session *t = clock_session();
    assert_shows(tui_script(t, CLOCK_MID "keys e y\ntext\n"), "Learned: the source gave");
    double mean = t->model.at.clock.lesson.log_mean_1;
    tui_script(t, "keys Space u a\ntype 18\nkeys Enter\n");
    assert_int_equal(job(t)->prior.refills, 1);
    clock_last_log(t, &log);
    bool told = false;
    for (int i = 0; i < log.n; i++) {
        struct refill_note n = {.kind = NOTE_WORDS};
        if (log.event[i].word == LOG_NOTE)
            n = refill_note_read(log.event[i].text);
        if (n.kind == NOTE_PRIOR) {
            told = true;
            CHECK_CLOSE(n.log_mean_1, job(t)->prior.log_mean_1, 1e-9, 0, "the model's prior");
            assert_true(n.log_mean_1 * mean > 0); /* towards what was learned */
        }
    }
    assert_true(told);
    tui_end(t);
}

/* air-down: shut the valve at the stop reading, it creeps back; the record says so */
static void an_air_down_from_start_to_record(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    const char *frame = tui_script(t, CLOCK_DOWN "tick 20\ntext\n");
    assert_shows(frame, "air down");
    assert_shows(frame, "FALLING");
    assert_shows(frame, "it creeps back to 18.0 psi");
    for (int i = 0; i < 40 && clock_prompt_of(&t->model).call == CALL_NONE; i++)
        clock_wait(t, 20 + 10 * (i + 1));
    assert_int_equal(clock_prompt_of(&t->model).call, CALL_DROP);
    double at_s = clock_now_s(&t->model);
    assert_shows(clock_frame(t), "SHUT NOW");
    clock_press(t, TKEY_ENTER, at_s);
    assert_true(job(t)->session.dropped != 0);
    clock_press(t, 'e', at_s + 1);
    clock_press(t, 'y', at_s + 1);
    assert_shows(clock_frame(t), "record: air down");
    tui_end(t);
}

/* tyres let down apart do not level out: one number cannot stand for all */
static void one_number_for_all_is_taken_for_one(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    tui_script(t, CLOCK_DOWN "tick 60\nkeys Space\ntick 100\nkeys a\ntype 30\nkeys Enter\n");
    assert_shows(clock_frame(t), "Taken for one of them");
    tui_end(t);
}

/* let down one by one, no valve is open while the driver walks to the next */
static void one_by_one_no_air_flows_between(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    tui_script(t, "keys a a o o\ntype 38\nkeys Enter Space Enter Enter Enter\n");
    assert_int_equal(job(t)->session.hookup, HOOKUP_SINGLE);
    assert_true(!job(t)->session.up && job(t)->session.air);
    for (int i = 0; i < 60 && clock_prompt_of(&t->model).call == CALL_NONE; i++)
        clock_wait(t, 10 * (i + 1));
    clock_press(t, TKEY_ENTER, clock_now_s(&t->model));
    assert_true(job(t)->session.dropped != 0);
    assert_true(!job(t)->session.air);
    assert_shows(clock_frame(t), "Walk to the next");
    clock_press(t, ' ', clock_now_s(&t->model) + 20);
    assert_true(job(t)->session.air);
    tui_end(t);
}

/* cores out is quicker, and the record says so */
static void cores_are_in_the_record(void **state)
{
    (void)state;
    static struct journal_events log;
    struct tui_session *t = clock_session();
    assert_shows(tui_script(t, "keys a\ntext\n"), "CORE IN");
    double in_s = clock_planned(&t->model);
    assert_shows(tui_script(t, "keys a i\ntext\n"), "CORE OUT");
    assert_true(clock_planned(&t->model) < 0.5 * in_s);
    tui_script(t, "keys a\ntype 38\nkeys Enter\n");
    clock_last_log(t, &log);
    int told = 0;
    for (int i = 0; i < log.n; i++)
        told += log.event[i].word == LOG_JOB && log.event[i].core == LOG_CORE_OUT;
    assert_int_equal(told, 1);
    tui_end(t);
}

static int core_events(const struct journal_events *log, unsigned corners, enum log_core core)
{
    int n = 0;
    for (int i = 0; i < log->n; i++)
        n += log->event[i].word == LOG_CORE && log->event[i].corners == corners &&
             log->event[i].core == core;
    return n;
}

/* one corner with its core out: its own row, undone, told in the record, read back as it was */
static void a_core_may_be_out_of_one_corner(void **state)
{
    (void)state;
    static struct journal_events log;
    struct session back;
    struct tui_session *t = clock_session();
    unsigned left = LOG_CORNER_BIT(AXLE_FRONT, SIDE_LEFT), rear = LOG_AXLE_BITS(AXLE_REAR);
    const char *frame = tui_script(t, "keys a i\ntext\n"); /* the corner marked, front left */
    assert_shows(frame, "out to 17.1");
    assert_shows(frame, "in to 17.6");
    tui_script(t, "keys a a\ntype 38\nkeys Enter\n");
    assert_int_equal(job(t)->session.core_out & job(t)->session.present, left);
    tui_script(t, "keys Down i\n"); /* begun: events of the record from here */
    assert_int_equal(job(t)->session.core_out & rear, LOG_CORNER_BIT(AXLE_REAR, SIDE_LEFT));
    tui_script(t, "keys z\n");
    assert_int_equal(job(t)->session.core_out & job(t)->session.present, left);
    tui_script(t, "keys Space Enter Enter Enter\ntick 20\n");
    assert_true(job(t)->session.air);
    assert_shows(clock_frame(t), "front: stop L ");
    assert_shows(tui_script(t, "keys i\ntext\n"), "Cores are set before air flows.");
    clock_last_log(t, &log);
    assert_int_equal(core_events(&log, left, LOG_CORE_OUT), 1);
    clock_replay(t, &log, &back);
    assert_int_equal(back.core_out & back.present, left);
    tui_end(t);
}

/* help opened on the clock is left for the clock */
static void help_leads_back_to_the_clock(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    tui_script(t, CLOCK_MID "keys ?\n");
    assert_int_equal(t->model.screen, SCREEN_HELP);
    tui_script(t, "keys q\n");
    assert_int_equal(t->model.screen, SCREEN_CLOCK);
    tui_script(t, "keys b ? q\n");
    assert_int_equal(t->model.screen, SCREEN_CLOCK);
    tui_script(t, "keys q ? q\n");
    assert_int_equal(t->model.screen, SCREEN_CORNERS);
    tui_end(t);
}

/* the working of a running job is left for the clock, not for the corners */
static void the_working_leads_back_to_the_clock(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    assert_shows(tui_script(t, CLOCK_MID "keys b\ntext\n"), "Air clock: what it stands on");
    assert_shows(clock_frame(t), "r0 = 1.000, believed first, by the label alone");
    assert_shows(tui_script(t, "keys q\ntext\n"), "AIR ON");
    assert_int_equal(t->model.screen, SCREEN_CLOCK);
    tui_script(t, "keys q\n");
    assert_int_equal(t->model.screen, SCREEN_CORNERS);
    tui_end(t);
}

/* lessons are forgotten by key, when confirmed */
static void lessons_can_be_forgotten(void **state)
{
    (void)state;
    struct tui_session *t = clock_session();
    tui_script(t, CLOCK_MID "keys e y Space\n");
    const struct refill_in *in = &job(t)->session.in;
    struct forecast_prior p =
        t->host.prior(t->host.self, &t->model.outing.rig, in->inlet_temp_k, in->ambient_abs_pa);
    assert_int_equal(p.refills, 1);
    tui_script(t, "keys x n\n");
    p = t->host.prior(t->host.self, &t->model.outing.rig, in->inlet_temp_k, in->ambient_abs_pa);
    assert_int_equal(p.refills, 1);
    assert_shows(tui_script(t, "keys x y\ntext\n"), "Forgotten");
    p = t->host.prior(t->host.self, &t->model.outing.rig, in->inlet_temp_k, in->ambient_abs_pa);
    assert_int_equal(p.refills, 0);
    tui_end(t);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(replay_gives_the_live_forecast),
        cmocka_unit_test(the_frame_comes_before_the_disk),
        cmocka_unit_test(undo_has_many_levels),
        cmocka_unit_test(doubtful_readings_are_asked_about),
        cmocka_unit_test(targets_have_their_bounds),
        cmocka_unit_test(a_tyre_found_low_gets_no_air),
        cmocka_unit_test(without_an_air_down_on_record_it_asks),
        cmocka_unit_test(nothing_starts_without_its_questions),
        cmocka_unit_test(a_cut_out_below_the_target_is_said),
        cmocka_unit_test(a_call_rings_until_it_is_heeded),
        cmocka_unit_test(time_is_never_summed),
        cmocka_unit_test(leaving_while_air_flows_is_warned_of),
        cmocka_unit_test(the_next_refill_knows_the_last),
        cmocka_unit_test(an_air_down_from_start_to_record),
        cmocka_unit_test(one_number_for_all_is_taken_for_one),
        cmocka_unit_test(one_by_one_no_air_flows_between),
        cmocka_unit_test(cores_are_in_the_record),
        cmocka_unit_test(a_core_may_be_out_of_one_corner),
        cmocka_unit_test(the_working_leads_back_to_the_clock),
        cmocka_unit_test(help_leads_back_to_the_clock),
        cmocka_unit_test(lessons_can_be_forgotten),
    };
    return check_run("clock", tests, sizeof tests / sizeof *tests, argc, argv);
}
