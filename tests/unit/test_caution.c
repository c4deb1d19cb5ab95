/* test_caution.c - the table of cautions as data, its list, its words. */
#include "support/check.h"
#include "support/rigs.h"

#include <stdio.h>
#include <string.h>

#include "core/caution.h"

#define FORBIDDEN_COUNT 6

static void codes_are_kebab_case_and_unique(void **state)
{
    (void)state;
    for (int i = 0; i < CAUTION_COUNT; i++) {
        const char *code = caution_code_name((enum caution_code)i);
        assert_true(code[0] != '\0');
        assert_int_equal(strspn(code, "abcdefghijklmnopqrstuvwxyz0123456789-"), strlen(code));
        assert_true(caution_when((enum caution_code)i)[0] != '\0');
        for (int k = 0; k < i; k++) {
            assert_string_not_equal(code, caution_code_name((enum caution_code)k));
        }
    }
}

static void texts_are_plain_and_promise_nothing(void **state)
{
    (void)state;
    static const char *const forbidden[FORBIDDEN_COUNT] = {"perfect", "optimal", "guarantee",
                                                           "safe ",   "safely",  "recommended"};
    for (int i = 0; i < CAUTION_COUNT; i++) {
        const char *text = caution_text((enum caution_code)i);
        for (const char *s = text; *s != '\0'; s++) {
            assert_true(*s >= ' ' && *s <= '~');
        }
        for (int k = 0; k < FORBIDDEN_COUNT; k++) {
            assert_null(strstr(text, forbidden[k]));
        }
    }
}

/* The topics that must be shown, with their levels: trade practice. */
static void topics_have_their_levels(void **state)
{
    (void)state;
    static const struct {
        enum caution_code code;
        enum caution_level level;
        bool standing;
    } t[] = {
        {CAUTION_BEAD, CAUTION_CAUTION, true},
        {CAUTION_HIGHWAY, CAUTION_DANGER, true},
        {CAUTION_ESTIMATE, CAUTION_NOTE, true},
        {CAUTION_OVERLOAD_TYRE, CAUTION_DANGER, false},
        {CAUTION_OVERLOAD_AXLE, CAUTION_DANGER, false},
        {CAUTION_OVER_INFLATION, CAUTION_DANGER, false},
        {CAUTION_FOUND_LOW, CAUTION_DANGER, false},
        {CAUTION_LINE_OF_FIRE, CAUTION_DANGER, true},
        {CAUTION_MULTI_PIECE, CAUTION_DANGER, false},
        {CAUTION_RESEAT, CAUTION_DANGER, true},
        {CAUTION_CORE, CAUTION_CAUTION, true},
        {CAUTION_HOSE, CAUTION_CAUTION, true},
        {CAUTION_COMPRESSOR_HOT, CAUTION_CAUTION, false},
        {CAUTION_JACK, CAUTION_DANGER, true},
        {CAUTION_AIR_SPRINGS, CAUTION_DANGER, true},
        {CAUTION_HEARING, CAUTION_NOTE, true},
        {CAUTION_BRAKE_AIR, CAUTION_DANGER, true},
        {CAUTION_EXHAUST, CAUTION_CAUTION, true},
        {CAUTION_ALTITUDE_COLD, CAUTION_CAUTION, false},
        {CAUTION_UNEVEN_AXLE, CAUTION_CAUTION, false},
        {CAUTION_LAW, CAUTION_NOTE, true},
        {CAUTION_WARNING_LAMP, CAUTION_CAUTION, true},
        {CAUTION_RIM_WIDTH, CAUTION_DANGER, false},
        {CAUTION_ASKED_SPEED, CAUTION_DANGER, false},
        {CAUTION_AT_BELOW_FLOOR, CAUTION_DANGER, false},
    };
    for (size_t i = 0; i < sizeof t / sizeof t[0]; i++) {
        print_message("%s\n", caution_code_name(t[i].code));
        assert_int_equal(caution_level_of(t[i].code), t[i].level);
        assert_int_equal(caution_is_standing(t[i].code), t[i].standing);
    }
    assert_non_null(strstr(caution_text(CAUTION_RESEAT), "no flame"));
    assert_non_null(strstr(caution_text(CAUTION_RESEAT), "40 psi"));
}

