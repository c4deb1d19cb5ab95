/* value.h - one value of a profile: read as its row of the schema says, and stored. */
#ifndef SANDSHOE_PROFILE_VALUE_H
#define SANDSHOE_PROFILE_VALUE_H

#include "base/diag.h"
#include "core/designation.h"
#include "core/rig.h"
#include "profile/schema.h"

struct value {
    double si;               /* QUANTITY, MAYBE */
    int number;              /* COUNT; WORD and FLAG: index of the word */
    const char *text;        /* as written */
    struct designation size; /* TYRE */
    int n_flow;              /* FLOW */
    double flow_gauge_pa[RIG_FLOW_POINTS];
    double flow_m3_s[RIG_FLOW_POINTS];
};

/* value_read - read text as the row says.
 *   out  v    refers to text; untouched on error
 *   out  why  what is wrong, when the return is below 0
 *   ret  STATUS_OK; the statuses of units_parse and designation_parse; E_UNKNOWN (word); E_DOMAIN
 */
enum status value_read(const struct schema_row *row, const char *text, struct value *v,
                       struct text *why) MUST_CHECK;

/* value_store - put a value that was read into the struct of its section. */
void value_store(const struct schema_row *row, const struct value *v, void *section);

/* value_put - append the stored value as it would be written, pressures in the system's unit; nothing
 * when it was not given. */
void value_put(const struct schema_row *row, const void *section, enum unit_system u,
               struct text *out);

#endif
