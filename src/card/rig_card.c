#include "card/rig_card.h"

#include <math.h>
#include <string.h>

#include "base/num.h"
#include "base/text.h"
#include "base/units.h"
#include "card/words.h"
#include "core/gas.h"

/* Dangers in fewer words, for small cards; "" = the three cautions of every card say it, or it is
 * about lifting a wheel and not about its air. */
static const struct {
    const char *code, *brief;
} BRIEF[] = {
    {"highway-speed", ""},
    {"below-road-pressure", ""},
    {"line-of-fire", ""},
    {"reseat", ""},
    {"jack", ""},
    {"air-springs", "DANGER  Vent air springs before you lift."},
    {"brake-air", "DANGER  Brakes need the air first."},
    {"rim-width", "DANGER  Rim width: stay at road pressure."},
    {"over-inflation", "DANGER  A figure is above the moulded limit."},
};

static bool refused(const struct card_source *s)
{
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (s->rig->axle[a].present && s->rig->axle[a].wheel == WHEEL_MULTI_PIECE) {
            return true;
        }
    }
    for (int i = 0; i < s->n_advice; i++) {
        if (s->advice[i].refusal.code != REFUSAL_NONE) {
            return true;
        }
    }
    return false;
}

static bool all_finite(const struct card_source *s)
{
    for (int i = 0; i < s->n_advice; i++) {
        for (int a = 0; a < AXLE_COUNT; a++) {
            const struct axle_advice *x = &s->advice[i].axle[a];
            const struct tyre_patch *road = &x->corner[0].road.patch, *at = &x->corner[0].at.patch;
            double v[] = {x->road_gauge_pa, x->target_gauge_pa, x->floor_gauge_pa, x->load_kg,
                          road->length_m,   road->width_m,      at->length_m,      at->width_m};
            if (x->present && !num_all_finite(sizeof v / sizeof v[0], v)) {
                return false;
            }
        }
    }
    return true;
}

static double share_of_road(const struct advice *a)
{
    double sum_1 = 0.0;
    int n = 0;
    for (int i = 0; i < AXLE_COUNT; i++) {
        if (a->axle[i].present && a->axle[i].road_gauge_pa > 0.0) {
            sum_1 += a->axle[i].target_gauge_pa / a->axle[i].road_gauge_pa;
            n++;
        }
    }
    return n > 0 ? sum_1 / n : 1.0;
}

int card_softest(int n, const struct advice advice[])
{
    int softest = n > 0 ? 0 : -1;
    for (int i = 1; i < n; i++) {
        if (share_of_road(&advice[i]) < share_of_road(&advice[softest])) {
            softest = i;
        }
    }
    return softest;
}

/* On one ground: its floor, or the stuck step where that is higher, but never above the target;
 * on a sealed road the road pressure itself. */
static double floor_on(const struct advice *advice, int axle)
{
    const struct axle_advice *a = &advice->axle[axle];
    double floor_pa = fmax(a->floor_gauge_pa, maybe_or(a->stuck_gauge_pa, 0.0));
    return advice->ground.road ? a->target_gauge_pa : fmin(floor_pa, a->target_gauge_pa);
}

/* The lowest floor of the grounds listed: no row is below it, and no one may go below it. */
static double floor_of(const struct card_source *s, int axle)
{
    double least_pa = floor_on(&s->advice[0], axle);
    for (int i = 1; i < s->n_advice; i++) {
        least_pa = fmin(least_pa, floor_on(&s->advice[i], axle));
    }
    return least_pa;
}

/* What is known of how much a tyre may carry, "load range E" or "LI 121". */
static void put_rating(const struct tyre_spec *t, struct text *out)
{
    int index = t->load_index > 0 ? t->load_index : t->size.load_index;
    char range = t->load_range;
    if (range == '\0') {
        range = t->size.load_range;
    }
    if (range != '\0') {
        text_put(out, " load range %c", range);
    } else if (index > 0) {
        text_put(out, " LI %d", index);
    }
}

