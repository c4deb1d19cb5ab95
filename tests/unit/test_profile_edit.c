/* test_profile_edit.c - values and defaults, overrides, single values, writing back, bad files. */
#include "support/check.h"

#include <fcntl.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "core/quick.h"
#include "profile/profile.h"

#define CABIN "profiles/rigs/flatbed-cabin.ini"
#define PSI   6894.757293168361 /* Pa, definition */

static struct ini ini;
static struct diag_list diags;
static struct rig rig;
static char said[DIAG_MAX * 700];

static int forget(void **state)
{
    (void)state;
    diags.n = diags.dropped = 0;
    ini.n = ini.n_file = 0;
    return 0;
}

static const char *told(void)
{
    struct text t = text_over(said, sizeof said);
    diag_list_put(&diags, &t);
    return said;
}

/* A file in /tmp with these bytes; the caller unlinks it. */
static const char *file_with(const char *bytes, size_t n)
{
    static char path[32];
    strncpy(path, "/tmp/sandshoe-test-XXXXXX", sizeof path - 1);
    int fd = mkstemp(path);
    assert_true(fd >= 0);
    assert_int_equal(write(fd, bytes, n), (ssize_t)n);
    close(fd);
    return path;
}

static void values_arrive_in_si(void **state)
{
    (void)state;
    CHECK_STATUS(rig_load(CABIN, 0, NULL, NULL, &ini, &rig, &diags), STATUS_OK);
    assert_string_equal(rig.name, "flatbed with cabin");
    assert_string_equal(rig.load_state, "cabin on, water full");
    assert_string_equal(rig.path, CABIN);
    assert_int_equal(rig.units, UNITS_PSI);
    assert_true(rig.axle[AXLE_FRONT].present && rig.axle[AXLE_REAR].present);
    assert_false(rig.axle[AXLE_MIDDLE].present || rig.axle[AXLE_TRAILER].present);
    const struct axle *a = &rig.axle[AXLE_FRONT];
    CHECK_CLOSE(a->load_kg, 1950, 1e-9, 0, "the file");
    CHECK_CLOSE(a->road_gauge_pa, 38 * PSI, 1e-6, 0, "the file");
    CHECK_CLOSE(a->rim_width_m, 0.2286, 1e-9, 0, "9 in of 25.4 mm");
    CHECK_CLOSE(a->tyre.max_gauge_pa, 65 * PSI, 1e-6, 0, "the file");
    assert_int_equal(a->tyre.load_range, 'E');
    assert_int_equal(a->tyre.size.family, TYRE_FLOTATION);
    assert_true(rig.air.springs);
    assert_false(rig.air.spare);
}

static void defaults_are_the_documented_ones(void **state)
{
    (void)state;
    CHECK_STATUS(rig_load(CABIN, 0, NULL, NULL, &ini, &rig, &diags), STATUS_OK);
    const struct axle *a = &rig.axle[AXLE_REAR];
    CHECK_CLOSE(a->left_share_1, 0.5, 1e-12, 0, "sandshoe-profile(5)");
    CHECK_CLOSE(a->road_temp_k, 293.15, 1e-9, 0, "sandshoe-profile(5): 20 C");
    assert_int_equal(a->wheels, 2);
    assert_int_equal(a->wheel, WHEEL_PLAIN);
    CHECK_CLOSE(rig.air.hose_bore_m, 0.00635, 1e-12, 0, "sandshoe-profile(5)");
    CHECK_CLOSE(rig.air.regulator_area_m2, 8e-6, 1e-15, 0, "sandshoe-profile(5)");
    CHECK_CLOSE(rig.air.move_time_s, 25, 1e-12, 0, "sandshoe-profile(5)");
    CHECK_CLOSE(rig.air.gauge_step_pa, PSI, 1e-9, 0, "1 psi for a rig in psi");
    const struct compressor *c = &rig.air.compressor;
    assert_string_equal(c->name, "twin-12v");
    CHECK_CLOSE(c->swept_m3_s, 166e-3 / 60, 1e-12, 0, "generic twin, E2");
    CHECK_CLOSE(c->clearance_1, 0.06, 1e-12, 0, "generic twin, E2");
    CHECK_CLOSE(c->exponent_1, 1.25, 1e-12, 0, "generic twin, E2");
    CHECK_CLOSE(c->sag_1, 0.10, 1e-12, 0, "generic twin, E2");
}

