#include <string.h>

#include "profile/build.h"
#include "profile/value.h"

#define FROM "as entered"

struct writer {
    struct ini *ini;
    enum unit_system u;
    enum status status;
};

static bool is_default(const struct schema_row *row, const char *text, enum unit_system u)
{
    union {
        struct rig rig;
        struct axle axle;
        struct air_system air;
    } blank;
    struct value v;
    char buf[INI_VALUE];
    struct text t = text_over(buf, sizeof buf);
    if (row->need != NEED_DEFAULT || value_read(row, row->standard, &v, &t) < 0) {
        return false;
    }
    memset(&blank, 0, sizeof blank);
    value_store(row, &v, &blank);
    text_clear(&t);
    value_put(row, &blank, u, &t);
    return strcmp(buf, text) == 0;
}

/* Keys of [air] that the compressor's own profile answers. */
static bool told_by_name(const struct schema_row *row, const struct compressor *c)
{
    static const char *const keys[] = {"flow", "run_time", "rest_time", "cut_out"};
    for (size_t i = 0; c->name[0] != '\0' && i < sizeof keys / sizeof keys[0]; i++) {
        if (strcmp(row->key, keys[i]) == 0) {
            return true;
        }
    }
    return false;
}

static void write_section(struct writer *w, enum schema_section section, const char *name,
                          const void *from)
{
    size_t n = 0;
    const struct schema_row *rows = schema_rows(&n);
    for (size_t i = 0; i < n; i++) {
        char buf[INI_VALUE];
        struct text t = text_over(buf, sizeof buf);
        bool mine = (rows[i].sections & (unsigned)section) != 0;
        if (!mine || (section == SECTION_AIR &&
                      told_by_name(&rows[i], &((const struct air_system *)from)->compressor))) {
            continue;
        }
        value_put(&rows[i], from, w->u, &t);
        if (t.len > 0 && !is_default(&rows[i], buf, w->u)) {
            w->status = status_worse(w->status, profile_put(w->ini, name, rows[i].key, buf, FROM));
        }
    }
}

static void write_masses(struct writer *w, const struct rig *rig)
{
    for (int i = 0; i < rig->n_mass; i++) {
        char name[16];
        struct text t = text_over(name, sizeof name);
        text_put(&t, "mass-%d", i + 1);
        write_section(w, SECTION_MASS, name, &rig->mass[i]);
    }
}

enum status rig_to_ini(const struct rig *rig, struct ini *ini)
{
    struct writer w = {.ini = ini, .u = rig->units};
    ini->n = ini->n_file = 0;
    write_section(&w, SECTION_RIG, "rig", rig);
    for (int id = AXLE_FRONT; id < AXLE_COUNT; id++) {
        if (rig->axle[id].present) {
            write_section(&w, (enum schema_section)((unsigned)SECTION_FRONT << id),
                          axle_name((enum axle_id)id), &rig->axle[id]);
        }
    }
    write_masses(&w, rig);
    write_section(&w, SECTION_AIR, "air", &rig->air);
    if (rig->air.spare) {
        write_section(&w, SECTION_SPARE, "spare", &rig->air);
    }
    if (rig->air.springs) {
        write_section(&w, SECTION_SPRINGS, "springs", &rig->air);
    }
    return w.status;
}
