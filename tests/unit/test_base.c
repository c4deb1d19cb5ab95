/* test_base.c - statuses, text builder, units, edit distance. */
#include "support/check.h"

#include <stdio.h>

#include <string.h>

#include "base/date.h"
#include "base/dist.h"
#include "base/num.h"
#include "base/text.h"
#include "base/units.h"

static void text_never_overflows(void **state)
{
    (void)state;
    char buf[8];
    struct text t = text_over(buf, sizeof buf);
    text_put(&t, "abcde%s", "\xc3\xa9\xc3\xa9");
    assert_string_equal(buf, "abcde\xc3\xa9");
    assert_true(t.cut);
}

static void units_read_what_profiles_write(void **state)
{
    (void)state;
    double v = 0;
    CHECK_STATUS(units_parse("38 psi", Q_PRESSURE, &v), STATUS_OK);
    CHECK_CLOSE(v, 262000.777, 0.001, 0, "38 x 6894.757293168361 Pa, definition");
    CHECK_STATUS(units_parse("-10C", Q_TEMPERATURE, &v), STATUS_OK);
    CHECK_CLOSE(v, 263.15, 1e-12, 0, "definition of the Celsius scale");
    CHECK_STATUS(units_parse("14 F", Q_TEMPERATURE, &v), STATUS_OK);
    CHECK_CLOSE(v, 263.15, 1e-9, 0, "14 F is -10 C");
    CHECK_STATUS(units_parse("4300 lb", Q_MASS, &v), STATUS_OK);
    CHECK_CLOSE(v, 1950.447191, 1e-9, 0, "4300 x 0.45359237 kg, definition");
}

static void units_refuse_the_rest(void **state)
{
    (void)state;
    double v = 7;
    CHECK_STATUS(units_parse("2.2", Q_PRESSURE, &v), STATUS_E_UNIT_MISSING);
    CHECK_STATUS(units_parse("2,2 bar", Q_PRESSURE, &v), STATUS_E_DECIMAL_COMMA);
    CHECK_STATUS(units_parse("2.2 atm", Q_PRESSURE, &v), STATUS_E_UNIT_UNKNOWN);
    CHECK_STATUS(units_parse("nan psi", Q_PRESSURE, &v), STATUS_E_SYNTAX);
    CHECK_STATUS(units_parse("1e999 psi", Q_PRESSURE, &v), STATUS_E_DOMAIN);
    CHECK_STATUS(units_parse("0x10 psi", Q_PRESSURE, &v), STATUS_E_UNIT_UNKNOWN);
    CHECK_CLOSE(v, 7, 0, 0, "untouched on error");
}

static void edits_are_counted(void **state)
{
    (void)state;
    assert_int_equal(dist_edit("axle_laod", "axle_load"), 1);
    assert_int_equal(dist_edit("kitten", "sitting"), 3);
    assert_int_equal(dist_edit("", "abc"), 3);
}

static void gauge_step_rounds_up(void **state)
{
    (void)state;
    CHECK_CLOSE(num_ceil_to(16.2, 1), 17, 0, 0, "definition");
    CHECK_CLOSE(num_ceil_to(16.0000001, 1), 16, 0, 0, "within 1e-6 of a step counts as met");
}

static void numbers_are_cut_off_a_text(void **state)
{
    (void)state;
    const char *at = " 1.5\t-2e3 x";
    double v = 0;
    assert_true(num_read(&at, &v));
    CHECK_CLOSE(v, 1.5, 0, 0, "as written");
    assert_true(num_read(&at, &v));
    CHECK_CLOSE(v, -2000, 0, 0, "as written");
    assert_false(num_read(&at, &v));
    assert_string_equal(at, " x");
    for (const char *const *bad = (const char *const[]){"", " ", "nan", "inf", "1e999", NULL}; *bad;
         bad++) {
        at = *bad;
        assert_false(num_read(&at, &v));
        assert_ptr_equal(at, *bad);
    }
    CHECK_CLOSE(v, -2000, 0, 0, "untouched on error");
}

