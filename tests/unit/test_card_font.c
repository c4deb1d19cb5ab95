/* test_card_font.c - the carried widths against the PDF library's own, and the character set. */
#include "support/check.h"

#include <hpdf.h>
#include <string.h>

#include "card/font.h"

static void widths_are_the_fonts_own(void **state)
{
    (void)state;
    static const char *const names[CARD_FONT_COUNT] = {"Helvetica", "Helvetica-Bold"};
    HPDF_Doc doc = HPDF_New(NULL, NULL);
    assert_non_null(doc);
    HPDF_Page page = HPDF_AddPage(doc);
    int compared = 0;
    for (int f = 0; f < CARD_FONT_COUNT; f++) {
        HPDF_Page_SetFontAndSize(page, HPDF_GetFont(doc, names[f], "WinAnsiEncoding"), 100);
        for (unsigned long code = 32; code < 0x2200; code++) {
            int byte = card_winansi(code);
            if (byte < 0) {
                continue;
            }
            char bytes[2] = {(char)byte, '\0'};
            char utf8[4] = {(char)code, '\0', '\0', '\0'};
            if (code >= 0x800) {
                utf8[0] = (char)(0xE0U | code >> 12);
                utf8[1] = (char)(0x80U | (code >> 6 & 0x3FU));
                utf8[2] = (char)(0x80U | (code & 0x3FU));
            } else if (code >= 0x80) {
                utf8[0] = (char)(0xC0U | code >> 6);
                utf8[1] = (char)(0x80U | (code & 0x3FU));
            }
            CHECK_CLOSE(card_text_width_pt((enum card_font)f, 100.0, utf8),
                        (double)HPDF_Page_TextWidth(page, bytes), 1e-4, 0,
                        "libharu 2.3.0, built-in Core 14 metrics");
            compared++;
        }
    }
    HPDF_Free(doc);
    assert_int_equal(compared, CARD_FONT_COUNT * (95 + 96 + 27)); /* PDF 32000-1 annex D.2 */
}

static void known_width(void **state)
{
    (void)state;
    CHECK_CLOSE(card_text_width_pt(CARD_REGULAR, 14.0, "38 psi"), 37.352, 5e-4, 0,
                "measured with libharu: Helvetica 14, \"38 psi\"");
}

static void characters_without_a_code_are_named(void **state)
{
    (void)state;
    char bytes[16];
    unsigned long missing = 0;
    assert_true(card_winansi_text("24 \xc2\xb0"
                                  "C \xe2\x82\xac",
                                  sizeof bytes, bytes, &missing));
    assert_string_equal(bytes, "24 \xb0"
                               "C \x80");
    assert_false(card_winansi_text("ok \xe7\xa0\x82", sizeof bytes, bytes, &missing));
    assert_int_equal(missing, 0x7802);
    assert_false(card_winansi_text("bad \xc3(", sizeof bytes, bytes, &missing));
    assert_int_equal(missing, 0xC3);
    assert_false(card_winansi_text("tab\t", sizeof bytes, bytes, &missing));
}

static void long_texts_are_shortened_visibly(void **state)
{
    (void)state;
    char buf[64];
    struct text t = text_over(buf, sizeof buf);
    card_text_fit(CARD_REGULAR, 10.0, 60.0, "a name much longer than its place", &t);
    assert_string_equal(buf + strlen(buf) - 3, "...");
    assert_true(card_text_width_pt(CARD_REGULAR, 10.0, buf) <= 60.0);
    text_clear(&t);
    card_text_fit(CARD_REGULAR, 10.0, 60.0, "short", &t);
    assert_string_equal(buf, "short");
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(widths_are_the_fonts_own),
        cmocka_unit_test(known_width),
        cmocka_unit_test(characters_without_a_code_are_named),
        cmocka_unit_test(long_texts_are_shortened_visibly),
    };
    return check_run("card font", tests, sizeof tests / sizeof tests[0], argc, argv);
}
