#include "report/advise_text.h"

#include <math.h>

#include "report/caution_text.h"
#include "report/cell.h"
#include "report/flotation_text.h"
#include "report/head_text.h"
#include "report/wrap.h"

enum { ADVISE_LINE = 480, LABEL = HEAD_COLUMN };

#define SAME_KG 0.5 /* kg: left and right carry alike */

/* What the parts of the report need. */
struct page {
    const struct advice *a;
    enum unit_system u;
    int more; /* extra decimals of a pressure */
    bool set_now, yours;
    struct text *out;
};

static void put_p(const struct page *p, double pa, struct text *t)
{
    units_put_bare(t, pa, Q_PRESSURE, p->u, p->more);
}

static bool corner_shown(const struct axle_advice *x, int side)
{
    return x->present && (side == SIDE_LEFT || fabs(x->corner[SIDE_LEFT].load_kg -
                                                    x->corner[SIDE_RIGHT].load_kg) > SAME_KG);
}

/* "front", or "front-left" where the sides differ. */
static const char *label_of(const struct axle_advice *x, int axle, int side)
{
    return corner_shown(x, SIDE_RIGHT) ? corner_name((enum axle_id)axle, (enum side)side)
                                       : axle_name((enum axle_id)axle);
}

static struct page page_of(const struct advice *a, enum unit_system u, struct text *out)
{
    struct page p = {.a = a, .u = u, .more = cell_pressure_more(&a->rig, u), .out = out};
    for (int i = 0; i < AXLE_COUNT; i++) {
        const struct axle_advice *x = &a->axle[i];
        p.yours = p.yours || (x->present && x->at_gauge_pa.is);
        p.set_now = p.set_now ||
                    (x->present && fabs(x->set_now_gauge_pa - x->target_gauge_pa) > CELL_SAME_PA);
    }
    return p;
}

/* ---- the table of corners ---- */

enum { COL_LOAD = 24, COL_ROAD = 32, COL_TARGET = 43, COL_SET = 52, COL_STEP = 9 };

static int col_yours(const struct page *p)
{
    return COL_SET + (p->set_now ? COL_STEP : 0);
}

static int col_deflection(const struct page *p)
{
    return col_yours(p) + (p->yours ? COL_STEP : 0) - 2;
}

static void put_table_head(const struct page *p)
{
    struct text *out = p->out;
    text_put(out, "\n corner");
    cell_right(out, COL_LOAD, "load");
    cell_right(out, COL_ROAD, "road");
    cell_right(out, COL_TARGET, "TARGET");
    if (p->set_now) {
        cell_right(out, COL_SET, "SET NOW");
    }
    if (p->yours) {
        cell_right(out, col_yours(p), "YOURS");
    }
    text_pad_to(out, col_deflection(p));
    text_put(out, p->yours ? "deflection at yours\n" : "deflection\n");
}

static void put_corner(const struct page *p, int axle, int side)
{
    const struct axle_advice *x = &p->a->axle[axle];
    const struct corner_advice *c = &x->corner[side];
    struct text *out = p->out;
    char buf[32];
    struct text t = text_over(buf, sizeof buf);
    text_put(out, " %s", corner_name((enum axle_id)axle, (enum side)side));
    if (p->a->rig.axle[axle].wheels == 4) {
        text_put(out, " x2");
    }
    cell_value_unit(out, COL_LOAD, c->load_kg, Q_MASS, p->u, 0);
    cell_value(out, COL_ROAD, x->road_gauge_pa, Q_PRESSURE, p->u, p->more);
    text_put(&t, "[ ");
    put_p(p, x->target_gauge_pa, &t);
    text_put(&t, " ]");
    cell_right(out, COL_TARGET, buf);
    if (p->set_now) {
        cell_value(out, COL_SET, x->set_now_gauge_pa, Q_PRESSURE, p->u, 1);
    }
    if (p->yours && x->at_gauge_pa.is) {
        cell_value(out, col_yours(p), x->at_gauge_pa.v, Q_PRESSURE, p->u, p->more);
    }
    text_pad_to(out, col_deflection(p));
    text_put(out, "%.1f %% (%.0f to %.0f)\n", 100.0 * c->at.deflection_1,
             100.0 * c->deflection_low_1, 100.0 * c->deflection_high_1);
}

