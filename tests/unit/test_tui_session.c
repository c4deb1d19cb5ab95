/* test_tui_session.c - sessions as a driver has them: keys in, state and frames out. */
#include "support/check.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "support/tui_session.h"
#include "tui/chrome.h"
#include "tui/patch_draw.h"
#include "tui/widget.h"

static const struct axle_advice *axle_of(const struct tui_session *t, enum axle_id x)
{
    return &t->model.results.advice.axle[x];
}

static void assert_shows(const char *frame, const char *words)
{
    if (strstr(frame, words) == NULL)
        fprintf(stderr, "not on the screen: %s\n%s", words, frame);
    assert_non_null(strstr(frame, words));
}

/* from start with a rig: g and a letter, and all four targets stand there */
static void two_keys_to_four_targets(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin("flatbed-cabin", NULL, 80, 24);
    struct advice want;
    tui_script(t, "keys g u\n");
    assert_int_equal(t->model.editor, SCREEN_NONE);
    const struct ground *dune = ground_find(&t->grounds, "dune-sand");
    struct conditions day = {.slope_1 = 0};
    CHECK_STATUS(advice_compute(&t->model.outing.rig, dune, &day, &want), STATUS_OK);
    for (int x = 0; x < AXLE_COUNT; x++)
        CHECK_CLOSE(axle_of(t, (enum axle_id)x)->target_gauge_pa, want.axle[x].target_gauge_pa, 0,
                    0, "advice_compute on the same rig and ground");
    tui_end(t);
}

/* what stands on the screen is what the advice says, digit by digit, in every unit */
static void the_screen_shows_the_advice(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin("touring-wagon", "dune-sand", 132, 43);
    for (int i = 0; i < 3; i++) {
        char words[48], value[32];
        const char *frame = tui_script(t, "text\n");
        snprintf(words, sizeof words, "road %s",
                 cold_bare(&t->model, value, axle_of(t, AXLE_REAR)->road_gauge_pa));
        assert_shows(frame, words);
        snprintf(words, sizeof words, "stuck %s",
                 cold_text(&t->model, value, axle_of(t, AXLE_FRONT)->stuck_gauge_pa.v));
        assert_shows(frame, words);
        snprintf(words, sizeof words, "%.1f %%",
                 100 * axle_of(t, AXLE_TRAILER)->corner[0].at.deflection_1);
        assert_shows(frame, words);
        tui_script(t, "keys v\n");
    }
    tui_end(t);
}

/* 18 psi is 1.24 bar: with one decimal it would read as less than it is */
static void steps_of_the_gauge_stay_apart(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin("flatbed-cabin", "dune-sand", 80, 24);
    assert_shows(tui_script(t, "keys v g\ntext\n"), "1.24 1.59");
    tui_end(t);
    t = tui_begin("expedition-truck", "dune-sand", 80, 24);
    assert_shows(tui_script(t, "text\n"), "road 4.2 ");
    tui_end(t);
}

/* large numerals: the same digits as the pressure in figures */
static void numerals_are_the_target(void **state)
{
    (void)state;
    struct frame f;
    CHECK_STATUS(frame_init(&f, 3, 12, true), STATUS_OK);
    assert_int_equal(big_put(&f, 0, 0, 3, "2.6"), big_width("2.6", 3));
    char got[80];
    struct text t = text_over(got, sizeof got);
    frame_dump_text(&f, &t);
    CHECK_TEXT(got, " _     _\n _|   |_\n|_  . |_|\n");
    frame_done(&f);
}

static void three_answers_without_a_rig(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin(NULL, NULL, 80, 24);
    assert_int_equal(t->model.screen, SCREEN_QUESTIONS);
    const char *frame =
        tui_script(t, "type LT285/70R17 121 E\nkeys Enter\ntype 1500 kg\nkeys Enter\n"
                      "type 3000 lb\nkeys Enter\ntext\n");
    assert_true(t->model.outing.has_rig);
    assert_shows(frame, "estimated: your placard rules");
    CHECK_CLOSE(axle_of(t, AXLE_REAR)->load_kg, 1360.77711, 1e-6, 0, "3000 x 0.45359237 kg");
    tui_script(t, "keys u Enter\n");
    assert_int_equal(t->model.screen, SCREEN_CORNERS);
    tui_end(t);
}

