/* trip_card.h - a trip's plan as the content of a card: the legs are the rows. */
#ifndef SANDSHOE_CARD_TRIP_CARD_H
#define SANDSHOE_CARD_TRIP_CARD_H

#include "base/status.h"
#include "card/content.h"
#include "sim/trip.h"

struct card_trip_source {
    const struct trip_in *in;
    const struct trip_plan *plan; /* of in */
    enum unit_system units;
    const char *date; /* as printed */
};

/* card_content_of_trip - the card of a trip.
 *
 *   out  content  untouched on error
 *   ret  STATUS_OK; E_REFUSED; E_FULL (more legs or cautions than any card holds); E_DOMAIN
 */
enum status card_content_of_trip(const struct card_trip_source *source,
                                 struct card_content *content) MUST_CHECK;

#endif
