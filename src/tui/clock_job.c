#include "tui/clock_job.h"

#include <math.h>
#include <string.h>

#include "core/refill_note.h"

#define MATE_1                                                                                     \
    0.25 /* probability at which the axle mate is taken off with a corner; own judgement */

void clock_job_prepare(struct clock_job *j, const struct refill_in *in, bool up, enum hookup hookup)
{
    j->begun = j->drawn = j->stale = j->known = false;
    session_init(in, &j->session);
    j->session.up = up;
    j->session.hookup = hookup;
    j->run_time_s = in->air.source == AIR_COMPRESSOR ? in->air.compressor.run_time_s : 0;
    j->rest_time_s = in->air.source == AIR_COMPRESSOR ? in->air.compressor.rest_time_s : 0;
    j->prior = forecast_prior_label();
    for (int i = 0; i < REFILL_CORNERS; i++)
        j->stop_s[i] = -1;
    j->n_event = j->n_saved = j->n_act = j->back = 0;
    j->low = j->told = 0;
    j->saving = CLOCK_SAVED;
    j->why_unsaved[0] = '\0';
}

double clock_job_time(const struct clock_job *j, int64_t now_ns)
{
    if (!j->begun)
        return 0;
    int64_t at_ms = (now_ns - j->zero_ns) / 1000000; /* the log keeps milliseconds */
    double at_s = (double)at_ms / 1000.0;
    return fmax(at_s, j->session.now_s);
}

/* The event as a reader of the log will see it: live and replay work with the same numbers. */
static enum status as_logged(struct log_event *e, struct text *why)
{
    char line[LOG_LINE];
    struct text t = text_over(line, sizeof line);
    refill_log_put(e, &t);
    return refill_log_parse(line, e, why);
}

static void forget_act(struct clock_job *j, int i)
{
    memmove(&j->act[i], &j->act[i + 1], (size_t)(j->n_act - 1 - i) * sizeof j->act[0]);
    j->n_act--;
}

/* Start readings and cores stand once air has flowed. */
static void settle_start(struct clock_job *j)
{
    for (int i = j->n_act - 1; i >= 0; i--)
        if (j->act[i].word == LOG_READ || j->act[i].word == LOG_CORE)
            forget_act(j, i);
}

/* An undo written by hand, without its note: of a reading or a gap. */
static void forget_last(struct clock_job *j, enum log_word word)
{
    for (int i = j->n_act - 1; i >= 0; i--)
        if (j->act[i].word == word) {
            forget_act(j, i);
            return;
        }
}

/* Corners on the line again were taken off by some act: of that there is less to take back. */
static void forget_drops(struct clock_job *j, unsigned corners)
{
    for (int i = j->n_act - 1; i >= 0; i--) {
        struct clock_act *a = &j->act[i];
        if (a->word != LOG_DROP)
            continue;
        a->corners &= ~corners;
        if (a->corners == 0)
            forget_act(j, i);
    }
}

static void push_act(struct clock_job *j, const struct session *before, const struct log_event *e,
                     unsigned corners)
{
    if (j->n_act == CLOCK_ACTS)
        forget_act(j, 0);
    const struct log_event *last = j->n_event > 1 ? &j->event[j->n_event - 2] : e;
    struct clock_act *a = &j->act[j->n_act++];
    *a = (struct clock_act){.word = e->word,
                            .corners = corners,
                            .p_gauge_pa = e->p_gauge_pa,
                            .gap_s = e->gap_s,
                            .unit = e->unit,
                            .hookup = before->hookup,
                            .core_out = before->core_out,
                            .joined = before->joined};
    a->air = e->word == LOG_DROP && last->word == LOG_AIR && !last->on && last->at_s == e->at_s;
    for (int i = 0; i < REFILL_CORNERS; i++)
        a->target_gauge_pa[i] = before->in.corner[i].target_gauge_pa;
}

