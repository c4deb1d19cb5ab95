/* test_manual.c - the generated parts of sandshoe(1) say what the tables say. UPDATE=1 (make
 * golden) writes them anew. */
#include "support/check.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "app/exit_status.h"
#include "app/options.h"
#include "base/text.h"
#include "tui/keymap.h"

#define PAGE SANDSHOE_SRCDIR "/man/sandshoe.1"

enum { PAGE_BYTES = 131072 };

static void exit_mdoc(struct text *out)
{
    text_put(out, ".Bl -tag -width Ds\n");
#define EXIT_ITEM(code, value, words) text_put(out, ".It %d\n%s.\n", value, words);
    EXIT_TABLE(EXIT_ITEM)
#undef EXIT_ITEM
    text_put(out, ".El\n");
}

static const struct part {
    const char *name;
    void (*put)(struct text *out);
} PARTS[] = {{"options", options_mdoc}, {"keys", keymap_put_mdoc}, {"exit", exit_mdoc}};

static void read_page(char page[PAGE_BYTES])
{
    FILE *f = fopen(PAGE, "r");
    assert_non_null(f);
    size_t n = fread(page, 1, PAGE_BYTES - 1, f);
    page[n] = '\0';
    fclose(f);
}

static void write_page(const char *text)
{
    FILE *f = fopen(PAGE, "w");
    assert_non_null(f);
    fputs(text, f);
    fclose(f);
}

/* The page with every part between "begin NAME" and "end NAME" generated anew. */
static void put_fresh(const char *page, struct text *out)
{
    const char *rest = page;
    for (size_t i = 0; i < sizeof PARTS / sizeof PARTS[0]; i++) {
        char mark[48];
        snprintf(mark, sizeof mark, ".\\\" begin %s:", PARTS[i].name);
        const char *begin = strstr(rest, mark);
        assert_non_null(begin);
        begin = strchr(begin, '\n') + 1;
        text_put(out, "%.*s", (int)(begin - rest), rest);
        PARTS[i].put(out);
        snprintf(mark, sizeof mark, ".\\\" end %s", PARTS[i].name);
        rest = strstr(begin, mark);
        assert_non_null(rest);
    }
    text_put(out, "%s", rest);
}

static void the_page_is_fresh(void **state)
{
    static char page[PAGE_BYTES], fresh[PAGE_BYTES];
    struct text t = text_over(fresh, sizeof fresh);
    (void)state;
    read_page(page);
    put_fresh(page, &t);
    assert_false(t.cut);
    if (getenv("UPDATE")) {
        write_page(fresh);
        return;
    }
    CHECK_TEXT(page, fresh);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {cmocka_unit_test(the_page_is_fresh)};
    return check_run("manual", tests, sizeof tests / sizeof tests[0], argc, argv);
}
