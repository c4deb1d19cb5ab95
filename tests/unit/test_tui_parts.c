/* test_tui_parts.c - the pieces that screens are made of: typed values, lists, scripts, the loop's
 * contract, the key table as a manual. */
#include "support/check.h"

#include <stdio.h>
#include <string.h>

#include "tui/entry.h"
#include "tui/script.h"
#include "tui/widget.h"

static bool reads(const char *text, enum quantity q, const char *unit, struct maybe *si)
{
    char words[200];
    struct text why = text_over(words, sizeof words);
    struct entry e;
    entry_set(&e, text);
    bool ok = entry_value(&e, q, unit, si, &why);
    assert_int_equal(ok, words[0] == '\0');
    return ok;
}

/* the unit that is printed beside the field goes with a bare number; another one may be typed */
static void typed_values_take_the_unit_beside_them(void **state)
{
    (void)state;
    struct maybe v;
    assert_true(reads("24", Q_TEMPERATURE, "C", &v) && v.is);
    CHECK_CLOSE(v.v, 297.15, 1e-9, 0, "definition of the Celsius scale");
    assert_true(reads("75 F", Q_TEMPERATURE, "C", &v));
    CHECK_CLOSE(v.v, 297.038888889, 1e-6, 0, "(75 - 32)/1.8 C");
    assert_true(reads("-5.5", Q_TEMPERATURE, "C", &v));
    CHECK_CLOSE(v.v, 267.65, 1e-9, 0, "definition of the Celsius scale");
    assert_true(reads("  ", Q_SPEED, "km/h", &v) && !v.is);
    assert_false(reads("24,5", Q_TEMPERATURE, "C", &v));
    assert_false(reads("24 psi", Q_TEMPERATURE, "C", &v));
    assert_false(reads("fast", Q_SPEED, "km/h", &v));
}

static void an_entry_never_overflows_or_splits(void **state)
{
    (void)state;
    struct entry e = {""};
    for (int i = 0; i < 200; i++)
        assert_true(entry_key(&e, i % 2 == 0 ? 0xE9 : 'x'));
    assert_true(strlen(e.text) < sizeof e.text);
    while (e.text[0] != '\0')
        assert_true(entry_act(&e, ACT_RUB));
    assert_true(entry_act(&e, ACT_RUB));
    assert_false(entry_key(&e, TKEY_UP));
    assert_false(entry_key(&e, '\n'));
    assert_false(entry_key(&e, 0xD800));
}

static void lists_keep_the_marked_row_in_sight(void **state)
{
    (void)state;
    struct list l = {0, 0};
    for (int i = 0; i < 9; i++)
        assert_true(list_move(&l, ACT_DOWN, 10, 4));
    assert_true(l.at == 9 && l.top == 6);
    assert_true(list_move(&l, ACT_DOWN, 10, 4));
    assert_int_equal(l.at, 9);
    assert_true(list_move(&l, ACT_PAGE_UP, 10, 4));
    assert_true(l.at == 5 && l.top == 5);
    assert_true(list_move(&l, ACT_FIRST, 10, 4));
    assert_true(l.at == 0 && l.top == 0);
    assert_true(list_move(&l, ACT_LAST, 0, 4));
    assert_true(l.at == 0 && l.top == 0);
    assert_false(list_move(&l, ACT_UNDO, 10, 4));
}

/* a client that counts: the script speaks to it as the loop does */
struct counter {
    int keys, ticks, resizes;
    int64_t last_ns;
};

static int count(void *self, const struct event *e)
{
    struct counter *c = self;
    c->keys += e->kind == EVENT_KEY;
    c->ticks += e->kind == EVENT_TICK;
    c->resizes += e->kind == EVENT_RESIZE;
    c->last_ns = e->now_ns;
    return EFFECT_REDRAW;
}

static void show(const void *self, struct frame *f)
{
    const struct counter *c = self;
    frame_printf(f, 0, 0, STYLE_PLAIN, "%d keys, %d ticks, %dx%d", c->keys, c->ticks, f->cols,
                 f->rows);
}

static int64_t never(const void *self)
{
    (void)self;
    return -1;
}

static void keep(void *to, const char *text)
{
    snprintf(to, 200, "%s", text);
}

static enum status run(const char *lines, struct counter *c, char out[200])
{
    char words[200];
    struct text why = text_over(words, sizeof words);
    struct loop_client client = {c, count, show, never, NULL};
    struct script s = {&client, 5, 40, false, 1000000000, keep, out};
    enum status status = script_run(&s, lines, &why);
    assert_int_equal(status == STATUS_OK, words[0] == '\0');
    return status;
}

static void scripts_feed_keys_and_time(void **state)
{
    (void)state;
    struct counter c = {0};
    char out[200] = "";
    CHECK_STATUS(run("# two and three\nkeys g Tab\ntype abc\ntick 2.5\nsize 30x4\ntext\n", &c, out),
                 STATUS_OK);
    CHECK_TEXT(out, "5 keys, 1 ticks, 30x4\n\n\n\n");
    assert_int_equal(c.last_ns, 3500000000);
    assert_int_equal(c.resizes, 2);
    CHECK_STATUS(run("keys Nokey\n", &c, out), STATUS_E_SYNTAX);
    CHECK_STATUS(run("size 3by4\n", &c, out), STATUS_E_SYNTAX);
    CHECK_STATUS(run("tick soon\n", &c, out), STATUS_E_SYNTAX);
    CHECK_STATUS(run("dance\n", &c, out), STATUS_E_SYNTAX);
}

static void sizes_are_read_strictly(void **state)
{
    (void)state;
    int cols = 7, rows = 7;
    static const char *const wrong[] = {
        "",     "80",    "80x",    "x24",    "80x24x", "80 x 24", "0x24",
        "80x0", "-1x24", "401x24", "80x201", "1e1x2",  "80x24 ",  "99999999999999999999x24"};
    for (size_t i = 0; i < sizeof wrong / sizeof *wrong; i++)
        assert_false(script_size(wrong[i], &cols, &rows));
    assert_true(cols == 7 && rows == 7);
    assert_true(script_size("132x43", &cols, &rows) && cols == 132 && rows == 43);
}

static void bars_show_band_and_marks(void **state)
{
    (void)state;
    struct frame f;
    char got[200];
    struct text t = text_over(got, sizeof got);
    const struct deflection_bar bar = {.value_1 = 0.25,
                                       .low_1 = 0.20,
                                       .high_1 = 0.30,
                                       .aim_1 = 0.26,
                                       .limit_1 = 0.35,
                                       .rim_1 = 0.50};
    CHECK_STATUS(frame_init(&f, 2, 20, false), STATUS_OK);
    deflection_put(&f, 0, 0, 20, &bar);
    bar_put(&f, 1, 0, 20, 5, 10, STYLE_BAR, "█");
    frame_dump_text(&f, &t);
    frame_done(&f);
    CHECK_TEXT(got, "■■■■■■■■──a─··L····R\n██████████\n");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(typed_values_take_the_unit_beside_them),
        cmocka_unit_test(an_entry_never_overflows_or_splits),
        cmocka_unit_test(lists_keep_the_marked_row_in_sight),
        cmocka_unit_test(scripts_feed_keys_and_time),
        cmocka_unit_test(sizes_are_read_strictly),
        cmocka_unit_test(bars_show_band_and_marks),
    };
    return check_run("tui parts", tests, sizeof tests / sizeof *tests, argc, argv);
}
