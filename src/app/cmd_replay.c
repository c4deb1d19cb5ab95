/* cmd_replay.c - the clock's forecast over a recorded job, after every reading. */
#include <stdio.h>
#include <string.h>

#include "app/commands.h"
#include "app/files.h"
#include "app/journal.h"
#include "app/replay_judge.h"
#include "core/gas.h"
#include "core/refill_note.h"
#include "report/json_replay.h"
#include "report/replay_text.h"

enum { REPLAY_BYTES = 262144, REPLAY_TEXT = 256 * 1024 };

#define REPLAY_SEED  1      /* the clock's: live and replay agree */
#define REPLAY_AIR_K 293.15 /* air drawn, when nothing is said of it */

static enum exit_status read_log(struct context *c, struct journal_events *events,
                                 char path[PATHS_LEN])
{
    static char bytes[REPLAY_BYTES];
    char why[PATHS_LEN + 128];
    struct text w = text_over(why, sizeof why);
    size_t n = 0;
    if (paths_find(&c->search, "logs", ".log", c->opt.arg[0], path, &w) != STATUS_OK ||
        file_read(path, bytes, sizeof bytes, &n, &w) != STATUS_OK) {
        context_say("%s", why);
        return EXIT_SYSTEM;
    }
    return journal_parse(path, bytes, n, events, &c->diags) == STATUS_OK ? EXIT_FINE
                                                                         : context_trouble(c);
}

static enum exit_status complain(struct context *c, const char *path, int line, enum status code,
                                 const char *what)
{
    struct diag d = {.code = code, .line = line};
    diag_copy(d.file, sizeof d.file, path);
    diag_copy(d.text, sizeof d.text, what);
    diag_add(&c->diags, &d);
    return context_trouble(c);
}

/* A log may have been written elsewhere: the rig's path, else its name on the search path. */
static const char *rig_here(const struct context *c, const char *path, char name[LOG_TEXT])
{
    char found[PATHS_LEN], why[PATHS_LEN];
    struct text w = text_over(why, sizeof why);
    if (paths_find(&c->search, "rigs", ".ini", path, found, &w) == STATUS_OK) {
        return path;
    }
    const char *slash = strrchr(path, '/');
    snprintf(name, LOG_TEXT, "%s", slash ? slash + 1 : path);
    char *dot = strrchr(name, '.');
    if (dot) {
        *dot = '\0';
    }
    return name;
}

static enum exit_status load_rig(struct context *c, const struct journal_events *events,
                                 const char *path)
{
    char name[LOG_TEXT];
    for (int i = 0; i < events->n; i++) {
        if (events->event[i].word == LOG_RIG) {
            enum exit_status s = context_load_grounds(c);
            return s == EXIT_FINE
                       ? context_load_rig_named(c, rig_here(c, events->event[i].text, name))
                       : s;
        }
    }
    return complain(c, path, 1, STATUS_E_MISSING, "no 'rig' line: 0 rig flatbed-cabin");
}

static void day_from(struct maybe *given, double si)
{
    *given = given->is ? *given : maybe_of(si);
}

/* What a live session noted of its day, its rig's changes and its source; the command line rules. */
static void take_notes(struct options *o, const struct journal_events *events,
                       struct forecast_prior *prior)
{
    static char sets[OPTIONS_SETS][sizeof((struct refill_note *)0)->key +
                                   sizeof((struct refill_note *)0)->value + 1];
    const char *all[OPTIONS_SETS];
    int n = 0;
    for (int i = 0; i < events->n; i++) {
        struct refill_note note = {.kind = NOTE_WORDS};
        if (events->event[i].word == LOG_NOTE) {
            note = refill_note_read(events->event[i].text);
        }
        if (note.kind == NOTE_AIR) {
            day_from(&o->at_temp_k, note.si);
        } else if (note.kind == NOTE_TYRES) {
            day_from(&o->tyre_temp_k, note.si);
        } else if (note.kind == NOTE_HEIGHT) {
            day_from(&o->at_height_m, note.si);
        } else if (note.kind == NOTE_PRIOR) {
            *prior = (struct forecast_prior){note.log_mean_1, note.log_sd_1, note.refills};
        } else if (note.kind == NOTE_SET && n + o->n_set < OPTIONS_SETS) {
            snprintf(sets[n], sizeof sets[n], "%s=%s", note.key, note.value);
            all[n] = sets[n];
            n++;
        }
    }
    for (int i = 0; i < o->n_set; i++) {
        all[n + i] = o->set[i];
    }
    o->n_set += n;
    memcpy(o->set, all, (size_t)o->n_set * sizeof all[0]);
}

