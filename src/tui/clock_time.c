/* clock_time.c - the air clock: what time does - calls, bell, flash - and what goes to disk. */
#include "tui/model.h"

#define SECOND_NS 1000000000LL
#define BELL_NS   (3 * SECOND_NS)  /* between two bells of a call; own choice */
#define RETRY_NS  (5 * SECOND_NS)  /* between two tries at a disk that failed; own choice */
#define HOLE_NS   (20 * SECOND_NS) /* without an event while air flows: lid shut, or stopped */

double clock_now_s(const struct model *m)
{
    return clock_job_time(&m->at.clock.job, m->now_ns);
}

unsigned clock_picked(const struct model *m)
{
    const struct clock_state *s = &m->at.clock;
    return s->all ? s->job.session.present : 1u << REFILL_CORNER(m->axle, m->side);
}

bool clock_flows(const struct model *m)
{
    return m->at.clock.job.begun && m->at.clock.job.session.air;
}

/* ---- saving ---- */

static bool open_log(struct model *m, struct text *why)
{
    struct clock_state *s = &m->at.clock;
    if (m->host->log_begin == NULL) {
        text_put(why, "no record is kept here");
        return false;
    }
    if (!s->log_open && s->resumed)
        s->log_open = m->host->log_resume(m->host->self, &s->left, why);
    else if (!s->log_open)
        s->log_open = m->host->log_begin(m->host->self, &m->outing.rig, s->job.session.up, why);
    return s->log_open;
}

static void write_events(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    struct clock_job *j = &s->job;
    struct text why = text_over(j->why_unsaved, sizeof j->why_unsaved);
    bool ok = open_log(m, &why);
    while (ok && j->n_saved < j->n_event) {
        ok = m->host->log_append(m->host->self, &j->event[j->n_saved], &why);
        j->n_saved += ok;
    }
    j->saving = ok ? CLOCK_SAVED : CLOCK_UNSAVED;
    s->retry_ns = m->now_ns + RETRY_NS;
}

void clock_save(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    if (s->job.n_saved < s->job.n_event)
        write_events(m);
    if (s->job.stale)
        clock_job_forecast(&s->job, clock_now_s(m));
    if (s->job.session.done && s->job.saving == CLOCK_SAVED)
        clock_finish(m);
    m->effects |= EFFECT_REDRAW;
}

void clock_corners_put(const struct model *m, unsigned corners, struct text *out)
{
    unsigned present = m->at.clock.job.session.present;
    refill_log_corners_put((corners & present) == present ? LOG_ALL : corners, out);
}

struct clock_prompt clock_prompt_of(const struct model *m)
{
    const struct clock_state *s = &m->at.clock;
    return clock_job_prompt(&s->job, clock_now_s(m), s->heeded, s->read_s);
}

bool clock_flash(const struct model *m)
{
    return m->now_ns / (SECOND_NS / 2) % 2 == 0;
}

bool clock_call_words(const struct model *m, struct text *out)
{
    static const char *const words[] = {
        [CALL_NONE] = "",
        [CALL_CHECK] = "CHECK ",
        [CALL_DROP] = "DROP NOW ",
        [CALL_STOP] = "STOP AIR: all at target",
        [CALL_REST] = "REST the compressor",
        [CALL_REST_OVER] = "REST IS OVER: go on",
        [CALL_READ] = "READ NOW ",
        [CALL_END] = "AT TARGET: end the job",
    };
    struct clock_prompt p = clock_prompt_of(m);
    if (p.call == CALL_NONE)
        return false;
    bool off = p.call == CALL_STOP && p.corners == 0, shy = p.call == CALL_END && p.corners != 0;
    bool down = !m->at.clock.job.session.up && p.call == CALL_DROP;
    if (off || shy)
        text_put(out, off ? "STOP AIR: every corner is off" : "ALL OFF, not at target: ");
    else
        text_put(out, "%s", down ? "SHUT NOW " : words[p.call]);
    if (p.call == CALL_CHECK || p.call == CALL_DROP || p.call == CALL_READ || shy)
        clock_corners_put(m, p.corners, out);
    if (shy)
        text_put(out, "; end the job, or d");
    if (p.call == CALL_CHECK)
        text_put(out, ": hose, valve, leak or bead: stop and look");
    return true;
}

/* ---- time ---- */

static void ring(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    if (clock_prompt_of(m).call == CALL_NONE) {
        s->bell_ns = 0;
    } else if (!s->muted && (s->bell_ns == 0 || m->now_ns - s->bell_ns >= BELL_NS)) {
        s->bell_ns = m->now_ns;
        m->effects |= EFFECT_BEEP;
    }
}

void clock_tick(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    if (!s->job.begun || s->job.session.done) {
        s->seen_ns = m->now_ns;
        return;
    }
    if (s->seen_ns > 0 && m->now_ns - s->seen_ns > HOLE_NS && s->job.session.air) {
        int hole_s = (int)((m->now_ns - s->seen_ns) / SECOND_NS);
        model_say(m, STYLE_CAUTION,
                  "Nobody looked for %d:%02d; the time counts on. Air stopped? Space, then read.",
                  hole_s / 60, hole_s % 60);
        m->effects |= EFFECT_BEEP;
    }
    s->seen_ns = m->now_ns;
    clock_job_tick(&s->job, clock_now_s(m));
    if (s->job.saving == CLOCK_UNSAVED && m->now_ns >= s->retry_ns)
        m->effects |= EFFECT_SAVE;
    ring(m);
    m->effects |= EFFECT_REDRAW;
}

int64_t clock_next_change(const struct model *m)
{
    const struct clock_state *s = &m->at.clock;
    if (!s->job.begun || s->job.session.done)
        return -1;
    bool waits = s->job.session.first_air_s < 0 && s->job.saving == CLOCK_SAVED;
    if (waits)
        return -1;
    int64_t step = clock_prompt_of(m).call != CALL_NONE ? SECOND_NS / 2 : SECOND_NS;
    return m->now_ns + step - (m->now_ns - s->job.zero_ns) % step;
}
