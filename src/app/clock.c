#include "app/clock.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>
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

static bool local_now(struct tm *day)
{
    time_t now = time(NULL);
    return localtime_r(&now, day) != NULL;
}

void clock_wall(char wall[CLOCK_WALL])
{
    struct tm day;
    if (!local_now(&day) || strftime(wall, CLOCK_WALL, "%Y-%m-%dT%H:%M:%S%z", &day) == 0) {
        wall[0] = '\0';
    }
}

void clock_wall_name(char name[CLOCK_WALL])
{
    struct tm day;
    if (!local_now(&day) || strftime(name, CLOCK_WALL, "%Y-%m-%d-%H%M%S", &day) == 0) {
        snprintf(name, CLOCK_WALL, "undated");
    }
}

bool clock_wall_since(const char *wall, double *since_s)
{
    struct tm then = {.tm_isdst = -1};
    const char *end = strptime(wall, "%Y-%m-%dT%H:%M:%S%z", &then);
    long east_s = then.tm_gmtoff;
    if (!end || *end != '\0') {
        return false;
    }
    *since_s = difftime(time(NULL), timegm(&then) - east_s);
    return true;
}

/* The start's name: the first half of the kernel's random one. */
static void boot_name(char name[16])
{
    FILE *f = fopen("/proc/sys/kernel/random/boot_id", "re");
    if (!f || fscanf(f, "%13[0-9a-f-]", name) != 1) {
        snprintf(name, 16, "unknown");
    }
    if (f) {
        fclose(f);
    }
}

void clock_boot(char boot[CLOCK_BOOT])
{
    char name[16];
    boot_name(name);
    snprintf(boot, CLOCK_BOOT, "%s+%.3f", name, (double)clock_now_ns() / 1e9);
}

bool clock_boot_since(const char *boot, double *since_s)
{
    char name[16];
    boot_name(name);
    size_t n = strlen(name);
    char *end = NULL;
    if (strcmp(name, "unknown") == 0 || strncmp(boot, name, n) != 0 || boot[n] != '+') {
        return false;
    }
    double age_s = strtod(boot + n + 1, &end);
    *since_s = (double)clock_now_ns() / 1e9 - age_s;
    return *end == '\0' && *since_s >= 0;
}
