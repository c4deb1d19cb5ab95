/* chrome.h - what stands round every screen: whose rig, in which state, on which ground; the cap;
 * the keys. */
#ifndef SANDSHOE_TUI_CHROME_H
#define SANDSHOE_TUI_CHROME_H

#include "tui/model.h"

/* chrome_put - draw it; returns the rectangle left for the screen. */
struct rect chrome_put(const struct model *m, struct frame *f, const struct screen *s);

/* chrome_too_small - what is needed and what there is. */
void chrome_too_small(struct frame *f);

/* caution_line_put - one caution on one line: its level, then its words as far as they go. */
void caution_line_put(struct frame *f, struct rect r, const struct caution *c, enum unit_system u);

/* put_upper - append s in capitals (ASCII letters only). */
void put_upper(const char *s, struct text *out);

/* cold_text, cold_bare - a pressure of the rig into buf[32], with and without its unit. Steps of the
 * rig's gauge stay apart: a step of 1 psi needs two decimals in bar. */
const char *cold_text(const struct model *m, char buf[32], double p_gauge_pa);
const char *cold_bare(const struct model *m, char buf[32], double p_gauge_pa);

/* strength_text - a soil strength (cone index) into buf[32]: psi beside psi, else kPa. */
const char *strength_text(char buf[32], double si, enum unit_system u);

#endif