static bool same_tyre(const struct tyre_spec *a, const struct tyre_spec *b)
{
    return strcmp(a->size.text, b->size.text) == 0 && a->load_range == b->load_range &&
           a->load_index == b->load_index;
}

/* The first axle with the same tyre as axle a. */
static int first_like(const struct rig *rig, int a)
{
    for (int b = 0; b < a; b++) {
        if (rig->axle[b].present && same_tyre(&rig->axle[b].tyre, &rig->axle[a].tyre)) {
            return b;
        }
    }
    return a;
}

/* "35x12.50R17LT load range E", or "F R 35x12.50R17LT load range E, T 195R14C" where axles differ. */
static void put_tyres(const struct rig *rig, struct card_content *c)
{
    struct text out = text_over(c->tyre, sizeof c->tyre);
    bool same = true;
    for (int a = 0; a < AXLE_COUNT; a++) {
        same = same && (!rig->axle[a].present || first_like(rig, a) == AXLE_FRONT);
    }
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (!rig->axle[a].present || first_like(rig, a) != a) {
            continue;
        }
        text_put(&out, "%s", out.len > 0 ? ", " : "");
        for (int b = a; b < AXLE_COUNT && !same; b++) {
            if (rig->axle[b].present && first_like(rig, b) == a) {
                text_put(&out, "%s ", card_axle_brief(b));
            }
        }
        text_put(&out, "%s", rig->axle[a].tyre.size.text);
        put_rating(&rig->axle[a].tyre, &out);
    }
    CARD_PUT_WORD(c->tyre_key, "[front] tyre");
}

/* The load state in capitals; without words (the quick form) the axle loads say it. */
static void put_load_state(const struct rig *rig, struct text *out)
{
    card_put_capitals(rig->load_state, out);
    for (int a = 0; a < AXLE_COUNT && rig->load_state[0] == '\0'; a++) {
        if (rig->axle[a].present) {
            text_put(out, "%s%s ", a > 0 ? ", " : "", card_axle_word(a));
            units_put(out, rig->axle[a].load_kg, Q_MASS, UNITS_PSI, 0);
        }
    }
}

static void put_heading(const struct card_source *s, struct card_content *c)
{
    char load_state[CARD_TITLE];
    struct text t = text_over(load_state, sizeof load_state);
    put_load_state(s->rig, &t);
    card_start(c, load_state, "[rig] load_state");
    CARD_PUT_WORD(c->subject, s->rig->quick ? "" : s->rig->name); /* the quick form has no name */
    CARD_PUT_WORD(c->subject_key, "[rig] name");
    put_tyres(s->rig, c);
    card_put_units(c, s->units);
}

/* The road row's title: the temperature that the cold pressures belong to. */
static void road_title(const struct rig *rig, struct text *out)
{
    bool estimated = false;
    double low_k = rig->axle[AXLE_FRONT].road_temp_k, high_k = low_k;
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (rig->axle[a].present) {
            estimated = estimated || rig->axle[a].road_estimated;
            low_k = fmin(low_k, rig->axle[a].road_temp_k);
            high_k = fmax(high_k, rig->axle[a].road_temp_k);
        }
    }
    text_put(out, estimated ? "ROAD estimated, " : "ROAD cold, ");
    units_put_bare(out, low_k, Q_TEMPERATURE, UNITS_PSI, 0);
    if (high_k - low_k > 0.5) {
        text_put(out, " to ");
        units_put_bare(out, high_k, Q_TEMPERATURE, UNITS_PSI, 0);
    }
    text_put(out, " C");
}

/* A spare that is no air tank is carried at the highest road pressure of the truck: it can be let
 * down to suit any of its axles [practice]. */
static double spare_pressure(const struct rig *rig)
{
    if (rig->air.spare) {
        return rig->air.spare_gauge_pa;
    }
    double highest_pa = 0.0;
    for (int a = 0; a < AXLE_TRAILER; a++) {
        if (rig->axle[a].present) {
            highest_pa = fmax(highest_pa, rig->axle[a].road_gauge_pa);
        }
    }
    return highest_pa;
}

