/* forecast_working.h - the working of a timed job's forecast: what it knows, and from what. */
#ifndef SANDSHOE_SIM_FORECAST_WORKING_H
#define SANDSHOE_SIM_FORECAST_WORKING_H

#include "core/working.h"
#include "sim/forecast.h"

/* forecast_working - append the rows of a forecast: the ensemble, what was believed and is now
 * believed of the source, each reading beside what was expected, the fit, the end.
 *
 *   in   f, s, out  of the last forecast_update
 *   in,out  w
 *   ret  nothing
 *   src  none: each row names its own
 */
void forecast_working(const struct forecast *f, const struct session *s,
                      const struct forecast_out *out, struct working *w);

#endif
