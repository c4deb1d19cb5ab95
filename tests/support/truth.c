#include "support/truth.h"

#include <math.h>

#include <gsl/gsl_randist.h>

#include "base/units.h"

#define PSI UNITS_PA_PER_PSI

static const double start_psi = 15, pause_s = 15, wait_s = 10, limit_s = 5000;

unsigned truth_corner_bit(int i)
{
    return LOG_CORNER_BIT(i < 2 ? AXLE_FRONT : AXLE_REAR, i % 2);
}

/* The generic machine that goes with 117 L tyres; friction as real hoses have it. */
struct energy_rig truth_label(const struct truth_case *c)
{
    struct energy_rig r = energy_default();
    r.swept_m3_s = 166 / 6e4;
    r.friction_1 = 1.3;
    r.step_s = 2;
    for (int i = 0; i < TRUTH_CORNERS; i++) {
        r.corner[i].volume_m3 = 0.11745;
        r.corner[i].core_m2 = 1.54e-6;
        r.corner[i].start_gauge_pa = start_psi * PSI;
        r.corner[i].target_gauge_pa = c->target_psi[i] * PSI;
    }
    return r;
}

static double log_normal(const gsl_rng *rng, double sd)
{
    return exp(gsl_ran_gaussian(rng, sd));
}

/* How machines, tyres, cores and hoses differ, and twins among them: own judgement. */
static struct energy_rig draw_rig(const struct truth_case *c, const gsl_rng *rng, int *odd)
{
    struct energy_rig r = truth_label(c);
    double volume = log_normal(rng, 0.08), core = log_normal(rng, 0.35);
    double hf = log_normal(rng, 0.40), stretch = gsl_ran_flat(rng, 0.5e-7, 4e-7);
    double start = gsl_ran_gaussian(rng, 0.5);
    r.scale_1 = c->odd == TRUTH_WEAK ? gsl_ran_flat(rng, 0.3, 0.5) : log_normal(rng, 0.15);
    r.sag_1 = gsl_ran_flat(rng, 0, 0.25);
    r.friction_1 = gsl_ran_flat(rng, 1, 1.8);
    for (int i = 0; i < TRUTH_CORNERS; i++) {
        struct energy_corner *k = &r.corner[i];
        double apart = c->each ? gsl_ran_gaussian(rng, 0.5) : 0;
        k->volume_m3 *= volume * log_normal(rng, 0.025);
        k->core_m2 *= core * log_normal(rng, 0.08);
        k->hf_1 *= hf;
        k->stretch_1_pa = stretch;
        k->start_gauge_pa += (start + apart) * PSI;
    }
    *odd = c->odd > TRUTH_WEAK ? (int)gsl_rng_uniform_int(rng, 4) : -1;
    if (c->odd == TRUTH_SLOW) {
        r.corner[*odd].core_m2 *= gsl_ran_flat(rng, 0.3, 0.5);
    } else if (c->odd == TRUTH_LEAK) { /* a third to two thirds of its share of the air */
        r.corner[*odd].leak_m2 = gsl_ran_flat(rng, 0.3e-6, 0.6e-6);
    } else if (c->odd == TRUTH_SEEP) { /* an eighth to a quarter */
        r.corner[*odd].leak_m2 = gsl_ran_flat(rng, 0.12e-6, 0.25e-6);
    }
    return r;
}

/* The refill on its way: true state, wall time of the log, running time. */
struct course {
    const struct truth_case *c;
    const gsl_rng *rng;
    struct energy_rig r;
    struct energy_state s;
    double wall_s, running_s;
    double late_s; /* stops noted late, summed */
    unsigned left; /* corners not done yet */
    struct truth *t;
};

static void note(struct course *k, struct log_event e)
{
    e.at_s = k->wall_s;
    if (k->t->n_event > 0) { /* never backwards, however late the button was pressed */
        e.at_s = fmax(e.at_s, k->t->event[k->t->n_event - 1].at_s);
    }
    k->t->event[k->t->n_event++] = e;
}

