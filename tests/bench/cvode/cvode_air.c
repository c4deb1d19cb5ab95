/* cvode_air.c - four tyres on one line, two at 35 and two at 30 psi, dropped as they get there:
 * run_to_event against CVODE (Adams, fixed-point iteration, root finding) on the same line and the
 * same warm node.  Error: against CVODE at rtol 1e-11. */
#include <math.h>
#include <stdio.h>

#include <cvode/cvode.h>
#include <nvector/nvector_serial.h>
#include <sunnonlinsol/sunnonlinsol_fixedpoint.h>

#include "base/units.h"
#include "bench/bench.h"
#include "sim/run.h"

enum { N = 4 };

struct problem {
    struct source source;
    struct line line;
    double from_abs_pa[N], start_kg[N], target_kg[N];
    unsigned open;
    double root_si;
    double finish_s;
    /* CVODE's own */
    SUNContext context;
    void *cvode;
    N_Vector y;
    double rtol;
};

static int problem_init(struct problem *p)
{
    struct air_system a = {.source = AIR_COMPRESSOR};
    a.compressor = (struct compressor){
        .swept_m3_s = 166 / 6e4, .clearance_1 = 0.06, .exponent_1 = 1.25, .sag_1 = 0.1};
    if (source_init(&a, 101325, 293.15, &p->source) != STATUS_OK) {
        return 1;
    }
    p->line = (struct line){.source = &p->source,
                            .scale_1 = 1,
                            .ambient_abs_pa = 101325,
                            .temp_k = 293.15,
                            .n = N,
                            .main_si = hose_constant(3, 6.35e-3, 293.15, 2.6e-3)};
    for (int i = 0; i < N; i++) {
        p->line.vessel[i] =
            (struct line_vessel){.count_1 = 1,
                                 .volume_m3 = 0.11745,
                                 .stretch_1_pa = 2e-7,
                                 .area_m2 = VALVE_IN_M2,
                                 .b_1 = VALVE_IN_B_1,
                                 .hose_si = hose_constant(3, 6.35e-3, 293.15, 6.5e-4)};
    }
    if (line_prepare(&p->line) != STATUS_OK) {
        return 1;
    }
    for (int i = 0; i < N; i++) {
        p->from_abs_pa[i] = 101325 + 15 * UNITS_PA_PER_PSI;
        p->start_kg[i] = line_mass(&p->line, i, p->from_abs_pa[i]);
        p->target_kg[i] = line_mass(&p->line, i, 101325 + (i < 2 ? 35 : 30) * UNITS_PA_PER_PSI);
    }
    return 0;
}

static void ours(void *context)
{
    struct problem *p = context;
    struct run_until until = {.time_s = RUN_FOREVER_S, .watch = (1u << N) - 1};
    struct run_state s;
    struct run_event e = {.reached = 0};
    for (int i = 0; i < N; i++) {
        until.target_kg[i] = p->target_kg[i];
    }
    if (run_begin(&p->line, p->from_abs_pa, 0, &s) != STATUS_OK) {
        return;
    }
    while (until.watch != 0 && run_to_event(&p->line, &until, &s, &e) == STATUS_OK &&
           e.why == RUN_TARGET) {
        until.watch &= ~e.reached;
        s.open &= ~e.reached;
    }
    p->finish_s = s.time_s;
}

static int rhs(realtype t, N_Vector y, N_Vector dy, void *context)
{
    (void)t;
    struct problem *p = context;
    double p_abs_pa[N];
    struct line_flow f;
    for (int i = 0; i < N; i++) {
        p_abs_pa[i] = line_pressure(&p->line, i, NV_Ith_S(y, i));
    }
    (void)line_solve(&p->line, p->open, true, p_abs_pa, 0, &p->root_si, &f);
    for (int i = 0; i < N; i++) {
        NV_Ith_S(dy, i) = f.vessel_kg_s[i];
    }
    return 0;
}

static int lacks(realtype t, N_Vector y, realtype *g, void *context)
{
    (void)t;
    const struct problem *p = context;
    for (int i = 0; i < N; i++) {
        g[i] = p->open >> i & 1u ? p->target_kg[i] - NV_Ith_S(y, i) : 1;
    }
    return 0;
}

static void adams(void *context)
{
    struct problem *p = context;
    realtype t = 0;
    p->open = (1u << N) - 1;
    p->root_si = 0;
    for (int i = 0; i < N; i++) {
        NV_Ith_S(p->y, i) = p->start_kg[i];
    }
    CVodeReInit(p->cvode, 0, p->y);
    while (p->open != 0) {
        int found[N];
        int flag = CVode(p->cvode, 1e5, p->y, &t, CV_NORMAL);
        if (flag != CV_ROOT_RETURN || CVodeGetRootInfo(p->cvode, found) != CV_SUCCESS) {
            break;
        }
        for (int i = 0; i < N; i++) {
            if (found[i] != 0 || NV_Ith_S(p->y, i) >= p->target_kg[i] * (1 - 1e-9)) {
                p->open &= ~(1u << i);
            }
        }
        CVodeReInit(p->cvode, t, p->y);
    }
    p->finish_s = t;
}

static int cvode_init(struct problem *p)
{
    if (SUNContext_Create(NULL, &p->context) != 0) {
        return 1;
    }
    p->y = N_VNew_Serial(N, p->context);
    p->cvode = CVodeCreate(CV_ADAMS, p->context);
    for (int i = 0; i < N; i++) {
        NV_Ith_S(p->y, i) = p->start_kg[i];
    }
    SUNNonlinearSolver fixed = SUNNonlinSol_FixedPoint(p->y, 0, p->context);
    return CVodeInit(p->cvode, rhs, 0, p->y) != CV_SUCCESS ||
           CVodeSStolerances(p->cvode, 1e-4, 1e-6) != CV_SUCCESS ||
           CVodeSetUserData(p->cvode, p) != CV_SUCCESS ||
           CVodeSetNonlinearSolver(p->cvode, fixed) != CV_SUCCESS ||
           CVodeRootInit(p->cvode, N, lacks) != CV_SUCCESS ||
           CVodeSetNoInactiveRootWarn(p->cvode) != CV_SUCCESS ||
           CVodeSetMaxNumSteps(p->cvode, 100000) != CV_SUCCESS;
}

int main(void)
{
    static struct problem p;
    static const double rtol[] = {1e-4, 1e-6};
    if (problem_init(&p) || cvode_init(&p)) {
        return 1;
    }
    CVodeSStolerances(p.cvode, 1e-11, 1e-13);
    adams(&p);
    double exact_s = p.finish_s;
    ours(&p);
    double error_s = p.finish_s - exact_s, ns = bench_median(ours, &p);
    printf("staged_ours\t%.0f\terror %+.1e s of %.1f\n", ns, error_s, exact_s);
    for (int k = 0; k < 2; k++) {
        CVodeSStolerances(p.cvode, rtol[k], rtol[k] * 1e-2);
        adams(&p);
        error_s = p.finish_s - exact_s;
        double theirs = bench_median(adams, &p);
        printf("staged_cvode_rtol_%.0e\t%.0f\terror %+.1e s, %.1f times ours\n", rtol[k], theirs,
               error_s, theirs / ns);
    }
    return 0;
}
