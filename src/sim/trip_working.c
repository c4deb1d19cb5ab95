#include "sim/trip_working.h"

#include <stdio.h>
#include <string.h>

#include "core/gas.h"

static const char PRACTICE[] = "practice of the trade";
static const char OWN[] = "this program's own";
static const char SIMULATED[] = "air simulation, equations E";

/* The rows of one leg share its name. */
struct leg_rows {
    struct working *w;
    char where[24];
    const struct trip_in *in;
    const struct trip_leg *leg;
    const struct trip_leg_plan *plan;
};

static struct working_row *put(const struct leg_rows *r, const char *symbol, const char *what,
                               const char *equation, const char *formula, double si,
                               enum quantity q)
{
    return working_add(r->w, r->where, symbol, what, equation, formula, OWN, STANDING_D, si, q);
}

static void cite(struct working_row *row, const char *source, enum standing standing)
{
    row->source = source;
    row->standing = standing;
}

static void put_pressures(const struct leg_rows *r)
{
    static const char *const symbols[AXLE_COUNT] = {"p_front", "p_middle", "p_rear", "p_trailer",
                                                    "p_trailer2"};
    for (int x = 0; x < AXLE_COUNT; x++) {
        if (r->in->rig->axle[x].present) {
            cite(put(r, symbols[x], "cold pressure of the leg", "G1",
                     "the level of least time among those that the legs up to the next stop admit",
                     r->plan->cold_gauge_pa[x], Q_PRESSURE),
                 PRACTICE, STANDING_C);
        }
    }
}

static void put_drive(const struct leg_rows *r)
{
    if (r->plan->pace_mps.is) {
        put(r, "v_pace", "pace: these tyres shake as much as the ground's own at its cap", "G5",
            "cap of the ground times min over axles Ks(target)/Ks(p)", r->plan->pace_mps.v,
            Q_SPEED);
    }
    if (r->plan->cap_mps.is) {
        cite(put(r, "v_cap", "speed cap at the pressures of the leg", "C7",
                 "min(cap of the ground, v_d, v_Rb of all corners)", r->plan->cap_mps.v, Q_SPEED),
             PRACTICE, STANDING_C);
    }
    struct working_row *row =
        put(r, "t_drive", "driving time", "G2", "length/min(cap, pace, wished speed)",
            r->plan->drive_s, Q_DURATION);
    (void)working_in(row, "wished", r->leg->speed_mps, Q_SPEED);
    cite(row, "definition", STANDING_P);
}

static void put_change(const struct leg_rows *r)
{
    const struct trip_leg_plan *p = r->plan;
    bool up = p->free_air_m3 > 0.0;
    if (p->action == TRIP_NONE) {
        return;
    }
    struct working_row *row =
        put(r, "t_change", "change before the leg", up ? "G2, E7" : "G2, E9",
            up ? "fill, moves and rests of the rig's hook-up, and 300 s to look round"
               : "let down by the rig's hook-up",
            p->action_s, Q_DURATION);
    (void)working_in(row, "rests", p->rest_s, Q_DURATION);
    cite(row, SIMULATED, STANDING_D);
    if (up) {
        cite(put(r, "free", "free air to deliver, stretch left out", "E5",
                 "sum V (p2 - p1)/101.325 kPa x 293.15 K/T", p->free_air_m3, Q_VOLUME),
             "ideal gas law", STANDING_P);
    }
    if (p->change_saves_s.is) {
        put(r, "saves", "total time with the level kept, less that of the plan", "G2",
            "to-go(kept) - (t_change + to-go(new))", p->change_saves_s.v, Q_DURATION);
    }
}

static void put_reading(const struct leg_rows *r, int x)
{
    static const char *const symbols[AXLE_COUNT] = {"g_front", "g_middle", "g_rear", "g_trailer",
                                                    "g_trailer2"};
    double ambient_abs_pa = 0.0;
    if (gas_ambient(r->plan->end_height_m, &ambient_abs_pa) < 0) {
        return;
    }
    struct working_row *row = put(r, symbols[x], "what a gauge will read at the end of the leg",
                                  "G3", "(p_set + pa_set) T/T_set - pa, sealed since it was set",
                                  r->plan->end_gauge_pa[x], Q_PRESSURE);
    (void)working_in(row, "at the start", r->plan->set_gauge_pa[x], Q_PRESSURE);
    (void)working_in(row, "T", r->plan->end_temp_k, Q_TEMPERATURE);
    (void)working_in(row, "pa", ambient_abs_pa, Q_PRESSURE);
    (void)working_in(row, "floor", r->plan->floor_gauge_pa[x], Q_PRESSURE);
    cite(row, "ideal gas law; US Standard Atmosphere 1976", STANDING_P);
}

void trip_working(const struct trip_in *in, const struct trip_plan *p, struct working *w)
{
    for (int i = 0; i < p->n_leg; i++) {
        struct leg_rows r = {.w = w, .in = in, .leg = &in->trip->leg[i], .plan = &p->leg[i]};
        snprintf(r.where, sizeof r.where, "leg %d", i + 1);
        put_pressures(&r);
        put_drive(&r);
        put_change(&r);
        for (int x = 0; x < AXLE_COUNT; x++) {
            if (in->rig->axle[x].present) {
                put_reading(&r, x);
            }
        }
    }
    (void)working_add(w, "", "t_total", "driving and changing, least over all admitted levels",
                      "G2", "sum of t_drive and t_change", OWN, STANDING_D, p->total_s, Q_DURATION);
}
