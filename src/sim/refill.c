#include "sim/refill.h"

#include <math.h>

#include "core/constants.h"
#include "sim/hookup.h"
#include "sim/line.h"

#define COOLER_K     20.0 /* K less at the intake; own choice for the what-if */
#define ENGINE_OFF_1 0.88 /* delivery at 12.2 V over 13.8 V, 0.85..0.90 [memory] */

static struct hookup_change as_rigged(const struct refill_in *in)
{
    return (struct hookup_change){.scale_1 = 1, .valve = in->air.valve};
}

/* Every number within +-1e9 in SI: far beyond any air system, near enough to stay finite. */
static bool sane(size_t n, const double x[])
{
    for (size_t i = 0; i < n; i++) {
        if (!(fabs(x[i]) <= 1e9)) {
            return false;
        }
    }
    return true;
}

static bool within(double x, double lo, double hi)
{
    return x >= lo && x <= hi;
}

/* m3, between a thimble and a house; 0 = none where none is meant. */
static bool volume_valid(double v_m3, bool may_be_none)
{
    return (may_be_none && v_m3 == 0) || within(v_m3, 1e-5, 1e3);
}

static bool corner_valid(const struct refill_in *in, const struct refill_corner_in *c)
{
    const double x[] = {c->volume_m3, c->from_gauge_pa, c->target_gauge_pa, c->gravel_gauge_pa};
    return !c->present || (sane(4, x) && volume_valid(c->volume_m3, false) && c->tyres >= 1 &&
                           c->from_gauge_pa >= 0 && c->target_gauge_pa > -in->ambient_abs_pa);
}

static bool air_valid(const struct air_system *a)
{
    const double x[] = {
        a->tank_volume_m3,        a->tank_gauge_pa,         a->main_length_m,
        a->branch_length_m,       a->tail_length_m,         a->hose_bore_m,
        a->move_time_s,           a->gauge_offset_pa,       a->spare_volume_m3,
        a->spare_gauge_pa,        a->cut_in_gauge_pa,       a->compressor.cut_out_gauge_pa,
        a->compressor.run_time_s, a->compressor.rest_time_s};
    return sane(sizeof x / sizeof x[0], x) && volume_valid(a->tank_volume_m3, true) &&
           (!a->spare || volume_valid(a->spare_volume_m3, true)) && a->tank_gauge_pa >= 0 &&
           a->spare_gauge_pa >= 0 && a->move_time_s >= 0;
}

bool refill_in_valid(const struct refill_in *in)
{
    const double x[] = {in->ambient_abs_pa, in->tyre_temp_k, in->inlet_temp_k, in->run_used_s};
    bool ok = sane(4, x) && within(in->ambient_abs_pa, 1e3, 1e7) &&
              within(in->tyre_temp_k, 100, 1000) && within(in->inlet_temp_k, 100, 1000) &&
              in->run_used_s >= 0 && air_valid(&in->air) && in->air.hookup < HOOKUP_COUNT;
    for (int c = 0; ok && c < REFILL_CORNERS; c++) {
        ok = corner_valid(in, &in->corner[c]);
    }
    return ok;
}

static void free_air(const struct refill_in *in, struct refill_out *out)
{
    double cold = AIR_FREE_TEMP_K / in->tyre_temp_k / AIR_SEA_LEVEL_PA;
    for (int c = 0; c < REFILL_CORNERS; c++) {
        const struct refill_corner_in *k = &in->corner[c];
        double rise = fmax(0, k->target_gauge_pa - k->from_gauge_pa);
        if (k->present) {
            double sum = k->target_gauge_pa + k->from_gauge_pa + in->ambient_abs_pa;
            out->free_air_m3 += k->volume_m3 * rise * cold;
            out->free_air_stretched_m3 +=
                k->volume_m3 * rise * cold * (1 + LINE_STRETCH_1_PA * sum);
        }
    }
}

/* Delivered flow at the highest target, its axle alone on the line. */
static double flow_at_target(const struct refill_in *in, const struct source *source)
{
    int top = -1;
    double p_abs_pa[REFILL_CORNERS];
    for (int c = 0; c < REFILL_CORNERS; c++) {
        p_abs_pa[c] = in->corner[c].target_gauge_pa + in->ambient_abs_pa;
        if (in->corner[c].present && (top < 0 || p_abs_pa[c] > p_abs_pa[top])) {
            top = c;
        }
    }
    if (top < 0 || source->kind == SOURCE_NONE) {
        return 0;
    }
    unsigned axle = 0;
    for (int c = top - top % SIDE_COUNT; c < top - top % SIDE_COUNT + SIDE_COUNT; c++) {
        axle |= in->corner[c].present ? 1u << c : 0;
    }
    struct refill_in bare = *in;
    bare.air.spare = false;
    bare.air.tank_volume_m3 = 0;
    struct line l;
    int vessel_of[REFILL_CORNERS];
    const struct hookup_change change = as_rigged(in);
    if (hookup_line(&bare, source, &change, axle, p_abs_pa, p_abs_pa, &l, vessel_of) != STATUS_OK) {
        return 0;
    }
    double p[LINE_VESSELS], root = 0;
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (axle >> c & 1u) {
            p[vessel_of[c]] = p_abs_pa[c];
        }
    }
    struct line_flow f;
    (void)line_solve(&l, (1u << l.n) - 1, true, p, 0, &root, &f);
    return f.source_kg_s / AIR_FREE_KG_M3;
}

