#include "report/trip_report.h"

#include "report/json_working.h"

static void put_kpa(struct json *j, const char *key, double pa)
{
    json_put_number(j, key, units_in(pa, Q_PRESSURE, "kPa"));
}

static void put_min(struct json *j, const char *key, double s)
{
    json_put_number(j, key, units_in(s, Q_DURATION, "min"));
}

static void put_maybe_min(struct json *j, const char *key, struct maybe s)
{
    json_put_maybe(j, key, s.is ? maybe_of(units_in(s.v, Q_DURATION, "min")) : maybe_none());
}

static void put_maybe_kmh(struct json *j, const char *key, struct maybe mps)
{
    json_put_maybe(j, key, mps.is ? maybe_of(units_in(mps.v, Q_SPEED, "km/h")) : maybe_none());
}

/* front_kpa, rear_kpa, trailer_kpa always; the rarer axles where there are some. */
static void put_axles(struct json *j, const struct rig *rig, const double pa[])
{
    static const struct {
        const char *key;
        enum axle_id axle;
        bool always;
    } keys[] = {{"front_kpa", AXLE_FRONT, true},
                {"middle_kpa", AXLE_MIDDLE, false},
                {"rear_kpa", AXLE_REAR, true},
                {"trailer_kpa", AXLE_TRAILER, true},
                {"trailer2_kpa", AXLE_TRAILER2, false}};
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        if (pa && rig->axle[keys[i].axle].present) {
            put_kpa(j, keys[i].key, pa[keys[i].axle]);
        } else if (keys[i].always) {
            json_put_null(j, keys[i].key);
        }
    }
}

static void put_group(struct json *j, const char *key, const struct rig *rig, const double pa[])
{
    json_open_object(j, key);
    put_axles(j, rig, pa);
    json_close(j);
}

static void put_place(struct json *j, const char *key, double height_m, double temp_k)
{
    json_open_object(j, key);
    json_put_number(j, "height_m", height_m);
    json_put_number(j, "air_c", units_in(temp_k, Q_TEMPERATURE, "C"));
    json_close(j);
}

static void put_action(struct json *j, const struct trip_plan *p, const struct trip_leg_plan *l)
{
    json_put_text(j, "action_before", trip_action_name(l->action));
    put_min(j, "action_min", l->action_s);
    json_put_number(j, "free_air_l", units_in(l->free_air_m3, Q_VOLUME, "L"));
    put_min(j, "rest_min", l->rest_s);
    json_put_text(j, "why", trip_why_text(l->why));
    put_maybe_min(j, "saves_min", l->change_saves_s);
    if (l->other_level >= 0) {
        json_put_text(j, "other_level", p->level[l->other_level].name);
    } else {
        json_put_null(j, "other_level");
    }
    put_maybe_min(j, "other_loses_min", l->other_loses_s);
    put_maybe_kmh(j, "abort_cap_kmh", l->abort_cap_mps);
    json_put_flag(j, "source_too_weak", l->source_too_weak);
}

static void put_leg(struct json *j, const struct trip_report *r, int i)
{
    const struct trip_leg_plan *l = &r->plan->leg[i];
    const struct rig *rig = r->in->rig;
    json_open_object(j, NULL);
    json_put_integer(j, "leg", i + 1);
    json_put_text(j, "ground", r->in->ground[i]->name);
    json_put_text(j, "level", r->plan->level[l->level].name);
    put_axles(j, rig, l->cold_gauge_pa);
    put_maybe_kmh(j, "cap_kmh", l->cap_mps);
    put_maybe_kmh(j, "pace_kmh", l->pace_mps);
    put_min(j, "drive_min", l->drive_s);
    put_min(j, "drive_wish_min", l->drive_wish_s);
    put_action(j, r->plan, l);
    put_place(j, "start", l->start_height_m, l->start_temp_k);
    put_group(j, "start_reading", rig, l->set_gauge_pa);
    put_place(j, "end", l->end_height_m, l->end_temp_k);
    put_group(j, "end_reading", rig, l->end_gauge_pa);
    json_put_flag(j, "reads_low", trip_reads_low(l));
    json_close(j);
}

static void put_refused_leg(struct json *j, const struct trip_report *r, int i)
{
    static const char *const keys[] = {
        "cap_kmh", "drive_min", "action_before", "action_min", "free_air_l", "rest_min", "why"};
    json_open_object(j, NULL);
    json_put_integer(j, "leg", i + 1);
    json_put_text(j, "ground", r->in->ground[i]->name);
    put_axles(j, r->in->rig, NULL);
    for (size_t k = 0; k < sizeof keys / sizeof keys[0]; k++) {
        json_put_null(j, keys[k]);
    }
    json_close(j);
}

static void put_totals(struct json *j, const struct trip_report *r)
{
    const struct trip_plan *p = r->plan;
    put_min(j, "total_min", p->total_s);
    put_min(j, "drive_min", p->drive_s);
    put_min(j, "action_min", p->action_s);
    json_put_number(j, "free_air_l", units_in(p->free_air_m3, Q_VOLUME, "L"));
    json_open_object(j, "coldest_lowest");
    put_axles(j, r->in->rig, p->coldest_gauge_pa);
    json_put_integer(j, "leg", p->coldest_leg + 1);
    json_put_number(j, "height_m", p->coldest_height_m);
    json_put_number(j, "air_c", units_in(p->coldest_temp_k, Q_TEMPERATURE, "C"));
    json_close(j);
}

enum status json_trip_put(const struct json_head *head, const struct trip_report *r,
                          struct text *out)
{
    struct json j;
    bool refused = r->plan->refusal.code != REFUSAL_NONE;
    json_begin(&j);
    json_part_head(&j, head);
    json_put_text(&j, "trip", r->in->trip->name);
    json_open_array(&j, "legs");
    for (int i = 0; i < r->in->trip->n_leg; i++) {
        if (refused) {
            put_refused_leg(&j, r, i);
        } else {
            put_leg(&j, r, i);
        }
    }
    json_close(&j);
    if (refused) {
        json_put_null(&j, "total_min");
        json_put_null(&j, "coldest_lowest");
    } else {
        put_totals(&j, r);
    }
    if (r->working) {
        json_working_put(&j, "working", r->working);
    }
    return json_end(&j, out);
}
