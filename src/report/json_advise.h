/* json_advise.h - an advice as an object. */
#ifndef SANDSHOE_REPORT_JSON_ADVISE_H
#define SANDSHOE_REPORT_JSON_ADVISE_H

#include "core/advice.h"
#include "core/working.h"
#include "report/json_part.h"

/* json_advise_put - append the object of advise; a refused advice has nulls where nothing is
 * advised. working: NULL, or its rows follow as "working". ret as json_end. */
enum status json_advise_put(const struct json_head *head, const struct advice *a,
                            const struct working *working, struct text *out) MUST_CHECK;

#endif