static void add_columns(const struct rig *rig, struct card_content *c)
{
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (rig->axle[a].present) {
            (void)card_add_column(c, card_axle_word(a), card_axle_brief(a));
        }
    }
    (void)card_add_column(c, "SPARE", "SP");
    (void)card_add_column(c, "MAX km/h", "km/h");
}

static void add_road_row(const struct card_source *s, struct card_content *c)
{
    char title[CARD_TITLE];
    struct text t = text_over(title, sizeof title);
    road_title(s->rig, &t);
    struct card_row *row = card_add_row(c, CARD_ROW_TARGET, title, "");
    int col = 0;
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (s->rig->axle[a].present) {
            double road_pa = s->advice[0].axle[a].road_gauge_pa;
            card_put_pressure(&row->cell[col++], road_pa, 0.0, s->units);
        }
    }
    card_put_pressure(&row->cell[col], spare_pressure(s->rig), 0.0, s->units);
}

static bool add_ground_row(const struct card_source *s, const struct advice *advice,
                           struct card_content *c)
{
    char key[CARD_KEY];
    struct text k = text_over(key, sizeof key);
    text_put(&k, "[%s] title", advice->ground.name);
    struct card_row *row = card_add_row(c, CARD_ROW_PLAIN, advice->ground.title, key);
    if (!row) {
        return false;
    }
    int col = 0;
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (s->rig->axle[a].present) {
            card_put_pressure(&row->cell[col++], advice->axle[a].target_gauge_pa, floor_of(s, a),
                              s->units);
        }
    }
    card_put_cap(&row->cell[col + 1], advice->cap_mps); /* past the spare */
    return true;
}

static bool add_floor_row(const struct card_source *s, struct card_content *c)
{
    struct card_row *row = card_add_row(c, CARD_ROW_FLOOR, "NEVER BELOW", "");
    if (!row) {
        return false;
    }
    int col = 0;
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (s->rig->axle[a].present) {
            double floor_pa = floor_of(s, a);
            card_put_pressure(&row->cell[col++], floor_pa, floor_pa, s->units);
        }
    }
    return true;
}

/* ---- refill ---- */

/* The corners of a mask in words: whole axles by name, else each corner. */
static void put_corners(unsigned mask, bool brief, struct text *out)
{
    const char *sep = "";
    for (int a = 0; a < AXLE_COUNT; a++) {
        unsigned left = 1U << REFILL_CORNER(a, SIDE_LEFT),
                 right = 1U << REFILL_CORNER(a, SIDE_RIGHT);
        if ((mask & left) && (mask & right)) {
            text_put(out, "%s%s", sep, brief ? card_axle_brief(a) : axle_name((enum axle_id)a));
            sep = " + ";
            continue;
        }
        for (int side = 0; side < SIDE_COUNT; side++) {
            if (mask & (1U << REFILL_CORNER(a, side))) {
                text_put(out, "%s%s", sep, card_corner_word(a, side));
                sep = " + ";
            }
        }
    }
}

/* "front off at 6, rear at 11 min", brief "F off 6, R 11", rests between; minutes from the first
 * air on. */
static void put_steps(const struct refill_plan *plan, bool brief, struct text *out)
{
    const char *sep = "", *off = brief ? " off " : " off at ";
    for (int i = 0; i < plan->n_step; i++) {
        const struct refill_step *step = &plan->step[i];
        if (step->what == REFILL_REST) {
            text_put(out, "%srest ", sep);
            card_put_minutes(step->for_s, out);
            text_put(out, " at ");
        } else if (step->what != REFILL_MOVE && step->corners != 0) {
            text_put(out, "%s", sep);
            put_corners(step->corners, brief, out);
            text_put(out, "%s", off);
            off = brief ? " " : " at ";
        } else {
            continue;
        }
        card_put_minutes(step->at_s, out);
        sep = ", ";
    }
    text_put(out, brief ? "" : " min");
}