static void a_mistake_stands_beside_its_field(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin(NULL, NULL, 80, 24);
    const char *frame = tui_script(t, "type 35x12.50R17LT\nkeys Tab\ntype 19,5\ntext\n");
    assert_shows(frame, "decimal comma");
    assert_false(t->model.outing.has_rig);
    frame = tui_script(t, "keys Tab Enter Enter\ntext\n");
    assert_int_equal(t->model.screen, SCREEN_QUESTIONS);
    tui_end(t);
}

static void typing_counts_at_once_and_esc_takes_it_back(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin("flatbed-cabin", "dune-sand", 80, 24);
    double cold = axle_of(t, AXLE_FRONT)->set_now_gauge_pa;
    tui_script(t, "keys t Tab\ntype 60\n");
    assert_true(axle_of(t, AXLE_FRONT)->set_now_gauge_pa > cold + 1000);
    tui_script(t, "keys Esc\n");
    CHECK_CLOSE(axle_of(t, AXLE_FRONT)->set_now_gauge_pa, cold, 0, 0, "as before");
    assert_int_equal(t->model.undo.n, 0);
    tui_script(t, "keys t Tab\ntype 60\nkeys Enter\n");
    assert_int_equal(t->model.undo.n, 1);
    tui_end(t);
}

static void undo_goes_back_step_by_step_and_says_what(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin("flatbed-cabin", NULL, 80, 24);
    tui_script(t, "keys g u g r v s\ntype 20\nkeys Enter\n");
    assert_int_equal(t->model.undo.n, 4);
    assert_shows(tui_script(t, "keys z\ntext\n"), "Undone: Speed. 3 more.");
    assert_shows(tui_script(t, "keys z\ntext\n"), "Undone: unit bar. 2 more.");
    assert_shows(tui_script(t, "keys z\ntext\n"), "Undone: ground rock steps. 1 more.");
    assert_string_equal(outing_ground(&t->model.outing, &t->grounds)->name, "dune-sand");
    assert_shows(tui_script(t, "keys z\ntext\n"), "Undone: ground dune sand. 0 more.");
    assert_shows(tui_script(t, "keys z\ntext\n"), "Nothing to undo.");
    tui_end(t);
}

static void undo_forgets_only_the_oldest(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin("flatbed-cabin", NULL, 80, 24);
    for (int i = 0; i < OUTING_UNDO + 10; i++)
        tui_script(t, "keys v\n");
    assert_int_equal(t->model.undo.n, OUTING_UNDO);
    for (int i = 0; i < OUTING_UNDO; i++)
        tui_script(t, "keys z\n");
    assert_int_equal(t->model.outing.units, (UNITS_PSI + 10) % 3);
    tui_end(t);
}

static void a_value_is_checked_as_in_a_file(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin("flatbed-cabin", "dune-sand", 80, 24);
    const char *frame =
        tui_script(t, "keys e /\ntype rear.axle_load\nkeys Enter Enter Ctrl-U\ntype 2000\ntext\n");
    assert_shows(frame, "a bare number");
    CHECK_CLOSE(axle_of(t, AXLE_REAR)->load_kg, 2350, 0, 0, "the rig is as it was");
    tui_script(t, "type  kg\n");
    CHECK_CLOSE(axle_of(t, AXLE_REAR)->load_kg, 2000, 1e-9, 0, "what was typed, live");
    tui_script(t, "keys Enter q z\n");
    CHECK_CLOSE(axle_of(t, AXLE_REAR)->load_kg, 2350, 0, 0, "undone");
    tui_end(t);
}

static void load_items_move_the_axles_and_switch(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin("flatbed-cabin", "dune-sand", 80, 24);
    tui_script(t, "keys w a\ntype box\nkeys Enter\ntype 66\nkeys Enter\ntype 1.1 m\nkeys Enter\n");
    CHECK_CLOSE(axle_of(t, AXLE_FRONT)->load_kg, 1950 + 44, 1e-6, 0, "66 kg at a third of 3.30 m");
    CHECK_CLOSE(axle_of(t, AXLE_REAR)->load_kg, 2350 + 22, 1e-6, 0, "66 kg at a third of 3.30 m");
    tui_script(t, "keys j j Space\n");
    CHECK_CLOSE(axle_of(t, AXLE_FRONT)->load_kg, 1950, 1e-6, 0, "switched off");
    tui_script(t, "keys z\n");
    CHECK_CLOSE(axle_of(t, AXLE_FRONT)->load_kg, 1994, 1e-6, 0, "switched on again by undo");
    tui_end(t);
}

