/* advice_part.h - what the parts of advice_compute share; for core/advice*.c alone. */
#ifndef SANDSHOE_CORE_ADVICE_PART_H
#define SANDSHOE_CORE_ADVICE_PART_H

#include "core/advice.h"
#include "core/load.h"

/* advice_corner - everything that a corner of axle x does at road pressure and at p_gauge_pa.
 *   in   x           the axle's advice with its tyre and road pressure
 *   in   axle        the axle of the rig
 *   in   p_gauge_pa  pressure to judge
 *   out  c           c->load_kg is read; the rest is filled
 *   ret  STATUS_OK; E_DOMAIN; E_UNKNOWN (speed symbol)
 *   how  docs/theory.md A5-A8, C7
 *   src  as core/tyre.h and core/speed.h */
enum status advice_corner(const struct axle_advice *x, const struct axle *axle, double p_gauge_pa,
                          struct corner_advice *c) MUST_CHECK;

/* advice_judged_pa - the pressure that corners are shown at: the driver's own, or the target.
 *   in   x
 *   ret  Pa gauge
 *   src  none: definition */
double advice_judged_pa(const struct axle_advice *x);

/* advice_raise - the cautions of a finished advice; advice_raise_refused - of a refused one.
 *   in   a, l
 *   out  a->cautions
 *   ret  nothing
 *   src  core/caution_table.h */
void advice_raise(struct advice *a, const struct loads *l);
void advice_raise_refused(struct advice *a, const struct loads *l);

#endif
