#include "tui/screen_footprint.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/target.h"
#include "tui/chrome.h"
#include "tui/model.h"
#include "tui/patch_draw.h"
#include "tui/widget.h"

static void patch_facts(const struct model *m, struct frame *f, int row, int col, int cols,
                        const struct corner_state *c, const char *name)
{
    char p[32], mean[32], line[96];
    enum unit_system u = model_units(m);
    snprintf(line, sizeof line, "%s %s", name, cold_text(m, p, c->p_gauge_pa));
    frame_put_centred(f, row, col, cols, STYLE_TITLE, line);
    snprintf(line, sizeof line, "%.0f x %.0f mm", 1000 * c->patch.length_m,
             1000 * c->patch.width_m);
    frame_put_centred(f, row + 1, col, cols, STYLE_VALUE, line);
    snprintf(line, sizeof line, "%.0f cm2", 1e4 * c->patch.area_m2);
    frame_put_centred(f, row + 2, col, cols, STYLE_LABEL, line);
    snprintf(line, sizeof line, "mean %s", pressure_text(mean, c->patch.mean_pa, u));
    frame_put_centred(f, row + 3, col, cols, STYLE_LABEL, line);
}

/* left half: the road patch and the target patch side by side */
static void patches_put(const struct model *m, struct frame *f, struct rect r)
{
    const struct corner_advice *c = &m->results.advice.axle[m->axle].corner[m->side];
    int rows = r.rows - 5, half = r.cols / 2;
    double row_m = patch_scale(fmax(c->at.patch.length_m, c->road.patch.length_m),
                               fmax(c->at.patch.width_m, c->road.patch.width_m), rows, half - 2);
    char area[32], length[32], name[32], line[96];
    patch_put(f, (struct rect){r.row, r.col, rows, half}, row_m, &c->road.patch, &c->road.patch);
    patch_put(f, (struct rect){r.row, r.col + half, rows, half}, row_m, &c->road.patch,
              &c->at.patch);
    patch_facts(m, f, r.row + rows, r.col, half, &c->road, "road");
    patch_facts(m, f, r.row + rows, r.col + half, half, &c->at,
                m->results.advice.axle[m->axle].at_gauge_pa.is ? "yours" : "target");
    snprintf(line, sizeof line, "area %s  length %s",
             band_text(area, c->area_growth_low_1, c->area_growth_high_1),
             band_text(length, c->length_growth_low_1, c->length_growth_high_1));
    frame_put_centred(f, r.row + rows + 4, r.col, r.cols, STYLE_VALUE, line);
    int col = frame_put(f, r.row - 1, r.col, STYLE_CHOSEN, corner_words(name, m->axle, m->side));
    frame_printf(f, r.row - 1, col + 2, STYLE_LABEL, "1 row = %.0f mm", 1000 * row_m);
}

/* A level on the side view, as a share of section height from the unloaded tread up. */
struct level {
    double at_1;
    const char *name;
    enum style style;
    const char *line; /* what it is drawn with */
};

enum { LEVELS = 5 };

static int levels_of(const struct model *m, struct level out[LEVELS])
{
    const struct advice *a = &m->results.advice;
    const struct corner_advice *c = &a->axle[m->axle].corner[m->side];
    double aim = a->ground.aim_1 * (axle_is_trailer(m->axle) ? TARGET_TRAILER_1 : 1);
    int n = 0;
    out[n++] = (struct level){a->ground.limit_1, "limit", STYLE_MARK, "·"};
    if (!a->ground.road)
        out[n++] = (struct level){aim, "aim", STYLE_MARK, "·"};
    out[n++] = (struct level){c->at.deflection_1, "now", STYLE_VALUE, "█"};
    out[n++] = (struct level){c->road.deflection_1, "road", STYLE_LABEL, "─"};
    out[n++] = (struct level){0, "free", STYLE_LABEL, "─"};
    return n;
}

/* the row of a level, below the labels already placed */
static int level_row(const struct rect *r, double at_1, int least)
{
    int row = (int)lround((1 - at_1 / DEFLECTION_RIM_1) * (r->rows - 1));
    return row < least ? least : row;
}

static int by_height(const struct level *a, const struct level *b)
{
    return a->at_1 > b->at_1 ? -1 : a->at_1 < b->at_1;
}

static void sort_levels(struct level l[], int n)
{
    for (int i = 1; i < n; i++)
        for (int k = i; k > 0 && by_height(&l[k - 1], &l[k]) > 0; k--) {
            struct level t = l[k];
            l[k] = l[k - 1];
            l[k - 1] = t;
        }
}