static void danger_comes_before_the_act_once_a_job(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin("flatbed-cabin", "dune-sand", 80, 24);
    assert_shows(tui_script(t, "keys o\ntext\n"), "Nobody beside or over a tyre while it fills");
    assert_int_equal(t->model.screen, SCREEN_CORNERS);
    tui_script(t, "keys q\n");
    assert_int_equal(t->model.screen, SCREEN_CORNERS);
    tui_script(t, "keys o Enter\n");
    assert_int_equal(t->model.screen, SCREEN_HOOKUPS);
    tui_script(t, "keys c o\n");
    assert_int_equal(t->model.screen, SCREEN_HOOKUPS);
    tui_script(t, "keys c s\ntype 90\nkeys Enter o\n");
    assert_int_equal(t->model.editor, EDITOR_DANGER); /* a new danger is read again */
    tui_end(t);
}

static void saving_never_writes_over_unasked(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin("flatbed-cabin", "dune-sand", 80, 24);
    char path[200];
    struct stat first, second;
    snprintf(path, sizeof path, "%s/rigs/camp.ini", t->save_dir);
    tui_script(t, "keys w Enter Ctrl-U\ntype 1900\nkeys Enter q n Ctrl-U\ntype camp\nkeys Enter\n");
    assert_int_equal(stat(path, &first), 0);
    assert_shows(tui_script(t, "keys n Ctrl-U\ntype camp\nkeys Enter\ntext\n"), "Write over it?");
    tui_script(t, "keys n\n");
    assert_int_equal(stat(path, &second), 0);
    assert_true(first.st_ino == second.st_ino);
    tui_script(t, "keys Enter y\n");
    assert_int_equal(stat(path, &second), 0);
    assert_true(first.st_ino != second.st_ino);
    struct rig_source saved = {.kind = SOURCE_FILE};
    struct load_report report;
    struct rig rig;
    snprintf(saved.path, sizeof saved.path, "%s", path);
    assert_true(t->host.load(t->host.self, &saved, 0, NULL, &rig, &report));
    CHECK_CLOSE(rig.axle[AXLE_FRONT].load_kg, 1900, 1e-9, 0, "as changed before saving");
    tui_end(t);
}

static void three_answers_can_be_saved_and_opened_again(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin(NULL, NULL, 80, 24);
    tui_script(t, "type 35x12.50R17LT 121 E\nkeys Enter\ntype 1950\nkeys Enter\ntype 2350\n"
                  "keys F2 Ctrl-U\ntype mine\nkeys Enter F3\n");
    assert_int_equal(t->model.editor, EDITOR_RIGS);
    double road = t->model.outing.rig.axle[AXLE_REAR].road_gauge_pa;
    for (int i = 0; i < HOST_RIGS; i++)
        if (strstr(t->model.at.rigs.rig[t->model.at.rigs.list.at].path, "mine.ini") == NULL)
            tui_script(t, "keys j\n");
    tui_script(t, "keys Enter\n");
    assert_int_equal(t->model.outing.source.kind, SOURCE_FILE);
    assert_non_null(strstr(t->model.outing.source.path, "mine.ini"));
    CHECK_CLOSE(t->model.outing.rig.axle[AXLE_REAR].road_gauge_pa, road, 50, 0, "written in kPa");
    tui_end(t);
}

static void the_last_ground_comes_back(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin("flatbed-cabin", NULL, 80, 24);
    assert_int_equal(t->model.outing.ground, -1);
    tui_script(t, "keys g r\n");
    struct model_start start = {.host = &t->host, .grounds = &t->grounds};
    struct load_report report;
    struct model *again = calloc(1, sizeof *again);
    assert_non_null(again);
    start.source = t->model.outing.source;
    CHECK_STATUS(model_init(&start, again, &report), STATUS_OK);
    assert_string_equal(outing_ground(&again->outing, &t->grounds)->name, "rock-steps");
    free(again);
    tui_end(t);
}

static void corners_are_picked_by_arrows_letters_and_tab(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin("touring-wagon", "dune-sand", 80, 24);
    tui_script(t, "keys l\n");
    assert_int_equal(t->model.side, SIDE_RIGHT);
    tui_script(t, "keys Down\n");
    assert_int_equal(t->model.axle, AXLE_REAR);
    tui_script(t, "keys j j j\n");
    assert_int_equal(t->model.axle, AXLE_TRAILER);
    tui_script(t, "keys Tab\n");
    assert_true(t->model.axle == AXLE_FRONT && t->model.side == SIDE_LEFT);
    tui_script(t, "keys BackTab\n");
    assert_true(t->model.axle == AXLE_TRAILER && t->model.side == SIDE_RIGHT);
    tui_end(t);
}

