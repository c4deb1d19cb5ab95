/* test_tui_frame.c - the cell grid, UTF-8, styles and the key table. */
#include "support/check.h"

#include <stdio.h>
#include <string.h>

#include "tui/event.h"
#include "tui/frame.h"
#include "tui/keymap.h"
#include "tui/style.h"
#include "tui/utf8.h"

static struct frame made(int rows, int cols, bool ascii)
{
    struct frame f;
    CHECK_STATUS(frame_init(&f, rows, cols, ascii), STATUS_OK);
    return f;
}

static void text_of(struct frame *f, char *buf, size_t cap)
{
    struct text t = text_over(buf, cap);
    frame_dump_text(f, &t);
    frame_done(f);
}

static void frame_clips_on_every_side(void **state)
{
    (void)state;
    char got[64];
    struct frame f = made(2, 4, false);
    frame_put(&f, -1, 0, STYLE_PLAIN, "above");
    frame_put(&f, 9, 0, STYLE_PLAIN, "below");
    frame_put(&f, 0, -2, STYLE_PLAIN, "abcdefgh");
    assert_int_equal(frame_put(&f, 1, 2, STYLE_PLAIN, "xyz"), 5);
    text_of(&f, got, sizeof got);
    CHECK_TEXT(got, "cdef\n  xy\n");
}

static void a_cut_is_seen(void **state)
{
    (void)state;
    char got[64];
    struct frame f = made(3, 8, false);
    frame_put_within(&f, 0, 0, 5, STYLE_PLAIN, "flatbed");
    frame_put_within(&f, 1, 0, 7, STYLE_PLAIN, "flatbed");
    frame_put_within(&f, 2, 0, 0, STYLE_PLAIN, "flatbed");
    text_of(&f, got, sizeof got);
    CHECK_TEXT(got, "flat…\nflatbed\n\n");
}

static void wide_and_combining_characters_keep_the_grid(void **state)
{
    (void)state;
    char got[64];
    struct frame f = made(1, 6, false);
    frame_put(&f, 0, 0, STYLE_PLAIN, "砂e\xcc\x81z");
    assert_int_equal(frame_cell(&f, 0, 0)->width, 2);
    assert_int_equal(frame_cell(&f, 0, 1)->width, 0);
    assert_string_equal(frame_cell(&f, 0, 2)->utf8, "e\xcc\x81");
    frame_put(&f, 0, 1, STYLE_PLAIN, "|");
    text_of(&f, got, sizeof got);
    CHECK_TEXT(got, " |e\xcc\x81z\n");
}

static void ascii_frames_hold_ascii_only(void **state)
{
    (void)state;
    char got[64];
    struct frame f = made(1, 12, true);
    frame_put(&f, 0, 0, STYLE_PLAIN, "█░▀▄·…→ é砂");
    text_of(&f, got, sizeof got);
    CHECK_TEXT(got, "#:\"_.~> ??\n");
}

static void malformed_bytes_do_not_escape(void **state)
{
    (void)state;
    const char *s = "\xff\xc3"
                    "a\xed\xa0\x80";
    assert_int_equal(utf8_next(&s), 0xFFFD);
    assert_int_equal(utf8_next(&s), 0xFFFD);
    assert_int_equal(utf8_next(&s), 'a');
    while (utf8_next(&s) != 0)
        ;
    struct frame f = made(1, 4, false);
    frame_put(&f, 0, 0, STYLE_PLAIN, "a\033[2J\nb");
    assert_string_equal(frame_cell(&f, 0, 1)->utf8, "[");
    frame_done(&f);
}

static void wrapping_breaks_at_blanks(void **state)
{
    (void)state;
    char got[128];
    struct frame f = made(5, 9, false);
    struct rect r = {0, 0, 5, 9};
    assert_int_equal(frame_wrap(&f, r, STYLE_PLAIN, "slow wide turns incontestably"), 4);
    text_of(&f, got, sizeof got);
    CHECK_TEXT(got, "slow wide\nturns\nincontest\nably\n\n");
}