/* Gain of a changed source, valve or delivery on the total of the rig's own hook-up. */
static struct maybe gain(const struct refill_in *in, const struct source *source,
                         const struct hookup_change *change, const struct refill_plan *as_it_is)
{
    struct refill_plan p;
    if (hookup_plan(in, source, change, in->air.hookup, &p) != STATUS_OK || !p.possible) {
        return maybe_none();
    }
    return maybe_of(as_it_is->total_s - p.total_s);
}

static struct maybe gain_cooler(const struct refill_in *in, const struct refill_plan *as_it_is)
{
    struct source cool;
    if (in->air.source != AIR_COMPRESSOR ||
        source_init(&in->air, in->ambient_abs_pa, in->inlet_temp_k - COOLER_K, &cool) !=
            STATUS_OK) {
        return maybe_none();
    }
    const struct hookup_change change = as_rigged(in);
    return gain(in, &cool, &change, as_it_is);
}

/* Resting before the allowance is used up needs to clear only what is still to run. */
static struct maybe gain_rest_earlier(const struct refill_in *in, const struct refill_plan *p)
{
    const struct compressor *c = &in->air.compressor;
    if (!(p->rest_s > 0)) {
        return maybe_none();
    }
    double lacks_s = fmax(0, in->run_used_s + p->running_s - c->run_time_s);
    return maybe_of(fmax(0, p->rest_s - lacks_s / c->run_time_s * c->rest_time_s));
}

static void what_ifs(const struct refill_in *in, const struct source *source,
                     struct refill_out *out)
{
    for (int k = 0; k < WHATIF_COUNT; k++) {
        out->whatif[k] = (struct refill_whatif){.kind = (enum refill_whatif_kind)k};
    }
    const struct refill_plan *own = &out->plan[in->air.hookup];
    if (!own->possible || own->problem == REFILL_NOTHING_TO_DO) {
        return;
    }
    const struct hookup_change core_out = {.scale_1 = 1, .valve = VALVE_CORE_OUT},
                               twice = {.scale_1 = 2, .valve = in->air.valve},
                               engine_off = {.scale_1 = ENGINE_OFF_1, .valve = in->air.valve};
    if (in->air.valve == VALVE_CORE_IN) {
        out->whatif[WHATIF_CORE_OUT].gain_s = gain(in, source, &core_out, own);
    }
    out->whatif[WHATIF_COOLER_INTAKE].gain_s = gain_cooler(in, own);
    if (in->air.source != AIR_TANK) {
        out->whatif[WHATIF_SECOND_SOURCE].gain_s = gain(in, source, &twice, own);
    }
    if (in->air.source == AIR_COMPRESSOR) {
        out->whatif[WHATIF_VOLTAGE].gain_s = gain(in, source, &engine_off, own);
    }
    out->whatif[WHATIF_REST_EARLIER].gain_s = gain_rest_earlier(in, own);
}

enum status refill_compute(const struct refill_in *in, struct refill_out *out)
{
    if (!refill_in_valid(in)) {
        return STATUS_E_DOMAIN;
    }
    struct source source;
    enum status st = source_init(&in->air, in->ambient_abs_pa, in->inlet_temp_k, &source);
    struct refill_out made = {.free_air_m3 = 0};
    const struct hookup_change change = as_rigged(in);
    for (int h = 0; h < HOOKUP_COUNT && st == STATUS_OK; h++) {
        st = hookup_plan(in, &source, &change, (enum hookup)h, &made.plan[h]);
    }
    if (st != STATUS_OK) {
        return st;
    }
    free_air(in, &made);
    made.at_target_free_m3_s = flow_at_target(in, &source);
    what_ifs(in, &source, &made);
    *out = made;
    return STATUS_OK;
}

enum status refill_in_of(const struct rig *rig, double ambient_abs_pa, double tyre_temp_k,
                         double inlet_temp_k, struct refill_in *in)
{
    struct refill_in made = {.air = rig->air,
                             .ambient_abs_pa = ambient_abs_pa,
                             .tyre_temp_k = tyre_temp_k,
                             .inlet_temp_k = inlet_temp_k};
    double rear_m3 = 0;
    for (int a = 0; a < AXLE_COUNT; a++) {
        const struct axle *axle = &rig->axle[a];
        if (!axle->present) {
            continue;
        }
        struct tyre tyre;
        double one_m3 = 0;
        enum status st = tyre_init(&axle->tyre, &tyre);
        st = st < STATUS_OK ? st : tyre_air_volume(&tyre, &one_m3);
        if (st < STATUS_OK) {
            return st;
        }
        rear_m3 = a <= AXLE_REAR ? one_m3 : rear_m3;
        int tyres = axle->wheels / SIDE_COUNT;
        for (int s = 0; s < SIDE_COUNT; s++) {
            made.corner[REFILL_CORNER(a, s)] = (struct refill_corner_in){
                .present = true, .tyres = tyres, .volume_m3 = one_m3 * tyres};
        }
    }
    if (made.air.spare && !(made.air.spare_volume_m3 > 0)) {
        made.air.spare_volume_m3 = rear_m3;
    }
    *in = made;
    return STATUS_OK;
}
