/* test_refill_log.c - the log's lines: read, refuse, write back. */
#include "support/check.h"

#include <stdio.h>

#include "core/refill_log.h"
#include "core/refill_note.h"

struct line_case {
    const char *line;
    enum status want;
    const char *written; /* what put makes of it; NULL when refused */
};

static const struct line_case CASES[] = {
    {"0     rig      profiles/rigs/flatbed-cabin.ini", STATUS_OK,
     "0 rig profiles/rigs/flatbed-cabin.ini"},
    {"0 hookup   linked", STATUS_OK, "0 hookup linked"},
    {"0 target front 38 psi", STATUS_OK, "0 target front 38 psi"},
    {"0 read all 15 psi settled  # corner: all", STATUS_OK, "0 read all 15 psi settled"},
    {"150 read front-left 2.05bar flowing", STATUS_OK, "150 read front-left 2.05 bar flowing"},
    {"60.5 air off\r", STATUS_OK, "60.5 air off"},
    {"230 drop front", STATUS_OK, "230 drop front"},
    {"231 join rear-right", STATUS_OK, "231 join rear-right"},
    {"240 gap 35", STATUS_OK, "240 gap 35"},
    {"241 undo", STATUS_OK, "241 undo"},
    {"241 undo  gap", STATUS_OK, "241 undo gap"},
    {"241 undo drop", STATUS_E_SYNTAX, NULL},
    {"241 note hose off the stem, put back", STATUS_OK, "241 note hose off the stem, put back"},
    {"0 started 2026-11-25T13:40:00Z boot 1f-2e", STATUS_OK,
     "0 started 2026-11-25T13:40:00Z boot 1f-2e"},
    {"9 clock 2026-11-25T13:41:00Z", STATUS_OK, "9 clock 2026-11-25T13:41:00Z"},
    {"0 job down", STATUS_OK, "0 job down"},
    {"0 job down core-out", STATUS_OK, "0 job down core-out"},
    {"0 job down  core-in ", STATUS_OK, "0 job down core-in"},
    {"0 job up core-in", STATUS_E_SYNTAX, NULL},
    {"0 job down cores", STATUS_E_SYNTAX, NULL},
    {"0 core out", STATUS_OK, "0 core out"},
    {"0 core all in", STATUS_OK, "0 core in"},
    {"0 core front-left out", STATUS_OK, "0 core front-left out"},
    {"0 core front-left rear  out # bare stems", STATUS_OK, "0 core front-left rear out"},
    {"0 core", STATUS_E_SYNTAX, NULL},
    {"0 core front", STATUS_E_SYNTAX, NULL},
    {"0 core side out", STATUS_E_UNKNOWN, NULL},
    {"0 core out front", STATUS_E_SYNTAX, NULL},
    {"5 drop rear-left  front", STATUS_OK, "5 drop front rear-left"},
    {"6 read front rear-right 30 psi settled", STATUS_OK, "6 read front rear-right 30 psi settled"},
    {"7 drop front then", STATUS_E_SYNTAX, NULL},
    {"300 done", STATUS_OK, "300 done"},
    {"  # only a comment", STATUS_E_MISSING, NULL},
    {"", STATUS_E_MISSING, NULL},
    {"x read all 15 psi settled", STATUS_E_DOMAIN, NULL},
    {"-1 done", STATUS_E_DOMAIN, NULL},
    {"1 reed all 15 psi settled", STATUS_E_UNKNOWN, NULL},
    {"1 read left 15 psi settled", STATUS_E_UNKNOWN, NULL},
    {"1 read all 15 settled", STATUS_E_UNIT_UNKNOWN, NULL},
    {"1 read all 2,2 bar settled", STATUS_E_DECIMAL_COMMA, NULL},
    {"1 read all 15 psi", STATUS_E_SYNTAX, NULL},
    {"1 read all 900 psi settled", STATUS_E_DOMAIN, NULL},
    {"1 done now", STATUS_E_SYNTAX, NULL},
    {"1 air maybe", STATUS_E_SYNTAX, NULL},
    {"1 hookup all", STATUS_E_UNKNOWN, NULL},
    {"1 note", STATUS_E_SYNTAX, NULL},
    {"1 started now", STATUS_E_SYNTAX, NULL},
};

