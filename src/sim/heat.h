/* heat.h - what a gauge shows beside the settled pressure: air is warm after filling and cold
 * after letting down, and comes back within about a minute.
 *
 *    reading |      . stop reading
 *            |    .`  ``--..__ settled      over-read = stop reading - settled
 *            |  .`
 *            +----------------- time */
#ifndef SANDSHOE_SIM_HEAT_H
#define SANDSHOE_SIM_HEAT_H

#define HEAT_WALL_FACTOR_1 2.0    /* stirred over natural convection, 1..3; own, from practice */
#define HEAT_WALL_M2       2.3    /* m2, inner wall of a 95 L tyre, 1.8..2.8; own geometry */
#define HEAT_WALL_M3       0.095  /* m3, the tyre that HEAT_WALL_M2 belongs to */
#define AIR_CP_J_KG_K      1005.0 /* J/(kg K), dry air; textbook value [memory] */
#define AIR_CONDUCT_W_M_K  0.0257 /* W/(m K), air at 20 C; textbook value [memory] */

/* heat_wall_coefficient - heat transfer from the air in a tyre to its wall, W/(m2 K).
 *
 *   in   diff_k      air less wall, K, >= 0
 *   in   p_abs_pa, temp_k
 *   ret  W/(m2 K), natural convection (without HEAT_WALL_FACTOR_1)
 *   how  Nu = 0.13 Ra^(1/3), docs/theory.md E6
 *   src  Geankoplis 1993 table 4.7-1 [read as quoted]
 */
double heat_wall_coefficient(double diff_k, double p_abs_pa, double temp_k);

/* heat_excess - how much warmer than the wall the air of one tyre is while it fills.
 *
 *   in   p_abs_pa, volume_m3, temp_k, flow_kg_s  into that tyre (its size, when it empties)
 *   in   cooled_by_inflow_1  1 filling (the air that comes in is cooler), 0 emptying
 *   ret  K; 0 without flow
 *   how  m R T = h A dT (+ m cp dT), Newton; docs/theory.md E6
 *   src  own
 */
double heat_excess(double p_abs_pa, double volume_m3, double temp_k, double flow_kg_s,
                   double cooled_by_inflow_1);

/* heat_over_read - by how much the stop reading exceeds the settled pressure.
 *
 *   in   p_abs_pa     settled
 *   in   volume_m3, temp_k, flow_kg_s   one tyre, at shut-off
 *   ret  Pa
 *   how  docs/theory.md E6
 *   src  own, within about 10 % of 15 energy-model runs
 */
double heat_over_read(double p_abs_pa, double volume_m3, double temp_k, double flow_kg_s);

#endif
