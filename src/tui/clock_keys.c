/* clock_keys.c - the air clock: what keys do. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/refill_note.h"
#include "tui/model.h"
#include "tui/widget.h"

static void refuse(struct model *m, const char *why)
{
    model_say(m, STYLE_ERROR, "%s", why);
    m->effects |= EFFECT_BEEP;
}

bool clock_commit(struct model *m, struct log_event e)
{
    struct clock_state *s = &m->at.clock;
    char words[CLOCK_WHY];
    struct text why = text_over(words, sizeof words);
    if (!s->job.begun && !clock_begin(m))
        return false;
    if (clock_job_apply(&s->job, e, &why) < STATUS_OK) {
        refuse(m, words);
        return false;
    }
    m->effects |= EFFECT_SAVE | EFFECT_REDRAW;
    return true;
}

/* ---- calls ---- */

/* Before the hose moves to another corner its air is off; let down, air stops with the last valve. */
static void drop(struct model *m, unsigned corners)
{
    const struct session *s = &m->at.clock.job.session;
    double at_s = clock_now_s(m);
    unsigned open = session_open(s);
    bool apart =
        s->hookup != HOOKUP_LINKED; /* the hose, or the driver, goes from one to the next */
    bool ends = s->up ? apart : (open & ~corners) == 0;
    bool off = s->air && (open & corners) != 0 && ends;
    if (off && !clock_commit(m, (struct log_event){.at_s = at_s, .word = LOG_AIR}))
        return;
    if (!clock_commit(m, (struct log_event){.at_s = at_s, .word = LOG_DROP, .corners = corners}))
        return;
    if (off && apart && session_open(s) != 0)
        model_say(m, STYLE_NOTE,
                  s->up ? "Move the hose to the next, then Space."
                        : "Walk to the next; Space as you open it.");
}

static void ask_end(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    if (!s->job.begun || s->job.session.done)
        return;
    s->ask = (struct clock_question){.kind = ASK_END};
    snprintf(s->ask.words, sizeof s->ask.words, "%sEnd the job here?",
             s->job.session.air ? "Air is flowing. " : "");
}

void clock_heed(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    struct clock_prompt p = clock_prompt_of(m);
    double at_s = clock_now_s(m);
    if (p.call == CALL_CHECK) {
        s->heeded |= p.corners;
        model_say(m, STYLE_NOTE, "Seen. Space stops the air; a new reading judges it anew.");
    } else if (p.call == CALL_DROP) {
        drop(m, p.corners);
    } else if (p.call == CALL_STOP) {
        clock_commit(m, (struct log_event){.at_s = at_s, .word = LOG_AIR});
    } else if (p.call == CALL_REST) {
        clock_commit(m, (struct log_event){.at_s = at_s, .word = LOG_REST});
    } else if (p.call == CALL_REST_OVER) {
        clock_commit(m, (struct log_event){.at_s = at_s, .word = LOG_RESUME});
    } else if (p.call == CALL_READ) {
        s->read_s = at_s - CLOCK_SETTLE_S;
    } else if (p.call == CALL_END && p.corners != 0) {
        ask_end(m);
    } else if (p.call == CALL_END) {
        clock_commit(m, (struct log_event){.at_s = at_s, .word = LOG_DONE});
    }
}

/* ---- readings ---- */

static bool reading_flows(const struct model *m)
{
    const struct clock_state *s = &m->at.clock;
    bool open = (clock_picked(m) & session_open(&s->job.session)) != 0;
    return s->flowing_set ? s->flowing : s->job.session.air && open;
}

static bool typed_pressure(struct model *m, double *p_gauge_pa)
{
    struct clock_state *s = &m->at.clock;
    struct maybe v = maybe_none();
    char words[120];
    struct text why = text_over(words, sizeof words);
    if (!entry_value(&s->entry, Q_PRESSURE, units_symbol(Q_PRESSURE, model_units(m)), &v, &why) ||
        !v.is) {
        refuse(m, words);
        return false;
    }
    *p_gauge_pa = v.v;
    return true;
}

