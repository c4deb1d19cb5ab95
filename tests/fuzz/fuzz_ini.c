/* fuzz_ini.c - what the strict scan accepts, iniparser must give back the same: same entries, same
 * order, same values. A memory file gives iniparser a path. The loaders then run over the entries. */
#define _GNU_SOURCE /* memfd_create */
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/mman.h>
#include <unistd.h>

#include <iniparser/iniparser.h>

#include "profile/profile.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static struct ini ini;
static struct diag_list diags;

static void wrong(const char *what)
{
    fprintf(stderr, "fuzz_ini: %s\n", what);
    abort();
}

static void compare(const dictionary *d)
{
    if (!d || d->n != ini.n) {
        wrong("iniparser counts other entries than the scan");
    }
    for (int i = 0; i < ini.n; i++) {
        const struct ini_entry *e = &ini.entry[i];
        char name[2 * INI_NAME + 2];
        snprintf(name, sizeof name, "%s%s%s", e->section, e->key[0] != '\0' ? ":" : "", e->key);
        if (!d->key[i] || strcmp(d->key[i], name) != 0) {
            wrong("another key");
        }
        const char *value = iniparser_getstring(d, name, NULL);
        if (e->key[0] == '\0' ? value != NULL : !value || strcmp(value, e->value) != 0) {
            wrong("another value");
        }
    }
}

static enum status run_loader(void)
{
    static struct ground_list grounds;
    struct rig rig;
    struct compressor c;
    struct trip trip;
    switch (profile_guess(&ini)) {
    case PROFILE_RIG:
        return rig_from_ini(&ini, NULL, &rig, &diags);
    case PROFILE_COMPRESSOR:
        return compressor_from_ini(&ini, &c, &diags);
    case PROFILE_TRIP:
        return trip_from_ini(&ini, NULL, &trip, &diags);
    case PROFILE_GROUNDS:
    case PROFILE_KINDS:
        break;
    }
    return grounds_from_ini(&ini, &grounds, &diags);
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    char path[64];
    ini.n = ini.n_file = 0;
    diags.n = diags.dropped = 0;
    if (size > INI_FILE) {
        return 0;
    }
    enum status s = ini_scan((const char *)data, size, "fuzz", &ini, &diags);
    if ((s == STATUS_OK) != (diags.n == 0)) {
        wrong("a status without its message");
    }
    if (s == STATUS_OK) {
        int fd = memfd_create("fuzz", 0);
        if (fd < 0 || write(fd, data, size) != (ssize_t)size) {
            wrong("no memory file");
        }
        snprintf(path, sizeof path, "/proc/self/fd/%d", fd);
        dictionary *d = iniparser_load(path);
        compare(d);
        iniparser_freedict(d);
        close(fd);
    }
    int before = diags.n;
    s = run_loader();
    if ((s == STATUS_OK) != (diags.n == before) && before < DIAG_MAX) {
        wrong("a loader's status without its message");
    }
    return 0;
}
