#include "support/energy.h"

#include <math.h>

/* All from reference texts, kept apart from src on purpose. */
static const double gas_r = 287.05;    /* J/(kg K), dry air */
static const double gas_cp = 1004.675; /* J/(kg K), 3.5 R */
static const double gas_cv = 717.625;  /* J/(kg K), 2.5 R */
static const double gravity = 9.80665;
static const double viscosity = 1.82e-5; /* Pa s at 20 C */
static const double conductivity = 0.0257;

/* Valve as ISO 6358 with a straight line through the last 0.2 % of pressure. */
static double valve(double area, double b, double t_k, double up, double down)
{
    if (down >= up) {
        return 0;
    }
    double choked = area * 0.68473 * up / sqrt(gas_r * t_k);
    double r = down / up, line = 1;
    if (r > 0.998) {
        line = (1 - r) / 0.002;
        r = 0.998;
    }
    double e = r > b ? (r - b) / (1 - b) : 0;
    return choked * sqrt(1 - e * e) * line;
}

/* p1^2 - p2^2 = K m^2 with the friction at this very flow (Swamee and Jain, laminar below). */
static double hose_drop(const struct energy_rig *r, double length_m, double m)
{
    if (!(length_m > 0)) {
        return 0;
    }
    double a = 3.14159265358979 * r->bore_m * r->bore_m / 4;
    double re = fmax(4 * fabs(m) / (3.14159265358979 * r->bore_m * viscosity), 1);
    double f = 64 / re;
    if (re > 2300) {
        double lg = log10(1.5e-6 / r->bore_m / 3.7 + 5.74 / pow(fmax(re, 4000), 0.9));
        double share = fmin(1, (re - 2300) / 1700);
        f = share * 0.25 / (lg * lg) + (1 - share) * 64 / 2300;
    }
    double k = gas_r * r->temp_k / (a * a) * (r->friction_1 * f * length_m / r->bore_m + 5);
    return k * m * fabs(m);
}

/* A root of a falling function by the Illinois rule. */
typedef double falling(double x, const void *context);

static double bracket_root(falling *f, const void *context, double lo, double hi, double tol)
{
    double flo = f(lo, context), fhi = f(hi, context);
    if (flo <= 0) {
        return lo;
    }
    if (fhi >= 0) {
        return hi;
    }
    int side = 0;
    double x = lo;
    for (int i = 0; i < 200 && hi - lo > tol; i++) {
        x = (lo * fhi - hi * flo) / (fhi - flo);
        double fx = f(x, context);
        if (fx == 0) {
            return x;
        }
        if (fx > 0) {
            lo = x;
            flo = fx;
            fhi = side > 0 ? fhi / 2 : fhi;
            side = 1;
        } else {
            hi = x;
            fhi = fx;
            flo = side < 0 ? flo / 2 : flo;
            side = -1;
        }
        if (i > 3 && fabs(fx) < tol * 1e-9) {
            return x;
        }
    }
    return x;
}

struct branch_case {
    const struct energy_rig *r;
    const struct energy_corner *c;
    double up, down, t_k;
    bool into; /* hose then valve; else valve then hose */
};

static double branch_rest(double m, const void *context)
{
    const struct branch_case *b = context;
    double drop = hose_drop(b->r, b->r->branch_m, m);
    if (b->into) {
        double square = b->up * b->up - drop;
        return (square > 0 ? valve(b->c->core_m2, b->c->core_b_1, b->t_k, sqrt(square), b->down)
                           : 0) -
               m;
    }
    double between = sqrt(b->down * b->down + drop);
    return valve(b->c->core_m2, b->c->core_b_1, b->t_k, b->up, between) - m;
}

/* Into the corner from the line; negative out of it. */
static double branch(const struct energy_rig *r, const struct energy_corner *c, double line,
                     double p, double t_gas_k)
{
    if (line < p && c->check_valve) {
        return 0;
    }
    struct branch_case b = {.r = r,
                            .c = c,
                            .into = line >= p,
                            .up = fmax(line, p),
                            .down = fmin(line, p),
                            .t_k = line >= p ? r->temp_k : t_gas_k};
    double most = valve(c->core_m2, c->core_b_1, b.t_k, b.up, b.down);
    double m = most > 0 ? bracket_root(branch_rest, &b, 0, most, most * 1e-6) : 0;
    return b.into ? m : -m;
}