static void clear_entry(struct clock_state *s)
{
    s->entry.text[0] = '\0';
    s->flowing_set = false;
}

void clock_reading(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    double p = 0;
    if (!typed_pressure(m, &p) || !clock_begin(m))
        return;
    struct log_event e = {.at_s = clock_now_s(m),
                          .word = LOG_READ,
                          .corners = clock_picked(m),
                          .p_gauge_pa = p,
                          .flowing = reading_flows(m),
                          .unit = model_units(m)};
    struct clock_question q = {.kind = ASK_KEEP, .event = e};
    struct text words = text_over(q.words, sizeof q.words);
    clear_entry(s);
    if (clock_doubt(&s->job, s->limits, &e, e.unit, &words)) {
        text_put(&words, "Keep ");
        units_put(&words, p, Q_PRESSURE, e.unit, 1);
        text_put(&words, "?");
        s->ask = q;
        m->effects |= EFFECT_BEEP;
        return;
    }
    s->heeded &= ~e.corners;
    double early_s = clock_settle_left(&s->job, e.corners, e.at_s);
    bool early = !e.flowing && early_s > 0;
    if (!clock_commit(m, e))
        return;
    bool lone = !s->job.session.up && s->job.session.first_air_s >= 0;
    if (early)
        model_say(m, STYLE_CAUTION, "Taken %.0f s early: it may still read %s.", ceil(early_s),
                  s->job.session.up ? "high" : "low");
    else if (lone && (e.corners & (e.corners - 1)) != 0)
        model_say(m, STYLE_NOTE, "Taken for one of them: read each to narrow its band.");
}

#define TARGET_SLACK_PA (0.1 * UNITS_PA_PER_PSI) /* targets are told to a tenth */

/* What every corner picked allows. */
static struct clock_limits picked_limits(const struct model *m)
{
    const struct clock_state *s = &m->at.clock;
    struct clock_limits all = {HUGE_VAL, 0, 0};
    for (int i = 0; i < REFILL_CORNERS; i++) {
        const struct clock_limits *l = &s->limits[i];
        if (!(clock_picked(m) & s->job.session.present & (1u << i)))
            continue;
        if (l->max_gauge_pa > 0)
            all.max_gauge_pa = fmin(all.max_gauge_pa, l->max_gauge_pa);
        all.floor_gauge_pa = fmax(all.floor_gauge_pa, l->floor_gauge_pa);
        all.least_gauge_pa = fmax(all.least_gauge_pa, l->least_gauge_pa);
    }
    return all;
}

static void refuse_target(struct model *m, const char *why, double bound_pa, const char *because)
{
    char words[MODEL_MESSAGE];
    struct text t = text_over(words, sizeof words);
    text_put(&t, "Not taken: %s, ", why);
    units_put(&t, bound_pa, Q_PRESSURE, model_units(m), 1);
    text_put(&t, ".%s%s", because[0] != '\0' ? " " : "", because);
    refuse(m, words);
}

/* No target past what a sidewall, a bead or a casing takes. */
static bool target_refused(struct model *m, const struct clock_limits *l, double p)
{
    if (p > l->max_gauge_pa)
        refuse_target(m, "above the moulded maximum", l->max_gauge_pa, "The tyre may burst.");
    else if (p < l->least_gauge_pa - TARGET_SLACK_PA)
        refuse_target(m, "below what bead and casing take", l->least_gauge_pa, "");
    else
        return false;
    return true;
}

/* Below the floor of where it stands is the driver's choice, asked first. */
static void ask_target(struct model *m, const struct log_event *e, double floor_pa)
{
    struct clock_state *s = &m->at.clock;
    s->ask = (struct clock_question){.kind = ASK_KEEP, .event = *e};
    struct text words = text_over(s->ask.words, sizeof s->ask.words);
    text_put(&words, "CAUTION: below the floor, ");
    units_put(&words, floor_pa, Q_PRESSURE, e->unit, 1);
    text_put(&words, ": the bead may come off. Walking pace, wheels straight. Target ");
    units_put(&words, e->p_gauge_pa, Q_PRESSURE, e->unit, 1);
    text_put(&words, " all the same?");
    m->effects |= EFFECT_BEEP;
}

