/* screen_footprint.h - one axle closely: its patches to scale, its section from the side, and what
 * the ground has to carry. */
#ifndef SANDSHOE_TUI_SCREEN_FOOTPRINT_H
#define SANDSHOE_TUI_SCREEN_FOOTPRINT_H

#include "tui/frame.h"

struct model;

void footprint_render(const struct model *m, struct frame *f, struct rect body);

#endif