static double shown(struct course *k, double p_pa)
{
    double step = k->c->step_psi * PSI;
    double p = step * round((p_pa + gsl_ran_gaussian(k->rng, TRUTH_GAUGE_SD_1 * step)) / step);
    if (k->t->n_look < TRUTH_LOOKS) {
        k->t->exact_pa[k->t->n_look] = p_pa;
        k->t->noted_pa[k->t->n_look++] = p;
    }
    return p;
}

static void note_read(struct course *k, unsigned corners, double p_pa, bool flowing)
{
    note(k, (struct log_event){
                .word = LOG_READ, .corners = corners, .p_gauge_pa = p_pa, .flowing = flowing});
}

/* The corners that are filled together, in the order of falling need. */
static unsigned group_of(const struct course *k)
{
    if (k->c->hookup == HOOKUP_LINKED) {
        return k->left;
    }
    int size = k->c->hookup == HOOKUP_PAIRS ? 2 : 1, best = -1;
    double most = -1;
    for (int i = 0; i < TRUTH_CORNERS; i += size) {
        unsigned bits = (size == 2 ? 3u : 1u) << i;
        double need = 0;
        for (int j = i; j < i + size; j++) {
            need = fmax(need, k->c->target_psi[j] * PSI - k->t->start_pa[j]);
        }
        if (k->left & bits && need > most) {
            most = need;
            best = i;
        }
    }
    return best < 0 ? 0 : ((size == 2 ? 3u : 1u) << best) & k->left;
}

/* Air flows for at most that long, or until some corner has its target and is dropped. */
static void flow(struct course *k, double most_s)
{
    double done[ENERGY_CORNERS], before = k->s.time_s;
    k->s.open = group_of(k);
    k->s.on = true;
    unsigned open = k->s.open;
    while (k->s.open == open && k->s.time_s < before + most_s - 1e-6) {
        struct energy_rig r = k->r;
        r.step_s = fmin(r.step_s, before + most_s - k->s.time_s);
        (void)energy_fill(&r, ENERGY_SETTLED, k->s.time_s + 0.5 * r.step_s, &k->s, done);
    }
    k->wall_s += k->s.time_s - before;
    k->running_s += k->s.time_s - before;
    unsigned gone = open & ~k->s.open;
    for (int i = 0; i < TRUTH_CORNERS; i++) {
        if (gone >> i & 1u) {
            k->t->done_s[i] = k->running_s;
            note(k, (struct log_event){.word = LOG_DROP, .corners = truth_corner_bit(i)});
            if (k->rng != NULL &&
                k->c->target_psi[0] < k->c->target_psi[2]) { /* read, then moved */
                double p = shown(k, energy_hot_gauge(&k->r, &k->s, i));
                k->t->drop_pa[i] = p;
                note_read(k, truth_corner_bit(i), p, false);
            }
        }
    }
    k->left &= ~gone;
}

static void read_line(struct course *k, int n, unsigned open)
{
    double p = shown(k, energy_line_gauge(&k->r, &k->s));
    for (int i = 0; i < TRUTH_CORNERS; i++) {
        k->t->read_pa[n][i] = open >> i & 1u ? p : (double)NAN;
    }
    note_read(k, LOG_ALL, p, true);
}

static void read_stopped(struct course *k, int n, unsigned open)
{
    double mean = 0, count = 0;
    for (int i = 0; i < TRUTH_CORNERS; i++) {
        double p = energy_hot_gauge(&k->r, &k->s, i);
        mean += open >> i & 1u ? p : 0;
        count += open >> i & 1u ? 1 : 0;
        if (open >> i & 1u && k->c->each) {
            k->t->read_pa[n][i] = shown(k, p);
            note_read(k, truth_corner_bit(i), k->t->read_pa[n][i], false);
        }
    }
    if (!k->c->each) {
        double p = shown(k, mean / count);
        for (int i = 0; i < TRUTH_CORNERS; i++) {
            k->t->read_pa[n][i] = open >> i & 1u ? p : (double)NAN;
        }
        note_read(k, LOG_ALL, p, false);
    }
}

