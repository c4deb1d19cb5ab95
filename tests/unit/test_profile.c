/* test_profile.c - profiles are read strictly: values, defaults, every mistake with its line. */
#include "support/check.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/diag.h"
#include "profile/profile.h"

static struct ini ini;
static struct diag_list diags;

static const char *said(void)
{
    static char buf[DIAG_MAX * 700];
    struct text t = text_over(buf, sizeof buf);
    diag_list_put(&diags, &t);
    return buf;
}

/* Compare what was said with a file; UPDATE=1 writes it, to be read before it is committed. */
static void check_said(const char *want_path)
{
    static char want[DIAG_MAX * 700];
    const char *got = said();
    FILE *f = fopen(want_path, getenv("UPDATE") ? "w" : "r");
    assert_non_null(f);
    if (getenv("UPDATE")) {
        fputs(got, f);
    } else {
        want[fread(want, 1, sizeof want - 1, f)] = '\0';
    }
    fclose(f);
    if (!getenv("UPDATE")) {
        CHECK_TEXT(got, want);
    }
}

static int forget(void **state)
{
    (void)state;
    diags.n = diags.dropped = 0;
    ini.n = ini.n_file = 0;
    return 0;
}

static void load_compressors(struct compressor_list *list)
{
    static const char *const names[] = {"twin-12v", "single-12v", "portable-12v", "engine-driven",
                                        "shop-air"};
    list->n = 0;
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        char path[300];
        struct text t = text_over(path, sizeof path);
        struct compressor c;
        text_put(&t, "profiles/compressors/%s.ini", names[i]);
        enum status s = compressor_load(path, &ini, &c, &diags);
        CHECK_TEXT(said(), "");
        CHECK_STATUS(s, STATUS_OK);
        compressor_list_add(list, path, &c);
    }
}

static void shipped_rigs_load_clean(void **state)
{
    (void)state;
    static const char *const names[] = {"flatbed-cabin", "flatbed-bare",     "light-wagon",
                                        "touring-wagon", "expedition-truck", "rock-buggy"};
    static struct compressor_list list;
    load_compressors(&list);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        char path[300];
        struct text t = text_over(path, sizeof path);
        struct rig rig;
        text_put(&t, "profiles/rigs/%s.ini", names[i]);
        enum status s = rig_load(path, 0, NULL, &list, &ini, &rig, &diags);
        CHECK_TEXT(said(), "");
        CHECK_STATUS(s, STATUS_OK);
    }
}

static void shipped_grounds_have_the_catalogue(void **state)
{
    (void)state;
    /* the catalogue as designed: aim, low, high, limit (% of section height), cap */
    static const struct {
        const char *name;
        double aim, low, high, limit, cap_kmh;
    } want[] = {
        {"graded-gravel", 13.5, 12.5, 15.5, 20, 80}, {"corrugated-road", 15.5, 14, 18, 24, 80},
        {"stony-track", 18, 16, 21, 26, 30},         {"rock-steps", 19, 16, 22, 28, 12},
        {"damp-sand", 18, 17, 22, 30, 40},           {"dry-sand", 21, 19, 25, 32, 30},
        {"dune-sand", 22, 20, 26, 33, 25},           {"greasy-clay", 19, 17, 22, 28, 25},
        {"wet-field", 22, 20, 26, 32, 15},           {"bog", 25, 22, 29, 33, 8},
        {"loose-snow", 23, 20, 28, 33, 25},          {"packed-snow", 14, 12, 16, 22, 40},
    };
    static struct ground_list list;
    CHECK_STATUS(profile_read("profiles/grounds.ini", &ini, &diags), STATUS_OK);
    enum status s = grounds_from_ini(&ini, &list, &diags);
    CHECK_TEXT(said(), "");
    CHECK_STATUS(s, STATUS_OK);
    assert_int_equal(list.n, 13);
    assert_true(ground_find(&list, "sealed-road")->road);
    for (size_t i = 0; i < sizeof want / sizeof want[0]; i++) {
        const struct ground *g = ground_find(&list, want[i].name);
        assert_non_null(g);
        CHECK_CLOSE(100 * g->aim_1, want[i].aim, 1e-9, 0, "the catalogue, C4");
        CHECK_CLOSE(100 * g->aim_low_1, want[i].low, 1e-9, 0, "the catalogue, C4");
        CHECK_CLOSE(100 * g->aim_high_1, want[i].high, 1e-9, 0, "the catalogue, C4");
        CHECK_CLOSE(100 * g->limit_1, want[i].limit, 1e-9, 0, "the catalogue, C4");
        CHECK_CLOSE(3.6 * g->cap_mps.v, want[i].cap_kmh, 1e-9, 0, "the catalogue, C4");
    }
}

