/* test_json.c - what the builder writes is JSON, in order, and never holds what is not finite. */
#include "support/check.h"

#include <jansson.h>
#include <math.h>
#include <string.h>

#include "report/json.h"
#include "report/json_advise.h"
#include "report/json_error.h"
#include "support/rigs.h"

enum { JSON_BYTES = 262144 };

static char buf[JSON_BYTES];

static json_t *parse(const char *s)
{
    json_error_t e;
    json_t *root = json_loads(s, JSON_REJECT_DUPLICATES, &e);
    if (!root) {
        fail_msg("line %d: %s", e.line, e.text);
    }
    return root;
}

static void builds_in_order(void **state)
{
    struct text t = text_over(buf, sizeof buf);
    struct json j;
    (void)state;
    json_begin(&j);
    json_put_text(&j, "z", "a \"b\" \\ \n");
    json_open_array(&j, "list");
    json_open_object(&j, NULL);
    json_put_number(&j, "n", 0.1);
    json_close(&j);
    json_put_maybe(&j, NULL, maybe_none());
    json_put_integer(&j, NULL, 3);
    json_close(&j);
    json_put_flag(&j, "a", true);
    json_put_pair(&j, "band", 1.0, 2.5);
    CHECK_STATUS(json_end(&j, &t), STATUS_OK);
    CHECK_TEXT(buf,
               "{\n  \"z\": \"a \\\"b\\\" \\\\ \\n\",\n  \"list\": [\n    {\n      \"n\": 0.1\n"
               "    },\n    null,\n    3\n  ],\n  \"a\": true,\n  \"band\": [\n    1.0,\n"
               "    2.5\n  ]\n}\n");
    json_decref(parse(buf));
}

static void end_with(double v, enum status want)
{
    struct text t = text_over(buf, sizeof buf);
    struct json j;
    json_begin(&j);
    json_put_number(&j, "v", v);
    json_put_number(&j, "after", 1.0);
    CHECK_STATUS(json_end(&j, &t), want);
    assert_int_equal(t.len == 0, want != STATUS_OK);
}

static void refuses_what_is_not_finite(void **state)
{
    (void)state;
    end_with((double)NAN, STATUS_E_DOMAIN);
    end_with(HUGE_VAL, STATUS_E_DOMAIN);
    end_with(-HUGE_VAL, STATUS_E_DOMAIN);
    end_with(5e-324, STATUS_OK);
    end_with(-1.7976931348623157e308, STATUS_OK);
}

static void refuses_bytes_that_are_not_utf8(void **state)
{
    struct text t = text_over(buf, sizeof buf);
    struct json j;
    (void)state;
    json_begin(&j);
    json_put_text(&j, "v", "\xC3(");
    CHECK_STATUS(json_end(&j, &t), STATUS_E_SYNTAX);
    assert_int_equal(t.len, 0);
}

static void says_when_there_is_no_room(void **state)
{
    char small[8] = "";
    struct text t = text_over(small, sizeof small);
    struct json j;
    (void)state;
    json_begin(&j);
    json_put_text(&j, "v", "more than that");
    CHECK_STATUS(json_end(&j, &t), STATUS_E_FULL);
    assert_int_equal(t.len, 0);
}

static void refuses_to_go_too_deep(void **state)
{
    struct text t = text_over(buf, sizeof buf);
    struct json j;
    (void)state;
    json_begin(&j);
    for (int i = 0; i < 2 * JSON_DEPTH; i++) {
        json_open_object(&j, "o");
    }
    CHECK_STATUS(json_end(&j, &t), STATUS_E_FULL);
}

/* ---- the commands' objects ---- */

/* Keys of every corner, as the contract of the output names them. */
static const char *const CORNER_KEYS[] = {"corner",
                                          "load_kg",
                                          "tyre",
                                          "section_height_mm",
                                          "road_kpa",
                                          "aim_kpa",
                                          "floor_kpa",
                                          "target_kpa",
                                          "set_now_kpa",
                                          "stuck_kpa",
                                          "bound_by",
                                          "deflection_road",
                                          "deflection",
                                          "deflection_mm",
                                          "deflection_band",
                                          "loaded_radius_mm",
                                          "clearance_loss_mm",
                                          "rolling_radius_mm",
                                          "patch_length_road_mm",
                                          "patch_length_mm",
                                          "patch_width_mm",
                                          "patch_area_road_cm2",
                                          "patch_area_cm2",
                                          "area_growth",
                                          "area_growth_band",
                                          "length_growth",
                                          "length_growth_band",
                                          "ground_pressure_kpa",
                                          "stiffness_n_mm",
                                          "capacity_kg",
                                          "standard_speed_kmh",
                                          "practice_speed_kmh"};

static const char *const FLOTATION_KEYS[] = {"method",
                                             "needed_road_kpa",
                                             "needed_target_kpa",
                                             "gain",
                                             "mass_equivalent_kg",
                                             "strength_kpa",
                                             "passes",
                                             "other",
                                             "mmp_road_kpa",
                                             "mmp_target_kpa",
                                             "pull_margin"};

