#include <string.h>

#include "base/dist.h"
#include "core/load.h"
#include "core/loadindex.h"
#include "core/loadrange.h"
#include "core/tyre.h"
#include "profile/build.h"

#define GENERIC "twin-12v"

static const double CUT_IN_BELOW_PA = 30.0 * UNITS_PA_PER_PSI; /* Pa, common practice */

/* keys that mean nothing without another, or without one of two: a chalk print stands alone */
static const struct {
    const char *key, *needs, *or_else;
} TOGETHER[] = {
    {"cal_pressure", "cal_height", "cal_patch_length"},
    {"cal_height", "cal_pressure", NULL},
    {"cal2_pressure", "cal2_height", NULL},
    {"cal2_height", "cal2_pressure", NULL},
    {"cal2_pressure", "cal_height", NULL},
    {"cal_patch_length", "cal_pressure", NULL},
    {"cal_patch_width", "cal_patch_length", NULL},
    {"cal_load", "cal_pressure", NULL},
};

static void check_together(struct build *b, const char *axle)
{
    for (size_t i = 0; i < sizeof TOGETHER / sizeof TOGETHER[0]; i++) {
        const char *other = TOGETHER[i].or_else;
        if (build_has(b, axle, TOGETHER[i].key) && !build_has(b, axle, TOGETHER[i].needs) &&
            !(other && build_has(b, axle, other))) {
            build_says(b, axle, TOGETHER[i].key, STATUS_E_MISSING, "needs %s%s%s beside it",
                       TOGETHER[i].needs, other ? " or " : "", other ? other : "");
        }
    }
}

/* What the size text says counts where the keys are silent; where both speak they must agree. */
static void merge_size(struct build *b, const char *name, struct axle *a)
{
    struct tyre_spec *t = &a->tyre;
    int index = a->wheels == 4 && t->size.load_index_dual > 0 ? t->size.load_index_dual
                                                              : t->size.load_index;
    if (t->load_index == 0) {
        t->load_index = index;
    } else if (index != 0 && index != t->load_index) {
        build_says(b, name, "load_index", STATUS_E_DOMAIN, "the tyre's text says %d: one is wrong",
                   index);
    }
    if (t->load_range == 0) {
        t->load_range = t->size.load_range;
    } else if (t->size.load_range != 0 && t->size.load_range != t->load_range) {
        build_says(b, name, "load_range", STATUS_E_DOMAIN, "the tyre's text says %c: one is wrong",
                   t->size.load_range);
    }
    if (t->speed_symbol[0] == '\0') {
        diag_copy(t->speed_symbol, sizeof t->speed_symbol, t->size.speed_symbol);
    }
}

static void check_rating(struct build *b, const char *name, struct axle *a)
{
    struct tyre_spec *t = &a->tyre;
    if (!build_has(b, name, "max_load")) {
        if (t->load_index == 0) {
            build_says(b, name, "max_load", STATUS_E_MISSING,
                       "missing (give max_load as moulded, or load_index)");
        } else if (loadindex_kg(t->load_index, &t->max_load_kg) < 0) {
            build_says(b, name, "tyre", STATUS_E_DOMAIN, "load index %d is outside 60 to 179",
                       t->load_index);
        }
    }
    if (!build_has(b, name, "max_pressure")) {
        if (t->load_range == 0) {
            build_says(b, name, "max_pressure", STATUS_E_MISSING,
                       "missing (give max_pressure as moulded, or load_range)");
        } else if (loadrange_usual_pressure(&t->size, t->load_range, &t->max_gauge_pa) < 0) {
            build_says(b, name, "max_pressure", STATUS_E_MISSING,
                       "missing (load range %c has no usual pressure on this size)", t->load_range);
        }
    }
}

static bool tyre_reads(const struct build *b, const char *name)
{
    const struct ini_entry *e = ini_find(b->ini, name, "tyre");
    struct designation size;
    return e && designation_parse(e->value, &size) >= 0;
}