static void soil_is_never_spoken_of_in_bar(void **state)
{
    (void)state;
    static const char *const want[] = {"32 psi", "221 kPa", "221 kPa"};
    double si = 0;
    CHECK_STATUS(units_parse("32 psi", Q_STRENGTH, &si), STATUS_OK);
    for (int u = UNITS_PSI; u <= UNITS_KPA; u++) {
        char buf[32];
        struct text t = text_over(buf, sizeof buf);
        units_put(&t, si, Q_STRENGTH, (enum unit_system)u, 0); /* 32 x 6.894757 = 220.63 */
        assert_string_equal(buf, want[u]);
    }
}

static void zero_has_no_sign(void **state)
{
    (void)state;
    char buf[16];
    for (int i = 0; i < 3; i++) {
        struct text t = text_over(buf, sizeof buf);
        units_put_bare(&t, (const double[]){-0.0, -0.4, -0.5}[i], Q_MASS, UNITS_KPA, 0);
        assert_string_equal(buf, "0");
    }
}

static double less_two(double x, const void *with)
{
    return x * x - *(const double *)with;
}

static void bisection_stays_between_its_ends(void **state)
{
    (void)state;
    double two = 2;
    double far = 1e9;
    double below = -1;
    CHECK_CLOSE(num_bisect(less_two, &two, 0, 8), 1.4142135623730951, 0, 1e-15, "square root of 2");
    CHECK_CLOSE(num_bisect(less_two, &far, 0, 8), 8, 0, 1e-15, "no crossing: the upper end");
    CHECK_CLOSE(num_bisect(less_two, &below, 1, 8), 1, 0, 1e-15, "no crossing: the lower end");
}

static void days_there_are_and_are_not(void **state)
{
    (void)state;
    static const struct {
        const char *text;
        enum status want;
    } days[] = {
        /* ISO 8601 form; lengths of months and leap years of the Gregorian calendar */
        {"2026-05-03", STATUS_OK},        {"2024-02-29", STATUS_OK},
        {"2000-02-29", STATUS_OK},        {"2026-12-31", STATUS_OK},
        {"2026-02-29", STATUS_E_DOMAIN},  {"1900-02-29", STATUS_E_DOMAIN},
        {"2026-04-31", STATUS_E_DOMAIN},  {"2026-06-00", STATUS_E_DOMAIN},
        {"2026-00-10", STATUS_E_DOMAIN},  {"2026-13-10", STATUS_E_DOMAIN},
        {"3 May", STATUS_E_SYNTAX},       {"2026-5-3", STATUS_E_SYNTAX},
        {"2026-05-031", STATUS_E_SYNTAX}, {"2026/05/03", STATUS_E_SYNTAX},
        {"03.05.2026", STATUS_E_SYNTAX},  {"", STATUS_E_SYNTAX},
        {"2026-05-03 ", STATUS_E_SYNTAX}, {"2026-05", STATUS_E_SYNTAX},
    };
    for (size_t i = 0; i < sizeof days / sizeof *days; i++) {
        char words[120] = "";
        struct text why = text_over(words, sizeof words);
        enum status got = date_check(days[i].text, &why);
        if (got != days[i].want) {
            fprintf(stderr, "day: '%s'\n", days[i].text);
        }
        CHECK_STATUS(got, days[i].want);
        assert_int_equal(words[0] == '\0', got == STATUS_OK);
    }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(text_never_overflows),
        cmocka_unit_test(units_read_what_profiles_write),
        cmocka_unit_test(units_refuse_the_rest),
        cmocka_unit_test(edits_are_counted),
        cmocka_unit_test(numbers_are_cut_off_a_text),
        cmocka_unit_test(soil_is_never_spoken_of_in_bar),
        cmocka_unit_test(zero_has_no_sign),
        cmocka_unit_test(days_there_are_and_are_not),
        cmocka_unit_test(gauge_step_rounds_up),
        cmocka_unit_test(bisection_stays_between_its_ends),
    };
    return check_run("base", tests, sizeof tests / sizeof tests[0], argc, argv);
}
