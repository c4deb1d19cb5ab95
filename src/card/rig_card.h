/* rig_card.h - a rig, its advice for each ground and its refill, as the content of a card. */
#ifndef SANDSHOE_CARD_RIG_CARD_H
#define SANDSHOE_CARD_RIG_CARD_H

#include "base/status.h"
#include "card/content.h"
#include "core/advice.h"
#include "core/rig.h"
#include "sim/refill.h"

/* Where a rig's card comes from. advice[] is in the order of the rows. */
struct card_source {
    const struct rig *rig;
    int n_advice; /* >= 1 */
    const struct advice *advice;
    const struct refill_out *refill; /* NULL = no refill line */
    const char *refill_from;         /* title of the ground it starts from */
    enum unit_system units;
    const char *date; /* as printed */
};

/* card_content_of_rig - the card of a rig in one load state.
 *
 *   in   source   each advice computed for source->rig
 *   out  content  untouched on error
 *   ret  STATUS_OK; E_REFUSED (overload, multi-piece wheel: no card); E_FULL (more rows than any
 *        card holds); E_DOMAIN (no advice, a number not finite)
 *   how  a pressure is shown in whole gauge steps of the unit, never below the floor shown
 */
enum status card_content_of_rig(const struct card_source *source,
                                struct card_content *content) MUST_CHECK;

/* card_softest - index of the advice with the lowest targets against the road's, or -1. */
int card_softest(int n, const struct advice advice[]);

#endif
