/* test_tui_trip.c - the trip on the screen: the planner's own figures, the rig's changes, files with
 * mistakes, the card, the strip's scale. */
#include "support/check.h"

#include <math.h>
#include <stdio.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "support/tui_session.h"
#include "tui/trip_draw.h"

static struct trip_plan plan_of(const struct tui_session *t)
{
    const struct trip *trip = &t->model.at.trip.trip;
    struct trip_in in = {.rig = &t->model.outing.rig, .trip = trip};
    struct trip_plan p;
    for (int i = 0; i < trip->n_leg; i++)
        in.ground[i] = ground_find(&t->grounds, trip->leg[i].ground);
    CHECK_STATUS(trip_compute(&in, &p), STATUS_OK);
    return p;
}

static void assert_shows(const char *frame, const char *words)
{
    if (strstr(frame, words) == NULL)
        fail_msg("not on the screen: %s\n%s", words, frame);
}

/* the shipped trips in the list's order: corrugated-spur, dune-crossing, high-pass */
static void the_screen_shows_the_plan(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin("flatbed-cabin", NULL, 132, 43);
    const char *frame = tui_script(t, "keys r j Enter\ntext\n");
    struct trip_plan want = plan_of(t);
    CHECK_CLOSE(t->model.at.trip.plan.total_s, want.total_s, 0, 0, "trip_compute, same rig");
    for (int i = 0; i < want.n_leg; i++) {
        char words[64];
        if (want.leg[i].action != TRIP_NONE) {
            snprintf(words, sizeof words, "%s %.0f", trip_action_name(want.leg[i].action),
                     ceil(want.leg[i].action_s / 60 - 1e-9));
            assert_shows(frame, words);
        }
        snprintf(words, sizeof words, "leg %d ends at %.0f m", i + 1, want.leg[i].end_height_m);
        assert_shows(frame, words);
    }
    tui_end(t);
}

static void the_plan_follows_the_rig(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin("flatbed-cabin", NULL, 80, 24);
    tui_script(t, "keys r j Enter\n");
    double before = t->model.at.trip.plan.leg[1].cold_gauge_pa[AXLE_FRONT];
    tui_script(t, "keys c w Enter Ctrl-U\ntype 1700\nkeys Enter q\n");
    struct trip_plan want = plan_of(t);
    double after = t->model.at.trip.plan.leg[1].cold_gauge_pa[AXLE_FRONT];
    assert_true(after < before); /* a lighter front axle */
    CHECK_CLOSE(after, want.leg[1].cold_gauge_pa[AXLE_FRONT], 0, 0, "trip_compute");
    tui_script(t, "keys w j Enter Ctrl-U\ntype 2900\nkeys Enter q r\n");
    assert_int_equal(t->model.at.trip.status, STATUS_E_REFUSED);
    assert_shows(tui_script(t, "text\n"), "REFUSED");
    tui_script(t, "keys z\n");
    assert_int_equal(t->model.at.trip.status, STATUS_OK);
    tui_end(t);
}

static void write_trip(const struct tui_session *t, const char *name, const char *text)
{
    char path[200];
    snprintf(path, sizeof path, "%s/trips", t->save_dir);
    (void)mkdir(path, 0700);
    snprintf(path, sizeof path, "%s/trips/%s", t->save_dir, name);
    FILE *f = fopen(path, "w");
    assert_non_null(f);
    fputs(text, f);
    fclose(f);
}

static void mistakes_stand_under_the_list(void **state)
{
    (void)state;
    struct tui_session *t = tui_begin("flatbed-cabin", NULL, 132, 43);
    write_trip(t, "aaa.ini",
               "[trip]\nname = a\nrig = flatbed-cabin\n[leg-1]\nground = bogg\n"
               "length = 5\nspeed = 30 km/h\n");
    const char *frame = tui_script(t, "keys r Enter\ntext\n");
    assert_shows(frame, "aaa.ini:5: [leg-1] ground: no ground bogg is known");
    assert_shows(frame, "aaa.ini:6: [leg-1] length = 5");
    assert_false(t->model.at.trip.open);
    frame = tui_script(t, "keys Down Enter\ntext\n");
    assert_shows(frame, "corrugated track");
    assert_true(t->model.at.trip.open);
    tui_script(t, "keys Enter\n"); /* the list again; q goes back to the plan, then to Corners */
    assert_true(t->model.at.trip.choosing);
    tui_script(t, "keys q\n");
    assert_false(t->model.at.trip.choosing);
    assert_int_equal(t->model.screen, SCREEN_TRIP);
    tui_script(t, "keys q\n");
    assert_int_equal(t->model.screen, SCREEN_CORNERS);
    tui_end(t);
}

static void a_card_of_the_trip(void **state)
{
    (void)state;
    char path[200];
    struct stat st;
    struct tui_session *t = tui_begin("flatbed-cabin", NULL, 80, 24);
    tui_script(t, "keys r j Enter\n");
    assert_int_equal(chdir(t->save_dir), 0);
    assert_shows(tui_script(t, "keys i\ntext\n"), "dune-crossing-card.pdf");
    snprintf(path, sizeof path, "%s/dune-crossing-card.pdf", t->save_dir);
    assert_int_equal(stat(path, &st), 0);
    assert_true(st.st_size > 500);
    assert_int_equal(chdir(SANDSHOE_SRCDIR), 0);
    tui_end(t);
}

static void the_strip_has_a_place_for_every_leg(void **state)
{
    (void)state;
    struct trip trip = {.n_leg = 6};
    const double km[] = {240, 0.1, 6, 90, 1, 120};
    for (int i = 0; i < trip.n_leg; i++)
        trip.leg[i].length_m = km[i] * 1e3;
    for (int cols = 6; cols <= 200; cols++) {
        int at[TRIP_LEGS + 1];
        trip_strip_columns(&trip, cols, at);
        assert_int_equal(at[0], 0);
        assert_int_equal(at[6], cols);
        for (int i = 0; i < 6; i++)
            assert_true(at[i + 1] - at[i] >= (cols >= 24 ? 4 : 1));
        assert_true(at[1] - at[0] >= at[6] - at[5]); /* 240 km against 120 km */
    }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_screen_shows_the_plan),
        cmocka_unit_test(the_plan_follows_the_rig),
        cmocka_unit_test(mistakes_stand_under_the_list),
        cmocka_unit_test(a_card_of_the_trip),
        cmocka_unit_test(the_strip_has_a_place_for_every_leg),
    };
    return check_run("tui trip", tests, sizeof tests / sizeof tests[0], argc, argv);
}