static void the_usual_pressure_of_a_load_range_fills_in(void **state)
{
    (void)state;
    static const char *const set[] = {"front.tyre=LT285/70R17 121/118S", "front.wheels=4"};
    CHECK_STATUS(rig_load(CABIN, 1, set, NULL, &ini, &rig, &diags), STATUS_OK);
    CHECK_STATUS(profile_put(&ini, "front", "max_pressure", NULL, ""), STATUS_OK);
    CHECK_STATUS(profile_put(&ini, "front", "max_load", NULL, ""), STATUS_OK);
    CHECK_STATUS(rig_from_ini(&ini, NULL, &rig, &diags), STATUS_OK);
    CHECK_CLOSE(rig.axle[AXLE_FRONT].tyre.max_gauge_pa, 550e3, 1, 0,
                "LT285 is narrow: load range E, 80 psi [TRA, memory]");
    CHECK_CLOSE(rig.axle[AXLE_FRONT].tyre.max_load_kg, 1450, 0, 0, "LI 121, UN R54 Annex 4");
    CHECK_STATUS(profile_set(&ini, set[1], &diags), STATUS_OK);
    CHECK_STATUS(profile_put(&ini, "front", "load_index", NULL, ""), STATUS_OK);
    CHECK_STATUS(rig_from_ini(&ini, NULL, &rig, &diags), STATUS_OK);
    CHECK_CLOSE(rig.axle[AXLE_FRONT].tyre.max_load_kg, 1320, 0, 0, "duals: LI 118, UN R54 Annex 4");
}

/* the print is an optional calibration of its own: a tape is not asked for */
static void a_chalk_print_stands_without_a_tape_height(void **state)
{
    (void)state;
    static const char *const print[] = {"front.cal_pressure=35psi", "front.cal_patch_length=190mm",
                                        "front.cal_patch_width=240mm"};
    CHECK_STATUS(rig_load(CABIN, 3, print, NULL, &ini, &rig, &diags), STATUS_OK);
    CHECK_CLOSE(rig.axle[AXLE_FRONT].tyre.cal.patch_length_m, 0.190, 1e-12, 0, "the override");
    CHECK_STATUS(rig_load(CABIN, 1, print, NULL, &ini, &rig, &diags), STATUS_E_SYNTAX);
    assert_string_equal(diags.item[0].text, "needs cal_height or cal_patch_length beside it");
    static const char *const odd[] = {"front.cal_pressure=35psi", "front.cal_patch_length=900mm"};
    CHECK_STATUS(rig_load(CABIN, 2, odd, NULL, &ini, &rig, &diags), STATUS_E_SYNTAX);
    assert_string_equal(diags.item[diags.n - 1].key, "cal_patch_length");
}

static void overrides_win_and_are_named(void **state)
{
    (void)state;
    static const char *const good[] = {"rear.axle_load=1800 kg", "mass-2.what=tent",
                                       "mass-2.mass=-60kg", "mass-2.position=1.2 m",
                                       "spare.pressure=4 bar"};
    CHECK_STATUS(rig_load(CABIN, 5, good, NULL, &ini, &rig, &diags), STATUS_OK);
    CHECK_CLOSE(rig.axle[AXLE_REAR].load_kg, 1800, 1e-9, 0, "as set");
    assert_int_equal(rig.n_mass, 1);
    CHECK_CLOSE(rig.mass[0].mass_kg, -60, 1e-9, 0, "as set");
    CHECK_CLOSE(rig.air.spare_volume_m3, 0.1175, 0.0005, 0,
                "0.78 pi (0.4445^2 - 0.2159^2) 0.3175 m3, by hand");
    static const char *const bad[] = {"rear.axle_load=1800", "rear", "rear.tire=x",
                                      "front.road_pressure=9,5 bar", "rear.=1"};
    CHECK_STATUS(rig_load(CABIN, 5, bad, NULL, &ini, &rig, &diags), STATUS_E_SYNTAX);
    CHECK_TEXT(told(), "--set: rear: write section.key=value, as in rear.axle_load=1800kg\n"
                       "--set: rear.=1: write section.key=value, as in rear.axle_load=1800kg\n"
                       "--set: [front] road_pressure = 9,5 bar: a decimal comma (write 9.5 bar)\n"
                       "--set: [rear] axle_load = 1800: a bare number (add the unit: kg, lb, t)\n"
                       "--set: [rear] tire: unknown key (did you mean tyre?)\n");
    CHECK_CLOSE(rig.axle[AXLE_REAR].load_kg, 1800, 1e-9, 0, "untouched on error");
}

