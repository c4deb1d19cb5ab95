#include "tui/clock_rows.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "core/caution.h"
#include "sim/down.h"
#include "tui/model.h"
#include "tui/widget.h"

const char *clock_minutes(char buf[32], double time_s)
{
    int total = (int)floor(num_clamp(time_s, 0, 359999) + 1e-6);
    snprintf(buf, 32, "%d:%02d", total / 60, total % 60);
    return buf;
}

bool clock_down_of(const struct session *s, int i, struct down_corner *d, struct down_result *r)
{
    const struct refill_in *in = &s->in;
    const struct refill_corner_in *c = &in->corner[i];
    if (!c->present || c->tyres < 1)
        return false;
    *d = (struct down_corner){c->volume_m3 / c->tyres, s->start_gauge_pa[i],
                              c->target_gauge_pa,      in->ambient_abs_pa,
                              in->tyre_temp_k,         in->air.gauge_offset_pa};
    return down_compute(d, r) >= STATUS_OK;
}

static bool down_of(const struct session *s, int i, struct down_result *r)
{
    struct down_corner d;
    return clock_down_of(s, i, &d, r);
}

static enum valve_state core_of(const struct session *s, int i)
{
    return s->core_out >> i & 1u ? VALVE_CORE_OUT : VALVE_CORE_IN;
}

static const char *core_word(const struct session *s, int i)
{
    return core_of(s, i) == VALVE_CORE_OUT ? "out" : "in";
}

/* Letting down before air flows: there is a choice of cores. */
static bool choosing_cores(const struct session *s)
{
    return !s->up && s->first_air_s < 0;
}

static double planned_down(const struct session *s)
{
    double most_s = -1;
    struct down_result r;
    for (int i = 0; i < REFILL_CORNERS; i++)
        if (down_of(s, i, &r))
            most_s = fmax(most_s, r.time_s[core_of(s, i)]);
    return most_s;
}

double clock_planned(const struct model *m)
{
    const struct session *s = &m->at.clock.job.session;
    if (!s->up)
        return planned_down(s);
    const struct refill_plan *p = &m->results.refill.out.plan[s->hookup];
    return p->possible ? p->total_s : -1;
}

/* A corner taken off is done when its reading, or without one the forecast, says so. */
static const char *off_word(const struct clock_job *j, int i, double now_s)
{
    unsigned bit = 1u << i;
    if (clock_left_out(&j->session) & bit)
        return "NO AIR";
    if (clock_unread(j) & bit)
        return clock_settle_left(j, bit, now_s) > 0 ? "SETTLES" : "READ NOW";
    return clock_reached(j) & bit ? "DONE" : j->session.up ? "LOW" : "HIGH";
}

static const char *state_word(const struct model *m, int i)
{
    const struct clock_job *j = &m->at.clock.job;
    const struct session *s = &j->session;
    struct clock_prompt p = clock_prompt_of(m);
    unsigned bit = 1u << i;
    static const char *const words[] = {"WAITING",  "FILLING", "PAUSED",
                                        "DROP NOW", "DONE",    "CHECK"};
    if (j->low & bit)
        return "NO AIR";
    if (s->dropped & bit)
        return off_word(j, i, clock_now_s(m));
    if (s->first_air_s < 0)
        return s->started & bit ? "READY" : "READ IT";
    if (!j->known)
        return s->air ? "FILLING" : "PAUSED";
    enum forecast_state state = j->out.corner[i].state;
    bool off = (p.call == CALL_DROP || p.call == CALL_STOP) && (p.corners & bit);
    if (off && state != FORECAST_CHECK)
        state = FORECAST_DROP_NOW; /* with its mate */
    if (s->resting && state == FORECAST_PAUSED)
        return "REST";
    if (!s->air && state == FORECAST_DROP_NOW)
        return "REACHED"; /* its valve or the source is shut: nothing to hurry for */
    if (!s->up && state == FORECAST_FILLING)
        return "FALLING";
    if (!s->up && state == FORECAST_DROP_NOW)
        return "SHUT NOW";
    return words[state];
}

static void name_put(const struct model *m, struct frame *f, int row, int i, bool wide)
{
    enum axle_id a = (enum axle_id)(i / SIDE_COUNT);
    enum side side = (enum side)(i % SIDE_COUNT);
    bool picked = (clock_picked(m) >> i & 1u) != 0;
    const char *words =
        wide ? (side == SIDE_LEFT ? "left" : "right") : (side == SIDE_LEFT ? "L" : "R");
    frame_printf(f, row, 1, picked ? STYLE_CHOSEN : STYLE_LABEL, picked ? "[%s %s]" : " %s %s ",
                 axle_name(a), words);
}

