/* words.h - the short words of axles and corners that every card uses. */
#ifndef SANDSHOE_CARD_WORDS_H
#define SANDSHOE_CARD_WORDS_H

#include "base/text.h"
#include "card/content.h"
#include "core/rig.h"

/* card_axle_word, card_axle_brief - "FRONT" and "F". */
const char *card_axle_word(int axle);
const char *card_axle_brief(int axle);

/* card_corner_word - "LF": left or right first, then the axle. */
const char *card_corner_word(int axle, int side);

/* card_put_minutes - append whole minutes, rounded up. */
void card_put_minutes(double time_s, struct text *out);

/* card_put_capitals - append s with its ASCII letters in capitals. */
void card_put_capitals(const char *s, struct text *out);

/* card_add_corner_names - the corners of a rig without loads and patches. */
void card_add_corner_names(const struct rig *rig, struct card_content *c);

#endif
