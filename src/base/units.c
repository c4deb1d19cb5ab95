#include "base/units.h"

#include <ctype.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

#include "base/num.h"

struct unit_row {
    enum quantity q;
    const char *symbol;
    double si_per_unit; /* SI per unit */
    double si_at_zero;  /* SI value of 0 units (temperatures) */
};

#define INCH UNITS_M_PER_INCH

// clang-format off
static const struct unit_row UNITS[] = {
    {Q_PRESSURE,    "psi",   UNITS_PA_PER_PSI, 0},
    {Q_PRESSURE,    "bar",   UNITS_PA_PER_BAR, 0},
    {Q_PRESSURE,    "kPa",   1000.0, 0},
    {Q_MASS,        "kg",    1.0, 0},
    {Q_MASS,        "lb",    UNITS_KG_PER_LB, 0},
    {Q_MASS,        "t",     1000.0, 0},
    {Q_LENGTH,      "mm",    0.001, 0},
    {Q_LENGTH,      "cm",    0.01, 0},
    {Q_LENGTH,      "m",     1.0, 0},
    {Q_LENGTH,      "km",    1000.0, 0},
    {Q_LENGTH,      "in",    INCH, 0},
    {Q_LENGTH,      "ft",    12.0 * INCH, 0},
    {Q_LENGTH,      "mile",  63360.0 * INCH, 0},
    {Q_DURATION,    "s",     1.0, 0},
    {Q_DURATION,    "min",   60.0, 0},
    {Q_DURATION,    "h",     3600.0, 0},
    {Q_TEMPERATURE, "C",     1.0, UNITS_K_AT_0C},
    {Q_TEMPERATURE, "F",     5.0 / 9.0, UNITS_K_AT_0C - 160.0 / 9.0},
    {Q_SPEED,       "km/h",  UNITS_MPS_PER_KMH, 0},
    {Q_SPEED,       "mph",   0.44704, 0},
    {Q_SPEED,       "m/s",   1.0, 0},
    {Q_FLOW,        "L/min", 1e-3 / 60.0, 0},
    {Q_FLOW,        "cfm",   1728.0 * INCH * INCH * INCH / 60.0, 0},
    {Q_SHARE,       "%",     0.01, 0},
    {Q_ANGLE,       "deg",   NUM_PI / 180.0, 0},
    {Q_POWER,       "kW",    1000.0, 0},
    {Q_POWER,       "hp",    550.0 * UNITS_KG_PER_LB * 9.80665 * 12.0 * INCH, 0},
    {Q_VOLUME,      "L",     0.001, 0},
    {Q_VOLUME,      "gal",   231.0 * INCH * INCH * INCH, 0},
    {Q_AREA,        "cm2",   1e-4, 0},
    {Q_AREA,        "mm2",   1e-6, 0},
    {Q_AREA,        "in2",   INCH * INCH, 0},
    {Q_DENSITY,     "kg/m3", 1.0, 0},
    {Q_STIFFNESS,   "N/mm",  1000.0, 0},
    {Q_FORCE,       "N",     1.0, 0},
    {Q_FORCE,       "kN",    1000.0, 0},
    {Q_STRENGTH,    "psi",   UNITS_PA_PER_PSI, 0},
    {Q_STRENGTH,    "bar",   UNITS_PA_PER_BAR, 0},
    {Q_STRENGTH,    "kPa",   1000.0, 0},
};

/* How each quantity is shown: unit and decimals (pressure by system, below). */
static const struct { const char *symbol; int decimals; } SHOWN[QUANTITY_COUNT] = {
    [Q_NUMBER]      = {"", 3},     [Q_PRESSURE]    = {"kPa", 0},
    [Q_MASS]        = {"kg", 0},   [Q_LENGTH]      = {"mm", 0},
    [Q_DURATION]    = {"s", 0},    [Q_TEMPERATURE] = {"C", 0},
    [Q_SPEED]       = {"km/h", 0}, [Q_FLOW]        = {"L/min", 0},
    [Q_SHARE]       = {"%", 0},    [Q_ANGLE]       = {"deg", 0},
    [Q_POWER]       = {"kW", 0},   [Q_VOLUME]      = {"L", 0},
    [Q_AREA]        = {"cm2", 0},  [Q_DENSITY]     = {"kg/m3", 0},
    [Q_STIFFNESS]   = {"N/mm", 0}, [Q_FORCE]       = {"N", 0},
    [Q_COUNT]       = {"", 0},     [Q_STRENGTH]    = {"kPa", 0},
};
// clang-format on