static void quitting_is_two_kinds_of_back(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin("flatbed-cabin", "dune-sand", 80, 24);
    struct event q = {.kind = EVENT_KEY, .key = 'q'}, esc = {.kind = EVENT_KEY, .key = TKEY_ESC};
    tui_script(t, "keys b\n");
    assert_false((model_update(&t->model, &q) & EFFECT_QUIT) != 0);
    assert_int_equal(t->model.screen, SCREEN_CORNERS);
    assert_false((model_update(&t->model, &esc) & EFFECT_QUIT) != 0);
    assert_true((model_update(&t->model, &q) & EFFECT_QUIT) != 0);
    struct event hup = {.kind = EVENT_SIGNAL, .signal = EVENT_HANGUP};
    assert_true((model_update(&t->model, &hup) & EFFECT_QUIT) != 0);
    struct event stop = {.kind = EVENT_SIGNAL, .signal = EVENT_STOP};
    assert_int_equal(model_update(&t->model, &stop) & EFFECT_QUIT, 0);
    tui_end(t);
}

static void one_key_makes_the_card(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin("flatbed-cabin", "dune-sand", 80, 24);
    char here[400];
    assert_non_null(getcwd(here, sizeof here));
    assert_int_equal(chdir(t->save_dir), 0);
    assert_shows(tui_script(t, "keys i p\ntext\n"), "First make it");
    assert_shows(tui_script(t, "keys Enter\ntext\n"), "flatbed-cabin-card.pdf");
    assert_shows(tui_script(t, "keys Enter\ntext\n"), "flatbed-cabin-card-2.pdf");
    assert_int_equal(access("flatbed-cabin-card.pdf", R_OK), 0);
    setenv("PATH", t->save_dir, 1);
    assert_shows(tui_script(t, "keys p\ntext\n"), "no lp command here");
    FILE *lp = fopen("lp", "w");
    assert_non_null(lp);
    fputs("#!/bin/sh\ntest -r \"$2\"\n", lp);
    fclose(lp);
    assert_int_equal(chmod("lp", 0700), 0);
    assert_shows(tui_script(t, "keys p\ntext\n"), "Sent to the printer");
    assert_int_equal(chdir(here), 0);
    tui_end(t);
}

static void unsaved_changes_are_asked_about(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin("flatbed-cabin", "dune-sand", 80, 24);
    struct event q = {.kind = EVENT_KEY, .key = 'q'};
    tui_script(t, "keys w Enter Ctrl-U\ntype 1900\nkeys Enter q\n");
    assert_int_equal(model_update(&t->model, &q) & EFFECT_QUIT, 0);
    assert_shows(tui_script(t, "text\n"), "not saved");
    tui_script(t, "keys j\n");
    assert_int_equal(model_update(&t->model, &q) & EFFECT_QUIT, 0);
    assert_int_not_equal(model_update(&t->model, &q) & EFFECT_QUIT, 0);
    tui_script(t, "keys n Enter\n");
    assert_int_not_equal(model_update(&t->model, &q) & EFFECT_QUIT, 0);
    tui_end(t);
}

/* the longest target patch takes 5 rows at the design size, 4 on the least screen */
static void the_scale_fits_the_longest_patch(void **state)
{
    (void)state;
    static const char *const rigs[] = {"flatbed-cabin", "flatbed-bare",     "light-wagon",
                                       "touring-wagon", "expedition-truck", "rock-buggy"};
    static const char *const grounds[] = {"rock-steps", "dune-sand", "bog"};
    static const struct {
        int cols, rows, patch_rows;
    } sizes[] = {{80, 24, 5}, {60, 20, 4}};
    for (size_t r = 0; r < sizeof rigs / sizeof *rigs; r++)
        for (size_t g = 0; g < sizeof grounds / sizeof *grounds; g++)
            for (size_t s = 0; s < 2; s++) {
                struct tui_session *t =
                    tui_begin(rigs[r], grounds[g], sizes[s].cols, sizes[s].rows);
                const char *frame = tui_script(t, "text\n"), *scale = strstr(frame, "1 row = ");
                double row_mm = 0;
                assert_non_null(scale);
                assert_int_equal(sscanf(scale, "1 row = %lf mm", &row_mm), 1);
                int rows = patch_rows(t->model.results.longest_m, row_mm / 1000);
                if (rows != sizes[s].patch_rows)
                    fprintf(stderr, "%s on %s at %dx%d: %d rows\n", rigs[r], grounds[g],
                            sizes[s].cols, sizes[s].rows, rows);
                assert_int_equal(rows, sizes[s].patch_rows);
                tui_end(t);
            }
}

