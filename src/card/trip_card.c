#include "card/trip_card.h"

#include <math.h>

#include "base/text.h"
#include "card/words.h"
#include "sim/trip_caution.h"

static void put_heading(const struct card_trip_source *s, struct card_content *c)
{
    char name[CARD_TITLE];
    struct text t = text_over(name, sizeof name);
    card_put_capitals(s->in->trip->name, &t);
    card_start(c, name, "[trip] name");
    c->legs = true;
    const struct rig *rig = s->in->rig;
    struct text subject = text_over(c->subject, sizeof c->subject);
    text_put(&subject, "%s%s%s", rig->name, rig->load_state[0] != '\0' ? ", " : "",
             rig->load_state);
    CARD_PUT_WORD(c->subject_key, "[rig] name");
    card_put_units(c, s->units);
}

static void add_columns(const struct rig *rig, struct card_content *c)
{
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (rig->axle[a].present) {
            (void)card_add_column(c, card_axle_word(a), card_axle_brief(a));
        }
    }
    (void)card_add_column(c, "MAX km/h", "km/h");
    (void)card_add_column(c, "DRIVE min", "min");
    (void)card_add_column(c, "BEFORE min", "before");
}

static bool add_leg(const struct card_trip_source *s, int i, struct card_content *c)
{
    const struct trip_leg_plan *leg = &s->plan->leg[i];
    char title[CARD_TITLE], key[CARD_KEY];
    struct text t = text_over(title, sizeof title), k = text_over(key, sizeof key);
    text_put(&t, "%d %s, %.0f km", i + 1, s->in->ground[i]->title,
             units_in(s->in->trip->leg[i].length_m, Q_LENGTH, "km"));
    text_put(&k, "[leg-%d] ground", i + 1);
    struct card_row *row = card_add_row(c, CARD_ROW_PLAIN, title, key);
    if (!row) {
        return false;
    }
    int col = 0;
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (s->in->rig->axle[a].present) {
            card_put_pressure(&row->cell[col++], leg->cold_gauge_pa[a], 0.0, s->units);
        }
    }
    card_put_cap(&row->cell[col++], leg->cap_mps);
    struct text drive = text_over(row->cell[col].value, sizeof row->cell[col].value);
    card_put_minutes(leg->drive_s, &drive);
    struct text action = text_over(row->cell[col + 1].value, sizeof row->cell[col + 1].value);
    if (leg->action != TRIP_NONE) {
        text_put(&action, leg->action == TRIP_DOWN ? "down " : "up "); /* how far: see the row */
        if (leg->source_too_weak) {
            text_put(&action, "?");
        } else {
            card_put_minutes(leg->action_s, &action);
        }
    }
    return true;
}

/* What a sealed tyre will read at the coldest, lowest point. */
static void add_coldest(const struct card_trip_source *s, struct card_content *c)
{
    char words[CARD_LINE];
    struct text t = text_over(words, sizeof words);
    text_put(&t, "COLDEST, end of leg %d (", s->plan->coldest_leg + 1);
    units_put(&t, s->plan->coldest_temp_k, Q_TEMPERATURE, s->units, 0);
    text_put(&t, ", %.0f m): reads", s->plan->coldest_height_m);
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (s->in->rig->axle[a].present) {
            text_put(&t, " %s ", card_axle_brief(a));
            units_put_bare(&t, s->plan->coldest_gauge_pa[a], Q_PRESSURE, s->units, 0);
        }
    }
    (void)card_add_line(c, CARD_NOTE, "", "%s", words);
}

/* The legs after which a gauge will read too little: look before driving on. */
static void add_low(const struct card_trip_source *s, struct card_content *c)
{
    char legs[CARD_TITLE];
    struct text t = text_over(legs, sizeof legs);
    for (int i = 0; i < s->plan->n_leg; i++) {
        if (trip_reads_low(&s->plan->leg[i])) {
            text_put(&t, "%s%d", t.len > 0 ? ", " : "", i + 1);
        }
    }
    if (t.len > 0) {
        (void)card_add_line(c, CARD_CAUTION, "", "CAUTION Will read low after leg %s: recheck.",
                            legs);
    }
}

