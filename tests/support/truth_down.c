#include "support/truth_down.h"

#include <math.h>

#include <gsl/gsl_randist.h>

#include "base/units.h"

#define PSI UNITS_PA_PER_PSI

static const double first_look_s = 8, next_look_s = 4; /* from the stop on, from corner to corner */
static const double walk_s =
    3; /* before a stop, by which single corners are shut each in its turn */
static const double pause_s = 25, move_s = 20, limit_s = 6000;
static const double core_in_m2 = 1.54e-6, core_in_b_1 = 0.30; /* as truth.c has it */
static const double core_out_m2 = 6e-6, core_out_b_1 = 0.45;  /* 4..8 mm2, common practice */

unsigned down_corner_bit(int i)
{
    return LOG_CORNER_BIT(i < 2 ? AXLE_FRONT : AXLE_REAR, i % 2);
}

struct energy_rig down_label(const struct down_case *c)
{
    struct energy_rig r = energy_default();
    r.step_s = c->core_out ? 0.5 : 1;
    for (int i = 0; i < DOWN_CORNERS; i++) {
        r.corner[i].volume_m3 = 0.11745;
        r.corner[i].core_m2 = c->core_out ? core_out_m2 : core_in_m2;
        r.corner[i].core_b_1 = c->core_out ? core_out_b_1 : core_in_b_1;
        r.corner[i].start_gauge_pa = c->start_psi[i] * PSI;
        r.corner[i].target_gauge_pa = c->target_psi[i] * PSI;
    }
    return r;
}

static double log_normal(const gsl_rng *rng, double sd)
{
    return exp(gsl_ran_gaussian(rng, sd));
}

/* How tyres and cores differ, and twins among them: own judgement, as for refills. */
static struct energy_rig draw_rig(const struct down_case *c, const gsl_rng *rng, int *odd)
{
    struct energy_rig r = down_label(c);
    double volume = (c->odd == DOWN_LARGE ? 1.25 : 1) * log_normal(rng, 0.08);
    double core = log_normal(rng, 0.35), hf = log_normal(rng, 0.40);
    double stretch = gsl_ran_flat(rng, 0.5e-7, 4e-7), start = gsl_ran_gaussian(rng, 0.5);
    for (int i = 0; i < DOWN_CORNERS; i++) {
        struct energy_corner *k = &r.corner[i];
        double apart = c->read == DOWN_EACH ? gsl_ran_gaussian(rng, 0.5) : 0;
        k->volume_m3 *= volume * log_normal(rng, 0.025);
        k->core_m2 *= core * log_normal(rng, 0.08);
        k->hf_1 *= hf;
        k->stretch_1_pa = stretch;
        k->start_gauge_pa += (start + apart) * PSI;
    }
    *odd = c->odd == DOWN_SLOW ? (int)gsl_rng_uniform_int(rng, DOWN_CORNERS) : -1;
    if (*odd >= 0) {
        r.corner[*odd].core_m2 *= gsl_ran_flat(rng, 0.3, 0.5);
    }
    return r;
}

/* The air-down on its way. */
struct course {
    const struct down_case *c;
    const gsl_rng *rng;
    struct energy_rig r;
    struct energy_state s;
    double wall_s, running_s;    /* running: true, of all alike */
    double late_s;               /* stops noted late, summed */
    double more_s[DOWN_CORNERS]; /* own time open beyond running_s */
    unsigned left;               /* corners not shut for good */
    struct down_truth *t;
};

static void note(struct course *k, struct log_event e)
{
    e.at_s = k->wall_s;
    if (k->t->n_event > 0) { /* never backwards, however late the button was pressed */
        e.at_s = fmax(e.at_s, k->t->event[k->t->n_event - 1].at_s);
    }
    k->t->event[k->t->n_event++] = e;
}

static void note_air(struct course *k, bool on)
{
    note(k, (struct log_event){.word = LOG_AIR, .on = on});
}

static double shown(const struct course *k, double p_pa)
{
    double step = k->c->step_psi * PSI;
    return step * round((p_pa + gsl_ran_gaussian(k->rng, 0.3 * step)) / step);
}

static double note_read(struct course *k, unsigned corners, double p_pa)
{
    double p = shown(k, p_pa);
    note(k, (struct log_event){.word = LOG_READ, .corners = corners, .p_gauge_pa = p});
    return p;
}