static void new_target(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    double p = 0;
    if (s->entry.text[0] == '\0' && clock_take_targets(m)) {
        model_say(m, STYLE_NOTE, "The targets of now are taken; z takes them back.");
        return;
    }
    if (s->entry.text[0] == '\0') {
        refuse(m, "Digits first, then t: a new target of the corners picked.");
        return;
    }
    if (!typed_pressure(m, &p))
        return;
    clear_entry(s);
    const struct clock_limits l = picked_limits(m);
    if (target_refused(m, &l, p) || !clock_begin(m))
        return;
    struct log_event e = {.at_s = clock_now_s(m),
                          .word = LOG_TARGET,
                          .corners = clock_picked(m),
                          .p_gauge_pa = p,
                          .unit = model_units(m)};
    if (p < l.floor_gauge_pa - TARGET_SLACK_PA)
        ask_target(m, &e, l.floor_gauge_pa);
    else
        clock_commit(m, e);
}

/* ---- questions ---- */

static void answer_low(struct model *m, const struct clock_question *q, bool low)
{
    struct clock_state *s = &m->at.clock;
    s->low_asked |= q->corners;
    if (!low) {
        clock_start(m);
        return;
    }
    struct log_event note = {.at_s = clock_now_s(m), .word = LOG_NOTE};
    struct text t = text_over(note.text, sizeof note.text);
    refill_note_put(&(struct refill_note){.kind = NOTE_LOW, .corners = q->corners}, &t);
    if (clock_commit(m, note) &&
        clock_commit(
            m, (struct log_event){.at_s = note.at_s, .word = LOG_DROP, .corners = q->corners}))
        model_say(m, STYLE_DANGER,
                  "No air for it: fit the spare, have it looked at. Space: the others.");
}

void clock_answer(struct model *m, bool yes)
{
    struct clock_state *s = &m->at.clock;
    struct clock_question q = s->ask;
    s->ask.kind = ASK_NOTHING;
    if (q.kind == ASK_KEEP && yes) {
        clock_commit(m, q.event);
    } else if (q.kind == ASK_KEEP) {
        model_say(m, STYLE_NOTE, "Not kept.");
    } else if (q.kind == ASK_LOW) {
        answer_low(m, &q, yes);
    } else if (q.kind == ASK_DOWN) {
        s->down_asked = yes;
        if (yes)
            clock_start(m);
        else
            model_say(m, STYLE_DANGER,
                      "No air for a tyre found low. Pick it, d leaves it out; then Space.");
    } else if (q.kind == ASK_WEAK && yes) {
        s->weak_asked = true;
        clock_start(m);
    } else if (q.kind == ASK_GAP) {
        resume_told(m, yes ? resume_gap_s(m) : 0, yes);
    } else if (q.kind == ASK_LONG) {
        resume_told_again(m, &q.event, yes);
    } else if (q.kind == ASK_FORGET && yes) {
        bool done = m->host->forget != NULL && m->host->forget(m->host->self, &m->outing.rig);
        model_say(m, done ? STYLE_NOTE : STYLE_ERROR,
                  done ? "Forgotten: the next job starts from the label." : "Not forgotten.");
    } else if (q.kind == ASK_END && yes) {
        clock_commit(m, (struct log_event){.at_s = clock_now_s(m), .word = LOG_DONE});
    }
}

static void ask_forget(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    s->ask = (struct clock_question){.kind = ASK_FORGET};
    snprintf(s->ask.words, sizeof s->ask.words,
             "Forget what earlier refills taught of this air system?");
}

/* ---- keys ---- */

/* After the end: the other way round, from where it stands. */
static void next_job(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    s->up = !s->job.session.up;
    s->job.begun = s->resumed = s->anew = false;
    clock_follow(m);
}

