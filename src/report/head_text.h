/* head_text.h - what heads a report: rig, load state, ground, day. */
#ifndef SANDSHOE_REPORT_HEAD_TEXT_H
#define SANDSHOE_REPORT_HEAD_TEXT_H

#include "core/advice.h"

enum { HEAD_COLUMN = 9 };

/* head_rig_put - the rig's name and its load state in capitals. */
void head_rig_put(const struct rig *rig, struct text *out);

/* head_ground_put - the ground, its aim and limit, its hazards. */
void head_ground_put(const struct ground *g, struct text *out);

/* head_day_put - air, height, tyres, and what the pressures are. tyre_k: of the tyres now;
 * road_k: that cold pressures belong to. */
void head_day_put(const struct conditions *c, double tyre_k, double road_k, enum unit_system u,
                  struct text *out);

#endif
