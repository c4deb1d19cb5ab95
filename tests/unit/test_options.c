/* test_options.c - the command line: every kind of value, hints, all mistakes at once. */
#include "support/check.h"

#include <string.h>

#include "app/options.h"
#include "base/units.h"

enum { WORDS = 16 };

static char why_buf[2048];

/* Splits a line at blanks and reads it. */
static enum status read_line(const char *line, struct options *o)
{
    static char copy[512];
    const char *argv[WORDS] = {"sandshoe"};
    char *rest = NULL;
    int n = 1;
    struct text line_copy = text_over(copy, sizeof copy);
    struct text why = text_over(why_buf, sizeof why_buf);
    text_put(&line_copy, "%s", line);
    for (char *w = strtok_r(copy, " ", &rest); w && n < WORDS; w = strtok_r(NULL, " ", &rest)) {
        argv[n++] = w;
    }
    return options_parse(n, argv, o, &why);
}

static struct options must(const char *line)
{
    struct options o;
    if (read_line(line, &o) != STATUS_OK) {
        fail_msg("%s: %s", line, why_buf);
    }
    return o;
}

static void refuse(const char *line, const char *want)
{
    struct options o = {.command = CMD_LIST};
    CHECK_STATUS(read_line(line, &o), STATUS_E_SYNTAX);
    CHECK_TEXT(why_buf, want);
    assert_int_equal(o.command, CMD_LIST); /* untouched */
}

static void commands_and_arguments(void **state)
{
    (void)state;
    assert_int_equal(must("").command, CMD_SESSION);
    assert_int_equal(must("mine").command, CMD_SESSION);
    struct options o = must("advise mine --ground bog");
    assert_int_equal(o.command, CMD_ADVISE);
    assert_string_equal(o.arg[0], "mine");
    assert_string_equal(o.ground, "bog");
    /* a rig that is called like a command, and one that begins with a dash */
    o = must("advise -- -odd");
    assert_string_equal(o.arg[0], "-odd");
    o = must("./advise");
    assert_int_equal(o.command, CMD_SESSION);
    refuse("check", "usage: sandshoe check FILE...\n");
}

static void values_with_units(void **state)
{
    (void)state;
    struct options o = must("advise mine --ground bog --at-temp 24C --tyre-temp=104F --at-height "
                            "1200m --speed 36km/h --slope 10% --cross-slope 30deg");
    const char *src = "definitions of the units";
    CHECK_CLOSE(o.at_temp_k.v, 297.15, 1e-9, 0, src);
    CHECK_CLOSE(o.tyre_temp_k.v, 313.15, 1e-9, 0, src);
    CHECK_CLOSE(o.at_height_m.v, 1200.0, 1e-9, 0, src);
    CHECK_CLOSE(o.speed_mps.v, 10.0, 1e-9, 0, src);
    CHECK_CLOSE(o.slope_1.v, 0.10, 1e-12, 0, src);
    CHECK_CLOSE(o.cross_slope_rad.v, 0.5235987755982988, 1e-12, 0, src);
    o = must("advise --tyre 265/70R17 --front 1t --rear 1000lb --ground bog");
    CHECK_CLOSE(o.front_kg.v, 1000.0, 1e-9, 0, src);
    CHECK_CLOSE(o.rear_kg.v, 453.59237, 1e-9, 0, src);
}

static void pressures_by_axle_and_corner(void **state)
{
    (void)state;
    struct options o = must("advise mine --ground bog --at-pressure front=18psi,rear=1.5bar");
    CHECK_CLOSE(o.at_pressure.axle[AXLE_FRONT].v, 18 * 6894.757293168361, 1e-6, 0, "psi");
    CHECK_CLOSE(o.at_pressure.axle[AXLE_REAR].v, 150000.0, 1e-6, 0, "bar");
    assert_false(o.at_pressure.axle[AXLE_TRAILER].is);
    o = must("up mine --from 100kPa,rear-right=50kPa --found-low front-left,trailer");
    CHECK_CLOSE(o.from.corner[0].v, 100000.0, 1e-6, 0, "kPa");
    CHECK_CLOSE(o.from.corner[AXLE_REAR * SIDE_COUNT + SIDE_RIGHT].v, 50000.0, 1e-6, 0, "kPa");
    assert_int_equal(o.found_low,
                     LOG_CORNER_BIT(AXLE_FRONT, SIDE_LEFT) | LOG_AXLE_BITS(AXLE_TRAILER));
}

