/* test_designation.c - sizes of every family, their service description, and what is refused. */
#include "support/check.h"

#include <string.h>

#include "core/designation.h"

#define GRAMMAR "size grammar, arithmetic"

struct geometry_case {
    const char *size;
    struct check_row width, height, rim, diameter;
};

#define G(what, want)                                                                              \
    {                                                                                              \
        "tyre: geometry", what, want, 1e-9, 0, GRAMMAR, "own"                                      \
    }

// clang-format off
static const struct geometry_case GEOMETRY[] = {
    {"LT285/70R17", G("LT285/70R17 section, mm", 285), G("LT285/70R17 section height, mm", 199.5),
     G("LT285/70R17 rim, mm", 431.8), G("LT285/70R17 diameter, mm", 830.8)},
    {"35x12.50R17LT", G("35x12.50R17LT section, mm", 317.5), G("35x12.50R17LT section height, mm", 228.6),
     G("35x12.50R17LT rim, mm", 431.8), G("35x12.50R17LT diameter, mm", 889.0)},
    {"P265/70R17", G("P265/70R17 section, mm", 265), G("P265/70R17 section height, mm", 185.5),
     G("P265/70R17 rim, mm", 431.8), G("P265/70R17 diameter, mm", 802.8)},
    {"395/85R20", G("395/85R20 section, mm", 395), G("395/85R20 section height, mm", 335.75),
     G("395/85R20 rim, mm", 508), G("395/85R20 diameter, mm", 1179.5)},
    {"195R14C", G("195R14C section, mm", 195), G("195R14C section height (82 %), mm", 159.9),
     G("195R14C rim, mm", 355.6), G("195R14C diameter, mm", 675.4)},
    {"7.50R16", G("7.50R16 section, mm", 190.5), G("7.50R16 section height (95 %), mm", 180.975),
     G("7.50R16 rim, mm", 406.4), G("7.50R16 diameter, mm", 768.35)},
    {"37x12.50R16.5LT", G("37x12.50R16.5LT section, mm", 317.5), G("37x12.50R16.5LT section height, mm", 260.35),
     G("37x12.50R16.5LT rim, mm", 419.1), G("37x12.50R16.5LT diameter, mm", 939.8)},
};
// clang-format on

static void geometry_follows_from_the_text(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof GEOMETRY / sizeof GEOMETRY[0]; i++) {
        const struct geometry_case *c = &GEOMETRY[i];
        struct designation d;
        assert_true(designation_parse(c->size, &d) >= 0);
        CHECK_ROW(&c->width, 1e3 * d.section_width_m);
        CHECK_ROW(&c->height, 1e3 * d.section_height_m);
        CHECK_ROW(&c->rim, 1e3 * d.rim_diameter_m);
        CHECK_ROW(&c->diameter, 1e3 * d.outside_diameter_m);
        CHECK_CLOSE(d.aspect_1 * d.section_width_m, d.section_height_m, 1e-12, 0, GRAMMAR);
    }
    static const struct check_row ratio = {
        "tyre: geometry", "35x12.50R17LT aspect ratio, %", 72.0, 1e-9, 0, GRAMMAR, "own"};
    struct designation d;
    CHECK_STATUS(designation_parse("35x12.50R17LT", &d), STATUS_OK);
    CHECK_ROW(&ratio, 100.0 * d.aspect_1);
}

/* A maker's size sheet: measured sizes beside their flotation names. */
static void flotation_names_are_near_the_tyre(void **state)
{
    (void)state;
    static const struct {
        const char *size;
        struct check_row diameter;
        double section_in;
    } sheet[] = {
        {"33X11.50R16",
         {"tyre: flotation name against the tyre", "33X11.50R16 diameter, in", 33.0, 0, 0.01,
          "a tyre maker's size sheet", "read"},
         11.6},
        {"35X12.50R16",
         {"tyre: flotation name against the tyre", "35X12.50R16 diameter, in", 34.9, 0, 0.01,
          "a tyre maker's size sheet", "read"},
         12.9},
        {"38X14.50R16",
         {"tyre: flotation name against the tyre", "38X14.50R16 diameter, in", 37.7, 0, 0.01,
          "a tyre maker's size sheet", "read"},
         15.6},
    };
    for (size_t i = 0; i < sizeof sheet / sizeof sheet[0]; i++) {
        struct designation d;
        CHECK_STATUS(designation_parse(sheet[i].size, &d), STATUS_OK);
        CHECK_ROW(&sheet[i].diameter, d.outside_diameter_m / 0.0254);
        CHECK_BETWEEN(sheet[i].section_in / (d.section_width_m / 0.0254), 1.0, 1.08,
                      "the section is up to 8 % over the name, same sheet");
    }
}