static void note_words(struct clock_job *j, const struct log_event *e)
{
    struct refill_note n = refill_note_read(e->text);
    if (n.kind == NOTE_LOW)
        j->low |= n.corners & j->session.present;
    if (n.kind != NOTE_BACK)
        return;
    j->back = n.events;
    j->back_s = e->at_s;
    j->n_act -= j->n_act > 0;
}

/* Keep what is needed to take an act back; the head of a record is no act, nor is an undo. */
static void note_act(struct clock_job *j, const struct session *before, const struct log_event *e)
{
    bool head = (j->told & before->present) != before->present;
    bool taking_back = j->back > 0 && e->at_s == j->back_s;
    unsigned fresh = e->corners & before->present & ~before->dropped & ~j->low;
    if (before->first_air_s < 0 && j->session.first_air_s >= 0)
        settle_start(j);
    if (e->word == LOG_NOTE)
        note_words(j, e);
    else if (j->back > 0)
        j->back = taking_back ? j->back - 1 : 0;
    if (e->word == LOG_TARGET)
        j->told |= e->corners;
    if (taking_back)
        return;
    if (e->word == LOG_UNDO)
        forget_last(j, e->on ? LOG_GAP : LOG_READ);
    else if (e->word == LOG_JOIN)
        forget_drops(j, e->corners);
    else if (e->word == LOG_READ || e->word == LOG_GAP || (e->word == LOG_DROP && fresh != 0))
        push_act(j, before, e, e->word == LOG_DROP ? fresh : e->corners);
    else if (!head && (e->word == LOG_TARGET || e->word == LOG_HOOKUP || e->word == LOG_CORE))
        push_act(j, before, e, e->corners);
}

enum status clock_job_apply(struct clock_job *j, struct log_event e, struct text *why)
{
    struct session before = j->session;
    if (j->n_event == CLOCK_EVENTS) {
        text_put(why, "the record is full: end the job");
        return STATUS_E_FULL;
    }
    if (e.corners != 0 && (e.corners & before.present) == before.present)
        e.corners = LOG_ALL; /* "all" says it shortest */
    enum status s = as_logged(&e, why);
    if (s >= STATUS_OK)
        s = session_apply(&j->session, &e, why);
    if (s < STATUS_OK)
        return s;
    j->event[j->n_event++] = e;
    if (before.present != 0 && e.word != LOG_JOB)
        note_act(j, &before, &e);
    clock_note_stop(j, &before, e.at_s);
    if (e.word == LOG_REST)
        j->rest_from_s = e.at_s;
    j->stale = true;
    if (j->saving == CLOCK_SAVED)
        j->saving = CLOCK_TO_SAVE;
    return STATUS_OK;
}

/* The events that take an act back; at most one a corner and two more. */
enum { BACK_EVENTS = REFILL_CORNERS + 2 };

static int back_to_targets(const struct clock_act *a, unsigned present,
                           struct log_event out[BACK_EVENTS])
{
    int n = 0;
    for (int i = 0; i < REFILL_CORNERS; i++)
        if (a->corners & present & (1u << i))
            out[n++] = (struct log_event){.word = LOG_TARGET,
                                          .corners = 1u << i,
                                          .p_gauge_pa = a->target_gauge_pa[i],
                                          .unit = a->unit};
    return n;
}

static int back_to_cores(const struct clock_act *a, unsigned present,
                         struct log_event out[BACK_EVENTS])
{
    unsigned mine = a->corners & present;
    const unsigned back[] = {mine & ~a->core_out, mine & a->core_out};
    const enum log_core to[] = {LOG_CORE_IN, LOG_CORE_OUT};
    int n = 0;
    for (int k = 0; k < 2; k++)
        if (back[k] != 0)
            out[n++] = (struct log_event){.word = LOG_CORE, .corners = back[k], .core = to[k]};
    return n;
}

