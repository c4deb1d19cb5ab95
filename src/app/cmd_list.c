/* cmd_list.c - what is on the search path, and commented files to start from. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "app/commands.h"
#include "app/learned.h"
#include "app/session_journal.h"
#include "core/constants.h"
#include "profile/schema_doc.h"
#include "report/json_list.h"

enum { LIST_TEXT = 131072 };

static struct list_page page;

static void note_bad(struct list_entry *e, const struct diag_list *diags)
{
    struct text t = text_over(e->note, sizeof e->note);
    e->bad = true;
    text_put(&t, "cannot be used: 'sandshoe check' names its %d mistake%s",
             diags->n + diags->dropped, diags->n + diags->dropped == 1 ? "" : "s");
}

static enum status note_rig(const struct context *c, const char *path, struct ini *ini,
                            struct diag_list *diags, struct text *note)
{
    static struct rig rig;
    enum status s = rig_load(path, 0, NULL, &c->compressors, ini, &rig, diags);
    if (s == STATUS_OK) {
        text_put(note, "%s%s%s", rig.name, rig.load_state[0] != '\0' ? ", " : "", rig.load_state);
    }
    return s;
}

static enum status note_trip(const struct context *c, const char *path, struct ini *ini,
                             struct diag_list *diags, struct text *note)
{
    struct trip trip;
    enum status s = trip_load(path, &c->grounds, ini, &trip, diags);
    if (s == STATUS_OK) {
        text_put(note, "%s, %d legs, rig %s", trip.name, trip.n_leg, trip.rig);
    }
    return s;
}

static enum status note_compressor(const struct context *c, const char *path, struct ini *ini,
                                   struct diag_list *diags, struct text *note)
{
    struct compressor one;
    enum status s = compressor_load(path, ini, &one, diags);
    (void)c;
    if (s == STATUS_OK && one.rest_time_s > 0.0) {
        text_put(note, "run %.0f min, rest %.0f min", one.run_time_s / 60.0,
                 one.rest_time_s / 60.0);
    } else if (s == STATUS_OK) {
        text_put(note, "runs without a rest");
    }
    return s;
}

static enum status note_log(const struct context *c, const char *path, struct ini *ini,
                            struct diag_list *diags, struct text *note)
{
    (void)c;
    (void)ini;
    (void)diags;
    text_put(note, "%s", path);
    return STATUS_OK;
}

static const struct {
    const char *folder, *extension;
    enum status (*note)(const struct context *c, const char *path, struct ini *ini,
                        struct diag_list *diags, struct text *note);
} KINDS[LIST_KINDS] = {
    [LIST_RIG] = {"rigs", ".ini", note_rig},
    [LIST_TRIP] = {"trips", ".ini", note_trip},
    [LIST_COMPRESSOR] = {"compressors", ".ini", note_compressor},
    [LIST_LOG] = {"logs", ".log", note_log},
};

static void collect(const struct context *c, enum list_kind kind)
{
    static struct found_list files;
    static struct ini ini;
    paths_list(&c->search, KINDS[kind].folder, KINDS[kind].extension, &files);
    for (int i = 0; i < files.n && page.n[kind] < LIST_ENTRIES; i++) {
        if (kind == LIST_LOG && session_log_is_empty(files.item[i].path)) {
            continue;
        }
        struct list_entry *e = &page.entry[kind][page.n[kind]++];
        struct diag_list diags = {.n = 0};
        struct text note = text_over(e->note, sizeof e->note);
        snprintf(e->name, sizeof e->name, "%s", files.item[i].name);
        snprintf(e->path, sizeof e->path, "%s", files.item[i].path);
        ini.n = 0;
        ini.n_file = 0;
        if (KINDS[kind].note(c, e->path, &ini, &diags, &note) != STATUS_OK) {
            note_bad(e, &diags);
        }
    }
}

/* What each air system gave, and what a forecast at 20 C and sea level makes of that. */
static void collect_learned(const char *path)
{
    static char id[LIST_LEARNED][LEARNED_ID];
    page.n_learned = learned_ids(path, LIST_LEARNED, id);
    for (int i = 0; i < page.n_learned; i++) {
        struct learned_list lessons;
        learned_read(path, id[i], &lessons);
        struct forecast_prior p =
            forecast_prior_learned(lessons.n, lessons.item, AIR_FREE_TEMP_K, AIR_SEA_LEVEL_PA);
        snprintf(page.learned[i].id, sizeof page.learned[i].id, "%s", id[i]);
        page.learned[i].refills = lessons.n;
        page.learned[i].last_1 = exp(lessons.item[lessons.n - 1].log_mean_1);
        page.learned[i].delivery_1 = exp(p.log_mean_1);
    }
}

static enum exit_status forget(const char *path)
{
    static char id[LIST_LEARNED][LEARNED_ID];
    char why[PATHS_LEN + 128];
    struct text w = text_over(why, sizeof why);
    int n = learned_ids(path, LIST_LEARNED, id);
    for (int i = 0; i < n; i++) {
        if (learned_forget(path, id[i], &w) < STATUS_OK) {
            context_say("%s", why);
            return EXIT_SYSTEM;
        }
    }
    context_say("forgot what refills taught of %d air system%s", n, n == 1 ? "" : "s");
    return EXIT_FINE;
}

static enum exit_status put_template(const char *kind, struct text *out)
{
    enum profile_kind k = profile_kind_from_name(kind);
    if (k == PROFILE_KINDS) {
        context_say("--template %s: unknown (rig, trip, grounds, compressor)", kind);
        return EXIT_USAGE;
    }
    schema_put_template(k, out);
    return context_out(out->s);
}

enum exit_status cmd_list(struct context *c)
{
    static char buf[LIST_TEXT];
    struct text t = text_over(buf, sizeof buf);
    if (c->opt.template_of) {
        return put_template(c->opt.template_of, &t);
    }
    char learned[PATHS_LEN] = "";
    if (paths_state("learned", learned) != STATUS_OK) {
        learned[0] = '\0'; /* no home: nothing is kept */
    }
    if (c->opt.forget) {
        return forget(learned);
    }
    enum exit_status s = context_load_grounds(c);
    if (s != EXIT_FINE) {
        return s;
    }
    page.grounds = &c->grounds;
    for (int k = 0; k < LIST_KINDS; k++) {
        collect(c, (enum list_kind)k);
    }
    collect_learned(learned);
    if (!c->opt.json) {
        list_text_put(&page, c->units, &t);
    } else if (json_list_put(&page, &t) != STATUS_OK) {
        context_say("the list cannot be written as JSON");
        return EXIT_SYSTEM;
    }
    return context_out(buf);
}