/* A reading as it was typed: 48, 47.5. */
static void reading_put(double p_gauge_pa, enum unit_system u, struct text *out)
{
    char whole[32], tenth[32];
    struct text w = text_over(whole, sizeof whole), t = text_over(tenth, sizeof tenth);
    units_put_bare(&w, p_gauge_pa, Q_PRESSURE, u, 0);
    units_put_bare(&t, p_gauge_pa, Q_PRESSURE, u, 1);
    bool even = t.len > 0 && tenth[t.len - 1] == '0';
    text_put(out, "%s", even ? whole : tenth);
}

/* What a corner holds now, settled: forecast, else as it was read. */
static void now_words(const struct clock_job *j, int i, enum unit_system u, struct text *out)
{
    const struct session *s = &j->session;
    if (j->known && s->first_air_s >= 0)
        units_put_bare(out, j->out.corner[i].settled.p50_gauge_pa, Q_PRESSURE, u, 1);
    else if (s->started >> i & 1u)
        reading_put(s->start_gauge_pa[i], u, out);
    else
        text_put(out, "?");
}

static void when_words(const struct clock_job *j, int i, struct text *at, struct text *band)
{
    const struct forecast_time *t = &j->out.corner[i].finish_wall;
    char low[32], high[32], mid[32];
    if (!j->known || ((clock_left_out(&j->session) | j->low) >> i & 1u))
        return;
    if (!isfinite(t->p50_s)) {
        text_put(at, "never?");
        return;
    }
    text_put(at, "%s", clock_minutes(mid, t->p50_s));
    if (j->session.dropped >> i & 1u)
        return;
    text_put(band, "%s-%s", clock_minutes(low, t->p05_s),
             isfinite(t->p95_s) ? clock_minutes(high, t->p95_s) : "never");
}

/* What is planned through the corner's own core: "0:51", "out to 17.1". */
static void core_plan(const struct session *s, int i, enum unit_system u, struct text *at,
                      struct text *to)
{
    struct down_result r;
    char time[32];
    if (!down_of(s, i, &r))
        return;
    text_put(at, "%s", clock_minutes(time, r.time_s[core_of(s, i)]));
    text_put(to, "%s to ", core_word(s, i));
    units_put_bare(to, r.stop_reading_gauge_pa[core_of(s, i)], Q_PRESSURE, u, 1);
}

static void corner_put(const struct model *m, struct frame *f, int row, int i, bool wide)
{
    const struct clock_job *j = &m->at.clock.job;
    const struct session *s = &j->session;
    enum unit_system u = model_units(m);
    char start[32], now[32], target[32], at[32], band[64];
    struct text a = text_over(start, sizeof start), b = text_over(now, sizeof now),
                c = text_over(target, sizeof target), d = text_over(at, sizeof at),
                e = text_over(band, sizeof band);
    int col = wide ? 18 : 13;
    const char *word = state_word(m, i);
    text_put(&a, s->started >> i & 1u ? "" : "~");
    if (s->started >> i & 1u)
        reading_put(s->start_gauge_pa[i], u, &a);
    else
        units_put_bare(&a, s->start_gauge_pa[i], Q_PRESSURE, u, 0);
    now_words(j, i, u, &b);
    units_put_bare(&c, s->in.corner[i].target_gauge_pa, Q_PRESSURE, u, 1);
    if (choosing_cores(s))
        core_plan(s, i, u, &d, &e);
    else
        when_words(j, i, &d, &e);
    name_put(m, f, row, i, wide);
    frame_printf(f, row, col, STYLE_LABEL, "%5s", start);
    frame_printf(f, row, col + 5, STYLE_VALUE, "%6s", now);
    frame_printf(f, row, col + 11, STYLE_LABEL, "%7s%7s", target, at);
    frame_printf(f, row, col + 26, STYLE_BAND, "%-11s", band);
    bool loud = strcmp(word, "DROP NOW") == 0 || strcmp(word, "SHUT NOW") == 0 ||
                strcmp(word, "CHECK") == 0;
    frame_put(f, row, col + 38, loud ? STYLE_DANGER : STYLE_TITLE, word);
    if (wide && j->known && !s->up && !choosing_cores(s) && !(s->dropped >> i & 1u)) {
        char stop[32];
        struct text t = text_over(stop, sizeof stop);
        units_put_bare(&t, j->out.corner[i].stop_reading_gauge_pa, Q_PRESSURE, u, 1);
        frame_printf(f, row, col + 48, STYLE_LABEL, "%s to %s", core_word(s, i), stop);
    }
}