static void the_dump_shows_styles(void **state)
{
    (void)state;
    char got[128];
    struct frame f = made(1, 6, false);
    frame_put(&f, 0, 1, STYLE_KEY, "g");
    frame_put(&f, 0, 3, STYLE_DANGER, "!!");
    struct text t = text_over(got, sizeof got);
    frame_dump(&f, &t);
    frame_done(&f);
    CHECK_TEXT(got, " g !!\n--- style ---\n.k.DD\n");
}

static void roles_that_matter_differ_without_colour(void **state)
{
    (void)state;
    static const enum style warned[] = {STYLE_NOTE, STYLE_CAUTION, STYLE_DANGER};
    for (size_t i = 0; i < 3; i++)
        for (size_t j = i + 1; j < 3; j++)
            assert_int_not_equal(style_look(warned[i])->mono, style_look(warned[j])->mono);
    for (int a = 0; a < STYLE_COUNT; a++)
        for (int b = a + 1; b < STYLE_COUNT; b++)
            assert_int_not_equal(style_look((enum style)a)->letter,
                                 style_look((enum style)b)->letter);
}

static void every_action_has_key_label_and_help(void **state)
{
    (void)state;
    for (int a = ACT_NONE + 1; a < ACT_COUNT; a++) {
        const struct keymap_row *row = keymap_row((enum action)a);
        assert_int_equal(row->action, a);
        assert_true(strlen(row->label) > 0 && strlen(row->label) <= 16);
        assert_true(strlen(row->help) > 4 && row->help[strlen(row->help) - 1] == '.');
        const char *keys = row->keys;
        int n = 0;
        while (*keys != '\0') {
            assert_int_not_equal(keymap_key_at(&keys), 0);
            n++;
        }
        assert_true(n >= 1);
    }
}

static void no_key_acts_twice_in_a_context(void **state)
{
    (void)state;
    for (int a = ACT_NONE + 1; a < ACT_COUNT; a++) {
        const struct keymap_row *row = keymap_row((enum action)a);
        const char *keys = row->keys;
        for (int k = keymap_key_at(&keys); k != 0; k = keymap_key_at(&keys)) {
            if (keymap_find(row->context, k) != row->action)
                fprintf(stderr, "key %d of %s is taken\n", k, row->label);
            assert_int_equal(keymap_find(row->context, k), row->action);
        }
    }
}

/* a glove does not know about the shift key */
static void no_two_acts_differ_by_case_alone(void **state)
{
    (void)state;
    for (int c = 0; c < KEYS_COUNT; c++)
        for (int k = 'a'; k <= 'z'; k++)
            assert_true(keymap_find((enum keymap_context)c, k) == ACT_NONE ||
                        keymap_find((enum keymap_context)c, k - 'a' + 'A') == ACT_NONE);
}

static void typing_never_steals_a_character(void **state)
{
    (void)state;
    for (int k = ' '; k < 127; k++) {
        assert_int_equal(keymap_find(KEYS_TYPING, k), ACT_NONE);
        assert_int_equal(keymap_find(KEYS_QUESTIONS, k), ACT_NONE);
    }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(frame_clips_on_every_side),
        cmocka_unit_test(a_cut_is_seen),
        cmocka_unit_test(wide_and_combining_characters_keep_the_grid),
        cmocka_unit_test(ascii_frames_hold_ascii_only),
        cmocka_unit_test(malformed_bytes_do_not_escape),
        cmocka_unit_test(wrapping_breaks_at_blanks),
        cmocka_unit_test(the_dump_shows_styles),
        cmocka_unit_test(roles_that_matter_differ_without_colour),
        cmocka_unit_test(every_action_has_key_label_and_help),
        cmocka_unit_test(no_key_acts_twice_in_a_context),
        cmocka_unit_test(no_two_acts_differ_by_case_alone),
        cmocka_unit_test(typing_never_steals_a_character),
    };
    return check_run("tui frame", tests, sizeof tests / sizeof *tests, argc, argv);
}
