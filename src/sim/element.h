/* element.h - flow through restrictions: the ISO 6358 element, the isothermal hose, and the two
 * joined in closed form (hose, then valve core), forwards and backwards.
 *
 *      P  ====hose====  pv  >|core|<  p        forward: P > p
 *
 * With b = 0 the ISO ellipse is the isothermal pipe law, which is why the pressure pv between
 * hose and core comes from one quadratic. */
#ifndef SANDSHOE_SIM_ELEMENT_H
#define SANDSHOE_SIM_ELEMENT_H

#define ELEMENT_PSI_1      0.68473 /* choked flow function at gamma 1.4, NACA Report 1135 [memory] */
#define ELEMENT_LAMINAR_1  0.002 /* 1 - pressure ratio of the linear zone, 0.001..0.005, ISO 6358 */
#define HOSE_EXCESS_1      1.3   /* friction of a real hose over a smooth pipe, 1.0..1.8, own */
#define HOSE_ROUGHNESS_M   1.5e-6  /* m, smooth rubber or plastic [memory] */
#define HOSE_COUPLER_1     5.0     /* velocity heads lost in couplers, 4..6, own */
#define AIR_VISCOSITY_PA_S 1.82e-5 /* Pa s, air at 20 C; textbook value [memory] */

/* Tyre valves. No standard gives a flow figure; these go with the volume rule of the tyre model. */
#define VALVE_IN_M2        1.54e-6 /* m2, core in, pin pressed, 1.0..2.4; own, from common practice */
#define VALVE_IN_B_1       0.30    /* 0.2..0.5 [memory] */
#define VALVE_OUT_M2       6.0e-6 /* m2, core out, 4..8; own, from common practice */
#define VALVE_OUT_B_1      0.45   /* 0.35..0.53 [memory] */

/* A branch: constants of one hose and core, made by branch_of. */
struct branch {
    double cp_si;                        /* S Psi / sqrt(R T) of the core, kg/(s Pa) */
    double b_1;                          /* critical pressure ratio of the core */
    double hose_si;                      /* K of the hose: P^2 - pv^2 = K m^2, Pa2 s2/kg2 */
    double kap_1;                        /* K cp^2 */
    double choked_si;                    /* flow per line pressure while the core is choked */
    double g_1, a_1, over_a_1, over_b_1; /* (1-b)^2; a of the forward quadratic, 1/a; 1/(1-b) */
    double forward_si, reverse_si;       /* slope of the laminar zone, kg/(s Pa) */
};

/* element_conductance - sonic conductance in mass form, S Psi / sqrt(R T).
 *
 *   in   area_m2  effective area;  temp_k  upstream temperature
 *   ret  kg/(s Pa)
 *   src  ISO 6358 with the isentropic constant
 */
double element_conductance(double area_m2, double temp_k);

/* element_flow - ISO 6358 flow from up to down; 0 when down >= up.
 *
 *   in   cp_si, b_1, up_abs_pa, down_abs_pa
 *   out  slope_si  d flow / d down_abs_pa
 *   ret  kg/s
 *   how  docs/theory.md E3: choked, ellipse, linear zone near equal pressures
 *   src  ISO 6358 [read as quoted]
 */
double element_flow(double cp_si, double b_1, double up_abs_pa, double down_abs_pa,
                    double *slope_si);

/* hose_friction - Darcy friction factor.
 *
 *   in   reynolds_1 > 0, roughness_1 (relative)
 *   ret  f; 64/Re below 2300, blended to Swamee-Jain at 4000
 *   src  Swamee and Jain, J. Hydraul. Div. ASCE 102, 1976 [memory]
 */
double hose_friction(double reynolds_1, double roughness_1);

/* hose_constant - K of P^2 - p^2 = K m^2 for a hose with its coupler.
 *
 *   in   length_m (0 = no hose), bore_m, temp_k, nominal_kg_s  flow that the friction is taken at
 *   ret  Pa2 s2/kg2; 0 for no hose
 *   how  docs/theory.md E3
 *   src  isothermal pipe, Unwin 1911
 */
double hose_constant(double length_m, double bore_m, double temp_k, double nominal_kg_s);

/* branch_of - constants of a hose and a valve core in series.
 *
 *   in   area_m2, b_1 (0..0.5), hose_si, temp_k
 *   ret  the branch
 *   src  own closed form, docs/theory.md E3
 */
struct branch branch_of(double area_m2, double b_1, double hose_si, double temp_k);

/* branch_flow - flow from the line at line_abs_pa into a vessel at p_abs_pa (negative: out of it).
 *
 *   in   b, line_abs_pa, p_abs_pa
 *   out  slope_si  d flow / d line_abs_pa, >= 0
 *   ret  kg/s
 *   how  docs/theory.md E3
 *   src  own closed form, tested against bisection
 */
double branch_flow(const struct branch *b, double line_abs_pa, double p_abs_pa, double *slope_si);

#endif
