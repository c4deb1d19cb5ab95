/* test_session.c - log events to state: time, spans, hook-ups, undo, found low. */
#include "support/check.h"

#include "sim/session.h"

#define PSI UNITS_PA_PER_PSI

static void begin(struct session *s, const char *const lines[], size_t n)
{
    struct refill_in in = {.ambient_abs_pa = 101325.0};
    for (int i = 0; i < 4; i++) {
        in.corner[i < 2 ? i : i + 2].present = true; /* front and rear */
    }
    session_init(&in, s);
    for (size_t i = 0; i < n; i++) {
        char why[200];
        struct text w = text_over(why, sizeof why);
        struct log_event e;
        CHECK_STATUS(refill_log_parse(lines[i], &e, &w), STATUS_OK);
        CHECK_STATUS(session_apply(s, &e, &w), STATUS_OK);
    }
}

#define BEGIN(s, ...)                                                                              \
    do {                                                                                           \
        static const char *const lines[] = {__VA_ARGS__};                                          \
        begin((s), lines, sizeof lines / sizeof lines[0]);                                         \
    } while (0)

static enum status one_more(struct session *s, const char *line)
{
    char why[200];
    struct text w = text_over(why, sizeof why);
    struct log_event e;
    CHECK_STATUS(refill_log_parse(line, &e, &w), STATUS_OK);
    return session_apply(s, &e, &w);
}

static void pauses_do_not_run(void **state)
{
    (void)state;
    struct session s;
    BEGIN(&s, "0 target front 38 psi", "0 target rear 48 psi", "0 read all 15 psi settled",
          "0 air on", "60 air off", "60 read all 19 psi settled", "75 air on",
          "150 read all 29 psi flowing", "230 drop front");
    CHECK_CLOSE(s.running_s, 215.0, 1e-9, 0, "230 s less a pause of 15 s");
    CHECK_CLOSE(session_running(&s, 240.0), 225.0, 1e-9, 0, "ten seconds on");
    assert_int_equal(session_open(&s), LOG_AXLE_BITS(AXLE_REAR));
    CHECK_CLOSE(s.drop_running_s[0], 215.0, 1e-9, 0, "dropped now");
    double sum_s = 0.0;
    for (int i = 0; i < s.n_span; i++) {
        sum_s += s.span[i].lasts_s;
    }
    CHECK_CLOSE(sum_s, 230.0, 1e-9, 0, "the spans cover the log time");
    assert_false(s.span[1].air);
}

static void time_never_runs_back_and_nothing_changes_then(void **state)
{
    (void)state;
    struct session s;
    BEGIN(&s, "0 target all 38 psi", "0 read all 15 psi settled", "10 air on");
    CHECK_STATUS(one_more(&s, "9 air off"), STATUS_E_DOMAIN);
    assert_true(s.air);
    CHECK_STATUS(one_more(&s, "11 read trailer 15 psi settled"), STATUS_E_DOMAIN);
    CHECK_CLOSE(s.now_s, 10.0, 0, 0, "untouched on error");
}

static void cores_come_out_corner_by_corner_before_air(void **state)
{
    (void)state;
    const unsigned left = LOG_CORNER_BIT(AXLE_FRONT, SIDE_LEFT), rear = LOG_AXLE_BITS(AXLE_REAR);
    struct session s;
    BEGIN(&s, "0 job down", "0 read all 35 psi settled", "0 core front-left rear out");
    assert_int_equal(s.core_out, left | rear);
    CHECK_STATUS(one_more(&s, "1 core rear in"), STATUS_OK);
    assert_int_equal(s.core_out, left);
    CHECK_STATUS(one_more(&s, "1 core out"), STATUS_OK);
    assert_int_equal(s.core_out & s.present, s.present);
    CHECK_STATUS(one_more(&s, "2 job down core-in"), STATUS_OK);
    assert_int_equal(s.core_out, 0);
    CHECK_STATUS(one_more(&s, "3 air on"), STATUS_OK);
    CHECK_STATUS(one_more(&s, "4 core front out"), STATUS_E_DOMAIN);
    assert_int_equal(s.core_out, 0);
    BEGIN(&s, "0 read all 15 psi settled");
    CHECK_STATUS(one_more(&s, "1 core out"), STATUS_E_DOMAIN); /* a job up */
}

