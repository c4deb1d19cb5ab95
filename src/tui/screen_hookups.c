#include "tui/screen_hookups.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#include "tui/model.h"
#include "tui/widget.h"

void hookups_enter(struct model *m)
{
    m->at.hookups = (struct hookups_state){.picked = m->outing.rig.air.hookup};
}

bool hookups_act(struct model *m, enum action a, int key)
{
    (void)key;
    struct hookups_state *s = &m->at.hookups;
    int n_step = m->results.refill.out.plan[s->picked].n_step;
    if (a == ACT_PAGE_DOWN || a == ACT_PAGE_UP) {
        s->top += a == ACT_PAGE_DOWN ? 3 : -3;
        s->top = s->top < 0 || n_step < 4 ? 0 : s->top > n_step - 3 ? n_step - 3 : s->top;
        return true;
    }
    int step = a == ACT_UP || a == ACT_PREVIOUS ? -1 : a == ACT_DOWN || a == ACT_NEXT ? 1 : 0;
    if (step == 0)
        return false;
    int n = HOOKUP_COUNT;
    s->picked = (enum hookup)(((int)s->picked + step + n) % n);
    s->top = 0;
    return true;
}

static const char *problem_words(enum refill_problem p)
{
    static const char *const words[] = {"",
                                        "the source is too weak for the last target",
                                        "the compressor cuts out below a target",
                                        "the tank is empty before the targets",
                                        "not settled: too many steps",
                                        "nothing to do: every corner is at its target"};
    return words[p];
}

static const char *minutes_text(char buf[32], double time_s)
{
    int total = (int)lround(fmin(time_s, 359999));
    snprintf(buf, 32, "%d:%02d", total / 60, total % 60);
    return buf;
}

/* running, rest, hands-on in one bar on a scale common to all */
static void bar_row(struct frame *f, int row, int col, int cols, const struct refill_plan *p,
                    double full_s)
{
    const struct {
        double time_s;
        enum style style;
        const char *glyph;
    } parts[] = {{p->running_s, STYLE_BAR, "■"},
                 {p->rest_s, STYLE_BAND, "─"},
                 {p->handling_s, STYLE_BAND, "═"}};
    double sum_s = 0;
    for (size_t i = 0; i < sizeof parts / sizeof *parts; i++) {
        int from = (int)lround(sum_s / full_s * cols);
        sum_s += parts[i].time_s;
        int to = (int)lround(sum_s / full_s * cols);
        frame_fill(f, (struct rect){row, col + from, 1, to - from}, parts[i].style, parts[i].glyph);
    }
}

static void plan_row(const struct model *m, struct frame *f, int row, int cols, enum hookup h,
                     double full_s)
{
    const struct refill_plan *p = &m->results.refill.out.plan[h];
    char run[32], rest[32], hands[32], total[32];
    bool picked = m->at.hookups.picked == h;
    frame_printf(f, row, 1, picked ? STYLE_CHOSEN : STYLE_TITLE, picked ? "[%s]" : " %s ",
                 hookup_name(h));
    if (!p->possible) {
        frame_put(f, row, 11, STYLE_CAUTION, problem_words(p->problem));
        return;
    }
    frame_printf(f, row, 10, STYLE_LABEL, "%7s%7s%7s", minutes_text(run, p->running_s),
                 minutes_text(rest, p->rest_s), minutes_text(hands, p->handling_s));
    frame_printf(f, row, 32, STYLE_BIG, "%7s", minutes_text(total, p->total_s));
    bar_row(f, row, 41, cols - 42, p, full_s);
}

static double longest_plan(const struct refill_out *out)
{
    double longest = 0;
    for (int h = 0; h < HOOKUP_COUNT; h++)
        if (out->plan[h].possible)
            longest = fmax(longest, out->plan[h].total_s);
    return longest > 0 ? longest : 1;
}

/* "front left, front right", or the axle when both corners are meant */
static void corners_words(unsigned corners, struct text *out)
{
    const char *separator = "";
    for (int x = 0; x < AXLE_COUNT; x++) {
        unsigned both = 3u << REFILL_CORNER(x, SIDE_LEFT), got = corners & both;
        if (got == 0)
            continue;
        const char *side = got == both                                   ? ""
                           : (got & (1u << REFILL_CORNER(x, SIDE_LEFT))) ? " left"
                                                                         : " right";
        text_put(out, "%s%s%s", separator, axle_name((enum axle_id)x), side);
        separator = ", ";
    }
}

static void step_words(const struct refill_step *s, struct text *out)
{
    static const char *const verbs[] = {"take off", "move the hose to", "rest the compressor",
                                        "stop: done"};
    char time[32];
    text_put(out, "%6s  %s ", minutes_text(time, s->at_s), verbs[s->what]);
    if (s->what == REFILL_DROP || s->what == REFILL_MOVE)
        corners_words(s->corners, out);
    if (s->for_s > 0)
        text_put(out, " (%s)", minutes_text(time, s->for_s));
}

