#include "tui/screen_resume.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/refill_note.h"
#include "tui/clock_rows.h"
#include "tui/model.h"
#include "tui/widget.h"

void resume_offer(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    if (m->host->log_left != NULL &&
        m->host->log_left(m->host->self, CLOCK_EVENTS, s->job.event, &s->left))
        model_edit(m, EDITOR_RESUME);
}

static const struct log_event *first_of(const struct clock_state *s, enum log_word word)
{
    for (int i = 0; i < s->left.n; i++)
        if (s->job.event[i].word == word)
            return &s->job.event[i];
    return NULL;
}

static const char *file_of(const char *path)
{
    const char *slash = strrchr(path, '/');
    return slash != NULL ? slash + 1 : path;
}

/* "flatbed-cabin.ini", or bare as in a record without room for the path */
static bool same_file(const char *a, const char *b)
{
    const char *x = file_of(a), *y = file_of(b);
    size_t n = strlen(x), m = strlen(y), end = sizeof ".ini" - 1;
    n -= n > end && strcmp(x + n - end, ".ini") == 0 ? end : 0;
    m -= m > end && strcmp(y + m - end, ".ini") == 0 ? end : 0;
    return n == m && strncmp(x, y, n) == 0;
}

/* The rig of a record: where it was, else the one of its name on the search path. */
static bool open_rig(struct model *m, const char *path, struct load_report *report)
{
    struct rigs_state *known = &m->at.rigs;
    struct rig_source source = {.kind = SOURCE_FILE};
    snprintf(source.path, sizeof source.path, "%s", path);
    if (model_open(m, &source, report))
        return true;
    known->n = m->host->rigs(m->host->self, HOST_RIGS, known->rig);
    for (int i = 0; i < known->n; i++) {
        struct load_report other = {.field = -1};
        snprintf(source.path, sizeof source.path, "%s", known->rig[i].path);
        if (same_file(path, source.path) && model_open(m, &source, &other))
            return true;
    }
    return false;
}

/* The rig, the day and the changes that the record was made with. */
static bool open_as_recorded(struct model *m, struct text *why)
{
    struct clock_state *s = &m->at.clock;
    const struct log_event *rig = first_of(s, LOG_RIG);
    struct load_report report = {.field = -1};
    bool ok = rig != NULL && open_rig(m, rig->text, &report);
    for (int i = 0; i < s->left.n && ok; i++) {
        struct refill_note n = {.kind = NOTE_WORDS};
        if (s->job.event[i].word == LOG_NOTE)
            n = refill_note_read(s->job.event[i].text);
        if (n.kind == NOTE_AIR)
            m->outing.conditions.air_temp_k = maybe_of(n.si);
        else if (n.kind == NOTE_TYRES)
            m->outing.conditions.tyre_temp_k = maybe_of(n.si);
        else if (n.kind == NOTE_HEIGHT)
            m->outing.conditions.height_m = maybe_of(n.si);
        else if (n.kind == NOTE_SET)
            ok = outing_edit(&m->outing, m->host, n.key, n.value, &report);
    }
    if (!ok)
        text_put(why, "Rig %s does not open. n closes the record; or put the rig back, then y.",
                 rig != NULL ? file_of(rig->text) : "of the record");
    m->dirty = true;
    return ok;
}

static void go_on(struct model *m)
{
    char words[MODEL_MESSAGE];
    struct text why = text_over(words, sizeof words);
    if (!m->host->log_left(m->host->self, CLOCK_EVENTS, m->at.clock.job.event, &m->at.clock.left)) {
        model_leave(m);
        model_say(m, STYLE_ERROR, "The record is gone, or another session is at it.");
        return;
    }
    if (!open_as_recorded(m, &why)) {
        model_say(m, STYLE_ERROR, "%s", words);
        return;
    }
    m->at.clock.resuming = true; /* when the rig is computed */
    m->screen = SCREEN_CLOCK;
    model_leave(m);
}

double resume_gap_s(const struct model *m)
{
    return clock_now_s(m) - m->at.clock.job.session.now_s;
}

