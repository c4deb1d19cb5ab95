/* json_error.h - the object of a bad profile, trip or log: every mistake, nothing computed. */
#ifndef SANDSHOE_REPORT_JSON_ERROR_H
#define SANDSHOE_REPORT_JSON_ERROR_H

#include "base/diag.h"
#include "base/status.h"
#include "base/text.h"

/* json_error_put - append {tool, version, status: 3, errors: [{file, line, section, key, text}]}.
 * ret as json_end. */
enum status json_error_put(const struct diag_list *diags, struct text *out) MUST_CHECK;

#endif
