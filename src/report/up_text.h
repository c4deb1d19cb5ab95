/* up_text.h - the refill for people: 80 columns, plain characters. */
#ifndef SANDSHOE_REPORT_UP_TEXT_H
#define SANDSHOE_REPORT_UP_TEXT_H

#include "report/air_report.h"

/* up_text_put - append the report, or the refusal; the rig's own hook-up leads. */
void up_text_put(const struct up_report *r, enum unit_system u, struct text *out);

#endif
