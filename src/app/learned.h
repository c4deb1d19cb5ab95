/* learned.h - what finished refills taught of each air system, in one small text file:
 *
 *   ID<TAB>log mean<TAB>log sd<TAB>air drawn, K<TAB>ambient, Pa      oldest first */
#ifndef SANDSHOE_APP_LEARNED_H
#define SANDSHOE_APP_LEARNED_H

#include "base/status.h"
#include "base/text.h"
#include "sim/forecast.h"

enum { LEARNED_MAX = 12, LEARNED_ID = 160 }; /* lessons kept of one air system */

struct learned_list {
    int n;
    struct forecast_learned item[LEARNED_MAX];
};

/* learned_read - the lessons of an air system; none when the file is not there. Lines that cannot be
 * read are passed over. */
void learned_read(const char *path, const char *id, struct learned_list *list);

/* learned_add - one more; the oldest beyond LEARNED_MAX goes. The old file or the new one is there. */
enum status learned_add(const char *path, const char *id, const struct forecast_learned *lesson,
                        struct text *why) MUST_CHECK;

/* learned_forget - all of an air system. */
enum status learned_forget(const char *path, const char *id, struct text *why) MUST_CHECK;

/* learned_ids - the air systems in the file, each once; returns how many, at most max. */
int learned_ids(const char *path, int max, char id[][LEARNED_ID]);

#endif
