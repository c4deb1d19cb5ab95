#include "report/replay_text.h"

#include <math.h>

#include "report/caution_text.h"
#include "report/cell.h"
#include "report/head_text.h"
#include "report/wrap.h"

enum { COL_AT = 7, COL_READING = 9, COL_DONE = 42, COL_BAND = 44, COL_RATIO = 65, COL_FIT = 68 };
enum { COL_START = 21, COL_TARGET = 29, COL_CORNER_DONE = 37, COL_CORNER_BAND = 39, COL_NOW = 61 };

/* "4:51-6:30"; an open end where some machines would never arrive. */
static void put_band(struct text *out, int column, const struct forecast_time *t)
{
    text_pad_to(out, column);
    cell_clock(out, t->p05_s);
    if (isfinite(t->p05_s)) {
        text_put(out, "-");
        cell_clock(out, t->p95_s);
    }
}

/* Letting down needs no machine. */
static void put_ratio(struct text *out, const struct forecast_ratio *r, bool up)
{
    char buf[32];
    struct text t = text_over(buf, sizeof buf);
    text_put(&t, "%.2f", r->p50_1);
    cell_right(out, COL_RATIO, up ? buf : "-");
}

static void put_fit(struct text *out, const struct forecast_out *o, bool undone)
{
    text_pad_to(out, COL_FIT);
    if (undone) {
        text_put(out, "undone\n");
        return;
    }
    text_put(out, "%s", o->readings == 0 ? "-" : forecast_fit_name(o->fit));
    if (o->out_of_step != 0) {
        text_put(out, ":\n");
        text_pad_to(out, COL_READING);
        text_put(out, "CHECK ");
        refill_log_corners_put(o->out_of_step, out);
        text_put(out, ": hose, valve, leak or bead - stop and look");
    }
    text_put(out, "\n");
}

static void put_row(const struct replay_row *row, bool up, bool undone, enum unit_system u,
                    struct text *out)
{
    cell_time(out, COL_AT, row->at_s);
    text_pad_to(out, COL_READING);
    refill_log_corners_put(row->corners, out);
    text_put(out, " ");
    units_put(out, row->reading_pa, Q_PRESSURE, u, 1);
    text_put(out, "%s", row->flowing ? " flowing" : "");
    cell_time(out, COL_DONE, row->out.finish.p50_s);
    put_band(out, COL_BAND, &row->out.finish);
    put_ratio(out, &row->out.delivery, up);
    put_fit(out, &row->out, undone);
}

static void put_rows(const struct replay_report *r, enum unit_system u, struct text *out)
{
    text_put(out, "\n");
    cell_right(out, COL_AT, "log");
    text_pad_to(out, COL_READING);
    text_put(out, "reading");
    cell_right(out, COL_DONE, "DONE");
    text_pad_to(out, COL_BAND);
    text_put(out, "90 %% band");
    cell_right(out, COL_RATIO, "x label");
    text_pad_to(out, COL_FIT);
    text_put(out, "fit\n");
    for (int i = 0; i < r->n_row; i++) {
        put_row(&r->row[i], r->session.up, r->session.reading[r->row[i].reading].undone, u, out);
    }
}

static void put_corner(const struct replay_report *r, int c, enum unit_system u, struct text *out)
{
    const struct forecast_corner *k = &r->final.corner[c];
    text_put(out, " %s", corner_name((enum axle_id)(c / SIDE_COUNT), (enum side)(c % SIDE_COUNT)));
    cell_value(out, COL_START, r->session.start_gauge_pa[c], Q_PRESSURE, u, 1);
    cell_value(out, COL_TARGET, k->target_gauge_pa, Q_PRESSURE, u, 1);
    cell_time(out, COL_CORNER_DONE, k->finish.p50_s);
    put_band(out, COL_CORNER_BAND, &k->finish);
    cell_value(out, COL_NOW, k->settled.p50_gauge_pa, Q_PRESSURE, u, 1);
    text_put(out, "  (");
    units_put_bare(out, k->settled.p05_gauge_pa, Q_PRESSURE, u, 1);
    text_put(out, "-");
    units_put_bare(out, k->settled.p95_gauge_pa, Q_PRESSURE, u, 1);
    text_put(out, ")%s\n", r->session.dropped >> c & 1U ? " off" : "");
}

static void put_final(const struct replay_report *r, enum unit_system u, struct text *out)
{
    text_put(out, "\n at the end");
    cell_right(out, COL_START, "start");
    cell_right(out, COL_TARGET, "target");
    cell_right(out, COL_CORNER_DONE, "done");
    text_pad_to(out, COL_CORNER_BAND);
    text_put(out, "90 %% band");
    cell_right(out, COL_NOW, "now");
    text_put(out, "\n");
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (r->final.corner[c].present) {
            put_corner(r, c, u, out);
        }
    }
}

/* ", cores in", ", cores out at front, in at rear" */
static void put_cores(const struct session *s, struct text *out)
{
    unsigned bare = s->core_out & s->present;
    if (bare == 0 || bare == s->present) {
        text_put(out, ", cores %s", bare == 0 ? "in" : "out");
        return;
    }
    text_put(out, ", cores out at ");
    refill_log_corners_put(bare, out);
    text_put(out, ", in at ");
    refill_log_corners_put(s->present & ~bare, out);
}

void replay_text_put(const struct replay_report *r, enum unit_system u, struct text *out)
{
    char buf[240];
    struct text t = text_over(buf, sizeof buf);
    head_rig_put(r->rig, out);
    text_put(&t, "%s, %s", r->session.up ? "filling" : "letting down",
             hookup_name(r->session.hookup));
    if (!r->session.up) {
        put_cores(&r->session, &t);
    }
    text_put(&t, "%s; times run while air flows, from the first air on; pressures in %s",
             r->session.done ? "" : ", not finished", units_symbol(Q_PRESSURE, u));
    wrap_put(out, HEAD_COLUMN, "Job", buf);
    if (r->torn) {
        wrap_put(out, HEAD_COLUMN, "Note", "the last line was cut off and is left out");
    }
    if (r->refusal.code != REFUSAL_NONE) {
        text_put(out, "\n");
        refusal_text_put(&r->refusal, u, out);
        cautions_end(&r->cautions, u, out);
        return;
    }
    put_rows(r, u, out);
    if (r->forecast) {
        put_final(r, u, out);
    } else {
        wrap_put(out, HEAD_COLUMN, "Note",
                 "no forecast: a start reading and a target of every corner are needed");
    }
    cautions_end(&r->cautions, u, out);
}
