/* cell.h - cells of a table, and pressures with the decimals that a gauge step needs. */
#ifndef SANDSHOE_REPORT_CELL_H
#define SANDSHOE_REPORT_CELL_H

#include "base/text.h"
#include "base/units.h"
#include "core/rig.h"

#define CELL_SAME_PA 350.0 /* Pa, 0.05 psi: no gauge tells pressures this close apart */

/* cell_right - append s so that it ends at a column of the line. */
void cell_right(struct text *out, int end, const char *s);

/* cell_value - the same for a value: bare, or with its symbol. */
void cell_value(struct text *out, int end, double si, enum quantity q, enum unit_system u,
                int more);
void cell_value_unit(struct text *out, int end, double si, enum quantity q, enum unit_system u,
                     int more);

/* cell_time - the same for a time, as cell_clock. */
void cell_time(struct text *out, int end, double time_s);

/* cell_pressure_more - extra decimals that pressures of this rig need to be told apart. */
int cell_pressure_more(const struct rig *rig, enum unit_system u);

/* cell_clock - append seconds as m:ss, h:mm:ss from an hour on, "never" from 100 h on. */
void cell_clock(struct text *out, double s);

#endif