/* Stop, wait for a while, read, go on: the stop is noted within a second or two. */
static void take_reading(struct course *k)
{
    int n = k->t->n_read;
    unsigned open = group_of(k);
    for (int i = 0; i < TRUTH_CORNERS; i++) {
        k->t->read_pa[n][i] = (double)NAN;
    }
    k->s.open = open;
    if (k->c->flowing) {
        read_line(k, n, open);
    } else {
        double stopped = k->wall_s;
        k->wall_s += gsl_ran_gaussian(k->rng, 1.0);
        k->late_s += k->wall_s - stopped;
        note(k, (struct log_event){.word = LOG_AIR, .on = false});
        k->s.on = false;
        energy_to(&k->r, k->s.time_s + wait_s, &k->s);
        k->wall_s = stopped + wait_s;
        read_stopped(k, n, open);
        k->t->after[n] = k->t->n_event;
        energy_to(&k->r, k->s.time_s + pause_s - wait_s, &k->s);
        k->wall_s = stopped + pause_s;
        note(k, (struct log_event){.word = LOG_AIR, .on = true});
    }
    if (k->c->flowing) {
        k->t->after[n] = k->t->n_event;
    }
    k->t->read_s[n] = k->running_s;
    k->t->late_s[n] = k->late_s;
    k->t->looks_by[n] = k->t->n_look;
    k->t->n_read++;
}

static void begin(struct course *k)
{
    note(k, (struct log_event){.word = LOG_HOOKUP, .hookup = k->c->hookup});
    for (int i = 0; i < TRUTH_CORNERS; i++) {
        note(k, (struct log_event){.word = LOG_TARGET,
                                   .corners = truth_corner_bit(i),
                                   .p_gauge_pa = k->c->target_psi[i] * PSI});
    }
    double all = shown(k, k->r.corner[0].start_gauge_pa);
    for (int i = 0; i < TRUTH_CORNERS; i++) {
        k->t->start_pa[i] = k->c->each ? shown(k, k->r.corner[i].start_gauge_pa) : all;
        k->t->done_s[i] = k->t->drop_pa[i] = (double)NAN;
        if (k->c->each) {
            note_read(k, truth_corner_bit(i), k->t->start_pa[i], false);
        }
    }
    if (!k->c->each) {
        note_read(k, LOG_ALL, all, false);
    }
    note(k, (struct log_event){.word = LOG_AIR, .on = true});
    energy_begin(&k->r, &k->s);
    k->left = (1u << TRUTH_CORNERS) - 1;
}

void truth_make(const struct truth_case *c, const gsl_rng *rng, struct truth *t)
{
    struct course k = {.c = c, .rng = rng, .t = t};
    *t = (struct truth){.n_event = 0};
    k.r = draw_rig(c, rng, &t->odd_corner);
    begin(&k);
    while (k.left != 0 && k.running_s < limit_s) {
        bool more = t->n_read < c->n_read;
        double next = more ? c->read_s[t->n_read] - k.running_s : limit_s;
        if (more && next < 1e-6) {
            take_reading(&k);
            continue;
        }
        flow(&k, next);
    }
    for (int i = 0; i < TRUTH_CORNERS; i++) {
        t->finish_s = fmax(t->finish_s, t->done_s[i]);
    }
    t->finish_s = k.left == 0 ? t->finish_s : (double)NAN;
}

void truth_nominal(const struct truth_case *c, struct truth_curve *curve)
{
    struct truth t = {.n_event = 0};
    struct course k = {.c = c, .t = &t, .left = (1u << TRUTH_CORNERS) - 1};
    k.r = truth_label(c);
    for (int i = 0; i < TRUTH_CORNERS; i++) {
        t.start_pa[i] = start_psi * PSI;
    }
    energy_begin(&k.r, &k.s);
    curve->n = 0;
    for (int sec = 0; sec < TRUTH_CURVE; sec++) {
        while (k.left != 0 && k.running_s < sec) {
            flow(&k, sec - k.running_s);
        }
        t.n_event = 0; /* nobody logs the label */
        k.s.open = group_of(&k);
        for (int i = 0; i < TRUTH_CORNERS; i++) {
            curve->settled_pa[sec][i] = energy_settled_gauge(&k.r, &k.s, i);
            curve->finish_s = k.left == 0 ? fmax(curve->finish_s, t.done_s[i]) : 0;
        }
        curve->line_pa[sec] = k.left != 0 ? energy_line_gauge(&k.r, &k.s) : (double)NAN;
        curve->n++;
        if (k.left == 0) {
            return;
        }
    }
}
