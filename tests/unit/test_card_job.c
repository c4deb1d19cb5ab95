/* test_card_job.c - cards of the shipped rigs and trips, end to end in memory. */
#include "support/check.h"

#include <string.h>

#include "app/card_job.h"
#include "profile/profile.h"

static struct ini ini;
static struct diag_list diags;
static struct compressor_list compressors;
static struct ground_list grounds;
static struct rig rig, other;
static struct trip trip;
static char out[2 * CARD_TEXT_MAX];
static unsigned char bytes[CARD_PDF_MAX];

static const char *const RIGS[] = {"flatbed-cabin", "flatbed-bare",     "light-wagon",
                                   "touring-wagon", "expedition-truck", "rock-buggy"};
enum { RIG_COUNT = sizeof RIGS / sizeof RIGS[0] };

static const char *path_of(const char *folder, const char *name)
{
    static char path[512];
    struct text t = text_over(path, sizeof path);
    text_put(&t, "%s/profiles/%s%s%s.ini", SANDSHOE_SRCDIR, folder, folder[0] ? "/" : "", name);
    return path;
}

static void fresh(void)
{
    ini.n = ini.n_file = 0;
    diags.n = 0;
}

/* Read what every job needs, once. */
static void load_all(void)
{
    if (grounds.n > 0) {
        return;
    }
    static const char *const names[] = {"twin-12v", "single-12v", "portable-12v", "engine-driven",
                                        "shop-air"};
    for (size_t i = 0; i < sizeof names / sizeof names[0]; i++) {
        struct compressor c;
        fresh();
        CHECK_STATUS(compressor_load(path_of("compressors", names[i]), &ini, &c, &diags),
                     STATUS_OK);
        compressor_list_add(&compressors, path_of("compressors", names[i]), &c);
    }
    fresh();
    CHECK_STATUS(profile_read(path_of("", "grounds"), &ini, &diags), STATUS_OK);
    CHECK_STATUS(grounds_from_ini(&ini, &grounds, &diags), STATUS_OK);
}

static struct card_job job_of(const char *name)
{
    load_all();
    fresh();
    CHECK_STATUS(rig_load(path_of("rigs", name), 0, NULL, &compressors, &ini, &rig, &diags),
                 STATUS_OK);
    return (struct card_job){.rig = &rig,
                             .catalogue = &grounds,
                             .units = rig.units,
                             .size = CARD_3X5,
                             .date = "2026-05-02"};
}

static enum status text_of(const struct card_job *job, struct card_job_report *fault)
{
    struct text t = text_over(out, sizeof out);
    return card_job_text(job, &t, fault);
}

static void every_rig_has_a_card_of_every_size(void **state)
{
    (void)state;
    for (int r = 0; r < RIG_COUNT; r++) {
        struct card_job job = job_of(RIGS[r]);
        for (int s = 0; s < CARD_SIZE_COUNT; s++) {
            struct card_job_report fault = {.what = ""};
            size_t n = 0;
            job.size = (enum card_size)s;
            CHECK_STATUS(text_of(&job, &fault), STATUS_OK);
            assert_non_null(strstr(out, "dune sand"));
            assert_non_null(strstr(out, "REFILL"));
            CHECK_STATUS(card_job_pdf(&job, sizeof bytes, bytes, &n, &fault), STATUS_OK);
            assert_true(n > 1000);
        }
    }
}

/* The 3x5 card carries four grounds, whatever else the rig has to say. */
static void small_cards_keep_four_grounds(void **state)
{
    (void)state;
    for (int r = 0; r < RIG_COUNT; r++) {
        struct card_job job = job_of(RIGS[r]);
        struct card_job_report fault = {.what = ""};
        CHECK_STATUS(card_job_grounds("graded-gravel,rock-steps,dry-sand,dune-sand", &job, &fault),
                     STATUS_OK);
        CHECK_STATUS(text_of(&job, &fault), STATUS_OK);
        assert_non_null(strstr(out, "rock steps"));
    }
}

