/* clock_begin.c - from the rig in hand to air on, and from the end to what was learned. */
#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/gas.h"
#include "core/refill_note.h"
#include "tui/model.h"
#include "tui/screen_danger.h"

/* Down is the refill turned round: from the road's reading to the ground's. */
static struct refill_in job_in(const struct model *m, bool up)
{
    struct refill_in in = m->results.refill.in;
    for (int i = 0; i < REFILL_CORNERS && !up; i++) {
        double from = in.corner[i].from_gauge_pa;
        in.corner[i].from_gauge_pa = in.corner[i].target_gauge_pa;
        in.corner[i].target_gauge_pa = from;
    }
    double step = units_step(model_units(m)) / 10; /* a target that can be read */
    for (int i = 0; i < REFILL_CORNERS; i++)
        in.corner[i].target_gauge_pa = step * round(in.corner[i].target_gauge_pa / step);
    return in;
}

/* A cold pressure as a gauge shows it today; as it is where that cannot be told. */
static double now_pa(const struct advice *a, int x, double cold_gauge_pa)
{
    double p = cold_gauge_pa;
    return gas_gauge_moved(cold_gauge_pa, a->rig.axle[x].road_temp_k, a->ambient_abs_pa,
                           a->tyre_temp_k[x], a->ambient_abs_pa, &p) < STATUS_OK
               ? cold_gauge_pa
               : p;
}

static void set_limits(struct model *m)
{
    const struct advice *a = &m->results.advice;
    for (int i = 0; i < REFILL_CORNERS; i++) {
        int x = i / SIDE_COUNT;
        m->at.clock.limits[i] = (struct clock_limits){m->outing.rig.axle[x].tyre.max_gauge_pa,
                                                      now_pa(a, x, a->axle[x].floor_gauge_pa),
                                                      now_pa(a, x, a->axle[x].least_gauge_pa)};
    }
}

void clock_follow(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    if (s->job.begun || s->anew || !m->outing.has_rig || m->results.refill.status < STATUS_OK)
        return;
    struct refill_in in = job_in(m, s->up);
    clock_job_prepare(&s->job, &in, s->up, in.air.hookup);
    set_limits(m);
    s->low_asked = s->heeded = 0;
    s->down_asked = s->weak_asked = s->starting = s->learned = false;
    s->read_s = -1;
    if (s->resuming)
        resume_replay(m);
}

static bool soft_ground(const struct model *m)
{
    const struct ground *g = outing_ground(&m->outing, m->grounds);
    return g != NULL && !g->road;
}

void clock_enter(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    if (s->starting) {
        clock_start(m); /* the dangers were read */
        return;
    }
    if (s->job.begun)
        return;
    bool let_down = m->host->let_down != NULL && m->host->let_down(m->host->self, &m->outing.rig);
    if (!s->turned)
        s->up = !soft_ground(m) || let_down;
    clock_follow(m);
}

static bool commit_note(struct model *m, const struct refill_note *n)
{
    struct log_event e = {.at_s = clock_now_s(m), .word = LOG_NOTE};
    struct text t = text_over(e.text, sizeof e.text);
    refill_note_put(n, &t);
    return clock_commit(m, e);
}

static bool note_day(struct model *m)
{
    const struct conditions *c = &m->outing.conditions;
    const struct {
        enum refill_note_kind kind;
        struct maybe v;
    } day[] = {{NOTE_AIR, c->air_temp_k}, {NOTE_TYRES, c->tyre_temp_k}, {NOTE_HEIGHT, c->height_m}};
    bool ok = true;
    for (size_t i = 0; i < sizeof day / sizeof *day && ok; i++)
        if (day[i].v.is)
            ok = commit_note(m, &(struct refill_note){.kind = day[i].kind, .si = day[i].v.v});
    for (int i = 0; i < m->outing.n_edit && ok; i++) {
        struct refill_note n = {.kind = NOTE_SET};
        snprintf(n.key, sizeof n.key, "%s", m->outing.edit[i].key);
        snprintf(n.value, sizeof n.value, "%s", m->outing.edit[i].value);
        ok = commit_note(m, &n);
    }
    return ok;
}

/* What is believed of the source goes into the record, so that a reader can forecast the same. */
static bool note_prior(struct model *m)
{
    struct clock_job *j = &m->at.clock.job;
    const struct refill_in *in = &j->session.in;
    if (m->host->prior != NULL && j->session.up && j->prior.refills == 0)
        j->prior =
            m->host->prior(m->host->self, &m->outing.rig, in->inlet_temp_k, in->ambient_abs_pa);
    struct refill_note n = {.kind = NOTE_PRIOR,
                            .log_mean_1 = j->prior.log_mean_1,
                            .log_sd_1 = j->prior.log_sd_1,
                            .refills = j->prior.refills};
    if (j->prior.refills == 0)
        return true;
    char words[LOG_TEXT];
    struct text t = text_over(words, sizeof words);
    refill_note_put(&n, &t);
    n = refill_note_read(words);
    j->prior = (struct forecast_prior){n.log_mean_1, n.log_sd_1, n.refills};
    return commit_note(m, &n);
}

