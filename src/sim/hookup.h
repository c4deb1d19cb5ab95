/* hookup.h - one hook-up planned from first air to last stop: which corners hang together, when
 * each is dropped, when the machine must rest, what the gauge says. */
#ifndef SANDSHOE_SIM_HOOKUP_H
#define SANDSHOE_SIM_HOOKUP_H

#include "base/status.h"
#include "sim/line.h"
#include "sim/refill.h"
#include "sim/source.h"

/* What a what-if changes; HOOKUP_AS_IS changes nothing. */
struct hookup_change {
    double scale_1;         /* delivery relative to the label */
    enum valve_state valve; /* of the corners */
};

/* hookup_plan - plan one hook-up.
 *
 *   in   in       corners, air system, ambient (checked by refill_compute)
 *   in   source   made for in's air system, ambient and inlet temperature
 *   in   change   delivery and valves
 *   in   hookup
 *   out  plan     untouched on error
 *   ret  STATUS_OK (a plan may be impossible: see its problem); E_DOMAIN
 *   how  docs/theory.md E7, E8
 *   src  none: bookkeeping around run_to_event
 */
enum status hookup_plan(const struct refill_in *in, const struct source *source,
                        const struct hookup_change *change, enum hookup hookup,
                        struct refill_plan *plan) MUST_CHECK;

/* hookup_line - the line of some corners, each at its given pressure, with spare (the last vessel)
 * and tank.
 *
 *   in   in, source, change
 *   in   corners       bit REFILL_CORNER: on this line
 *   in   p_abs_pa[REFILL_CORNERS], target_abs_pa[REFILL_CORNERS]
 *   out  line          prepared; identical corners share one vessel
 *   out  vessel_of[REFILL_CORNERS]   index of each corner's vessel
 *   ret  STATUS_OK; E_DOMAIN
 *   how  docs/theory.md E3; friction once, at the flow the source gives at the highest target
 *   src  none: bookkeeping
 */
enum status hookup_line(const struct refill_in *in, const struct source *source,
                        const struct hookup_change *change, unsigned corners,
                        const double p_abs_pa[], const double target_abs_pa[], struct line *line,
                        int vessel_of[]) MUST_CHECK;

/* hookup_cut_in - the pressure at which the machine starts again.
 *
 *   in   air
 *   ret  Pa gauge; the profile's, else 30 psi below the cut-out; 0 without a cut-out
 *   src  default of this program
 */
double hookup_cut_in(const struct air_system *air);

#endif
