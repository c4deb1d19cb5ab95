/* flotation_text.h - what the ground must carry, in words; the method is always named. */
#ifndef SANDSHOE_REPORT_FLOTATION_TEXT_H
#define SANDSHOE_REPORT_FLOTATION_TEXT_H

#include "core/flotation.h"

/* flotation_text_put - append one labelled paragraph; nothing on firm ground. */
void flotation_text_put(const struct flotation *f, const struct ground *g, enum unit_system u,
                        struct text *out);

#endif