static void numbers_are_put_in_the_readers_unit(void **state)
{
    (void)state;
    struct caution_list list = {.n = 0};
    char buf[300];
    struct text t = text_over(buf, sizeof buf);
    struct caution *c = caution_raise(&list, CAUTION_ROAD_ABOVE_MAX);
    (void)caution_with(caution_with(c, 0, Q_PRESSURE, 7 * BAR, 0), 1, Q_PRESSURE, 4.5 * BAR, 0);
    caution_put(c, UNITS_BAR, &t);
    CHECK_TEXT(buf, "The road pressure given, 7.0 bar, is above the moulded maximum, 4.5 bar. No "
                    "target goes past the maximum.");
    text_clear(&t);
    caution_put(c, UNITS_KPA, &t);
    assert_non_null(strstr(buf, "700 kPa"));
    text_clear(&t);
    c = caution_raise(&list, CAUTION_ASSUMED);
    (void)snprintf(c->word, sizeof c->word, "load range E");
    caution_put(c, UNITS_PSI, &t);
    CHECK_TEXT(buf, "Assumed: load range E.");
}

static void a_full_list_keeps_dangers(void **state)
{
    (void)state;
    struct caution_list list = {.n = 0};
    (void)caution_raise(&list, CAUTION_ESTIMATE);
    for (int i = 0; i < 2 * CAUTION_LIST; i++) {
        (void)caution_raise(&list, CAUTION_BELOW_15);
    }
    assert_int_equal(list.n, CAUTION_LIST);
    assert_false(caution_any_danger(&list));
    (void)caution_raise(&list, CAUTION_ASKED_SPEED);
    assert_int_equal(list.n, CAUTION_LIST);
    assert_true(caution_any_danger(&list));
    for (int i = 0; i < 10; i++) {
        assert_non_null(caution_raise(&list, CAUTION_RIM_WIDTH));
    }
    assert_int_equal(list.n, CAUTION_LIST);
}

static void standing_dangers_do_not_count(void **state)
{
    (void)state;
    struct caution_list list = {.n = 0};
    (void)caution_raise(&list, CAUTION_HIGHWAY);
    (void)caution_raise(&list, CAUTION_LINE_OF_FIRE);
    assert_false(caution_any_danger(&list));
    (void)caution_raise(&list, CAUTION_OVER_INFLATION);
    assert_true(caution_any_danger(&list));
}

static void reminders_of_an_act(void **state)
{
    (void)state;
    struct rig pickup = rigs_cabin_on(), truck = rigs_truck_12t();
    struct caution_list up = {.n = 0}, down = {.n = 0};
    caution_remind(&up, CAUTION_JOB_UP, &pickup);
    assert_true(caution_raised(&up, CAUTION_LINE_OF_FIRE));
    assert_true(caution_raised(&up, CAUTION_HOSE));
    assert_true(caution_raised(&up, CAUTION_AIR_SPRINGS));
    assert_true(caution_raised(&up, CAUTION_EXHAUST));
    assert_false(caution_raised(&up, CAUTION_BRAKE_AIR));
    int n = up.n;
    caution_remind(&up, CAUTION_JOB_UP, &pickup);
    assert_int_equal(up.n, n); /* each once */
    caution_remind(&down, CAUTION_JOB_DOWN, &truck);
    assert_true(caution_raised(&down, CAUTION_CORE));
    assert_true(caution_raised(&down, CAUTION_BRAKE_AIR));
    assert_false(caution_any_danger(&up));
    assert_false(caution_any_danger(&down));
}

static void levels_have_names(void **state)
{
    (void)state;
    CHECK_TEXT(caution_level_name(CAUTION_NOTE), "NOTE");
    CHECK_TEXT(caution_level_name(CAUTION_CAUTION), "CAUTION");
    CHECK_TEXT(caution_level_name(CAUTION_DANGER), "DANGER");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(codes_are_kebab_case_and_unique),
        cmocka_unit_test(texts_are_plain_and_promise_nothing),
        cmocka_unit_test(topics_have_their_levels),
        cmocka_unit_test(numbers_are_put_in_the_readers_unit),
        cmocka_unit_test(a_full_list_keeps_dangers),
        cmocka_unit_test(standing_dangers_do_not_count),
        cmocka_unit_test(reminders_of_an_act),
        cmocka_unit_test(levels_have_names),
    };
    return check_run("caution", tests, sizeof tests / sizeof tests[0], argc, argv);
}
