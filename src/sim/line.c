#include "sim/line.h"

#include <math.h>

#include "base/num.h"
#include "core/constants.h"

/* The unknown of the node: the machine's outlet pressure, the flow out of a tank (or held outlet),
 * or the line pressure itself when nothing feeds it. Each gives the main flow q and the line
 * pressure P; the root is where q is what the branches take. */
enum drive { DRIVE_OFF, DRIVE_MACHINE, DRIVE_HEAD };

struct node {
    const struct line *l;
    enum drive drive;
    unsigned open;
    const double *p_abs_pa;
    double head_abs_pa;
    double dq, dline, dsource; /* slopes in the unknown */
    double slope[LINE_VESSELS];
};

enum { NODE_TRIES = 60 };
#define NODE_STEP_1 2e-3 /* a Newton step this small (relative) leaves an error of its square */

static bool vessel_valid(const struct line *l, int i)
{
    const struct line_vessel *v = &l->vessel[i];
    const double x[] = {v->count_1, v->volume_m3, v->stretch_1_pa, v->area_m2, v->b_1, v->hose_si};
    return num_all_finite(6, x) && v->count_1 > 0 && v->volume_m3 > 0 && v->stretch_1_pa >= 0 &&
           v->stretch_1_pa * l->ambient_abs_pa < 0.5 && v->area_m2 > 0 && v->b_1 >= 0 &&
           v->b_1 <= 0.5 && v->hose_si >= 0;
}

enum status line_prepare(struct line *l)
{
    const double x[] = {l->scale_1, l->extra_sag_1, l->ambient_abs_pa, l->temp_k,
                        l->main_si, l->tank_m3,     l->held_abs_pa};
    if (!num_all_finite(7, x) || l->scale_1 < 0 || l->ambient_abs_pa <= 0 || l->temp_k <= 0 ||
        l->main_si < 0 || l->tank_m3 < 0 || l->held_abs_pa < 0 || l->n < 1 || l->n > LINE_VESSELS ||
        l->source == NULL) {
        return STATUS_E_DOMAIN;
    }
    for (int i = 0; i < l->n; i++) {
        if (!vessel_valid(l, i)) {
            return STATUS_E_DOMAIN;
        }
        const struct line_vessel *v = &l->vessel[i];
        l->branch[i] = branch_of(v->area_m2, v->b_1, v->hose_si, l->temp_k);
    }
    return STATUS_OK;
}

double line_mass(const struct line *l, int i, double p_abs_pa)
{
    const struct line_vessel *v = &l->vessel[i];
    return p_abs_pa * v->volume_m3 * (1 + v->stretch_1_pa * (p_abs_pa - l->ambient_abs_pa)) /
           (AIR_R_J_KG_K * l->temp_k);
}

double line_pressure(const struct line *l, int i, double mass_kg)
{
    const struct line_vessel *v = &l->vessel[i];
    double c = mass_kg * AIR_R_J_KG_K * l->temp_k / v->volume_m3;
    double e = 1 - v->stretch_1_pa * l->ambient_abs_pa;
    return 2 * c / (e + sqrt(e * e + 4 * v->stretch_1_pa * c));
}

double line_mass_slope(const struct line *l, int i, double p_abs_pa)
{
    const struct line_vessel *v = &l->vessel[i];
    return v->volume_m3 * (1 + v->stretch_1_pa * (2 * p_abs_pa - l->ambient_abs_pa)) /
           (AIR_R_J_KG_K * l->temp_k);
}

/* Main flow and line pressure for the unknown x, with their slopes; P^2 = outlet^2 - K q |q|. */
static void node_feed(struct node *n, double x, struct line_flow *f)
{
    const struct line *l = n->l;
    f->source_kg_s = 0;
    n->dsource = 0;
    if (n->drive == DRIVE_OFF) {
        f->outlet_abs_pa = f->line_abs_pa = x;
        f->main_kg_s = n->dq = 0;
        n->dline = 1;
        return;
    }
    double douter = 0;
    if (n->drive == DRIVE_MACHINE) {
        f->outlet_abs_pa = x;
        f->main_kg_s = f->source_kg_s =
            source_flow(l->source, l->scale_1, l->extra_sag_1, x, &n->dq);
        n->dsource = n->dq;
        douter = x;
    } else {
        f->outlet_abs_pa = n->head_abs_pa;
        f->main_kg_s = x;
        n->dq = 1;
    }
    double q = f->main_kg_s, k = l->main_si;
    double square = f->outlet_abs_pa * f->outlet_abs_pa - k * q * fabs(q);
    f->line_abs_pa = sqrt(fmax(square, 1));
    n->dline = (douter - k * fabs(q) * n->dq) / f->line_abs_pa;
}

