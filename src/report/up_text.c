#include "report/up_text.h"

#include <math.h>

#include "core/refill_log.h"
#include "report/caution_text.h"
#include "report/cell.h"
#include "report/head_text.h"
#include "report/wrap.h"

enum { UP_LINE = 480, BAR_CELLS = 24, STEP_COLUMN = 9 };
enum { COL_FROM = 20, COL_TO = 28, COL_STOP = 37, COL_DONE = 47, COL_BAR = 50 };

struct page {
    const struct up_report *r;
    const struct refill_plan *plan; /* of the rig's own hook-up */
    enum unit_system u;
    int more;
    struct text *out;
};

/* Readings of today's tyres fall between the marks of a gauge. */
static bool corrected(const struct up_report *r)
{
    for (int c = 0; c < REFILL_CORNERS; c++) {
        const struct refill_corner_in *in = &r->in.corner[c];
        if (in->present && fabs(in->target_gauge_pa - in->cold_gauge_pa) > CELL_SAME_PA) {
            return true;
        }
    }
    return false;
}

/* ---- the corners with their bars ---- */

/* Filled until the corner has its target, then dots until the last one has. */
static void put_bar(struct text *out, double done_s, double total_s)
{
    int filled = total_s > 0.0 ? (int)lround(done_s / total_s * BAR_CELLS) : BAR_CELLS;
    filled = filled > BAR_CELLS ? BAR_CELLS : filled;
    text_put(out, "|");
    text_char(out, '#', filled);
    text_char(out, '.', BAR_CELLS - filled);
    text_put(out, "|");
}

static void put_corner(const struct page *p, int corner)
{
    const struct refill_corner_in *in = &p->r->in.corner[corner];
    const struct refill_corner_out *o = &p->plan->corner[corner];
    struct text *out = p->out;
    text_put(out, " %s", report_corner_name(corner));
    cell_value(out, COL_FROM, in->from_gauge_pa, Q_PRESSURE, p->u, p->more);
    cell_value(out, COL_TO, in->target_gauge_pa, Q_PRESSURE, p->u, p->more);
    if (o->reached) {
        cell_value(out, COL_STOP, o->stop_reading_gauge_pa, Q_PRESSURE, p->u, 1);
        cell_time(out, COL_DONE, o->done_s);
        text_pad_to(out, COL_BAR);
        put_bar(out, o->done_s, p->plan->total_s);
    } else {
        cell_right(out, COL_STOP, "-");
        cell_right(out, COL_DONE, "-");
    }
    text_put(out, "\n");
}

static void put_table(const struct page *p)
{
    struct text *out = p->out;
    text_put(out, "\n corner");
    cell_right(out, COL_FROM, "from");
    cell_right(out, COL_TO, "TO");
    cell_right(out, COL_STOP, "stop at");
    cell_right(out, COL_DONE, "done");
    text_pad_to(out, COL_BAR);
    text_put(out, "%s\n", hookup_name(p->plan->hookup));
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (p->r->in.corner[c].present) {
            put_corner(p, c);
        } else if (p->r->found_low >> c & 1U) {
            text_put(out, " %s", report_corner_name(c));
            text_pad_to(out, COL_FROM + 3);
            text_put(out, "FOUND LOW: no air, no steps\n");
        }
    }
    text_put(out, "\n");
}

/* ---- the steps ---- */

static void put_stops(const struct page *p, unsigned corners, struct text *t)
{
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (corners >> c & 1U) {
            units_put_bare(t, p->plan->corner[c].stop_reading_gauge_pa, Q_PRESSURE, p->u, 1);
            text_put(t, ", it settles to ");
            units_put_bare(t, p->plan->corner[c].settled_gauge_pa, Q_PRESSURE, p->u, p->more);
            return;
        }
    }
}

static const char REST_WORK[] =
    "; meanwhile read the corners, look at beads and walls, stow the gear";

static bool first_rest(const struct refill_plan *plan, const struct refill_step *s)
{
    for (const struct refill_step *before = plan->step; before < s; before++) {
        if (before->what == REFILL_REST) {
            return false;
        }
    }
    return true;
}

