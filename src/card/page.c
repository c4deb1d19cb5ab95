#include "card/page.h"

#include <math.h>
#include <string.h>

#include "base/num.h"

void card_page_start(struct card_page *page, double width_pt, double height_pt)
{
    page->width_pt = width_pt;
    page->height_pt = height_pt;
    page->n_box = 0;
    page->cut = false;
}

static struct card_box *add_box(struct card_page *page, enum card_box_kind kind)
{
    if (page->n_box == CARD_BOXES) {
        page->cut = true;
        return NULL;
    }
    struct card_box *box = &page->box[page->n_box++];
    memset(box, 0, sizeof *box);
    box->kind = kind;
    return box;
}

void card_page_text(struct card_page *page, double x_pt, double baseline_pt, enum card_font font,
                    double size_pt, const char *key, const char *text)
{
    struct card_box *box = text[0] != '\0' ? add_box(page, CARD_BOX_TEXT) : NULL;
    if (!box) {
        return;
    }
    CARD_PUT_WORD(box->text, text);
    CARD_PUT_WORD(box->key, key);
    box->font = font;
    box->size_pt = size_pt;
    box->x_pt = x_pt;
    box->y_pt = baseline_pt - CARD_ASCENT_1 * size_pt;
    box->width_pt = card_text_width_pt(font, size_pt, box->text);
    box->height_pt = (CARD_ASCENT_1 + CARD_DESCENT_1) * size_pt;
}

void card_page_line(struct card_page *page, double x_pt, double y_pt, double dx_pt, double dy_pt,
                    double line_pt, bool dashed)
{
    struct card_box *box = add_box(page, CARD_BOX_LINE);
    if (box) {
        box->x_pt = x_pt;
        box->y_pt = y_pt;
        box->width_pt = dx_pt;
        box->height_pt = dy_pt;
        box->line_pt = line_pt;
        box->dashed = dashed;
    }
}

void card_page_frame(struct card_page *page, double x_pt, double y_pt, double width_pt,
                     double height_pt, double line_pt, bool dashed)
{
    struct card_box *box = add_box(page, CARD_BOX_FRAME);
    if (box) {
        box->x_pt = x_pt;
        box->y_pt = y_pt;
        box->width_pt = width_pt;
        box->height_pt = height_pt;
        box->line_pt = line_pt;
        box->dashed = dashed;
    }
}

/* ---- soundness ---- */

struct extent {
    double x0, y0, x1, y1;
};

static struct extent extent_of(const struct card_box *b)
{
    double half = b->kind == CARD_BOX_TEXT ? 0.0 : b->line_pt / 2.0;
    return (struct extent){
        .x0 = fmin(b->x_pt, b->x_pt + b->width_pt) - half,
        .y0 = fmin(b->y_pt, b->y_pt + b->height_pt) - half,
        .x1 = fmax(b->x_pt, b->x_pt + b->width_pt) + half,
        .y1 = fmax(b->y_pt, b->y_pt + b->height_pt) + half,
    };
}

static bool apart(struct extent a, struct extent b)
{
    return a.x1 <= b.x0 || b.x1 <= a.x0 || a.y1 <= b.y0 || b.y1 <= a.y0;
}

/* A text may stand inside a frame but not across its edge. */
static bool inside(struct extent in, struct extent out, double edge)
{
    return in.x0 >= out.x0 + edge && in.y0 >= out.y0 + edge && in.x1 <= out.x1 - edge &&
           in.y1 <= out.y1 - edge;
}

static bool clash(const struct card_box *text, const struct card_box *other)
{
    struct extent t = extent_of(text), o = extent_of(other);
    return !apart(t, o) && !(other->kind == CARD_BOX_FRAME && inside(t, o, other->line_pt));
}

static enum status fault(struct card_problem *problem, enum status st, const char *what,
                         const struct card_box *box)
{
    struct text t = text_over(problem->what, sizeof problem->what);
    text_put(&t, "%s: \"%s\" at %.1f, %.1f pt", what, box->text, box->x_pt, box->y_pt);
    problem->fits = -1;
    return st;
}