static void shipped_trips_load_clean(void **state)
{
    (void)state;
    static const char *const names[] = {"dune-crossing", "corrugated-spur", "high-pass"};
    static struct ground_list grounds;
    CHECK_STATUS(profile_read("profiles/grounds.ini", &ini, &diags), STATUS_OK);
    CHECK_STATUS(grounds_from_ini(&ini, &grounds, &diags), STATUS_OK);
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        char path[300];
        struct text t = text_over(path, sizeof path);
        struct trip trip;
        text_put(&t, "profiles/trips/%s.ini", names[i]);
        enum status s = trip_load(path, &grounds, &ini, &trip, &diags);
        CHECK_TEXT(said(), "");
        CHECK_STATUS(s, STATUS_OK);
        assert_true(trip.n_leg >= 4);
    }
}

static enum status load(enum profile_kind kind, const char *path)
{
    static struct compressor_list list;
    static struct ground_list grounds;
    struct ground_list none;
    struct rig rig;
    struct compressor c;
    struct trip trip;
    enum status s = STATUS_OK;
    switch (kind) {
    case PROFILE_RIG:
        load_compressors(&list);
        return rig_load(path, 0, NULL, &list, &ini, &rig, &diags);
    case PROFILE_COMPRESSOR:
        return compressor_load(path, &ini, &c, &diags);
    case PROFILE_GROUNDS:
        s = profile_read(path, &ini, &diags);
        return s < 0 ? s : grounds_from_ini(&ini, &none, &diags);
    case PROFILE_TRIP:
    case PROFILE_KINDS:
        CHECK_STATUS(profile_read("profiles/grounds.ini", &ini, &diags), STATUS_OK);
        CHECK_STATUS(grounds_from_ini(&ini, &grounds, &diags), STATUS_OK);
        return trip_load(path, &grounds, &ini, &trip, &diags);
    }
    return STATUS_E_SYSTEM;
}

struct mistakes {
    enum profile_kind kind;
    const char *name;
};

/* Every mistake of a file with its line, in the exact words that stand in NAME.want. */
static void mistakes_are_told(void **state)
{
    const struct mistakes *m = *state;
    char path[64];
    char want[64];
    snprintf(path, sizeof path, "tests/data/mistakes/%s.ini", m->name);
    snprintf(want, sizeof want, "tests/data/mistakes/%s.want", m->name);
    (void)forget(NULL);
    CHECK_STATUS(load(m->kind, path), STATUS_E_SYNTAX);
    check_said(want);
}

static const struct mistakes MISTAKES[] = {
    {PROFILE_RIG, "scan"},        {PROFILE_RIG, "bytes"},  {PROFILE_RIG, "mark"},
    {PROFILE_RIG, "keys"},        {PROFILE_RIG, "axles"},  {PROFILE_RIG, "air"},
    {PROFILE_RIG, "sizes"},       {PROFILE_RIG, "masses"}, {PROFILE_COMPRESSOR, "flow"},
    {PROFILE_GROUNDS, "grounds"}, {PROFILE_TRIP, "trip"},
};

enum { N_MISTAKES = sizeof MISTAKES / sizeof MISTAKES[0] };

int main(int argc, char **argv)
{
    struct CMUnitTest tests[N_MISTAKES + 3] = {
        cmocka_unit_test_setup(shipped_rigs_load_clean, forget),
        cmocka_unit_test_setup(shipped_trips_load_clean, forget),
        cmocka_unit_test_setup(shipped_grounds_have_the_catalogue, forget),
    };
    static struct mistakes files[N_MISTAKES];
    memcpy(files, MISTAKES, sizeof files);
    for (size_t i = 0; i < N_MISTAKES; i++) {
        tests[3 + i] = (struct CMUnitTest){
            .name = files[i].name, .test_func = mistakes_are_told, .initial_state = &files[i]};
    }
    if (chdir(SANDSHOE_SRCDIR) != 0) {
        return 1;
    }
    return check_run("profile", tests, sizeof tests / sizeof tests[0], argc, argv);
}
