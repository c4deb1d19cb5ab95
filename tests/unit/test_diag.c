/* test_diag.c - the bounded list of mistakes, and the usual pressure behind a load range. */
#include "support/check.h"

#include <stdio.h>
#include <string.h>

#include "base/diag.h"
#include "core/loadrange.h"

static void add(struct diag_list *list, const char *file, int line)
{
    struct diag d = {.code = STATUS_E_SYNTAX, .line = line};
    diag_copy(d.file, sizeof d.file, file);
    snprintf(d.text, sizeof d.text, "at %d", line);
    diag_add(list, &d);
}

static void lines_are_sorted_within_their_file(void **state)
{
    (void)state;
    struct diag_list list = {.n = 0};
    char buf[400];
    struct text t = text_over(buf, sizeof buf);
    add(&list, "b", 9);
    add(&list, "a", 0);
    add(&list, "a", 7);
    add(&list, "b", 2);
    add(&list, "a", 3);
    diag_list_put(&list, &t);
    CHECK_TEXT(buf, "b:2: at 2\nb:9: at 9\na:3: at 3\na:7: at 7\na: at 0\n");
}

static void the_latest_lines_give_way(void **state)
{
    (void)state;
    struct diag_list list = {.n = 0};
    for (int line = 2 * DIAG_MAX; line > 0; line--) {
        add(&list, "a", line);
    }
    add(&list, "a", 99);
    assert_int_equal(list.n, DIAG_MAX);
    assert_int_equal(list.dropped, DIAG_MAX + 1);
    assert_int_equal(list.item[0].line, 1);
    assert_int_equal(list.item[DIAG_MAX - 1].line, DIAG_MAX);
}

static void every_part_has_its_place(void **state)
{
    (void)state;
    static const struct diag parts[] = {
        {.file = "x.ini", .line = 9, .section = "front", .key = "k", .value = "1", .text = "no"},
        {.file = "x.ini", .section = "front", .text = "no"},
        {.file = "--set", .text = "no"},
        {.key = "k", .text = "no"},
        {.text = "no"},
    };
    static const char want[] = "x.ini:9: [front] k = 1: no|x.ini: [front]: no|--set: no|k: no|no|";
    char buf[200];
    struct text t = text_over(buf, sizeof buf);
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        diag_put(&parts[i], &t);
        text_put(&t, "|");
    }
    CHECK_TEXT(buf, want);
}

#define TRA "Tire and Rim Association practice"

// clang-format off
static const struct {
    const char *size;
    char range;
    struct check_row row;
} RANGES[] = {
    {"LT235/85R16", 'B', {"tyre: load range", "narrow B, kPa", 240, 0, 0, TRA, "memory"}},
    {"LT255/75R17", 'C', {"tyre: load range", "LT255/75R17 C, kPa", 350, 0, 0,
                          "maker's row: C at 50 psi", "read"}},
    {"LT285/70R17", 'D', {"tyre: load range", "narrow D, kPa", 450, 0, 0, TRA, "memory"}},
    {"LT235/85R16", 'E', {"tyre: load range", "LT235/85R16 E, kPa", 550, 0, 0,
                          "maker's row: 3042 lb at 80 psi", "read"}},
    {"LT315/75R16", 'E', {"tyre: load range", "LT315/75R16 E, kPa", 450, 0, 0,
                          "maker's row: 3860 lb at 65 psi", "read"}},
    {"35x12.50R17LT", 'D', {"tyre: load range", "wide flotation D, kPa", 350, 0, 0, TRA, "memory"}},
    {"P265/70R17", 0, {"tyre: load range", "passenger standard load, kPa", 240, 0, 0, TRA, "memory"}},
};
// clang-format on

static void load_ranges_have_their_usual_pressure(void **state)
{
    (void)state;
    struct designation d;
    double p_pa = 0;
    for (size_t i = 0; i < sizeof RANGES / sizeof RANGES[0]; i++) {
        CHECK_STATUS(designation_parse(RANGES[i].size, &d), STATUS_OK);
        CHECK_STATUS(loadrange_usual_pressure(&d, RANGES[i].range, &p_pa), STATUS_W_ASSUMED);
        CHECK_ROW(&RANGES[i].row, p_pa / 1000);
    }
    CHECK_STATUS(designation_parse("395/85R20", &d), STATUS_OK);
    CHECK_STATUS(loadrange_usual_pressure(&d, 'E', &p_pa), STATUS_E_UNKNOWN);
    CHECK_STATUS(designation_parse("35x12.50R17LT", &d), STATUS_OK);
    CHECK_STATUS(loadrange_usual_pressure(&d, 'B', &p_pa), STATUS_E_UNKNOWN);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(lines_are_sorted_within_their_file),
        cmocka_unit_test(the_latest_lines_give_way),
        cmocka_unit_test(every_part_has_its_place),
        cmocka_unit_test(load_ranges_have_their_usual_pressure),
    };
    return check_run("diag", tests, sizeof tests / sizeof tests[0], argc, argv);
}
