#include "sim/refill_working.h"

#include "sim/element.h"

static const char OWN[] = "own, this program's reference runs";
static const char LABEL[] = "your profile";

static void air_rows(const struct refill_in *in, const struct refill_out *out, struct working *w)
{
    (void)working_add(w, "", "pa", "ambient pressure", "E1", "standard atmosphere at this height",
                      "US Standard Atmosphere 1976", STANDING_P, in->ambient_abs_pa, Q_PRESSURE);
    (void)working_add(w, "", "T", "air in tyres and line", "E1", "tyre temperature", LABEL,
                      STANDING_U, in->tyre_temp_k, Q_TEMPERATURE);
    struct working_row *r = working_add(w, "", "free", "free air to deliver, stretch left out",
                                        "E5", "sum V (p2 - p1) / 101.325 kPa x 293.15 K / T",
                                        "ideal gas law", STANDING_P, out->free_air_m3, Q_VOLUME);
    (void)working_in(r, "T", in->tyre_temp_k, Q_TEMPERATURE);
    (void)working_add(w, "", "free_s", "free air with stretch of the tyres, 2 %/bar", "E5",
                      "sum of M(p2) - M(p1), p V (1 + k (p - pa)) = M R T", OWN, STANDING_D,
                      out->free_air_stretched_m3, Q_VOLUME);
}

static void machine_rows(const struct refill_in *in, struct working *w)
{
    const struct compressor *c = &in->air.compressor;
    if (c->n_flow > 0) {
        (void)working_in(working_add(w, "", "q0", "first flow point of the label", "E2",
                                     "q(p_eq) 1.204 (pa/101325) 308.15/(Tin + 15), Steffen's curve",
                                     LABEL, STANDING_U, c->flow_m3_s[0], Q_FLOW),
                         "p0", c->flow_gauge_pa[0], Q_PRESSURE);
    } else {
        struct working_row *r = working_add(w, "", "Vd", "swept volume rate", "E2",
                                            "Vd rho (1 + c - c r^(1/n)) (1 - sag dp/100 psi)",
                                            "Harris 1910 eq. 11; numbers from common practice",
                                            STANDING_C, c->swept_m3_s, Q_FLOW);
        (void)working_in(r, "c", c->clearance_1, Q_SHARE);
        (void)working_in(r, "n", c->exponent_1, Q_NUMBER);
        (void)working_in(r, "sag", c->sag_1, Q_SHARE);
    }
    (void)working_add(w, "", "Tin", "air drawn by the machine, +15 K in its head", "E2",
                      "density pa / (R (Tin + 15))", LABEL, STANDING_U, in->inlet_temp_k,
                      Q_TEMPERATURE);
}

static void source_rows(const struct refill_in *in, const struct refill_out *out, struct working *w)
{
    const struct air_system *a = &in->air;
    if (a->source == AIR_COMPRESSOR) {
        machine_rows(in, w);
    } else if (a->source == AIR_REGULATOR) {
        (void)working_in(working_add(w, "", "p_reg", "regulator", "E2",
                                     "ISO 6358 element from p_reg, b = 0.30", LABEL, STANDING_U,
                                     a->regulator_gauge_pa, Q_PRESSURE),
                         "S", a->regulator_area_m2, Q_AREA);
    }
    if (a->tank_volume_m3 > 0) {
        (void)working_in(working_add(w, "", "p_tank", "tank at the source's outlet, open both ways",
                                     "E4", "p Vt = M R T", LABEL, STANDING_U, a->tank_gauge_pa,
                                     Q_PRESSURE),
                         "Vt", a->tank_volume_m3, Q_VOLUME);
    }
    if (a->source != AIR_TANK) {
        (void)working_add(w, "", "q_t", "delivered free air, last axle at the highest target", "E4",
                          "m_c(Pc) = sum m_i(P)", OWN, STANDING_D, out->at_target_free_m3_s,
                          Q_FLOW);
    }
}

static void line_rows(const struct refill_in *in, struct working *w)
{
    const struct air_system *a = &in->air;
    bool core_out = a->valve == VALVE_CORE_OUT;
    struct working_row *r = working_add(
        w, "", "S", core_out ? "valve, core out (4..8 mm2)" : "valve, core in (1.0..2.4 mm2)", "E3",
        "ISO 6358: m = S Psi P / sqrt(R T) ellipse(p/P, b)", "own, from common practice",
        STANDING_C, core_out ? VALVE_OUT_M2 : VALVE_IN_M2, Q_AREA);
    (void)working_in(r, "b", core_out ? VALVE_OUT_B_1 : VALVE_IN_B_1, Q_NUMBER);
    r = working_add(w, "", "D", "hose bore; friction 1.3 x smooth pipe, coupler K = 5", "E3",
                    "P1^2 - P2^2 = K m^2", "Swamee & Jain 1976", STANDING_PM, a->hose_bore_m,
                    Q_LENGTH);
    (void)working_in(r, "main", a->main_length_m, Q_LENGTH);
    (void)working_in(r, "branch", a->branch_length_m, Q_LENGTH);
    (void)working_in(r, "tail", a->tail_length_m, Q_LENGTH);
}