int clock_rows_put(const struct model *m, struct frame *f, struct rect r, bool wide)
{
    int col = wide ? 18 : 13, n = 1;
    frame_printf(f, r.row, col, STYLE_LABEL, "%5s%6s%7s%7s %-11s %s", "start", "now", "target",
                 "done", choosing_cores(&m->at.clock.job.session) ? "core" : "9 of 10", "state");
    for (int i = 0; i < REFILL_CORNERS && n < r.rows; i++)
        if (m->at.clock.job.session.present >> i & 1u)
            corner_put(m, f, r.row + n++, i, wide);
    return n;
}

/* Whether the other side is let down through the other core: one word cannot speak for both. */
static bool unlike_cores(const struct session *s, int i)
{
    return !s->up && (s->present & ~s->dropped) >> (i ^ 1) & 1u &&
           core_of(s, i) != core_of(s, i ^ 1);
}

/* "front: stop L 17.6 core in, R 17.1 out; creeps to 18.0" */
static void both_stops(const struct clock_job *j, int i, enum unit_system u, struct text *out)
{
    int left = i & ~1, right = left + 1;
    text_put(out, "%s: stop L ", axle_name((enum axle_id)(i / SIDE_COUNT)));
    units_put_bare(out, j->out.corner[left].stop_reading_gauge_pa, Q_PRESSURE, u, 1);
    text_put(out, " core %s, R ", core_word(&j->session, left));
    units_put_bare(out, j->out.corner[right].stop_reading_gauge_pa, Q_PRESSURE, u, 1);
    text_put(out, " %s; creeps to ", core_word(&j->session, right));
    units_put_bare(out, j->out.corner[i].target_gauge_pa, Q_PRESSURE, u, 1);
}

static void stop_words(const struct model *m, int i, struct text *out)
{
    const struct clock_job *j = &m->at.clock.job;
    const struct forecast_corner *c = &j->out.corner[i];
    enum unit_system u = model_units(m);
    if (unlike_cores(&j->session, i)) {
        both_stops(j, i, u, out);
        return;
    }
    text_put(out, "%s: stop at ", axle_name((enum axle_id)(i / SIDE_COUNT)));
    units_put_bare(out, c->stop_reading_gauge_pa, Q_PRESSURE, u, 1);
    text_put(out, j->session.up ? ", it will settle to " : ", it creeps back to ");
    units_put(out, c->target_gauge_pa, Q_PRESSURE, u, 1);
    if (j->session.up && j->session.air && session_open(&j->session) >> i & 1u) {
        text_put(out, "; line ");
        units_put_bare(out, j->out.line.p50_gauge_pa, Q_PRESSURE, u, 0);
    }
}

/* "front: CORE IN 3:38 to 17.7; core out 0:50 to 17.1"; capitals where both sides have chosen. */
static bool core_words(const struct model *m, int i, struct text *out)
{
    const struct session *s = &m->at.clock.job.session;
    struct down_result r;
    if (!down_of(s, i, &r))
        return false;
    text_put(out, "%s:", axle_name((enum axle_id)(i / SIDE_COUNT)));
    for (int v = VALVE_CORE_IN; v <= VALVE_CORE_OUT; v++) {
        char time[32];
        bool chosen = (int)core_of(s, i) == v && !unlike_cores(s, i);
        text_put(out, "%s%s%s %s to ", v == VALVE_CORE_IN ? " " : "; ", chosen ? "CORE " : "core ",
                 v == VALVE_CORE_IN ? (chosen ? "IN" : "in") : (chosen ? "OUT" : "out"),
                 clock_minutes(time, r.time_s[v]));
        units_put_bare(out, r.stop_reading_gauge_pa[v], Q_PRESSURE, model_units(m), 1);
    }
    return true;
}

/* The corner that speaks for an axle among those of a set; -1: none of it. */
static int speaker(unsigned set, int a)
{
    for (int side = SIDE_LEFT; side <= SIDE_RIGHT; side++)
        if (set >> REFILL_CORNER(a, side) & 1u)
            return REFILL_CORNER(a, side);
    return -1;
}