static bool commit_targets(struct model *m)
{
    const struct session *s = &m->at.clock.job.session;
    bool ok = true;
    for (int a = 0; a < AXLE_COUNT && ok; a++)
        if (s->present & LOG_AXLE_BITS(a))
            ok = clock_commit(
                m, (struct log_event){.at_s = clock_now_s(m),
                                      .word = LOG_TARGET,
                                      .corners = LOG_AXLE_BITS(a),
                                      .p_gauge_pa =
                                          s->in.corner[REFILL_CORNER(a, SIDE_LEFT)].target_gauge_pa,
                                      .unit = model_units(m)});
    return ok;
}

/* What the head of the record told of a corner. */
static double told_target(const struct clock_job *j, int i)
{
    for (int k = 0; k < j->n_event; k++)
        if (j->event[k].word == LOG_TARGET && j->event[k].corners >> i & 1u)
            return j->event[k].p_gauge_pa;
    return j->session.in.corner[i].target_gauge_pa;
}

bool clock_new_targets(const struct model *m, double target_gauge_pa[REFILL_CORNERS])
{
    const struct clock_job *j = &m->at.clock.job;
    const struct session *s = &j->session;
    double alike_pa = units_step(model_units(m)) / 4;
    bool other = false, taken = true;
    if (!j->begun || s->done || m->results.refill.status < STATUS_OK || (!s->up && !soft_ground(m)))
        return false;
    struct refill_in in = job_in(m, s->up);
    for (int i = 0; i < REFILL_CORNERS; i++) {
        double p = target_gauge_pa[i] = in.corner[i].target_gauge_pa;
        bool is = s->present >> i & 1u;
        other |= is && fabs(p - told_target(j, i)) > alike_pa;
        taken &= !is || fabs(p - s->in.corner[i].target_gauge_pa) <= alike_pa;
    }
    return other && !taken;
}

bool clock_take_targets(struct model *m)
{
    double p[REFILL_CORNERS];
    bool ok = clock_new_targets(m, p);
    for (int a = 0; a < AXLE_COUNT && ok; a++)
        if (m->at.clock.job.session.present & LOG_AXLE_BITS(a))
            ok = clock_commit(m, (struct log_event){.at_s = clock_now_s(m),
                                                    .word = LOG_TARGET,
                                                    .corners = LOG_AXLE_BITS(a),
                                                    .p_gauge_pa = p[REFILL_CORNER(a, SIDE_LEFT)],
                                                    .unit = model_units(m)});
    return ok;
}

/* The direction, and letting down which cores are out. */
static bool commit_job(struct model *m)
{
    const struct session *s = &m->at.clock.job.session;
    unsigned out = s->core_out & s->present;
    bool all = out == s->present, up = s->up;
    struct log_event job = {.word = LOG_JOB, .on = up},
                     cores = {.word = LOG_CORE, .corners = out, .core = LOG_CORE_OUT};
    if (!up)
        job.core = all ? LOG_CORE_OUT : LOG_CORE_IN;
    return clock_commit(m, job) && (up || all || out == 0 || clock_commit(m, cores));
}

bool clock_begin(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    struct clock_job *j = &s->job;
    if (j->begun)
        return true;
    if (m->outing.source.kind != SOURCE_FILE) {
        model_say(m, STYLE_ERROR, "Save the rig first (F2): the record has to name it.");
        m->effects |= EFFECT_BEEP;
        return false;
    }
    j->begun = true;
    j->zero_ns = m->now_ns;
    memset(&m->acknowledged, 0, sizeof m->acknowledged); /* each job reads its dangers */
    struct log_event started = {.word = LOG_STARTED}, rig = {.word = LOG_RIG};
    if (m->host->log_stamp != NULL)
        m->host->log_stamp(m->host->self, &started);
    struct text path = text_over(rig.text, sizeof rig.text);
    text_put(&path, "%s", m->outing.source.path);
    if (m->host->log_rig != NULL)
        m->host->log_rig(m->host->self, m->outing.source.path, rig.text);
    bool ok =
        (m->host->log_stamp == NULL || clock_commit(m, started)) && clock_commit(m, rig) &&
        commit_job(m) &&
        clock_commit(m, (struct log_event){.word = LOG_HOOKUP, .hookup = j->session.hookup}) &&
        note_day(m) && note_prior(m) && commit_targets(m);
    j->begun = ok;
    return ok;
}

