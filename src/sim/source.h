/* source.h - what feeds the line: a compressor by its flow points or its swept volume, or a
 * pressure regulator.  A compressor becomes a table of cubics over its outlet pressure, so that
 * one evaluation costs a few multiplications whatever the form it was given in.
 *
 *   delivered kg/s
 *    |*--..__
 *    |       ``--.._            the more it must push, the less it delivers
 *    |              ``--._
 *    +--------------------`--> outlet pressure
 */
#ifndef SANDSHOE_SIM_SOURCE_H
#define SANDSHOE_SIM_SOURCE_H

#include "base/status.h"
#include "core/rig.h"

enum { SOURCE_CUBICS = 64 };

#define SOURCE_SPAN_PA     1400000.0 /* Pa above ambient that the table covers; own choice */
#define SOURCE_SUCTION_K   15.0      /* K, inlet air warmed by the head, 5..25 [memory] */
#define SOURCE_SAG_PA      689475.7293168361 /* Pa, the 100 psi that a sag is given for */
#define SOURCE_REGULATOR_B 0.30 /* critical ratio of a regulator, ISO 6358, 0.2..0.4 [memory] */

enum source_kind { SOURCE_NONE, SOURCE_MACHINE, SOURCE_REGULATOR };

/* Made by source_init; read only after that, so that many lines can share one. */
struct source {
    enum source_kind kind;
    double ambient_abs_pa;
    double sag_1;                  /* speed lost per 100 psi, swept form; 0 with flow points */
    double step_pa, per_step_1_pa; /* width of one cubic, and one over it */
    double cubic_kg_s[SOURCE_CUBICS][4];   /* in u = 0..1 within one step, without sag */
    double regulator_abs_pa, regulator_si; /* upstream pressure; S Psi / sqrt(R T), kg/(s Pa) */
};

/* source_init - tabulate the source of an air system (a tank source is SOURCE_NONE: it is the
 * head vessel of the line).
 *
 *   in   air             compressor or regulator
 *   in   ambient_abs_pa  Pa absolute, > 0
 *   in   inlet_temp_k    K, air drawn
 *   out  s               untouched on error
 *   ret  STATUS_OK; E_DOMAIN; E_MEMORY
 *   how  flow points: monotone cubics by GSL, docs/theory.md E2
 *   src  Steffen, Astron. Astrophys. 239, 1990; Harris, Compressed Air, 1910, eq. 11
 */
enum status source_init(const struct air_system *air, double ambient_abs_pa, double inlet_temp_k,
                        struct source *s) MUST_CHECK;

/* source_flow - mass flow delivered against an outlet pressure.
 *
 *   in   s, scale_1     delivery relative to the label
 *   in   extra_sag_1    sag added to the source's own
 *   in   outlet_abs_pa  Pa absolute
 *   out  slope_si       d flow / d outlet pressure, kg/(s Pa)
 *   ret  kg/s, never below 0; 0 when scale_1 or the pressure is not finite
 *   how  docs/theory.md E2
 *   src  as source_init; ISO 6358 for the regulator
 */
double source_flow(const struct source *s, double scale_1, double extra_sag_1, double outlet_abs_pa,
                   double *slope_si);

#endif
