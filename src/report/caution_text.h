/* caution_text.h - cautions, refusals and the order of deference as lines. */
#ifndef SANDSHOE_REPORT_CAUTION_TEXT_H
#define SANDSHOE_REPORT_CAUTION_TEXT_H

#include "core/caution.h"
#include "core/refusal.h"

/* caution_text_put - append the cautions of a list, DANGER first, in each level what arises from
 * the inputs before the standing reminders. */
void caution_text_put(const struct caution_list *list, enum unit_system u, struct text *out);

/* refusal_text_put - append "REFUSED", the reason and the way out. */
void refusal_text_put(const struct refusal *r, enum unit_system u, struct text *out);

/* cautions_end - end a report: the cautions between blank lines, then whom to trust, in order. */
void cautions_end(const struct caution_list *list, enum unit_system u, struct text *out);

#endif