static void flags_units_and_sets(void **state)
{
    (void)state;
    struct options o = must("advise mine --ground bog --json -w --ascii --units kpa --set a.b=1 "
                            "--set c.d=2");
    assert_true(o.json && o.working && o.ascii && o.units_given);
    assert_int_equal(o.units, UNITS_KPA);
    assert_int_equal(o.n_set, 2);
    assert_string_equal(o.set[1], "c.d=2");
    o = must("card mine -o card.pdf --size a6");
    assert_string_equal(o.output, "card.pdf");
}

static void every_mistake_at_once(void **state)
{
    (void)state;
    refuse("advize mine", "advize: unknown command (did you mean advise?)\n");
    refuse("advise mine --grund bog --at-temp 24 --speed 30,5km/h --units stone",
           "--grund: unknown option (did you mean --ground?)\n"
           "--at-temp 24: the unit is missing (accepted: C, F)\n"
           "--speed 30,5km/h: write a decimal point, not a comma (accepted: km/h, mph, m/s)\n"
           "--units stone: unknown unit (psi, bar, kpa)\n"
           "usage: sandshoe advise RIG --ground G | --tyre SIZE --front LOAD --rear LOAD "
           "--ground G\n");
}

static void options_stay_with_their_commands(void **state)
{
    (void)state;
    refuse("check mine.ini --speed 30km/h", "--speed does not go with 'check'\n");
    refuse("advise mine --ground", "--ground wants a value: --ground G\n");
    refuse("advise mine --json=yes --ground bog", "--json takes no value\n");
    refuse("advise mine --ground bog --at-pressure frnt=18psi",
           "--at-pressure: axle 'frnt' is unknown (front, middle, rear, trailer, trailer2)\n");
    refuse("up mine --found-low left-rear",
           "--found-low: corner 'left-rear' is unknown (front-left, rear-right, trailer ...)\n");
}

/* Help and version answer even when the rest would be refused for want of an argument. */
static void help_needs_nothing_else(void **state)
{
    (void)state;
    assert_true(must("check --help").help);
    assert_true(must("--version").version);
    assert_int_equal(must("up -h").command, CMD_UP);
}

static void every_option_is_in_some_help(void **state)
{
    static char all[65536], one[16384];
    struct text t = text_over(all, sizeof all);
    (void)state;
    options_mdoc(&t);
    assert_false(t.cut);
    for (unsigned bit = 1; bit < CMD_ALL; bit <<= 1) {
        struct text h = text_over(one, sizeof one);
        options_help((enum command_bit)bit, &h);
        assert_false(h.cut);
        assert_non_null(strstr(one, "--help"));
        bool named = bit == CMD_SESSION || strstr(one, command_name((enum command_bit)bit)) != NULL;
        assert_true(named);
        for (const char *line = strtok(one, "\n"); line; line = strtok(NULL, "\n")) {
            assert_true(strlen(line) < 80);
        }
    }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(commands_and_arguments),
        cmocka_unit_test(values_with_units),
        cmocka_unit_test(pressures_by_axle_and_corner),
        cmocka_unit_test(flags_units_and_sets),
        cmocka_unit_test(every_mistake_at_once),
        cmocka_unit_test(options_stay_with_their_commands),
        cmocka_unit_test(help_needs_nothing_else),
        cmocka_unit_test(every_option_is_in_some_help),
    };
    return check_run("options", tests, sizeof tests / sizeof tests[0], argc, argv);
}
