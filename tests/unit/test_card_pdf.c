/* test_card_pdf.c - the PDF: the same bytes twice, black only, the exact page, no drawing of
 * faults. The library writes its content streams plain, so they can be read here. */
#include "support/check.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "card/draw_pdf.h"
#include "card/layout.h"
#include "support/card_demo.h"

static struct card_content content;
static struct card_page pages[2];
static unsigned char first[CARD_PDF_MAX + 1], again[CARD_PDF_MAX];

static size_t draw(enum card_size size, unsigned char *to)
{
    struct card_problem problem = {.what = ""};
    size_t n = 0;
    CHECK_STATUS(card_layout(&content, size, &pages[0], &problem), STATUS_OK);
    CHECK_STATUS(card_layout_log(&content, size, &pages[1], &problem), STATUS_OK);
    CHECK_STATUS(card_pdf(2, pages, CARD_PDF_MAX, to, &n, &problem), STATUS_OK);
    return n;
}

static void the_same_bytes_twice(void **state)
{
    (void)state;
    card_demo(&content, UNITS_PSI, 6, true);
    size_t n = draw(CARD_QUARTER, first);
    assert_int_equal(draw(CARD_QUARTER, again), n);
    assert_memory_equal(first, again, n);
    assert_memory_equal(first, "%PDF-", 5);
}

/* Every operator of every content stream is one of these: no colour, no fill of a shape. */
static bool operator_allowed(const char *word)
{
    static const char *const allowed[] = {"BT", "ET", "Tf", "Td", "Tm", "Tj", "TL", "T*",
                                          "re", "m",  "l",  "S",  "w",  "d",  "q",  "Q"};
    for (size_t i = 0; i < sizeof allowed / sizeof allowed[0]; i++) {
        if (strcmp(word, allowed[i]) == 0) {
            return true;
        }
    }
    return false;
}

/* Walk one content stream: skip strings, names, numbers and arrays; test what is left. */
static int check_stream(const char *s, const char *end)
{
    int operators = 0;
    while (s < end) {
        if (*s == '(') {
            while (s < end && *s != ')') {
                s += *s == '\\' ? 2 : 1;
            }
        }
        size_t n = strspn(s, "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz*");
        if (*s == '/') {
            s += strcspn(s, " \r\n");
        } else if (n > 0) {
            char word[16];
            struct text t = text_over(word, sizeof word);
            text_put(&t, "%.*s", (int)n, s);
            if (!operator_allowed(word)) {
                fail_msg("operator %s in the page", word);
            }
            operators++;
            s += n;
        } else {
            s++;
        }
    }
    return operators;
}

static void black_only(void **state)
{
    (void)state;
    card_demo(&content, UNITS_PSI, 6, true);
    size_t n = draw(CARD_QUARTER, first);
    int streams = 0, operators = 0;
    for (size_t i = 0; i + 8 < n; i++) {
        if (memcmp(first + i, "stream\r\n", 8) == 0 && (i < 3 || memcmp(first + i - 3, "end", 3))) {
            const char *from = (const char *)first + i + 8;
            size_t k = i;
            while (k + 9 < n && memcmp(first + k, "endstream", 9) != 0) {
                k++;
            }
            operators += check_stream(from, (const char *)first + k);
            streams++;
            i = k;
        }
    }
    assert_int_equal(streams, 2);
    assert_true(operators > 200);
}

static bool holds(const char *word, size_t n)
{
    size_t w = strlen(word);
    for (size_t i = 0; i + w <= n; i++) {
        if (memcmp(first + i, word, w) == 0) {
            return true;
        }
    }
    return false;
}

static void the_page_is_exact(void **state)
{
    (void)state;
    card_demo(&content, UNITS_PSI, 4, false);
    size_t n = draw(CARD_3X5, first);
    assert_true(holds("/MediaBox [ 0 0 360 216 ]", n));
    assert_true(holds("(CABIN ON, WATER FULL)", n));
    assert_false(holds("CreationDate", n));
}

static void faults_are_not_drawn(void **state)
{
    (void)state;
    struct card_problem problem = {.what = ""};
    size_t n = 77;
    card_page_start(&pages[0], 360.0, 216.0);
    card_page_text(&pages[0], 20.0, 50.0, CARD_BOLD, 10.0, "[rig] name", "sand \xe7\xa0\x82");
    CHECK_STATUS(card_pdf(1, pages, CARD_PDF_MAX, first, &n, &problem), STATUS_E_SYNTAX);
    assert_non_null(strstr(problem.what, "[rig] name"));
    assert_non_null(strstr(problem.what, "U+7802"));
    card_page_start(&pages[0], 360.0, 216.0);
    card_page_line(&pages[0], 10.0, (double)INFINITY, 10.0, 0.0, 1.0, false);
    CHECK_STATUS(card_pdf(1, pages, CARD_PDF_MAX, first, &n, &problem), STATUS_E_DOMAIN);
    card_demo(&content, UNITS_PSI, 4, false);
    CHECK_STATUS(card_layout(&content, CARD_3X5, &pages[0], &problem), STATUS_OK);
    CHECK_STATUS(card_pdf(1, pages, 100, first, &n, &problem), STATUS_E_FULL);
    assert_int_equal(n, 77);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(the_same_bytes_twice),
        cmocka_unit_test(black_only),
        cmocka_unit_test(the_page_is_exact),
        cmocka_unit_test(faults_are_not_drawn),
    };
    return check_run("card pdf", tests, sizeof tests / sizeof tests[0], argc, argv);
}