static void air_needs_a_start_reading(void **state)
{
    (void)state;
    struct session s;
    BEGIN(&s, "0 target all 38 psi", "0 read front 15 psi settled");
    CHECK_STATUS(one_more(&s, "1 air on"), STATUS_E_DOMAIN);
    CHECK_STATUS(one_more(&s, "1 read rear 15 psi settled"), STATUS_OK);
    CHECK_STATUS(one_more(&s, "2 air on"), STATUS_OK);
}

static void undo_reaches_many_levels_and_the_start(void **state)
{
    (void)state;
    struct session s;
    BEGIN(&s, "0 target all 38 psi", "0 read all 15 psi settled", "0 read all 51 psi settled",
          "1 undo");
    CHECK_CLOSE(s.start_gauge_pa[0] / PSI, 15.0, 1e-9, 0, "the reading before");
    CHECK_STATUS(one_more(&s, "2 undo"), STATUS_OK);
    assert_int_equal(s.started, 0);
    assert_null(session_last_reading(&s, 0));
    CHECK_STATUS(one_more(&s, "3 undo"), STATUS_OK);
}

/* taken back, a start reading leaves what the rig says; after the first air it stands */
static void undo_of_the_start(void **state)
{
    (void)state;
    struct session s;
    BEGIN(&s, "0 target all 38 psi", "0 read all 15 psi settled", "0 undo");
    CHECK_CLOSE(s.start_gauge_pa[0], 0.0, 1e-9, 0, "nothing was given");
    CHECK_STATUS(one_more(&s, "0 read all 15 psi settled"), STATUS_OK);
    CHECK_STATUS(one_more(&s, "0 air on"), STATUS_OK);
    CHECK_STATUS(one_more(&s, "9 undo"), STATUS_OK);
    assert_non_null(session_last_reading(&s, 0));
    CHECK_STATUS(one_more(&s, "9 read all 19 psi flowing"), STATUS_OK);
    CHECK_STATUS(one_more(&s, "9 undo"), STATUS_OK);
    CHECK_CLOSE(session_last_reading(&s, 0)->p_gauge_pa / PSI, 15.0, 1e-9, 0, "the start");
}

/* a corner left out while it waited waits again; the hose does not move to it */
static void a_corner_that_waited_waits_again(void **state)
{
    (void)state;
    struct session s;
    BEGIN(&s, "0 hookup single", "0 target front 38 psi", "0 target rear 48 psi",
          "0 read all 18 psi settled", "0 air on", "9 drop front-left", "12 join front-left");
    assert_int_equal(session_open(&s), LOG_CORNER_BIT(AXLE_REAR, SIDE_LEFT));
    assert_int_equal(s.dropped, 0);
    CHECK_STATUS(one_more(&s, "15 drop all"), STATUS_OK);
    CHECK_STATUS(one_more(&s, "16 join all"), STATUS_OK);
    assert_int_equal(session_open(&s), LOG_CORNER_BIT(AXLE_REAR, SIDE_LEFT));
    BEGIN(&s, "0 hookup pairs", "0 target front 38 psi", "0 target rear 48 psi",
          "0 read all 18 psi settled", "0 air on", "9 drop rear-left", "12 join rear-left");
    assert_int_equal(session_open(&s), LOG_AXLE_BITS(AXLE_REAR));
}

static void neediest_group_goes_first_and_the_trailer_last(void **state)
{
    (void)state;
    struct session s;
    unsigned group[REFILL_CORNERS];
    BEGIN(&s, "0 hookup pairs", "0 target front 38 psi", "0 target rear 48 psi",
          "0 read all 18 psi settled");
    s.present |= LOG_AXLE_BITS(AXLE_TRAILER);
    s.in.corner[REFILL_CORNER(AXLE_TRAILER, SIDE_LEFT)].target_gauge_pa = 65 * PSI;
    assert_int_equal(session_order(&s, group), 3);
    assert_int_equal(group[0], LOG_AXLE_BITS(AXLE_REAR));
    assert_int_equal(group[1], LOG_AXLE_BITS(AXLE_FRONT));
    assert_int_equal(group[2], LOG_AXLE_BITS(AXLE_TRAILER));
    s.hookup = HOOKUP_SINGLE;
    assert_int_equal(session_order(&s, group), 6);
    assert_int_equal(group[0], LOG_CORNER_BIT(AXLE_REAR, SIDE_LEFT));
}