static void grounds_are_checked(void **state)
{
    (void)state;
    struct card_job job = job_of("flatbed-cabin");
    struct card_job_report fault = {.what = ""};
    CHECK_STATUS(card_job_grounds("dune-sand,moon-dust", &job, &fault), STATUS_E_UNKNOWN);
    assert_non_null(strstr(fault.what, "moon-dust"));
    CHECK_STATUS(card_job_grounds("", &job, &fault), STATUS_E_UNKNOWN);
    CHECK_STATUS(
        card_job_grounds("graded-gravel,stony-track,damp-sand,dune-sand,bog", &job, &fault),
        STATUS_OK);
    CHECK_STATUS(text_of(&job, &fault), STATUS_E_FULL);
    assert_non_null(strstr(fault.what, "5 grounds do not fit a 3x5 card: 4 fit"));
}

static void a_folded_sheet_has_two_load_states(void **state)
{
    (void)state;
    struct card_job_report fault = {.what = ""};
    size_t n = 0;
    (void)job_of("flatbed-bare");
    other = rig;
    struct card_job job = job_of("flatbed-cabin");
    job.other = &other;
    CHECK_STATUS(text_of(&job, &fault), STATUS_OK);
    assert_non_null(strstr(out, "CABIN ON, WATER FULL"));
    assert_non_null(strstr(out, "fold here"));
    CHECK_STATUS(card_job_pdf(&job, sizeof bytes, bytes, &n, &fault), STATUS_OK);
}

static void side_two_is_a_grid(void **state)
{
    (void)state;
    struct card_job job = job_of("touring-wagon");
    struct card_job_report fault = {.what = ""};
    job.log_side = true;
    CHECK_STATUS(text_of(&job, &fault), STATUS_OK);
    assert_non_null(strstr(out, "before|"));
    assert_null(strstr(out, "REFILL"));
}

static void what_is_unsafe_gets_no_card(void **state)
{
    (void)state;
    struct card_job job = job_of("expedition-truck");
    struct card_job_report fault = {.what = ""};
    rig.axle[AXLE_REAR].wheel = WHEEL_MULTI_PIECE;
    CHECK_STATUS(text_of(&job, &fault), STATUS_E_REFUSED);
    assert_int_equal(fault.refusal.code, REFUSAL_MULTI_PIECE);
    job = job_of("flatbed-cabin");
    rig.axle[AXLE_REAR].load_kg = 3100.0; /* 1550 kg a tyre, moulded for 1450 */
    rig.axle[AXLE_REAR].rating_kg = 0.0;
    CHECK_STATUS(text_of(&job, &fault), STATUS_E_REFUSED);
    assert_int_equal(fault.refusal.code, REFUSAL_OVERLOAD_TYRE);
}

static void a_trip_has_its_card(void **state)
{
    (void)state;
    static const char *const trips[][2] = {{"dune-crossing", "flatbed-cabin"},
                                           {"corrugated-spur", "touring-wagon"},
                                           {"high-pass", "touring-wagon"}};
    for (size_t i = 0; i < sizeof trips / sizeof trips[0]; i++) {
        struct card_job job = job_of(trips[i][1]);
        struct card_job_report fault = {.what = ""};
        fresh();
        CHECK_STATUS(trip_load(path_of("trips", trips[i][0]), &grounds, &ini, &trip, &diags),
                     STATUS_OK);
        job.trip = &trip;
        CHECK_STATUS(text_of(&job, &fault), STATUS_OK);
        assert_non_null(strstr(out, "TOTAL"));
        assert_non_null(strstr(out, "1 "));
    }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest jobs[] = {
        cmocka_unit_test(every_rig_has_a_card_of_every_size),
        cmocka_unit_test(small_cards_keep_four_grounds),
        cmocka_unit_test(grounds_are_checked),
        cmocka_unit_test(a_folded_sheet_has_two_load_states),
        cmocka_unit_test(side_two_is_a_grid),
        cmocka_unit_test(what_is_unsafe_gets_no_card),
        cmocka_unit_test(a_trip_has_its_card),
    };
    return check_run("card job", jobs, sizeof jobs / sizeof jobs[0], argc, argv);
}