/* What the branches take at the line pressure; returns q less that and its slope in x. */
static double node_residual(struct node *n, double x, struct line_flow *f, double *slope)
{
    node_feed(n, x, f);
    double rest = f->main_kg_s, take = 0;
    for (int i = 0; i < n->l->n; i++) {
        double m = 0, d = 0;
        if (n->open >> i & 1u) {
            const struct line_vessel *v = &n->l->vessel[i];
            m = branch_flow(&n->l->branch[i], f->line_abs_pa, n->p_abs_pa[i], &d);
            if ((m > 0 && v->no_inflow) || (m < 0 && v->no_outflow)) {
                m = d = 0;
            }
            rest -= v->count_1 * m;
            take += v->count_1 * d;
        }
        f->vessel_kg_s[i] = m;
        n->slope[i] = d;
    }
    *slope = n->dq - take * n->dline;
    return rest;
}

/* Follow the linear model over a last small step: the flows then balance to rounding. */
static void node_correct(const struct node *n, double dx, struct line_flow *f)
{
    f->main_kg_s += n->dq * dx;
    f->source_kg_s += n->dsource * dx;
    f->outlet_abs_pa += n->drive == DRIVE_MACHINE ? dx : 0;
    f->line_abs_pa += n->dline * dx;
    for (int i = 0; i < n->l->n; i++) {
        f->vessel_kg_s[i] += n->slope[i] * n->dline * dx;
    }
}

struct bracket {
    double lo, hi, scale; /* scale: what a relative step is relative to */
    double sign;          /* +1: the residual rises with x */
    double sonic_si;      /* sum of the open cores */
};

static struct bracket node_bracket(const struct node *n)
{
    double lo = n->l->ambient_abs_pa, hi = lo;
    bool first = true;
    double sonic = 0;
    for (int i = 0; i < n->l->n; i++) {
        if (n->open >> i & 1u) {
            lo = first ? n->p_abs_pa[i] : fmin(lo, n->p_abs_pa[i]);
            hi = first ? n->p_abs_pa[i] : fmax(hi, n->p_abs_pa[i]);
            sonic += n->l->vessel[i].count_1 * n->l->branch[i].cp_si;
            first = false;
        }
    }
    if (n->drive == DRIVE_OFF) {
        return (struct bracket){lo, hi, hi, -1, sonic};
    }
    if (n->drive == DRIVE_MACHINE) {
        return (struct bracket){fmin(lo, n->l->ambient_abs_pa), 1e8, hi, -1, sonic};
    }
    double top = sonic * fmax(hi, n->head_abs_pa) + 1e-9;
    return (struct bracket){-top, top, top, 1, sonic};
}

/* Where to begin cold; a machine as if every core had b = 0 and the highest pressure behind it. */
static double node_guess(const struct node *n, const struct bracket *b)
{
    if (n->drive != DRIVE_MACHINE) {
        return 0.5 * (b->lo + b->hi);
    }
    double slope = 0;
    double q = source_flow(n->l->source, n->l->scale_1, n->l->extra_sag_1, b->scale, &slope);
    double over = q / fmax(b->sonic_si, 1e-30);
    return fmax(sqrt(b->scale * b->scale + over * over), 1.001 * b->scale);
}

/* Newton from x inside a shrinking bracket; a step that leaves it is replaced by its middle. */
static int node_root(struct node *n, double *x, struct line_flow *f)
{
    struct bracket b = node_bracket(n);
    *x = *x > b.lo && *x < b.hi && *x != 0 ? *x : node_guess(n, &b);
    for (int tries = 1; tries < NODE_TRIES; tries++) {
        double slope = 0, rest = node_residual(n, *x, f, &slope);
        if (rest == 0) {
            return tries;
        }
        if (rest * b.sign < 0) {
            b.lo = *x;
        } else {
            b.hi = *x;
        }
        double dx = slope != 0 ? -rest / slope : HUGE_VAL;
        double small = NODE_STEP_1 * (n->drive == DRIVE_HEAD ? b.scale : *x);
        if (fabs(dx) <= small) {
            node_correct(n, dx, f);
            *x += dx;
            return tries;
        }
        double next = *x + dx;
        *x = next > b.lo && next < b.hi ? next : 0.5 * (b.lo + fmin(b.hi, 2 * b.scale + b.lo));
    }
    return NODE_TRIES;
}

int line_solve(const struct line *l, unsigned open, bool on, const double p_abs_pa[],
               double tank_abs_pa, double *root_si, struct line_flow *f)
{
    bool head = l->tank_m3 > 0 || l->held_abs_pa > 0;
    struct node n = {.l = l, .open = open, .p_abs_pa = p_abs_pa};
    n.head_abs_pa = l->held_abs_pa > 0 ? l->held_abs_pa : tank_abs_pa;
    n.drive = head ? DRIVE_HEAD : on && l->source->kind != SOURCE_NONE ? DRIVE_MACHINE : DRIVE_OFF;
    int tries = node_root(&n, root_si, f);
    if (head) {
        double slope = 0;
        f->source_kg_s =
            l->held_abs_pa > 0 ? f->main_kg_s
            : on ? source_flow(l->source, l->scale_1, l->extra_sag_1, f->outlet_abs_pa, &slope)
                 : 0;
    }
    return tries;
}
