#include "tui/screen_clock.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "tui/clock_rows.h"
#include "tui/model.h"
#include "tui/widget.h"

enum { WIDE_COLS = 76, TALL_ROWS = 19, ROOMY_CORNERS = 4, THIRD_AXLE_ROWS = 3 };

static int corners_of(const struct model *m)
{
    int n = 0;
    for (int i = 0; i < REFILL_CORNERS; i++)
        n += (m->at.clock.job.session.present >> i & 1u) != 0;
    return n;
}

/* The short reason that stands first in what was said of the failure; nothing there is written
 * over, at whatever width. */
static void unsaved_put(const struct clock_job *j, struct frame *f, int row, int col, int end)
{
    static const char *const ends[] = {"): kept in memory ", ") in memory ", ") "};
    int n = (int)strcspn(j->why_unsaved, ":");
    char words[CLOCK_WHY + 40];
    for (size_t i = 0; i < sizeof ends / sizeof *ends; i++) {
        snprintf(words, sizeof words, " NOT SAVED (%.*s%s", n, j->why_unsaved, ends[i]);
        if (n > 0 && col + (int)strlen(words) <= end) {
            frame_put_right(f, row, end, STYLE_DANGER, words);
            return;
        }
    }
    frame_put_right(f, row, end, STYLE_DANGER, " NOT SAVED ");
}

static void saving_put(const struct model *m, struct frame *f, int row, int col, int end)
{
    const struct clock_job *j = &m->at.clock.job;
    if (j->begun && j->saving == CLOCK_UNSAVED)
        unsaved_put(j, f, row, col, end);
    else if (j->begun)
        frame_put_right(f, row, end, STYLE_LABEL, j->saving == CLOCK_SAVED ? "saved" : "saving");
}

static void head_put(const struct model *m, struct frame *f, struct rect r)
{
    const struct session *s = &m->at.clock.job.session;
    const char *how = s->air                ? "AIR ON"
                      : s->resting          ? "RESTING"
                      : s->first_air_s >= 0 ? "AIR OFF"
                                            : "not started";
    int col = frame_put(f, r.row, 1, STYLE_TITLE, s->up ? "air up" : "air down");
    col = frame_printf(f, r.row, col + 2, STYLE_LABEL, "%s", hookup_name(s->hookup));
    col = frame_put(f, r.row, col + 2, s->air ? STYLE_CHOSEN : STYLE_LABEL, how);
    if (m->at.clock.muted)
        col = frame_put(f, r.row, col + 2, STYLE_LABEL, "muted");
    saving_put(m, f, r.row, col + 1, r.cols - 1);
}

/* One large time with its words: beside it where rows are few, above it where they are not. */
static void time_put(struct frame *f, struct rect r, const char *label, double time_s,
                     const char *band)
{
    char digits[32] = "--";
    if (isfinite(time_s) && time_s >= 0)
        clock_minutes(digits, time_s);
    bool tall = r.rows > 3;
    frame_put(f, r.row, r.col, STYLE_LABEL, label);
    if (tall)
        frame_put_within(f, r.row, r.col + 10, r.cols - 10, STYLE_LABEL, band);
    else
        frame_wrap(f, (struct rect){r.row + 1, r.col, 2, 11}, STYLE_LABEL, band);
    big_put(f, tall ? r.row + 1 : r.row, tall ? r.col : r.col + 12, tall ? 5 : 3, digits);
}

/* "4:10-5:30", of the wall time still to go */
static void band_words(const struct clock_job *j, double now_s, char out[48])
{
    double gone_s = session_running(&j->session, now_s);
    char low[32], high[32];
    out[0] = '\0';
    if (!j->known)
        return;
    if (!isfinite(j->out.finish.p50_s)) {
        snprintf(out, 48, "not reached");
        return;
    }
    double lo = fmax(0, j->out.finish.p05_s - gone_s), hi = j->out.finish.p95_s - gone_s;
    snprintf(out, 48, "%s-%s", clock_minutes(low, lo),
             isfinite(hi) ? clock_minutes(high, fmax(0, hi)) : "never");
}

