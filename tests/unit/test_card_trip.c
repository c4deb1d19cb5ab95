/* test_card_trip.c - a trip's plan as a card, from a plan filled in by hand. */
#include "support/check.h"

#include <math.h>
#include <string.h>

#include "card/card_text.h"
#include "card/trip_card.h"
#include "support/golden.h"

static struct rig rig;
static struct trip trip;
static struct trip_plan plan;
static struct trip_in in;
static struct ground ground[3];
static struct card_content content;

#define PSI UNITS_PA_PER_PSI

static void set_leg(int i, const char *title, double km, double front_psi, double rear_psi,
                    double cap_kmh)
{
    CARD_PUT_WORD(ground[i].title, title);
    in.ground[i] = &ground[i];
    trip.leg[i].length_m = km * 1000.0;
    plan.leg[i].cold_gauge_pa[AXLE_FRONT] = front_psi * PSI;
    plan.leg[i].cold_gauge_pa[AXLE_REAR] = rear_psi * PSI;
    plan.leg[i].cap_mps = maybe_of(cap_kmh / 3.6);
    plan.leg[i].drive_s = km / cap_kmh * 3600.0;
}

static struct card_trip_source source(void)
{
    memset(&rig, 0, sizeof rig);
    memset(&trip, 0, sizeof trip);
    memset(&plan, 0, sizeof plan);
    CARD_PUT_WORD(rig.name, "flatbed");
    CARD_PUT_WORD(rig.load_state, "bare bed");
    rig.axle[AXLE_FRONT].present = rig.axle[AXLE_REAR].present = true;
    CARD_PUT_WORD(trip.name, "dune crossing");
    in.rig = &rig;
    in.trip = &trip;
    trip.n_leg = plan.n_leg = 3;
    set_leg(0, "graded gravel", 18, 32, 41, 80);
    set_leg(1, "dune sand", 14, 17, 22, 25);
    set_leg(2, "sealed road", 90, 38, 48, 100);
    plan.leg[1].action = TRIP_DOWN;
    plan.leg[1].action_s = 301.0;
    plan.leg[2].action = TRIP_UP;
    plan.leg[2].action_s = 900.0;
    plan.leg[2].abort_cap_mps = maybe_of(25 / 3.6);
    plan.leg[2].under[AXLE_REAR] = true;
    plan.total_s = 7321.0;
    plan.action_s = 1201.0;
    plan.coldest_leg = 2;
    plan.coldest_temp_k = 278.15;
    plan.coldest_height_m = 40.0;
    plan.coldest_gauge_pa[AXLE_FRONT] = 36 * PSI;
    plan.coldest_gauge_pa[AXLE_REAR] = 45 * PSI;
    return (struct card_trip_source){
        .in = &in, .plan = &plan, .units = UNITS_PSI, .date = "2026-05-02"};
}

static bool has_line(const char *words)
{
    for (int i = 0; i < content.n_line; i++) {
        if (strstr(content.line[i].text, words)) {
            return true;
        }
    }
    return false;
}

static void legs_are_rows(void **state)
{
    (void)state;
    struct card_trip_source s = source();
    CHECK_STATUS(card_content_of_trip(&s, &content), STATUS_OK);
    assert_string_equal(content.heading, "DUNE CROSSING");
    assert_string_equal(content.subject, "flatbed, bare bed");
    assert_int_equal(content.table.n_row, 3);
    const struct card_row *dune = &content.table.row[1];
    assert_string_equal(dune->title, "2 dune sand, 14 km");
    assert_string_equal(dune->cell[0].value, "17");
    assert_string_equal(dune->cell[2].value, "25");
    assert_string_equal(dune->cell[3].value, "34");     /* 14 km at 25 km/h: 33.6 min */
    assert_string_equal(dune->cell[4].value, "down 6"); /* 301 s, rounded up */
    assert_true(has_line("TOTAL 123 min, of it 21 for air"));
    assert_true(has_line("COLDEST, end of leg 3 (5 C, 40 m): reads F 36 R 45"));
    assert_true(has_line("AIR FAILS before leg 3: at most 25 km/h."));
    assert_true(has_line("Will read low after leg 3: recheck."));
    assert_int_equal(content.n_corner, 4); /* for the log grid */
}

static void every_size_takes_it(void **state)
{
    (void)state;
    static struct card_page page;
    struct card_trip_source s = source();
    struct card_problem problem = {.what = ""};
    CHECK_STATUS(card_content_of_trip(&s, &content), STATUS_OK);
    for (int size = 0; size < CARD_SIZE_COUNT; size++) {
        char out[CARD_TEXT_MAX];
        struct text t = text_over(out, sizeof out);
        CHECK_STATUS(card_layout(&content, (enum card_size)size, &page, &problem), STATUS_OK);
        CHECK_STATUS(card_text_front(&content, (enum card_size)size, &t, &problem), STATUS_OK);
        if (size == CARD_3X5) {
            GOLDEN_CHECK("card/text-trip-plan.txt", out);
        }
    }
}

static void refuses_as_the_plan_does(void **state)
{
    (void)state;
    struct card_trip_source s = source();
    plan.refusal.code = REFUSAL_MULTI_PIECE;
    CHECK_STATUS(card_content_of_trip(&s, &content), STATUS_E_REFUSED);
    s = source();
    plan.leg[1].drive_s = (double)NAN;
    CHECK_STATUS(card_content_of_trip(&s, &content), STATUS_E_DOMAIN);
}

/* A card that could not hold every caution is none. */
static void no_caution_is_dropped(void **state)
{
    (void)state;
    static struct ground soft[CARD_ROWS];
    struct card_trip_source s = source();
    trip.n_leg = plan.n_leg = CARD_ROWS;
    for (int i = 0; i < plan.n_leg; i++) {
        in.ground[i] = &soft[i];
        plan.leg[i] = plan.leg[1];
    }
    CHECK_STATUS(card_content_of_trip(&s, &content), STATUS_OK);
    for (int i = 0; i < plan.n_leg; i++) {
        plan.leg[i].source_too_weak = true;
    }
    CHECK_STATUS(card_content_of_trip(&s, &content), STATUS_E_FULL);
    assert_true(content.n_line < CARD_LINES); /* untouched */
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(legs_are_rows),
        cmocka_unit_test(every_size_takes_it),
        cmocka_unit_test(refuses_as_the_plan_does),
        cmocka_unit_test(no_caution_is_dropped),
    };
    return check_run("card of a trip", tests, sizeof tests / sizeof tests[0], argc, argv);
}
