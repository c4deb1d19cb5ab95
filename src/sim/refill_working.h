/* refill_working.h - the working of a refill and of a let-down: every number with its equation. */
#ifndef SANDSHOE_SIM_REFILL_WORKING_H
#define SANDSHOE_SIM_REFILL_WORKING_H

#include "core/working.h"
#include "sim/down.h"
#include "sim/refill.h"

/* refill_working - append the rows of a refill: air, source, line, then the corners of the rig's
 * own hook-up, the totals of all three and the what-ifs.
 *
 *   in   in, out  as refill_compute took and gave them
 *   in,out  w
 *   ret  nothing
 *   src  none: each row names its own
 */
void refill_working(const struct refill_in *in, const struct refill_out *out, struct working *w);

/* down_working - append the rows of one corner let down.
 *
 *   in   c, r     as down_compute took and gave them
 *   in   where    "front-left"
 *   in,out  w
 *   ret  nothing
 *   src  none: each row names its own
 */
void down_working(const struct down_corner *c, const struct down_result *r, const char *where,
                  struct working *w);

#endif
