/* line.h - the air line: a source, the main hose and the tyres that hang on it.
 *
 *   machine --+-- main hose --+-- branch, core -- tyre
 *             |               +-- branch, core -- tyre
 *          (tank)             +-- branch, core -- spare
 *
 * Hoses hold no air here (their time constants are below 0.5 s), so at any instant the pressures in
 * the line follow from those in the vessels: one scalar root, solved by Newton with the exact
 * slope. */
#ifndef SANDSHOE_SIM_LINE_H
#define SANDSHOE_SIM_LINE_H

#include <stdbool.h>

#include "base/status.h"
#include "sim/element.h"
#include "sim/source.h"

enum { LINE_VESSELS = 12 };

#define LINE_STRETCH_1_PA 2e-7 /* growth of a tyre's volume per Pa, 2 %/bar (0.5..4) [memory] */

/* A tyre or spare, or several identical ones that start alike. */
struct line_vessel {
    double count_1;
    double volume_m3;    /* of one, at ambient pressure */
    double stretch_1_pa; /* growth of volume per Pa gauge */
    double area_m2;      /* valve core S */
    double b_1;          /* valve core b, 0..0.5 */
    double hose_si;      /* hose_constant of its branch */
    bool no_inflow;      /* a source behind a check valve: gives only */
    bool no_outflow;     /* a corner behind a check valve: takes only */
};

struct line {
    const struct source *source;   /* the caller keeps it */
    double scale_1;                /* delivery relative to the source's label */
    double extra_sag_1;            /* sag added to the source's own, per 100 psi */
    double ambient_abs_pa, temp_k; /* temp: tyres and line */
    double main_si;                /* hose_constant of the main hose */
    double tank_m3;                /* open tank at the source's outlet; 0 = none */
    double held_abs_pa; /* > 0: outlet held at this pressure (a pressure switch cycling) */
    int n;
    struct line_vessel vessel[LINE_VESSELS];
    struct branch branch[LINE_VESSELS]; /* made by line_prepare */
};

/* Pressures and flows of one instant. */
struct line_flow {
    double outlet_abs_pa;             /* at the source */
    double line_abs_pa;               /* at the branching point: what a gauge on the line shows */
    double source_kg_s;               /* out of machine or regulator, or the held outlet */
    double main_kg_s;                 /* through the main hose */
    double vessel_kg_s[LINE_VESSELS]; /* into one of each */
};

/* line_prepare - check the numbers and compute the branches' constants; call after any change.
 *
 *   in   l
 *   out  l->branch
 *   ret  STATUS_OK; E_DOMAIN
 *   src  none: preparation
 */
enum status line_prepare(struct line *l) MUST_CHECK;

/* line_mass - air in one vessel at a pressure; line_pressure - the inverse.
 *
 *   in   l, i           vessel
 *   in   p_abs_pa | mass_kg
 *   ret  kg | Pa absolute
 *   how  p V (1 + k (p - pa)) = M R T, docs/theory.md E5
 *   src  ideal gas; stretch 2 %/bar [memory]
 */
double line_mass(const struct line *l, int i, double p_abs_pa);
double line_pressure(const struct line *l, int i, double mass_kg);

/* line_mass_slope - kg per Pa of a vessel at a pressure.
 *
 *   in   l, i, p_abs_pa
 *   ret  kg/Pa
 *   src  derivative of line_mass
 */
double line_mass_slope(const struct line *l, int i, double p_abs_pa);

/* line_solve - pressures and flows for given vessel pressures.
 *
 *   in   l, open          bit i: vessel i is on the line
 *   in   on               the source runs
 *   in   p_abs_pa[l->n]   vessels
 *   in   tank_abs_pa      of the tank at the outlet; ignored without one
 *   in,out  root_si       the unknown of the last solution, a warm start; 0 = cold
 *   out  f
 *   ret  number of evaluations; flows balance to rounding whatever their number
 *   how  docs/theory.md E4
 *   src  own
 */
int line_solve(const struct line *l, unsigned open, bool on, const double p_abs_pa[],
               double tank_abs_pa, double *root_si, struct line_flow *f);

#endif