static const struct unit_row *find_unit(enum quantity q, const char *symbol)
{
    for (size_t i = 0; i < sizeof UNITS / sizeof UNITS[0]; i++) {
        if (UNITS[i].q == q && strcmp(UNITS[i].symbol, symbol) == 0) {
            return &UNITS[i];
        }
    }
    return NULL;
}

/* Only plain decimals: no hex, no "nan", no "inf". Returns the end of the number or NULL. */
static const char *scan_decimal(const char *s)
{
    const char *p = s + (*s == '-' || *s == '+');
    int digits = 0;
    int points = 0;
    for (; isdigit((unsigned char)*p) || *p == '.'; p++) {
        digits += *p != '.';
        points += *p == '.';
    }
    if (digits == 0 || points > 1) {
        return NULL;
    }
    if (*p == 'e' || *p == 'E') {
        const char *e = p + 1 + (p[1] == '-' || p[1] == '+');
        if (isdigit((unsigned char)*e)) {
            while (isdigit((unsigned char)*e)) {
                e++;
            }
            p = e;
        }
    }
    return p;
}

enum status units_parse(const char *s, enum quantity q, double *si)
{
    while (isspace((unsigned char)*s)) {
        s++;
    }
    const char *end = scan_decimal(s);
    if (!end) {
        return STATUS_E_SYNTAX;
    }
    if (*end == ',') {
        return STATUS_E_DECIMAL_COMMA;
    }
    double value = strtod(s, NULL);
    while (isspace((unsigned char)*end)) {
        end++;
    }
    char symbol[8] = "";
    size_t n = strlen(end);
    while (n > 0 && isspace((unsigned char)end[n - 1])) {
        n--;
    }
    if (n == 0 && q != Q_NUMBER) {
        return STATUS_E_UNIT_MISSING;
    }
    if (n >= sizeof symbol) {
        return STATUS_E_UNIT_UNKNOWN;
    }
    memcpy(symbol, end, n);
    double per = 1.0;
    double zero = 0.0;
    if (q != Q_NUMBER || n > 0) {
        const struct unit_row *u = find_unit(q, symbol);
        if (!u) {
            return STATUS_E_UNIT_UNKNOWN;
        }
        per = u->si_per_unit;
        zero = u->si_at_zero;
    }
    if (!isfinite(value * per + zero)) {
        return STATUS_E_DOMAIN;
    }
    *si = value * per + zero;
    return STATUS_OK;
}

void units_accepted(enum quantity q, struct text *out)
{
    const char *sep = "";
    for (size_t i = 0; i < sizeof UNITS / sizeof UNITS[0]; i++) {
        if (UNITS[i].q == q) {
            text_put(out, "%s%s", sep, UNITS[i].symbol);
            sep = ", ";
        }
    }
}

double units_in(double si, enum quantity q, const char *unit)
{
    const struct unit_row *u = find_unit(q, unit);
    return u ? (si - u->si_at_zero) / u->si_per_unit : si;
}

const char *units_symbol(enum quantity q, enum unit_system u)
{
    static const char *const pressure[] = {"psi", "bar", "kPa"};
    return q == Q_PRESSURE                     ? pressure[u]
           : q == Q_STRENGTH && u == UNITS_PSI ? pressure[u]
                                               : SHOWN[q].symbol;
}

void units_put_bare(struct text *out, double si, enum quantity q, enum unit_system u, int more)
{
    int decimals = (q == Q_PRESSURE && u == UNITS_BAR ? 1 : SHOWN[q].decimals) + more;
    double v = units_in(si, q, units_symbol(q, u));
    decimals = decimals < 0 ? 0 : decimals;
    if (fabs(v) <= 0.5 * pow(10.0, -decimals)) {
        v = 0.0; /* no "-0" */
    }
    text_put(out, "%.*f", decimals, v);
}

void units_put(struct text *out, double si, enum quantity q, enum unit_system u, int more)
{
    const char *symbol = units_symbol(q, u);
    units_put_bare(out, si, q, u, more);
    if (symbol[0] != '\0') {
        text_put(out, " %s", symbol);
    }
}

double units_step(enum unit_system u)
{
    static const double step_pa[] = {UNITS_PA_PER_PSI, 0.1 * UNITS_PA_PER_BAR, 5000.0};
    return step_pa[u];
}

const char *units_name(enum unit_system u)
{
    static const char *const names[] = {"psi", "bar", "kpa"};
    return names[u];
}

enum status units_from_name(const char *name, enum unit_system *u)
{
    for (int i = UNITS_PSI; i <= UNITS_KPA; i++) {
        if (strcmp(name, units_name((enum unit_system)i)) == 0) {
            *u = (enum unit_system)i;
            return STATUS_OK;
        }
    }
    return STATUS_E_UNKNOWN;
}
