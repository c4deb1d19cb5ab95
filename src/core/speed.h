/* speed.h - speed caps of a softened tyre, by practice and by the standards' load bonus. */
#ifndef SANDSHOE_CORE_SPEED_H
#define SANDSHOE_CORE_SPEED_H

#include <stdbool.h>

#include "base/num.h"
#include "base/status.h"
#include "core/tyre.h"

/* speed_deflection_cap - practice cap of the band that a deflection falls in.
 *
 *   in   deflection_1  deflection / section height
 *   ret  m/s; none = no cap; 0 beyond 33 % (not to be driven)
 *   how  docs/theory.md C7
 *   src  common practice */
struct maybe speed_deflection_cap(double deflection_1);

/* speed_retention_cap - practice cap of the share of road pressure that is left.
 *
 *   in   retention_1  pressure / road pressure
 *   ret  m/s; none = no cap
 *   how  docs/theory.md C7
 *   src  common practice */
struct maybe speed_retention_cap(double retention_1);

/* speed_lower - the lower of two caps; none is no cap.
 *   in   a, b
 *   ret  m/s, or none
 *   src  none: definition */
struct maybe speed_lower(struct maybe a, struct maybe b);

/* speed_load_index - the load index that a tyre's speed column is taken by.
 *
 *   in   spec, dual  mounted in pairs: the second index of 121/118
 *   ret  load index; 0 when nothing tells it
 *   src  the moulded index, else the inverse of the index table */
int speed_load_index(const struct tyre_spec *spec, bool dual);

/* speed_symbol - the speed symbol as moulded or given.
 *   in   spec
 *   ret  "" when not given: the default is taken
 *   src  none: look-up */
const char *speed_symbol(const struct tyre_spec *spec);

/* speed_standard - the highest speed whose load bonus covers load / capacity - 1. Derived: it does
 * not license under-inflation.
 *
 *   in   spec, dual
 *   in   load_kg, capacity_kg  per tyre, at the pressure
 *   out  speed_mps  none = nothing limits, or the load index is unknown; 0 = nothing covers it;
 *                   untouched on error
 *   ret  STATUS_OK; E_DOMAIN; E_UNKNOWN (speed symbol)
 *   how  docs/theory.md C7
 *   src  UN R54 Annex 8 [memory]
 */
enum status speed_standard(const struct tyre_spec *spec, bool dual, double load_kg,
                           double capacity_kg, struct maybe *speed_mps) MUST_CHECK;

#endif
