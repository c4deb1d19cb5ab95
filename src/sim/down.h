/* down.h - how long to let a corner down, and the reading to stop at. */
#ifndef SANDSHOE_SIM_DOWN_H
#define SANDSHOE_SIM_DOWN_H

#include "base/status.h"
#include "core/rig.h"

struct down_corner {
    double volume_m3;                  /* of one tyre with its own valve */
    double from_gauge_pa, to_gauge_pa; /* settled readings now */
    double ambient_abs_pa, tyre_temp_k;
    double gauge_offset_pa;
};

/* One valve and the vessel behind it. */
struct down_vessel {
    double volume_m3, stretch_1_pa;
    double area_m2, b_1; /* valve S and b, b > 0 */
    double ambient_abs_pa, temp_k;
};

struct down_result {
    double time_s[2];                /* [VALVE_CORE_IN], [VALVE_CORE_OUT] */
    double stop_reading_gauge_pa[2]; /* below the target: it creeps back up */
    double creep_pa[2];
};

/* down_blow_off - time for a vessel to fall from one pressure to another, isothermal.
 *
 *   in   v
 *   in   from_abs_pa >= to_abs_pa >= v->ambient_abs_pa (checked by the caller)
 *   ret  s
 *   how  choked part in closed form, subsonic part by Simpson's rule; docs/theory.md E9
 *   src  ISO 6358 [read as quoted]; own integration
 */
double down_blow_off(const struct down_vessel *v, double from_abs_pa, double to_abs_pa);

/* down_compute - time and stop reading of one corner through its own valve.
 *
 *   in   c  from >= to
 *   out  r  s, Pa; untouched on error; 0 s when from <= to
 *   ret  STATUS_OK; E_DOMAIN; E_NO_SOLUTION (to below ambient)
 *   how  isothermal blow-down through an ISO 6358 element, docs/theory.md E9
 *   src  ISO 6358 [read as quoted]; creep-back own energy runs
 */
enum status down_compute(const struct down_corner *c, struct down_result *r) MUST_CHECK;

#endif