static void air_key(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    const struct session *now = &s->job.session;
    if (now->done)
        next_job(m);
    else if (now->air)
        clock_commit(m, (struct log_event){.at_s = clock_now_s(m), .word = LOG_AIR});
    else if (now->first_air_s >= 0)
        clock_commit(m, (struct log_event){.at_s = clock_now_s(m),
                                           .word = now->resting ? LOG_RESUME : LOG_AIR,
                                           .on = true});
    else
        clock_start(m);
}

static void off_key(struct model *m)
{
    const struct session *s = &m->at.clock.job.session;
    unsigned picked = clock_picked(m) & s->present, low = m->at.clock.job.low;
    if (picked & ~s->dropped)
        drop(m, picked & ~s->dropped);
    else if ((picked &= ~low) == 0)
        refuse(m, "Found low: no air for it in this job. Have it looked at.");
    else if (clock_commit(
                 m,
                 (struct log_event){.at_s = clock_now_s(m), .word = LOG_JOIN, .corners = picked}) &&
             s->first_air_s >= 0 && !s->air)
        model_say(m, STYLE_NOTE, "Back on. Space when air flows.");
}

static void hookup_key(struct model *m)
{
    struct clock_job *j = &m->at.clock.job;
    enum hookup next = (enum hookup)(((int)j->session.hookup + 1) % HOOKUP_COUNT);
    if (j->begun)
        clock_commit(
            m, (struct log_event){.at_s = clock_now_s(m), .word = LOG_HOOKUP, .hookup = next});
    else
        j->session.hookup = next;
}

static void turn_key(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    if (s->job.begun) {
        refuse(m, "This job has begun: e ends it first.");
        return;
    }
    s->turned = true;
    s->up = !s->up;
    clock_follow(m);
}

static void core_key(struct model *m)
{
    struct clock_job *j = &m->at.clock.job;
    unsigned picked = clock_picked(m) & j->session.present;
    bool in = (picked & ~j->session.core_out) == 0; /* all of them are out: back in */
    struct log_event e = {.at_s = clock_now_s(m),
                          .word = LOG_CORE,
                          .corners = picked,
                          .core = in ? LOG_CORE_IN : LOG_CORE_OUT};
    if (picked == 0 || j->session.done)
        return;
    if (j->session.up || j->session.first_air_s >= 0)
        refuse(m, j->session.up ? "Cores matter going down." : "Cores are set before air flows.");
    else if (j->begun)
        clock_commit(m, e);
    else if (in)
        j->session.core_out &= ~picked;
    else
        j->session.core_out |= picked;
}

static void rest_key(struct model *m)
{
    const struct session *s = &m->at.clock.job.session;
    if (s->first_air_s < 0)
        return;
    clock_commit(
        m, (struct log_event){.at_s = clock_now_s(m), .word = s->resting ? LOG_RESUME : LOG_REST});
}

static bool undo_key(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    char words[160];
    struct text what = text_over(words, sizeof words);
    if (!s->job.begun || s->job.session.done)
        return false;
    enum status st = clock_job_undo(&s->job, clock_now_s(m), model_units(m), &what);
    if (st >= STATUS_OK) {
        m->effects |= EFFECT_SAVE;
        model_say(m, STYLE_NOTE, "Undone: %s. %d more.", words, s->job.n_act);
    } else {
        refuse(m, st != STATUS_E_MISSING            ? words
                  : s->job.session.first_air_s >= 0 ? "Nothing to undo since the first air."
                                                    : "Nothing to undo in this job.");
    }
    return true;
}

static bool digit_key(struct model *m, int key)
{
    struct clock_state *s = &m->at.clock;
    if (!((key >= '0' && key <= '9') || key == '.' || key == ','))
        return false;
    if (s->job.session.done)
        refuse(m, "The job has ended. Space begins the next.");
    else
        entry_key(&s->entry, key);
    return true;
}

