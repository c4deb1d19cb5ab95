/* json_working.h - the working as an array. */
#ifndef SANDSHOE_REPORT_JSON_WORKING_H
#define SANDSHOE_REPORT_JSON_WORKING_H

#include "core/working.h"
#include "report/json.h"

/* json_working_put - put {where, symbol, what, equation, formula, source, standing, value, unit,
 * low?, high?, inputs} for each row under key. Values in the unit named beside them. */
void json_working_put(struct json *j, const char *key, const struct working *w);

#endif