static void corner_rows(const struct refill_in *in, int c, const struct refill_corner_out *o,
                        struct working *w)
{
    const struct refill_corner_in *k = &in->corner[c];
    const char *where = corner_name((enum axle_id)(c / SIDE_COUNT), (enum side)(c % SIDE_COUNT));
    double offset = in->air.gauge_offset_pa;
    struct working_row *r =
        working_add(w, where, "t", "done, wall time from the first air", "E5",
                    "dM/dt = m(P, p) until M has the settled target", "Dormand & Prince 1980; own",
                    STANDING_D, o->done_s, Q_DURATION);
    (void)working_in(r, "V", k->volume_m3, Q_VOLUME);
    (void)working_in(r, "from", k->from_gauge_pa, Q_PRESSURE);
    (void)working_in(r, "target", k->target_gauge_pa, Q_PRESSURE);
    r = working_add(w, where, "P", "reading on the line while air still flows", "E4",
                    "root of m_c(Pc) = sum m_i(P), + gauge offset", OWN, STANDING_D,
                    o->line_reading_gauge_pa, Q_PRESSURE);
    (void)working_in(r, "q", o->flow_free_m3_s, Q_FLOW);
    (void)working_in(r, "offset", offset, Q_PRESSURE);
    r = working_add(w, where, "p_stop", "reading to stop at, air still warm", "E6",
                    "settled + p dT/T x strong-flow factor + gauge offset",
                    "Geankoplis 1993 form; own factor", STANDING_D, o->stop_reading_gauge_pa,
                    Q_PRESSURE);
    (void)working_in(r, "settled", o->settled_gauge_pa, Q_PRESSURE);
    (void)working_in(r, "over", o->stop_reading_gauge_pa - o->settled_gauge_pa - offset,
                     Q_PRESSURE);
    (void)working_in(r, "offset", offset, Q_PRESSURE);
}

static void plan_rows(const struct refill_in *in, const struct refill_plan *p, struct working *w)
{
    const char *where = hookup_name(p->hookup);
    struct working_row *r =
        working_add(w, where, "total", "running + rest + hands-on", "E8",
                    "corners that hang together are filled until each has its target", OWN,
                    STANDING_D, p->total_s, Q_DURATION);
    (void)working_in(r, "running", p->running_s, Q_DURATION);
    (void)working_in(r, "rest", p->rest_s, Q_DURATION);
    (void)working_in(r, "hands", p->handling_s, Q_DURATION);
    if (in->air.source == AIR_COMPRESSOR && in->air.compressor.run_time_s > 0) {
        r = working_add(w, where, "run", "longest run between rests", "E7",
                        "a stop of rest_time clears the run time, a shorter one pro rata",
                        "the label's duty", STANDING_U, p->longest_run_s, Q_DURATION);
        (void)working_in(r, "run_time", in->air.compressor.run_time_s, Q_DURATION);
        (void)working_in(r, "rest_time", in->air.compressor.rest_time_s, Q_DURATION);
        (void)working_in(r, "used", in->run_used_s, Q_DURATION);
    }
}

static void whatif_rows(const struct refill_in *in, const struct refill_out *out, struct working *w)
{
    static const char *const what[WHATIF_COUNT] = {
        [WHATIF_CORE_OUT] = "saved by taking the valve cores out",
        [WHATIF_COOLER_INTAKE] = "saved by an intake 20 K cooler",
        [WHATIF_SECOND_SOURCE] = "saved by a second source of the same kind",
        [WHATIF_VOLTAGE] = "change with the engine off, delivery x 0.88",
        [WHATIF_REST_EARLIER] = "saved by resting before the run time is used up",
    };
    for (int k = 0; k < WHATIF_COUNT; k++) {
        if (out->whatif[k].gain_s.is) {
            (void)working_add(w, hookup_name(in->air.hookup), "gain", what[k], "E8",
                              "total as it is - total changed", OWN, STANDING_D,
                              out->whatif[k].gain_s.v, Q_DURATION);
        }
    }
}

void refill_working(const struct refill_in *in, const struct refill_out *out, struct working *w)
{
    air_rows(in, out, w);
    source_rows(in, out, w);
    line_rows(in, w);
    const struct refill_plan *own = &out->plan[in->air.hookup];
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (in->corner[c].present && own->corner[c].reached) {
            corner_rows(in, c, &own->corner[c], w);
        }
    }
    for (int h = 0; h < HOOKUP_COUNT; h++) {
        if (out->plan[h].possible) {
            plan_rows(in, &out->plan[h], w);
        }
    }
    whatif_rows(in, out, w);
}

void down_working(const struct down_corner *c, const struct down_result *r, const char *where,
                  struct working *w)
{
    static const char *const time_what[2] = {"to let down, core in", "to let down, core out"};
    static const char *const stop_what[2] = {"reading to stop at, core in",
                                             "reading to stop at, core out"};
    static const double area[2] = {VALVE_IN_M2, VALVE_OUT_M2};
    for (int k = 0; k < 2; k++) {
        struct working_row *row =
            working_add(w, where, "t", time_what[k], "E9", "t = int dM / m(p), isothermal",
                        "ISO 6358; S from common practice", STANDING_C, r->time_s[k], Q_DURATION);
        (void)working_in(row, "V", c->volume_m3, Q_VOLUME);
        (void)working_in(row, "S", area[k], Q_AREA);
        (void)working_in(row, "from", c->from_gauge_pa, Q_PRESSURE);
        (void)working_in(row, "to", c->to_gauge_pa, Q_PRESSURE);
        row = working_add(w, where, "p_stop", stop_what[k], "E9",
                          "to - creep + gauge offset; the tyre creeps back up as it warms", OWN,
                          STANDING_D, r->stop_reading_gauge_pa[k], Q_PRESSURE);
        (void)working_in(row, "creep", r->creep_pa[k], Q_PRESSURE);
        (void)working_in(row, "offset", c->gauge_offset_pa, Q_PRESSURE);
    }
}
