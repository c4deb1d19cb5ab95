#include "sim/run.h"

#include <math.h>

#include "base/num.h"
#include "core/constants.h"

/* Integration vector: time, delivered, tank, then one vessel of each entry. */
enum { Y_TIME, Y_DELIVERED, Y_TANK, Y_VESSEL, Y_MAX = Y_VESSEL + LINE_VESSELS, STAGES = 7 };

#define LOCAL_ERROR_S  0.01 /* s of time, accepted a step; own choice, see the convergence test */
#define LOCAL_ERROR_PA 10.0 /* Pa of vessel pressure, accepted a step */
#define STUCK_PA_S     1.0  /* Pa/s, and a far target is given up once nothing moves faster */
#define PROBE_S        60.0 /* s, first step when nothing says how far to go */

// clang-format off
static const double A[STAGES][STAGES - 1] = { /* Dormand and Prince 1980, 5(4) 7FM */
    {0},
    {1.0 / 5},
    {3.0 / 40, 9.0 / 40},
    {44.0 / 45, -56.0 / 15, 32.0 / 9},
    {19372.0 / 6561, -25360.0 / 2187, 64448.0 / 6561, -212.0 / 729},
    {9017.0 / 3168, -355.0 / 33, 46732.0 / 5247, 49.0 / 176, -5103.0 / 18656},
    {35.0 / 384, 0, 500.0 / 1113, 125.0 / 192, -2187.0 / 6784, 11.0 / 84},
};
static const double C[STAGES] = {0, 1.0 / 5, 3.0 / 10, 4.0 / 5, 8.0 / 9, 1, 1};
static const double E[STAGES] = { /* fifth less fourth order */
    71.0 / 57600, 0, -71.0 / 16695, 71.0 / 1920, -17253.0 / 339200, 22.0 / 525, -1.0 / 40,
};
// clang-format on

struct march {
    const struct line *l;
    const struct run_until *until;
    unsigned open;
    bool on;
    int n;            /* length of y */
    double root_si;   /* of the last solution */
    double root_y_si; /* of the solution at y */
    int evaluations;
    double y[Y_MAX];
    double rate[Y_MAX];    /* dy/dt at y */
    double per_tol[Y_MAX]; /* one over the local error allowed; 0 = a sum of the others */
    double outlet_abs_pa;
};

/* dy/dt at y. */
static void rates(struct march *m, const double y[], double dy[])
{
    const struct line *l = m->l;
    double p_abs_pa[LINE_VESSELS] = {0};
    for (int i = 0; i < l->n; i++) {
        p_abs_pa[i] = line_pressure(l, i, y[Y_VESSEL + i]);
    }
    double tank_abs_pa = l->tank_m3 > 0 ? y[Y_TANK] * AIR_R_J_KG_K * l->temp_k / l->tank_m3 : 0;
    struct line_flow f = {.outlet_abs_pa = 0};
    m->evaluations += line_solve(l, m->open, m->on, p_abs_pa, tank_abs_pa, &m->root_si, &f);
    dy[Y_TIME] = 1;
    dy[Y_DELIVERED] = f.source_kg_s;
    dy[Y_TANK] = l->tank_m3 > 0 && !(l->held_abs_pa > 0) ? f.source_kg_s - f.main_kg_s : 0;
    for (int i = 0; i < l->n; i++) {
        dy[Y_VESSEL + i] = f.vessel_kg_s[i];
    }
    m->outlet_abs_pa = f.outlet_abs_pa;
}

/* The embedded error of a step over what is allowed. */
static double local_error(const struct march *m, double ds, double k[][Y_MAX])
{
    double worst = 0;
    for (int j = 0; j < m->n; j++) {
        double e = 0;
        for (int s = 0; s < STAGES; s++) {
            e += E[s] * k[s][j];
        }
        e = fabs(ds * e) * m->per_tol[j];
        worst = e <= worst ? worst : e; /* not a number counts */
    }
    return worst;
}

/* Whether a stage took more out of a vessel than there was: the step is far too long. */
static bool emptied(const struct march *m, const double y[])
{
    bool empty = m->l->tank_m3 > 0 && !(y[Y_TANK] > 0);
    for (int j = Y_VESSEL; j < m->n; j++) {
        empty = empty || !(y[j] > 0);
    }
    return empty;
}

