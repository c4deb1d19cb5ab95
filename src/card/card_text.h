/* card_text.h - the card as plain text that fits the printer grid of its size (10 characters and
 * 6 lines an inch). */
#ifndef SANDSHOE_CARD_CARD_TEXT_H
#define SANDSHOE_CARD_CARD_TEXT_H

#include "base/status.h"
#include "base/text.h"
#include "card/content.h"
#include "card/layout.h"

enum { CARD_TEXT_MAX = 8192 };

/* card_text_front - append the front of a card.
 *
 *   in   content, size
 *   out  out      lines, each ended; untouched on error
 *   out  problem  on error: what is wrong, and how many rows would fit
 *   ret  STATUS_OK; E_FULL
 *   how  what is least important gives way first: the second line of the heading, the second
 *        unit, the plan
 */
enum status card_text_front(const struct card_content *content, enum card_size size,
                            struct text *out, struct card_problem *problem) MUST_CHECK;

/* card_text_log - append side 2, the empty log grid.  As card_text_front. */
enum status card_text_log(const struct card_content *content, enum card_size size, struct text *out,
                          struct card_problem *problem) MUST_CHECK;

/* card_text_fold - append the line that a folded sheet is folded at. */
void card_text_fold(enum card_size size, struct text *out);

#endif
