/* loadrange.h - the usual maximum pressure behind a load range letter. */
#ifndef SANDSHOE_CORE_LOADRANGE_H
#define SANDSHOE_CORE_LOADRANGE_H

#include "base/status.h"
#include "core/designation.h"

/* loadrange_usual_pressure - the maximum pressure usually moulded on a tyre of that load range.
 *
 *   in   size         wide light-truck and flotation sizes (section above 295 mm) have less
 *   in   range        'B'..'F'; 0 for a passenger tyre (standard or extra load)
 *   out  p_gauge_pa   Pa; untouched on error
 *   ret  STATUS_W_ASSUMED (always an assumption: the moulded figure rules); E_UNKNOWN
 *   src  TRA practice [memory]; LT C 50, D wide 50, E 80 and E wide 65 psi read in maker's rows
 */
enum status loadrange_usual_pressure(const struct designation *size, char range,
                                     double *p_gauge_pa) MUST_CHECK;

#endif
