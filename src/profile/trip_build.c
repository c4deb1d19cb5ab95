#include <stdio.h>

#include "base/dist.h"
#include "profile/build.h"

static void check_ground(struct build *b, const char *leg, const struct ground_list *grounds)
{
    const struct ini_entry *e = ini_find(b->ini, leg, "ground");
    if (!e || !grounds || ground_find(grounds, e->value)) {
        return;
    }
    const char *names[GROUND_MAX];
    for (int i = 0; i < grounds->n; i++) {
        names[i] = grounds->item[i].name;
    }
    int near = dist_nearest(e->value, names, (size_t)grounds->n, 3);
    build_says(b, leg, "ground", STATUS_E_UNKNOWN, "no ground %s is known%s%s%s", e->value,
               near >= 0 ? " (did you mean " : "", near >= 0 ? names[near] : "",
               near >= 0 ? "?)" : "");
}

static void build_legs(struct build *b, const struct ground_list *grounds, struct trip *trip)
{
    int highest = 0;
    for (int i = 0; i < b->ini->n; i++) {
        int number = 0;
        const struct schema_section_row *row =
            schema_section(PROFILE_TRIP, b->ini->entry[i].section, &number);
        highest = row && number > highest ? number : highest;
    }
    if (highest == 0) {
        build_says(b, "leg-1", "", STATUS_E_MISSING, "the section is missing (required)");
    }
    for (int n = 1; n <= highest; n++) {
        char name[16];
        snprintf(name, sizeof name, "leg-%d", n);
        if (!build_has(b, name, "")) {
            build_says(b, name, "", STATUS_E_MISSING, "the section is missing (legs count from 1)");
            continue;
        }
        build_fill(b, SECTION_LEG, name, &trip->leg[trip->n_leg++]);
        check_ground(b, name, grounds);
    }
}

enum status trip_from_ini(const struct ini *ini, const struct ground_list *grounds,
                          struct trip *trip, struct diag_list *diags)
{
    struct build b = {.ini = ini, .kind = PROFILE_TRIP, .diags = diags};
    struct trip built = {.n_leg = 0};
    if (ini->n_file > 0) {
        diag_copy(built.path, sizeof built.path, ini->file[0]);
    }
    build_check(&b);
    if (build_has(&b, "trip", "")) {
        build_fill(&b, SECTION_TRIP, "trip", &built);
    }
    build_legs(&b, grounds, &built);
    if (b.bad > 0) {
        return STATUS_E_SYNTAX;
    }
    *trip = built;
    return STATUS_OK;
}

enum status trip_load(const char *path, const struct ground_list *grounds, struct ini *ini,
                      struct trip *trip, struct diag_list *diags)
{
    ini->n = ini->n_file = 0;
    enum status s = profile_read(path, ini, diags);
    if (s == STATUS_E_SYNTAX) {
        build_check_entries(ini, PROFILE_TRIP, diags);
    }
    return s < 0 ? s : trip_from_ini(ini, grounds, trip, diags);
}