struct text_case {
    const char *text;
    enum status status;
    enum tyre_family family;
    enum tyre_build build;
    int li, dual;
    const char *symbol;
    char range; /* 0 = none */
    bool extra_load;
};

// clang-format off
static const struct text_case TEXTS[] = {
    {"P265/70R17 113S", STATUS_OK, TYRE_P_METRIC, TYRE_RADIAL, 113, 0, "S", 0, false},
    {"P 265/70D17", STATUS_OK, TYRE_P_METRIC, TYRE_BIAS, 0, 0, "", 0, false},
    {"P235/75B15 105 S", STATUS_OK, TYRE_P_METRIC, TYRE_BIAS_BELTED, 105, 0, "S", 0, false},
    {"265/75R16 116T", STATUS_OK, TYRE_EURO_METRIC, TYRE_RADIAL, 116, 0, "T", 0, false},
    {"265/75R16 116T XL", STATUS_OK, TYRE_EURO_METRIC, TYRE_RADIAL, 116, 0, "T", 0, true},
    {"XL", STATUS_E_SYNTAX, TYRE_P_METRIC, TYRE_RADIAL, 0, 0, "", 0, false},
    {"235/85R16 extra load 120 S", STATUS_OK, TYRE_EURO_METRIC, TYRE_RADIAL, 120, 0, "S", 0, true},
    {"205/55R16 91 H RF", STATUS_OK, TYRE_EURO_METRIC, TYRE_RADIAL, 91, 0, "H", 0, true},
    {"255/40ZR17 (98W)", STATUS_OK, TYRE_EURO_METRIC, TYRE_RADIAL, 98, 0, "W", 0, false},
    {"LT285/70R17 121/118S", STATUS_OK, TYRE_LT_METRIC, TYRE_RADIAL, 121, 118, "S", 0, false},
    {"lt285/70r17 121/118s e", STATUS_OK, TYRE_LT_METRIC, TYRE_RADIAL, 121, 118, "S", 'E', false},
    {"LT285/70R17 E 121/118S", STATUS_OK, TYRE_LT_METRIC, TYRE_RADIAL, 121, 118, "S", 'E', false},
    {"LT285/70R17 LOAD RANGE E", STATUS_OK, TYRE_LT_METRIC, TYRE_RADIAL, 0, 0, "", 'E', false},
    {"LT285/70R17 LR D", STATUS_OK, TYRE_LT_METRIC, TYRE_RADIAL, 0, 0, "", 'D', false},
    {"LT285/70R17 LRC", STATUS_OK, TYRE_LT_METRIC, TYRE_RADIAL, 0, 0, "", 'C', false},
    {"LT285/70R17 10PR", STATUS_OK, TYRE_LT_METRIC, TYRE_RADIAL, 0, 0, "", 'E', false},
    {"LT285/70R17 8 PR 121S", STATUS_OK, TYRE_LT_METRIC, TYRE_RADIAL, 121, 0, "S", 'D', false},
    {"315/70R17LT", STATUS_OK, TYRE_LT_METRIC, TYRE_RADIAL, 0, 0, "", 0, false},
    {"  315/70R17 LT\t121 ", STATUS_OK, TYRE_LT_METRIC, TYRE_RADIAL, 121, 0, "", 0, false},
    {"35x12.50R17LT 121Q", STATUS_OK, TYRE_FLOTATION, TYRE_RADIAL, 121, 0, "Q", 0, false},
    {"35X12.50R17LT 121 E", STATUS_OK, TYRE_FLOTATION, TYRE_RADIAL, 121, 0, "", 'E', false},
    {"35x12.50R17LT 121 Q", STATUS_OK, TYRE_FLOTATION, TYRE_RADIAL, 121, 0, "Q", 0, false},
    {"35x12.50R17LT 121Q E", STATUS_OK, TYRE_FLOTATION, TYRE_RADIAL, 121, 0, "Q", 'E', false},
    {"35x12.50R17 E", STATUS_OK, TYRE_FLOTATION, TYRE_RADIAL, 0, 0, "", 'E', false},
    {"31x10.50-15LT", STATUS_OK, TYRE_FLOTATION, TYRE_BIAS, 0, 0, "", 0, false},
    {"7.50R16", STATUS_W_ASSUMED, TYRE_NUMERIC, TYRE_RADIAL, 0, 0, "", 0, false},
    {"7.50-16LT 8PR TT", STATUS_W_ASSUMED, TYRE_NUMERIC, TYRE_BIAS, 0, 0, "", 'D', false},
    {"16.00R20 173G", STATUS_W_ASSUMED, TYRE_NUMERIC, TYRE_RADIAL, 173, 0, "G", 0, false},
    {"11R22.5 148/145L", STATUS_W_ASSUMED, TYRE_NUMERIC, TYRE_RADIAL, 148, 145, "L", 0, false},
    {"225/75R16C 118/116R", STATUS_OK, TYRE_C_TYPE, TYRE_RADIAL, 118, 116, "R", 0, false},
    {"195R14C 106/104R", STATUS_W_ASSUMED, TYRE_C_TYPE, TYRE_RADIAL, 106, 104, "R", 0, false},
    {"195/80R15C", STATUS_OK, TYRE_C_TYPE, TYRE_RADIAL, 0, 0, "", 0, false},
    {"ST225/75R15 E", STATUS_OK, TYRE_ST, TYRE_RADIAL, 0, 0, "", 'E', false},
    {"ST225/75D15", STATUS_OK, TYRE_ST, TYRE_BIAS, 0, 0, "", 0, false},
    {"395/85R20 168K", STATUS_OK, TYRE_TRUCK_METRIC, TYRE_RADIAL, 168, 0, "K", 0, false},
    {"395/85R20", STATUS_OK, TYRE_TRUCK_METRIC, TYRE_RADIAL, 0, 0, "", 0, false},
    {"295/80R22.5 152/148M", STATUS_OK, TYRE_TRUCK_METRIC, TYRE_RADIAL, 152, 148, "M", 0, false},
    {"335/65R22.5", STATUS_OK, TYRE_TRUCK_METRIC, TYRE_RADIAL, 0, 0, "", 0, false},
    {"365/70R18 146L", STATUS_OK, TYRE_TRUCK_METRIC, TYRE_RADIAL, 146, 0, "L", 0, false},
    {"275/60R20 115T", STATUS_OK, TYRE_EURO_METRIC, TYRE_RADIAL, 115, 0, "T", 0, false},
    {"185/70R14 88A8", STATUS_OK, TYRE_EURO_METRIC, TYRE_RADIAL, 88, 0, "A8", 0, false},
};
// clang-format on