static void one_value_is_checked_as_in_a_file(void **state)
{
    (void)state;
    struct diag d;
    char buf[400];
    struct text t = text_over(buf, sizeof buf);
    CHECK_STATUS(profile_check_value(PROFILE_RIG, "rear", "axle_load", "2350 kg", &d), STATUS_OK);
    CHECK_STATUS(profile_check_value(PROFILE_RIG, "rear", "axle_load", "40 t", &d),
                 STATUS_E_DOMAIN);
    diag_put(&d, &t);
    CHECK_TEXT(buf, "[rear] axle_load = 40 t: out of range (50 kg to 30 t)");
    CHECK_STATUS(profile_check_value(PROFILE_RIG, "rig", "name", "a \"b\"", &d), STATUS_E_SYNTAX);
    assert_string_equal(d.text, "a quote or backslash cannot stand in a value");
    CHECK_STATUS(profile_check_value(PROFILE_RIG, "raer", "name", "x", &d), STATUS_E_MISSING);
    assert_string_equal(d.text, "unknown section (did you mean [rear]?)");
}

static void written_text_reads_back(void **state)
{
    (void)state;
    static char first[20000];
    static char second[20000];
    struct text a = text_over(first, sizeof first);
    struct text b = text_over(second, sizeof second);
    CHECK_STATUS(rig_load(CABIN, 0, NULL, NULL, &ini, &rig, &diags), STATUS_OK);
    CHECK_STATUS(profile_put(&ini, "rig", "load_state", "cabin; #2 = on", "edited"), STATUS_OK);
    CHECK_STATUS(profile_put(&ini, "rig", "name", "a \"quote\"", "edited"), STATUS_E_SYNTAX);
    profile_write(&ini, PROFILE_RIG, &a);
    const char *path = file_with(first, a.len);
    CHECK_STATUS(rig_load(path, 0, NULL, NULL, &ini, &rig, &diags), STATUS_OK);
    unlink(path);
    CHECK_TEXT(told(), "");
    assert_string_equal(rig.load_state, "cabin; #2 = on");
    profile_write(&ini, PROFILE_RIG, &b);
    CHECK_TEXT(second, first);
}

/* Every shipped rig, built, written from the struct alone, and built again, is the same rig. */
static void a_rig_becomes_a_profile(void **state)
{
    (void)state;
    static const char *const names[] = {"flatbed-cabin", "light-wagon", "touring-wagon",
                                        "expedition-truck", "rock-buggy"};
    static const char *const set[] = {"air.compressor=twin-12v", "mass-1.what=tent",
                                      "mass-1.mass=-60 kg", "mass-1.position=1.2 m",
                                      "spare.pressure=4.2 bar"};
    static struct rig again;
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        char path[64];
        snprintf(path, sizeof path, "profiles/rigs/%s.ini", names[i]);
        CHECK_STATUS(rig_load(path, 5, set, NULL, &ini, &rig, &diags), STATUS_OK);
        CHECK_STATUS(rig_to_ini(&rig, &ini), STATUS_OK);
        CHECK_STATUS(rig_from_ini(&ini, NULL, &again, &diags), STATUS_OK);
        CHECK_TEXT(told(), "");
        assert_string_equal(again.name, rig.name);
        assert_int_equal(again.units, rig.units);
        assert_int_equal(again.air.source, rig.air.source);
        assert_int_equal(again.air.hookup, rig.air.hookup);
        assert_int_equal(again.n_mass, 1);
        for (int a = 0; a < AXLE_COUNT; a++) {
            const struct axle *x = &rig.axle[a];
            const struct axle *y = &again.axle[a];
            assert_int_equal(y->present, x->present);
            assert_int_equal(y->wheel, x->wheel);
            assert_int_equal(y->tyre.load_index, x->tyre.load_index);
            assert_string_equal(y->tyre.size.text, x->tyre.size.text);
            CHECK_CLOSE(y->load_kg, x->load_kg, 1e-3, 0, "round trip");
            CHECK_CLOSE(y->road_gauge_pa, x->road_gauge_pa, 1, 0, "round trip");
            CHECK_CLOSE(y->tyre.max_gauge_pa, x->tyre.max_gauge_pa, 1, 0, "round trip");
            CHECK_CLOSE(y->rim_width_m, x->rim_width_m, 1e-6, 0, "round trip");
        }
        CHECK_CLOSE(again.air.spare_gauge_pa, rig.air.spare_gauge_pa, 1, 0, "round trip");
        CHECK_CLOSE(again.air.main_length_m, rig.air.main_length_m, 1e-6, 0, "round trip");
        CHECK_CLOSE(again.air.gauge_step_pa, rig.air.gauge_step_pa, 1, 0, "round trip");
    }
}

