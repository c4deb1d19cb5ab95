/* screen_corners.h - home: the footprints seen from above and the target pressures. */
#ifndef SANDSHOE_TUI_SCREEN_CORNERS_H
#define SANDSHOE_TUI_SCREEN_CORNERS_H

#include "tui/frame.h"

struct model;

void corners_render(const struct model *m, struct frame *f, struct rect body);

/* refused_put - instead of numbers: why nothing is advised, and the way out. */
void refused_put(const struct model *m, struct frame *f, struct rect body);

#endif
