/* widget.h - pieces that several screens draw with. */
#ifndef SANDSHOE_TUI_WIDGET_H
#define SANDSHOE_TUI_WIDGET_H

#include "base/num.h"
#include "base/units.h"
#include "core/rig.h"
#include "tui/frame.h"
#include "tui/keymap.h"

/* A list longer than its room: which row is marked and which comes first on the screen. */
struct list {
    int at, top;
};

/* list_move - move by an action among n rows with room for page; false: not a moving action. */
bool list_move(struct list *l, enum action a, int n, int page);

/* list_top - the first row to draw so that the marked one is in sight. */
int list_top(const struct list *l, int n, int page);

/* Text longer than its room: lines are handed in one after the other, those in sight are drawn. */
struct roll {
    struct frame *f; /* NULL: only count */
    struct rect r;
    int top, n; /* first line in sight; lines handed in so far */
};

void roll_line(struct roll *l, enum style style, const char *text);

/* roll_text - a text of several lines, long ones wrapped and indented by indent columns. */
void roll_text(struct roll *l, enum style style, int indent, const char *text);

/* roll_more - say in the last row that there is more, when there is. */
void roll_more(const struct roll *l);

/* big_put - digits, a point, a colon or a dash in large numerals of 3 or 5 rows; returns the columns. */
int big_put(struct frame *f, int row, int col, int rows, const char *digits);
int big_width(const char *digits, int rows);

/* keys_put - a line of "key label" pairs, those that fit; the last one stands at the right end
 * whatever the room. actions end in ACT_NONE. */
void keys_put(struct frame *f, int row, int col, int cols, const enum action actions[]);

/* bar_put - a horizontal bar of value out of full over cols columns. */
void bar_put(struct frame *f, int row, int col, int cols, double value, double full,
             enum style style, const char *glyph);

/* Deflection at which the rim is reached, as a share of section height: rim contact of a
 * 335/65R22.5, measured for the US Army fuel-efficiency demonstrator. One tyre: a mark on a scale,
 * no limit. */
#define DEFLECTION_RIM_1 0.495

/* A deflection scale from the unloaded tyre to the rim. */
struct deflection_bar {
    double value_1, low_1, high_1; /* now, with its band */
    double aim_1, limit_1, rim_1;  /* marks; aim 0 = none */
};

/* deflection_put - the bar in cols columns: solid to the low end of the band, a line to its high
 * end, marks a (aim), L (limit), R (rim). */
void deflection_put(struct frame *f, int row, int col, int cols, const struct deflection_bar *b);

/* panel_put - a cleared rectangle with a title; returns the rectangle inside. */
struct rect panel_put(struct frame *f, struct rect r, const char *title);

/* pressure_text, quantity_text - a value with its unit into buf[32]; returns buf. */
const char *pressure_text(char buf[32], double p_gauge_pa, enum unit_system u);
const char *pressure_bare(char buf[32], double p_gauge_pa, enum unit_system u);
const char *quantity_text(char buf[32], double si, enum quantity q, enum unit_system u);

/* band_text - "x1.5-1.8" into buf[32]; one number when both ends read the same. */
const char *band_text(char buf[32], double low_1, double high_1);

/* corner_words - "front left" into buf[32]. */
const char *corner_words(char buf[32], enum axle_id a, enum side s);

#endif
