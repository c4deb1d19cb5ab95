/* json_replay.h - the object of 'replay'. */
#ifndef SANDSHOE_REPORT_JSON_REPLAY_H
#define SANDSHOE_REPORT_JSON_REPLAY_H

#include "report/json_part.h"
#include "report/replay_report.h"

/* json_replay_put - append the object. ret as json_end. */
enum status json_replay_put(const struct json_head *head, const struct replay_report *r,
                            struct text *out) MUST_CHECK;

#endif