static void put_step(const struct page *p, const struct refill_step *s)
{
    char label[32], buf[UP_LINE];
    struct text l = text_over(label, sizeof label);
    struct text t = text_over(buf, sizeof buf);
    cell_time(&l, STEP_COLUMN - 2, s->at_s);
    switch (s->what) {
    case REFILL_DROP:
        text_put(&t, "take off ");
        refill_log_corners_put(s->corners, &t);
        text_put(&t, ": stopped it reads ");
        put_stops(p, s->corners, &t);
        break;
    case REFILL_MOVE:
        text_put(&t, "move the hose to ");
        refill_log_corners_put(s->corners, &t);
        break;
    case REFILL_REST:
        text_put(&t, "let the compressor rest for ");
        cell_clock(&t, s->for_s);
        text_put(&t, "%s", first_rest(p->plan, s) ? REST_WORK : "");
        break;
    case REFILL_STOP:
        text_put(&t, "stop the air");
        break;
    }
    wrap_put(p->out, STEP_COLUMN, label, buf);
}

static void put_steps(const struct page *p)
{
    text_put(p->out, "Steps\n");
    for (int i = 0; i < p->plan->n_step; i++) {
        put_step(p, &p->plan->step[i]);
    }
    if (p->plan->part_refill) {
        wrap_put(p->out, STEP_COLUMN, "",
                 "All corners are first brought to gravel pressure, so that the rest can be spent "
                 "driving slowly on gravel.");
    }
}

/* ---- which axle comes off first ---- */

static double axle_target_pa(const struct up_report *r, int axle)
{
    const struct refill_corner_in *left = &r->in.corner[REFILL_CORNER(axle, SIDE_LEFT)];
    const struct refill_corner_in *right = &r->in.corner[REFILL_CORNER(axle, SIDE_RIGHT)];
    return left->present ? left->target_gauge_pa : right->present ? right->target_gauge_pa : -1.0;
}

/* The axles of the vehicle that fill, with the lowest and the highest target; -1 = none. */
static void find_ends(const struct up_report *r, int *low, int *high)
{
    *low = -1;
    *high = -1;
    for (int a = 0; a <= AXLE_REAR; a++) {
        double pa = axle_target_pa(r, a);
        if (pa < 0.0) {
            continue;
        }
        if (*low < 0 || pa < axle_target_pa(r, *low)) {
            *low = a;
        }
        if (*high < 0 || pa > axle_target_pa(r, *high)) {
            *high = a;
        }
    }
}

static void put_first_off(const struct page *p)
{
    int low = -1, high = -1;
    char buf[UP_LINE];
    struct text t = text_over(buf, sizeof buf);
    find_ends(p->r, &low, &high);
    if (low < 0) {
        return;
    }
    if (fabs(axle_target_pa(p->r, high) - axle_target_pa(p->r, low)) < CELL_SAME_PA) {
        text_put(&t, "all together: they have one target");
    } else {
        text_put(&t, "%s: on one line all corners meet the lowest target, ",
                 axle_name((enum axle_id)low));
        units_put(&t, axle_target_pa(p->r, low), Q_PRESSURE, p->u, p->more);
        text_put(&t, ", first; %s goes on to ", axle_name((enum axle_id)high));
        units_put(&t, axle_target_pa(p->r, high), Q_PRESSURE, p->u, p->more);
    }
    wrap_put(p->out, HEAD_COLUMN, "1st off", buf);
}

/* ---- hook-ups side by side, what-ifs ---- */

enum { COL_RUN = 20, COL_REST = 29, COL_HANDS = 40, COL_TOTAL = 49 };

static void put_hookup(const struct page *p, const struct refill_plan *plan)
{
    struct text *out = p->out;
    text_put(out, " %s%s", hookup_name(plan->hookup), plan == p->plan ? " *" : "");
    if (!plan->possible) {
        text_pad_to(out, COL_RUN - 9);
        text_put(out, "%s\n", refill_problem_short(plan->problem));
        return;
    }
    cell_time(out, COL_RUN, plan->running_s);
    cell_time(out, COL_REST, plan->rest_s);
    cell_time(out, COL_HANDS, plan->handling_s);
    cell_time(out, COL_TOTAL, plan->total_s);
    text_put(out, "\n");
}

