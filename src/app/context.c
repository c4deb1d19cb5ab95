#include "app/context.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>
#include <unistd.h>

#include "base/dist.h"
#include "core/designation.h"
#include "core/load.h"
#include "core/quick.h"
#include "report/json_error.h"

enum { TROUBLE_TEXT = 32768 };

void context_say(const char *format, ...)
{
    va_list args;
    va_start(args, format);
    fputs("sandshoe: ", stderr);
    vfprintf(stderr, format, args);
    fputc('\n', stderr);
    va_end(args);
}

enum exit_status context_out(const char *text)
{
    if (fputs(text, stdout) == EOF || fflush(stdout) == EOF) {
        context_say("standard output cannot be written");
        return EXIT_SYSTEM;
    }
    return EXIT_FINE;
}

void context_mistakes(const struct diag_list *diags)
{
    static char buf[TROUBLE_TEXT];
    struct text t = text_over(buf, sizeof buf);
    diag_list_put(diags, &t);
    fputs(buf, stderr);
}

static enum exit_status tell(bool json, const struct diag_list *diags)
{
    static char buf[TROUBLE_TEXT];
    struct text t = text_over(buf, sizeof buf);
    for (int i = 0; i < diags->n; i++) {
        if (diags->item[i].code == STATUS_E_SYSTEM) { /* a file that cannot be read */
            context_mistakes(diags);
            return EXIT_SYSTEM;
        }
    }
    if (!json) {
        context_mistakes(diags);
        return EXIT_BAD_FILE;
    }
    if (json_error_put(diags, &t) != STATUS_OK) {
        context_say("the list of mistakes cannot be written as JSON");
    }
    enum exit_status s = context_out(buf);
    return s == EXIT_FINE ? EXIT_BAD_FILE : s;
}

enum exit_status context_trouble(const struct context *c)
{
    return tell(c->opt.json, &c->diags);
}

/* Compressors with mistakes are left out here: 'check' tells of them, and a rig that names one
 * hears that it is not known. */
static void load_compressors(struct context *c)
{
    static struct found_list files;
    paths_list(&c->search, "compressors", ".ini", &files);
    for (int i = 0; i < files.n; i++) {
        static struct ini ini;
        struct diag_list quiet = {.n = 0};
        struct compressor one;
        ini.n = 0;
        ini.n_file = 0;
        if (compressor_load(files.item[i].path, &ini, &one, &quiet) == STATUS_OK) {
            compressor_list_add(&c->compressors, files.item[i].path, &one);
        }
    }
}

enum status context_read_catalogues(struct context *c)
{
    load_compressors(c);
    for (int i = 0; i < c->search.n; i++) {
        char path[PATHS_LEN + 16];
        snprintf(path, sizeof path, "%s/grounds.ini", c->search.dir[i]);
        if (access(path, F_OK) != 0) {
            continue;
        }
        enum status s = profile_read(path, &c->grounds_ini, &c->diags);
        if (s != STATUS_OK) {
            return s;
        }
    }
    if (c->grounds_ini.n_file == 0) {
        return STATUS_E_MISSING;
    }
    return grounds_from_ini(&c->grounds_ini, &c->grounds, &c->diags);
}

enum exit_status context_load_grounds(struct context *c)
{
    enum status s = context_read_catalogues(c);
    if (s == STATUS_E_MISSING) {
        context_say("no grounds.ini on the search path (set SANDSHOE_DATA to the folder with it)");
        return EXIT_SYSTEM;
    }
    return s == STATUS_OK ? EXIT_FINE : context_trouble(c);
}

enum exit_status context_load_rig_named(struct context *c, const char *name)
{
    char path[PATHS_LEN];
    char why[PATHS_LEN];
    struct text w = text_over(why, sizeof why);
    if (paths_find(&c->search, "rigs", ".ini", name, path, &w) != STATUS_OK) {
        context_say("%s", why);
        return EXIT_SYSTEM;
    }
    c->rig_ini.n = 0;
    c->rig_ini.n_file = 0;
    enum status s =
        rig_load(path, c->opt.n_set, c->opt.set, &c->compressors, &c->rig_ini, &c->rig, &c->diags);
    if (s != STATUS_OK) {
        return context_trouble(c);
    }
    if (!c->opt.units_given) {
        c->units = c->rig.units;
    }
    return EXIT_FINE;
}

static enum exit_status load_quick(struct context *c)
{
    const struct options *o = &c->opt;
    struct quick_form form = {.tyre = o->tyre,
                              .rear_tyre = o->rear_tyre,
                              .front_load_kg = maybe_or(o->front_kg, 0.0),
                              .rear_load_kg = maybe_or(o->rear_kg, 0.0),
                              .front_road_gauge_pa = o->road.axle[AXLE_FRONT],
                              .rear_road_gauge_pa = o->road.axle[AXLE_REAR],
                              .units = c->units};
    if (!o->tyre || !o->front_kg.is || !o->rear_kg.is) {
        context_say("give a RIG, or the quick form: --tyre SIZE --front LOAD --rear LOAD");
        return EXIT_USAGE;
    }
    if (o->n_set > 0) {
        context_say("--set goes with a RIG; the quick form has no profile to override");
        return EXIT_USAGE;
    }
    if (quick_rig(&form, &c->rig, &c->assumed) < 0) {
        struct designation size;
        bool front = designation_parse(o->tyre, &size) < 0 || !o->rear_tyre;
        context_say("the quick form cannot be used: check the tyre size '%s' and the loads",
                    front ? o->tyre : o->rear_tyre);
        return EXIT_USAGE;
    }
    return EXIT_FINE;
}