/* Every axle in one line, where there is no row for each: "stop at: front 38.4, rear 48.4 psi" */
static void stops_together(const struct model *m, struct text *out)
{
    const struct clock_job *j = &m->at.clock.job;
    unsigned left = j->session.present & ~j->session.dropped;
    const char *between = "stop at: ";
    for (int a = 0; a < AXLE_COUNT; a++) {
        int i = speaker(left, a);
        if (i < 0)
            continue;
        text_put(out, "%s%s ", between, axle_name((enum axle_id)a));
        units_put_bare(out, j->out.corner[i].stop_reading_gauge_pa, Q_PRESSURE, model_units(m), 1);
        if (unlike_cores(&j->session, i)) {
            text_put(out, "/");
            units_put_bare(out, j->out.corner[i ^ 1].stop_reading_gauge_pa, Q_PRESSURE,
                           model_units(m), 1);
        }
        between = ", ";
    }
    text_put(out, " %s", units_symbol(Q_PRESSURE, model_units(m)));
}

static int axles_of(unsigned corners)
{
    int n = 0;
    for (int a = 0; a < AXLE_COUNT; a++)
        n += speaker(corners, a) >= 0;
    return n;
}

/* Those on the line first. */
int clock_stops_put(const struct model *m, struct frame *f, struct rect r)
{
    const struct clock_job *j = &m->at.clock.job;
    unsigned left = j->session.present & ~j->session.dropped, open = session_open(&j->session);
    bool cores = choosing_cores(&j->session);
    int n = 0;
    if (!cores && j->known && r.rows > 0 && axles_of(left) > r.rows) {
        char words[160];
        struct text t = text_over(words, sizeof words);
        stops_together(m, &t);
        frame_put_within(f, r.row, r.col, r.cols, STYLE_LABEL, words);
        return 1;
    }
    for (int k = 0; k < 2 * AXLE_COUNT && (cores || j->known) && n < r.rows; k++) {
        int a = k % AXLE_COUNT, first = speaker(left & open, a);
        int i = k < AXLE_COUNT ? first : first >= 0 ? -1 : speaker(left, a);
        char words[160];
        struct text t = text_over(words, sizeof words);
        if (i < 0 || (cores && !core_words(m, i, &t)))
            continue;
        if (!cores)
            stop_words(m, i, &t);
        frame_put_within(f, r.row + n++, r.col, r.cols, STYLE_LABEL, words);
    }
    if (j->session.present & ~j->session.started && n < r.rows)
        frame_put_within(f, r.row + n++, r.col, r.cols, STYLE_LABEL,
                         "Read each: pick (a all), digits, Enter. Then Space.");
    return n;
}

/* The head of a record and its stamps are no acts of the driver. */
static bool is_act(enum log_word w)
{
    return w != LOG_STARTED && w != LOG_CLOCK && w != LOG_RIG && w != LOG_JOB && w != LOG_NOTE;
}

void clock_entries_put(const struct model *m, struct frame *f, struct rect r)
{
    const struct clock_job *j = &m->at.clock.job;
    int row = 1;
    if (r.rows < 3 || j->n_event == 0)
        return;
    frame_put(f, r.row, r.col, STYLE_TITLE, "last entries of the record, seconds first");
    for (int i = j->n_event - 1; i >= 0 && row < r.rows; i--) {
        char line[LOG_LINE];
        struct text t = text_over(line, sizeof line);
        if (!is_act(j->event[i].word))
            continue;
        refill_log_put(&j->event[i], &t);
        frame_put_within(f, r.row + row++, r.col, r.cols, STYLE_LABEL, line);
    }
}