static void put_table(const struct page *p)
{
    put_table_head(p);
    for (int i = 0; i < AXLE_COUNT * SIDE_COUNT; i++) {
        if (p->a->axle[i / SIDE_COUNT].present) {
            put_corner(p, i / SIDE_COUNT, i % SIDE_COUNT);
        }
    }
}

/* ---- why ---- */

static void put_aim(const struct page *p, const struct axle_advice *x, struct text *t)
{
    if (x->aim_gauge_pa.is) {
        text_put(t, "the aim asks for ");
        units_put_bare(t, x->aim_gauge_pa.v, Q_PRESSURE, p->u, 1);
    }
}

static void put_floor(const struct page *p, const struct axle_advice *x, const char *what,
                      struct text *t)
{
    put_aim(p, x, t);
    text_put(t, ", but %s is ", what);
    units_put_bare(t, x->floor_gauge_pa, Q_PRESSURE, p->u, 1);
}

static void put_road_bound(const struct page *p, const struct axle_advice *x, struct text *t)
{
    double max_pa = x->tyre.max_gauge_pa;
    put_aim(p, x, t);
    text_put(t, "%s", x->aim_gauge_pa.is ? ", but no target goes above " : "never above ");
    text_put(t, "%s",
             max_pa > 0.0 && max_pa < x->road_gauge_pa ? "the moulded maximum"
                                                       : "the road pressure");
}

static void put_why(const struct page *p, const struct axle_advice *x, struct text *t)
{
    switch (x->bound_by) {
    case BOUND_AIM:
        put_aim(p, x, t);
        text_put(t, ", rounded up");
        break;
    case BOUND_DEFLECTION_LIMIT:
        put_floor(p, x, "the pressure at the ground's limit", t);
        break;
    case BOUND_BEAD_FLOOR:
        put_floor(p, x, "the bead floor", t);
        break;
    case BOUND_MAKER_FLOOR:
        put_floor(p, x, "the tyre maker's floor", t);
        break;
    case BOUND_SIDE_SLOPE:
        put_floor(p, x, "the floor on this side slope", t);
        break;
    case BOUND_RIM_WIDTH:
        text_put(t, "the rim does not fit the tyre, so road pressure");
        break;
    case BOUND_ROAD:
        put_road_bound(p, x, t);
        break;
    }
}

/* ---- axle by axle: floor, stuck step, why ---- */

/* Which floor is the highest. */
static const char *floor_name(const struct axle_advice *x)
{
    double pa = x->floor_gauge_pa;
    if (x->bead_floor_gauge_pa.is && x->bead_floor_gauge_pa.v >= pa) {
        return "bead";
    }
    if (x->maker_floor_gauge_pa.is && x->maker_floor_gauge_pa.v >= pa) {
        return "maker";
    }
    if (x->side_slope_floor_gauge_pa.is && x->side_slope_floor_gauge_pa.v >= pa) {
        return "slope";
    }
    return "limit";
}

enum { COL_FLOOR = 17, COL_STUCK = 30, COL_WHY = 33 };

static void put_axle(const struct page *p, int axle)
{
    const struct axle_advice *x = &p->a->axle[axle];
    char label[ADVISE_LINE], why[ADVISE_LINE];
    struct text l = text_over(label, sizeof label);
    struct text w = text_over(why, sizeof why);
    text_put(&l, " %s", axle_name((enum axle_id)axle));
    cell_value(&l, COL_FLOOR, x->floor_gauge_pa, Q_PRESSURE, p->u, 1);
    text_put(&l, " %s", floor_name(x));
    if (x->stuck_gauge_pa.is) {
        cell_value(&l, COL_STUCK, x->stuck_gauge_pa.v, Q_PRESSURE, p->u, p->more);
    } else {
        cell_right(&l, COL_STUCK, "-");
    }
    put_why(p, x, &w);
    if (x->bound_by != BOUND_AIM && x->bound_by != BOUND_ROAD) {
        text_put(&w, "; lower takes %s", bound_change(x->bound_by));
    }
    wrap_put(p->out, COL_WHY, label, why);
}

