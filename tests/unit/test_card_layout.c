/* test_card_layout.c - goldens of the layout, and what must hold for any names and sizes. */
#include "support/check.h"

#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "card/layout.h"
#include "support/card_demo.h"
#include "support/golden.h"

static struct card_content content;
static struct card_page page, other, sheet;
static char dump[128 * 1024];

static const char *dumped(const struct card_page *p)
{
    struct text t = text_over(dump, sizeof dump);
    card_page_dump(p, &t);
    assert_false(t.cut);
    return dump;
}

static void must_lay_out(enum card_size size)
{
    struct card_problem problem = {.what = ""};
    enum status st = card_layout(&content, size, &page, &problem);
    if (st < 0) {
        fail_msg("size %d: %s: %s", (int)size, status_text(st), problem.what);
    }
}

static void goldens(void **state)
{
    (void)state;
    struct card_problem problem = {.what = ""};
    card_demo(&content, UNITS_PSI, 4, false);
    must_lay_out(CARD_3X5);
    GOLDEN_CHECK("card/layout-3x5.txt", dumped(&page));
    CHECK_STATUS(card_layout_log(&content, CARD_3X5, &page, &problem), STATUS_OK);
    GOLDEN_CHECK("card/layout-3x5-log.txt", dumped(&page));
    card_demo(&content, UNITS_PSI, 6, true);
    must_lay_out(CARD_A6);
    GOLDEN_CHECK("card/layout-a6.txt", dumped(&page));
    card_demo(&content, UNITS_BAR, 6, true);
    must_lay_out(CARD_QUARTER);
    GOLDEN_CHECK("card/layout-quarter.txt", dumped(&page));
    card_demo_trip(&content, 5);
    must_lay_out(CARD_3X5);
    GOLDEN_CHECK("card/layout-trip.txt", dumped(&page));
}

/* Sizes of paper: 3x5 in index card, ISO 216 A6 105 x 148 mm, a quarter of letter 8.5 x 11 in. */
static void pages_have_their_size(void **state)
{
    (void)state;
    static const double want_pt[CARD_SIZE_COUNT][2] = {
        {360.0, 216.0}, {419.527559, 297.637795}, {396.0, 306.0}};
    for (int s = 0; s < CARD_SIZE_COUNT; s++) {
        card_demo(&content, UNITS_PSI, 4, false);
        must_lay_out((enum card_size)s);
        CHECK_CLOSE(page.width_pt, want_pt[s][0], 1e-5, 0, "definition of the paper size");
        CHECK_CLOSE(page.height_pt, want_pt[s][1], 1e-5, 0, "definition of the paper size");
    }
}

static bool says(const struct card_page *p, const char *word, double least_pt)
{
    for (int i = 0; i < p->n_box; i++) {
        if (strcmp(p->box[i].text, word) == 0 && p->box[i].size_pt >= least_pt) {
            return true;
        }
    }
    return false;
}

static void targets_are_large(void **state)
{
    (void)state;
    for (int u = UNITS_PSI; u <= UNITS_KPA; u++) {
        for (int s = 0; s < CARD_SIZE_COUNT; s++) {
            static const char *const front[] = {"38", "2.6", "260"};
            card_demo(&content, (enum unit_system)u, 4, true);
            must_lay_out((enum card_size)s);
            assert_true(says(&page, front[u], 14.0)); /* product: at least 14 pt */
        }
    }
}

static void the_widest_rig_fits_each_size(void **state)
{
    (void)state;
    for (int s = 0; s < CARD_SIZE_COUNT; s++) {
        card_demo_wide(&content, card_format_of((enum card_size)s)->grounds);
        must_lay_out((enum card_size)s);
        assert_true(says(&page, "550", 14.0)); /* 80 psi = 551.6 kPa in steps of 5 */
    }
}

static int frames(const struct card_page *p)
{
    int n = 0;
    for (int i = 0; i < p->n_box; i++) {
        n += p->box[i].kind == CARD_BOX_FRAME;
    }
    return n;
}

/* 3x5: no drawing; A6: the plan, a tyre a corner; quarter: two outlines a corner. */
static void each_size_carries_its_share(void **state)
{
    (void)state;
    card_demo(&content, UNITS_PSI, 4, true);
    must_lay_out(CARD_3X5);
    assert_int_equal(frames(&page), 0);
    assert_false(says(&page, "LF", 7.0));
    must_lay_out(CARD_A6);
    assert_int_equal(frames(&page), 6);
    assert_true(says(&page, "LF", 7.0));
    must_lay_out(CARD_QUARTER);
    assert_int_equal(frames(&page), 12);
}

