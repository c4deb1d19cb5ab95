/* test_profile_doc.c - the manual page and the templates say what the table of keys says.
 * UPDATE=1 (make golden) writes the generated parts of the page anew. */
#include "support/check.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <unistd.h>

#include "base/text.h"
#include "core/refill_log.h"
#include "profile/profile.h"
#include "profile/schema_doc.h"
#include "profile/value.h"

#define PAGE SANDSHOE_SRCDIR "/man/sandshoe-profile.5"

enum { PAGE_BYTES = 65536 };

static char page[PAGE_BYTES];
static char fresh[PAGE_BYTES];

static void read_page(void)
{
    FILE *f = fopen(PAGE, "r");
    assert_non_null(f);
    size_t n = fread(page, 1, sizeof page - 1, f);
    page[n] = '\0';
    fclose(f);
}

/* Copy the page with every part between "begin KIND" and "end KIND" generated anew. */
static void write_fresh(struct text *out)
{
    const char *rest = page;
    for (int k = 0; k < PROFILE_KINDS; k++) {
        char mark[32];
        snprintf(mark, sizeof mark, ".\\\" begin %s", profile_kind_name((enum profile_kind)k));
        const char *begin = strstr(rest, mark);
        assert_non_null(begin);
        begin = strchr(begin, '\n') + 1;
        text_put(out, "%.*s", (int)(begin - rest), rest);
        schema_put_mdoc((enum profile_kind)k, out);
        snprintf(mark, sizeof mark, ".\\\" end %s", profile_kind_name((enum profile_kind)k));
        rest = strstr(begin, mark);
        assert_non_null(rest);
    }
    text_put(out, "%s", rest);
}

static void the_page_is_fresh(void **state)
{
    (void)state;
    struct text t = text_over(fresh, sizeof fresh);
    read_page();
    write_fresh(&t);
    assert_false(t.cut);
    if (getenv("UPDATE")) {
        FILE *f = fopen(PAGE, "w");
        assert_non_null(f);
        fputs(fresh, f);
        fclose(f);
        return;
    }
    CHECK_TEXT(page, fresh);
}

static void every_row_reads_its_own_words(void **state)
{
    (void)state;
    size_t n = 0;
    const struct schema_row *rows = schema_rows(&n);
    for (size_t i = 0; i < n; i++) {
        char buf[256];
        struct text why = text_over(buf, sizeof buf);
        struct value v;
        double lo = 0;
        double hi = 0;
        CHECK_STATUS(value_read(&rows[i], rows[i].example, &v, &why), STATUS_OK);
        assert_true((rows[i].need == NEED_DEFAULT) == (rows[i].standard != NULL));
        if (rows[i].standard) {
            CHECK_STATUS(value_read(&rows[i], rows[i].standard, &v, &why), STATUS_OK);
        }
        if (rows[i].min) {
            CHECK_STATUS(units_parse(rows[i].min, rows[i].q, &lo), STATUS_OK);
            CHECK_STATUS(units_parse(rows[i].max, rows[i].q, &hi), STATUS_OK);
            assert_true(lo < hi);
        }
        assert_string_equal(buf, "");
    }
}

/* A template as a file, read back. */
static const char *template_file(enum profile_kind kind)
{
    static char path[] = "/tmp/sandshoe-template-XXXXXX";
    struct text t = text_over(fresh, sizeof fresh);
    memcpy(path + sizeof path - 7, "XXXXXX", 6);
    int fd = mkstemp(path);
    assert_true(fd >= 0);
    schema_put_template(kind, &t);
    assert_false(t.cut);
    assert_int_equal(write(fd, fresh, t.len), t.len);
    close(fd);
    return path;
}

static void templates_load_as_they_stand(void **state)
{
    (void)state;
    static struct ini ini;
    static struct ground_list grounds;
    struct diag_list diags = {.n = 0};
    struct rig rig;
    struct compressor c;
    struct trip trip;
    for (int k = 0; k < PROFILE_KINDS; k++) {
        const char *path = template_file((enum profile_kind)k);
        ini.n = ini.n_file = 0;
        enum status s = profile_read(path, &ini, &diags);
        unlink(path);
        CHECK_STATUS(s, STATUS_OK);
        assert_int_equal(profile_guess(&ini), k);
        switch ((enum profile_kind)k) {
        case PROFILE_RIG:
            s = rig_from_ini(&ini, NULL, &rig, &diags);
            break;
        case PROFILE_GROUNDS:
            s = grounds_from_ini(&ini, &grounds, &diags);
            break;
        case PROFILE_COMPRESSOR:
            s = compressor_from_ini(&ini, &c, &diags);
            break;
        case PROFILE_TRIP:
        case PROFILE_KINDS:
            s = trip_from_ini(&ini, NULL, &trip, &diags);
            break;
        }
        CHECK_STATUS(s, STATUS_OK);
        assert_int_equal(diags.n, 0);
    }
}

/* The example profile of the page is a profile. */
static void the_page_shows_a_rig_that_loads(void **state)
{
    (void)state;
    static struct ini ini;
    struct diag_list diags = {.n = 0};
    struct rig rig;
    read_page();
    const char *begin = strstr(page, "[rig]\nname ");
    assert_non_null(begin);
    const char *end = strstr(begin, "\n.Ed");
    assert_non_null(end);
    CHECK_STATUS(ini_scan(begin, (size_t)(end - begin) + 1, "page", &ini, &diags), STATUS_OK);
    CHECK_STATUS(rig_from_ini(&ini, NULL, &rig, &diags), STATUS_OK);
}

/* The example log of the page is a log. */
static void the_page_shows_a_log_that_reads(void **state)
{
    (void)state;
    read_page();
    char *line = strstr(page, REFILL_LOG_HEAD);
    assert_non_null(line);
    int events = 0;
    for (line = strtok(line, "\n"); strcmp(line, ".Ed") != 0; line = strtok(NULL, "\n")) {
        struct log_event e;
        char buf[256];
        struct text why = text_over(buf, sizeof buf);
        enum status s = refill_log_parse(line, &e, &why);
        assert_true(s == STATUS_OK || (s == STATUS_E_MISSING && line[0] == '#'));
        events += s == STATUS_OK;
    }
    assert_int_equal(events, 12);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_page_is_fresh),
        cmocka_unit_test(every_row_reads_its_own_words),
        cmocka_unit_test(the_page_shows_a_rig_that_loads),
        cmocka_unit_test(the_page_shows_a_log_that_reads),
        cmocka_unit_test(templates_load_as_they_stand),
    };
    return check_run("profile_doc", tests, sizeof tests / sizeof tests[0], argc, argv);
}
