/* replay_text.h - a recorded job for people: 80 columns, plain characters. */
#ifndef SANDSHOE_REPORT_REPLAY_TEXT_H
#define SANDSHOE_REPORT_REPLAY_TEXT_H

#include "report/replay_report.h"

/* replay_text_put - a line a reading, then the corners as they stand at the end. */
void replay_text_put(const struct replay_report *r, enum unit_system u, struct text *out);

#endif