/* A gap may also be answered in minutes, or with "unknown". */
static bool gap_key(struct model *m, int key)
{
    struct clock_state *s = &m->at.clock;
    struct maybe minutes = maybe_none();
    char words[80];
    struct text why = text_over(words, sizeof words);
    bool typed = s->entry.text[0] != '\0';
    if (digit_key(m, key) || entry_act(&s->entry, keymap_find(KEYS_TYPING, key)))
        return true;
    if (key == TKEY_ENTER && typed) {
        if (!entry_value(&s->entry, Q_DURATION, "min", &minutes, &why) || !minutes.is ||
            (!s->left.doubtful && minutes.v > resume_gap_s(m) + 60)) {
            refuse(m, "Minutes of air, not more than passed: 2.5");
            return true;
        }
        s->ask.kind = ASK_NOTHING;
        clear_entry(s);
        resume_told(m, minutes.v, false);
    } else if (keymap_find(KEYS_CLOCK, key) == ACT_CLOCK_REST) {
        s->ask.kind = ASK_NOTHING;
        resume_anew(m);
    } else
        return false;
    return true;
}

static bool answered(struct model *m, int key)
{
    enum action a = keymap_find(KEYS_CONFIRM, key);
    if (m->at.clock.ask.kind == ASK_NOTHING)
        return false;
    if (m->at.clock.ask.kind == ASK_GAP && gap_key(m, key))
        return true;
    if (a == ACT_YES || a == ACT_NO)
        clock_answer(m, a == ACT_YES);
    else if (m->at.clock.ask.kind != ASK_GAP && m->at.clock.ask.kind != ASK_LONG &&
             (key == TKEY_ESC || key == 'q'))
        m->at.clock.ask.kind = ASK_NOTHING;
    else
        refuse(m, "y or n first.");
    return true;
}

static bool own_key(struct model *m, enum action a)
{
    struct clock_state *s = &m->at.clock;
    static void (*const does[ACT_COUNT])(struct model *) = {
        [ACT_CLOCK_AIR] = air_key,       [ACT_CLOCK_TAKE] = clock_heed,
        [ACT_CLOCK_OFF] = off_key,       [ACT_CLOCK_REST] = rest_key,
        [ACT_CLOCK_TARGET] = new_target, [ACT_CLOCK_HOOKUP] = hookup_key,
        [ACT_CLOCK_TURN] = turn_key,     [ACT_CLOCK_END] = ask_end,
        [ACT_CLOCK_FORGET] = ask_forget, [ACT_CLOCK_CORE] = core_key,
    };
    bool lasting = a == ACT_CLOCK_OFF || a == ACT_CLOCK_REST || a == ACT_CLOCK_HOOKUP;
    if (lasting && s->job.session.done)
        refuse(m, "The job has ended. Space begins the next.");
    else if (does[a] != NULL)
        does[a](m);
    else if (a == ACT_CLOCK_ALL)
        s->all = true;
    else if (a == ACT_CLOCK_MUTE)
        s->muted = !s->muted;
    else if (a == ACT_CLOCK_FLOWING) {
        s->flowing = !reading_flows(m);
        s->flowing_set = true;
    } else
        return false;
    return true;
}

bool clock_act(struct model *m, enum action a, int key)
{
    struct clock_state *s = &m->at.clock;
    s->starting = false;
    if (m->results.refill.status < STATUS_OK && !s->job.begun)
        return false;
    if (answered(m, key) || digit_key(m, key) || own_key(m, a))
        return true;
    if (entry_act(&s->entry, a))
        return true;
    if (a == ACT_COMMIT)
        clock_reading(m);
    else if (a == ACT_TYPING_ABANDON)
        clear_entry(s);
    else if (a == ACT_UNDO)
        return undo_key(m);
    else if (a == ACT_UP || a == ACT_DOWN || a == ACT_LEFT || a == ACT_RIGHT || a == ACT_NEXT ||
             a == ACT_PREVIOUS) {
        s->all = false;
        return false; /* the session moves the mark */
    } else
        return false;
    return true;
}

bool clock_typing(const struct model *m)
{
    return m->at.clock.entry.text[0] != '\0' && m->at.clock.ask.kind == ASK_NOTHING;
}

/* While digits are typed the clock's own letters still act: f, t, a. */
void clock_type(struct model *m, int key)
{
    enum action a = keymap_find(KEYS_CLOCK, key);
    if (!digit_key(m, key) && a != ACT_CLOCK_TAKE)
        own_key(m, a);
}
