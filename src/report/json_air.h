/* json_air.h - the objects of 'down' and 'up'. */
#ifndef SANDSHOE_REPORT_JSON_AIR_H
#define SANDSHOE_REPORT_JSON_AIR_H

#include "report/air_report.h"
#include "report/json_part.h"

/* json_down_put, json_up_put - append the object. working: NULL, or its rows follow.
 * ret as json_end. */
enum status json_down_put(const struct json_head *head, const struct down_report *r,
                          const struct working *working, struct text *out) MUST_CHECK;
enum status json_up_put(const struct json_head *head, const struct up_report *r,
                        const struct working *working, struct text *out) MUST_CHECK;

#endif
