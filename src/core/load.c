#include "core/load.h"

#include <math.h>

#define LOAD_MAX_KG 60000.0 /* kg, an axle: past any road vehicle */

/* ---- weighed axles and added masses (B1) ---- */

static enum status add_masses(const struct rig *rig, bool all_items, double kg[AXLE_COUNT])
{
    double front_kg = 0.0, rear_kg = 0.0;
    for (int i = 0; i < rig->n_mass; i++) {
        const struct added_mass *m = &rig->mass[i];
        if (m->off && !all_items) {
            continue;
        }
        if (rig->wheelbase_m <= 0.0) {
            return STATUS_E_MISSING;
        }
        double rear_share_1 = m->position_m / rig->wheelbase_m;
        rear_kg += m->mass_kg * rear_share_1;
        front_kg += m->mass_kg * (1.0 - rear_share_1);
    }
    bool bogie = rig->axle[AXLE_MIDDLE].present;
    kg[AXLE_FRONT] += front_kg;
    kg[AXLE_REAR] += bogie ? rear_kg / 2.0 : rear_kg;
    kg[AXLE_MIDDLE] += bogie ? rear_kg / 2.0 : 0.0;
    return STATUS_OK;
}

static enum status share_out(const struct axle *x, double load_kg, struct axle_load *l)
{
    bool sound = load_kg > 0.0 && load_kg < LOAD_MAX_KG && x->left_share_1 > 0.0 &&
                 x->left_share_1 < 1.0 && x->wheels >= 2; /* NaN fails */
    if (!sound) {
        return STATUS_E_DOMAIN;
    }
    int tyres_a_side = x->wheels / 2;
    *l = (struct axle_load){
        .present = true,
        .load_kg = load_kg,
        .per_tyre_kg = {load_kg * x->left_share_1 / tyres_a_side,
                        load_kg * (1.0 - x->left_share_1) / tyres_a_side},
    };
    l->heavier_kg = fmax(l->per_tyre_kg[SIDE_LEFT], l->per_tyre_kg[SIDE_RIGHT]);
    return STATUS_OK;
}

enum status load_axles(const struct rig *rig, bool all_items, struct loads *l)
{
    if (!rig->axle[AXLE_FRONT].present || !rig->axle[AXLE_REAR].present) {
        return STATUS_E_MISSING;
    }
    double kg[AXLE_COUNT];
    for (int a = 0; a < AXLE_COUNT; a++) {
        kg[a] = rig->axle[a].load_kg;
    }
    enum status s = add_masses(rig, all_items, kg);
    struct loads made = {0};
    for (int a = 0; a < AXLE_COUNT && s == STATUS_OK; a++) {
        if (rig->axle[a].present) {
            s = share_out(&rig->axle[a], kg[a], &made.axle[a]);
        }
    }
    if (s == STATUS_OK) {
        *l = made;
    }
    return s;
}

double load_uneven(const struct axle_load *l)
{
    double left_kg = l->per_tyre_kg[SIDE_LEFT], right_kg = l->per_tyre_kg[SIDE_RIGHT];
    return fabs(left_kg - right_kg) / ((left_kg + right_kg) / 2.0);
}

/* ---- ratings (B2) ---- */

#define MET_WITHIN 1e-9 /* share of a rating: rounding is no overload */

/* Keeps the refusal that asks for the most to be unloaded. */
static void consider(struct refusal *worst, enum refusal_code code, enum axle_id a, double have_kg,
                     double rated_kg, double axle_kg)
{
    double share_1 = have_kg / rated_kg;
    double excess_kg = axle_kg * (1.0 - 1.0 / share_1);
    if (rated_kg > 0.0 && share_1 > 1.0 + MET_WITHIN && excess_kg > worst->excess_kg) {
        *worst = (struct refusal){.code = code,
                                  .axle = a,
                                  .has_axle = true,
                                  .excess_kg = excess_kg,
                                  .have_kg = have_kg,
                                  .rated_kg = rated_kg,
                                  .share_1 = share_1};
    }
}

static enum status settle(const struct refusal *worst, struct refusal *r)
{
    if (worst->code == REFUSAL_NONE) {
        return STATUS_OK;
    }
    *r = *worst;
    return STATUS_E_REFUSED;
}

enum status load_check_axle(enum axle_id a, const struct axle *x, const struct axle_load *l,
                            const struct tyre *tyre, struct refusal *r)
{
    struct refusal worst = {.code = REFUSAL_NONE};
    consider(&worst, REFUSAL_OVERLOAD_TYRE, a, l->heavier_kg, tyre->max_load_kg, l->load_kg);
    consider(&worst, REFUSAL_OVERLOAD_AXLE, a, l->load_kg, x->rating_kg, l->load_kg);
    return settle(&worst, r);
}

enum status load_check(const struct rig *rig, const struct loads *l,
                       const struct tyre tyre[AXLE_COUNT], struct refusal *r)
{
    struct refusal worst = {.code = REFUSAL_NONE}, one = worst;
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (l->axle[a].present &&
            load_check_axle((enum axle_id)a, &rig->axle[a], &l->axle[a], &tyre[a], &one) ==
                STATUS_E_REFUSED &&
            one.excess_kg > worst.excess_kg) {
            worst = one;
        }
    }
    return settle(&worst, r);
}

/* ---- side slope (B4) ---- */

enum status load_tipping(const struct rig *rig, double cross_slope_rad, double *tipping_1)
{
    if (!(fabs(cross_slope_rad) < NUM_PI / 2.0) || !isfinite(rig->cg_height_m) ||
        !isfinite(rig->track_m)) {
        return STATUS_E_DOMAIN;
    }
    if (rig->cg_height_m <= 0.0 || rig->track_m <= 0.0) {
        return STATUS_E_MISSING;
    }
    double made_1 = rig->cg_height_m / rig->track_m * tan(fabs(cross_slope_rad));
    if (!isfinite(made_1)) {
        return STATUS_E_DOMAIN;
    }
    *tipping_1 = made_1;
    return STATUS_OK;
}

double load_downhill_kg(const struct axle_load *l, double cross_slope_rad, double tipping_1)
{
    double side_kg = l->per_tyre_kg[SIDE_LEFT] + l->per_tyre_kg[SIDE_RIGHT];
    double heavier_share_1 = l->heavier_kg / side_kg;
    return side_kg * cos(cross_slope_rad) * (heavier_share_1 + tipping_1);
}
