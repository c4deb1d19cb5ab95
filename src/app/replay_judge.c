#include "app/replay_judge.h"

#include <string.h>

#include "core/gas.h"

#define SLACK_PA (0.1 * UNITS_PA_PER_PSI) /* targets are told to a tenth */

#define ABOVE_1  1e-6 /* share: above beyond rounding */

static const char MOST_ALLOWED[] = "rock-steps"; /* its bead floors are the lowest */

struct replay_limits replay_limits_of(const struct context *c, const struct session *s)
{
    static struct advice a;
    struct replay_limits l = {.known = false};
    const struct ground *g = ground_find(&c->grounds, MOST_ALLOWED);
    struct conditions day = {.height_m = c->opt.at_height_m,
                             .air_temp_k = c->opt.at_temp_k,
                             .tyre_temp_k = c->opt.tyre_temp_k};
    if (g == NULL || advice_compute(&c->rig, g, &day, &a) != STATUS_OK) {
        return l;
    }
    l.known = true;
    for (int x = 0; x < AXLE_COUNT; x++) {
        const struct axle_advice *axle = &a.axle[x];
        double cold_pa[] = {
            fmax(maybe_or(axle->bead_floor_gauge_pa, 0), maybe_or(axle->maker_floor_gauge_pa, 0)),
            axle->least_gauge_pa};
        double now_pa[] = {cold_pa[0], cold_pa[1]};
        for (int k = 0; k < 2 && axle->present && l.known; k++) {
            l.known = gas_gauge_moved(cold_pa[k], a.rig.axle[x].road_temp_k, a.ambient_abs_pa,
                                      s->in.tyre_temp_k, a.ambient_abs_pa, &now_pa[k]) >= STATUS_OK;
        }
        l.max_gauge_pa[x] = a.rig.axle[x].tyre.max_gauge_pa;
        l.floor_gauge_pa[x] = fmax(now_pa[0], now_pa[1]);
        l.least_gauge_pa[x] = now_pa[1];
    }
    return l;
}

/* One DANGER of a kind for an axle. */
static void warn(struct caution_list *list, enum caution_code code, int axle, double p_pa,
                 double bound_pa)
{
    for (int i = 0; i < list->n; i++) {
        if (list->item[i].code == code && list->item[i].axle == (enum axle_id)axle) {
            return;
        }
    }
    struct caution *c = caution_at_axle(caution_raise(list, code), (enum axle_id)axle);
    (void)caution_with(caution_with(c, 0, Q_PRESSURE, p_pa, 0), 1, Q_PRESSURE, bound_pa, 0);
}

static void judge_target(const struct replay_limits *l, int axle, double p_pa,
                         struct refusal *refusal, struct caution_list *cautions)
{
    if (refusal->code == REFUSAL_NONE && p_pa < l->least_gauge_pa[axle] - SLACK_PA) {
        *refusal = (struct refusal){.code = REFUSAL_TOO_LOW,
                                    .axle = (enum axle_id)axle,
                                    .has_axle = true,
                                    .have_gauge_pa = p_pa,
                                    .least_gauge_pa = l->least_gauge_pa[axle]};
    } else if (p_pa < l->floor_gauge_pa[axle] - SLACK_PA) {
        warn(cautions, CAUTION_AT_BELOW_FLOOR, axle, p_pa, l->floor_gauge_pa[axle]);
    }
    if (l->max_gauge_pa[axle] > 0 && p_pa > l->max_gauge_pa[axle] * (1 + ABOVE_1)) {
        warn(cautions, CAUTION_OVER_INFLATION, axle, p_pa, l->max_gauge_pa[axle]);
    }
}

void replay_wheels(const struct rig *rig, struct refusal *refusal, struct caution_list *cautions)
{
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (rig->axle[a].present && rig->axle[a].wheel == WHEEL_MULTI_PIECE) {
            (void)caution_at_axle(caution_raise(cautions, CAUTION_MULTI_PIECE), (enum axle_id)a);
            *refusal = (struct refusal){
                .code = REFUSAL_MULTI_PIECE, .axle = (enum axle_id)a, .has_axle = true};
        }
    }
}

/* At the first air of a refill. */
static void judge_found_low(const struct session *s, struct caution_list *cautions)
{
    unsigned low = s->up && s->now_s <= s->first_air_s ? session_found_low(s) & ~s->dropped : 0;
    for (int i = 0; i < REFILL_CORNERS; i++) {
        if (low >> i & 1U) {
            struct caution *c = caution_raise(cautions, CAUTION_FOUND_LOW);
            c->has_axle = c->has_side = true;
            c->axle = (enum axle_id)(i / SIDE_COUNT);
            c->side = (enum side)(i % SIDE_COUNT);
        }
    }
}

void replay_judge(const struct replay_limits *l, const struct session *s, struct refusal *refusal,
                  struct caution_list *cautions)
{
    judge_found_low(s, cautions);
    for (int i = 0; i < REFILL_CORNERS && l->known; i++) {
        int axle = i / SIDE_COUNT;
        const struct session_reading *r = session_last_reading(s, i);
        if (!(s->present >> i & 1U)) {
            continue;
        }
        if (s->in.corner[i].target_gauge_pa > 0) {
            judge_target(l, axle, s->in.corner[i].target_gauge_pa, refusal, cautions);
        }
        if (r != NULL && !r->flowing && l->max_gauge_pa[axle] > 0 &&
            r->p_gauge_pa > l->max_gauge_pa[axle] * (1 + ABOVE_1)) {
            warn(cautions, CAUTION_OVER_INFLATION, axle, r->p_gauge_pa, l->max_gauge_pa[axle]);
        }
    }
}