/* The corners let down now: all that are left, or the one that has most to lose. */
static unsigned open_of(const struct course *k)
{
    int best = -1;
    double most = 0;
    for (int i = 0; i < DOWN_CORNERS; i++) {
        /* as the clock takes them: the least let-down first, for it sorts by rise */
        double need = k->c->target_psi[i] * PSI - k->t->start_pa[i];
        if (k->left >> i & 1u && (best < 0 || need > most)) {
            most = need;
            best = i;
        }
    }
    return k->c->way != DOWN_SINGLE ? k->left : best < 0 ? 0 : 1u << best;
}

/* The rig with holes where valves are open. */
static struct energy_rig holed(const struct course *k, unsigned open)
{
    struct energy_rig r = k->r;
    for (int i = 0; i < DOWN_CORNERS; i++) {
        r.corner[i].leak_m2 = open >> i & 1u ? r.corner[i].core_m2 : 0;
    }
    return r;
}

static double lacks(const struct course *k, const struct energy_state *s, int i)
{
    return energy_settled_gauge(&k->r, s, i) - k->r.corner[i].target_gauge_pa;
}

/* The share of a step at which the first open corner has its target; 1 when none has. */
static double first_share(const struct course *k, const struct energy_state *next, unsigned open)
{
    double share = 1;
    for (int i = 0; i < DOWN_CORNERS; i++) {
        double before = lacks(k, &k->s, i), after = lacks(k, next, i);
        if (open >> i & 1u && after <= 0) {
            share = fmin(share, before > 0 ? before / (before - after) : 0);
        }
    }
    return share;
}

/* Shut for good, and a look at the gauge at once where each corner is read. */
static void shut(struct course *k, int i)
{
    double hot = energy_hot_gauge(&k->r, &k->s, i);
    k->left &= ~(1u << i);
    k->t->open_s[i] = k->running_s + k->more_s[i];
    k->t->shut_s[i] = k->running_s + k->late_s;
    k->t->creep_pa[i] = energy_settled_gauge(&k->r, &k->s, i) - hot;
    if (k->c->way == DOWN_SINGLE) {
        note_air(k, false);
    }
    note(k, (struct log_event){.word = LOG_DROP, .corners = down_corner_bit(i)});
    if (k->c->read == DOWN_EACH) {
        k->t->shut_pa[i] = note_read(k, down_corner_bit(i), hot);
    }
}

/* The next corner's turn. */
static void move_on(struct course *k)
{
    struct energy_rig r = holed(k, 0);
    energy_to(&r, k->s.time_s + move_s, &k->s);
    k->wall_s += move_s;
    note_air(k, true);
}

/* Air flows for at most that long, or until some corner has its target. */
static void flow(struct course *k, double most_s)
{
    double end_s = k->s.time_s + most_s, begun_s = k->s.time_s, share = 1;
    unsigned open = open_of(k);
    struct energy_rig r = holed(k, open);
    while (share >= 1 && k->s.time_s < end_s - 1e-6) {
        double step = fmin(r.step_s, end_s - k->s.time_s);
        struct energy_state next = k->s;
        energy_to(&r, k->s.time_s + step, &next);
        share = first_share(k, &next, open);
        if (share < 1) {
            next = k->s;
            energy_to(&r, k->s.time_s + share * step, &next);
        }
        k->s = next;
    }
    k->wall_s += k->s.time_s - begun_s;
    k->running_s += k->s.time_s - begun_s;
    for (int i = 0; i < DOWN_CORNERS; i++) {
        if (open >> i & 1u && lacks(k, &k->s, i) < 0.01 * PSI) {
            shut(k, i);
        }
    }
    if (k->c->way == DOWN_SINGLE && (open & ~k->left) != 0 && k->left != 0) {
        move_on(k);
    }
}

static unsigned bits_of(unsigned corners)
{
    unsigned bits = 0;
    for (int i = 0; i < DOWN_CORNERS; i++) {
        bits |= corners >> i & 1u ? down_corner_bit(i) : 0;
    }
    return bits;
}

/* Walk round with the gauge while the air in the tyres warms. */
static void look(struct course *k, unsigned open)
{
    int n = k->t->n_read;
    double stopped_s = k->s.time_s, wall_s = k->wall_s, at_s = first_look_s;
    struct energy_rig r = holed(k, 0);
    for (int i = 0; i < DOWN_CORNERS; i++) {
        k->t->read_pa[n][i] = (double)NAN;
        if (!(open >> i & 1u) || (k->c->read != DOWN_EACH && at_s > first_look_s)) {
            continue;
        }
        energy_to(&r, stopped_s + at_s, &k->s);
        k->wall_s = wall_s + at_s;
        k->t->read_pa[n][i] =
            note_read(k, k->c->read == DOWN_ALL ? bits_of(open) : down_corner_bit(i),
                      energy_hot_gauge(&k->r, &k->s, i));
        at_s += next_look_s;
    }
    k->t->after[n] = k->t->n_event;
    energy_to(&r, stopped_s + pause_s, &k->s);
    k->wall_s = wall_s + pause_s;
}