static void put_refill(const struct card_source *s, const struct refill_plan *plan, bool brief,
                       struct text *out)
{
    static const char *const how[] = {"all linked", "in pairs", "one at a time"};
    if (!plan->possible) {
        text_put(out, "REFILL: this air source does not reach road pressure. Find air first.");
        return;
    }
    text_put(out, "REFILL ");
    if (!brief) {
        text_put(out, "from %s ", s->refill_from);
    }
    card_put_minutes(plan->total_s, out);
    text_put(out, " min");
    if (!brief) {
        text_put(out, " (%s)", how[plan->hookup]);
    }
    text_put(out, ": ");
    put_steps(plan, brief, out);
}

static void add_refill(const struct card_source *s, struct card_content *c)
{
    const struct refill_plan *plan = s->refill ? &s->refill->plan[s->rig->air.hookup] : NULL;
    if (!plan || plan->problem == REFILL_NOTHING_TO_DO) {
        return;
    }
    char words[CARD_LINE];
    struct text t = text_over(words, sizeof words);
    put_refill(s, plan, false, &t);
    struct card_line *line = card_add_line(c, CARD_REFILL, "[ground] title", "%s", words);
    if (line) {
        struct text b = text_over(line->brief, sizeof line->brief);
        put_refill(s, plan, true, &b);
    }
}

/* ---- cautions and notes ---- */

/* The brief form of a danger: "" = covered, NULL = there is none. */
static const char *brief_of(enum caution_code code)
{
    for (size_t i = 0; i < sizeof BRIEF / sizeof BRIEF[0]; i++) {
        if (strcmp(caution_code_name(code), BRIEF[i].code) == 0) {
            return BRIEF[i].brief;
        }
    }
    return NULL;
}

static bool said_already(const struct card_content *c, const char *words)
{
    for (int i = 0; i < c->n_line; i++) {
        if (strcmp(c->line[i].text, words) == 0) {
            return true;
        }
    }
    return false;
}

static void add_danger(const struct caution *caution, enum unit_system u, struct card_content *c)
{
    const char *brief = brief_of(caution->code);
    char words[CARD_LINE];
    struct text t = text_over(words, sizeof words);
    text_put(&t, "DANGER  ");
    caution_put(caution, u, &t);
    if ((brief && brief[0] == '\0') || said_already(c, words)) {
        return;
    }
    struct card_line *line = card_add_line(c, CARD_CAUTION, "[rig] name", "%s", words);
    if (line && brief) {
        CARD_PUT_WORD(line->brief, brief);
    }
}

static void add_dangers_of(const struct caution_list *list, enum unit_system u,
                           struct card_content *c)
{
    for (int i = 0; i < list->n; i++) {
        if (caution_level_of(list->item[i].code) == CAUTION_DANGER) {
            add_danger(&list->item[i], u, c);
        }
    }
}

/* The dangers that these inputs and this rig raise, each once, before the three of every card. */
static void add_dangers(const struct card_source *s, struct card_content *c)
{
    for (int i = 0; i < s->n_advice; i++) {
        add_dangers_of(&s->advice[i].cautions, s->units, c);
    }
    struct caution_list standing = {.n = 0};
    caution_remind(&standing, CAUTION_JOB_UP, s->rig);
    add_dangers_of(&standing, s->units, c);
}

/* A change of pressure is small: one decimal more than a pressure has, but whole kPa. */
static int more_decimals(enum unit_system u)
{
    return u == UNITS_KPA ? 0 : 1;
}

static void put_change(struct text *out, double change_pa, enum unit_system u)
{
    units_put(out, change_pa, Q_PRESSURE, u, more_decimals(u));
}

