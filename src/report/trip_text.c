#include "report/trip_report.h"

#include <math.h>

#include "report/caution_text.h"
#include "report/cell.h"
#include "report/head_text.h"
#include "report/working_text.h"
#include "report/wrap.h"
#include "sim/trip_words.h"

enum { LABEL = HEAD_COLUMN, LINE = 600, TABLE_WIDTH = 79, BESIDE_AXLES = 41 };

/* What the parts of the report need. */
struct page {
    const struct trip_report *r;
    const struct trip_plan *plan;
    enum unit_system u;
    int more; /* extra decimals of a pressure */
    int n_axle;
    enum axle_id axle[AXLE_COUNT];
    struct trip_words words;
    struct text *out;
};

static struct page page_of(const struct trip_report *r, enum unit_system u, struct text *out)
{
    struct page p = {.r = r, .plan = r->plan, .u = u, .out = out};
    p.more = cell_pressure_more(r->in->rig, u);
    p.words = (struct trip_words){.in = r->in, .plan = r->plan, .u = u, .more = p.more};
    for (int x = 0; x < AXLE_COUNT; x++) {
        if (r->in->rig->axle[x].present) {
            p.axle[p.n_axle++] = (enum axle_id)x;
        }
    }
    return p;
}

static void put_minutes(struct text *out, int end, double s)
{
    char buf[16];
    struct text t = text_over(buf, sizeof buf);
    text_put(&t, "%.0f", trip_words_minutes(s));
    cell_right(out, end, buf);
}

/* Columns of an axle: its name and a blank, at least seven. */
static int axle_width(enum axle_id axle)
{
    int n = text_width(axle_name(axle)) + 1;
    return n > 7 ? n : 7;
}

/* ---- head ---- */

static void put_head(const struct page *p)
{
    const struct trip *trip = p->r->in->trip;
    char buf[LINE];
    struct text t = text_over(buf, sizeof buf);
    double length_m = 0.0;
    for (int i = 0; i < trip->n_leg; i++) {
        length_m += trip->leg[i].length_m;
    }
    head_rig_put(p->r->in->rig, p->out);
    text_put(&t, "%s%s%s: %.0f km in %d leg%s", trip->name, trip->date[0] ? ", " : "", trip->date,
             length_m / 1e3, trip->n_leg, trip->n_leg == 1 ? "" : "s");
    wrap_put(p->out, LABEL, "Trip", buf);
}

static void put_units(const struct page *p)
{
    char buf[LINE];
    struct text t = text_over(buf, sizeof buf);
    text_put(&t, "gauge pressures in %s, cold at ", units_symbol(Q_PRESSURE, p->u));
    units_put(&t, p->r->in->rig->axle[AXLE_FRONT].road_temp_k, Q_TEMPERATURE, p->u, 0);
    text_put(&t, "; heights and temperatures as the trip file gives them");
    wrap_put(p->out, LABEL, "Figures", buf);
}

/* ---- the table of legs ---- */

/* Columns: number and ground, km, one for each axle, cap, minutes, what comes before. */
struct columns {
    int title, km, axles, cap, drive, wish, before;
};

static struct columns columns_of(const struct page *p)
{
    struct columns c;
    int axles = 0;
    for (int i = 0; i < p->n_axle; i++) {
        axles += axle_width(p->axle[i]);
    }
    int room = TABLE_WIDTH - BESIDE_AXLES - axles;
    c.title = room > 18 ? 18 : room;
    c.km = 3 + c.title + 6;
    c.axles = c.km;
    c.cap = c.axles + axles + 6;
    c.drive = c.cap + 6;
    c.wish = c.drive + 6;
    c.before = c.wish + 3;
    return c;
}

/* The names of the axles, or a pressure of each, from a column on. */
static void put_axle_names(const struct page *p, int column)
{
    for (int i = 0; i < p->n_axle; i++) {
        column += axle_width(p->axle[i]);
        cell_right(p->out, column, axle_name(p->axle[i]));
    }
}

static void put_axle_values(const struct page *p, int column, const double pa[], int more)
{
    for (int i = 0; i < p->n_axle; i++) {
        column += axle_width(p->axle[i]);
        cell_value(p->out, column, pa[p->axle[i]], Q_PRESSURE, p->u, more);
    }
}

static void put_table_head(const struct page *p, const struct columns *c)
{
    struct text *out = p->out;
    text_put(out, "\n leg");
    cell_right(out, c->km, "km");
    put_axle_names(p, c->axles);
    cell_right(out, c->cap, "km/h");
    cell_right(out, c->drive, "min");
    cell_right(out, c->wish, "wish");
    text_pad_to(out, c->before);
    text_put(out, "before, min\n");
}

/* A long title is cut where it can be seen. */
static void put_title(const struct columns *c, int leg, const char *title, struct text *out)
{
    bool cut = text_width(title) > c->title;
    text_put(out, "%2d %.*s%s", leg + 1, cut ? c->title - 2 : c->title, title, cut ? ".." : "");
}

static void put_leg(const struct page *p, const struct columns *c, int i)
{
    const struct trip_leg_plan *l = &p->plan->leg[i];
    const struct ground *g = p->r->in->ground[i];
    struct text *out = p->out;
    char km[16];
    struct text t = text_over(km, sizeof km);
    put_title(c, i, g->title[0] ? g->title : g->name, out);
    text_put(&t, "%.4g", p->r->in->trip->leg[i].length_m / 1e3);
    cell_right(out, c->km, km);
    put_axle_values(p, c->axles, l->cold_gauge_pa, p->more);
    if (l->cap_mps.is) {
        cell_value(out, c->cap, l->cap_mps.v, Q_SPEED, p->u, 0);
    } else {
        cell_right(out, c->cap, "law");
    }
    put_minutes(out, c->drive, l->drive_s);
    put_minutes(out, c->wish, l->drive_wish_s);
    text_pad_to(out, c->before);
    if (l->action == TRIP_NONE) {
        text_put(out, "-\n");
    } else if (l->source_too_weak) {
        text_put(out, "%s ?\n", trip_action_name(l->action));
    } else {
        text_put(out, "%s %.0f\n", trip_action_name(l->action), trip_words_minutes(l->action_s));
    }
}

