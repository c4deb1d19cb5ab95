/* advise_text.h - an advice for people: 80 columns, plain characters. */
#ifndef SANDSHOE_REPORT_ADVISE_TEXT_H
#define SANDSHOE_REPORT_ADVISE_TEXT_H

#include "core/advice.h"

/* advise_text_put - append the report of an advice, or of its refusal. */
void advise_text_put(const struct advice *a, enum unit_system u, struct text *out);

#endif
