#include "app/session_host.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "app/files.h"
#include "app/learned.h"
#include "app/session_card.h"
#include "app/session_trip.h"
#include "core/quick.h"

enum { RIG_TEXT = 16384, GROUND_LINES = 200, GROUND_LINE = HOST_PATH + GROUND_NAME + 4 };

static void say(struct load_report *report, const struct diag_list *diags)
{
    struct text t = text_over(report->message, sizeof report->message);
    diag_list_put(diags, &t);
}

/* one of the answers, checked as the value of a profile that it will be */
static bool answer_reads(int field, const char *section, const char *key, const char *value,
                         struct load_report *report)
{
    struct diag d = {0};
    if (profile_check_value(PROFILE_RIG, section, key, value, &d) >= STATUS_OK)
        return true;
    report->field = field;
    snprintf(report->message, sizeof report->message, "%s", d.text);
    return false;
}

static bool answers_read(const struct rig_source *s, struct load_report *report)
{
    const char *const answers[] = {s->tyre, s->front, s->rear};
    static const char *const keys[] = {"tyre", "axle_load", "axle_load"};
    static const char *const sections[] = {"front", "front", "rear"};
    for (int i = 0; i < 3; i++)
        if (answers[i][0] != '\0' && !answer_reads(i, sections[i], keys[i], answers[i], report))
            return false;
    for (int i = 0; i < 3; i++)
        if (answers[i][0] == '\0') {
            report->field = i;
            snprintf(report->message, sizeof report->message, "still to come");
            return false;
        }
    return true;
}

static void list_assumed(const struct caution_list *assumed, enum unit_system u,
                         struct load_report *report)
{
    for (int i = 0; i < assumed->n && report->n_assumed < HOST_ASSUMED; i++) {
        char *line = report->assumed[report->n_assumed++];
        struct text t = text_over(line, sizeof report->assumed[0]);
        caution_put(&assumed->item[i], u, &t);
    }
}

static bool rig_of_answers(const struct rig_source *s, struct rig *rig, struct load_report *report)
{
    struct quick_form form = {.tyre = s->tyre, .units = s->units};
    struct caution_list assumed = {0};
    if (!answers_read(s, report))
        return false;
    if (units_parse(s->front, Q_MASS, &form.front_load_kg) < STATUS_OK ||
        units_parse(s->rear, Q_MASS, &form.rear_load_kg) < STATUS_OK ||
        quick_rig(&form, rig, &assumed) < STATUS_OK) {
        report->field = 0;
        snprintf(report->message, sizeof report->message, "not a size that can be worked with");
        return false;
    }
    list_assumed(&assumed, s->units, report);
    return true;
}

/* what the three answers amount to, as lines of a profile */
static bool put_answers(struct ini *ini, const struct rig *rig)
{
    return rig_to_ini(rig, ini) >= STATUS_OK &&
           profile_put(ini, "rig", "name", rig->name[0] ? rig->name : "my rig", "answers") >= 0 &&
           profile_put(ini, "rig", "load_state",
                       rig->load_state[0] ? rig->load_state : "as weighed", "answers") >= 0;
}

/* "front.axle_load" = "2100 kg" on top */
static bool put_edit(struct ini *ini, const struct rig_edit *e)
{
    char section[HOST_KEY];
    const char *dot = strchr(e->key, '.');
    if (dot == NULL)
        return false;
    snprintf(section, sizeof section, "%.*s", (int)(dot - e->key), e->key);
    const char *value = e->value[0] != '\0' ? e->value : NULL;
    return profile_put(ini, section, dot + 1, value, "edited") >= STATUS_OK;
}

/* the entries of a source with changes on top */
static bool fetch(struct session_files *f, const struct rig_source *source, int n,
                  const struct rig_edit edits[], struct rig *quick, struct load_report *report)
{
    struct diag_list diags = {0};
    f->ini.n = f->ini.n_file = 0;
    if (source->kind == SOURCE_QUICK) {
        if (!rig_of_answers(source, quick, report) || !put_answers(&f->ini, quick))
            return false;
    } else if (profile_read(source->path, &f->ini, &diags) < STATUS_OK) {
        say(report, &diags);
        return false;
    }
    for (int i = 0; i < n; i++)
        if (!put_edit(&f->ini, &edits[i]))
            return false;
    return true;
}