/* One step of size ds in component lead (Y_TIME: in time); returns the error over its tolerance,
 * infinity when the lead turned round inside the step. */
static double try_step(struct march *m, int lead, double ds, double y1[], double rate1[])
{
    double k[STAGES][Y_MAX] = {{0}};
    double sense = ds * m->rate[lead];
    for (int j = 0; j < m->n; j++) {
        k[0][j] = m->rate[j] / m->rate[lead];
    }
    for (int s = 1; s < STAGES; s++) {
        for (int j = 0; j < m->n; j++) {
            double sum = 0;
            for (int i = 0; i < s; i++) {
                sum += A[s][i] * k[i][j];
            }
            y1[j] = m->y[j] + ds * sum;
        }
        if (emptied(m, y1)) {
            return HUGE_VAL;
        }
        m->root_si =
            s == 1 ? m->root_y_si : m->root_y_si + (m->root_si - m->root_y_si) * (C[s] / C[s - 1]);
        rates(m, y1, rate1);
        if (!(rate1[lead] * ds > 1e-3 * sense)) {
            return HUGE_VAL;
        }
        for (int j = 0; j < m->n; j++) {
            k[s][j] = rate1[j] / rate1[lead];
        }
    }
    return local_error(m, ds, k);
}

/* What component j of y lacks to the value that ends the run. */
static double gap(const struct march *m, int j, const double y[])
{
    const struct run_until *u = m->until;
    if (j == Y_TIME) {
        return u->time_s - y[Y_TIME];
    }
    if (j == Y_TANK) {
        double p = m->on ? u->cut_out_abs_pa : u->cut_in_abs_pa;
        return p * m->l->tank_m3 / (AIR_R_J_KG_K * m->l->temp_k) - y[Y_TANK];
    }
    return u->target_kg[j - Y_VESSEL] - y[j];
}

/* Whether component j ends the run at all. */
static bool watched(const struct march *m, int j)
{
    if (j == Y_TANK) {
        return m->l->tank_m3 > 0 && !(m->l->held_abs_pa > 0) &&
               (m->on ? m->until->cut_out_abs_pa : m->until->cut_in_abs_pa) > 0;
    }
    return j == Y_TIME || (j >= Y_VESSEL && m->until->watch >> (j - Y_VESSEL) & 1u);
}

/* The component that ends the run first at the present rates, and the time to it. */
static int leader(const struct march *m, double *time_s)
{
    int lead = Y_TIME;
    *time_s = gap(m, Y_TIME, m->y);
    for (int j = Y_TANK; j < m->n; j++) {
        double t = watched(m, j) ? gap(m, j, m->y) / m->rate[j] : -1;
        if (t > 0 && t < *time_s) {
            lead = j;
            *time_s = t;
        }
    }
    return lead;
}

/* The component that a step carried furthest past its end, in time; -1 when none. */
static int overshot(const struct march *m, const double y1[], const double rate1[])
{
    int worst = -1;
    double by_s = 1e-3;
    for (int j = 0; j < m->n; j++) {
        if (watched(m, j) && gap(m, j, m->y) * rate1[j] > 0 && -gap(m, j, y1) / rate1[j] > by_s) {
            worst = j;
            by_s = -gap(m, j, y1) / rate1[j];
        }
    }
    return worst;
}

/* Kilograms that RUN_TARGET_PA stands for in component j. */
static double close_kg(const struct march *m, int j)
{
    return RUN_TARGET_PA * (j == Y_TANK
                                ? m->l->tank_m3 / (AIR_R_J_KG_K * m->l->temp_k)
                                : line_mass_slope(m->l, j - Y_VESSEL, m->l->ambient_abs_pa));
}

/* Without a tank the cut-out acts on the outlet pressure, which is no component of y. */
static bool outlet_cuts(const struct march *m, double outlet_abs_pa)
{
    return m->until->cut_out_abs_pa > 0 && m->on && !(m->l->tank_m3 > 0) &&
           !(m->l->held_abs_pa > 0) && outlet_abs_pa > m->until->cut_out_abs_pa - RUN_TARGET_PA;
}

