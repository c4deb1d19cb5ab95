/* draw_pdf.c - the only file that knows the PDF library. */
#include "card/draw_pdf.h"

#include <hpdf.h>

struct drawing {
    HPDF_Doc doc;
    HPDF_Font font[CARD_FONT_COUNT];
};

/* Strings are bytes in the font's encoding, so the text is converted first; card_page_check has
 * proved that every character has a code. The library keeps its first error: it is asked once,
 * before saving, so single calls need no test. */
static void draw_text(const struct drawing *d, HPDF_Page page, double height_pt,
                      const struct card_box *box)
{
    char bytes[CARD_BOX_TEXT_MAX];
    unsigned long missing = 0;
    if (!card_winansi_text(box->text, sizeof bytes, bytes, &missing)) {
        return;
    }
    double base_pt = box->y_pt + CARD_ASCENT_1 * box->size_pt;
    HPDF_Page_BeginText(page);
    HPDF_Page_SetFontAndSize(page, d->font[box->font], (HPDF_REAL)box->size_pt);
    HPDF_Page_TextOut(page, (HPDF_REAL)box->x_pt, (HPDF_REAL)(height_pt - base_pt), bytes);
    HPDF_Page_EndText(page);
}

static void draw_stroke(HPDF_Page page, double height_pt, const struct card_box *box)
{
    static const HPDF_UINT16 dash[] = {2, 2};
    HPDF_REAL x = (HPDF_REAL)box->x_pt, y = (HPDF_REAL)(height_pt - box->y_pt);
    HPDF_REAL w = (HPDF_REAL)box->width_pt, h = (HPDF_REAL)box->height_pt;
    HPDF_Page_SetLineWidth(page, (HPDF_REAL)box->line_pt);
    HPDF_Page_SetDash(page, box->dashed ? dash : NULL, box->dashed ? 2 : 0, 0);
    if (box->kind == CARD_BOX_FRAME) {
        HPDF_Page_Rectangle(page, x, y - h, w, h);
    } else {
        HPDF_Page_MoveTo(page, x, y);
        HPDF_Page_LineTo(page, x + w, y - h);
    }
    HPDF_Page_Stroke(page);
}

static void draw_page(const struct drawing *d, const struct card_page *from)
{
    HPDF_Page page = HPDF_AddPage(d->doc);
    HPDF_Page_SetWidth(page, (HPDF_REAL)from->width_pt);
    HPDF_Page_SetHeight(page, (HPDF_REAL)from->height_pt);
    for (int i = 0; i < from->n_box; i++) {
        const struct card_box *box = &from->box[i];
        if (box->kind == CARD_BOX_TEXT) {
            draw_text(d, page, from->height_pt, box);
        } else {
            draw_stroke(page, from->height_pt, box);
        }
    }
}

static enum status library_fault(HPDF_STATUS code, struct card_problem *problem)
{
    struct text t = text_over(problem->what, sizeof problem->what);
    text_put(&t, "the PDF library reports error 0x%04lX", (unsigned long)code);
    problem->fits = -1;
    return STATUS_E_SYSTEM;
}

static enum status take_bytes(HPDF_Doc doc, size_t cap, unsigned char bytes[], size_t *n_byte,
                              struct card_problem *problem)
{
    HPDF_STATUS code = HPDF_GetError(doc);
    code = code != HPDF_OK ? code : HPDF_SaveToStream(doc);
    HPDF_UINT32 n = code == HPDF_OK ? HPDF_GetStreamSize(doc) : 0;
    if (code != HPDF_OK || n == 0) {
        return library_fault(code, problem);
    }
    if (n > cap) {
        CARD_PUT_WORD(problem->what, "the card is larger than the room kept for it");
        problem->fits = -1;
        return STATUS_E_FULL;
    }
    HPDF_ResetStream(doc);
    code = HPDF_ReadFromStream(doc, bytes, &n);
    if (code != HPDF_OK) {
        return library_fault(code, problem);
    }
    *n_byte = n;
    return STATUS_OK;
}

enum status card_pdf(int n_page, const struct card_page page[], size_t cap, unsigned char bytes[],
                     size_t *n_byte, struct card_problem *problem)
{
    for (int i = 0; i < n_page; i++) {
        enum status st = card_page_check(&page[i], problem);
        if (st < 0) {
            return st;
        }
    }
    struct drawing d = {.doc = HPDF_New(NULL, NULL)};
    if (!d.doc) {
        CARD_PUT_WORD(problem->what, "out of memory");
        problem->fits = -1;
        return STATUS_E_MEMORY;
    }
    d.font[CARD_REGULAR] = HPDF_GetFont(d.doc, "Helvetica", "WinAnsiEncoding");
    d.font[CARD_BOLD] = HPDF_GetFont(d.doc, "Helvetica-Bold", "WinAnsiEncoding");
    for (int i = 0; i < n_page; i++) {
        draw_page(&d, &page[i]);
    }
    enum status st = take_bytes(d.doc, cap, bytes, n_byte, problem);
    HPDF_Free(d.doc);
    return st;
}
