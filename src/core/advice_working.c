#include "core/advice_working.h"

#include "core/advice_part.h"
#include "core/constants.h"
#include "core/refs.h"
#include "core/target.h"

/* What each number is: W(id, symbol, what, equation, formula, reference, quantity). */
// clang-format off
#define ROW_TABLE(W) \
    W(AXLE_LOAD, "W_axle", "load of the axle", "B1", "weighed + sum m x/wheelbase", STATICS, Q_MASS) \
    W(HEAVIER, "W_max", "load a tyre of the heavier side", "B1", "W_axle share / tyres a side", STATICS, Q_MASS) \
    W(OD, "OD", "outside diameter", "A1", "", GRAMMAR, Q_LENGTH) \
    W(SN, "SN", "section width", "A1", "", GRAMMAR, Q_LENGTH) \
    W(SH, "SH", "section height", "A1", "(OD - rim)/2", GRAMMAR, Q_LENGTH) \
    W(LMAX, "Lmax", "moulded maximum load a tyre", "A2", "", PROFILE, Q_MASS) \
    W(PMAX, "Pmax", "moulded maximum pressure", "A3", "", PROFILE, Q_PRESSURE) \
    W(P_ROAD, "p_road", "road pressure, cold", "B3", "", PROFILE, Q_PRESSURE) \
    W(P_TABLE, "p_table", "pressure that the load asks for", "A3", "Pmax (W_max/Lmax)^(1/n)", TABLES, Q_PRESSURE) \
    W(P_AIM, "p_aim", "pressure at the aim of the ground", "C1", "W_max = Ks(p) d (1 + 0.6 d/SH)/1.12, d = aim SH", LAW, Q_PRESSURE) \
    W(F_DEFLECTION, "p_limit", "floor: deflection limit of the ground", "C2", "as p_aim at d = limit SH", GROUND, Q_PRESSURE) \
    W(F_BEAD, "p_bead", "floor: bead", "C5", "by wheel, section height and kind of tyre", PRACTICE, Q_PRESSURE) \
    W(F_MAKER, "p_maker", "floor: tyre maker's own", "C2", "", PROFILE, Q_PRESSURE) \
    W(F_SLOPE, "p_slope", "floor: downhill tyre on the side slope", "B4", "as p_limit at W cos(s) (share + h/t tan(s))", STATICS, Q_PRESSURE) \
    W(FLOOR, "p_floor", "the highest floor", "C2", "max(p_limit, p_bead, p_maker, p_slope)", PRACTICE, Q_PRESSURE) \
    W(TARGET, "p_target", "target, cold", "C3", "max(p_aim, p_floor) up to the gauge step, at most min(p_road, Pmax)", PRACTICE, Q_PRESSURE) \
    W(STUCK, "p_stuck", "stuck step, cold, walking pace for metres", "C6", "p at max(26.5 %, aim + 1.5 points), not below its floors", PRACTICE, Q_PRESSURE) \
    W(SET_NOW, "p_now", "reading to set now", "A10", "(p_target + pa) T/T_road - pa + offset", GAS, Q_PRESSURE) \
    W(P_AT, "p", "your own pressure, judged", "C2", "", ASKED, Q_PRESSURE) \
    W(LOAD, "W", "load a tyre", "B1", "W_axle share / tyres a side", STATICS, Q_MASS) \
    W(KS, "Ks", "stiffness at the pressure", "A4", "kcal g (0.00028 p G + 3.45), G = sqrt((1.03 - 0.4 SH/SN) SN OD)", RHYNE, Q_STIFFNESS) \
    W(D_ROAD, "d_road", "deflection at road pressure", "A5", "W g = Ks d (1 + 0.6 d/SH)/1.12", LAW, Q_LENGTH) \
    W(D, "d", "deflection at the pressure", "A5", "W g = Ks d (1 + 0.6 d/SH)/1.12", LAW, Q_LENGTH) \
    W(D_SHARE_ROAD, "d_road/SH", "deflection of section height at road pressure", "A5", "d_road/SH", LAW, Q_SHARE) \
    W(D_SHARE, "d/SH", "deflection of section height", "A5", "d/SH; band d (1 -+ e), A6", JUDGED, Q_SHARE) \
    W(RADIUS, "R", "loaded radius", "A5", "OD/2 - d", LAW, Q_LENGTH) \
    W(CLEARANCE, "dh", "ground clearance lost", "A8", "d - d_road", LAW, Q_LENGTH) \
    W(ROLLING, "Re", "rolling radius", "A8", "R0 - d0 (0.21 atan(8.4 d/d0) + 0.007 d/d0)", PACEJKA, Q_LENGTH) \
    W(LENGTH_ROAD, "L_road", "patch length at road pressure", "A7", "as L", PRINTS, Q_LENGTH) \
    W(LENGTH, "L", "patch length", "A7", "max(Lm, A/(0.86 TW)), Lm = 2 R0 kL (0.51 sqrt(z) + 1.11 z), z = d/R0", PRINTS, Q_LENGTH) \
    W(WIDTH, "B", "patch width", "A7", "A/(0.86 L)", PRINTS, Q_LENGTH) \
    W(AREA_ROAD, "A_road", "gross patch area at road pressure", "A7", "as A", PRINTS, Q_AREA) \
    W(AREA, "A", "gross patch area", "A7", "2.6 kA d sqrt(OD SN)", PRINTS, Q_AREA) \
    W(GROWTH_A, "A/A_road", "growth of the area", "A7", "band growth (1 -+ max(0.05, |e - e_road|))", PRINTS, Q_NUMBER) \
    W(GROWTH_L, "L/L_road", "growth of the length", "A7", "band from Lm alone to L", PRINTS, Q_NUMBER) \
    W(MEAN, "q", "mean ground pressure", "A7", "W g/A", PRINTS, Q_PRESSURE) \
    W(CAPACITY, "cap", "capacity at the pressure", "A3", "Lmax (p/Pmax)^n, at most Lmax", TABLES, Q_MASS) \
    W(RETENTION, "Rb", "share of road pressure left; an index, no force", "C5", "p/p_road", PRACTICE, Q_SHARE) \
    W(V_DEFLECTION, "v_d", "practice cap of the deflection", "C7", "15 % none, 17 % 80, 22 % 50, 25 % 30, 29 % 20, 33 % 8 km/h", PRACTICE, Q_SPEED) \
    W(V_RETENTION, "v_Rb", "practice cap of the pressure left", "C7", "80 % none, 65 % 80, 50 % 50, 40 % 30, below 15 km/h", PRACTICE, Q_SPEED) \
    W(V_STANDARD, "v_std", "standard-derived speed", "C7", "highest speed with bonus >= W/cap - 1", ANNEX8, Q_SPEED) \
    W(AMBIENT, "pa", "ambient pressure", "A10", "standard atmosphere at the height", GAS, Q_PRESSURE) \
    W(V_CAP, "v_cap", "speed cap", "C7", "min(cap of the ground, v_d, v_Rb of all corners)", PRACTICE, Q_SPEED) \
    W(STRENGTH, "CI", "strength of the ground", "D8", "cone index; RCI of fine soil", GROUND, Q_STRENGTH) \
    W(NEED_ROAD, "CI_road", "strength needed at road pressure", "", "", GROUND, Q_STRENGTH) \
    W(NEED, "CI_need", "strength needed at the pressure", "", "", GROUND, Q_STRENGTH) \
    W(GAIN, "gain", "of needed strength", "D18", "1 - CI_need/CI_road", STATICS, Q_SHARE) \
    W(MASS, "m_eq", "mass to unload at road pressure for the same", "D19", "one factor on all axle loads at the road deflection", STATICS, Q_MASS) \
    W(FIFTY, "VCI50", "strength for fifty passes", "D4", "28.23 + 0.43 MI - 92.67/(MI + 3.67)", VCI50, Q_STRENGTH) \
    W(MMP_ROAD, "MMP_road", "mean maximum pressure at road pressure", "D15", "as MMP", ROWLAND, Q_STRENGTH) \
    W(MMP, "MMP", "mean maximum pressure, worst axle", "D15", "K W g/(b^0.85 OD^1.15 sqrt(d/SH))", ROWLAND, Q_STRENGTH) \
    W(PULL, "pull", "pull left over load", "D17", "(driven pull - resistance)/W - sin(slope) - 0.05", PULL, Q_NUMBER) \
    W(SINKAGE, "z", "sinkage in the snow", "D13", "CRREL shallow snow", SNOW, Q_LENGTH) \
    W(TRACTION, "T/W", "traction over driven load", "D12", "CRREL shallow snow", SNOW, Q_NUMBER)
