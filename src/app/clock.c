#include "app/clock.h"

#include <stdlib.h>
#include <time.h>

void clock_today(char date[CLOCK_DATE])
{
    const char *fixed = getenv("SOURCE_DATE_EPOCH");
    time_t now = fixed ? (time_t)strtoll(fixed, NULL, 10) : time(NULL);
    struct tm day;
    const struct tm *known = fixed ? gmtime_r(&now, &day) : localtime_r(&now, &day);
    if (!known || strftime(date, CLOCK_DATE, "%Y-%m-%d", known) == 0) {
        date[0] = '\0';
    }
}

int64_t clock_now_ns(void)
{
    struct timespec t;
    if (clock_gettime(CLOCK_BOOTTIME, &t) != 0 && clock_gettime(CLOCK_MONOTONIC, &t) != 0) {
        return 0;
    }
    return (int64_t)t.tv_sec * 1000000000 + t.tv_nsec;
}
