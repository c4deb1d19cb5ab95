/* replay_judge.h - what a recorded job asked of its tyres and should not have. */
#ifndef SANDSHOE_APP_REPLAY_JUDGE_H
#define SANDSHOE_APP_REPLAY_JUDGE_H

#include "app/context.h"
#include "sim/session.h"

/* What the tyres of a rig allow today, as a gauge shows it: on the ground that allows most, for a
 * record does not tell its ground. */
struct replay_limits {
    bool known; /* false: nothing can be advised for this rig */
    double max_gauge_pa[AXLE_COUNT], floor_gauge_pa[AXLE_COUNT], least_gauge_pa[AXLE_COUNT];
};

/* replay_limits_of - the limits for the rig in hand. */
struct replay_limits replay_limits_of(const struct context *c, const struct session *s);

/* replay_wheels - wheels in several pieces: refused, as everywhere. */
void replay_wheels(const struct rig *rig, struct refusal *refusal, struct caution_list *cautions);

/* replay_judge - the targets of a session, and what it read: a target below the least is refused,
 * one below the floor and any pressure above the moulded maximum is a DANGER, each told once;
 * so is a corner that had air though it stood far below its mate at the start. */
void replay_judge(const struct replay_limits *l, const struct session *s, struct refusal *refusal,
                  struct caution_list *cautions);

#endif