/* A pressure that must be set higher than planned, before it is set. */
static void add_least(const struct card_trip_source *s, struct card_content *c)
{
    for (int i = 0; i < s->plan->n_leg; i++) {
        char words[CARD_LINE];
        struct text t = text_over(words, sizeof words);
        for (int a = 0; a < AXLE_COUNT; a++) {
            if (s->plan->leg[i].least_set_gauge_pa[a] > 0.0) {
                text_put(&t, " %s ", card_axle_brief(a));
                units_put_bare(&t, trip_least_to_set(s->in, &s->plan->leg[i], a), Q_PRESSURE,
                               s->units, 0);
            }
        }
        if (t.len > 0) {
            (void)card_add_line(c, CARD_CAUTION, "", "DANGER  Before leg %d set at least%s.", i + 1,
                                words);
        }
    }
}

/* A change that cannot be made, or not where it is wanted. */
static void add_cannot(const struct card_trip_source *s, struct card_content *c)
{
    for (int i = 0; i < s->plan->n_leg; i++) {
        const struct trip_leg_plan *leg = &s->plan->leg[i];
        if (leg->source_too_weak) {
            (void)card_add_line(c, CARD_CAUTION, "", "DANGER  Own air cannot fill before leg %d.",
                                i + 1);
        }
        if (leg->forced_soft) {
            (void)card_add_line(c, CARD_CAUTION, "",
                                "DANGER  Leg %d: no stop, so soft tyres on it.", i + 1);
        }
    }
}

/* What to do where the air fails: "AIR FAILS before leg 3: at most 30 km/h; leg 5: 30." */
static void add_abort(const struct card_trip_source *s, struct card_content *c)
{
    char words[CARD_LINE];
    struct text t = text_over(words, sizeof words);
    for (int i = 0; i < s->plan->n_leg; i++) {
        const struct maybe cap = s->plan->leg[i].abort_cap_mps;
        if (cap.is) {
            double kmh = floor(units_in(cap.v, Q_SPEED, "km/h") + 1e-6);
            text_put(&t,
                     t.len > 0 ? "; leg %d: %.0f" : "AIR FAILS before leg %d: at most %.0f km/h",
                     i + 1, kmh);
        }
    }
    if (t.len > 0) {
        (void)card_add_line(c, CARD_NOTE, "", "%s.", words);
    }
}

static void add_total(const struct card_trip_source *s, struct card_content *c)
{
    char words[CARD_LINE];
    struct text t = text_over(words, sizeof words);
    text_put(&t, "TOTAL ");
    card_put_minutes(s->plan->total_s, &t);
    text_put(&t, " min, of it ");
    card_put_minutes(s->plan->action_s, &t);
    text_put(&t, s->plan->no_air ? " for own air" : " for air");
    (void)card_add_line(c, CARD_REFILL, "", "%s", words);
}

static bool all_finite(const struct trip_plan *p)
{
    for (int i = 0; i < p->n_leg; i++) {
        double v[] = {p->leg[i].drive_s, p->leg[i].action_s, p->total_s};
        if (!num_all_finite(3, v) || !num_all_finite(AXLE_COUNT, p->leg[i].cold_gauge_pa)) {
            return false;
        }
    }
    return num_all_finite(AXLE_COUNT, p->coldest_gauge_pa);
}

enum status card_content_of_trip(const struct card_trip_source *source,
                                 struct card_content *content)
{
    if (source->plan->refusal.code != REFUSAL_NONE) {
        return STATUS_E_REFUSED;
    }
    if (source->plan->n_leg < 1 || !all_finite(source->plan)) {
        return STATUS_E_DOMAIN;
    }
    struct card_content c;
    put_heading(source, &c);
    add_columns(source->in->rig, &c);
    for (int i = 0; i < source->plan->n_leg; i++) {
        if (!add_leg(source, i, &c)) {
            return STATUS_E_FULL;
        }
    }
    add_total(source, &c);
    add_least(source, &c);
    add_cannot(source, &c);
    add_low(source, &c);
    card_add_cautions(&c);
    card_add_origin(&c, source->date);
    add_coldest(source, &c);
    add_abort(source, &c);
    card_add_corner_names(source->in->rig, &c);
    if (c.overfull) {
        return STATUS_E_FULL;
    }
    *content = c;
    return STATUS_OK;
}