static int times_put(const struct model *m, struct frame *f, struct rect r)
{
    const struct clock_job *j = &m->at.clock.job;
    double now_s = clock_now_s(m);
    int more = corners_of(m) > ROOMY_CORNERS ? THIRD_AXLE_ROWS : 0;
    bool tall = r.rows >= TALL_ROWS + more;
    int rows = tall ? 6 : 3, half = r.cols / 2;
    char band[48];
    double left_s = clock_remaining(j, now_s);
    if (left_s < 0)
        left_s = clock_planned(m);
    band_words(j, now_s, band);
    time_put(f, (struct rect){r.row, 1, rows, half - 1}, "elapsed", clock_elapsed(j, now_s), "");
    time_put(f, (struct rect){r.row, half, rows, r.cols - half}, "remaining", left_s, band);
    return rows;
}

static void delivery_words(const struct clock_job *j, struct text *out)
{
    const struct forecast_out *o = &j->out;
    if (!j->known || !j->session.up || o->readings == 0)
        return;
    if (o->fit == FORECAST_POOR)
        text_put(out, "The readings suit no machine of this kind: bands widened.");
    else
        text_put(out, "Gives %.2f of its label (%.2f-%.2f).", o->delivery.p50_1, o->delivery.p05_1,
                 o->delivery.p95_1);
}

/* The corners that settle in the same second as the next one of a set. */
static unsigned settling_next(const struct clock_job *j, unsigned of, double now_s)
{
    double least_s = HUGE_VAL;
    unsigned next = 0;
    for (int i = 0; i < REFILL_CORNERS; i++) {
        double left_s = of >> i & 1u ? ceil(clock_settle_left(j, 1u << i, now_s)) : 0;
        if (left_s > 0 && left_s <= least_s) {
            next = (left_s < least_s ? 0 : next) | 1u << i;
            least_s = left_s;
        }
    }
    return next;
}

/* "Settled in 7 s, then read rear-left; in 15 s front-left. Still to read: rear-right. " */
static void settle_words(const struct model *m, struct text *out)
{
    const struct clock_job *j = &m->at.clock.job;
    double now_s = clock_now_s(m);
    unsigned unread = clock_unread(j), next = settling_next(j, unread, now_s), first = next;
    while (next != 0) {
        double left_s = ceil(clock_settle_left(j, next, now_s));
        text_put(out, next == first ? "Settled in %.0f s, then read " : "; in %.0f s ", left_s);
        clock_corners_put(m, next, out);
        unread &= ~next;
        next = settling_next(j, unread, now_s);
    }
    text_put(out, first != 0 ? ". " : "");
    struct clock_prompt p = clock_prompt_of(m);
    unread &= p.call == CALL_READ ? ~p.corners : ~0u;
    if (unread == 0)
        return;
    text_put(out, "Still to read: ");
    clock_corners_put(m, unread, out);
    text_put(out, ". ");
}

/* "Targets kept; now 18/23 psi, t takes them. ": the ground or the day changed under the job. */
static void kept_words(const struct model *m, struct text *out)
{
    const struct session *s = &m->at.clock.job.session;
    double p[REFILL_CORNERS];
    const char *between = "Targets kept; now ";
    if (!clock_new_targets(m, p))
        return;
    for (int a = 0; a < AXLE_COUNT; a++)
        if (s->present & LOG_AXLE_BITS(a)) {
            text_put(out, "%s", between);
            units_put_bare(out, p[REFILL_CORNER(a, SIDE_LEFT)], Q_PRESSURE, model_units(m), 0);
            between = "/";
        }
    text_put(out, " %s, t takes them. ", units_symbol(Q_PRESSURE, model_units(m)));
}

/* What is counted down or was learned: rest, settling, duty, delivery. */
static void count_words(const struct model *m, struct text *out)
{
    const struct clock_job *j = &m->at.clock.job;
    const struct session *s = &j->session;
    double now_s = clock_now_s(m);
    char time[32], full[32];
    if (!s->air && s->resting)
        text_put(out, "Rest: %s left. ", clock_minutes(time, clock_rest_left(j, now_s)));
    settle_words(m, out);
    kept_words(m, out);
    if (s->air && s->up && j->rest_time_s > 0)
        text_put(out, "Run %s of %s. ", clock_minutes(time, clock_run_used(j, now_s)),
                 clock_minutes(full, j->run_time_s));
    delivery_words(j, out);
}