static void readings_words(const struct model *m, const struct refill_plan *p,
                           const struct refill_step *s, struct text *out)
{
    char stop[32], settled[32];
    enum unit_system u = model_units(m);
    if (s->what != REFILL_DROP && s->what != REFILL_STOP)
        return;
    for (int i = 0; i < REFILL_CORNERS; i++)
        if ((s->corners >> i & 1u) != 0) {
            struct text a = text_over(stop, sizeof stop), b = text_over(settled, sizeof settled);
            units_put_bare(&a, p->corner[i].stop_reading_gauge_pa, Q_PRESSURE, u, 1);
            units_put(&b, p->corner[i].settled_gauge_pa, Q_PRESSURE, u, 0);
            text_put(out, ": stop %s, settles %s", stop, settled);
            return;
        }
}

static void steps_put(const struct model *m, struct frame *f, struct rect r)
{
    const struct refill_plan *p = &m->results.refill.out.plan[m->at.hookups.picked];
    frame_printf(f, r.row, r.col, STYLE_TITLE, "steps, %s", hookup_name(p->hookup));
    if (p->part_refill)
        frame_put(f, r.row, r.col + 20, STYLE_LABEL,
                  "all to gravel first, drive slowly, rest, finish");
    int room = r.rows - 1, top = m->at.hookups.top;
    for (int i = 0; i < p->n_step - top && i < room; i++) {
        char words[160];
        struct text t = text_over(words, sizeof words);
        step_words(&p->step[top + i], &t);
        readings_words(m, p, &p->step[top + i], &t);
        frame_put_within(f, r.row + 1 + i, r.col, r.cols, STYLE_LABEL, words);
    }
    if (p->n_step - top > room) {
        char more[32];
        snprintf(more, sizeof more, "%d more: PgDn", p->n_step - top - room);
        frame_put_right(f, r.row, r.col + r.cols, STYLE_VALUE, more);
    }
}

static void gain_words(struct maybe gain_s, struct text *out)
{
    char time[32];
    if (!gain_s.is)
        text_put(out, "does not apply");
    else if (fabs(gain_s.v) < 0.5)
        text_put(out, "nothing");
    else
        text_put(out, "%s %s", gain_s.v > 0 ? "saves" : "costs",
                 minutes_text(time, fabs(gain_s.v)));
}

static void whatif_put(const struct model *m, struct frame *f, struct rect r)
{
    static const char *const words[WHATIF_COUNT] = {
        "valve cores out", "cooler intake air", "a second source alike",
        "filling with the engine off", "rest taken earlier"};
    if (r.rows < 2)
        return;
    frame_put(f, r.row, r.col, STYLE_TITLE, "and if, linked");
    for (int i = 0; i < WHATIF_COUNT && i < r.rows - 1; i++) {
        struct maybe gain_s = m->results.refill.out.whatif[i].gain_s;
        char time[48];
        struct text t = text_over(time, sizeof time);
        frame_put(f, r.row + 1 + i, r.col, STYLE_LABEL, words[i]);
        gain_words(gain_s, &t);
        frame_put(f, r.row + 1 + i, r.col + 29, STYLE_VALUE, time);
    }
}

static void air_line(const struct model *m, struct frame *f, int row)
{
    const struct refill_out *o = &m->results.refill.out;
    frame_printf(f, row, 1, STYLE_LABEL, "free air %.0f L, delivered at the last target %.0f L/min",
                 1000 * o->free_air_m3, 60000 * o->at_target_free_m3_s);
}

void hookups_render(const struct model *m, struct frame *f, struct rect body)
{
    const struct outing_refill *r = &m->results.refill;
    if (m->results.status < STATUS_OK) {
        refused_put(m, f, body);
        return;
    }
    if (r->status < STATUS_OK) {
        frame_put(f, body.row + 1, 1, STYLE_ERROR, status_text(r->status));
        return;
    }
    frame_put(f, body.row, 1, STYLE_TITLE, "back up to road pressure");
    frame_put(f, body.row + 1, 1, STYLE_LABEL, "min:s      run ■ rest ─ hand ═  total");
    double full_s = longest_plan(&r->out);
    for (int h = 0; h < HOOKUP_COUNT; h++)
        plan_row(m, f, body.row + 2 + h, body.cols, (enum hookup)h, full_s);
    air_line(m, f, body.row + 5);
    int top = body.row + 7, below = body.rows - 7, what_if = 44;
    bool beside = body.cols >= 110;
    int need = r->out.plan[m->at.hookups.picked].n_step + 1;
    int steps = beside || need > below ? below : need;
    if (!beside && steps < below - WHATIF_COUNT - 1)
        steps = below - WHATIF_COUNT - 1;
    steps_put(m, f, (struct rect){top, 1, steps, body.cols - 2 - (beside ? what_if : 0)});
    whatif_put(m, f,
               beside ? (struct rect){top, body.cols - what_if, below, what_if}
                      : (struct rect){top + steps, 1, below - steps, body.cols - 2});
}
