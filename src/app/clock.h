/* clock.h - the only part that asks what time it is. */
#ifndef SANDSHOE_APP_CLOCK_H
#define SANDSHOE_APP_CLOCK_H

#include <stdbool.h>
#include <stdint.h>

enum { CLOCK_DATE = 16, CLOCK_WALL = 32, CLOCK_BOOT = 48 };

/* clock_today - today as "2026-05-02", local time; SOURCE_DATE_EPOCH (seconds, UTC) stands in for
 * today so that a card can be made again byte for byte. "" when there is no calendar. */
void clock_today(char date[CLOCK_DATE]);

/* clock_wall - calendar time of the machine, "2026-05-02T14:07:31+0200"; clock_wall_name - the same as
 * part of a file's name, "2026-05-02-140731". "" and "undated" when there is no calendar. */
void clock_wall(char wall[CLOCK_WALL]);
void clock_wall_name(char name[CLOCK_WALL]);

/* clock_wall_since - seconds of the calendar since a time that clock_wall gave; false: unreadable. */
bool clock_wall_since(const char *wall, double *since_s);

/* clock_boot - this start of the machine and its age, "1c9d1f0e-3a52+5321.250"; clock_boot_since -
 * seconds since, sleep counted; false: that was another start of the machine. */
void clock_boot(char boot[CLOCK_BOOT]);
bool clock_boot_since(const char *boot, double *since_s);

/* clock_now_ns - ns since the machine started, time asleep counted where the kernel can. */
int64_t clock_now_ns(void);

#endif