static void put_axles(const struct page *p)
{
    struct text *out = p->out;
    text_put(out, "\n axle");
    cell_right(out, COL_FLOOR, "floor");
    cell_right(out, COL_STUCK, "stuck");
    text_pad_to(out, COL_WHY);
    text_put(out, "why this target\n");
    for (int i = 0; i < AXLE_COUNT; i++) {
        if (p->a->axle[i].present) {
            put_axle(p, i);
        }
    }
    text_put(out, "\n");
}

/* ---- cap and limits ---- */

static void put_standard(const struct page *p, const struct axle_advice *x, struct text *t)
{
    struct maybe low = x->corner[SIDE_LEFT].standard_speed_mps;
    struct maybe right = x->corner[SIDE_RIGHT].standard_speed_mps;
    if (right.is && (!low.is || right.v < low.v)) {
        low = right;
    }
    if (!x->corner[SIDE_LEFT].at.capacity_kg.is) {
        text_put(t, "unknown");
    } else if (!low.is) {
        text_put(t, "not limited");
    } else if (low.v <= 0.0) {
        text_put(t, "not covered");
    } else {
        units_put(t, low.v, Q_SPEED, p->u, 0);
    }
}

/* START "front TEXT, rear TEXT" END, on one wrapped paragraph. */
static void put_each_axle(const struct page *p, const char *label, const char *start,
                          void (*put)(const struct page *p, const struct axle_advice *x,
                                      struct text *t),
                          const char *end)
{
    char buf[ADVISE_LINE];
    struct text t = text_over(buf, sizeof buf);
    const char *sep = start;
    for (int i = 0; i < AXLE_COUNT; i++) {
        if (p->a->axle[i].present) {
            text_put(&t, "%s%s ", sep, axle_name((enum axle_id)i));
            put(p, &p->a->axle[i], &t);
            sep = ", ";
        }
    }
    text_put(&t, "%s", end);
    wrap_put(p->out, LABEL, label, buf);
}

static void put_cap(const struct page *p)
{
    const struct advice *a = p->a;
    const char *axle = axle_name(a->cap_axle);
    char buf[ADVISE_LINE];
    struct text t = text_over(buf, sizeof buf);
    if (!a->cap_mps.is) {
        wrap_put(p->out, LABEL, "CAP", "none below the road's own limits");
        return;
    }
    units_put(&t, a->cap_mps.v, Q_SPEED, p->u, 0);
    switch (a->cap_by) {
    case CAP_GROUND:
        text_put(&t, ", the ground's own");
        break;
    case CAP_DEFLECTION:
        text_put(&t, ", by how far the %s tyres bend", axle);
        break;
    case CAP_RETENTION:
        text_put(&t, ", by the share of road pressure left in the %s tyres", axle);
        break;
    case CAP_NONE:
        break;
    }
    wrap_put(p->out, LABEL, "CAP", buf);
}

static bool any_stuck(const struct advice *a)
{
    for (int i = 0; i < AXLE_COUNT; i++) {
        if (a->axle[i].present && a->axle[i].stuck_gauge_pa.is) {
            return true;
        }
    }
    return false;
}

static void put_limits(const struct page *p)
{
    put_cap(p);
    put_each_axle(p, "", "by the load bonus of UN R54 ", put_standard,
                  ": standard-derived, it does not license under-inflation");
    wrap_put(p->out, LABEL, "Limits",
             "deflection up to 15 % is for road and gravel, to 25 % for trails, to 33 % soft and "
             "slow; past that refused");
    if (any_stuck(p->a)) {
        wrap_put(p->out, LABEL, "Stuck",
                 "only when stuck: walking pace, for metres, wheels straight; then back up to the "
                 "target");
    }
}