static void put_hookups(const struct page *p)
{
    struct text *out = p->out;
    text_put(out, "\n hook-up");
    cell_right(out, COL_RUN, "running");
    cell_right(out, COL_REST, "rest");
    cell_right(out, COL_HANDS, "hands-on");
    cell_right(out, COL_TOTAL, "TOTAL");
    text_put(out, "   (* this rig)\n");
    for (int h = 0; h < HOOKUP_COUNT; h++) {
        put_hookup(p, &p->r->out.plan[h]);
    }
}

static void put_whatifs(const struct page *p)
{
    char buf[UP_LINE];
    struct text t = text_over(buf, sizeof buf);
    const char *sep = "";
    for (int k = 0; k < WHATIF_COUNT; k++) {
        const struct refill_whatif *w = &p->r->out.whatif[k];
        if (!w->gain_s.is || fabs(w->gain_s.v) < 0.5) {
            continue;
        }
        text_put(&t, "%s%s %s ", sep, refill_whatif_words(w->kind),
                 w->gain_s.v >= 0.0 ? "saves" : "costs");
        cell_clock(&t, fabs(w->gain_s.v));
        sep = "; ";
    }
    if (t.len > 0) {
        text_put(p->out, "\n");
        wrap_put(p->out, HEAD_COLUMN, "What if", buf);
    }
}

static void put_air(const struct page *p)
{
    const struct up_report *r = p->r;
    const struct air_system *a = &r->rig->air;
    char buf[UP_LINE];
    struct text t = text_over(buf, sizeof buf);
    static const char *const sources[] = {"compressor", "regulated air", "tank"};
    text_put(&t, "%s, ",
             a->source == AIR_COMPRESSOR && a->compressor.name[0] != '\0' ? a->compressor.name
                                                                          : sources[a->source]);
    units_put(&t, r->out.free_air_m3, Q_VOLUME, p->u, 0);
    text_put(&t, " of free air to move; at the highest target it gives ");
    units_put(&t, r->out.at_target_free_m3_s, Q_FLOW, p->u, 0);
    wrap_put(p->out, HEAD_COLUMN, "Air", buf);
}

/* Cold values beside the readings, where the tyres are not at that temperature. */
static void put_cold(const struct page *p)
{
    char buf[UP_LINE];
    struct text t = text_over(buf, sizeof buf);
    const char *sep = "the readings to reach now stand for the cold ";
    if (!corrected(p->r)) {
        return;
    }
    for (int a = 0; a < AXLE_COUNT; a++) {
        int c = REFILL_CORNER(a, SIDE_LEFT);
        c += !p->r->in.corner[c].present;
        if (p->r->in.corner[c].present) {
            text_put(&t, "%s%s ", sep, axle_name((enum axle_id)a));
            units_put_bare(&t, p->r->in.corner[c].cold_gauge_pa, Q_PRESSURE, p->u, p->more);
            sep = ", ";
        }
    }
    wrap_put(p->out, HEAD_COLUMN, "Warm", buf);
}

static void put_planned(const struct page *p)
{
    put_air(p);
    put_cold(p);
    put_table(p);
    if (p->plan->possible && p->plan->problem != REFILL_NOTHING_TO_DO) {
        put_steps(p);
        if (p->plan->hookup == HOOKUP_LINKED) {
            put_first_off(p);
        }
    } else {
        wrap_put(p->out, HEAD_COLUMN, "Note", refill_problem_words(p->plan->problem));
    }
    put_hookups(p);
    put_whatifs(p);
}

static void put_question(const struct page *p)
{
    char buf[UP_LINE];
    struct text t = text_over(buf, sizeof buf);
    text_put(&t, "from %s to %s", p->r->from, p->r->to);
    wrap_put(p->out, HEAD_COLUMN, "Filling", buf);
}

void up_text_put(const struct up_report *r, enum unit_system u, struct text *out)
{
    const struct page p = {.r = r,
                           .plan = &r->out.plan[r->rig->air.hookup],
                           .u = u,
                           .more = corrected(r) ? 1 : cell_pressure_more(r->rig, u),
                           .out = out};
    head_rig_put(r->rig, out);
    put_question(&p);
    head_day_put(&r->conditions, r->tyre_temp_k, r->road_temp_k, u, out);
    if (r->refusal.code != REFUSAL_NONE) {
        text_put(out, "\n");
        refusal_text_put(&r->refusal, u, out);
        text_put(out, r->planned ? "\n" : "");
    }
    if (r->planned) {
        put_planned(&p);
    }
    cautions_end(&r->cautions, u, out);
}