static void lines_read_and_write_back(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof CASES / sizeof CASES[0]; i++) {
        char why[200];
        char out[LOG_LINE];
        struct log_event e = {.at_s = -5.0};
        struct text w = text_over(why, sizeof why);
        struct text o = text_over(out, sizeof out);
        enum status got = refill_log_parse(CASES[i].line, &e, &w);
        if (got != CASES[i].want) {
            fprintf(stderr, "line: %s (%s)\n", CASES[i].line, why);
        }
        CHECK_STATUS(got, CASES[i].want);
        if (CASES[i].written) {
            refill_log_put(&e, &o);
            CHECK_TEXT(out, CASES[i].written);
            assert_int_equal(why[0], '\0');
        } else {
            CHECK_CLOSE(e.at_s, -5.0, 0, 0, "untouched on error");
            assert_true((why[0] == '\0') == (CASES[i].want == STATUS_E_MISSING));
        }
    }
}

static void a_mistyped_word_gets_a_hint(void **state)
{
    (void)state;
    char why[200];
    struct log_event e;
    struct text w = text_over(why, sizeof why);
    CHECK_STATUS(refill_log_parse("1 reed all 15 psi settled", &e, &w), STATUS_E_UNKNOWN);
    CHECK_TEXT(why, "'reed' is not an event of the log (did you mean read?)");
}

static void selections_are_named_shortest(void **state)
{
    (void)state;
    char out[100];
    struct text o = text_over(out, sizeof out);
    refill_log_corners_put(LOG_AXLE_BITS(AXLE_FRONT) | LOG_CORNER_BIT(AXLE_REAR, SIDE_LEFT), &o);
    CHECK_TEXT(out, "front rear-left");
}

/* what a note says comes back from what is written; anything else is words */
static void notes_carry_the_day(void **state)
{
    (void)state;
    static const char *const notes[] = {"air 24 C", "tyres 31.5 C", "height 1200 m",
                                        "prior -0.21 0.12 3", "set air.hose_bore 8 mm"};
    static const enum refill_note_kind kinds[] = {NOTE_AIR, NOTE_TYRES, NOTE_HEIGHT, NOTE_PRIOR,
                                                  NOTE_SET};
    static const char *const words[] = {"air is cold",   "tyres",          "height 12",
                                        "prior 1 -1 2",  "prior 1 2",      "set bore 8 mm",
                                        "set air.bore",  "hose came off",  "prior nan 1 2",
                                        "prior 1 2 2.5", "prior 1 2 1e12", "prior 1 2 3 4"};
    for (size_t i = 0; i < sizeof notes / sizeof *notes; i++) {
        char out[LOG_TEXT];
        struct text t = text_over(out, sizeof out);
        struct refill_note n = refill_note_read(notes[i]);
        assert_int_equal(n.kind, kinds[i]);
        refill_note_put(&n, &t);
        CHECK_TEXT(out, notes[i]);
    }
    CHECK_CLOSE(refill_note_read(notes[0]).si, 297.15, 1e-9, 0, "24 + 273.15");
    for (size_t i = 0; i < sizeof words / sizeof *words; i++)
        assert_int_equal(refill_note_read(words[i]).kind, NOTE_WORDS);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lines_read_and_write_back),
        cmocka_unit_test(a_mistyped_word_gets_a_hint),
        cmocka_unit_test(selections_are_named_shortest),
        cmocka_unit_test(notes_carry_the_day),
    };
    return check_run("refill_log", tests, sizeof tests / sizeof tests[0], argc, argv);
}
