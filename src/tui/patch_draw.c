#include "tui/patch_draw.h"

#include <math.h>

double patch_scale(double longest_m, double widest_m, int rows, int cols)
{
    static const double step_m = 0.005;
    if (!(longest_m > 0) || !(widest_m > 0) || rows < 1 || cols < 1)
        return 0;
    double row_m = fmax(longest_m / rows, 2 * widest_m / cols);
    return step_m * ceil(row_m / step_m - 1e-9);
}

static int at_least_1(double x)
{
    return x > 1 ? (int)lround(fmin(x, 1000)) : 1;
}

int patch_rows(double length_m, double row_m)
{
    return at_least_1(length_m / row_m);
}

int patch_cols(double width_m, double row_m)
{
    return at_least_1(2 * width_m / row_m);
}

/* In half rows and columns about the same middle. The road patch differs from the other by an even
 * number of half rows and of columns, so that it can stand in the middle. */
struct outline {
    int rows, cols;         /* at the target */
    int road_from, road_to; /* half rows */
    int side;               /* columns on each side that the road patch lacks */
};

static struct outline outline_of(double row_m, const struct tyre_patch *road,
                                 const struct tyre_patch *at)
{
    struct outline o = {patch_rows(at->length_m, row_m), patch_cols(at->width_m, row_m), 0, 0, 0};
    int less = o.rows - patch_rows(road->length_m, row_m);
    int narrower = o.cols - patch_cols(road->width_m, row_m);
    o.road_from = less > 0 ? less : 0;
    o.road_to = 2 * o.rows - o.road_from;
    o.side = narrower > 0 ? narrower / 2 : 0;
    return o;
}

static void row_put(struct frame *f, int row, int col, const struct outline *o, int i)
{
    static const char *const glyph[2][2] = {{"░", "▄"}, {"▀", "█"}};
    bool upper = 2 * i >= o->road_from && 2 * i < o->road_to;
    bool lower = 2 * i + 1 >= o->road_from && 2 * i + 1 < o->road_to;
    for (int c = 0; c < o->cols; c++) {
        bool road = (upper || lower) && c >= o->side && c < o->cols - o->side;
        frame_put(f, row, col + c, road ? STYLE_PATCH : STYLE_ADDED,
                  road ? glyph[upper][lower] : "░");
    }
}

void patch_put(struct frame *f, struct rect r, double row_m, const struct tyre_patch *road,
               const struct tyre_patch *at)
{
    if (!(row_m > 0))
        return;
    struct outline o = outline_of(row_m, road, at);
    int top = r.row + (r.rows - o.rows) / 2, left = r.col + (r.cols - o.cols) / 2;
    for (int i = 0; i < o.rows; i++)
        row_put(f, top + i, left, &o, i);
}
