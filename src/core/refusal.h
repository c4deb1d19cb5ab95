/* refusal.h - why nothing is advised, and the way out. */
#ifndef SANDSHOE_CORE_REFUSAL_H
#define SANDSHOE_CORE_REFUSAL_H

#include <stdbool.h>

#include "base/text.h"
#include "base/units.h"
#include "core/rig.h"

enum refusal_code {
    REFUSAL_NONE,
    REFUSAL_OVERLOAD_TYRE,
    REFUSAL_OVERLOAD_AXLE,
    REFUSAL_MULTI_PIECE,
    REFUSAL_SIDE_SLOPE,
    REFUSAL_TOO_LOW,   /* --at-pressure below every floor or past 33 %; so soft at road pressure */
    REFUSAL_FOUND_LOW, /* up: a corner found low */
    REFUSAL_FLAMMABLES
};

/* Why nothing is advised, and the way out. */
struct refusal {
    enum refusal_code code;
    enum axle_id axle;
    bool has_axle;
    double excess_kg; /* overload: kg that must go from the axle */
    double have_kg, rated_kg;
    double share_1;                       /* load / rating, the tipping ratio, the deflection */
    double have_gauge_pa, least_gauge_pa; /* too low: the pressure and the least; 0 = past 33 % */
};

/* refusal_name - "overload-tyre", "overload-axle", "multi-piece", "side-slope", "too-low",
 * "found-low", "flammables", "none".
 *   in   c    refusal
 *   ret  a string constant
 *   src  none: definition */
const char *refusal_name(enum refusal_code c);

/* refusal_put - the reason in words; refusal_put_way_out - what to do instead.
 *   in   r, u
 *   out  out  text
 *   ret  nothing
 *   src  none: formatting */
void refusal_put(const struct refusal *r, enum unit_system u, struct text *out);
void refusal_put_way_out(const struct refusal *r, enum unit_system u, struct text *out);

#endif