/* A question is open. */
static void ask(struct model *m, enum clock_ask kind, unsigned corners)
{
    m->at.clock.ask = (struct clock_question){.kind = kind, .corners = corners};
    m->effects |= EFFECT_BEEP;
}

/* A corner that nobody let down gets no air before it was looked at. */
static bool ask_found_low(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    unsigned low = session_found_low(&s->job.session) & ~s->low_asked & ~s->job.session.dropped;
    for (int i = 0; i < REFILL_CORNERS; i++)
        if (low & (1u << i)) {
            ask(m, ASK_LOW, 1u << i);
            struct text t = text_over(s->ask.words, sizeof s->ask.words);
            refill_log_corners_put(1u << i, &t);
            text_put(&t, " reads ");
            units_put(&t, s->job.session.start_gauge_pa[i], Q_PRESSURE, model_units(m), 0);
            text_put(&t, ", its mate ");
            units_put(&t, s->job.session.start_gauge_pa[i ^ 1], Q_PRESSURE, model_units(m), 0);
            text_put(&t, ". Was it found low, not let down on purpose?");
            return true;
        }
    return false;
}

static bool ask_let_down(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    if (s->down_asked || m->host->let_down == NULL ||
        m->host->let_down(m->host->self, &m->outing.rig))
        return false;
    ask(m, ASK_DOWN, 0);
    snprintf(s->ask.words, sizeof s->ask.words,
             "No air-down of this rig is on record. Did you let every tyre down yourself?");
    return true;
}

static bool ask_weak(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    struct refill_in in = s->job.session.in;
    struct refill_out out;
    for (int i = 0; i < REFILL_CORNERS; i++) {
        in.corner[i].from_gauge_pa = s->job.session.start_gauge_pa[i];
        in.corner[i].present &= !(s->job.session.dropped >> i & 1u);
    }
    if (s->weak_asked || refill_compute(&in, &out) < STATUS_OK)
        return false;
    const struct refill_plan *p = &out.plan[s->job.session.hookup];
    if (p->possible || p->problem == REFILL_NOTHING_TO_DO)
        return false;
    ask(m, ASK_WEAK, 0);
    snprintf(s->ask.words, sizeof s->ask.words, "By the label %s. Start all the same?",
             p->problem == REFILL_CUT_OUT ? "the compressor cuts out below a target"
                                          : "the source does not reach every target");
    return true;
}

/* Why a job cannot start; NULL when it can. */
static const char *hindrance(const struct model *m, struct text *out)
{
    const struct session *s = &m->at.clock.job.session;
    unsigned missing = s->present & ~s->started, need = 0;
    for (int a = 0; a < AXLE_COUNT; a++)
        if (m->outing.rig.axle[a].present && m->outing.rig.axle[a].wheel == WHEEL_MULTI_PIECE)
            return "Multi-piece wheels: no steps. Trained people with a cage do that.";
    if (missing != 0) {
        text_put(out, "Read first: ");
        refill_log_corners_put(missing, out);
        text_put(out, ". Pick a corner or a for all, digits, Enter.");
        return out->s;
    }
    for (int i = 0; i < REFILL_CORNERS; i++) {
        double lack = s->in.corner[i].target_gauge_pa - s->start_gauge_pa[i];
        need |= (s->up ? lack : -lack) > 0 ? 1u << i : 0u;
    }
    if ((need & s->present & ~s->dropped) == 0)
        return s->up ? "Nothing to fill: no corner on the line is below its target. Down: e, Space."
                     : "Nothing to let down: no corner is above its target. To fill: e, Space.";
    return NULL;
}

void clock_start(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    char words[160];
    struct text t = text_over(words, sizeof words);
    const char *why = hindrance(m, &t);
    s->starting = false;
    if (why != NULL) {
        model_say(m, STYLE_ERROR, "%s", why);
        m->effects |= EFFECT_BEEP;
        return;
    }
    if (!clock_begin(m))
        return;
    if (s->job.session.up && (ask_found_low(m) || ask_let_down(m) || ask_weak(m)))
        return;
    if (danger_ahead(m, SCREEN_CLOCK)) {
        s->starting = true;
        model_edit(m, EDITOR_DANGER);
        return;
    }
    clock_commit(m, (struct log_event){.at_s = clock_now_s(m), .word = LOG_AIR, .on = true});
}

void clock_finish(struct model *m)
{
    struct clock_state *s = &m->at.clock;
    if (s->job.known && !s->learned &&
        forecast_learn(&s->job.forecast, &s->job.session, &s->lesson) >= STATUS_OK)
        s->learned =
            m->host->learn != NULL && m->host->learn(m->host->self, &m->outing.rig, &s->lesson);
    if (s->log_open && m->host->log_end != NULL)
        m->host->log_end(m->host->self);
    s->log_open = false;
}