static void call_put(const struct model *m, struct frame *f, int row, int cols)
{
    char words[160];
    struct text t = text_over(words, sizeof words);
    if (!clock_call_words(m, &t))
        return;
    text_put(&t, "   Enter: done%s", m->at.clock.muted ? "" : "   m: mute");
    enum style style = clock_flash(m) ? STYLE_DANGER : STYLE_TITLE;
    frame_fill(f, (struct rect){row, 0, 1, cols}, style, " ");
    frame_put_within(f, row, 1, cols - 2, style, words);
}

static void entry_line(const struct model *m, struct frame *f, int row, int cols)
{
    const struct clock_state *s = &m->at.clock;
    char who[96];
    struct text t = text_over(who, sizeof who);
    refill_log_corners_put(clock_picked(m), &t);
    bool open = (clock_picked(m) & session_open(&s->job.session)) != 0;
    bool flows = s->flowing_set ? s->flowing : s->job.session.air && open;
    int col = frame_printf(f, row, 1, STYLE_LABEL, "reading of ");
    col = frame_put_within(f, row, col, cols - 45, STYLE_TITLE, s->all ? "all" : who) + 1;
    entry_put(&s->entry, f, row, col, 7, s->entry.text[0] != '\0');
    col = frame_put(f, row, col + 8, STYLE_LABEL, units_symbol(Q_PRESSURE, model_units(m)));
    frame_put(f, row, col + 2, flows ? STYLE_CHOSEN : STYLE_LABEL, flows ? "FLOWING" : "settled");
}

/* What may be answered of a gap, and what is typed of it. */
static void gap_entry_put(const struct model *m, struct frame *f, int row)
{
    const struct entry *e = &m->at.clock.entry;
    int col = frame_put(f, row, 1, STYLE_LABEL, "minutes") + 1;
    entry_put(e, f, row, col, 7, true);
    frame_put(f, row, col + 8, STYLE_LABEL, "Enter   y yes  n no  r unknown: read anew");
}

static void question_put(const struct model *m, struct frame *f, struct rect r)
{
    const struct clock_question *q = &m->at.clock.ask;
    frame_fill(f, r, STYLE_PLAIN, " ");
    int col = frame_put(f, r.row, 1, STYLE_DANGER, " ASKED ");
    if (q->kind == ASK_GAP) {
        frame_wrap(f, (struct rect){r.row, col + 1, r.rows - 1, r.cols - col - 2}, STYLE_TITLE,
                   q->words);
        gap_entry_put(m, f, r.row + r.rows - 1);
        return;
    }
    char words[360];
    snprintf(words, sizeof words, "%s  y yes  n no", q->words);
    frame_wrap(f, (struct rect){r.row, col + 1, r.rows, r.cols - col - 2}, STYLE_TITLE, words);
}

static void foot_put(const struct model *m, struct frame *f, struct rect r)
{
    char words[240];
    struct text t = text_over(words, sizeof words);
    if (m->at.clock.ask.kind != ASK_NOTHING) {
        question_put(m, f, r);
        return;
    }
    count_words(m, &t);
    bool called = clock_prompt_of(m).call != CALL_NONE;
    frame_wrap(f, (struct rect){r.row, 1, called ? 1 : 2, r.cols - 2}, STYLE_LABEL, words);
    entry_line(m, f, r.row + r.rows - 1, r.cols);
    call_put(m, f, r.row + 1, r.cols);
}

void clock_render(const struct model *m, struct frame *f, struct rect body)
{
    const struct session *s = &m->at.clock.job.session;
    if (!m->at.clock.job.begun && m->results.status < STATUS_OK) {
        refused_put(m, f, body);
        return;
    }
    if (s->done) {
        clock_record_put(m, f, body);
        return;
    }
    head_put(m, f, body);
    struct rect r = {body.row + 1, 0, body.rows, body.cols};
    r.row += times_put(m, f, r) + (body.rows >= TALL_ROWS);
    r.row += clock_rows_put(m, f, (struct rect){r.row, 0, 11, body.cols}, body.cols >= WIDE_COLS);
    int foot = 3, room = body.row + body.rows - foot - r.row;
    int used = clock_stops_put(m, f, (struct rect){r.row, 1, room, body.cols - 2});
    clock_entries_put(m, f, (struct rect){r.row + used + 1, 1, room - used - 2, body.cols - 2});
    foot_put(m, f, (struct rect){body.row + body.rows - foot, 0, foot, body.cols});
}