static void patches_grow_in_rows_about_their_middle(void **state)
{
    (void)state;
    const struct tyre_patch road = {.length_m = 0.15, .width_m = 0.15},
                            at = {.length_m = 0.25, .width_m = 0.15},
                            between = {.length_m = 0.20, .width_m = 0.15};
    struct frame f;
    char got[400];
    struct text t = text_over(got, sizeof got);
    CHECK_STATUS(frame_init(&f, 5, 16, false), STATUS_OK);
    patch_put(&f, (struct rect){0, 0, 5, 6}, 0.05, &road, &at);
    patch_put(&f, (struct rect){0, 8, 5, 6}, 0.05, &between, &at);
    frame_dump_text(&f, &t);
    frame_done(&f);
    CHECK_TEXT(got, "░░░░░░  ▄▄▄▄▄▄\n██████  ██████\n██████  ██████\n██████  ██████\n"
                    "░░░░░░  ▀▀▀▀▀▀\n");
    CHECK_CLOSE(patch_scale(0.35, 0.25, 5, 20), 0.07, 1e-12, 0, "350 mm in 5 rows");
    CHECK_CLOSE(patch_scale(0.35, 0.35, 5, 7), 0.10, 1e-12, 0, "350 mm in 7 columns of half a row");
    CHECK_CLOSE(patch_scale(0, 0.35, 5, 7), 0, 0, 0, "nothing to draw");
}

static void ground_letters_are_found_and_unlike(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin(NULL, NULL, 80, 24);
    char letters[GROUND_MAX];
    ground_letters(&t->grounds, letters);
    for (int i = 0; i < t->grounds.n; i++) {
        assert_true(letters[i] >= 'a' && letters[i] <= 'z');
        assert_null(strchr("hjklqz", letters[i]));
        for (int k = 0; k < i; k++)
            assert_int_not_equal(letters[i], letters[k]);
    }
    tui_end(t);
}

static void searching_the_working(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin("flatbed-cabin", "dune-sand", 80, 24);
    tui_script(t, "keys b\n");
    int all = t->model.working.n;
    tui_script(t, "keys /\ntype VCI of nothing\nkeys Enter\n");
    assert_int_equal(t->model.at.working.list.at, 0);
    assert_shows(tui_script(t, "keys / Ctrl-U\ntype capacity\nkeys Enter\ntext\n"), "capacity");
    tui_script(t, "keys c p j b\n");
    assert_true(t->model.working.n > 10 && t->model.working.n < all);
    tui_end(t);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(two_keys_to_four_targets),
        cmocka_unit_test(the_screen_shows_the_advice),
        cmocka_unit_test(steps_of_the_gauge_stay_apart),
        cmocka_unit_test(numerals_are_the_target),
        cmocka_unit_test(three_answers_without_a_rig),
        cmocka_unit_test(a_mistake_stands_beside_its_field),
        cmocka_unit_test(typing_counts_at_once_and_esc_takes_it_back),
        cmocka_unit_test(undo_goes_back_step_by_step_and_says_what),
        cmocka_unit_test(undo_forgets_only_the_oldest),
        cmocka_unit_test(a_value_is_checked_as_in_a_file),
        cmocka_unit_test(load_items_move_the_axles_and_switch),
        cmocka_unit_test(danger_comes_before_the_act_once_a_job),
        cmocka_unit_test(saving_never_writes_over_unasked),
        cmocka_unit_test(three_answers_can_be_saved_and_opened_again),
        cmocka_unit_test(the_last_ground_comes_back),
        cmocka_unit_test(corners_are_picked_by_arrows_letters_and_tab),
        cmocka_unit_test(quitting_is_two_kinds_of_back),
        cmocka_unit_test(one_key_makes_the_card),
        cmocka_unit_test(unsaved_changes_are_asked_about),
        cmocka_unit_test(the_scale_fits_the_longest_patch),
        cmocka_unit_test(patches_grow_in_rows_about_their_middle),
        cmocka_unit_test(ground_letters_are_found_and_unlike),
        cmocka_unit_test(searching_the_working),
    };
    return check_run("tui session", tests, sizeof tests / sizeof *tests, argc, argv);
}
