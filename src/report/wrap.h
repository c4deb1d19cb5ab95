/* wrap.h - words in columns. */
#ifndef SANDSHOE_REPORT_WRAP_H
#define SANDSHOE_REPORT_WRAP_H

#include "base/text.h"

enum { WRAP_WIDTH = 79 };

/* wrap_put - append words after a label: the label stands at the margin, the words start at
 * column indent and go on there on every line, none wider than WRAP_WIDTH (a longer word stands
 * alone). Ends in a newline. */
void wrap_put(struct text *out, int indent, const char *label, const char *words);

#endif