static void ask_gap(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    char time[32];
    s->ask = (struct clock_question){.kind = ASK_GAP};
    struct text t = text_over(s->ask.words, sizeof s->ask.words);
    if (s->left.doubtful)
        text_put(&t, "The record stops with air on; how long ago is unknown: the calendar went "
                     "back. How long did it flow?");
    else
        text_put(&t, "The record stops %s ago, air on. Did air flow all that time, and still?",
                 clock_minutes(time, resume_gap_s(m)));
    m->effects |= EFFECT_BEEP;
}

/* A record that does not go through is left as it is. */
static bool apply_all(struct clock_job *j, int n, struct text *why)
{
    j->begun = true;
    for (int i = 0; i < n; i++) {
        struct refill_note note = {.kind = NOTE_WORDS};
        if (j->event[i].word == LOG_NOTE)
            note = refill_note_read(j->event[i].text);
        if (note.kind == NOTE_PRIOR)
            j->prior = (struct forecast_prior){note.log_mean_1, note.log_sd_1, note.refills};
        if (clock_job_apply(j, j->event[i], why) < STATUS_OK) {
            j->begun = false;
            return false;
        }
    }
    j->n_saved = j->n_event;
    j->saving = CLOCK_SAVED;
    return true;
}

void resume_replay(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    struct clock_job *j = &s->job;
    char words[CLOCK_WHY];
    struct text why = text_over(words, sizeof words);
    s->resuming = false;
    if (!apply_all(j, s->left.n, &why)) {
        model_say(m, STYLE_ERROR, "The record cannot be gone on with: %s", words);
        return;
    }
    s->up = j->session.up;
    s->resumed = true;
    j->zero_ns = m->now_ns - (int64_t)(s->left.now_s * 1e9);
    s->seen_ns = m->now_ns;
    clock_job_forecast(j, clock_now_s(m));
    m->effects |= EFFECT_REDRAW;
    if (j->session.air)
        ask_gap(m);
    else
        resume_gap(m, 0, false);
    if (s->left.torn)
        model_say(m, STYLE_CAUTION, "The last line of the record was cut off and is left out.");
}

void resume_gap(struct model *m, double flowed_s, bool flows)
{
    struct clock_state *s = &m->at.clock;
    double last_s = s->job.session.now_s, now_s = clock_now_s(m);
    struct log_event clock = {.at_s = now_s, .word = LOG_CLOCK};
    m->host->log_stamp(m->host->self, &clock);
    bool was_on = s->job.session.air;
    if (was_on && !clock_commit(m, (struct log_event){.at_s = last_s, .word = LOG_AIR}))
        return;
    if (!clock_commit(m, clock))
        return;
    if (flowed_s > 0)
        clock_commit(m, (struct log_event){.at_s = now_s, .word = LOG_GAP, .gap_s = flowed_s});
    if (flows)
        clock_commit(m, (struct log_event){.at_s = now_s, .word = LOG_AIR, .on = true});
    else if (was_on)
        model_say(m, STYLE_NOTE, "Air off. Read the corners to make sure, then Space.");
}

/* Running time within which nine of ten machines have every tyre at its target, half as long again
 * and a minute; an hour where the forecast sees no end. */
static double plausible_gap_s(const struct clock_job *j)
{
    double end_s = j->known ? j->out.finish.p95_s : HUGE_VAL;
    if (!isfinite(end_s))
        return 3600;
    return 1.5 * fmax(0, end_s - j->session.running_s) + 60;
}

void resume_told(struct model *m, double flowed_s, bool flows)
{
    struct clock_state *s = &m->at.clock;
    char most[32], told[32];
    double most_s = plausible_gap_s(&s->job);
    if (flowed_s <= most_s) {
        resume_gap(m, flowed_s, flows);
        return;
    }
    s->ask = (struct clock_question){.kind = ASK_LONG,
                                     .event = {.word = LOG_GAP, .gap_s = flowed_s, .on = flows}};
    struct text t = text_over(s->ask.words, sizeof s->ask.words);
    text_put(&t, "%s of air? By the forecast every tyre is past its target within %s. So long?",
             clock_minutes(told, flowed_s), clock_minutes(most, most_s));
    m->effects |= EFFECT_BEEP;
}

void resume_told_again(struct model *m, const struct log_event *gap, bool yes)
{
    if (yes)
        resume_gap(m, gap->gap_s, gap->on);
    else
        ask_gap(m);
}