static bool road_given(const struct options *o)
{
    bool given = false;
    for (int a = 0; a < AXLE_COUNT; a++) {
        given = given || o->road.axle[a].is;
    }
    return given;
}

/* A reading for an axle that is not there would be judged by nobody. */
static enum exit_status check_named_axles(const struct context *c)
{
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (c->opt.named_axles >> a & 1U && !c->rig.axle[a].present) {
            context_say("%s: this rig has no such axle", axle_name((enum axle_id)a));
            return EXIT_USAGE;
        }
    }
    return EXIT_FINE;
}

enum exit_status context_load_rig(struct context *c)
{
    enum exit_status s = context_load_grounds(c);
    if (s != EXIT_FINE) {
        return s;
    }
    if (c->opt.n_arg > 0 && road_given(&c->opt)) {
        context_say("--road goes with the quick form; with a RIG write "
                    "--set front.road_pressure=38psi");
        return EXIT_USAGE;
    }
    bool quick = c->opt.tyre || c->opt.rear_tyre || c->opt.front_kg.is || c->opt.rear_kg.is;
    if (quick && c->opt.n_arg > 0) {
        context_say("give a RIG or the quick form, not both");
        return EXIT_USAGE;
    }
    s = c->opt.n_arg > 0 ? context_load_rig_named(c, c->opt.arg[0]) : load_quick(c);
    return s == EXIT_FINE ? check_named_axles(c) : s;
}

const struct ground *context_ground(const struct context *c, const char *name)
{
    const char *names[GROUND_MAX];
    const struct ground *g = ground_find(&c->grounds, name);
    if (g) {
        return g;
    }
    for (int i = 0; i < c->grounds.n; i++) {
        names[i] = c->grounds.item[i].name;
    }
    int near = dist_nearest(name, names, (size_t)c->grounds.n, 3);
    if (near >= 0) {
        context_say("ground '%s' is unknown (did you mean %s?)", name, names[near]);
    } else {
        context_say("ground '%s' is unknown ('sandshoe list' shows the grounds)", name);
    }
    return NULL;
}

enum exit_status context_named_ground(const struct context *c, const struct ground **ground)
{
    if (!c->opt.ground) {
        context_say("name the ground ahead: --ground G ('sandshoe list' shows the grounds)");
        return EXIT_USAGE;
    }
    *ground = context_ground(c, c->opt.ground);
    return *ground ? EXIT_FINE : EXIT_USAGE;
}

struct conditions context_conditions(const struct options *o)
{
    struct conditions k = {.tyre_temp_k = o->tyre_temp_k,
                           .air_temp_k = o->at_temp_k,
                           .height_m = o->at_height_m,
                           .speed_mps = o->speed_mps,
                           .slope_1 = maybe_or(o->slope_1, 0.0),
                           .cross_slope_rad = o->cross_slope_rad};
    for (int a = 0; a < AXLE_COUNT; a++) {
        k.at_gauge_pa[a] = o->at_pressure.axle[a];
    }
    return k;
}

void context_add_assumed(const struct context *c, struct caution_list *list)
{
    const struct caution_list raised = *list;
    *list = c->assumed;
    for (int i = 0; i < raised.n; i++) {
        *caution_raise(list, raised.item[i].code) = raised.item[i];
    }
}

/* What is amiss in a rig that reads well but cannot be computed. */
static const char *uncomputed(const struct rig *rig, enum status s)
{
    struct loads loads;
    if (s == STATUS_E_MEASURE_AGAIN) {
        return "the tape or chalk measurements do not fit a tyre: measure again";
    }
    if (load_axles(rig, true, &loads) < 0) {
        return "the added masses leave an axle without load, or lack a wheelbase";
    }
    return status_text(s);
}

static enum exit_status say_uncomputed(const struct context *c, enum status s)
{
    struct diag_list list = {.n = 0};
    struct diag d = {.code = s};
    if (s == STATUS_E_MISSING && c->opt.cross_slope_rad.is) {
        context_say("--cross-slope needs cg_height and track in [rig]");
        return EXIT_USAGE;
    }
    if (c->rig.quick) {
        context_say("these loads and tyres cannot be computed: %s", uncomputed(&c->rig, s));
        return EXIT_USAGE;
    }
    diag_copy(d.file, sizeof d.file, c->rig.path);
    diag_copy(d.text, sizeof d.text, uncomputed(&c->rig, s));
    diag_add(&list, &d);
    return tell(c->opt.json, &list);
}

enum exit_status context_advise(const struct context *c, const struct ground *ground,
                                struct advice *a)
{
    const struct conditions k = context_conditions(&c->opt);
    enum status s = advice_compute(&c->rig, ground, &k, a);
    if (s < 0 && s != STATUS_E_REFUSED) {
        return say_uncomputed(c, s);
    }
    context_add_assumed(c, &a->cautions);
    return EXIT_FINE;
}

enum exit_status context_outcome(const struct refusal *refusal, const struct caution_list *cautions)
{
    if (refusal->code != REFUSAL_NONE) {
        return EXIT_REFUSED;
    }
    return caution_any_danger(cautions) ? EXIT_DANGER : EXIT_FINE;
}

struct json_head context_json_head(const struct context *c, const struct rig *rig,
                                   const struct caution_list *cautions,
                                   const struct refusal *refusal, enum exit_status result)
{
    return (struct json_head){.rig = rig->name,
                              .load_state = rig->load_state,
                              .status = (int)result,
                              .cautions = cautions,
                              .refusal = refusal,
                              .units = c->units};
}
