/* test_tui_screens.c - every screen, text and styles, at four sizes, from the shipped profiles; the
 * same frames make docs/screens.md; the manual's KEYS section. */
#include "support/check.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "support/tui_session.h"

/* Up from 18 psi, air on for a minute, off, settled: the questions and dangers answered. */
#define CLOCK_BEFORE "keys a u a\ntype 18\nkeys Enter\n"
#define CLOCK_ON     CLOCK_BEFORE "keys Space y Enter Enter Enter Enter\n"
#define MINUTE       "tick 15\ntick 15\ntick 15\ntick 15\n"
#define CLOCK_READ   CLOCK_ON MINUTE "keys Space\ntick 15\ntick 6\ntype 23\nkeys Enter\n"
#define CLOCK_LATE   CLOCK_READ "keys Space\n" MINUTE MINUTE MINUTE

struct scene {
    const char *name, *about;
    const char *rig, *ground; /* NULL: the three questions; no ground */
    const char *script;       /* up to the moment of the picture */
    bool ascii;
    bool in_docs;
};

// clang-format off
static const struct scene scenes[] = {
    {"questions", "The three questions, answered as far as the ground", NULL, NULL,
     "type 35x12.50R17LT 121 E\nkeys Enter\ntype 1950\nkeys Enter\ntype 2350\nkeys Enter u\n", false, true},
    {"questions-wrong", "A mistake stands beside its field", NULL, NULL,
     "type 35x12.50R17LT\nkeys Enter\ntype 19,5\n", false, false},
    {"corners", "Corners, on dune sand", "flatbed-cabin", "dune-sand", "", false, true},
    {"corners-ascii", "The same in ASCII", "flatbed-cabin", "dune-sand", "", true, true},
    {"corners-road", "No ground yet: road pressures", "flatbed-cabin", NULL, "", false, false},
    {"corners-trailer", "With a trailer, in bar", "touring-wagon", "dune-sand", "keys v j j l\n", false, true},
    {"corners-truck", "A 12 t truck on a bog", "expedition-truck", "bog", "", false, false},
    {"corners-warm", "Warm tyres, high up, too fast a wish", "flatbed-cabin", "stony-track",
     "keys t\ntype 31\nkeys Tab\ntype 52\nkeys Tab\ntype 1200\nkeys Enter s\ntype 60\nkeys Enter\n", false, true},
    {"refused", "Too much on the rear axle", "flatbed-cabin", "dune-sand",
     "keys w j Enter Ctrl-U\ntype 2900\nkeys Enter q\n", false, true},
    {"ground", "The ground chooser", "flatbed-cabin", "dune-sand", "keys g\n", false, true},
    {"footprint", "Footprint of the rear left corner", "flatbed-cabin", "dune-sand", "keys p j\n", false, true},
    {"danger", "Before the first act of a job", "flatbed-cabin", "dune-sand", "keys o\n", false, true},
    {"hookups", "Hook-ups side by side", "touring-wagon", "dune-sand", "keys o Enter j\n", false, true},
    {"trips", "The trips there are", "flatbed-cabin", "dune-sand", "keys r\n", false, false},
    {"trip", "Trip: the part refill on the firm link", "flatbed-cabin", "dune-sand", "keys r j Enter j j\n", false, true},
    {"trip-trailer", "Trip with a trailer, in bar", "touring-wagon", NULL, "keys v r Enter j j j\n", true, false},
    {"trip-pass", "Trip over a pass: it will read under the road figure", "flatbed-bare", NULL, "keys r j j Enter End\n", false, true},
    {"working", "The working", "flatbed-cabin", "dune-sand", "keys b /\ntype patch l\nkeys Enter\n", false, true},
    {"help", "Help, from the key table", "flatbed-cabin", "dune-sand", "keys ?\n", false, false},
    {"cautions", "Cautions and deference", "flatbed-cabin", "dune-sand", "keys !\n", false, true},
    {"weights", "Weights, an item added", "flatbed-cabin", "dune-sand",
     "keys w a\ntype roof tent\nkeys Enter\ntype 60\nkeys Enter\ntype 1.2\nkeys Enter j j\n", false, true},
    {"day", "Temperatures and height, while they are typed", "flatbed-cabin", "dune-sand",
     "keys t\ntype 4x\n", false, false},
    {"values", "Any value of the rig, with the mistake beside it", "flatbed-cabin", "dune-sand",
     "keys e /\ntype road_pressure\nkeys Enter Enter Ctrl-U\ntype 38\n", false, true},
    {"rigs", "Your rigs", "flatbed-cabin", "dune-sand", "keys y j\n", false, false},
    {"card", "The card, one size further", "flatbed-cabin", "dune-sand", "keys i Tab\n", false, false},
    {"clock-down", "The air clock, before letting down", "flatbed-cabin", "dune-sand", "keys a\n", false, false},
    {"clock-working", "What the air clock stands on", "flatbed-cabin", "dune-sand",
     CLOCK_READ "keys b\n", false, true},
    {"clock-working-readings", "Further down: the readings", "flatbed-cabin", "dune-sand",
     CLOCK_READ "keys b j j j j\n", false, true},
    {"clock-working-down", "Before letting down: the plan", "flatbed-cabin", "dune-sand", "keys a b\n", false, false},
    {"clock-cores", "Letting down, two cores out", "flatbed-cabin", "dune-sand",
     "keys a i Down Right i\n", false, true},
    {"clock-cores-falling", "Twenty seconds later", "flatbed-cabin", "dune-sand",
     "keys a i Down Right i a\ntype 48\nkeys Enter Space Enter Enter Enter\ntick 20\n", false, false},
    {"clock-before", "The air clock, before the first air", "flatbed-cabin", "dune-sand", CLOCK_BEFORE, false, true},
    {"clock-asked", "A question before the first air", "flatbed-cabin", "dune-sand", CLOCK_BEFORE "keys Space\n", false, false},
    {"clock-filling", "Filling, after a settled reading", "flatbed-cabin", "dune-sand",
     CLOCK_READ "keys Space\n" MINUTE "tick 15\n", false, true},
    {"clock-ascii", "The same in ASCII", "flatbed-cabin", "dune-sand",
     CLOCK_READ "keys Space\n" MINUTE "tick 15\n", true, false},
    {"clock-settling", "Air off, settling", "flatbed-cabin", "dune-sand", CLOCK_ON MINUTE "keys Space\ntick 7\n", false, false},
    {"clock-doubt", "A reading that looks like another unit", "flatbed-cabin", "dune-sand",
     CLOCK_READ "type 2.2\nkeys Enter\n", false, false},
    {"clock-drop", "The front has its target: a call", "flatbed-cabin", "dune-sand", CLOCK_LATE "tick 15\ntick 15\ntick 15\ntick 8\n", false, true},
    {"clock-rest", "The compressor rests", "flatbed-cabin", "dune-sand", CLOCK_LATE "keys r\n" MINUTE, false, false},
    {"clock-check", "One corner out of step", "flatbed-cabin", "dune-sand",
     CLOCK_READ "keys Space\n" MINUTE "keys Space\ntick 5\ntype 27\nkeys Enter l k\ntype 24\nkeys Enter h\ntype 27\n"
     "keys Enter Space\ntick 1\n", false, false},
    {"clock-trailer", "With a trailer, in bar", "touring-wagon", "dune-sand",
     "keys v a u a\ntype 1.2\nkeys Enter Space y Enter Enter Enter Enter\n" MINUTE, false, false},
    {"clock-record", "The record at the end", "flatbed-cabin", "dune-sand",
     CLOCK_LATE MINUTE "keys Enter\n" MINUTE "tick 30\nkeys Enter\ntick 15\ntick 6\nkeys k\ntype 38\n"
     "keys Enter l\ntype 38\nkeys Enter j\ntype 48\nkeys Enter h\ntype 46\nkeys Enter e y\n", false, true},
    {"save", "Save as a rig", "flatbed-cabin", "dune-sand", "keys n\n", false, false},
};
// clang-format on

