#include <string.h>

#include "profile/build.h"

static void need(struct build *b, const char *name, const char *key, const char *why)
{
    if (!build_has(b, name, key)) {
        build_says(b, name, key, STATUS_E_MISSING, "missing (%s)", why);
    }
}

static void check_strength(struct build *b, const struct ground *g)
{
    bool soil = build_has(b, g->name, "soil") && build_has(b, g->name, "moisture");
    if (g->kind == GROUND_SNOW) {
        need(b, g->name, "density", "snow is judged by density and depth");
        need(b, g->name, "depth", "snow is judged by density and depth");
    } else if (g->kind == GROUND_SAND) {
        need(b, g->name, "strength", "sand is judged by its cone index");
    } else if (g->kind == GROUND_FINE && !soil) {
        need(b, g->name, "strength", "or give soil and moisture instead");
    }
}

static void check_aim(struct build *b, struct ground *g)
{
    g->road = !build_has(b, g->name, "aim");
    if (g->road) {
        if (g->kind != GROUND_FIRM && g->kind != GROUND_ICE) {
            need(b, g->name, "aim", "only firm ground and ice may keep road pressure");
        }
        return;
    }
    need(b, g->name, "limit", "an aim needs its limit");
    if (!build_has(b, g->name, "aim_low")) {
        g->aim_low_1 = g->aim_1;
    }
    if (!build_has(b, g->name, "aim_high")) {
        g->aim_high_1 = g->aim_1;
    }
    if (g->aim_low_1 > g->aim_1 || g->aim_1 > g->aim_high_1 ||
        (g->limit_1 > 0.0 && g->aim_high_1 > g->limit_1)) {
        build_says(b, g->name, "aim", STATUS_E_DOMAIN,
                   "must stand in order: aim_low, aim, aim_high, limit");
    }
}

static void build_ground(struct build *b, const char *name, struct ground *g)
{
    int before = b->bad;
    diag_copy(g->name, sizeof g->name, name);
    build_fill(b, SECTION_GROUND, name, g);
    if (b->bad == before) {
        check_strength(b, g);
        check_aim(b, g);
    }
}

static void add_ground(struct build *b, const struct ini_entry *e, struct ground_list *list)
{
    if (ini_find(b->ini, e->section, "") != e) {
        return; /* a later file adds to an earlier one's ground */
    }
    if (strlen(e->section) >= GROUND_NAME) {
        build_says(b, e->section, "", STATUS_E_FULL, "the name is too long (at most %d bytes)",
                   GROUND_NAME - 1);
    } else if (list->n == GROUND_MAX) {
        build_says(b, e->section, "", STATUS_E_FULL, "too many grounds (at most %d)", GROUND_MAX);
    } else {
        build_ground(b, e->section, &list->item[list->n++]);
    }
}

enum status grounds_from_ini(const struct ini *ini, struct ground_list *list,
                             struct diag_list *diags)
{
    struct build b = {.ini = ini, .kind = PROFILE_GROUNDS, .diags = diags};
    struct ground_list built = {.n = 0};
    build_check(&b);
    for (int i = 0; i < ini->n; i++) {
        if (ini->entry[i].key[0] == '\0') {
            add_ground(&b, &ini->entry[i], &built);
        }
    }
    if (b.bad > 0) {
        return STATUS_E_SYNTAX;
    }
    *list = built;
    return STATUS_OK;
}
