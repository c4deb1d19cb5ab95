/* clock.h - the only part that asks what time it is. */
#ifndef SANDSHOE_APP_CLOCK_H
#define SANDSHOE_APP_CLOCK_H

#include <stdint.h>

enum { CLOCK_DATE = 16 };

/* clock_today - today as "2026-05-02", local time; SOURCE_DATE_EPOCH (seconds, UTC) stands in for
 * today so that a card can be made again byte for byte. "" when there is no calendar. */
void clock_today(char date[CLOCK_DATE]);

/* clock_now_ns - ns since the machine started, time asleep counted where the kernel can. */
int64_t clock_now_ns(void);

#endif