static bool host_load(void *self, const struct rig_source *source, int n,
                      const struct rig_edit edits[], struct rig *rig, struct load_report *report)
{
    struct session_files *f = self;
    struct diag_list diags = {0};
    struct rig quick;
    if (!fetch(f, source, n, edits, &quick, report))
        return false;
    if (source->kind == SOURCE_QUICK && n == 0) {
        *rig = quick;
        return true;
    }
    if (rig_from_ini(&f->ini, f->compressors, rig, &diags) < STATUS_OK) {
        say(report, &diags);
        return false;
    }
    snprintf(rig->path, sizeof rig->path, "%.255s", source->path);
    return true;
}

static const char *base_name(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash != NULL ? slash + 1 : path;
}

static void describe(struct session_files *f, struct host_rig *rig)
{
    struct diag_list diags = {0};
    f->ini.n = f->ini.n_file = 0;
    bool read = profile_read(rig->path, &f->ini, &diags) >= STATUS_OK;
    const struct ini_entry *name = read ? ini_find(&f->ini, "rig", "name") : NULL;
    const struct ini_entry *state = read ? ini_find(&f->ini, "rig", "load_state") : NULL;
    snprintf(rig->name, sizeof rig->name, "%.60s",
             name != NULL ? name->value : base_name(rig->path));
    snprintf(rig->load_state, sizeof rig->load_state, "%.60s",
             state != NULL ? state->value
             : read        ? ""
                           : "has mistakes");
}

static int host_rigs(void *self, int max, struct host_rig out[])
{
    struct session_files *f = self;
    paths_list(f->search, "rigs", ".ini", &f->found);
    int n = f->found.n < max ? f->found.n : max;
    for (int i = 0; i < n; i++) {
        snprintf(out[i].path, sizeof out[i].path, "%s", f->found.item[i].path);
        describe(f, &out[i]);
    }
    return n;
}

static void add_value(const struct session_files *f, const char *section,
                      const struct schema_row *row, struct host_value *out)
{
    const struct ini_entry *e = ini_find(&f->ini, section, row->key);
    snprintf(out->key, sizeof out->key, "%.20s.%.26s", section, row->key);
    snprintf(out->value, sizeof out->value, "%.79s", e != NULL ? e->value : "");
    snprintf(out->help, sizeof out->help, "%s%s%s%.100s", row->standard != NULL ? "default " : "",
             row->standard != NULL ? row->standard : "", row->standard != NULL ? ". " : "",
             row->help != NULL ? row->help : "");
}

static int add_section(const struct session_files *f, unsigned section, const char *name, int n,
                       int max, struct host_value out[])
{
    size_t rows = 0;
    const struct schema_row *row = schema_rows(&rows);
    if (ini_find(&f->ini, name, "") == NULL && section != SECTION_AIR)
        return n;
    for (size_t i = 0; i < rows && n < max; i++)
        if ((row[i].sections & section) != 0)
            add_value(f, name, &row[i], &out[n++]);
    return n;
}

static int host_values(void *self, const struct rig_source *source, int n_edit,
                       const struct rig_edit edits[], int max, struct host_value out[])
{
    struct session_files *f = self;
    struct load_report report;
    struct rig quick;
    size_t sections = 0;
    int n = 0;
    const struct schema_section_row *row = schema_sections(&sections);
    if (!fetch(f, source, n_edit, edits, &quick, &report))
        return 0;
    for (size_t i = 0; i < sections; i++) {
        if (row[i].kind != PROFILE_RIG)
            continue;
        if (row[i].numbered == 0)
            n = add_section(f, row[i].section, row[i].name, n, max, out);
        for (int k = 1; k <= row[i].numbered; k++) {
            char name[INI_NAME];
            snprintf(name, sizeof name, "%.40s-%d", row[i].name, k);
            n = add_section(f, row[i].section, name, n, max, out);
        }
    }
    return n;
}

static bool is_mass(const struct ini_entry *e)
{
    return e->key[0] == '\0' && strncmp(e->section, "mass-", 5) == 0;
}

static void host_mass_section(void *self, const struct rig_source *source, int n,
                              const struct rig_edit edits[], int i, char section[HOST_KEY])
{
    struct session_files *f = self;
    struct load_report report;
    struct rig quick;
    section[0] = '\0';
    if (!fetch(f, source, n, edits, &quick, &report))
        return;
    for (int k = 0; k < f->ini.n; k++)
        if (is_mass(&f->ini.entry[k]) && i-- == 0)
            snprintf(section, HOST_KEY, "%.40s", f->ini.entry[k].section);
    for (int k = 1; section[0] == '\0'; k++) {
        snprintf(section, HOST_KEY, "mass-%d", k);
        if (ini_find(&f->ini, section, "") != NULL)
            section[0] = '\0';
    }
}