static int back_events(const struct clock_act *a, unsigned present,
                       struct log_event out[BACK_EVENTS])
{
    int n = 0;
    if (a->word == LOG_TARGET)
        return back_to_targets(a, present, out);
    if (a->word == LOG_CORE)
        return back_to_cores(a, present, out);
    if (a->word == LOG_READ || a->word == LOG_GAP) {
        out[n++] = (struct log_event){.word = LOG_UNDO, .on = a->word == LOG_GAP};
    } else if (a->word == LOG_DROP) {
        out[n++] = (struct log_event){.word = LOG_JOIN, .corners = a->corners};
        if (a->air)
            out[n++] = (struct log_event){.word = LOG_AIR, .on = true};
    } else {
        out[n++] = (struct log_event){.word = LOG_HOOKUP, .hookup = a->hookup};
        if (a->joined != 0)
            out[n++] = (struct log_event){.word = LOG_JOIN, .corners = a->joined};
    }
    return n;
}

static void act_words(const struct clock_act *a, unsigned present, enum unit_system u,
                      struct text *what)
{
    if (a->word == LOG_HOOKUP) {
        text_put(what, "hook-up, back to %s", hookup_name(a->hookup));
        return;
    }
    if (a->word == LOG_GAP) {
        text_put(what, "%.3g min of air in the gap; read the corners", a->gap_s / 60);
        return;
    }
    text_put(what, "%s ",
             a->word == LOG_READ   ? "reading"
             : a->word == LOG_DROP ? "taken off:"
             : a->word == LOG_CORE ? "cores of"
                                   : "new target of");
    refill_log_corners_put((a->corners & present) == present ? LOG_ALL : a->corners, what);
    if (a->word == LOG_READ) {
        text_put(what, " ");
        units_put(what, a->p_gauge_pa, Q_PRESSURE, u, 1);
    }
    if (a->air)
        text_put(what, ", air on again");
}

enum status clock_job_undo(struct clock_job *j, double now_s, enum unit_system u, struct text *what)
{
    struct log_event event[BACK_EVENTS], note = {.at_s = now_s, .word = LOG_NOTE};
    if (j->n_act == 0)
        return STATUS_E_MISSING;
    struct clock_act a = j->act[j->n_act - 1];
    a.air = a.air && !j->session.air;
    int n = back_events(&a, j->session.present, event);
    struct text t = text_over(note.text, sizeof note.text);
    refill_note_put(&(struct refill_note){.kind = NOTE_BACK, .events = n}, &t);
    if (j->n_event + n >= CLOCK_EVENTS) {
        text_put(what, "the record is full: end the job");
        return STATUS_E_FULL;
    }
    enum status s = clock_job_apply(j, note, what);
    for (int i = 0; i < n && s >= STATUS_OK; i++) {
        event[i].at_s = now_s;
        s = clock_job_apply(j, event[i], what);
    }
    if (s >= STATUS_OK)
        act_words(&a, j->session.present, u, what);
    return s;
}

void clock_job_forecast(struct clock_job *j, double now_s)
{
    j->stale = false;
    if (!j->drawn)
        j->drawn = forecast_init(&j->forecast, 1, FORECAST_MEMBERS, &j->prior) >= STATUS_OK;
    j->known = j->drawn && forecast_update(&j->forecast, &j->session, now_s, &j->out) >= STATUS_OK;
}

void clock_job_tick(struct clock_job *j, double now_s)
{
    if (j->known && !j->session.done &&
        forecast_tick(&j->forecast, &j->session, now_s, &j->out) < STATUS_OK)
        j->known = false;
}

double clock_run_used(const struct clock_job *j, double now_s)
{
    const struct session *s = &j->session;
    double used_s = 0;
    if (j->rest_time_s <= 0)
        return 0;
    for (int i = 0; i < s->n_span; i++) {
        double lasts_s = s->span[i].lasts_s;
        used_s = s->span[i].air ? used_s + lasts_s
                                : fmax(0, used_s - lasts_s / j->rest_time_s * j->run_time_s);
    }
    double open_s = s->first_air_s >= 0 ? fmax(0, now_s - s->now_s) : 0;
    return s->air ? used_s + open_s : fmax(0, used_s - open_s / j->rest_time_s * j->run_time_s);
}

