/* down_text.h - the let-down for people: 80 columns, plain characters. */
#ifndef SANDSHOE_REPORT_DOWN_TEXT_H
#define SANDSHOE_REPORT_DOWN_TEXT_H

#include "report/air_report.h"

/* down_text_put - append the report, or the refusal. */
void down_text_put(const struct down_report *r, enum unit_system u, struct text *out);

#endif
