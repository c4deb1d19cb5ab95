/* cmd_session.c - the trailhead session: on the terminal, or by a script. */
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "app/clock.h"
#include "app/commands.h"
#include "app/files.h"
#include "app/session_host.h"
#include "tui/model.h"
#include "tui/script.h"

enum { SCRIPT_BYTES = 65536 };

static struct session_files files;
static struct model model; /* large, and one a process */

static void set_folders(struct context *c)
{
    char path[PATHS_LEN];
    files.compressors = &c->compressors;
    files.search = &c->search;
    files.grounds = &c->grounds;
    if (paths_config("rigs", "", path) == STATUS_OK) {
        snprintf(files.save_dir, sizeof files.save_dir, "%.*s", (int)strlen(path) - 1, path);
    }
    if (paths_state("grounds", path) == STATUS_OK) {
        snprintf(files.ground_file, sizeof files.ground_file, "%s", path);
    }
    session_journal_init(&files.log);
}

static void put_load(char out[HOST_VALUE], struct maybe load_kg)
{
    if (load_kg.is) {
        snprintf(out, HOST_VALUE, "%.9g kg", load_kg.v);
    }
}

/* where the rig comes from: its file, or what the quick form gives of the three answers */
static enum exit_status find_source(const struct context *c, struct rig_source *source)
{
    const struct options *o = &c->opt;
    char path[PATHS_LEN], why[512];
    struct text w = text_over(why, sizeof why);
    if (o->n_arg > 0) {
        if (paths_find(&c->search, "rigs", ".ini", o->arg[0], path, &w) != STATUS_OK) {
            context_say("%s", why);
            return EXIT_SYSTEM;
        }
        source->kind = SOURCE_FILE;
        snprintf(source->path, sizeof source->path, "%s", path);
        return EXIT_FINE;
    }
    if (o->tyre != NULL) {
        source->kind = SOURCE_QUICK;
        source->units = o->units;
        snprintf(source->tyre, sizeof source->tyre, "%s", o->tyre);
        put_load(source->front, o->front_kg);
        put_load(source->rear, o->rear_kg);
    }
    return EXIT_FINE;
}

/* --set rear.axle_load=1800kg and what else the quick form says, as changes of the session */
static enum exit_status take_edits(const struct options *o, int *n, struct rig_edit edit[])
{
    static const enum axle_id axles[] = {AXLE_FRONT, AXLE_REAR};
    for (int i = 0; i < o->n_set; i++) {
        const char *equals = strchr(o->set[i], '=');
        if (equals == NULL) {
            context_say("--set %s: write SECTION.KEY=VALUE", o->set[i]);
            return EXIT_USAGE;
        }
        snprintf(edit[*n].key, HOST_KEY, "%.*s", (int)(equals - o->set[i]), o->set[i]);
        snprintf(edit[(*n)++].value, HOST_VALUE, "%s", equals + 1);
    }
    if (o->rear_tyre != NULL && o->n_arg == 0) {
        snprintf(edit[*n].key, HOST_KEY, "rear.tyre");
        snprintf(edit[(*n)++].value, HOST_VALUE, "%s", o->rear_tyre);
    }
    for (size_t i = 0; i < sizeof axles / sizeof axles[0] && o->n_arg == 0; i++) {
        if (o->road.axle[axles[i]].is) {
            snprintf(edit[*n].key, HOST_KEY, "%s.road_pressure", axle_name(axles[i]));
            const char *unit = units_symbol(Q_PRESSURE, o->units);
            snprintf(edit[(*n)++].value, HOST_VALUE, "%.6g %s",
                     units_in(o->road.axle[axles[i]].v, Q_PRESSURE, unit), unit);
        }
    }
    return EXIT_FINE;
}

static void print_frame(void *to, const char *text)
{
    (void)to;
    fputs(text, stdout);
}

static enum exit_status run_script(const struct context *c, const struct loop_client *client)
{
    static char lines[SCRIPT_BYTES];
    char why[512];
    struct text w = text_over(why, sizeof why);
    size_t n = 0;
    struct script s = {.client = client,
                       .rows = 24,
                       .cols = 80,
                       .ascii = !c->utf8,
                       .now_ns = (int64_t)(maybe_or(c->opt.at_s, 0) * 1e9),
                       .out = print_frame};
    if (c->opt.size != NULL && !script_size(c->opt.size, &s.cols, &s.rows)) {
        context_say("--size %s: write COLUMNSxROWS, 80x24", c->opt.size);
        return EXIT_USAGE;
    }
    if (file_read(c->opt.script, lines, sizeof lines - 1, &n, &w) != STATUS_OK) {
        context_say("%s", why);
        return EXIT_SYSTEM;
    }
    lines[n] = '\0';
    if (script_run(&s, lines, &w) != STATUS_OK) {
        context_say("%s: %s", c->opt.script, why);
        return EXIT_USAGE;
    }
    return fflush(stdout) == 0 ? EXIT_FINE : EXIT_SYSTEM;
}

static enum exit_status run_terminal(const struct context *c, const struct loop_client *client)
{
    char why[512];
    struct text w = text_over(why, sizeof why);
    const char *no_color = getenv("NO_COLOR");
    bool colour = no_color == NULL || no_color[0] == '\0';
    enum status s = loop_run(client, colour, !c->utf8, &w);
    if (s >= STATUS_OK) {
        return EXIT_FINE;
    }
    context_say("%s", why);
    return s == STATUS_E_MISSING ? EXIT_USAGE : EXIT_SYSTEM;
}

static enum exit_status start_model(const struct model_start *start)
{
    struct load_report report;
    enum status s = model_init(start, &model, &report);
    if (s == STATUS_E_UNKNOWN) {
        context_say("no ground '%s'; 'sandshoe list' shows them", start->ground);
        return EXIT_USAGE;
    }
    /* a quick form that lacks an answer is asked for it */
    if (s == STATUS_E_MISSING && start->source.kind == SOURCE_FILE) {
        fputs(report.message, stderr);
        return EXIT_BAD_FILE;
    }
    return EXIT_FINE;
}

enum exit_status cmd_session(struct context *c)
{
    struct rig_edit edit[OPTIONS_SETS + 4];
    struct model_start start = {.grounds = &c->grounds,
                                .edit = edit,
                                .conditions = context_conditions(&c->opt),
                                .has_units = c->opt.units_given,
                                .units = c->opt.units,
                                .ground = c->opt.ground};
    enum exit_status e = context_load_grounds(c);
    if (e == EXIT_FINE) {
        e = find_source(c, &start.source);
    }
    if (e == EXIT_FINE) {
        e = take_edits(&c->opt, &start.n_edit, edit);
    }
    if (e != EXIT_FINE) {
        return e;
    }
    set_folders(c);
    struct session_host host = session_host_of(&files);
    start.host = &host;
    e = start_model(&start);
    if (e != EXIT_FINE) {
        return e;
    }
    struct loop_client client = model_client(&model, clock_now_ns);
    return c->opt.script != NULL ? run_script(c, &client) : run_terminal(c, &client);
}