static bool plain_name(const char *name)
{
    size_t n = strspn(name, "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789-_.");
    return n > 0 && n <= 60 && name[n] == '\0' && name[0] != '.' && name[0] != '-';
}

static bool compose(struct session_files *f, const struct rig_source *source, int n,
                    const struct rig_edit edits[], struct text *out, struct text *message)
{
    struct load_report report = {.field = -1};
    struct diag_list diags = {0};
    struct rig rig;
    bool ok = fetch(f, source, n, edits, &rig, &report);
    if (ok && rig_from_ini(&f->ini, f->compressors, &rig, &diags) < STATUS_OK) {
        say(&report, &diags);
        ok = false;
    }
    if (!ok) {
        text_put(message, "%s", report.message);
        return false;
    }
    profile_write(&f->ini, PROFILE_RIG, out);
    return !out->cut;
}

static enum host_saved host_save(void *self, const struct rig_source *source, int n,
                                 const struct rig_edit edits[], const char *name, bool overwrite,
                                 char path[HOST_PATH], struct text *message)
{
    struct session_files *f = self;
    char rig_text[RIG_TEXT];
    struct text t = text_over(rig_text, sizeof rig_text);
    if (!plain_name(name)) {
        text_put(message, "a name of letters, digits, - and _ please");
        return HOST_FAILED;
    }
    bool ini = strlen(name) > 4 && strcmp(name + strlen(name) - 4, ".ini") == 0;
    int len = snprintf(path, HOST_PATH, "%s/%s%s", f->save_dir, name, ini ? "" : ".ini");
    if (len < 0 || len >= HOST_PATH || !compose(f, source, n, edits, &t, message) ||
        file_make_folders(path, message) < STATUS_OK)
        return HOST_FAILED;
    enum status written = file_write(path, rig_text, t.len, overwrite, message);
    return written == STATUS_E_REFUSED ? HOST_EXISTS
           : written < STATUS_OK       ? HOST_FAILED
                                       : HOST_SAVED;
}

static bool host_card(void *self, const struct rig *rig, const struct conditions *day,
                      enum unit_system u, const char *size, char path[HOST_PATH],
                      struct text *message)
{
    const struct session_files *f = self;
    return session_card(rig, f->grounds, day, u, size, path, message);
}

static int host_trips(void *self, int max, struct host_trip out[])
{
    return session_trips(self, max, out);
}

static bool host_trip(void *self, const char *path, struct trip *trip, struct load_report *report)
{
    return session_trip(self, path, trip, report);
}

static bool host_trip_card(void *self, const struct rig *rig, const struct trip *trip,
                           enum unit_system u, char path[HOST_PATH], struct text *message)
{
    const struct session_files *f = self;
    return session_trip_card(rig, trip, f->grounds, u, path, message);
}

static bool host_print(void *self, const char *path, struct text *message)
{
    (void)self;
    return session_print(path, message);
}

static const char *rig_id(const struct rig *rig)
{
    return rig->path[0] != '\0' ? base_name(rig->path) : rig->name;
}

/* "id<TAB>ground": true and ground when the line is of that rig */
static bool line_of(const char *line, const char *id, const char **ground)
{
    size_t n = strlen(id);
    *ground = line + n + 1;
    return strncmp(line, id, n) == 0 && line[n] == '\t';
}

static bool host_last_ground(void *self, const struct rig *rig, char name[GROUND_NAME])
{
    const struct session_files *f = self;
    char line[GROUND_LINE];
    const char *ground;
    bool found = false;
    FILE *in = f->ground_file[0] != '\0' ? fopen(f->ground_file, "re") : NULL;
    while (in != NULL && fgets(line, sizeof line, in) != NULL)
        if (line_of(line, rig_id(rig), &ground)) {
            snprintf(name, GROUND_NAME, "%.*s", (int)strcspn(ground, "\n"), ground);
            found = true;
        }
    if (in != NULL)
        fclose(in);
    return found;
}