/* Whether the present state ends the run. */
static bool ended(const struct march *m, struct run_event *e)
{
    e->reached = 0;
    for (int j = Y_VESSEL; j < m->n; j++) {
        if (watched(m, j) && gap(m, j, m->y) <= close_kg(m, j)) {
            e->reached |= 1u << (j - Y_VESSEL);
        }
    }
    e->why = RUN_TARGET;
    if (e->reached != 0) {
        return true;
    }
    if (gap(m, Y_TIME, m->y) <= 1e-9 * (1 + fabs(m->until->time_s))) {
        e->why = RUN_TIME;
        return true;
    }
    if (watched(m, Y_TANK) && gap(m, Y_TANK, m->y) * (m->on ? 1 : -1) <= close_kg(m, Y_TANK)) {
        e->why = m->on ? RUN_CUT_OUT : RUN_CUT_IN;
        return true;
    }
    e->why = RUN_CUT_OUT;
    return outlet_cuts(m, m->outlet_abs_pa);
}

/* A step towards the end of component lead, at most h_s long, made smaller until it is accurate
 * and carries neither the outlet past the cut-out nor another component past its end (then that
 * one leads, once). Returns the number of tries, 0 when none succeeded. */
static int step(struct march *m, int lead, double time_s, double *h_s)
{
    double h = *h_s > 0 ? fmin(*h_s, time_s) : time_s, outlet0 = m->outlet_abs_pa;
    bool turned = false;
    for (int tries = 1; tries <= 40; tries++) {
        double y1[Y_MAX] = {0}, rate1[Y_MAX] = {0};
        double ds = h < time_s ? gap(m, lead, m->y) * (h / time_s) : gap(m, lead, m->y);
        double worst = try_step(m, lead, ds, y1, rate1);
        double factor = 0.9 * pow(fmax(worst, 1e-4), -0.2);
        if (!(worst <= 1)) {
            h *= fmax(0.2, factor);
            continue;
        }
        int over = turned ? -1 : overshot(m, y1, rate1);
        if (over >= 0 && over != lead && !(gap(m, over, m->y) * m->rate[over] > 0)) {
            h *= 0.5; /* it was at rest when the step began: it cannot lead yet */
            continue;
        }
        if (over >= 0 && over != lead) {
            lead = over;
            turned = true;
            h = time_s = gap(m, over, m->y) / m->rate[over];
            continue;
        }
        if (outlet_cuts(m, m->outlet_abs_pa - 3 * RUN_TARGET_PA)) {
            h *= (m->until->cut_out_abs_pa - outlet0) / (m->outlet_abs_pa - outlet0);
            continue;
        }
        *h_s = (y1[Y_TIME] - m->y[Y_TIME]) * fmin(factor, 5);
        for (int j = 0; j < m->n; j++) {
            m->y[j] = y1[j];
            m->rate[j] = rate1[j];
        }
        m->root_y_si = m->root_si;
        return tries;
    }
    return 0;
}

/* Whether nothing more will come: no watched vessel gets there in reasonable time, and the line
 * is quiet. */
static bool is_stuck(const struct march *m, int lead, double time_s)
{
    bool far = m->until->watch != 0 && (lead == Y_TIME || time_s > RUN_STUCK_S);
    double fastest = 0;
    for (int j = Y_TANK; j < m->n && far; j++) {
        double per_kg = RUN_TARGET_PA / fmax(close_kg(m, j), 1e-300);
        fastest = fmax(fastest, fabs(m->rate[j]) * per_kg);
        far = j < Y_VESSEL || !watched(m, j) || !(gap(m, j, m->y) / m->rate[j] > 0) ||
              gap(m, j, m->y) / m->rate[j] > RUN_STUCK_S;
    }
    return far && fastest < STUCK_PA_S;
}