enum { SCENES = sizeof scenes / sizeof *scenes };

static void append(char **to, size_t *len, const char *text)
{
    size_t n = strlen(text);
    char *grown = realloc(*to, *len + n + 1);
    assert_non_null(grown);
    memcpy(grown + *len, text, n + 1);
    *to = grown;
    *len += n;
}

/* paths of this machine have no place in a golden */
static void hide_paths(char *text, const char *path, const char *instead)
{
    size_t n = strlen(path), m = strlen(instead);
    for (char *at = strstr(text, path); at != NULL; at = strstr(at, path)) {
        memcpy(at, instead, m);
        memmove(at + m, at + n, strlen(at + n) + 1);
    }
}

static void screen_is_golden(void **state)
{
    const struct scene *s = *state;
    static const char *const sizes[] = {"80x24", "60x20", "132x43", "20x5"};
    char *all = NULL, path[128];
    size_t len = 0;
    for (size_t i = 0; i < sizeof sizes / sizeof *sizes; i++) {
        char script[1200], head[64];
        int cols = 80, rows = 24;
        assert_true(script_size(sizes[i], &cols, &rows));
        struct tui_session *t = tui_begin(s->rig, s->ground, cols, rows);
        t->ascii = s->ascii;
        snprintf(script, sizeof script, "%sdump\n", s->script);
        tui_script(t, script);
        hide_paths(t->out, SANDSHOE_SRCDIR, "SOURCE");
        snprintf(head, sizeof head, "== %s ==\n", sizes[i]);
        append(&all, &len, head);
        append(&all, &len, t->out);
        tui_end(t);
    }
    snprintf(path, sizeof path, "tests/golden/tui/%s.txt", s->name);
    tui_golden(path, all);
    free(all);
}