static void record_row(const struct model *m, struct frame *f, int row, int i)
{
    const struct session *s = &m->at.clock.job.session;
    const struct session_reading *last = session_last_reading(s, i);
    enum unit_system u = model_units(m);
    char name[32], start[32], end[32], target[32], time[32];
    frame_put(f, row, 1, STYLE_LABEL,
              corner_words(name, (enum axle_id)(i / SIDE_COUNT), (enum side)(i % SIDE_COUNT)));
    bool read = last != NULL && !last->flowing && last->at_s > s->first_air_s;
    frame_printf(f, row, 18, STYLE_LABEL, "%6s", pressure_bare(start, s->start_gauge_pa[i], u));
    frame_printf(f, row, 25, STYLE_VALUE, "%6s",
                 read ? pressure_bare(end, last->p_gauge_pa, u) : "--");
    frame_printf(f, row, 33, STYLE_LABEL, "%6s",
                 pressure_bare(target, s->in.corner[i].target_gauge_pa, u));
    const struct clock_job *j = &m->at.clock.job;
    if ((clock_left_out(s) | j->low) >> i & 1u)
        frame_put(f, row, 42, STYLE_CAUTION, "no air");
    else if (j->stop_s[i] >= 0)
        frame_printf(f, row, 41, STYLE_LABEL, "%7s",
                     clock_minutes(time, j->stop_s[i] - s->first_air_s));
    if (!s->up)
        frame_printf(f, row, 50, STYLE_LABEL, "core %s", core_word(s, i));
}

/* Left and right that differ by more than a gauge step want a look; each as it was left, read after
 * its air had stopped. */
static void uneven_put(const struct model *m, struct roll *l)
{
    const struct clock_job *j = &m->at.clock.job;
    const struct session *s = &j->session;
    for (int a = 0; a < AXLE_COUNT; a++) {
        const struct session_reading *left = clock_reading_since(j, REFILL_CORNER(a, SIDE_LEFT)),
                                     *right = clock_reading_since(j, REFILL_CORNER(a, SIDE_RIGHT));
        if (!(s->present & LOG_AXLE_BITS(a)) || left == NULL || right == NULL ||
            fabs(left->p_gauge_pa - right->p_gauge_pa) <= 1.001 * s->in.air.gauge_step_pa)
            continue;
        struct caution_list list = {.n = 0};
        struct caution *c = caution_raise(&list, CAUTION_UNEVEN_AXLE);
        char words[240];
        struct text t = text_over(words, sizeof words);
        text_put(&t, "CAUTION %s: ", axle_name((enum axle_id)a));
        caution_put(caution_with(c, 0, Q_PRESSURE, fabs(left->p_gauge_pa - right->p_gauge_pa), 0),
                    model_units(m), &t);
        roll_text(l, STYLE_CAUTION, 0, words);
    }
}

static int readings_kept(const struct session *s)
{
    int n = 0;
    for (int i = 0; i < s->n_reading; i++)
        n += !s->reading[i].undone;
    return n;
}

static void totals_put(const struct model *m, struct roll *l)
{
    const struct clock_state *s = &m->at.clock;
    const struct session *e = &s->job.session;
    char wall[32], run[32], words[200];
    double wall_s = e->first_air_s >= 0 ? e->now_s - e->first_air_s : 0;
    snprintf(words, sizeof words, "Wall time %s, air on %s, %d readings, %d events kept.",
             clock_minutes(wall, wall_s), clock_minutes(run, e->running_s), readings_kept(e),
             s->job.n_saved);
    roll_text(l, STYLE_LABEL, 0, words);
    if (s->learned) {
        snprintf(words, sizeof words,
                 "Learned: the source gave %.2f of its label (%.2f-%.2f). The next forecast "
                 "leans on that.",
                 s->job.out.delivery.p50_1, s->job.out.delivery.p05_1, s->job.out.delivery.p95_1);
        roll_text(l, STYLE_TITLE, 0, words);
    } else if (e->up) {
        roll_text(l, STYLE_LABEL, 0,
                  "Nothing was learned of the source: no reading after a start.");
    }
    uneven_put(m, l);
    roll_text(l, STYLE_LABEL, 0,
              e->up ? "Shut off and vent the hose, count caps. Read again cold, the next morning."
                    : "Read each corner again after some minutes: it creeps back up.");
    roll_text(l, STYLE_TITLE, 0, "Space: the next job.");
}

void clock_record_put(const struct model *m, struct frame *f, struct rect body)
{
    const struct session *s = &m->at.clock.job.session;
    int row = body.row;
    frame_put(f, row++, 1, STYLE_TITLE, s->up ? "record: air up" : "record: air down");
    frame_printf(f, row++, 18, STYLE_LABEL, "%6s %6s  %6s  %7s", "start", "end", "target",
                 "off at");
    for (int i = 0; i < REFILL_CORNERS; i++)
        if (s->present >> i & 1u)
            record_row(m, f, row++, i);
    struct roll l = {f, {row + 1, 1, body.row + body.rows - row - 1, body.cols - 2}, 0, 0};
    totals_put(m, &l);
}