/* Corners opened and shut one after the other are each open for their own second or so more or
 * less, but no longer than to the target: the driver looks. */
static void own_seconds(struct course *k, unsigned open)
{
    for (int i = 0; i < DOWN_CORNERS; i++) {
        if (open >> i & 1u) {
            double own_s = fmax(walk_s + gsl_ran_gaussian(k->rng, 1), 0);
            struct energy_rig r = holed(k, 1u << i);
            struct energy_state s = k->s;
            energy_to(&r, k->s.time_s + own_s, &s);
            double share = first_share(k, &s, 1u << i);
            s = k->s;
            energy_to(&r, k->s.time_s + share * own_s, &s);
            k->s.mass_kg[i] = s.mass_kg[i];
            k->s.energy_j[i] = s.energy_j[i];
            k->more_s[i] += share * own_s - walk_s;
        }
    }
    k->s.time_s += walk_s;
    k->wall_s += walk_s;
    k->running_s += walk_s;
}

/* Stop, read, go on: the stop is noted within a second or two. */
static void take_reading(struct course *k)
{
    int n = k->t->n_read;
    unsigned open = open_of(k);
    if (k->c->way == DOWN_WALKED) {
        own_seconds(k, open);
    }
    double stopped = k->wall_s;
    k->wall_s += gsl_ran_gaussian(k->rng, 1.0);
    k->late_s += k->wall_s - stopped;
    note_air(k, false);
    k->wall_s = stopped;
    look(k, open);
    note_air(k, true);
    for (int i = 0; i < DOWN_CORNERS; i++) {
        k->t->late_s[n][i] = k->late_s - k->more_s[i];
    }
    k->t->read_s[n] = k->running_s + k->late_s;
    k->t->n_read++;
}

static void begin(struct course *k)
{
    note(k, (struct log_event){
                .word = LOG_JOB, .on = false, .core = k->c->core_out ? LOG_CORE_OUT : LOG_CORE_IN});
    note(k, (struct log_event){.word = LOG_HOOKUP,
                               .hookup = k->c->way == DOWN_SINGLE ? HOOKUP_SINGLE : HOOKUP_LINKED});
    for (int i = 0; i < DOWN_CORNERS; i++) {
        note(k, (struct log_event){.word = LOG_TARGET,
                                   .corners = down_corner_bit(i),
                                   .p_gauge_pa = k->c->target_psi[i] * PSI});
    }
    for (int i = 0; i < DOWN_CORNERS; i++) {
        bool each = k->c->read == DOWN_EACH;
        k->t->start_pa[i] = each || i == 0 ? note_read(k, each ? down_corner_bit(i) : LOG_ALL,
                                                       k->r.corner[i].start_gauge_pa)
                                           : k->t->start_pa[0];
        k->t->open_s[i] = k->t->shut_s[i] = k->t->shut_pa[i] = (double)NAN;
    }
    note_air(k, true);
    energy_begin(&k->r, &k->s);
    k->s.on = false;
    k->s.open = 0; /* nothing hangs on a line */
    k->left = (1u << DOWN_CORNERS) - 1;
}

void down_make(const struct down_case *c, const gsl_rng *rng, struct down_truth *t)
{
    struct course k = {.c = c, .rng = rng, .t = t};
    *t = (struct down_truth){.n_event = 0};
    k.r = draw_rig(c, rng, &t->odd_corner);
    begin(&k);
    while (k.left != 0 && k.running_s < limit_s) {
        bool more = t->n_read < DOWN_READS;
        double until = more ? c->read_s[t->n_read] - (c->way == DOWN_WALKED ? walk_s : 0) : limit_s;
        if (more && until - k.running_s < 1e-6) {
            take_reading(&k);
        } else {
            flow(&k, until - k.running_s);
        }
    }
}

double down_finish(const struct down_truth *t, int n)
{
    double last_s = 0;
    for (int i = 0; i < DOWN_CORNERS; i++) {
        bool shut = t->shut_s[i] < t->read_s[n];
        last_s = fmax(last_s, shut ? t->shut_s[i] : t->open_s[i] + t->late_s[n][i]);
    }
    return last_s;
}
