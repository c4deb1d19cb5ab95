#include <string.h>

#include "profile/build.h"

enum status compressor_from_ini(const struct ini *ini, struct compressor *c,
                                struct diag_list *diags)
{
    struct build b = {.ini = ini, .kind = PROFILE_COMPRESSOR, .diags = diags};
    struct compressor built = {.n_flow = 0};
    build_check(&b);
    if (build_has(&b, "compressor", "")) {
        build_fill(&b, SECTION_COMPRESSOR, "compressor", &built);
        bool flow = build_has(&b, "compressor", "flow");
        bool swept = build_has(&b, "compressor", "swept");
        if (flow == swept) {
            build_says(&b, "compressor", "flow", STATUS_E_MISSING,
                       flow ? "give flow or swept, not both" : "missing (give flow or swept)");
        }
    }
    if (b.bad > 0) {
        return STATUS_E_SYNTAX;
    }
    *c = built;
    return STATUS_OK;
}

enum status compressor_load(const char *path, struct ini *ini, struct compressor *c,
                            struct diag_list *diags)
{
    ini->n = ini->n_file = 0;
    enum status s = profile_read(path, ini, diags);
    if (s == STATUS_E_SYNTAX) {
        build_check_entries(ini, PROFILE_COMPRESSOR, diags);
    }
    return s < 0 ? s : compressor_from_ini(ini, c, diags);
}

static void stem_of(const char *path, char stem[RIG_NAME])
{
    const char *slash = strrchr(path, '/');
    const char *base = slash ? slash + 1 : path;
    size_t n = strlen(base);
    if (n > 4 && strcmp(base + n - 4, ".ini") == 0) {
        n -= 4;
    }
    struct text t = text_over(stem, RIG_NAME);
    text_put(&t, "%.*s", (int)n, base);
}

void compressor_list_add(struct compressor_list *list, const char *path, const struct compressor *c)
{
    char stem[RIG_NAME];
    stem_of(path, stem);
    if (list->n == COMPRESSOR_MAX || compressor_find(list, stem)) {
        return;
    }
    memcpy(list->stem[list->n], stem, sizeof stem);
    list->item[list->n++] = *c;
}

const struct compressor *compressor_find(const struct compressor_list *list, const char *name)
{
    for (int i = 0; i < list->n; i++) {
        if (strcmp(list->stem[i], name) == 0 || strcmp(list->item[i].name, name) == 0) {
            return &list->item[i];
        }
    }
    return NULL;
}
