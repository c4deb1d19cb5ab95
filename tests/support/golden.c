#include "support/golden.h"

#include <stdio.h>
#include <stdlib.h>

#include "base/text.h"
#include "support/check.h"

enum { GOLDEN_MAX = 256 * 1024 };

static void write_golden(const char *path, const char *got)
{
    FILE *f = fopen(path, "wb");
    if (!f || fputs(got, f) < 0 || fclose(f) != 0) {
        fail_msg("cannot write %s", path);
    }
}

void golden_check_at(const char *name, const char *got, const char *file, int line)
{
    static char want[GOLDEN_MAX];
    char path[512];
    struct text p = text_over(path, sizeof path);
    text_put(&p, "%s/tests/golden/%s", SANDSHOE_SRCDIR, name);
    if (getenv("UPDATE")) {
        write_golden(path, got);
    }
    FILE *f = fopen(path, "rb");
    size_t n = f ? fread(want, 1, sizeof want - 1, f) : 0;
    want[n] = '\0';
    if (!f) {
        fail_msg("no golden %s: run with UPDATE=1 and review it", path);
    } else {
        fclose(f);
    }
    check_text_at(got, want, file, line);
}