/* How much more a tyre reads 15 C warmer, by axle: the allowance when it cannot be read cold. */
static enum status put_warm(const struct card_source *s, struct text *out)
{
    const double rise_k = 15.0;
    text_put(out, "WARM, for each 15 C over cold add ");
    for (int a = 0; a < AXLE_COUNT; a++) {
        const struct axle *axle = &s->rig->axle[a];
        double warm_pa = 0.0;
        if (!axle->present) {
            continue;
        }
        enum status st =
            gas_gauge_moved(axle->road_gauge_pa, axle->road_temp_k, s->advice[0].ambient_abs_pa,
                            axle->road_temp_k + rise_k, s->advice[0].ambient_abs_pa, &warm_pa);
        if (st < 0) {
            return st;
        }
        text_put(out, "%s ", card_axle_brief(a));
        units_put_bare(out, warm_pa - axle->road_gauge_pa, Q_PRESSURE, s->units,
                       more_decimals(s->units));
        text_put(out, " ");
    }
    text_put(out, "%s", units_symbol(Q_PRESSURE, s->units));
    return STATUS_OK;
}

static enum status add_notes(const struct card_source *s, struct card_content *c)
{
    char words[CARD_LINE];
    struct text t = text_over(words, sizeof words);
    enum status st = put_warm(s, &t);
    if (st < 0) {
        return st;
    }
    (void)card_add_line(c, CARD_NOTE, "", "%s", words);
    double low_pa = 0.0, high_pa = 0.0;
    if (gas_ambient(0.0, &low_pa) < 0 || gas_ambient(1000.0, &high_pa) < 0) {
        return STATUS_E_DOMAIN;
    }
    text_clear(&t);
    text_put(&t, "HEIGHT, a set tyre reads ");
    put_change(&t, low_pa - high_pa, s->units);
    text_put(&t, " more per 1000 m up");
    (void)card_add_line(c, CARD_NOTE, "", "%s", words);
    if (s->rig->air.gauge_offset_pa != 0.0) {
        double offset_pa = s->rig->air.gauge_offset_pa;
        text_clear(&t);
        text_put(&t, "GAUGE reads ");
        put_change(&t, fabs(offset_pa), s->units);
        text_put(&t, offset_pa > 0.0 ? " high: set that much more" : " low: set that much less");
        (void)card_add_line(c, CARD_NOTE, "", "%s", words);
    }
    return STATUS_OK;
}

/* ---- plan ---- */

static void add_corners(const struct card_source *s, struct card_content *c)
{
    const struct advice *soft = &s->advice[card_softest(s->n_advice, s->advice)];
    CARD_PUT_WORD(c->softest, soft->ground.title);
    card_add_corner_names(s->rig, c);
    for (int i = 0; i < c->n_corner; i++) {
        struct card_corner *to = &c->corner[i];
        const struct corner_advice *from = &soft->axle[to->axle].corner[to->side];
        struct text load = text_over(to->load, sizeof to->load);
        units_put(&load, from->load_kg, Q_MASS, s->units, 0);
        to->road_length_m = from->road.patch.length_m;
        to->road_width_m = from->road.patch.width_m;
        to->soft_length_m = from->at.patch.length_m;
        to->soft_width_m = from->at.patch.width_m;
    }
}

static enum status add_rows(const struct card_source *s, struct card_content *c)
{
    add_columns(s->rig, c);
    add_road_row(s, c);
    for (int i = 0; i < s->n_advice; i++) {
        if (!add_ground_row(s, &s->advice[i], c)) {
            return STATUS_E_FULL;
        }
    }
    return add_floor_row(s, c) ? STATUS_OK : STATUS_E_FULL;
}

enum status card_content_of_rig(const struct card_source *source, struct card_content *content)
{
    if (source->n_advice < 1) {
        return STATUS_E_DOMAIN;
    }
    if (refused(source)) {
        return STATUS_E_REFUSED;
    }
    if (!all_finite(source)) {
        return STATUS_E_DOMAIN;
    }
    struct card_content c;
    put_heading(source, &c);
    enum status st = add_rows(source, &c);
    if (st < 0) {
        return st;
    }
    add_refill(source, &c);
    add_dangers(source, &c);
    card_add_cautions(&c);
    card_add_origin(&c, source->date);
    st = add_notes(source, &c);
    add_corners(source, &c);
    if (st >= 0 && c.overfull) {
        st = STATUS_E_FULL;
    }
    if (st >= 0) {
        *content = c;
    }
    return st;
}
