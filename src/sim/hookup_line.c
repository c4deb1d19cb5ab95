#include "sim/hookup.h"

#include <math.h>

#include "base/num.h"
#include "base/units.h"
#include "sim/line.h"

double hookup_cut_in(const struct air_system *air)
{
    double out = air->compressor.cut_out_gauge_pa;
    return out <= 0                   ? 0
           : air->cut_in_gauge_pa > 0 ? fmin(air->cut_in_gauge_pa, out)
                                      : fmax(out - 30 * UNITS_PA_PER_PSI, 0);
}

static bool on_trailer(unsigned corners)
{
    unsigned trailer = ((1u << SIDE_COUNT) - 1) << REFILL_CORNER(AXLE_TRAILER, 0) |
                       ((1u << SIDE_COUNT) - 1) << REFILL_CORNER(AXLE_TRAILER2, 0);
    return (corners & trailer) != 0;
}

/* A vessel that the corner can share, or a new one. */
static int vessel_for(struct line *l, const double start[], const struct refill_corner_in *c,
                      double p_abs_pa, double target_abs_pa, double target_of[])
{
    double one_m3 = c->volume_m3 / c->tyres;
    for (int i = 0; i < l->n; i++) {
        if (l->vessel[i].volume_m3 == one_m3 && start[i] == p_abs_pa &&
            target_of[i] == target_abs_pa) {
            l->vessel[i].count_1 += c->tyres;
            return i;
        }
    }
    l->vessel[l->n] = (struct line_vessel){
        .count_1 = c->tyres, .volume_m3 = one_m3, .stretch_1_pa = LINE_STRETCH_1_PA};
    return l->n++;
}

/* The flow that friction is taken at: what the source gives at the highest target, but no more
 * than the cores would pass. */
static double nominal_flow(const struct line *l, double top_abs_pa, double sonic_si)
{
    double slope = 0, cores = sonic_si * top_abs_pa;
    if (l->source->kind == SOURCE_NONE) {
        return cores;
    }
    double m = source_flow(l->source, l->scale_1, l->extra_sag_1, top_abs_pa, &slope);
    return fmin(fmax(m, 0.01 * cores), cores);
}

static void set_hoses(const struct refill_in *in, struct line *l, double tail_m, double top_abs_pa)
{
    double sonic = 0, tyres = 0;
    for (int i = 0; i < l->n; i++) {
        double s = l->vessel[i].count_1 * element_conductance(l->vessel[i].area_m2, l->temp_k);
        sonic += s;
        tyres += l->vessel[i].count_1;
    }
    double q = nominal_flow(l, top_abs_pa, sonic);
    const struct air_system *a = &in->air;
    l->main_si = hose_constant(a->main_length_m + tail_m, a->hose_bore_m, l->temp_k, q);
    double branch = hose_constant(a->branch_length_m, a->hose_bore_m, l->temp_k, q / tyres);
    for (int i = 0; i < l->n; i++) {
        l->vessel[i].hose_si = branch;
    }
}

static void set_valves(struct line *l, const struct refill_in *in, enum valve_state valve)
{
    for (int i = 0; i < l->n; i++) {
        bool out = valve == VALVE_CORE_OUT;
        l->vessel[i].area_m2 = out ? VALVE_OUT_M2 : VALVE_IN_M2;
        l->vessel[i].b_1 = out ? VALVE_OUT_B_1 : VALVE_IN_B_1;
        l->vessel[i].no_outflow = in->air.check_valves;
    }
}

/* The spare hangs on the line by its own branch and its own core. */
static void add_spare(struct line *l, const struct air_system *a)
{
    if (a->spare && a->spare_volume_m3 > 0 && l->n < LINE_VESSELS) {
        l->vessel[l->n++] = (struct line_vessel){.count_1 = 1,
                                                 .volume_m3 = a->spare_volume_m3,
                                                 .stretch_1_pa = LINE_STRETCH_1_PA,
                                                 .area_m2 = VALVE_IN_M2,
                                                 .b_1 = VALVE_IN_B_1,
                                                 .no_inflow = a->spare_check_valve};
    }
}

enum status hookup_line(const struct refill_in *in, const struct source *source,
                        const struct hookup_change *change, unsigned corners,
                        const double p_abs_pa[], const double target_abs_pa[], struct line *line,
                        int vessel_of[])
{
    struct line l = {.source = source,
                     .scale_1 = change->scale_1,
                     .ambient_abs_pa = in->ambient_abs_pa,
                     .temp_k = in->tyre_temp_k,
                     .tank_m3 = in->air.tank_volume_m3};
    double start[LINE_VESSELS] = {0}, target[LINE_VESSELS] = {0}, top = in->ambient_abs_pa;
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (corners >> c & 1u) {
            int i = vessel_for(&l, start, &in->corner[c], p_abs_pa[c], target_abs_pa[c], target);
            start[i] = p_abs_pa[c];
            target[i] = target_abs_pa[c];
            top = fmax(top, target_abs_pa[c]);
            vessel_of[c] = i;
        }
    }
    set_valves(&l, in, change->valve);
    add_spare(&l, &in->air);
    set_hoses(in, &l, on_trailer(corners) ? in->air.tail_length_m : 0, top);
    enum status st = line_prepare(&l);
    if (st == STATUS_OK) {
        *line = l;
    }
    return st;
}