static double machine(const struct energy_rig *r, double outlet)
{
    double pa = r->ambient_abs_pa;
    if (r->regulator_m2 > 0) {
        return valve(r->regulator_m2, 0.3, r->temp_k, r->regulator_gauge_pa + pa, outlet);
    }
    double c = r->clearance_1;
    double eta = 1 + c - c * pow(outlet / pa, 1 / r->exponent_1);
    double speed = 1 - r->sag_1 * (outlet - pa) / 689475.729;
    double rho = pa / (gas_r * (r->inlet_temp_k + 15));
    return r->scale_1 * fmax(0, r->swept_m3_s * rho * eta * speed);
}

struct instant {
    const struct energy_rig *r;
    const struct energy_state *s;
    double p[ENERGY_CORNERS], t[ENERGY_CORNERS];
};

static double taken(const struct instant *n, double line)
{
    double sum = 0;
    for (int i = 0; i < n->r->n; i++) {
        if (n->s->open >> i & 1u) {
            sum += branch(n->r, &n->r->corner[i], line, n->p[i], n->t[i]);
        }
    }
    return sum;
}

static double line_of(const struct instant *n, double outlet)
{
    double square = outlet * outlet - hose_drop(n->r, n->r->main_m, machine(n->r, outlet));
    return square > 1 ? sqrt(square) : 1;
}

static double node_on(double outlet, const void *context)
{
    const struct instant *n = context;
    return machine(n->r, outlet) - taken(n, line_of(n, outlet));
}

static double node_off(double line, const void *context)
{
    return -taken(context, line);
}

/* Outlet and line pressure of this instant. */
static void node(const struct instant *n, double *outlet, double *line)
{
    double lo = 1e9, hi = 0;
    for (int i = 0; i < n->r->n; i++) {
        if (n->s->open >> i & 1u) {
            lo = fmin(lo, n->p[i]);
            hi = fmax(hi, n->p[i]);
        }
    }
    if (hi == 0) {
        *outlet = *line = n->r->ambient_abs_pa;
    } else if (n->s->on) {
        double near = n->s->outlet_abs_pa, far = hi + 3e6;
        bool narrow = near > 0 && node_on(near * 0.99, n) > 0 && node_on(near * 1.01, n) < 0;
        *outlet = narrow ? bracket_root(node_on, n, near * 0.99, near * 1.01, 1)
                         : bracket_root(node_on, n, lo, far, 1);
        *line = line_of(n, *outlet);
    } else {
        *outlet = *line = hi > lo ? bracket_root(node_off, n, lo, hi, 0.1) : hi;
    }
}

static double pressure(const struct energy_rig *r, int i, double m_t)
{
    const struct energy_corner *c = &r->corner[i];
    double k = c->stretch_1_pa, e = 1 - k * r->ambient_abs_pa, x = gas_r * m_t / c->volume_m3;
    return k > 0 ? (-e + sqrt(e * e + 4 * k * x)) / (2 * k) : x;
}

static struct instant now(const struct energy_rig *r, const struct energy_state *s)
{
    struct instant n = {.r = r, .s = s};
    for (int i = 0; i < r->n; i++) {
        n.t[i] = s->energy_j[i] / (s->mass_kg[i] * gas_cv);
        n.p[i] = pressure(r, i, s->mass_kg[i] * n.t[i]);
    }
    return n;
}

/* Temperature of the air that reaches a corner: warm from the machine, cooled along the hose. */
static double arrives_at(const struct energy_rig *r, double outlet, double m_main, double m)
{
    if (!(r->hose_w_m_k > 0) || r->regulator_m2 > 0 || !(m > 0) || !(m_main > 0)) {
        return r->temp_k;
    }
    double leaves = (r->inlet_temp_k + 15) *
                    pow(outlet / r->ambient_abs_pa, (r->exponent_1 - 1) / r->exponent_1);
    double cooled = r->hose_w_m_k / gas_cp * (r->main_m / m_main + r->branch_m / m);
    return r->temp_k + (leaves - r->temp_k) * exp(-cooled);
}

