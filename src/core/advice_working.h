/* advice_working.h - the working behind an advice: every number that it shows. */
#ifndef SANDSHOE_CORE_ADVICE_WORKING_H
#define SANDSHOE_CORE_ADVICE_WORKING_H

#include "core/advice.h"
#include "core/working.h"

/* advice_working - append a row for every number of an advice: axle by axle, corner by corner,
 * then the rig. Of a refused advice the loads and capacities only.
 *
 *   in   a
 *   out  w    rows appended
 *   ret  nothing
 *   how  equation numbers of docs/theory.md
 *   src  core/refs.h
 */
void advice_working(const struct advice *a, struct working *w);

#endif