/* Right half: the section from the rim down to the unloaded tread. What is pressed flat is below
 * the thick line. */
static void section_put(const struct model *m, struct frame *f, struct rect r)
{
    const struct axle_advice *a = &m->results.advice.axle[m->axle];
    struct level levels[LEVELS];
    int n = levels_of(m, levels), wall = 8, next = 1;
    sort_levels(levels, n);
    frame_printf(f, r.row, r.col, STYLE_TITLE, "section, %.0f mm high, to scale",
                 1000 * a->section_height_m);
    r.row++;
    r.rows--;
    frame_fill(f, (struct rect){r.row, r.col, 1, wall}, STYLE_PATCH, "█");
    frame_put(f, r.row, r.col + wall + 1, STYLE_LABEL, "rim reached, near 50 %");
    for (int row = 1; row < r.rows; row++) {
        frame_put(f, r.row + row, r.col, STYLE_FRAME, "│");
        frame_put(f, r.row + row, r.col + wall - 1, STYLE_FRAME, "│");
    }
    for (int i = 0; i < n; i++) {
        int row = level_row(&r, levels[i].at_1, next);
        next = row + 1;
        frame_fill(f, (struct rect){r.row + row, r.col + 1, 1, wall - 2}, levels[i].style,
                   levels[i].line);
        frame_printf(f, r.row + row, r.col + wall + 1, levels[i].style, "%-5s %4.1f %% %3.0f mm",
                     levels[i].name, 100 * levels[i].at_1,
                     1000 * levels[i].at_1 * a->section_height_m);
    }
}

static void rung_put(const struct model *m, struct frame *f, int row, struct rect r,
                     const char *name, struct maybe strength_pa, double full_pa)
{
    char value[32];
    frame_put(f, row, r.col, STYLE_LABEL, name);
    if (!strength_pa.is) {
        frame_put(f, row, r.col + 18, STYLE_LABEL, "not known");
        return;
    }
    bool has = strcmp(name, "ground has") == 0;
    bar_put(f, row, r.col + 18, r.cols - 30, strength_pa.v, full_pa, has ? STYLE_BAND : STYLE_BAR,
            has ? "═" : "■");
    frame_put_right(f, row, r.col + r.cols, STYLE_VALUE,
                    strength_text(value, strength_pa.v, model_units(m)));
}

static void method_words(const struct flotation *fl, enum unit_system u, struct text *out)
{
    char mass[32];
    text_put(out, "%s, by method %s", passes_name(fl->passes), flotation_method_name(fl->method));
    if (fl->gain_1.is)
        text_put(out, ", gain %.0f %%", 100 * fl->gain_1.v);
    if (fl->mass_equivalent_kg.is)
        text_put(out, ", as if %s came off",
                 quantity_text(mass, fl->mass_equivalent_kg.v, Q_MASS, u));
}

static void ladder_put(const struct model *m, struct frame *f, struct rect r)
{
    const struct flotation *fl = &m->results.advice.flotation;
    char words[200];
    struct text t = text_over(words, sizeof words);
    frame_fill(f, (struct rect){r.row, r.col, 1, r.cols}, STYLE_FRAME, "─");
    frame_put(f, r.row, r.col + 1, STYLE_TITLE, " what the ground has to carry ");
    if (fl->method == FLOTATION_NONE) {
        frame_put(f, r.row + 1, r.col, STYLE_LABEL, "Firm: flotation does not decide here.");
        return;
    }
    double full = fmax(maybe_or(fl->needed_road_pa, 0),
                       fmax(maybe_or(fl->needed_target_pa, 0), maybe_or(fl->strength_pa, 0)));
    rung_put(m, f, r.row + 1, r, "needed, road", fl->needed_road_pa, full);
    rung_put(m, f, r.row + 2, r, "needed, target", fl->needed_target_pa, full);
    rung_put(m, f, r.row + 3, r, "ground has", fl->strength_pa, full);
    method_words(fl, model_units(m), &t);
    frame_put_within(f, r.row + 4, r.col, r.cols, STYLE_VALUE, words);
}

void footprint_render(const struct model *m, struct frame *f, struct rect body)
{
    int ladder = 5, left = body.cols / 2;
    if (m->results.status < STATUS_OK) {
        refused_put(m, f, body);
        return;
    }
    patches_put(m, f, (struct rect){body.row + 1, 1, body.rows - ladder - 1, left - 2});
    section_put(m, f, (struct rect){body.row, left, body.rows - ladder, body.cols - left - 1});
    ladder_put(m, f, (struct rect){body.row + body.rows - ladder, 1, ladder, body.cols - 2});
}