/* Three answers saved as a profile ask for nothing more than a name and a load state. */
static void three_answers_become_a_profile(void **state)
{
    (void)state;
    static const struct quick_form form = {
        .tyre = "35x12.50R17LT 121Q E", .front_load_kg = 1950, .rear_load_kg = 2350};
    static struct caution_list assumed;
    CHECK_STATUS(quick_rig(&form, &rig, &assumed), STATUS_OK);
    CHECK_STATUS(rig_to_ini(&rig, &ini), STATUS_OK);
    CHECK_STATUS(profile_put(&ini, "rig", "name", "mine", "edited"), STATUS_OK);
    CHECK_STATUS(profile_put(&ini, "rig", "load_state", "full", "edited"), STATUS_OK);
    CHECK_STATUS(rig_from_ini(&ini, NULL, &rig, &diags), STATUS_OK);
    CHECK_CLOSE(rig.axle[AXLE_REAR].tyre.max_load_kg, 1450, 1e-9, 0, "LI 121, UN R54 Annex 4");
    CHECK_CLOSE(rig.axle[AXLE_REAR].tyre.max_gauge_pa, 450e3, 1, 0,
                "wide flotation, load range E [TRA, memory]");
}

static void grounds_merge_key_by_key(void **state)
{
    (void)state;
    static const char mine[] = "[dune-sand]\ncap = 20 km/h\n"
                               "[salt-pan]\ntitle = salt pan\nkind = firm\naim = 15 %\n"
                               "limit = 20 %\n";
    static struct ground_list list;
    const char *path = file_with(mine, sizeof mine - 1);
    CHECK_STATUS(profile_read(path, &ini, &diags), STATUS_OK);
    unlink(path);
    CHECK_STATUS(profile_read("profiles/grounds.ini", &ini, &diags), STATUS_OK);
    CHECK_STATUS(grounds_from_ini(&ini, &list, &diags), STATUS_OK);
    assert_int_equal(list.n, 14);
    const struct ground *g = ground_find(&list, "dune-sand");
    CHECK_CLOSE(g->cap_mps.v * 3.6, 20, 1e-9, 0, "the earlier file wins");
    CHECK_CLOSE(g->aim_1, 0.22, 1e-12, 0, "the rest comes from the later one");
    g = ground_find(&list, "salt-pan");
    CHECK_CLOSE(g->aim_high_1, 0.15, 1e-12, 0, "else the aim");
    assert_false(g->cap_mps.is);
}

static enum status load_bytes(const char *bytes, size_t n)
{
    const char *path = file_with(bytes, n);
    (void)forget(NULL);
    enum status s = profile_read(path, &ini, &diags);
    unlink(path);
    return s;
}

static void files_that_are_no_profiles(void **state)
{
    (void)state;
    static char big[INI_FILE + 1];
    memset(big, '\n', sizeof big);
    CHECK_STATUS(rig_load("/nowhere/x.ini", 0, NULL, NULL, &ini, &rig, &diags), STATUS_E_SYSTEM);
    CHECK_STATUS(rig_load("tests", 0, NULL, NULL, &ini, &rig, &diags), STATUS_E_SYSTEM);
    CHECK_STATUS(rig_load("/dev/null", 0, NULL, NULL, &ini, &rig, &diags), STATUS_E_SYSTEM);
    CHECK_TEXT(told(), "/nowhere/x.ini: No such file or directory\ntests: is a directory\n"
                       "/dev/null: is not a regular file\n");
    CHECK_STATUS(load_bytes(big, sizeof big), STATUS_E_SYNTAX);
    CHECK_STATUS(load_bytes(big, INI_FILE), STATUS_OK);
    CHECK_STATUS(load_bytes("", 0), STATUS_OK);
    CHECK_STATUS(rig_from_ini(&ini, NULL, &rig, &diags), STATUS_E_SYNTAX);
    assert_int_equal(diags.n, 3); /* rig, front, rear */
}