static void texts_are_read(void **state)
{
    (void)state;
    for (size_t i = 0; i < sizeof TEXTS / sizeof TEXTS[0]; i++) {
        const struct text_case *c = &TEXTS[i];
        struct designation d = {.load_index = -1};
        print_message("%s\n", c->text);
        CHECK_STATUS(designation_parse(c->text, &d), c->status);
        if (c->status < 0) {
            continue;
        }
        assert_int_equal(d.family, c->family);
        assert_int_equal(d.build, c->build);
        assert_int_equal(d.load_index, c->li);
        assert_int_equal(d.load_index_dual, c->dual);
        CHECK_TEXT(d.speed_symbol, c->symbol);
        assert_int_equal(d.load_range, c->range);
        assert_int_equal(d.extra_load, c->extra_load);
        assert_int_equal(d.aspect_assumed, c->status == STATUS_W_ASSUMED);
    }
}

static const struct {
    const char *text;
    enum status want;
} REFUSED[] = {
    {"", STATUS_E_SYNTAX},
    {"   ", STATUS_E_SYNTAX},
    {"tyre", STATUS_E_SYNTAX},
    {"LT", STATUS_E_SYNTAX},
    {"285", STATUS_E_SYNTAX},
    {"285/", STATUS_E_SYNTAX},
    {"285/70", STATUS_E_SYNTAX},
    {"285/70R", STATUS_E_SYNTAX},
    {"285/70X17", STATUS_E_SYNTAX},
    {"285,0/70R17", STATUS_E_SYNTAX},
    {"-285/70R17", STATUS_E_SYNTAX},
    {"285/-70R17", STATUS_E_SYNTAX},
    {"285/7e1R17", STATUS_E_SYNTAX},
    {"nan/70R17", STATUS_E_SYNTAX},
    {"285/70R17x", STATUS_E_SYNTAX},
    {"LT285/70R17LT", STATUS_E_SYNTAX},
    {"P265/70R17C", STATUS_E_SYNTAX},
    {"LT35x12.50R17", STATUS_E_SYNTAX},
    {"35x12.50R17C", STATUS_E_SYNTAX},
    {"285/70R17 121Q 121Q", STATUS_E_SYNTAX},
    {"LT285/70R17 E D", STATUS_E_SYNTAX},
    {"LT285/70R17 121I", STATUS_E_SYNTAX},
    {"LT285/70R17 121/", STATUS_E_SYNTAX},
    {"LT285/70R17 121.5", STATUS_E_SYNTAX},
    {"LT285/70R17 7PR", STATUS_E_SYNTAX},
    {"LT285/70R17 LOAD RANGE", STATUS_E_SYNTAX},
    {"LT285/70R17 LRQ", STATUS_E_SYNTAX},
    {"LT285/70R17 sand", STATUS_E_SYNTAX},
    {"285..5/70R17", STATUS_E_SYNTAX},
    {"35x12.50", STATUS_E_SYNTAX},
    {"7.50R", STATUS_E_SYNTAX},
    {"LT285/70R17 121-118S", STATUS_E_SYNTAX},
    {"LT285/70R17 123456789", STATUS_E_SYNTAX},
    {"000000285/70R17", STATUS_E_SYNTAX},
    {"1/70R17", STATUS_E_DOMAIN},
    {"95/80R15", STATUS_E_DOMAIN},
    {"3.50R18", STATUS_E_DOMAIN},
    {"125/21R15", STATUS_E_DOMAIN},
    {"600/110R30", STATUS_E_DOMAIN},
    {"0/70R17", STATUS_E_DOMAIN},
    {"0x0R0", STATUS_E_DOMAIN},
    {"285/70R99", STATUS_E_DOMAIN},
    {"285/70R3", STATUS_E_DOMAIN},
    {"285/5R17", STATUS_E_DOMAIN},
    {"285/170R17", STATUS_E_DOMAIN},
    {"28500/70R17", STATUS_E_DOMAIN},
    {"16x12.50R17LT", STATUS_E_DOMAIN},
    {"95x12.50R17LT", STATUS_E_DOMAIN},
    {"35x120R17LT", STATUS_E_DOMAIN},
    {"0.5R16", STATUS_E_DOMAIN},
    {"LT285/70R17 40S", STATUS_E_DOMAIN},
    {"LT285/70R17 999S", STATUS_E_DOMAIN},
    {"LT285/70R17 118/121S", STATUS_E_DOMAIN},
    {"LT285/70R17 99999999S", STATUS_E_DOMAIN},
};