void resume_anew(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    struct clock_job *j = &s->job;
    struct refill_in in = j->session.in;
    bool up = j->session.up;
    unsigned core_out = j->session.core_out;
    enum hookup hookup = j->session.hookup;
    struct forecast_learned lesson;
    struct forecast_prior prior = j->prior;
    if (j->known && forecast_learn(&j->forecast, &j->session, &lesson) >= STATUS_OK)
        prior = forecast_prior_learned(1, &lesson, in.inlet_temp_k, in.ambient_abs_pa);
    resume_gap(m, 0, false);
    struct log_event note = {.at_s = clock_now_s(m), .word = LOG_NOTE};
    snprintf(note.text, sizeof note.text, "gap unknown: read anew in another record");
    clock_commit(m, note);
    clock_commit(m, (struct log_event){.at_s = clock_now_s(m), .word = LOG_DONE});
    s->learned = true; /* half a refill is no lesson; what it told goes into the next record */
    clock_save(m);
    clock_job_prepare(j, &in, up, hookup);
    j->session.core_out = core_out;
    j->prior = prior;
    s->learned = s->resumed = false;
    s->anew = s->down_asked = true;
    model_say(m, STYLE_NOTE, "Read each corner anew; targets are kept.");
}

/* Closed, so that it is not offered again. */
static void close_record(struct model *m)
{
    const struct clock_state *s = &m->at.clock;
    const struct session_host *h = m->host;
    char words[CLOCK_WHY];
    struct text why = text_over(words, sizeof words);
    double at_s = s->left.n > 0 ? s->job.event[s->left.n - 1].at_s : 0;
    struct log_event note = {.at_s = at_s, .word = LOG_NOTE},
                     done = {.at_s = at_s, .word = LOG_DONE};
    snprintf(note.text, sizeof note.text, "not gone on with");
    bool ok = h->log_resume(h->self, &s->left, &why) && h->log_append(h->self, &note, &why) &&
              h->log_append(h->self, &done, &why);
    h->log_end(h->self);
    model_leave(m);
    if (!ok)
        model_say(m, STYLE_ERROR, "The record cannot be closed: %s", words);
}

bool resume_act(struct model *m, enum action a, int key)
{
    (void)key;
    if (a == ACT_YES)
        go_on(m);
    else if (a == ACT_NO)
        close_record(m);
    else
        return false;
    return true;
}

static int readings_in(const struct clock_state *s)
{
    int n = 0;
    for (int i = 0; i < s->left.n; i++)
        n += s->job.event[i].word == LOG_READ;
    return n;
}

void resume_render(const struct model *m, struct frame *f, struct rect body)
{
    const struct clock_state *s = &m->at.clock;
    const struct log_event *rig = first_of(s, LOG_RIG), *job = first_of(s, LOG_JOB),
                           *started = first_of(s, LOG_STARTED);
    double last_s = s->left.n > 0 ? s->job.event[s->left.n - 1].at_s : 0;
    char words[700], time[32], gap[32];
    struct rect in = panel_put(f, body, "An unfinished job");
    struct text t = text_over(words, sizeof words);
    text_put(&t, "Air %s of %s, begun %s: %d readings, the last entry at %s.",
             job != NULL && !job->on ? "down" : "up", rig != NULL ? file_of(rig->text) : "",
             started != NULL ? started->text : "some time ago", readings_in(s),
             clock_minutes(time, last_s));
    int row = in.row + 1;
    row += frame_wrap(f, (struct rect){row, in.col + 1, 4, in.cols - 2}, STYLE_PLAIN, words);
    text_clear(&t);
    if (s->left.doubtful)
        text_put(&t, "How long ago is unknown: the calendar went back since.");
    else
        text_put(&t, "Since then %s passed.", clock_minutes(gap, s->left.now_s - last_s));
    if (s->left.torn)
        text_put(&t, " Its last line was cut off and is left out.");
    row += frame_wrap(f, (struct rect){row, in.col + 1, 3, in.cols - 2}, STYLE_PLAIN, words);
    frame_put(f, row + 1, in.col + 1, STYLE_TITLE,
              "Go on with it?   y yes   n no, close it   q later");
}