/* Today's air system; until the log says otherwise, the targets are the road pressures. */
static enum status refill_of(const struct context *c, struct refill_in *in)
{
    const struct options *o = &c->opt;
    double pa = 0, air_k = maybe_or(o->at_temp_k, REPLAY_AIR_K);
    double tyre_k =
        maybe_or(o->tyre_temp_k, maybe_or(o->at_temp_k, c->rig.axle[AXLE_FRONT].road_temp_k));
    enum status s = gas_ambient(maybe_or(o->at_height_m, 0), &pa);
    if (s == STATUS_OK) {
        s = refill_in_of(&c->rig, pa, tyre_k, maybe_or(c->rig.air.inlet_temp_k, air_k), in);
    }
    for (int i = 0; i < REFILL_CORNERS && s == STATUS_OK; i++) {
        const struct axle *a = &c->rig.axle[i / SIDE_COUNT];
        if (in->corner[i].present) {
            s = gas_gauge_moved(a->road_gauge_pa, a->road_temp_k, pa, tyre_k, pa,
                                &in->corner[i].target_gauge_pa);
        }
    }
    return s;
}

static void add_row(struct replay_report *r, const struct log_event *e,
                    const struct forecast_out *out)
{
    if (r->n_row < SESSION_READINGS) {
        r->row[r->n_row++] = (struct replay_row){.at_s = e->at_s,
                                                 .corners = e->corners,
                                                 .reading_pa = e->p_gauge_pa,
                                                 .flowing = e->flowing,
                                                 .reading = r->session.n_reading - 1,
                                                 .out = *out};
    }
}

static enum exit_status run_log(struct context *c, const struct journal_events *events,
                                const char *path, const struct forecast_prior *prior,
                                struct replay_report *r)
{
    static struct forecast f;
    struct session *s = &r->session;
    const struct replay_limits limits = replay_limits_of(c, s);
    enum status st = forecast_init(&f, REPLAY_SEED, FORECAST_MEMBERS, prior);
    replay_wheels(&c->rig, &r->refusal, &r->cautions);
    for (int i = 0; i < events->n && st == STATUS_OK; i++) {
        char why[DIAG_TEXT];
        struct text w = text_over(why, sizeof why);
        const struct log_event *e = &events->event[i];
        enum status applied = session_apply(s, e, &w);
        if (applied != STATUS_OK) {
            return complain(c, path, events->line[i], applied, why);
        }
        if (s->air || i + 1 == events->n) {
            replay_judge(&limits, s, &r->refusal, &r->cautions);
        }
        struct forecast_out out;
        if (e->word == LOG_READ && forecast_update(&f, s, s->now_s, &out) == STATUS_OK) {
            add_row(r, e, &out);
        }
    }
    if (r->refusal.code != REFUSAL_NONE) {
        r->n_row = 0; /* no times to a pressure that nobody should go to */
        return EXIT_FINE;
    }
    r->forecast = st == STATUS_OK && forecast_update(&f, s, s->now_s, &r->final) == STATUS_OK;
    return EXIT_FINE;
}

static enum exit_status show(struct context *c, const struct replay_report *r)
{
    static char buf[REPLAY_TEXT];
    struct text t = text_over(buf, sizeof buf);
    enum exit_status result = context_outcome(&r->refusal, &r->cautions);
    if (c->opt.json) {
        const struct json_head head =
            context_json_head(c, r->rig, &r->cautions, &r->refusal, result);
        if (json_replay_put(&head, r, &t) != STATUS_OK) {
            context_say("this log cannot be written as JSON");
            return EXIT_SYSTEM;
        }
    } else {
        replay_text_put(r, c->units, &t);
    }
    enum exit_status s = context_out(buf);
    return s == EXIT_FINE ? result : s;
}

enum exit_status cmd_replay(struct context *c)
{
    static struct journal_events events;
    static struct replay_report r;
    char path[PATHS_LEN];
    struct refill_in in;
    enum exit_status s = read_log(c, &events, path);
    struct forecast_prior prior = forecast_prior_label();
    if (s == EXIT_FINE) {
        take_notes(&c->opt, &events, &prior);
        s = load_rig(c, &events, path);
    }
    if (s != EXIT_FINE) {
        return s;
    }
    if (refill_of(c, &in) != STATUS_OK) {
        context_say("this rig cannot be refilled at that height and temperature");
        return EXIT_USAGE;
    }
    session_init(&in, &r.session);
    r.rig = &c->rig;
    r.torn = events.torn;
    s = run_log(c, &events, path, &prior, &r);
    if (s != EXIT_FINE) {
        return s;
    }
    caution_remind(&r.cautions, r.session.up ? CAUTION_JOB_UP : CAUTION_JOB_DOWN, &c->rig);
    return show(c, &r);
}
