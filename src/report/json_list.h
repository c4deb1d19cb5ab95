/* json_list.h - what is on the search path, and files that were found sound, as objects. */
#ifndef SANDSHOE_REPORT_JSON_LIST_H
#define SANDSHOE_REPORT_JSON_LIST_H

#include "base/status.h"
#include "report/list.h"

/* json_list_put - append {tool, version, status, rigs, trips, compressors, refills, grounds,
 * learned}. ret as json_end. */
enum status json_list_put(const struct list_page *page, struct text *out) MUST_CHECK;

/* json_sound_put - append {tool, version, status: 0, files: [...]} for files without a mistake.
 * ret as json_end. */
enum status json_sound_put(int n, const char *const file[], struct text *out) MUST_CHECK;

#endif
