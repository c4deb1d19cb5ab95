/* clock_rows.h - the air clock's rows: a corner each, where to stop, and the record at the end. */
#ifndef SANDSHOE_TUI_CLOCK_ROWS_H
#define SANDSHOE_TUI_CLOCK_ROWS_H

#include "sim/down.h"
#include "sim/session.h"
#include "tui/frame.h"

struct model;

/* clock_down_of - a corner let down through its own valve; false: not to be computed. */
bool clock_down_of(const struct session *s, int i, struct down_corner *d, struct down_result *r);

/* clock_minutes - "4:05" into buf[32]; returns buf. */
const char *clock_minutes(char buf[32], double time_s);

/* clock_planned - what the label promises before the first air, s; < 0 unknown. */
double clock_planned(const struct model *m);

/* clock_rows_put - the table; returns the rows it took. */
int clock_rows_put(const struct model *m, struct frame *f, struct rect r, bool wide);

/* clock_stops_put - "front: stop at 35.5, it will settle to 35", one line an axle, those on the
 * line first; returns the rows it took. */
int clock_stops_put(const struct model *m, struct frame *f, struct rect r);

/* clock_entries_put - the latest entries of the record, where there is room for three rows. */
void clock_entries_put(const struct model *m, struct frame *f, struct rect r);

/* clock_record_put - what the job came to. */
void clock_record_put(const struct model *m, struct frame *f, struct rect r);

#endif
