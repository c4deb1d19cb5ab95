/* trip_judge.h - how a leg takes a pressure level: may it be driven, and how fast. */
#ifndef SANDSHOE_SIM_TRIP_JUDGE_H
#define SANDSHOE_SIM_TRIP_JUDGE_H

#include <stdbool.h>

#include "base/num.h"
#include "base/status.h"
#include "sim/trip.h"

struct trip_judged {
    bool refused;          /* not to be driven on at all: below every floor, or past a third */
    bool admits;           /* soft ground and floors agree */
    bool admits_all;       /* and so do edges and sealed road */
    bool past_limit;       /* firm ground, deflection past its limit: slow, and only for a while */
    struct maybe cap_mps;  /* C7 at the level */
    struct maybe pace_mps; /* tyres harder than firm ground asks for are driven this slow, G5 */
};

/* judge_own - the advice for a leg at its own ground's targets.
 *
 *   in   in, leg
 *   out  own
 *   ret  as advice_compute
 *   src  model C
 */
enum status judge_own(const struct trip_in *in, int leg, struct advice *own) MUST_CHECK;

/* judge_leg - how a leg takes a level.
 *
 *   in   in, leg, own (of judge_own), level
 *   out  j   untouched on error
 *   ret  STATUS_OK; E_DOMAIN and others of advice_compute
 *   how  docs/theory.md G1, G5: the cap of a firm ground belongs to tyres at its target; harder
 *        ones shake as much at the cap times Ks(target)/Ks(p)
 *   src  model G1; quarter-car on a random road (shaking ~ speed x tyre stiffness), own use of it
 */
enum status judge_leg(const struct trip_in *in, int leg, const struct advice *own,
                      const struct trip_level *level, struct trip_judged *j) MUST_CHECK;

/* judge_level_of - the level that an advice's own targets make.
 *   in   own
 *   out  level
 *   ret  nothing
 *   src  model G2 */
void judge_level_of(const struct advice *own, struct trip_level *level);

/* judge_time - driving time of a leg under a cap and a pace.
 *   in   leg, cap_mps, pace_mps
 *   ret  s
 *   src  model G2 */
double judge_time(const struct trip_leg *leg, struct maybe cap_mps, struct maybe pace_mps);

/* judge_floor - the reading below which a level is too low on a leg: the floor of its ground, or,
 * for a level that stays below that on purpose, the floor of wheel and tyre maker.
 *   in   own, axle, cold_gauge_pa  of the level
 *   ret  Pa gauge
 *   src  model C2, C5 */
double judge_floor(const struct advice *own, int axle, double cold_gauge_pa);

#endif
