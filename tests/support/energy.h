/* energy.h - an independent reference for the air simulation: mass and internal energy of every
 * tyre, heat to its wall, air warm from the machine and cooled along the hose, the line by
 * bracketing.  Written apart from src/sim and sharing nothing with it; small fixed Heun steps.
 * It serves as the truth for tests, so each corner can be made to differ from its label. */
#ifndef SANDSHOE_TESTS_ENERGY_H
#define SANDSHOE_TESTS_ENERGY_H

#include <stdbool.h>

enum { ENERGY_CORNERS = 8 };

struct energy_corner {
    double volume_m3, stretch_1_pa;
    double core_m2, core_b_1;
    double hf_1;                            /* stirring over natural convection */
    double leak_m2;                         /* a hole to ambient, b as the core's */
    double start_gauge_pa, target_gauge_pa; /* settled */
    bool check_valve;
};

struct energy_rig {
    double ambient_abs_pa, temp_k, inlet_temp_k;
    double swept_m3_s, clearance_1, exponent_1, sag_1, scale_1; /* machine */
    double regulator_gauge_pa, regulator_m2;     /* > 0: shop air instead, at ambient temperature */
    double main_m, branch_m, bore_m, friction_1; /* friction over a smooth pipe */
    double hose_w_m_k; /* heat loss of the hose, W/(m K); 0 = air at temp_k */
    double step_s;
    int n;
    struct energy_corner corner[ENERGY_CORNERS];
};

struct energy_state {
    double time_s, delivered_kg, leaked_kg;
    double mass_kg[ENERGY_CORNERS], energy_j[ENERGY_CORNERS];
    unsigned open;        /* bit i: on the line */
    bool on;              /* source runs */
    double outlet_abs_pa; /* at the last step: narrows the next search */
};

enum energy_stop {
    ENERGY_SETTLED, /* a corner is dropped when its settled pressure has the target */
    ENERGY_HOT      /* when a gauge on it, air still warm, shows the target */
};

/* energy_default - the 95 L set of reference/air.md section 9: four tyres 15 to 35 psi. */
struct energy_rig energy_default(void);

void energy_begin(const struct energy_rig *r, struct energy_state *s);

/* energy_to - let air flow until time_s, nothing is dropped on the way. */
void energy_to(const struct energy_rig *r, double time_s, struct energy_state *s);

/* energy_fill - until every open corner has its target (each dropped then) or until limit_s;
 * done_s[i] in state time, NAN when not reached. True when all did. */
bool energy_fill(const struct energy_rig *r, enum energy_stop stop, double limit_s,
                 struct energy_state *s, double done_s[]);

double energy_hot_gauge(const struct energy_rig *r, const struct energy_state *s, int i);
double energy_settled_gauge(const struct energy_rig *r, const struct energy_state *s, int i);
double energy_temp(const struct energy_rig *r, const struct energy_state *s, int i);

/* energy_line_gauge - what a gauge at the branching point shows now; outlet: at the machine. */
double energy_line_gauge(const struct energy_rig *r, const struct energy_state *s);
double energy_outlet_gauge(const struct energy_rig *r, const struct energy_state *s);

/* energy_flow - into corner i now, kg/s. */
double energy_flow(const struct energy_rig *r, const struct energy_state *s, int i);

#endif
