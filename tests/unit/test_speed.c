/* test_speed.c - practice caps at and beside their thresholds, standard-derived speed. */
#include "support/check.h"
#include "support/rigs.h"

#include <math.h>

#include "core/speed.h"

#define MODEL "model C7, common practice"

struct cap_case {
    double at_1;
    double kmh; /* -1 = none */
};

static void check_cap(struct maybe got, const struct cap_case *c)
{
    print_message("%.10f\n", c->at_1);
    assert_int_equal(got.is, c->kmh >= 0);
    if (got.is) {
        CHECK_CLOSE(got.v / KMH, c->kmh, 1e-9, 0, MODEL);
    }
}

static void deflection_bands(void **state)
{
    (void)state;
    static const struct cap_case t[] = {
        {0.0, -1},         {0.15, -1},       {0.15 + 1e-10, -1}, {0.1500001, 80}, {0.17, 80},
        {0.1701, 50},      {0.22, 50},       {0.23, 30},         {0.25, 30},      {0.2500001, 20},
        {0.29, 20},        {0.30, 8},        {0.33, 8},          {0.34, 0},       {1.0, 0},
        {0.33 + 5e-10, 8}, {(double)NAN, 0},
    };
    for (size_t i = 0; i < sizeof t / sizeof t[0]; i++) {
        check_cap(speed_deflection_cap(t[i].at_1), &t[i]);
    }
}

static void retention_bands(void **state)
{
    (void)state;
    static const struct cap_case t[] = {
        {1.2, -1},   {1.0, -1},  {0.80, -1},  {0.80 - 1e-10, -1}, {0.7999, 80}, {0.65, 80},
        {0.649, 50}, {0.50, 50}, {0.499, 30}, {0.40, 30},         {0.399, 15},  {0.01, 15},
    };
    for (size_t i = 0; i < sizeof t / sizeof t[0]; i++) {
        check_cap(speed_retention_cap(t[i].at_1), &t[i]);
    }
}

static void the_lower_cap_rules(void **state)
{
    (void)state;
    assert_false(speed_lower(maybe_none(), maybe_none()).is);
    CHECK_CLOSE(speed_lower(maybe_of(3), maybe_none()).v, 3, 0, 0, "definition");
    CHECK_CLOSE(speed_lower(maybe_none(), maybe_of(3)).v, 3, 0, 0, "definition");
    CHECK_CLOSE(speed_lower(maybe_of(5), maybe_of(3)).v, 3, 0, 0, "definition");
}

/* Reference table: LT285/70R17 E (1450 kg at 550 kPa), 700 kg, the capacities of the power law. */
static void standard_speed_rows(void **state)
{
    (void)state;
    static const struct {
        double capacity_kg;
        struct check_row row;
    } t[] = {
        {450.1335,
         {"speed: standard-derived", "LT285/70R17 E, 700 kg, 15 psi, km/h", 15, 1e-9, 0,
          "UN R54 Annex 8, own arithmetic", "memory"}},
        {550.5521,
         {"speed: standard-derived", "LT285/70R17 E, 700 kg, 20 psi, km/h", 35, 1e-9, 0,
          "UN R54 Annex 8, own arithmetic", "memory"}},
        {643.6287,
         {"speed: standard-derived", "LT285/70R17 E, 700 kg, 25 psi, km/h", 80, 1e-9, 0,
          "UN R54 Annex 8, own arithmetic", "memory"}},
    };
    struct tyre_spec spec = {.load_index = 121};
    for (size_t i = 0; i < sizeof t / sizeof t[0]; i++) {
        struct maybe v = maybe_none();
        CHECK_STATUS(speed_standard(&spec, false, 700, t[i].capacity_kg, &v), STATUS_OK);
        assert_true(v.is);
        CHECK_ROW(&t[i].row, v.v / KMH);
    }
}

static void standard_speed_ends(void **state)
{
    (void)state;
    struct tyre_spec spec = {.load_index = 121};
    struct maybe v = maybe_of(1);
    CHECK_STATUS(speed_standard(&spec, false, 700, 700, &v), STATUS_OK);
    assert_false(v.is); /* nothing limits */
    CHECK_STATUS(speed_standard(&spec, false, 700, 300, &v), STATUS_OK);
    assert_true(v.is);
    CHECK_CLOSE(v.v, 0, 0, 0, "more than the 110 % of standing still");
    CHECK_STATUS(speed_standard(&spec, false, (double)NAN, 300, &v), STATUS_E_DOMAIN);
    CHECK_STATUS(speed_standard(&spec, false, 700, 0, &v), STATUS_E_DOMAIN);
    struct tyre_spec unknown = {.load_index = 0};
    CHECK_STATUS(speed_standard(&unknown, false, 700, 300, &v), STATUS_OK);
    assert_false(v.is);
}

static void load_index_by_what_is_known(void **state)
{
    (void)state;
    struct tyre_spec spec = {.max_load_kg = 1450};
    assert_int_equal(speed_load_index(&spec, false), 121); /* R54 Annex 4 */
    CHECK_STATUS(designation_parse("LT285/70R17 121/118S", &spec.size), STATUS_OK);
    assert_int_equal(speed_load_index(&spec, false), 121);
    assert_int_equal(speed_load_index(&spec, true), 118);
    CHECK_TEXT(speed_symbol(&spec), "S");
    spec.load_index = 116;
    assert_int_equal(speed_load_index(&spec, true), 116);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(deflection_bands),    cmocka_unit_test(retention_bands),
        cmocka_unit_test(the_lower_cap_rules), cmocka_unit_test(standard_speed_rows),
        cmocka_unit_test(standard_speed_ends), cmocka_unit_test(load_index_by_what_is_known),
    };
    return check_run("speed", tests, sizeof tests / sizeof tests[0], argc, argv);
}
