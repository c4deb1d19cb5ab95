/* plan.c - the two drawings of a card: the corner plan and the log grid of side 2. */
#include <math.h>

#include "base/text.h"
#include "card/layout.h"

/* ---- corner plan: the truck from above, FRONT at the top, left on the left ---- */

struct plan {
    const struct card_content *content;
    struct card_page *page;
    double x_pt, y_pt, width_pt; /* of the drawing, without legend */
    double row_pt;               /* height of one axle */
    double pt_per_m;             /* scale of the patches; 0 = plain tyres */
};

static const double LABEL_PT = 33.0; /* width kept for "1175 kg" at 7 pt on either side */

static int axle_rows(const struct card_content *c)
{
    int n = 0;
    for (int i = 0; i < c->n_corner; i++) {
        n += i == 0 || c->corner[i].axle != c->corner[i - 1].axle;
    }
    return n;
}

static void longest_patch(const struct card_content *c, double *length_m, double *width_m)
{
    *length_m = 0.0;
    *width_m = 0.0;
    for (int i = 0; i < c->n_corner; i++) {
        const struct card_corner *k = &c->corner[i];
        *length_m = fmax(*length_m, fmax(k->road_length_m, k->soft_length_m));
        *width_m = fmax(*width_m, fmax(k->road_width_m, k->soft_width_m));
    }
}

/* The largest scale at which the patches of every axle fit their row and half of the width. */
static double patch_scale(const struct plan *p)
{
    double length_m = 0.0, width_m = 0.0;
    longest_patch(p->content, &length_m, &width_m);
    if (length_m <= 0.0 || width_m <= 0.0) {
        return 0.0;
    }
    double across_pt = (p->width_pt - 2.0 * LABEL_PT) / 2.0 - 3.0;
    return fmin((p->row_pt - 4.0) / length_m, across_pt / width_m);
}

static void put_patch(const struct plan *p, double x_pt, double y_pt, double length_m,
                      double width_m, double line_pt, bool dashed)
{
    double w = width_m * p->pt_per_m, h = length_m * p->pt_per_m;
    card_page_frame(p->page, x_pt - w / 2.0, y_pt - h / 2.0, w, h, line_pt, dashed);
}

/* A plain tyre from above: its length, pt; it is half as wide. */
static double tyre_length(const struct plan *p)
{
    return fmin(18.0, p->row_pt - 4.0);
}

/* One corner: its patches, or a plain tyre, and its name over its load on the outer side. */
static void put_corner(const struct plan *p, const struct card_corner *k, double y_pt)
{
    const double size_pt = CARD_TEXT_MIN_PT;
    bool left = k->side == SIDE_LEFT;
    double inner_pt = (p->width_pt - 2.0 * LABEL_PT) / 4.0;
    double x_pt =
        left ? p->x_pt + LABEL_PT + inner_pt : p->x_pt + p->width_pt - LABEL_PT - inner_pt;
    if (p->pt_per_m > 0.0) {
        put_patch(p, x_pt, y_pt, k->soft_length_m, k->soft_width_m, 0.7, true);
        put_patch(p, x_pt, y_pt, k->road_length_m, k->road_width_m, 1.2, false);
    } else {
        double h = tyre_length(p);
        card_page_frame(p->page, x_pt - h / 4.0, y_pt - h / 2.0, h / 2.0, h, 1.2, false);
    }
    double name_pt = card_text_width_pt(CARD_BOLD, size_pt, k->name);
    double load_pt = card_text_width_pt(CARD_REGULAR, size_pt, k->load);
    double edge_pt = p->x_pt + p->width_pt;
    card_page_text(p->page, left ? p->x_pt : edge_pt - name_pt, y_pt - 1.5, CARD_BOLD, size_pt, "",
                   k->name);
    card_page_text(p->page, left ? p->x_pt : edge_pt - load_pt, y_pt + size_pt, CARD_REGULAR,
                   size_pt, "", k->load);
}

/* Half of what a corner's drawing is wide. */
static double corner_half(const struct plan *p, const struct card_corner *k)
{
    double widest_m = fmax(k->road_width_m, k->soft_width_m);
    return p->pt_per_m > 0.0 ? widest_m * p->pt_per_m / 2.0 : tyre_length(p) / 4.0;
}