static void has_keys(const json_t *o, size_t n, const char *const keys[])
{
    for (size_t i = 0; i < n; i++) {
        if (!json_object_get(o, keys[i])) {
            fail_msg("no key %s", keys[i]);
        }
    }
}

static json_t *advise(const struct rig *rig, const char *ground, struct advice *a)
{
    struct text t = text_over(buf, sizeof buf);
    const struct ground g = rigs_ground(ground);
    const struct conditions day = {.slope_1 = 0.0};
    enum status s = advice_compute(rig, &g, &day, a);
    assert_true(s >= 0 || s == STATUS_E_REFUSED);
    const struct json_head head = {.rig = rig->name,
                                   .load_state = rig->load_state,
                                   .status = s == STATUS_E_REFUSED ? 4 : 0,
                                   .cautions = &a->cautions,
                                   .refusal = &a->refusal,
                                   .units = UNITS_PSI};
    CHECK_STATUS(json_advise_put(&head, a, NULL, &t), STATUS_OK);
    return parse(buf);
}

static double number(const json_t *o, const char *key)
{
    const json_t *v = json_object_get(o, key);
    assert_true(json_is_number(v));
    return json_number_value(v);
}

static void advice_has_every_key_in_its_unit(void **state)
{
    static struct advice a;
    const struct rig rig = rigs_cabin_on();
    (void)state;
    json_t *root = advise(&rig, "dune-sand", &a);
    const json_t *corners = json_object_get(root, "corners");
    assert_int_equal(json_array_size(corners), 4);
    for (size_t i = 0; i < json_array_size(corners); i++) {
        has_keys(json_array_get(corners, i), sizeof CORNER_KEYS / sizeof CORNER_KEYS[0],
                 CORNER_KEYS);
    }
    has_keys(json_object_get(root, "flotation"), sizeof FLOTATION_KEYS / sizeof FLOTATION_KEYS[0],
             FLOTATION_KEYS);
    const json_t *left = json_array_get(corners, 0);
    CHECK_CLOSE(number(left, "road_kpa"), 38.0 * 6.894757293168361, 1e-6, 0, "38 psi");
    CHECK_CLOSE(number(root, "speed_cap_kmh"), 25.0, 1e-9, 0, "cap of dune-sand");
    CHECK_CLOSE(number(left, "deflection_mm"), 1000.0 * a.axle[0].corner[0].at.deflection_m, 1e-6,
                0, "the advice itself, m to mm");
    json_decref(root);
}

static void a_refusal_has_nulls_and_a_way_out(void **state)
{
    static struct advice a;
    struct rig rig = rigs_cabin_on();
    (void)state;
    rig.axle[AXLE_REAR].load_kg = 3100.0;
    json_t *root = advise(&rig, "dune-sand", &a);
    const json_t *refusal = json_object_get(root, "refusal");
    static const char *const keys[] = {"code", "text", "way_out"};
    has_keys(refusal, 3, keys);
    assert_true(json_is_null(json_object_get(root, "speed_cap_kmh")));
    const json_t *rear = json_array_get(json_object_get(root, "corners"), 2);
    assert_true(json_is_null(json_object_get(rear, "target_kpa")));
    assert_true(json_is_null(json_object_get(rear, "deflection_band")));
    CHECK_CLOSE(number(rear, "load_kg"), 1550.0, 1e-9, 0, "half the axle");
    has_keys(rear, sizeof CORNER_KEYS / sizeof CORNER_KEYS[0], CORNER_KEYS);
    json_decref(root);
}

static void mistakes_become_errors(void **state)
{
    struct text t = text_over(buf, sizeof buf);
    struct diag_list list = {.n = 0};
    const struct diag d = {.code = STATUS_E_UNKNOWN, .file = "x.ini", .line = 3, .text = "why"};
    (void)state;
    diag_add(&list, &d);
    CHECK_STATUS(json_error_put(&list, &t), STATUS_OK);
    json_t *root = parse(buf);
    CHECK_CLOSE(number(root, "status"), 3.0, 0, 0, "exit status");
    const json_t *e = json_array_get(json_object_get(root, "errors"), 0);
    assert_string_equal(json_string_value(json_object_get(e, "file")), "x.ini");
    CHECK_CLOSE(number(e, "line"), 3.0, 0, 0, "as given");
    assert_true(json_is_null(json_object_get(e, "section")));
    json_decref(root);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(builds_in_order),
        cmocka_unit_test(refuses_what_is_not_finite),
        cmocka_unit_test(refuses_bytes_that_are_not_utf8),
        cmocka_unit_test(says_when_there_is_no_room),
        cmocka_unit_test(refuses_to_go_too_deep),
        cmocka_unit_test(advice_has_every_key_in_its_unit),
        cmocka_unit_test(a_refusal_has_nulls_and_a_way_out),
        cmocka_unit_test(mistakes_become_errors),
    };
    return check_run("json", tests, sizeof tests / sizeof tests[0], argc, argv);
}