// clang-format on

enum row_id {
#define ROW_ENUM(id, symbol, what, equation, formula, ref, q) ROW_##id,
    ROW_TABLE(ROW_ENUM)
#undef ROW_ENUM
        ROW_COUNT
};

static const struct {
    const char *symbol, *what, *equation, *formula;
    enum ref ref;
    enum quantity q;
} ROWS[ROW_COUNT] = {
#define ROW_ROW(id, symbol, what, equation, formula, ref, q)                                       \
    [ROW_##id] = {symbol, what, equation, formula, REF_##ref, q},
    ROW_TABLE(ROW_ROW)
#undef ROW_ROW
};

static struct working_row *put(struct working *w, const char *where, enum row_id id, double si)
{
    return working_add(w, where, ROWS[id].symbol, ROWS[id].what, ROWS[id].equation,
                       ROWS[id].formula, ref_text(ROWS[id].ref), ref_standing(ROWS[id].ref), si,
                       ROWS[id].q);
}

/* Nothing is appended for a number that there is not; the scratch row takes the inputs. */
static struct working_row *put_maybe(struct working *w, const char *where, enum row_id id,
                                     struct maybe m)
{
    return m.is ? put(w, where, id, m.v) : &w->spill;
}

static void cite(struct working_row *r, enum ref ref)
{
    r->source = ref_text(ref);
    r->standing = ref_standing(ref);
}

static void band(struct working_row *r, double low, double high)
{
    r->low = maybe_of(low);
    r->high = maybe_of(high);
}

static struct maybe given(double x)
{
    return x > 0.0 ? maybe_of(x) : maybe_none();
}

/* ---- an axle ---- */

static void put_tyre(const struct advice *a, int i, struct working *w)
{
    const char *where = axle_name((enum axle_id)i);
    const struct axle_advice *x = &a->axle[i];
    const struct tyre_spec *spec = &a->rig.axle[i].tyre;
    struct working_row *r = put(w, where, ROW_AXLE_LOAD, x->load_kg);
    working_in(r, "weighed", a->rig.axle[i].load_kg, Q_MASS);
    r = put(w, where, ROW_HEAVIER, x->heavier_kg);
    working_in(r, "left share", a->rig.axle[i].left_share_1, Q_SHARE);
    r = put(w, where, ROW_OD, 2.0 * x->tyre.r0_m);
    if (spec->outside_diameter_m > 0.0) {
        cite(r, REF_PROFILE);
    }
    r = put(w, where, ROW_SN, x->tyre.section_width_m);
    if (spec->section_width_m > 0.0) {
        cite(r, REF_PROFILE);
    }
    r = put(w, where, ROW_SH, x->section_height_m);
    working_in(r, "rim", 2.0 * x->tyre.rim_radius_m, Q_LENGTH);
    (void)put_maybe(w, where, ROW_LMAX, given(x->tyre.max_load_kg));
    (void)put_maybe(w, where, ROW_PMAX, given(x->tyre.max_gauge_pa));
}

static void put_floors(const struct axle_advice *x, const char *where, const struct ground *g,
                       struct working *w)
{
    struct working_row *r = put_maybe(w, where, ROW_P_AIM, x->aim_gauge_pa);
    working_in(working_in(r, "aim", g->aim_1, Q_SHARE), "W_max", x->heavier_kg, Q_MASS);
    r = put_maybe(w, where, ROW_F_DEFLECTION, x->deflection_floor_gauge_pa);
    working_in(r, "limit", g->limit_1, Q_SHARE);
    (void)put_maybe(w, where, ROW_F_BEAD, x->bead_floor_gauge_pa);
    (void)put_maybe(w, where, ROW_F_MAKER, x->maker_floor_gauge_pa);
    (void)put_maybe(w, where, ROW_F_SLOPE, x->side_slope_floor_gauge_pa);
    (void)put(w, where, ROW_FLOOR, x->floor_gauge_pa);
}

static void put_pressures(const struct advice *a, int i, struct working *w)
{
    const char *where = axle_name((enum axle_id)i);
    const struct axle_advice *x = &a->axle[i];
    const struct axle *axle = &a->rig.axle[i];
    struct working_row *r = put(w, where, ROW_P_ROAD, x->road_gauge_pa);
    if (axle->road_estimated) {
        cite(r, REF_PRACTICE);
    }
    r = put_maybe(w, where, ROW_P_TABLE, x->table_gauge_pa);
    working_in(r, "n", x->tyre.load_exponent_1, Q_NUMBER);
    put_floors(x, where, &a->ground, w);
    r = put(w, where, ROW_TARGET, x->target_gauge_pa);
    working_in(r, "p_floor", x->floor_gauge_pa, Q_PRESSURE);
    working_in(r, "p_road", x->road_gauge_pa, Q_PRESSURE);
    (void)put_maybe(w, where, ROW_STUCK, x->stuck_gauge_pa);
    r = put(w, where, ROW_SET_NOW, x->set_now_gauge_pa);
    working_in(r, "T", a->tyre_temp_k[i], Q_TEMPERATURE);
    working_in(r, "T_road", axle->road_temp_k, Q_TEMPERATURE);
    working_in(r, "offset", a->rig.air.gauge_offset_pa, Q_PRESSURE);
    (void)put_maybe(w, where, ROW_P_AT, x->at_gauge_pa);
}

/* ---- a corner ---- */

static void put_deflection(const struct axle_advice *x, const struct corner_advice *c,
                           const char *where, struct working *w)
{
    struct working_row *r = put(w, where, ROW_KS, c->at.stiffness_n_m);
    working_in(r, "p", c->at.p_gauge_pa, Q_PRESSURE);
    working_in(r, "kcal", x->tyre.kcal_1, Q_NUMBER);
    if (x->tyre.calibrated != TYRE_UNCALIBRATED) {
        cite(r, REF_TAPE);
    }
    (void)put(w, where, ROW_D_ROAD, c->road.deflection_m);
    r = put(w, where, ROW_D, c->at.deflection_m);
    working_in(r, "Ks", c->at.stiffness_n_m, Q_STIFFNESS);
    (void)put(w, where, ROW_D_SHARE_ROAD, c->road.deflection_1);
    r = put(w, where, ROW_D_SHARE, c->at.deflection_1);
    band(r, c->deflection_low_1, c->deflection_high_1);
    (void)put(w, where, ROW_RADIUS, c->at.loaded_radius_m);
    (void)put(w, where, ROW_CLEARANCE, c->clearance_loss_m);
    r = put(w, where, ROW_ROLLING, c->at.rolling_radius_m);
    working_in(r, "d0", x->tyre.d0_m, Q_LENGTH);
}

static void put_patch(const struct axle_advice *x, const struct corner_advice *c, const char *where,
                      struct working *w)
{
    (void)put(w, where, ROW_LENGTH_ROAD, c->road.patch.length_m);
    struct working_row *r = put(w, where, ROW_LENGTH, c->at.patch.length_m);
    working_in(r, "TW", x->tyre.tread_width_m, Q_LENGTH);
    working_in(r, "kL", x->tyre.k_length_1, Q_NUMBER);
    (void)put(w, where, ROW_WIDTH, c->at.patch.width_m);
    (void)put(w, where, ROW_AREA_ROAD, c->road.patch.area_m2);
    r = put(w, where, ROW_AREA, c->at.patch.area_m2);
    working_in(r, "kA", x->tyre.k_area_1, Q_NUMBER);
    band(put(w, where, ROW_GROWTH_A, c->area_growth_1), c->area_growth_low_1,
         c->area_growth_high_1);
    band(put(w, where, ROW_GROWTH_L, c->length_growth_1), c->length_growth_low_1,
         c->length_growth_high_1);
    (void)put(w, where, ROW_MEAN, c->at.patch.mean_pa);
}

static void put_capacity(const struct axle_advice *x, const struct corner_advice *c,
                         const char *where, struct working *w)
{
    struct working_row *r = put_maybe(w, where, ROW_CAPACITY, c->at.capacity_kg);
    working_in(r, "n", x->tyre.load_exponent_1, Q_NUMBER);
}

static void put_speeds(const struct corner_advice *c, const char *where, struct working *w)
{
    (void)put(w, where, ROW_RETENTION, c->retention_1);
    (void)put_maybe(w, where, ROW_V_DEFLECTION, c->deflection_cap_mps);
    (void)put_maybe(w, where, ROW_V_RETENTION, c->retention_cap_mps);
    (void)put_maybe(w, where, ROW_V_STANDARD, c->standard_speed_mps);
}

static void put_corner(const struct advice *a, int i, enum side side, struct working *w)
{
    const char *where = corner_name((enum axle_id)i, side);
    const struct axle_advice *x = &a->axle[i];
    const struct corner_advice *c = &x->corner[side];
    (void)put(w, where, ROW_LOAD, c->load_kg);
    if (a->refusal.code != REFUSAL_NONE) {
        put_capacity(x, c, where, w);
        return;
    }
    put_deflection(x, c, where, w);
    put_patch(x, c, where, w);
    put_capacity(x, c, where, w);
    put_speeds(c, where, w);
}

/* ---- the ground ---- */

/* How the needed strength is found depends on the method. */
static void put_needed(const struct flotation *f, struct working *w)
{
    static const struct {
        enum flotation_method method;
        const char *equation, *formula;
        enum ref ref;
    } ways[] = {
        {FLOTATION_VCI, "D2", "(11.48 + 0.2 MI - 39.2/(MI + 3.74)) (0.15/(d/SH))^0.25, worst axle",
         REF_VCI},
        {FLOTATION_SAND_NUMBER, "D10", "CI with 0.53 - 4.5/(Ns + 3.7) = 0.10, worst driven axle",
         REF_SAND},
        {FLOTATION_PULL, "D17", "CI at which no pull is left over", REF_PULL},
    };
    for (size_t i = 0; i < sizeof ways / sizeof ways[0]; i++) {
        if (ways[i].method != f->method) {
            continue;
        }
        struct working_row *rows[] = {put_maybe(w, "", ROW_NEED_ROAD, f->needed_road_pa),
                                      put_maybe(w, "", ROW_NEED, f->needed_target_pa)};
        for (int k = 0; k < 2; k++) {
            rows[k]->equation = ways[i].equation;
            rows[k]->formula = ways[i].formula;
            cite(rows[k], ways[i].ref);
        }
    }
}

static void put_others(const struct flotation *f, struct working *w)
{
    for (int i = 0; i < f->n_other; i++) {
        bool brixius = f->other[i].method == FLOTATION_BRIXIUS;
        struct working_row *rows[] = {put_maybe(w, "", ROW_NEED_ROAD, f->other[i].needed_road_pa),
                                      put_maybe(w, "", ROW_NEED, f->other[i].needed_target_pa)};
        for (int k = 0; k < 2; k++) {
            rows[k]->equation = brixius ? "D6" : "D7";
            rows[k]->formula = flotation_method_name(f->other[i].method);
            cite(rows[k], brixius ? REF_BRIXIUS : REF_MACLAURIN);
        }
    }
}

static void put_flotation(const struct flotation *f, struct working *w)
{
    (void)put_maybe(w, "", ROW_STRENGTH, f->strength_pa);
    put_needed(f, w);
    (void)put_maybe(w, "", ROW_GAIN, f->gain_1);
    (void)put_maybe(w, "", ROW_MASS, f->mass_equivalent_kg);
    (void)put_maybe(w, "", ROW_FIFTY, f->repeated_pa);
    put_others(f, w);
    (void)put_maybe(w, "", ROW_PULL, f->pull_margin_1);
    (void)put_maybe(w, "", ROW_SINKAGE, f->sinkage_m);
    (void)put_maybe(w, "", ROW_TRACTION, f->traction_target_1);
    (void)put_maybe(w, "", ROW_MMP_ROAD, f->mmp_road_pa);
    (void)put_maybe(w, "", ROW_MMP, f->mmp_target_pa);
}

void advice_working(const struct advice *a, struct working *w)
{
    bool refused = a->refusal.code != REFUSAL_NONE;
    for (int i = 0; i < AXLE_COUNT; i++) {
        if (!a->axle[i].present) {
            continue;
        }
        put_tyre(a, i, w);
        if (!refused) {
            put_pressures(a, i, w);
        }
        put_corner(a, i, SIDE_LEFT, w);
        put_corner(a, i, SIDE_RIGHT, w);
    }
    if (refused) {
        return;
    }
    (void)put(w, "", ROW_AMBIENT, a->ambient_abs_pa);
    (void)put_maybe(w, "", ROW_V_CAP, a->cap_mps);
    put_flotation(&a->flotation, w);
}