static double wall_loss(const struct energy_rig *r, int i, double p, double t)
{
    const struct energy_corner *c = &r->corner[i];
    double dt = t - r->temp_k, rho = p / (gas_r * t);
    double area = 2.3 * pow(c->volume_m3 / 0.095, 2.0 / 3);
    double ra_m3 = gravity * fabs(dt) * rho * rho * gas_cp / (t * viscosity * conductivity);
    return c->hf_1 * 0.13 * conductivity * cbrt(ra_m3) * area * dt;
}

struct rates {
    double mass[ENERGY_CORNERS], energy[ENERGY_CORNERS], delivered, leaked, outlet;
};

static void rates(const struct energy_rig *r, const struct energy_state *s, struct rates *d)
{
    struct instant n = now(r, s);
    double outlet, line;
    node(&n, &outlet, &line);
    bool flows = s->on && s->open != 0;
    d->delivered = flows ? machine(r, outlet) : 0;
    d->leaked = 0;
    d->outlet = flows ? outlet : 0;
    for (int i = 0; i < r->n; i++) {
        const struct energy_corner *c = &r->corner[i];
        double m = s->open >> i & 1u ? branch(r, c, line, n.p[i], n.t[i]) : 0;
        double leak =
            c->leak_m2 > 0 ? valve(c->leak_m2, c->core_b_1, n.t[i], n.p[i], r->ambient_abs_pa) : 0;
        double t_in = m > 0 ? arrives_at(r, outlet, d->delivered, m) : n.t[i];
        double heat = m * gas_cp * t_in - leak * gas_cp * n.t[i] - wall_loss(r, i, n.p[i], n.t[i]);
        double v0k = c->volume_m3 * c->stretch_1_pa;
        double v = c->volume_m3 + v0k * (n.p[i] - r->ambient_abs_pa);
        double work = n.p[i] * v0k * (gas_r / gas_cv) / (v + n.p[i] * v0k);
        d->mass[i] = m - leak;
        d->energy[i] = heat / (1 + work);
        d->leaked += leak;
    }
}

static void add(const struct energy_rig *r, const struct energy_state *s, const struct rates *a,
                const struct rates *b, double dt, struct energy_state *out)
{
    *out = *s;
    for (int i = 0; i < r->n; i++) {
        out->mass_kg[i] += 0.5 * dt * (a->mass[i] + b->mass[i]);
        out->energy_j[i] += 0.5 * dt * (a->energy[i] + b->energy[i]);
    }
    out->delivered_kg += 0.5 * dt * (a->delivered + b->delivered);
    out->leaked_kg += 0.5 * dt * (a->leaked + b->leaked);
    out->time_s += dt;
    out->outlet_abs_pa = b->outlet;
}

static void heun(const struct energy_rig *r, double dt, struct energy_state *s)
{
    struct rates a, b;
    struct energy_state mid;
    rates(r, s, &a);
    add(r, s, &a, &a, dt, &mid);
    rates(r, &mid, &b);
    add(r, s, &a, &b, dt, s);
}

struct energy_rig energy_default(void)
{
    struct energy_rig r = {.ambient_abs_pa = 101325,
                           .temp_k = 293.15,
                           .inlet_temp_k = 293.15,
                           .swept_m3_s = 135 / 6e4,
                           .clearance_1 = 0.06,
                           .exponent_1 = 1.25,
                           .sag_1 = 0.10,
                           .scale_1 = 1,
                           .main_m = 3,
                           .branch_m = 3,
                           .bore_m = 6.35e-3,
                           .friction_1 = 1,
                           .hose_w_m_k = 0.35,
                           .step_s = 1,
                           .n = 4};
    for (int i = 0; i < r.n; i++) {
        r.corner[i] = (struct energy_corner){.volume_m3 = 0.095,
                                             .stretch_1_pa = 2e-7,
                                             .core_m2 = 1.25e-6,
                                             .core_b_1 = 0.3,
                                             .hf_1 = 2,
                                             .start_gauge_pa = 15 * 6894.757,
                                             .target_gauge_pa = 35 * 6894.757};
    }
    return r;
}

