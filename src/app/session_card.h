/* session_card.h - the glovebox card as the session asks for it. */
#ifndef SANDSHOE_APP_SESSION_CARD_H
#define SANDSHOE_APP_SESSION_CARD_H

#include "core/ground.h"
#include "core/rig.h"
#include "core/trip_plan.h"
#include "tui/host.h"

/* session_card - the card of a rig as a PDF in the current folder, under a name that is free; path
 * is where it went, message why there is none. */
bool session_card(const struct rig *rig, const struct ground_list *grounds,
                  const struct conditions *day, enum unit_system u, const char *size,
                  char path[HOST_PATH], struct text *message);

/* session_trip_card - the card of a trip with a rig, A6, likewise. */
bool session_trip_card(const struct rig *rig, const struct trip *trip,
                       const struct ground_list *grounds, enum unit_system u, char path[HOST_PATH],
                       struct text *message);

/* session_print - hand a file to lp; message says what came of it. */
bool session_print(const char *path, struct text *message);

#endif