/* The axles between the tyres, and the frame from axle to axle; a drawbar is dashed. */
static void put_frame(const struct plan *p)
{
    const struct card_corner *k = p->content->corner;
    double inner_pt = (p->width_pt - 2.0 * LABEL_PT) / 4.0, centre_pt = p->x_pt + p->width_pt / 2.0;
    double y_pt = p->y_pt + p->row_pt / 2.0;
    for (int i = 0; i < p->content->n_corner; i++) {
        if (k[i].side == SIDE_LEFT) {
            double half_pt = inner_pt - corner_half(p, &k[i]);
            card_page_line(p->page, centre_pt - half_pt, y_pt, 2.0 * half_pt, 0.0, 1.0, false);
            continue;
        }
        if (i + 1 < p->content->n_corner) {
            card_page_line(p->page, centre_pt, y_pt, 0.0, p->row_pt, 1.0,
                           axle_is_trailer(k[i + 1].axle));
        }
        y_pt += p->row_pt;
    }
}

/* FRONT with an arrow up, in the middle over the axles. */
static void put_front(const struct plan *p, double y_pt)
{
    const double size_pt = CARD_TEXT_MIN_PT;
    double word_pt = card_text_width_pt(CARD_BOLD, size_pt, "FRONT");
    double x_pt = p->x_pt + (p->width_pt - word_pt) / 2.0;
    card_page_text(p->page, x_pt, y_pt + size_pt, CARD_BOLD, size_pt, "", "FRONT");
    double arrow_pt = x_pt - 8.0, top_pt = y_pt + 1.5;
    card_page_line(p->page, arrow_pt, top_pt, 0.0, size_pt, 1.0, false);
    card_page_line(p->page, arrow_pt, top_pt, -2.5, 3.0, 1.0, false);
    card_page_line(p->page, arrow_pt, top_pt, 2.5, 3.0, 1.0, false);
}

/* What the outlines mean, and their scale as a bar of 100 mm. */
static void put_legend(const struct plan *p, double y_pt)
{
    const double size_pt = CARD_TEXT_MIN_PT;
    char words[CARD_BOX_TEXT_MAX], fitted[CARD_BOX_TEXT_MAX];
    struct text t = text_over(words, sizeof words), f = text_over(fitted, sizeof fitted);
    double bar_pt = 0.1 * p->pt_per_m;
    text_put(&t, "100 mm, road; dashed: %s", p->content->softest);
    card_text_fit(CARD_REGULAR, size_pt, p->width_pt - bar_pt - 4.0, words, &f);
    card_page_line(p->page, p->x_pt, y_pt + size_pt / 2.0, bar_pt, 0.0, 1.2, false);
    card_page_text(p->page, p->x_pt + bar_pt + 4.0, y_pt + size_pt * 0.8, CARD_REGULAR, size_pt, "",
                   fitted);
}

bool card_layout_plan(const struct card_content *content, bool outlines, double x_pt, double y_pt,
                      double width_pt, double height_pt, struct card_page *page)
{
    const double front_pt = 11.0, legend_pt = outlines ? 10.0 : 0.0;
    const double least_row_pt = 18.0; /* two lines of 7 pt and a gap */
    int rows = axle_rows(content);
    struct plan p = {.content = content, .page = page, .x_pt = x_pt, .width_pt = width_pt};
    p.y_pt = y_pt + front_pt;
    p.row_pt = fmin((height_pt - front_pt - legend_pt) / rows, 44.0);
    if (p.row_pt < least_row_pt) {
        return false;
    }
    p.pt_per_m = outlines ? patch_scale(&p) : 0.0;
    put_front(&p, y_pt);
    put_frame(&p);
    int row = -1;
    for (int i = 0; i < content->n_corner; i++) {
        row += i == 0 || content->corner[i].axle != content->corner[i - 1].axle;
        put_corner(&p, &content->corner[i], p.y_pt + (row + 0.5) * p.row_pt);
    }
    if (p.pt_per_m > 0.0) {
        put_legend(&p, p.y_pt + rows * p.row_pt + 1.0);
    }
    return true;
}

/* ---- log grid ---- */

struct grid {
    struct card_page *page;
    double top_pt, bottom_pt, left_pt, right_pt, row_pt;
    double corner_left_pt, corner_pt; /* first corner column and its width */
    double initials_pt;               /* width */
};

static void centre(struct card_page *page, double x_pt, double width_pt, double base_pt,
                   enum card_font font, const char *text)
{
    double w = card_text_width_pt(font, CARD_TEXT_MIN_PT, text);
    card_page_text(page, x_pt + (width_pt - w) / 2.0, base_pt, font, CARD_TEXT_MIN_PT, "", text);
}