/* ---- the print ---- */

static void put_print(const struct page *p, const char *name, const struct corner_advice *c)
{
    struct text *out = p->out;
    text_pad_to(out, LABEL);
    text_put(out, "%s", name);
    text_pad_to(out, LABEL + 14);
    text_put(out, "%.0f x %.0f", 1000.0 * c->road.patch.length_m, 1000.0 * c->road.patch.width_m);
    text_pad_to(out, LABEL + 24);
    text_put(out, "%.0f x %.0f", 1000.0 * c->at.patch.length_m, 1000.0 * c->at.patch.width_m);
    text_pad_to(out, LABEL + 35);
    text_put(out, "x%.1f (%.1f to %.1f)", c->length_growth_1, c->length_growth_low_1,
             c->length_growth_high_1);
    text_pad_to(out, LABEL + 53);
    text_put(out, "x%.1f (%.1f to %.1f)\n", c->area_growth_1, c->area_growth_low_1,
             c->area_growth_high_1);
}

static void put_prints(const struct page *p)
{
    struct text *out = p->out;
    text_put(out, "Print");
    text_pad_to(out, LABEL);
    text_put(out, "mm            at road   at %s  length            area\n",
             p->yours ? "yours " : "target");
    for (int i = 0; i < AXLE_COUNT * SIDE_COUNT; i++) {
        const struct axle_advice *x = &p->a->axle[i / SIDE_COUNT];
        if (corner_shown(x, i % SIDE_COUNT)) {
            put_print(p, label_of(x, i / SIDE_COUNT, i % SIDE_COUNT), &x->corner[i % SIDE_COUNT]);
        }
    }
}

/* ---- refused: loads and ratings only ---- */

static void put_loads(const struct page *p)
{
    struct text *out = p->out;
    text_put(out, "\n corner");
    cell_right(out, COL_LOAD, "load");
    cell_right(out, COL_LOAD + 16, "moulded for");
    text_put(out, "\n");
    for (int i = 0; i < AXLE_COUNT * SIDE_COUNT; i++) {
        const struct axle_advice *x = &p->a->axle[i / SIDE_COUNT];
        if (!x->present) {
            continue;
        }
        text_put(out, " %s",
                 corner_name((enum axle_id)(i / SIDE_COUNT), (enum side)(i % SIDE_COUNT)));
        cell_value_unit(out, COL_LOAD, x->corner[i % SIDE_COUNT].load_kg, Q_MASS, p->u, 0);
        if (x->tyre.max_load_kg > 0.0) {
            cell_value_unit(out, COL_LOAD + 16, x->tyre.max_load_kg, Q_MASS, p->u, 0);
        } else {
            cell_right(out, COL_LOAD + 16, "unknown");
        }
        text_put(out, "\n");
    }
    text_put(out, "\n");
}

static enum axle_id first_axle(const struct advice *a)
{
    enum axle_id id = AXLE_FRONT;
    while (id + 1 < AXLE_COUNT && !a->axle[id].present) {
        id++;
    }
    return id;
}

static void put_refused(const struct page *p)
{
    put_loads(p);
    refusal_text_put(&p->a->refusal, p->u, p->out);
}

static void put_advised(const struct page *p)
{
    enum axle_id id = first_axle(p->a);
    head_day_put(&p->a->conditions, p->a->tyre_temp_k[id], p->a->rig.axle[id].road_temp_k, p->u,
                 p->out);
    put_table(p);
    put_axles(p);
    put_limits(p);
    put_prints(p);
    flotation_text_put(&p->a->flotation, &p->a->ground, p->u, p->out);
}

void advise_text_put(const struct advice *a, enum unit_system u, struct text *out)
{
    const struct page p = page_of(a, u, out);
    head_rig_put(&a->rig, out);
    head_ground_put(&a->ground, out);
    if (a->refusal.code != REFUSAL_NONE) {
        put_refused(&p);
    } else {
        put_advised(&p);
    }
    cautions_end(&a->cautions, u, out);
}