/* Measured sizes that no tyre of the designation could have. */
static bool check_sizes(struct build *b, const char *name, const struct axle *a)
{
    struct tyre_spec spec = a->tyre;
    struct tyre model;
    spec.cal = (struct tyre_calibration){.cal_gauge_pa = 0.0};
    int before = b->bad;
    if (tyre_init(&spec, &model) < 0) {
        const char *key = build_has(b, name, "outside_diameter") ? "outside_diameter"
                          : build_has(b, name, "section_width")  ? "section_width"
                                                                 : "tyre";
        build_says(b, name, key, STATUS_E_DOMAIN,
                   "no tyre has this section height for its width: check the size, "
                   "outside_diameter and section_width");
    } else if (model.tread_width_m > model.section_width_m) {
        build_says(b, name, "tread_width", STATUS_E_DOMAIN, "is wider than the section (%.0f mm)",
                   1e3 * model.section_width_m);
    } else if (a->tyre.cal.cal_height_m >= model.r0_m || a->tyre.cal.cal2_height_m >= model.r0_m) {
        build_says(b, name, a->tyre.cal.cal_height_m >= model.r0_m ? "cal_height" : "cal2_height",
                   STATUS_E_DOMAIN,
                   "a wheel centre under load stands lower than without (%.0f mm): measure again",
                   1e3 * model.r0_m);
    }
    return b->bad == before;
}

/* A tape height or print that no tyre could have is a mistake of the profile. */
static void check_calibration(struct build *b, const char *name, const struct axle *a)
{
    struct tyre_spec spec = a->tyre;
    struct tyre model;
    if (spec.cal.cal_load_kg <= 0.0) {
        double share = a->left_share_1 > 0.5 ? a->left_share_1 : 1.0 - a->left_share_1;
        int tyres = a->wheels / 2; /* of a corner */
        spec.cal.cal_load_kg = a->load_kg * share / tyres;
    }
    if (spec.cal.cal_gauge_pa > 0.0 && tyre_init(&spec, &model) == STATUS_E_MEASURE_AGAIN) {
        bool height = build_has(b, name, "cal_height");
        build_says(b, name, height ? "cal_height" : "cal_patch_length", STATUS_E_MEASURE_AGAIN,
                   height ? "no tyre of this size is that soft or stiff: measure height, outside "
                            "diameter and load again"
                          : "no tyre of this size leaves such a print: measure it again");
    }
}

static void build_axle(struct build *b, enum axle_id id, struct axle *a)
{
    const char *name = axle_name(id);
    int before = b->bad;
    if (!build_has(b, name, "")) {
        return;
    }
    a->present = true;
    build_fill(b, (enum schema_section)((unsigned)SECTION_FRONT << id), name, a);
    check_together(b, name);
    if (!tyre_reads(b, name)) {
        return;
    }
    merge_size(b, name, a);
    check_rating(b, name, a);
    if (b->bad == before && check_sizes(b, name, a) && a->load_kg > 0.0) {
        check_calibration(b, name, a);
    }
}

static void build_masses(struct build *b, struct rig *rig)
{
    for (int i = 0; i < b->ini->n; i++) {
        const struct ini_entry *e = &b->ini->entry[i];
        int number = 0;
        const struct schema_section_row *row = schema_section(PROFILE_RIG, e->section, &number);
        if (ini_find(b->ini, e->section, "") == e && row && row->section == SECTION_MASS) {
            build_fill(b, SECTION_MASS, e->section, &rig->mass[rig->n_mass++]);
        }
    }
    if (rig->n_mass > 0 && !build_has(b, "rig", "wheelbase")) {
        build_says(b, "rig", "wheelbase", STATUS_E_MISSING,
                   "missing (added masses move the axle loads by it)");
    }
}

/* Statics may leave nothing on an axle, or less. */
static void check_masses(struct build *b, const struct rig *rig)
{
    struct loads loads;
    if (rig->n_mass == 0 || b->bad > 0 || load_axles(rig, true, &loads) == STATUS_OK) {
        return;
    }
    for (int i = 0; i < b->ini->n; i++) {
        const struct ini_entry *e = &b->ini->entry[i];
        if (strncmp(e->section, "mass-", 5) == 0 && e->key[0] == '\0') {
            build_says(b, e->section, "mass", STATUS_E_DOMAIN,
                       "the added masses together leave an axle without load: "
                       "check mass and position");
            return;
        }
    }
}