static void put_grid_head(const struct grid *g, const struct card_content *c)
{
    double base_pt = g->top_pt + 9.0;
    card_page_text(g->page, g->left_pt + 2.0, base_pt, CARD_BOLD, CARD_TEXT_MIN_PT, "",
                   "DATE, PLACE");
    for (int i = 0; i < c->n_corner; i++) {
        centre(g->page, g->corner_left_pt + i * g->corner_pt, g->corner_pt, base_pt, CARD_BOLD,
               c->corner[i].name);
    }
    centre(g->page, g->right_pt - g->initials_pt, g->initials_pt, base_pt, CARD_BOLD, "BY");
}

static void put_grid_rows(const struct grid *g, double when_pt)
{
    double y_pt = g->top_pt + 12.0;
    for (int i = 0; y_pt + 2.0 * g->row_pt <= g->bottom_pt + 1e-6; i++) {
        card_page_line(g->page, g->left_pt, y_pt, g->right_pt - g->left_pt, 0.0, 1.2, false);
        double x_pt = g->corner_left_pt - when_pt;
        card_page_line(g->page, x_pt, y_pt + g->row_pt, g->right_pt - g->initials_pt - x_pt, 0.0,
                       0.5, false);
        centre(g->page, x_pt, when_pt, y_pt + 0.65 * g->row_pt, CARD_REGULAR, "before");
        centre(g->page, x_pt, when_pt, y_pt + 1.65 * g->row_pt, CARD_REGULAR, "after");
        y_pt += 2.0 * g->row_pt;
    }
}

static void put_grid_columns(const struct grid *g, int n_corner, double when_pt, double end_pt)
{
    double x_pt = g->corner_left_pt - when_pt;
    card_page_line(g->page, x_pt, g->top_pt, 0.0, end_pt - g->top_pt, 0.5, false);
    for (int i = 0; i <= n_corner; i++) {
        x_pt = g->corner_left_pt + i * g->corner_pt;
        card_page_line(g->page, x_pt, g->top_pt, 0.0, end_pt - g->top_pt, 0.5, false);
    }
    card_page_frame(g->page, g->left_pt, g->top_pt, g->right_pt - g->left_pt, end_pt - g->top_pt,
                    1.2, false);
}

static void put_grid_title(const struct card_content *c, const struct grid *g)
{
    const double size_pt = 9.0;
    char words[2 * CARD_TITLE + 16], fitted[CARD_BOX_TEXT_MAX];
    struct text t = text_over(words, sizeof words), f = text_over(fitted, sizeof fitted);
    text_put(&t, "%s, %s", c->heading, c->subject);
    card_text_fit(CARD_BOLD, size_pt, g->right_pt - g->left_pt, words, &f);
    card_page_text(g->page, g->left_pt, g->top_pt - 5.0, CARD_BOLD, size_pt, c->heading_key,
                   fitted);
}

enum status card_layout_log(const struct card_content *content, enum card_size size,
                            struct card_page *page, struct card_problem *problem)
{
    const double when_pt = 28.0;  /* "before" at 7 pt with room */
    const double place_pt = 66.0; /* a date and a short place by hand [practice] */
    const struct card_format *f = card_format_of(size);
    if (content->n_corner < 1) {
        return STATUS_E_DOMAIN;
    }
    enum status st = card_check_characters(content->heading_key, content->heading, problem);
    st = st < 0 ? st : card_check_characters(content->subject_key, content->subject, problem);
    if (st < 0) {
        return st;
    }
    card_page_start(page, f->width_pt, f->height_pt);
    struct grid g = {.page = page,
                     .top_pt = CARD_MARGIN_PT + 14.0,
                     .bottom_pt = f->height_pt - CARD_MARGIN_PT,
                     .left_pt = CARD_MARGIN_PT,
                     .right_pt = f->width_pt - CARD_MARGIN_PT,
                     .initials_pt = 24.0};
    g.corner_left_pt = g.left_pt + place_pt + when_pt;
    g.corner_pt = (g.right_pt - g.initials_pt - g.corner_left_pt) / content->n_corner;
    double room_pt = g.bottom_pt - g.top_pt - 12.0;
    int pairs = (int)(room_pt / 32.0); /* 16 pt a reading: room for a pencil [practice] */
    g.row_pt = room_pt / (2.0 * pairs);
    put_grid_title(content, &g);
    put_grid_head(&g, content);
    put_grid_rows(&g, when_pt);
    put_grid_columns(&g, content->n_corner, when_pt, g.bottom_pt);
    return card_page_check(page, problem);
}