static void outlines_are_to_scale(void **state)
{
    (void)state;
    card_demo(&content, UNITS_PSI, 4, false);
    must_lay_out(CARD_QUARTER);
    const struct card_box *soft = NULL, *road = NULL, *bar = NULL;
    for (int i = 0; i < page.n_box; i++) {
        const struct card_box *b = &page.box[i];
        if (b->kind == CARD_BOX_FRAME && b->dashed) {
            soft = b;
        } else if (b->kind == CARD_BOX_FRAME) {
            road = b;
        } else if (b->kind == CARD_BOX_LINE) {
            bar = b;
        }
    }
    if (!soft || !road || !bar) {
        fail_msg("no outlines on the page");
        return;
    }
    CHECK_CLOSE(soft->height_pt / bar->width_pt, 3.1, 1e-9, 0, "310 mm against the 100 mm bar");
    CHECK_CLOSE(road->height_pt / bar->width_pt, 2.0, 1e-9, 0, "200 mm against the 100 mm bar");
    CHECK_CLOSE(road->width_pt / bar->width_pt, 2.4, 1e-9, 0, "240 mm against the 100 mm bar");
}

static void too_many_rows_say_how_many_fit(void **state)
{
    (void)state;
    struct card_problem problem = {.what = ""};
    card_demo(&content, UNITS_PSI, 5, false);
    CHECK_STATUS(card_layout(&content, CARD_3X5, &page, &problem), STATUS_E_FULL);
    assert_int_equal(problem.fits, 4);
    assert_string_equal(problem.what, "5 grounds do not fit a 3x5 card: 4 fit");
    card_demo_trip(&content, 14);
    CHECK_STATUS(card_layout(&content, CARD_3X5, &page, &problem), STATUS_E_FULL);
    int fits = problem.fits;
    assert_in_range(fits, 4, 13);
    card_demo_trip(&content, fits);
    must_lay_out(CARD_3X5);
    card_demo_trip(&content, fits + 1);
    CHECK_STATUS(card_layout(&content, CARD_3X5, &page, &problem), STATUS_E_FULL);
}

static void a_danger_is_never_cut(void **state)
{
    (void)state;
    static const char words[] =
        "DANGER  The reading to set lies above the limit moulded on the sidewall of this tyre: "
        "stop filling, let it down, and have the figures checked before anything else is done.";
    card_demo(&content, UNITS_PSI, 4, false);
    assert_non_null(card_add_line(&content, CARD_CAUTION, "", "%s", words));
    must_lay_out(CARD_A6);
    char all[4096];
    struct text t = text_over(all, sizeof all);
    for (int i = 0; i < page.n_box; i++) {
        text_put(&t, "%s ", page.box[i].text);
    }
    assert_non_null(strstr(all, "checked before anything else is done."));
}

static void a_missing_character_is_named_with_its_key(void **state)
{
    (void)state;
    struct card_problem problem = {.what = ""};
    card_demo(&content, UNITS_PSI, 4, false);
    CARD_PUT_WORD(content.heading, "CABIN \xe7\xa0\x82");
    CHECK_STATUS(card_layout(&content, CARD_3X5, &page, &problem), STATUS_E_SYNTAX);
    assert_non_null(strstr(problem.what, "[rig] load_state"));
    assert_non_null(strstr(problem.what, "U+7802"));
}

