/* load.h - what each tyre carries: weighed axles, added masses, side slope, ratings. */
#ifndef SANDSHOE_CORE_LOAD_H
#define SANDSHOE_CORE_LOAD_H

#include <stdbool.h>

#include "base/status.h"
#include "core/refusal.h"
#include "core/rig.h"
#include "core/tyre.h"

#define LOAD_TIPPING_1   0.4 /* (h/t) tan(slope) that is refused; half of tipping over [practice] */
#define LOAD_SIDE_HIGH_1 1.3 /* downhill load / level load that is a caution [practice] */
#define LOAD_UNEVEN_1    0.1 /* left-right difference / mean that is a caution [practice] */

struct axle_load {
    bool present;
    double load_kg;                 /* whole axle, after added masses */
    double per_tyre_kg[SIDE_COUNT]; /* level ground */
    double heavier_kg;              /* per tyre of the heavier side */
};

struct loads {
    struct axle_load axle[AXLE_COUNT];
};

/* load_axles - loads of every axle and corner after the added masses.
 *
 *   in   rig
 *   in   all_items  count the added masses that are switched off as well
 *   out  l          kg; untouched on error
 *   ret  STATUS_OK; E_DOMAIN (not finite, an axle at or below 0); E_MISSING (no front or rear
 *        axle; an added mass without a wheelbase)
 *   how  statics about the axles, docs/theory.md B1; [middle] and [rear] share half and half
 *   src  statics
 */
enum status load_axles(const struct rig *rig, bool all_items, struct loads *l) MUST_CHECK;

/* load_uneven - left-right difference of an axle.
 *   in   l    present axle
 *   ret  |left - right| / mean
 *   src  none: definition */
double load_uneven(const struct axle_load *l);

/* load_check_axle - the static level loads of an axle against its ratings.
 *
 *   in   a, x, l  the axle
 *   in   tyre     its tyre
 *   out  r        which rating, and how much must go; untouched when nothing is refused
 *   ret  STATUS_OK; E_REFUSED
 *   how  docs/theory.md B2
 *   src  none: ratings as given
 */
enum status load_check_axle(enum axle_id a, const struct axle *x, const struct axle_load *l,
                            const struct tyre *tyre, struct refusal *r) MUST_CHECK;

/* load_check - the same for a rig: the axle with the most to unload.
 *
 *   in   rig, l
 *   in   tyre  of every present axle
 *   out  r     untouched when nothing is refused
 *   ret  STATUS_OK; E_REFUSED
 *   how  docs/theory.md B2
 *   src  none: ratings as given
 */
enum status load_check(const struct rig *rig, const struct loads *l,
                       const struct tyre tyre[AXLE_COUNT], struct refusal *r) MUST_CHECK;

/* load_tipping - how near a side slope is to tipping the rig over (0.5 tips).
 *
 *   in   rig, cross_slope_rad  either sign; below 90 degrees
 *   out  tipping_1  (h/t) tan(slope); untouched on error
 *   ret  STATUS_OK; E_DOMAIN; E_MISSING (no cg_height or track)
 *   src  statics
 */
enum status load_tipping(const struct rig *rig, double cross_slope_rad,
                         double *tipping_1) MUST_CHECK;

/* load_downhill_kg - load per tyre of the downhill side, the heavier side being downhill.
 *   in   l, cross_slope_rad, tipping_1
 *   ret  kg per tyre
 *   how  docs/theory.md B4
 *   src  statics */
double load_downhill_kg(const struct axle_load *l, double cross_slope_rad, double tipping_1);

#endif