static enum status check_box(const struct card_page *page, const struct card_box *b,
                             struct card_problem *problem)
{
    const struct extent sheet = {0.0, 0.0, page->width_pt, page->height_pt};
    double v[] = {b->x_pt, b->y_pt, b->width_pt, b->height_pt, b->size_pt, b->line_pt};
    if (!num_all_finite(sizeof v / sizeof v[0], v)) {
        return fault(problem, STATUS_E_DOMAIN, "not a finite place", b);
    }
    if (!inside(extent_of(b), sheet, 0.0)) {
        return fault(problem, STATUS_E_DOMAIN, "outside the page", b);
    }
    if (b->kind != CARD_BOX_TEXT) {
        return b->line_pt > 0.0 ? STATUS_OK : fault(problem, STATUS_E_DOMAIN, "no line width", b);
    }
    if (b->size_pt < CARD_TEXT_MIN_PT - 1e-9) {
        return fault(problem, STATUS_E_DOMAIN, "text too small", b);
    }
    return card_check_characters(b->key, b->text, problem);
}

enum status card_page_check(const struct card_page *page, struct card_problem *problem)
{
    if (page->cut) {
        CARD_PUT_WORD(problem->what, "too much for one page");
        problem->fits = -1;
        return STATUS_E_FULL;
    }
    for (int i = 0; i < page->n_box; i++) {
        enum status st = check_box(page, &page->box[i], problem);
        if (st < 0) {
            return st;
        }
    }
    for (int i = 0; i < page->n_box; i++) {
        const struct card_box *text = &page->box[i];
        for (int k = 0; k < page->n_box && text->kind == CARD_BOX_TEXT; k++) {
            if (k != i && clash(text, &page->box[k])) {
                return fault(problem, STATUS_E_DOMAIN, "text over something else", text);
            }
        }
    }
    return STATUS_OK;
}

enum status card_check_characters(const char *key, const char *text, struct card_problem *problem)
{
    char bytes[CARD_LINE];
    unsigned long code = 0;
    if (card_winansi_text(text, sizeof bytes, bytes, &code)) {
        return STATUS_OK;
    }
    struct text t = text_over(problem->what, sizeof problem->what);
    text_put(&t, "%s: the character U+%04lX in \"%s\" is not in the card's fonts (WinAnsi)",
             key[0] != '\0' ? key : "card", code, text);
    problem->fits = -1;
    return STATUS_E_SYNTAX;
}

enum status card_too_many(const struct card_content *content, const char *size, int fits,
                          struct card_problem *problem)
{
    struct text t = text_over(problem->what, sizeof problem->what);
    problem->fits = fits;
    text_put(&t, "%d %s do not fit a %s card: %d fit", card_plain_rows(content),
             content->legs ? "legs" : "grounds", size, fits);
    return STATUS_E_FULL;
}

/* ---- whole pages ---- */

static void copy_boxes(const struct card_page *from, double down_pt, struct card_page *to)
{
    for (int i = 0; i < from->n_box; i++) {
        struct card_box *box = add_box(to, from->box[i].kind);
        if (box) {
            *box = from->box[i];
            box->y_pt += down_pt;
        }
    }
    to->cut = to->cut || from->cut;
}

void card_page_stack(const struct card_page *upper, const struct card_page *lower,
                     struct card_page *sheet)
{
    card_page_start(sheet, fmax(upper->width_pt, lower->width_pt),
                    upper->height_pt + lower->height_pt);
    copy_boxes(upper, 0.0, sheet);
    const double fold_pt = 0.6; /* thickness of the fold's dashes */
    card_page_line(sheet, 6.0, upper->height_pt, sheet->width_pt - 12.0, 0.0, fold_pt, true);
    copy_boxes(lower, upper->height_pt, sheet);
}

void card_page_dump(const struct card_page *page, struct text *out)
{
    static const char *const kinds[] = {"text", "line", "frame"};
    text_put(out, "page %.2f x %.2f pt\n", page->width_pt, page->height_pt);
    for (int i = 0; i < page->n_box; i++) {
        const struct card_box *b = &page->box[i];
        text_put(out, "%-5s %6.1f %6.1f %6.1f %6.1f", kinds[b->kind], b->x_pt, b->y_pt, b->width_pt,
                 b->height_pt);
        if (b->kind == CARD_BOX_TEXT) {
            text_put(out, "  %s %4.1f  %s\n", b->font == CARD_BOLD ? "bold" : "text", b->size_pt,
                     b->text);
        } else {
            text_put(out, "  %.1f%s\n", b->line_pt, b->dashed ? " dashed" : "");
        }
    }
}
