/* test_card_text.c - the text form: goldens, and the printer grid for any names. */
#include "support/check.h"

#include <string.h>

#include "card/card_text.h"
#include "support/card_demo.h"
#include "support/golden.h"

static struct card_content content;
static char out[CARD_TEXT_MAX];

/* Columns and lines at 10 characters and 6 lines an inch with 0.2 in margins, landscape [own]. */
static const struct {
    int columns, lines;
} GRID[CARD_SIZE_COUNT] = {{46, 15}, {54, 22}, {51, 23}};

static void must_fit(enum card_size size, const char *s)
{
    int lines = 0;
    while (*s != '\0') {
        const char *end = strchr(s, '\n');
        assert_non_null(end);
        char line[512];
        struct text t = text_over(line, sizeof line);
        text_put(&t, "%.*s", (int)(end - s), s);
        if (text_width(line) > GRID[size].columns) {
            fail_msg("size %d, line too wide: %s", (int)size, line);
        }
        lines++;
        s = end + 1;
    }
    assert_in_range(lines, 1, GRID[size].lines);
}

static const char *front(enum card_size size)
{
    struct card_problem problem = {.what = ""};
    struct text t = text_over(out, sizeof out);
    CHECK_STATUS(card_text_front(&content, size, &t, &problem), STATUS_OK);
    must_fit(size, out);
    return out;
}

static const char *log_grid(enum card_size size)
{
    struct card_problem problem = {.what = ""};
    struct text t = text_over(out, sizeof out);
    CHECK_STATUS(card_text_log(&content, size, &t, &problem), STATUS_OK);
    must_fit(size, out);
    return out;
}

static void goldens(void **state)
{
    (void)state;
    card_demo(&content, UNITS_PSI, 4, false);
    GOLDEN_CHECK("card/text-3x5.txt", front(CARD_3X5));
    GOLDEN_CHECK("card/text-3x5-log.txt", log_grid(CARD_3X5));
    card_demo(&content, UNITS_PSI, 6, true);
    GOLDEN_CHECK("card/text-a6.txt", front(CARD_A6));
    GOLDEN_CHECK("card/text-a6-log.txt", log_grid(CARD_A6));
    card_demo(&content, UNITS_BAR, 6, true);
    GOLDEN_CHECK("card/text-quarter.txt", front(CARD_QUARTER));
    card_demo(&content, UNITS_KPA, 4, true);
    GOLDEN_CHECK("card/text-3x5-kpa.txt", front(CARD_3X5));
    card_demo_trip(&content, 5);
    GOLDEN_CHECK("card/text-trip.txt", front(CARD_3X5));
}

static void targets_stand_wide(void **state)
{
    (void)state;
    card_demo(&content, UNITS_PSI, 4, true);
    for (int s = 0; s < CARD_SIZE_COUNT; s++) {
        assert_non_null(strstr(front((enum card_size)s), "3 8"));
    }
}

static void the_widest_rig_fits_each_size(void **state)
{
    (void)state;
    for (int s = 0; s < CARD_SIZE_COUNT; s++) {
        card_demo_wide(&content, 4);
        assert_non_null(strstr(front((enum card_size)s), "ROAD"));
        assert_non_null(strstr(out, "550"));
    }
}

static void too_many_grounds_say_how_many_fit(void **state)
{
    (void)state;
    struct card_problem problem = {.what = ""};
    char buf[CARD_TEXT_MAX];
    struct text t = text_over(buf, sizeof buf);
    card_demo(&content, UNITS_PSI, 8, false);
    CHECK_STATUS(card_text_front(&content, CARD_A6, &t, &problem), STATUS_E_FULL);
    assert_int_equal(problem.fits, 6);
    assert_string_equal(buf, "");
}

static void long_words_stay_in_the_grid(void **state)
{
    (void)state;
    static const char words[] = "a very long name of a rig with a bed, a cabin, two tents and more";
    for (int s = 0; s < CARD_SIZE_COUNT; s++) {
        for (int u = UNITS_PSI; u <= UNITS_KPA; u++) {
            card_demo(&content, (enum unit_system)u, 3, u == UNITS_BAR);
            CARD_PUT_WORD(content.heading, words);
            CARD_PUT_WORD(content.subject, words);
            CARD_PUT_WORD(content.table.row[1].title, words);
            assert_non_null(strstr(front((enum card_size)s), "..."));
        }
    }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(goldens),
        cmocka_unit_test(targets_stand_wide),
        cmocka_unit_test(the_widest_rig_fits_each_size),
        cmocka_unit_test(too_many_grounds_say_how_many_fit),
        cmocka_unit_test(long_words_stay_in_the_grid),
    };
    return check_run("card text", tests, sizeof tests / sizeof tests[0], argc, argv);
}