static void the_check_finds_faults(void **state)
{
    (void)state;
    struct card_problem problem = {.what = ""};
    card_page_start(&page, 100.0, 100.0);
    card_page_text(&page, 10.0, 50.0, CARD_BOLD, 10.0, "", "over");
    card_page_text(&page, 15.0, 52.0, CARD_BOLD, 10.0, "", "over");
    CHECK_STATUS(card_page_check(&page, &problem), STATUS_E_DOMAIN);
    card_page_start(&page, 100.0, 100.0);
    card_page_text(&page, 90.0, 50.0, CARD_BOLD, 10.0, "", "outside");
    CHECK_STATUS(card_page_check(&page, &problem), STATUS_E_DOMAIN);
    card_page_start(&page, 100.0, 100.0);
    card_page_text(&page, 10.0, 50.0, CARD_BOLD, 6.0, "", "small");
    CHECK_STATUS(card_page_check(&page, &problem), STATUS_E_DOMAIN);
    card_page_start(&page, 100.0, 100.0);
    card_page_line(&page, (double)NAN, 50.0, 5.0, 0.0, 1.0, false);
    CHECK_STATUS(card_page_check(&page, &problem), STATUS_E_DOMAIN);
    card_page_start(&page, 100.0, 100.0);
    card_page_text(&page, 10.0, 50.0, CARD_BOLD, 10.0, "", "crossed");
    card_page_line(&page, 5.0, 47.0, 60.0, 0.0, 1.0, false);
    CHECK_STATUS(card_page_check(&page, &problem), STATUS_E_DOMAIN);
    card_page_start(&page, 100.0, 100.0);
    for (int i = 0; i <= CARD_BOXES; i++) {
        card_page_line(&page, 5.0, 47.0, 60.0, 0.0, 1.0, false);
    }
    CHECK_STATUS(card_page_check(&page, &problem), STATUS_E_FULL);
}

static void folded_sheets_hold_both(void **state)
{
    (void)state;
    struct card_problem problem = {.what = ""};
    card_demo(&content, UNITS_PSI, 4, false);
    must_lay_out(CARD_3X5);
    other = page;
    card_demo(&content, UNITS_PSI, 4, true);
    CARD_PUT_WORD(content.heading, "BARE BED");
    must_lay_out(CARD_3X5);
    card_page_stack(&other, &page, &sheet);
    CHECK_STATUS(card_page_check(&sheet, &problem), STATUS_OK);
    CHECK_CLOSE(sheet.height_pt, 432.0, 1e-9, 0, "two cards of 3 in");
    assert_true(says(&sheet, "CABIN ON, WATER FULL", 7.0));
    assert_true(says(&sheet, "BARE BED", 7.0));
}

/* ---- properties over random names ---- */

static unsigned long seed = 20260502;

static int rnd(int n)
{
    seed = (seed * 1103515245UL + 12345UL) & 0x7fffffffUL;
    return (int)(seed >> 8) % n;
}

static void random_words(char *dst, size_t cap)
{
    static const char *const letters[] = {"a", "W", "i", " ", "g", "\xc3\x85", "0", "M", "-", ","};
    struct text t = text_over(dst, cap);
    int n = rnd(90);
    for (int i = 0; i < n; i++) {
        text_put(&t, "%s", letters[rnd(10)]);
    }
}

static void nothing_ever_overflows(void **state)
{
    (void)state;
    int laid = 0;
    for (int round = 0; round < 400; round++) {
        unsigned long was = seed;
        enum card_size size = (enum card_size)rnd(CARD_SIZE_COUNT);
        struct card_problem problem = {.what = "", .fits = -1};
        card_demo(&content, (enum unit_system)rnd(3), 1 + rnd(6), rnd(2) == 1);
        random_words(content.heading, sizeof content.heading);
        random_words(content.subject, sizeof content.subject);
        random_words(content.tyre, sizeof content.tyre);
        for (int i = 0; i < content.table.n_row; i++) {
            random_words(content.table.row[i].title, sizeof content.table.row[i].title);
        }
        for (int i = 0; i < content.n_line; i++) {
            random_words(content.line[i].text, sizeof content.line[i].text);
        }
        enum status st = card_layout(&content, size, &page, &problem);
        if (st != STATUS_OK && st != STATUS_E_FULL) {
            fail_msg("seed %lu: %s: %s", was, status_text(st), problem.what);
        }
        laid += st == STATUS_OK;
    }
    assert_true(laid > 200);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(goldens),
        cmocka_unit_test(pages_have_their_size),
        cmocka_unit_test(targets_are_large),
        cmocka_unit_test(the_widest_rig_fits_each_size),
        cmocka_unit_test(each_size_carries_its_share),
        cmocka_unit_test(outlines_are_to_scale),
        cmocka_unit_test(too_many_rows_say_how_many_fit),
        cmocka_unit_test(a_danger_is_never_cut),
        cmocka_unit_test(a_missing_character_is_named_with_its_key),
        cmocka_unit_test(the_check_finds_faults),
        cmocka_unit_test(folded_sheets_hold_both),
        cmocka_unit_test(nothing_ever_overflows),
    };
    return check_run("card layout", tests, sizeof tests / sizeof tests[0], argc, argv);
}