void energy_begin(const struct energy_rig *r, struct energy_state *s)
{
    *s = (struct energy_state){.on = true, .open = (1u << r->n) - 1};
    for (int i = 0; i < r->n; i++) {
        const struct energy_corner *c = &r->corner[i];
        double p = c->start_gauge_pa + r->ambient_abs_pa;
        s->mass_kg[i] =
            p * c->volume_m3 * (1 + c->stretch_1_pa * c->start_gauge_pa) / (gas_r * r->temp_k);
        s->energy_j[i] = s->mass_kg[i] * gas_cv * r->temp_k;
    }
}

void energy_to(const struct energy_rig *r, double time_s, struct energy_state *s)
{
    while (s->time_s < time_s - 1e-9) {
        heun(r, fmin(r->step_s, time_s - s->time_s), s);
    }
}

double energy_hot_gauge(const struct energy_rig *r, const struct energy_state *s, int i)
{
    return now(r, s).p[i] - r->ambient_abs_pa;
}

double energy_settled_gauge(const struct energy_rig *r, const struct energy_state *s, int i)
{
    return pressure(r, i, s->mass_kg[i] * r->temp_k) - r->ambient_abs_pa;
}

double energy_temp(const struct energy_rig *r, const struct energy_state *s, int i)
{
    return now(r, s).t[i];
}

static double shown(const struct energy_rig *r, const struct energy_state *s, enum energy_stop stop,
                    int i)
{
    return stop == ENERGY_HOT ? energy_hot_gauge(r, s, i) : energy_settled_gauge(r, s, i);
}

/* The share of the step at which the first open corner has its target; 1 when none has. */
static double first_share(const struct energy_rig *r, const struct energy_state *s,
                          const struct energy_state *next, enum energy_stop stop)
{
    double share = 1;
    for (int i = 0; i < r->n; i++) {
        double goal = r->corner[i].target_gauge_pa, p1 = shown(r, next, stop, i);
        if (s->open >> i & 1u && p1 >= goal) {
            double p0 = shown(r, s, stop, i);
            share = fmin(share, p1 > p0 ? fmax(0, (goal - p0) / (p1 - p0)) : 0);
        }
    }
    return share;
}

bool energy_fill(const struct energy_rig *r, enum energy_stop stop, double limit_s,
                 struct energy_state *s, double done_s[])
{
    for (int i = 0; i < r->n; i++) {
        done_s[i] = nan("");
    }
    while (s->open != 0 && s->time_s < limit_s) {
        struct energy_state next = *s;
        heun(r, r->step_s, &next);
        double share = first_share(r, s, &next, stop);
        if (share < 1) {
            next = *s;
            heun(r, share * r->step_s, &next);
        }
        *s = next;
        for (int i = 0; i < r->n; i++) {
            double lacks = r->corner[i].target_gauge_pa - shown(r, s, stop, i);
            if (s->open >> i & 1u && lacks < 1.0) { /* within 1 Pa */
                s->open &= ~(1u << i);
                done_s[i] = s->time_s;
            }
        }
    }
    return s->open == 0;
}

double energy_line_gauge(const struct energy_rig *r, const struct energy_state *s)
{
    struct instant n = now(r, s);
    double outlet, line;
    node(&n, &outlet, &line);
    return line - r->ambient_abs_pa;
}

double energy_outlet_gauge(const struct energy_rig *r, const struct energy_state *s)
{
    struct instant n = now(r, s);
    double outlet, line;
    node(&n, &outlet, &line);
    return outlet - r->ambient_abs_pa;
}

double energy_flow(const struct energy_rig *r, const struct energy_state *s, int i)
{
    struct rates d;
    rates(r, s, &d);
    return d.mass[i];
}