static void pairs_move_on_when_dropped(void **state)
{
    (void)state;
    struct session s;
    BEGIN(&s, "0 hookup pairs", "0 target front 38 psi", "0 target rear 48 psi",
          "0 read all 18 psi settled", "0 air on", "200 drop rear");
    assert_int_equal(session_open(&s), LOG_AXLE_BITS(AXLE_FRONT));
    CHECK_STATUS(one_more(&s, "210 join rear-left"), STATUS_OK);
    assert_int_equal(session_open(&s), LOG_CORNER_BIT(AXLE_REAR, SIDE_LEFT));
}

static void a_corner_far_under_its_mate_is_found_low(void **state)
{
    (void)state;
    struct session s;
    BEGIN(&s, "0 target all 36 psi", "0 read front 34 psi settled",
          "0 read rear-left 33 psi settled", "0 read rear-right 11 psi settled");
    assert_int_equal(session_found_low(&s), LOG_CORNER_BIT(AXLE_REAR, SIDE_RIGHT));
    BEGIN(&s, "0 target all 36 psi", "0 read all 18 psi settled");
    assert_int_equal(session_found_low(&s), 0);
}

static void a_gap_with_air_runs_on(void **state)
{
    (void)state;
    struct session s;
    BEGIN(&s, "0 target all 38 psi", "0 read all 15 psi settled", "0 air on", "60 air off",
          "60 gap 90");
    CHECK_CLOSE(s.running_s, 150.0, 1e-9, 0, "60 s and 90 s");
}

/* taken back, it never was: the same session as without it, whatever came after */
static void a_gap_taken_back_never_was(void **state)
{
    (void)state;
    struct session s, plain;
    BEGIN(&s, "0 target all 38 psi", "0 read all 15 psi settled", "0 air on", "30 drop front-left",
          "60 air off", "60 gap 90", "70 read all 22 psi settled", "80 air on",
          "100 drop rear-left", "110 undo gap");
    BEGIN(&plain, "0 target all 38 psi", "0 read all 15 psi settled", "0 air on",
          "30 drop front-left", "60 air off", "70 read all 22 psi settled", "80 air on",
          "100 drop rear-left", "110 note x");
    CHECK_CLOSE(s.running_s, plain.running_s, 1e-9, 0, "without the gap");
    assert_int_equal(s.n_span, plain.n_span);
    assert_int_equal(s.reading[1].span, plain.reading[1].span);
    CHECK_CLOSE(s.reading[1].running_s, plain.reading[1].running_s, 1e-9, 0, "without the gap");
    for (int i = 0; i < REFILL_CORNERS; i++)
        if (plain.dropped >> i & 1U)
            CHECK_CLOSE(s.drop_running_s[i], plain.drop_running_s[i], 1e-9, 0, "without the gap");
    CHECK_STATUS(one_more(&s, "120 undo gap"), STATUS_OK); /* there is no other: nothing happens */
    CHECK_CLOSE(s.running_s, plain.running_s + 10.0, 1e-9, 0, "10 s more of air");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(pauses_do_not_run),
        cmocka_unit_test(time_never_runs_back_and_nothing_changes_then),
        cmocka_unit_test(cores_come_out_corner_by_corner_before_air),
        cmocka_unit_test(air_needs_a_start_reading),
        cmocka_unit_test(undo_reaches_many_levels_and_the_start),
        cmocka_unit_test(undo_of_the_start),
        cmocka_unit_test(a_corner_that_waited_waits_again),
        cmocka_unit_test(neediest_group_goes_first_and_the_trailer_last),
        cmocka_unit_test(pairs_move_on_when_dropped),
        cmocka_unit_test(a_corner_far_under_its_mate_is_found_low),
        cmocka_unit_test(a_gap_with_air_runs_on),
        cmocka_unit_test(a_gap_taken_back_never_was),
    };
    return check_run("session", tests, sizeof tests / sizeof tests[0], argc, argv);
}