static void nonsense_leaves_the_output_alone(void **state)
{
    (void)state;
    char longer[300];
    memset(longer, '1', sizeof longer);
    longer[sizeof longer - 1] = '\0';
    struct designation kept, d;
    memset(&kept, 0x5a, sizeof kept);
    memcpy(&d, &kept, sizeof d);
    for (size_t i = 0; i < sizeof REFUSED / sizeof REFUSED[0]; i++) {
        print_message("%s\n", REFUSED[i].text);
        CHECK_STATUS(designation_parse(REFUSED[i].text, &d), REFUSED[i].want);
        assert_memory_equal(&d, &kept, sizeof d);
    }
    CHECK_STATUS(designation_parse(longer, &d), STATUS_E_SYNTAX);
    assert_memory_equal(&d, &kept, sizeof d);
}

/* Upper and lower case, tabs and blanks around say the same. */
static void case_and_blanks_do_not_matter(void **state)
{
    (void)state;
    struct designation a, b;
    CHECK_STATUS(designation_parse("LT285/70R17 121/118S E", &a), STATUS_OK);
    CHECK_STATUS(designation_parse("\tlt285/70r17   121/118s\te ", &b), STATUS_OK);
    CHECK_CLOSE(b.outside_diameter_m, a.outside_diameter_m, 0, 0, "the same text");
    assert_int_equal(a.load_index_dual, b.load_index_dual);
    assert_int_equal(a.load_range, b.load_range);
    CHECK_TEXT(b.speed_symbol, a.speed_symbol);
}

/* The size is kept as it was written, without what follows it. */
static void the_size_is_kept_as_written(void **state)
{
    (void)state;
    static const struct {
        const char *text, *size;
    } t[] = {{" 35x12.50R17LT  121Q E", "35x12.50R17LT"},
             {"LT285/70R17 121/118S", "LT285/70R17"},
             {"315/70R17 LT 121/118S", "315/70R17 LT"},
             {"7.50R16", "7.50R16"}};
    for (size_t i = 0; i < sizeof t / sizeof t[0]; i++) {
        struct designation d;
        assert_true(designation_parse(t[i].text, &d) >= 0);
        CHECK_TEXT(d.text, t[i].size);
    }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(geometry_follows_from_the_text),
        cmocka_unit_test(flotation_names_are_near_the_tyre),
        cmocka_unit_test(texts_are_read),
        cmocka_unit_test(nonsense_leaves_the_output_alone),
        cmocka_unit_test(case_and_blanks_do_not_matter),
        cmocka_unit_test(the_size_is_kept_as_written),
    };
    return check_run("designation", tests, sizeof tests / sizeof tests[0], argc, argv);
}