static void put_table(const struct page *p)
{
    struct columns c = columns_of(p);
    put_table_head(p, &c);
    for (int i = 0; i < p->plan->n_leg; i++) {
        put_leg(p, &c, i);
    }
    wrap_put(p->out, 1, "",
             "km/h: the cap at these pressures; min: the drive within it; wish: the drive at the "
             "speed wished; before: what to do first, an up with 5 min to look round");
}

static void put_total(const struct page *p)
{
    char buf[LINE];
    struct text t = text_over(buf, sizeof buf);
    trip_words_span(p->plan->total_s, &t);
    text_put(&t, ": ");
    trip_words_span(p->plan->drive_s, &t);
    text_put(&t, " driving, ");
    trip_words_span(p->plan->action_s, &t);
    text_put(&t, " for changing pressures; %.0f L of free air",
             units_in(p->plan->free_air_m3, Q_VOLUME, "L"));
    if (p->plan->no_air) {
        text_put(&t, "; and the time to find other air, which is not in it");
    }
    text_put(p->out, "\n");
    wrap_put(p->out, LABEL, "TOTAL", buf);
}

/* ---- what comes before each leg ---- */

static void put_acts(const struct page *p)
{
    text_put(p->out, "\nBefore each leg\n");
    for (int i = 0; i < p->plan->n_leg; i++) {
        char label[16], buf[LINE * 2];
        struct text t = text_over(buf, sizeof buf), n = text_over(label, sizeof label);
        text_put(&n, "Leg %d", i + 1);
        if (trip_words_act(&p->words, i, &t)) {
            wrap_put(p->out, LABEL, label, buf);
        }
    }
}

/* ---- what a gauge will read ---- */

enum { COL_HEIGHT = 25, COL_AIR = 33 };

static void put_reading(const struct page *p, const char *where, double height_m, double temp_k,
                        const double pa[], const char *mark)
{
    struct text *out = p->out;
    char metres[24];
    struct text t = text_over(metres, sizeof metres);
    text_put(&t, "%.0f m", height_m);
    text_put(out, " %s", where);
    cell_right(out, COL_HEIGHT, metres);
    cell_value_unit(out, COL_AIR, temp_k, Q_TEMPERATURE, p->u, 0);
    put_axle_values(p, COL_AIR, pa, 1);
    text_put(out, "%s\n", mark);
}

static const char *mark_of(const struct page *p, int i)
{
    const struct trip_leg_plan *l = &p->plan->leg[i];
    bool low = false;
    bool under = false;
    for (int x = 0; x < AXLE_COUNT; x++) {
        low = low || l->low[x];
        under = under || l->under[x];
    }
    return low                         ? "  BELOW FLOOR"
           : under                     ? "  under road"
           : p->plan->coldest_leg == i ? "  least"
                                       : "";
}

static void put_readings(const struct page *p)
{
    struct text *out = p->out;
    text_put(out, "\nThe gauge: predicted for tyres as warm as the air that lose nothing\n");
    text_put(out, " at");
    cell_right(out, COL_HEIGHT, "height");
    cell_right(out, COL_AIR, "air");
    put_axle_names(p, COL_AIR);
    text_put(out, "\n");
    for (int i = 0; i < p->plan->n_leg; i++) {
        const struct trip_leg_plan *l = &p->plan->leg[i];
        char where[24];
        struct text t = text_over(where, sizeof where);
        if (i == 0 || l->action != TRIP_NONE) {
            text_put(&t, l->action != TRIP_NONE ? "set before leg %d" : "start, leg %d", i + 1);
            put_reading(p, where, l->start_height_m, l->start_temp_k, l->set_gauge_pa, "");
        }
        text_clear(&t);
        text_put(&t, "end of leg %d", i + 1);
        put_reading(p, where, l->end_height_m, l->end_temp_k, l->end_gauge_pa, mark_of(p, i));
    }
}

static void put_morning(const struct page *p)
{
    char buf[LINE];
    struct text t = text_over(buf, sizeof buf);
    text_put(&t, "read every tyre cold, before driving. Coldest and lowest, end of leg %d (",
             p->plan->coldest_leg + 1);
    trip_words_place(&p->words, p->plan->coldest_height_m, p->plan->coldest_temp_k, &t);
    text_put(&t, "): ");
    trip_words_axles(&p->words, p->plan->coldest_gauge_pa, 0, &t);
    text_put(&t, ". A tyre that reads less than this table has lost air: find out why first. One "
                 "that reads more up high is not at fault: do not bleed it.");
    text_put(p->out, "\n");
    wrap_put(p->out, LABEL, "Morning", buf);
}

void trip_text_put(const struct trip_report *r, enum unit_system u, struct text *out)
{
    struct page p = page_of(r, u, out);
    put_head(&p);
    if (r->plan->refusal.code != REFUSAL_NONE) {
        refusal_text_put(&r->plan->refusal, u, out);
        cautions_end(r->cautions, u, out);
        return;
    }
    put_units(&p);
    put_table(&p);
    put_total(&p);
    put_acts(&p);
    put_readings(&p);
    put_morning(&p);
    cautions_end(r->cautions, u, out);
    if (r->working) {
        working_text_put(r->working, u, out);
    }
}
