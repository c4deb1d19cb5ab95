/* date.h - a calendar day as it is written, 2026-05-03. */
#ifndef SANDSHOE_BASE_DATE_H
#define SANDSHOE_BASE_DATE_H

#include "base/status.h"
#include "base/text.h"

#define DATE_FORM "YYYY-MM-DD, for example 2026-05-03"

/* date_check - whether text is a day that there is: YYYY-MM-DD in the Gregorian calendar, ISO 8601.
 *   out  why  what is wrong and what to write, when the return is below 0
 *   ret  STATUS_OK; E_SYNTAX (another form); E_DOMAIN (no such day) */
enum status date_check(const char *text, struct text *why) MUST_CHECK;

#endif
