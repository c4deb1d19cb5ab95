/* test_card_rig.c - what a rig's card says, from advice filled in by hand. */
#include "support/check.h"

#include <math.h>
#include <string.h>

#include "card/rig_card.h"

static struct rig rig;
static struct advice advice[2];
static struct refill_out refill;
static struct card_content content;

#define PSI UNITS_PA_PER_PSI

static void set_axle(enum axle_id a, double road_psi, double load_kg)
{
    struct axle *x = &rig.axle[a];
    x->present = true;
    x->load_kg = load_kg;
    x->road_gauge_pa = road_psi * PSI;
    x->road_temp_k = 293.15;
    x->tyre.load_range = 'E';
    CARD_PUT_WORD(x->tyre.size.text, "35x12.50R17LT");
}

static void set_advice(struct advice *to, const char *title, double front_psi, double rear_psi,
                       double floor_psi, struct maybe cap_mps)
{
    const double target_psi[] = {[AXLE_FRONT] = front_psi, [AXLE_REAR] = rear_psi};
    memset(to, 0, sizeof *to);
    CARD_PUT_WORD(to->ground.title, title);
    CARD_PUT_WORD(to->ground.name, "named");
    to->ambient_abs_pa = 101325.0;
    to->cap_mps = cap_mps;
    for (int a = AXLE_FRONT; a <= AXLE_REAR; a += AXLE_REAR) {
        struct axle_advice *x = &to->axle[a];
        x->present = true;
        x->road_gauge_pa = rig.axle[a].road_gauge_pa;
        x->target_gauge_pa = target_psi[a] * PSI;
        x->floor_gauge_pa = floor_psi * PSI;
        for (int s = 0; s < SIDE_COUNT; s++) {
            x->corner[s].load_kg = rig.axle[a].load_kg / 2.0;
            x->corner[s].road.patch.length_m = 0.19;
            x->corner[s].at.patch.length_m = 0.30;
        }
    }
}

static struct card_source source(enum unit_system u)
{
    memset(&rig, 0, sizeof rig);
    CARD_PUT_WORD(rig.name, "flatbed");
    CARD_PUT_WORD(rig.load_state, "cabin on, water full");
    set_axle(AXLE_FRONT, 38, 1950);
    set_axle(AXLE_REAR, 48, 2350);
    set_advice(&advice[0], "graded gravel", 32, 41, 17, maybe_of(80 / 3.6));
    set_advice(&advice[1], "dune sand", 16.4, 22, 15, maybe_of(25 / 3.6));
    return (struct card_source){.rig = &rig,
                                .n_advice = 2,
                                .advice = advice,
                                .refill_from = "dune sand",
                                .units = u,
                                .date = "2026-05-02"};
}

static const char *cell(int row, int col)
{
    return content.table.row[row].cell[col].value;
}

