/* air.h - air lines for tests: the 95 L set of the reference tables, changed where a case says. */
#ifndef SANDSHOE_TESTS_AIR_H
#define SANDSHOE_TESTS_AIR_H

#include "sim/line.h"
#include "sim/refill.h"
#include "sim/run.h"
#include "support/energy.h"

#define AIR_PSI UNITS_PA_PER_PSI

/* One machine on n tyres; fields that are 0 take the 95 L set's value. */
struct air_case {
    int n;
    double volume_m3, core_m2, core_b_1, swept_m3_s, scale_1, bore_m, hose_m; /* main and branch */
    double ambient_abs_pa, temp_k, inlet_temp_k;
    double shop_gauge_pa, shop_m2; /* shop air instead of the machine */
    double tank_m3;
    double friction_1; /* over a smooth pipe; 0: 1 in the energy model, HOSE_EXCESS_1 in ours */
};

/* air_line - a prepared line; source must outlive it. */
void air_line(const struct air_case *c, struct source *source, struct line *line);

/* air_truth - the same case for the energy model. */
struct energy_rig air_truth(const struct air_case *c);

/* air_fill - run until vessel i has to_gauge_pa[i], each dropped then; done_s[i]. False when it
 * does not end in targets. */
bool air_fill(const struct line *l, const double from_gauge_pa[], const double to_gauge_pa[],
              double tank_gauge_pa, double done_s[], struct run_state *end);

/* air_pickup - four 35x12.50R17 tyres (117.45 L) on the generic twin, linked hose 3 m + 3 m,
 * 15 min on, 15 min off. Pressures in psi. */
struct refill_in air_pickup(double front_from, double rear_from, double front_to, double rear_to);

#endif