static void march_begin(struct march *m, const struct line *l, const struct run_until *until,
                        const struct run_state *s)
{
    *m = (struct march){.l = l,
                        .until = until,
                        .open = s->open,
                        .on = s->on,
                        .n = Y_VESSEL + l->n,
                        .root_si = s->root_si};
    m->y[Y_TIME] = s->time_s;
    m->y[Y_DELIVERED] = s->delivered_kg;
    m->y[Y_TANK] = s->tank_kg;
    for (int i = 0; i < l->n; i++) {
        m->y[Y_VESSEL + i] = s->mass_kg[i];
    }
    m->per_tol[Y_TIME] = 1 / LOCAL_ERROR_S;
    for (int j = Y_TANK; j < m->n; j++) {
        double kg = close_kg(m, j) * (LOCAL_ERROR_PA / RUN_TARGET_PA);
        m->per_tol[j] = kg > 0 ? 1 / kg : 0;
    }
    rates(m, m->y, m->rate);
    m->root_y_si = m->root_si;
}

static void march_end(const struct march *m, double step_s, struct run_state *s)
{
    s->time_s = m->y[Y_TIME];
    s->delivered_kg = m->y[Y_DELIVERED];
    s->tank_kg = m->y[Y_TANK];
    s->root_si = m->root_si;
    s->step_s = step_s;
    for (int i = 0; i < m->l->n; i++) {
        s->mass_kg[i] = m->y[Y_VESSEL + i];
    }
}

enum status run_begin(const struct line *l, const double p_abs_pa[], double tank_abs_pa,
                      struct run_state *s)
{
    if (!num_all_finite((size_t)l->n, p_abs_pa) || !isfinite(tank_abs_pa) || tank_abs_pa < 0) {
        return STATUS_E_DOMAIN;
    }
    struct run_state made = {.on = true, .open = (1u << l->n) - 1};
    for (int i = 0; i < l->n; i++) {
        if (!(p_abs_pa[i] > 0)) {
            return STATUS_E_DOMAIN;
        }
        made.mass_kg[i] = line_mass(l, i, p_abs_pa[i]);
    }
    made.tank_kg = tank_abs_pa * l->tank_m3 / (AIR_R_J_KG_K * l->temp_k);
    *s = made;
    return STATUS_OK;
}

enum status run_to_event(const struct line *l, const struct run_until *until, struct run_state *s,
                         struct run_event *event)
{
    struct march m;
    struct run_event e = {.why = RUN_STEPS};
    double step_s = s->step_s;
    march_begin(&m, l, until, s);
    for (int steps = 0; steps < RUN_STEPS_MAX && !ended(&m, &e);) {
        double time_s = 0;
        int lead = leader(&m, &time_s);
        e.why = RUN_STEPS;
        if (is_stuck(&m, lead, time_s)) {
            e.why = RUN_STUCK;
            break;
        }
        step_s = step_s > 0 ? step_s : lead == Y_TIME && time_s > RUN_STUCK_S ? PROBE_S : 0;
        int tries = step(&m, lead, time_s, &step_s);
        if (tries == 0) {
            break;
        }
        steps += tries;
    }
    if (!num_all_finite((size_t)m.n, m.y)) {
        return STATUS_E_DOMAIN;
    }
    e.evaluations = m.evaluations;
    march_end(&m, step_s, s);
    *event = e;
    return STATUS_OK;
}

enum status run_to_time(const struct line *l, double time_s, struct run_state *s)
{
    const struct run_until until = {.time_s = time_s};
    struct run_event event;
    enum status st = run_to_event(l, &until, s, &event);
    return st != STATUS_OK ? st : event.why == RUN_TIME ? STATUS_OK : STATUS_E_NO_SOLUTION;
}

void run_flow(const struct line *l, const struct run_state *s, struct line_flow *f)
{
    double p_abs_pa[LINE_VESSELS] = {0}, root_si = s->root_si;
    for (int i = 0; i < l->n; i++) {
        p_abs_pa[i] = line_pressure(l, i, s->mass_kg[i]);
    }
    double tank_abs_pa = l->tank_m3 > 0 ? s->tank_kg * AIR_R_J_KG_K * l->temp_k / l->tank_m3 : 0;
    (void)line_solve(l, s->open, s->on, p_abs_pa, tank_abs_pa, &root_si, f);
}
