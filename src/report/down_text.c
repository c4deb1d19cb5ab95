#include "report/down_text.h"

#include <math.h>

#include "report/caution_text.h"
#include "report/cell.h"
#include "report/head_text.h"
#include "report/wrap.h"

enum { COL_FROM = 23, COL_TO = 32, COL_IN = 42, COL_IN_STOP = 51, COL_OUT = 61, COL_OUT_STOP = 70 };
enum { DOWN_TEXT = 400 };

static void put_head(struct text *out)
{
    text_pad_to(out, COL_TO);
    cell_right(out, COL_IN_STOP, "core in");
    cell_right(out, COL_OUT_STOP, "core out");
    text_put(out, "\n corner");
    cell_right(out, COL_FROM, "from");
    cell_right(out, COL_TO, "TO");
    cell_right(out, COL_IN, "min");
    cell_right(out, COL_IN_STOP, "stop at");
    cell_right(out, COL_OUT, "min");
    cell_right(out, COL_OUT_STOP, "stop at");
    text_put(out, "\n");
}

static void put_corner(const struct down_line *c, int corner, enum unit_system u, int more,
                       struct text *out)
{
    const struct down_result *r = &c->result;
    text_put(out, " %s", report_corner_name(corner));
    cell_value(out, COL_FROM, c->from_reading_pa, Q_PRESSURE, u, more);
    cell_value(out, COL_TO, c->to_reading_pa, Q_PRESSURE, u, more);
    cell_time(out, COL_IN, r->time_s[VALVE_CORE_IN]);
    cell_value(out, COL_IN_STOP, r->stop_reading_gauge_pa[VALVE_CORE_IN], Q_PRESSURE, u, 1);
    cell_time(out, COL_OUT, r->time_s[VALVE_CORE_OUT]);
    cell_value(out, COL_OUT_STOP, r->stop_reading_gauge_pa[VALVE_CORE_OUT], Q_PRESSURE, u, 1);
    text_put(out, "\n");
}

/* Longest and sum over the corners, through valves of one kind. */
static void total(const struct down_report *r, enum valve_state v, double *longest_s, double *sum_s)
{
    *longest_s = 0.0;
    *sum_s = 0.0;
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (r->corner[c].present) {
            *longest_s = fmax(*longest_s, r->corner[c].result.time_s[v]);
            *sum_s += r->corner[c].result.time_s[v];
        }
    }
}

static void put_totals(const struct down_report *r, struct text *out)
{
    char buf[DOWN_TEXT];
    struct text t = text_over(buf, sizeof buf);
    double in_longest_s = 0.0, in_sum_s = 0.0, out_longest_s = 0.0, out_sum_s = 0.0;
    total(r, VALVE_CORE_IN, &in_longest_s, &in_sum_s);
    total(r, VALVE_CORE_OUT, &out_longest_s, &out_sum_s);
    text_put(&t, "every valve open at once ");
    cell_clock(&t, in_longest_s);
    text_put(&t, ", one after the other ");
    cell_clock(&t, in_sum_s);
    text_put(&t, "; cores out ");
    cell_clock(&t, out_longest_s);
    text_put(&t, " and ");
    cell_clock(&t, out_sum_s);
    wrap_put(out, HEAD_COLUMN, "Minutes", buf);
}

/* The axle that has the most air to lose comes first when there is one tool. */
static void put_order(const struct down_report *r, struct text *out)
{
    char buf[DOWN_TEXT];
    struct text t = text_over(buf, sizeof buf);
    unsigned said = 0;
    const char *sep = "with one tool ";
    for (int n = 0; n < AXLE_COUNT; n++) {
        int best = -1;
        for (int a = 0; a < AXLE_COUNT; a++) {
            const struct down_line *c = &r->corner[REFILL_CORNER(a, SIDE_LEFT)];
            bool longer =
                best < 0 ||
                c->result.time_s[VALVE_CORE_IN] >
                    r->corner[REFILL_CORNER(best, SIDE_LEFT)].result.time_s[VALVE_CORE_IN];
            if (c->present && !(said >> a & 1U) && longer) {
                best = a;
            }
        }
        if (best >= 0) {
            text_put(&t, "%s%s", sep, axle_name((enum axle_id)best));
            said |= 1U << best;
            sep = ", then ";
        }
    }
    text_put(&t, ": the most air to lose first. Stop at the reading shown: a tyre that was let "
                 "down is cold inside and creeps back up within about a minute. Read it again "
                 "then.");
    wrap_put(out, HEAD_COLUMN, "Order", buf);
}

static void put_planned(const struct down_report *r, enum unit_system u, struct text *out)
{
    int more = cell_pressure_more(r->rig, u);
    head_day_put(&r->conditions, r->tyre_temp_k, r->road_temp_k, u, out);
    text_put(out, "\n");
    put_head(out);
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (r->corner[c].present) {
            put_corner(&r->corner[c], c, u, more, out);
        }
    }
    text_put(out, "\n");
    put_totals(r, out);
    put_order(r, out);
}

void down_text_put(const struct down_report *r, enum unit_system u, struct text *out)
{
    head_rig_put(r->rig, out);
    head_ground_put(r->ground, out);
    if (r->refusal.code != REFUSAL_NONE) {
        text_put(out, "\n");
        refusal_text_put(&r->refusal, u, out);
    } else {
        put_planned(r, u, out);
    }
    cautions_end(&r->cautions, u, out);
}
