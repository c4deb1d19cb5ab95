/* units.h - quantities with their units: SI inside, units at the edges only. */
#ifndef SANDSHOE_BASE_UNITS_H
#define SANDSHOE_BASE_UNITS_H

#include <stddef.h>

#include "base/status.h"
#include "base/text.h"

#define UNITS_PA_PER_PSI  6894.757293168361 /* Pa, from lb 0.45359237 kg, g 9.80665, in 25.4 mm */
#define UNITS_PA_PER_BAR  100000.0          /* Pa, definition */
#define UNITS_KG_PER_LB   0.45359237        /* kg, definition */
#define UNITS_MPS_PER_KMH (1.0 / 3.6)       /* m/s, definition */
#define UNITS_M_PER_INCH  0.0254            /* m, definition */
#define UNITS_K_AT_0C     273.15            /* K, definition */

/* What a number measures. SI: Pa (gauge), kg, m, s, K, m/s, m3/s, 1 (share), rad, W, m3, m2,
 * kg/m3, N/m, N, Pa. */
enum quantity {
    Q_NUMBER, /* pure number, no unit */
    Q_PRESSURE,
    Q_MASS,
    Q_LENGTH,
    Q_DURATION,
    Q_TEMPERATURE,
    Q_SPEED,
    Q_FLOW,
    Q_SHARE, /* fraction, written in % */
    Q_ANGLE,
    Q_POWER,
    Q_VOLUME,
    Q_AREA,
    Q_DENSITY,
    Q_STIFFNESS,
    Q_FORCE,
    Q_COUNT,    /* how many: shown whole, never read */
    Q_STRENGTH, /* of soil: a pressure, spoken of in psi or kPa, never in bar */
    QUANTITY_COUNT
};

/* The pressure unit that the user reads; everything else is shown metric. */
enum unit_system { UNITS_PSI, UNITS_BAR, UNITS_KPA };

/* units_parse - read "38 psi", "2.6 bar", "24 C" ... as SI.
 *
 *   in   s    text; a number in the C locale, blanks, a unit of q (case as in units_accepted;
 *             Q_NUMBER: no unit)
 *   out  si   value in SI; untouched on error
 *   ret  STATUS_OK; E_SYNTAX; E_UNIT_MISSING; E_UNIT_UNKNOWN; E_DECIMAL_COMMA; E_DOMAIN (not finite)
 *   src  none: definitions of the units
 */
enum status units_parse(const char *s, enum quantity q, double *si) MUST_CHECK;

/* units_accepted - append the accepted units of q, "psi, bar, kPa". */
void units_accepted(enum quantity q, struct text *out);

/* units_in - an SI value in the named unit (e.g. "psi"); for edges. Unknown unit: the value itself. */
double units_in(double si, enum quantity q, const char *unit);

/* units_symbol - the symbol that q is shown in under a system ("psi", "kg", "mm", "km/h"). */
const char *units_symbol(enum quantity q, enum unit_system u);

/* units_put - append an SI value in the system's unit, with its usual decimals plus more
 * (more may be negative), and the symbol: "38 psi", "2.6 bar", "263 kPa", "975 kg". */
void units_put(struct text *out, double si, enum quantity q, enum unit_system u, int more);

/* units_put_bare - the same without the symbol. */
void units_put_bare(struct text *out, double si, enum quantity q, enum unit_system u, int more);

/* units_step - the default gauge step of a system, Pa (1 psi, 0.1 bar, 5 kPa). */
double units_step(enum unit_system u);

/* units_name - "psi", "bar", "kpa"; units_from_name the reverse. */
const char *units_name(enum unit_system u);
enum status units_from_name(const char *name, enum unit_system *u) MUST_CHECK;

#endif