void compressor_generic(struct compressor *c)
{
    static const double SWEPT_M3_S = 166e-3 / 60.0; /* m3/s, derived from common practice */
    *c = (struct compressor){.swept_m3_s = SWEPT_M3_S, .run_time_s = 900.0, .rest_time_s = 900.0};
    build_defaults(SECTION_COMPRESSOR, c);
    diag_copy(c->name, sizeof c->name, GENERIC);
}

static void say_no_compressor(struct build *b, const struct compressor_list *list, const char *name)
{
    char hint[96] = "";
    struct text t = text_over(hint, sizeof hint);
    const char *names[COMPRESSOR_MAX];
    for (int i = 0; list && i < list->n; i++) {
        names[i] = list->stem[i];
    }
    int near = list ? dist_nearest(name, names, (size_t)list->n, 3) : -1;
    if (near >= 0) {
        text_put(&t, " (did you mean %s?)", names[near]);
    }
    build_says(b, "air", "compressor", STATUS_E_UNKNOWN, "no compressor %s is known%s", name, hint);
}

/* The named profile first, so that the keys of [air] come on top of it. */
static void pick_compressor(struct build *b, const struct compressor_list *list,
                            struct compressor *c)
{
    const struct ini_entry *e = ini_find(b->ini, "air", "compressor");
    if (!e && build_has(b, "air", "flow")) {
        return;
    }
    const char *name = e ? e->value : GENERIC;
    const struct compressor *found = list ? compressor_find(list, name) : NULL;
    if (found) {
        *c = *found;
    } else if (strcmp(name, GENERIC) == 0) {
        compressor_generic(c);
    } else {
        say_no_compressor(b, list, name);
    }
}

static void check_source(struct build *b, const struct air_system *air)
{
    static const struct {
        enum air_source source;
        const char *key;
    } needs[] = {
        {AIR_REGULATOR, "regulator_pressure"},
        {AIR_TANK, "tank_volume"},
        {AIR_TANK, "tank_pressure"},
    };
    for (size_t i = 0; i < sizeof needs / sizeof needs[0]; i++) {
        if (air->source == needs[i].source && !build_has(b, "air", needs[i].key)) {
            build_says(b, "air", needs[i].key, STATUS_E_MISSING,
                       "missing (required by this source)");
        }
    }
    if (build_has(b, "air", "tank_pressure") && !build_has(b, "air", "tank_volume")) {
        build_says(b, "air", "tank_pressure", STATUS_E_MISSING, "needs tank_volume beside it");
    }
    bool cuts_out = build_has(b, "air", "cut_out") || air->compressor.cut_out_gauge_pa > 0.0;
    if (build_has(b, "air", "cut_in") && !cuts_out) {
        build_says(b, "air", "cut_in", STATUS_E_MISSING, "needs cut_out beside it");
    } else if (build_has(b, "air", "cut_in") && air->compressor.cut_out_gauge_pa > 0.0 &&
               air->cut_in_gauge_pa >= air->compressor.cut_out_gauge_pa) {
        build_says(b, "air", "cut_in", STATUS_E_DOMAIN, "must lie below cut_out");
    }
}

static void build_air(struct build *b, const struct compressor_list *list, struct rig *rig)
{
    struct air_system *air = &rig->air;
    pick_compressor(b, list, &air->compressor);
    char name[RIG_NAME];
    memcpy(name, air->compressor.name, sizeof name);
    build_fill(b, SECTION_AIR, "air", air);
    memcpy(air->compressor.name, name, sizeof name);
    if (air->gauge_step_pa <= 0.0) {
        air->gauge_step_pa = units_step(rig->units);
    }
    if (air->cut_in_gauge_pa <= 0.0 && air->compressor.cut_out_gauge_pa > 0.0) {
        double cut_in = air->compressor.cut_out_gauge_pa - CUT_IN_BELOW_PA;
        air->cut_in_gauge_pa = cut_in > 0.0 ? cut_in : 0.5 * air->compressor.cut_out_gauge_pa;
    }
    check_source(b, air);
}