double clock_rest_left(const struct clock_job *j, double now_s)
{
    return j->session.resting ? fmax(0, j->rest_from_s + j->rest_time_s - now_s) : 0;
}

double clock_elapsed(const struct clock_job *j, double now_s)
{
    return j->session.first_air_s >= 0 ? now_s - j->session.first_air_s : 0;
}

double clock_remaining(const struct clock_job *j, double now_s)
{
    if (!j->known)
        return -1;
    double run_s = fmax(0, j->out.finish.p50_s - session_running(&j->session, now_s));
    if (!isfinite(run_s) || j->rest_time_s <= 0 || !j->session.up)
        return run_s;
    double over_s = clock_run_used(j, now_s) + run_s - j->run_time_s;
    double rests_1 = over_s > 0 && run_s > 0 ? ceil(over_s / j->run_time_s) : 0;
    return run_s + rests_1 * j->rest_time_s + clock_rest_left(j, now_s);
}

static unsigned at_target(const struct clock_job *j)
{
    unsigned at = 0;
    for (int i = 0; j->known && i < REFILL_CORNERS; i++) {
        const struct forecast_corner *c = &j->out.corner[i], *mate = &j->out.corner[i ^ 1];
        bool there = c->state == FORECAST_DROP_NOW;
        bool with = mate->state == FORECAST_DROP_NOW && c->present && c->at_target_1 >= MATE_1 &&
                    c->state != FORECAST_CHECK;
        at |= there || with ? 1u << i : 0u;
    }
    return at & ~j->session.dropped;
}

/* With every corner at its target, or none on the line any more, only the end is left. */
static struct clock_prompt call_end(const struct clock_job *j)
{
    const struct session *s = &j->session;
    unsigned shy = s->present & ~clock_left_out(s) & ~clock_reached(j);
    bool ends = shy == 0 || (s->present & ~s->dropped) == 0;
    return (struct clock_prompt){ends ? CALL_END : CALL_NONE, shy};
}

static struct clock_prompt with_air(const struct clock_job *j, double now_s, unsigned heeded,
                                    double read_s)
{
    const struct session *s = &j->session;
    unsigned odd = j->known ? j->out.out_of_step & ~heeded & ~s->dropped : 0, at = at_target(j);
    if (odd != 0)
        return (struct clock_prompt){CALL_CHECK, odd};
    if (session_open(s) == 0)
        return (struct clock_prompt){CALL_STOP, 0};
    if (at != 0)
        return (struct clock_prompt){(s->present & ~s->dropped & ~at) == 0 ? CALL_STOP : CALL_DROP,
                                     at};
    if (s->up && j->rest_time_s > 0 && clock_run_used(j, now_s) >= j->run_time_s)
        return (struct clock_prompt){CALL_REST, 0};
    unsigned due = clock_read_due(j, now_s, read_s);
    return (struct clock_prompt){due != 0 ? CALL_READ : CALL_NONE, due};
}

struct clock_prompt clock_job_prompt(const struct clock_job *j, double now_s, unsigned heeded,
                                     double read_s)
{
    const struct session *s = &j->session;
    if (!j->begun || s->done || s->first_air_s < 0)
        return (struct clock_prompt){CALL_NONE, 0};
    if (s->air && (s->up || session_open(s) != 0)) /* of shut valves there is nothing to stop */
        return with_air(j, now_s, heeded, read_s);
    if (s->resting)
        return (struct clock_prompt){clock_rest_left(j, now_s) > 0 ? CALL_NONE : CALL_REST_OVER, 0};
    unsigned unread = clock_unread(j), due = clock_read_due(j, now_s, read_s);
    if (due != 0)
        return (struct clock_prompt){CALL_READ, due};
    if (clock_settle_left(j, unread, now_s) > 0)
        return (struct clock_prompt){CALL_NONE, 0};
    return call_end(j);
}