/* What iniparser 4.1 accepts in silence and what it says differently: each is refused or agreed. */
static void quirks_of_the_parser(void **state)
{
    (void)state;
    static const char *const refused[] = {
        "[a]\nk = 1\nk = 2\n",
        "[a]\nk = 1\n[a]\nj = 2\n",
        "[A]\nk = 1\n",
        "[a]\nK = 1\n",
        "k = 1\n",
        "[a]\nk\n",
        "[a]\nk: 1\n",
        "[a]\n= 1\n",
        "[a\nk = 1\n",
        "[a] ; note\nk = 1\n",
        "[a] ; x=1\n",
        "[]\nk = 1\n",
        "[a]b]\nk = 1\n",
        "[a:b]\nk = 1\n",
        "[a]\nk:j = 1\n",
        "[a]\nk = set#1 of 2\n",
        "[a]\nk = a;b\n",
        "[a]\nk = \"abc\n",
        "[a]\nk = \"abc\" junk\n",
        "[a]\nk = 'it''s'\n",
        "[a]\nk = \"a \\\" b\"\n",
        "[a]\nk = 17\"\n",
        "[a]\nk =\n",
        "[a]\nk = \"\"\n",
        "[a]\n# c:\\dir\\\nk = 1\n",
        "[a]\nk = 1\\",
        "[a]\nk",
    };
    for (size_t i = 0; i < sizeof refused / sizeof refused[0]; i++) {
        enum status s = load_bytes(refused[i], strlen(refused[i]));
        if (s != STATUS_E_SYNTAX) {
            fprintf(stderr, "accepted: %s\n", refused[i]);
        }
        CHECK_STATUS(s, STATUS_E_SYNTAX);
        assert_true(diags.n >= 1 && diags.item[0].line >= 1);
    }
    static const char crlf[] = "[a]\r\n\tk\t=\tb  c \r\nj = \"a # b\" ; note\r\ni = x   # y\r\n";
    CHECK_STATUS(load_bytes(crlf, sizeof crlf - 1), STATUS_OK);
    assert_string_equal(ini_find(&ini, "a", "k")->value, "b  c");
    assert_string_equal(ini_find(&ini, "a", "j")->value, "a # b");
    assert_string_equal(ini_find(&ini, "a", "i")->value, "x");
    assert_int_equal(ini_find(&ini, "a", "i")->line, 4);
}

/* The longest line that the scan takes is one that iniparser takes whole. */
static void lines_up_to_the_limit(void **state)
{
    (void)state;
    char bytes[INI_LINE + 16];
    struct text t = text_over(bytes, sizeof bytes);
    text_put(&t, "[a]\nk = 1 #");
    text_char(&t, 'x', INI_LINE - 7);
    CHECK_STATUS(load_bytes(bytes, t.len), STATUS_OK);
    text_char(&t, 'x', 1);
    CHECK_STATUS(load_bytes(bytes, t.len), STATUS_E_SYNTAX);
}

static void a_comma_locale_changes_nothing(void **state)
{
    (void)state;
    if (!setlocale(LC_ALL, "de_DE.UTF-8")) {
        skip();
    }
    setlocale(LC_NUMERIC, "C"); /* as the program does */
    enum status s =
        rig_load("profiles/rigs/expedition-truck.ini", 0, NULL, NULL, &ini, &rig, &diags);
    setlocale(LC_ALL, "C");
    CHECK_STATUS(s, STATUS_E_SYNTAX); /* its compressor is not in an empty list, nothing else */
    assert_int_equal(diags.n, 1);
    assert_string_equal(diags.item[0].key, "compressor");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test_setup(values_arrive_in_si, forget),
        cmocka_unit_test_setup(defaults_are_the_documented_ones, forget),
        cmocka_unit_test_setup(the_usual_pressure_of_a_load_range_fills_in, forget),
        cmocka_unit_test_setup(a_chalk_print_stands_without_a_tape_height, forget),
        cmocka_unit_test_setup(overrides_win_and_are_named, forget),
        cmocka_unit_test_setup(one_value_is_checked_as_in_a_file, forget),
        cmocka_unit_test_setup(written_text_reads_back, forget),
        cmocka_unit_test_setup(a_rig_becomes_a_profile, forget),
        cmocka_unit_test_setup(three_answers_become_a_profile, forget),
        cmocka_unit_test_setup(grounds_merge_key_by_key, forget),
        cmocka_unit_test_setup(files_that_are_no_profiles, forget),
        cmocka_unit_test_setup(quirks_of_the_parser, forget),
        cmocka_unit_test_setup(lines_up_to_the_limit, forget),
        cmocka_unit_test_setup(a_comma_locale_changes_nothing, forget),
    };
    if (chdir(SANDSHOE_SRCDIR) != 0) {
        return 1;
    }
    return check_run("profile_edit", tests, sizeof tests / sizeof tests[0], argc, argv);
}