static void build_extras(struct build *b, struct rig *rig)
{
    struct air_system *air = &rig->air;
    air->spare = build_has(b, "spare", "");
    air->springs = build_has(b, "springs", "");
    if (air->springs) {
        build_fill(b, SECTION_SPRINGS, "springs", air);
        if (air->springs_usual_gauge_pa > 0.0 &&
            air->springs_usual_gauge_pa < air->springs_minimum_gauge_pa) {
            build_says(b, "springs", "usual", STATUS_E_DOMAIN, "lies below minimum");
        }
    }
    if (!air->spare) {
        return;
    }
    build_fill(b, SECTION_SPARE, "spare", air);
    struct tyre model;
    double volume_m3 = 0.0;
    if (air->spare_volume_m3 <= 0.0 && tyre_init(&rig->axle[AXLE_REAR].tyre, &model) >= 0 &&
        tyre_air_volume(&model, &volume_m3) >= 0) {
        air->spare_volume_m3 = volume_m3;
    }
}

/* The rig is read in the unit of its first road pressure. */
static enum unit_system unit_of(const struct ini *ini)
{
    for (int id = AXLE_FRONT; id < AXLE_COUNT; id++) {
        const struct ini_entry *e = ini_find(ini, axle_name((enum axle_id)id), "road_pressure");
        for (int u = UNITS_PSI; e && u <= UNITS_KPA; u++) {
            if (strstr(e->value, units_symbol(Q_PRESSURE, (enum unit_system)u))) {
                return (enum unit_system)u;
            }
        }
    }
    return UNITS_PSI;
}

static void build_rig(struct build *b, const struct compressor_list *list, struct rig *rig)
{
    if (build_has(b, "rig", "")) {
        build_fill(b, SECTION_RIG, "rig", rig);
    }
    rig->units = unit_of(b->ini);
    for (int id = AXLE_FRONT; id < AXLE_COUNT; id++) {
        build_axle(b, (enum axle_id)id, &rig->axle[id]);
    }
    if (rig->axle[AXLE_TRAILER2].present && !rig->axle[AXLE_TRAILER].present) {
        build_says(b, "trailer2", "", STATUS_E_MISSING, "needs [trailer] before it");
    }
    build_masses(b, rig);
    build_air(b, list, rig);
    build_extras(b, rig);
    check_masses(b, rig);
}

enum status rig_from_ini(const struct ini *ini, const struct compressor_list *list, struct rig *rig,
                         struct diag_list *diags)
{
    struct build b = {.ini = ini, .kind = PROFILE_RIG, .diags = diags};
    struct rig built = {.n_mass = 0};
    if (ini->n_file > 0) {
        diag_copy(built.path, sizeof built.path, ini->file[0]);
    }
    build_check(&b);
    build_rig(&b, list, &built);
    if (b.bad > 0) {
        return STATUS_E_SYNTAX;
    }
    *rig = built;
    return STATUS_OK;
}

enum status rig_load(const char *path, int n_set, const char *const set[],
                     const struct compressor_list *list, struct ini *ini, struct rig *rig,
                     struct diag_list *diags)
{
    ini->n = ini->n_file = 0;
    enum status s = profile_read(path, ini, diags);
    for (int i = 0; i < n_set && s != STATUS_E_SYSTEM; i++) {
        s = status_worse(s, profile_set(ini, set[i], diags));
    }
    if (s < 0 && s != STATUS_E_SYSTEM) {
        build_check_entries(ini, PROFILE_RIG, diags);
        return STATUS_E_SYNTAX;
    }
    return s < 0 ? s : rig_from_ini(ini, list, rig, diags);
}

void rig_defaults(struct rig *rig)
{
    *rig = (struct rig){.axle[AXLE_FRONT].present = true, .axle[AXLE_REAR].present = true};
    build_defaults(SECTION_RIG, rig);
    build_defaults(SECTION_FRONT, &rig->axle[AXLE_FRONT]);
    build_defaults(SECTION_REAR, &rig->axle[AXLE_REAR]);
    compressor_generic(&rig->air.compressor);
    build_defaults(SECTION_AIR, &rig->air);
    rig->air.gauge_step_pa = units_step(UNITS_PSI);
}
