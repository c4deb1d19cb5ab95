/* trip_report.h - a trip's plan for people and as an object. */
#ifndef SANDSHOE_REPORT_TRIP_REPORT_H
#define SANDSHOE_REPORT_TRIP_REPORT_H

#include "core/working.h"
#include "report/json_part.h"
#include "sim/trip.h"

struct trip_report {
    const struct trip_in *in;
    const struct trip_plan *plan; /* of in; a refused one holds its refusal only */
    const struct caution_list *cautions;
    const struct working *working; /* NULL: not asked for */
};

/* trip_text_put - append the plan, or the refusal: 80 columns, plain characters. */
void trip_text_put(const struct trip_report *r, enum unit_system u, struct text *out);

/* json_trip_put - append the object of trip; a refused plan has its legs with nulls.
 * ret as json_end. */
enum status json_trip_put(const struct json_head *head, const struct trip_report *r,
                          struct text *out) MUST_CHECK;

#endif