static void host_used_ground(void *self, const struct rig *rig, const char *name)
{
    const struct session_files *f = self;
    char all[GROUND_LINES * 64], line[GROUND_LINE];
    struct text t = text_over(all, sizeof all);
    const char *ground;
    if (f->ground_file[0] == '\0' || rig->quick)
        return;
    text_put(&t, "%s\t%s\n", rig_id(rig), name);
    FILE *in = fopen(f->ground_file, "re");
    while (in != NULL && fgets(line, sizeof line, in) != NULL)
        if (!line_of(line, rig_id(rig), &ground) && t.len + strlen(line) < sizeof all - 1)
            text_put(&t, "%s", line);
    if (in != NULL)
        fclose(in);
    char words[200];
    struct text why = text_over(words, sizeof words);
    if (file_make_folders(f->ground_file, &why) < STATUS_OK ||
        file_write(f->ground_file, all, t.len, true, &why) < STATUS_OK)
        return; /* forgotten: that costs two keys at the next start */
}

static void host_log_rig(void *self, const char *path, char name[LOG_TEXT])
{
    char *whole = realpath(path, NULL);
    (void)self;
    if (whole != NULL && strlen(whole) < LOG_TEXT)
        snprintf(name, LOG_TEXT, "%s", whole);
    else
        snprintf(name, LOG_TEXT, "%s", base_name(path));
    free(whole);
}

static bool host_log_begin(void *self, const struct rig *rig, bool up, struct text *why)
{
    struct session_files *f = self;
    return session_log_begin(&f->log, rig_id(rig), up, why);
}

static bool host_log_append(void *self, const struct log_event *e, struct text *why)
{
    struct session_files *f = self;
    return session_log_append(&f->log, e, why);
}

static void host_log_end(void *self)
{
    struct session_files *f = self;
    session_log_end(&f->log);
}

static bool host_log_left(void *self, int max, struct log_event event[], struct host_left *left)
{
    const struct session_files *f = self;
    return session_log_left(&f->log, max, event, left);
}

static bool host_log_resume(void *self, const struct host_left *left, struct text *why)
{
    struct session_files *f = self;
    return session_log_resume(&f->log, left, why);
}

static bool host_let_down(void *self, const struct rig *rig)
{
    const struct session_files *f = self;
    return session_log_let_down(&f->log, rig_id(rig));
}

/* another compressor under the same rig is another air system */
static void air_id(const struct rig *rig, struct text *id)
{
    static const char *const sources[] = {"compressor", "regulator", "tank"};
    const char *name = rig->air.compressor.name;
    bool named = rig->air.source == AIR_COMPRESSOR && name[0] != '\0';
    text_put(id, "%s/%s", rig_id(rig), named ? name : sources[rig->air.source]);
}

static struct forecast_prior host_prior(void *self, const struct rig *rig, double temp_k,
                                        double ambient_abs_pa)
{
    const struct session_files *f = self;
    char id[LEARNED_ID];
    struct text t = text_over(id, sizeof id);
    struct learned_list list;
    air_id(rig, &t);
    learned_read(f->log.learned_file, id, &list);
    return forecast_prior_learned(list.n, list.item, temp_k, ambient_abs_pa);
}

static bool host_learn(void *self, const struct rig *rig, const struct forecast_learned *lesson)
{
    const struct session_files *f = self;
    char id[LEARNED_ID], words[200];
    struct text t = text_over(id, sizeof id), why = text_over(words, sizeof words);
    air_id(rig, &t);
    return learned_add(f->log.learned_file, id, lesson, &why) >= STATUS_OK;
}

static bool host_forget(void *self, const struct rig *rig)
{
    const struct session_files *f = self;
    char id[LEARNED_ID], words[200];
    struct text t = text_over(id, sizeof id), why = text_over(words, sizeof words);
    air_id(rig, &t);
    return learned_forget(f->log.learned_file, id, &why) >= STATUS_OK;
}

struct session_host session_host_of(struct session_files *files)
{
    return (struct session_host){.self = files,
                                 .load = host_load,
                                 .rigs = host_rigs,
                                 .trips = host_trips,
                                 .trip = host_trip,
                                 .trip_card = host_trip_card,
                                 .values = host_values,
                                 .mass_section = host_mass_section,
                                 .save = host_save,
                                 .card = host_card,
                                 .print = host_print,
                                 .last_ground = host_last_ground,
                                 .used_ground = host_used_ground,
                                 .log_stamp = session_log_stamp,
                                 .log_rig = host_log_rig,
                                 .log_begin = host_log_begin,
                                 .log_append = host_log_append,
                                 .log_end = host_log_end,
                                 .log_left = host_log_left,
                                 .log_resume = host_log_resume,
                                 .let_down = host_let_down,
                                 .prior = host_prior,
                                 .learn = host_learn,
                                 .forget = host_forget};
}
