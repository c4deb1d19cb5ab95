/* working_text.h - the working as text: every number with equation, inputs, source, standing. */
#ifndef SANDSHOE_REPORT_WORKING_TEXT_H
#define SANDSHOE_REPORT_WORKING_TEXT_H

#include "core/working.h"

/* working_text_put - append a heading and every row. */
void working_text_put(const struct working *w, enum unit_system u, struct text *out);

#endif
