/* patch_draw.h - contact patches seen from above, to scale.
 *
 *   one row is row_m long and two columns are row_m wide, so a square stays square:
 *
 *      ░░░░░░░   what airing down adds, whole rows
 *      ▄▄▄▄▄▄▄   the patch at road pressure, edges in half rows
 *      ███████
 *      ▀▀▀▀▀▀▀
 *      ░░░░░░░
 */
#ifndef SANDSHOE_TUI_PATCH_DRAW_H
#define SANDSHOE_TUI_PATCH_DRAW_H

#include "core/tyre.h"
#include "tui/frame.h"

/* patch_scale - length of a row, m, so that longest_m takes at most rows rows and widest_m at most
 * cols columns; a multiple of 5 mm. 0 when there is nothing to draw. */
double patch_scale(double longest_m, double widest_m, int rows, int cols);

/* patch_rows, patch_cols - what a patch takes at a scale. */
int patch_rows(double length_m, double row_m);
int patch_cols(double width_m, double row_m);

/* patch_put - both patches about the middle of a rectangle. */
void patch_put(struct frame *f, struct rect r, double row_m, const struct tyre_patch *road,
               const struct tyre_patch *at);

#endif