static const char *second(int row, int col)
{
    return content.table.row[row].cell[col].second;
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

static void says_it_all_in_psi(void **state)
{
    (void)state;
    struct card_source s = source(UNITS_PSI);
    CHECK_STATUS(card_content_of_rig(&s, &content), STATUS_OK);
    assert_string_equal(content.heading, "CABIN ON, WATER FULL");
    assert_string_equal(content.tyre, "35x12.50R17LT load range E");
    assert_string_equal(content.table.row[0].title, "ROAD cold, 20 C");
    assert_string_equal(cell(0, 0), "38");
    assert_string_equal(second(0, 0), "2.6"); /* 38 psi = 2.620 bar */
    assert_string_equal(cell(0, 2), "48");    /* spare: the highest road pressure */
    assert_string_equal(content.table.row[2].title, "dune sand");
    assert_string_equal(cell(2, 0), "16");
    assert_string_equal(cell(2, 3), "25");
    assert_string_equal(second(2, 3), "15"); /* 25 km/h = 15.5 mph, rounded down */
    assert_string_equal(content.table.row[3].title, "NEVER BELOW");
    assert_string_equal(cell(3, 0), "15");    /* the lowest floor of the grounds */
    assert_string_equal(second(3, 0), "1.1"); /* 15 psi = 1.034 bar, rounded up */
    assert_int_equal(content.n_corner, 4);
    assert_string_equal(content.softest, "dune sand");
    assert_true(has_line("estimate, placard and tyre maker rule"));
    assert_true(has_line("add F 2.7 R 3.2 psi")); /* (38 + 14.696) psi x 15/293.15 = 2.70 psi */
    assert_true(has_line("1.7 psi")); /* US Std Atm 1976: 101325 - 89875 Pa = 1.66 psi */
}

/* A pressure in another unit's steps never falls below the floor that the card prints. */
static void rounding_respects_the_floor(void **state)
{
    (void)state;
    struct card_source s = source(UNITS_BAR);
    set_advice(&advice[1], "dune sand", 15.0, 22, 15, maybe_none());
    CHECK_STATUS(card_content_of_rig(&s, &content), STATUS_OK);
    assert_string_equal(cell(3, 0), "1.1"); /* 1.034 bar, rounded up */
    assert_string_equal(cell(2, 0), "1.1"); /* not the nearer 1.0 */
    assert_string_equal(cell(2, 1), "1.5"); /* 22 psi = 1.517 bar */
    assert_string_equal(cell(2, 3), "law");
    s = source(UNITS_KPA);
    CHECK_STATUS(card_content_of_rig(&s, &content), STATUS_OK);
    assert_string_equal(cell(0, 0), "260"); /* 262.0 kPa in steps of 5 */
}

/* The floor is that of the softest ground listed, its stuck step where that is higher; the low
 * bead floor that belongs to a sealed road says nothing. */
static void the_floor_is_the_stuck_step(void **state)
{
    (void)state;
    struct card_source s = source(UNITS_PSI);
    advice[0].ground.road = true;
    advice[0].axle[AXLE_REAR].floor_gauge_pa = 12 * PSI;
    advice[1].axle[AXLE_REAR].stuck_gauge_pa = maybe_of(18 * PSI);
    CHECK_STATUS(card_content_of_rig(&s, &content), STATUS_OK);
    assert_string_equal(cell(3, 0), "15");
    assert_string_equal(cell(3, 1), "18");
}

static void refuses_what_must_not_be_driven(void **state)
{
    (void)state;
    struct card_source s = source(UNITS_PSI);
    rig.axle[AXLE_REAR].wheel = WHEEL_MULTI_PIECE;
    CHECK_STATUS(card_content_of_rig(&s, &content), STATUS_E_REFUSED);
    s = source(UNITS_PSI);
    advice[1].refusal.code = REFUSAL_OVERLOAD_TYRE;
    CHECK_STATUS(card_content_of_rig(&s, &content), STATUS_E_REFUSED);
}

static void refuses_numbers_that_are_none(void **state)
{
    (void)state;
    struct card_source s = source(UNITS_PSI);
    advice[0].axle[AXLE_REAR].target_gauge_pa = (double)NAN;
    CHECK_STATUS(card_content_of_rig(&s, &content), STATUS_E_DOMAIN);
    s.n_advice = 0;
    CHECK_STATUS(card_content_of_rig(&s, &content), STATUS_E_DOMAIN);
}

static void an_estimated_road_pressure_is_called_so(void **state)
{
    (void)state;
    struct card_source s = source(UNITS_PSI);
    rig.axle[AXLE_REAR].road_estimated = true;
    rig.axle[AXLE_REAR].road_temp_k = 283.15;
    CHECK_STATUS(card_content_of_rig(&s, &content), STATUS_OK);
    assert_string_equal(content.table.row[0].title, "ROAD estimated, 10 to 20 C");
}

static void without_a_load_state_the_loads_say_it(void **state)
{
    (void)state;
    struct card_source s = source(UNITS_PSI);
    rig.load_state[0] = '\0';
    CHECK_STATUS(card_content_of_rig(&s, &content), STATUS_OK);
    assert_string_equal(content.heading, "FRONT 1950 kg, REAR 2350 kg");
}

static void unlike_tyres_are_listed_by_axle(void **state)
{
    (void)state;
    struct card_source s = source(UNITS_PSI);
    CARD_PUT_WORD(rig.axle[AXLE_REAR].tyre.size.text, "395/85R20");
    rig.axle[AXLE_REAR].tyre.load_range = 0;
    rig.axle[AXLE_REAR].tyre.load_index = 168;
    CHECK_STATUS(card_content_of_rig(&s, &content), STATUS_OK);
    assert_string_equal(content.tyre, "F 35x12.50R17LT load range E, R 395/85R20 LI 168");
}

static void like_tyres_are_named_together(void **state)
{
    (void)state;
    struct card_source s = source(UNITS_PSI);
    set_axle(AXLE_TRAILER, 45, 1450);
    CARD_PUT_WORD(rig.axle[AXLE_TRAILER].tyre.size.text, "195R14C");
    rig.axle[AXLE_TRAILER].tyre.load_range = 0;
    CHECK_STATUS(card_content_of_rig(&s, &content), STATUS_OK);
    assert_string_equal(content.tyre, "F R 35x12.50R17LT load range E, T 195R14C");
}

static void a_spare_that_holds_air_has_its_own_pressure(void **state)
{
    (void)state;
    struct card_source s = source(UNITS_PSI);
    rig.air.spare = true;
    rig.air.spare_gauge_pa = 65.0 * PSI;
    CHECK_STATUS(card_content_of_rig(&s, &content), STATUS_OK);
    assert_string_equal(cell(0, 2), "65");
}

static void the_refill_names_order_and_minutes(void **state)
{
    (void)state;
    struct card_source s = source(UNITS_PSI);
    memset(&refill, 0, sizeof refill);
    struct refill_plan *plan = &refill.plan[HOOKUP_LINKED];
    const unsigned front =
        1U << REFILL_CORNER(AXLE_FRONT, SIDE_LEFT) | 1U << REFILL_CORNER(AXLE_FRONT, SIDE_RIGHT);
    const unsigned left = 1U << REFILL_CORNER(AXLE_REAR, SIDE_LEFT);
    plan->possible = true;
    plan->total_s = 645.0;
    plan->n_step = 3;
    plan->step[0] = (struct refill_step){REFILL_DROP, 355.0, 0.0, front};
    plan->step[1] = (struct refill_step){REFILL_REST, 360.0, 900.0, 0};
    plan->step[2] = (struct refill_step){REFILL_STOP, 645.0, 0.0, left};
    s.refill = &refill;
    CHECK_STATUS(card_content_of_rig(&s, &content), STATUS_OK);
    assert_true(has_line("REFILL from dune sand 11 min (all linked): front off at 6, rest 15 at 6, "
                         "LR at 11 min"));
    plan->possible = false;
    plan->problem = REFILL_CUT_OUT;
    CHECK_STATUS(card_content_of_rig(&s, &content), STATUS_OK);
    assert_true(has_line("does not reach road pressure"));
}

static void the_dangers_of_a_rig_are_repeated_once(void **state)
{
    (void)state;
    struct card_source s = source(UNITS_PSI);
    for (int i = 0; i < 2; i++) {
        (void)caution_raise(&advice[i].cautions, CAUTION_HIGHWAY);
        (void)caution_raise(&advice[i].cautions, CAUTION_ESTIMATE);
    }
    CHECK_STATUS(card_content_of_rig(&s, &content), STATUS_OK);
    int cautions = 0;
    for (int i = 0; i < content.n_line; i++) {
        cautions += content.line[i].part == CARD_CAUTION;
    }
    assert_int_equal(cautions, 3); /* the highway is one of the three of every card */
}

static const struct card_line *find_line(const char *words)
{
    for (int i = 0; i < content.n_line; i++) {
        if (strstr(content.line[i].text, words)) {
            return &content.line[i];
        }
    }
    fail_msg("no line says: %s", words);
    return NULL;
}

/* Each danger keeps all its words where there is room and has fewer for a small card. */
static void dangers_have_brief_forms(void **state)
{
    (void)state;
    struct card_source s = source(UNITS_PSI);
    rig.air.springs = true;
    (void)caution_raise(&advice[0].cautions, CAUTION_BRAKE_AIR);
    (void)caution_raise(&advice[1].cautions, CAUTION_RIM_WIDTH);
    CHECK_STATUS(card_content_of_rig(&s, &content), STATUS_OK);
    assert_non_null(
        strstr(card_line_words(find_line("DANGER  Air springs"), true), "Vent air spr"));
    assert_non_null(strstr(card_line_words(find_line("Brakes need"), true), "Brakes need the air"));
    assert_non_null(strstr(card_line_words(find_line("Rim "), true), "Rim width"));
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(says_it_all_in_psi),
        cmocka_unit_test(rounding_respects_the_floor),
        cmocka_unit_test(the_floor_is_the_stuck_step),
        cmocka_unit_test(refuses_what_must_not_be_driven),
        cmocka_unit_test(refuses_numbers_that_are_none),
        cmocka_unit_test(an_estimated_road_pressure_is_called_so),
        cmocka_unit_test(without_a_load_state_the_loads_say_it),
        cmocka_unit_test(unlike_tyres_are_listed_by_axle),
        cmocka_unit_test(like_tyres_are_named_together),
        cmocka_unit_test(a_spare_that_holds_air_has_its_own_pressure),
        cmocka_unit_test(the_refill_names_order_and_minutes),
        cmocka_unit_test(dangers_have_brief_forms),
        cmocka_unit_test(the_dangers_of_a_rig_are_repeated_once),
    };
    return check_run("card of a rig", tests, sizeof tests / sizeof tests[0], argc, argv);
}