static void docs_show_the_screens(void **state)
{
    (void)state;
    char *all = NULL;
    size_t len = 0;
    append(
        &all, &len,
        "# Screens\n\nEach as it stands on a terminal of 80 columns and 24 rows, from the shipped "
        "profiles. Reverse video and bold are left out here. `make golden` writes this page, "
        "a test keeps it true.\n");
    for (size_t i = 0; i < SCENES; i++) {
        char script[1200], head[160];
        if (!scenes[i].in_docs)
            continue;
        struct tui_session *t = tui_begin(scenes[i].rig, scenes[i].ground, 80, 24);
        t->ascii = scenes[i].ascii;
        snprintf(script, sizeof script, "%stext\n", scenes[i].script);
        tui_script(t, script);
        hide_paths(t->out, SANDSHOE_SRCDIR, "SOURCE");
        snprintf(head, sizeof head, "\n## %s\n\n```\n", scenes[i].about);
        append(&all, &len, head);
        append(&all, &len, t->out);
        append(&all, &len, "```\n");
        tui_end(t);
    }
    tui_golden("docs/screens.md", all);
    free(all);
}

static void every_frame_is_safe_at_any_size(void **state)
{
    (void)state;
    static const int cols[] = {1, 2, 7, 59, 60, 61, 79, 100, 200, 400},
                     rows[] = {1, 2, 19, 20, 21, 23, 25, 60, 200};
    for (size_t i = 0; i < SCENES; i++) {
        struct tui_session *t = tui_begin(scenes[i].rig, scenes[i].ground, 80, 24);
        tui_script(t, scenes[i].script);
        for (size_t c = 0; c < sizeof cols / sizeof *cols; c++)
            for (size_t r = 0; r < sizeof rows / sizeof *rows; r++) {
                struct frame f;
                CHECK_STATUS(frame_init(&f, rows[r], cols[c], (c + r) % 2 == 0), STATUS_OK);
                t->model.rows = rows[r];
                t->model.cols = cols[c];
                model_render(&t->model, &f);
                frame_done(&f);
            }
        tui_end(t);
    }
}

int main(int argc, char **argv)
{
    struct CMUnitTest tests[SCENES + 2];
    for (size_t i = 0; i < SCENES; i++) {
        union {
            const struct scene *from;
            void *to;
        } state = {&scenes[i]};
        tests[i] = (struct CMUnitTest){scenes[i].name, screen_is_golden, NULL, NULL, state.to};
    }
    tests[SCENES] = (struct CMUnitTest)cmocka_unit_test(docs_show_the_screens);
    tests[SCENES + 1] = (struct CMUnitTest)cmocka_unit_test(every_frame_is_safe_at_any_size);
    return check_run("tui screens", tests, SCENES + 2, argc, argv);
}
