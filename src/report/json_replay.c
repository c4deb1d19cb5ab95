#include "report/json_replay.h"

static void put_kpa(struct json *j, const char *key, double pa)
{
    json_put_maybe(j, key, maybe_of(units_in(pa, Q_PRESSURE, "kPa")));
}

static void put_time(struct json *j, const char *key, const struct forecast_time *t)
{
    const struct {
        const char *key;
        double s;
    } parts[] = {
        {"p05", t->p05_s}, {"p25", t->p25_s}, {"p50", t->p50_s},
        {"p75", t->p75_s}, {"p95", t->p95_s},
    };
    json_open_object(j, key);
    for (size_t i = 0; i < sizeof parts / sizeof parts[0]; i++) {
        json_put_maybe(j, parts[i].key, maybe_of(parts[i].s));
    }
    json_close(j);
}

static void put_gauge(struct json *j, const char *key, const struct forecast_gauge *g)
{
    json_open_object(j, key);
    put_kpa(j, "p05", g->p05_gauge_pa);
    put_kpa(j, "p50", g->p50_gauge_pa);
    put_kpa(j, "p95", g->p95_gauge_pa);
    json_close(j);
}

static const char *name_of(int corner)
{
    return corner_name((enum axle_id)(corner / SIDE_COUNT), (enum side)(corner % SIDE_COUNT));
}

static void put_by_corner(struct json *j, const char *key, const struct forecast_out *o)
{
    json_open_object(j, key);
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (o->corner[c].present) {
            put_time(j, name_of(c), &o->corner[c].finish);
        }
    }
    json_close(j);
}

static void put_out_of_step(struct json *j, unsigned corners)
{
    json_open_array(j, "out_of_step");
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (corners >> c & 1U) {
            json_put_text(j, NULL, name_of(c));
        }
    }
    json_close(j);
}

/* Letting down needs no machine: no delivery to speak of then. */
static void put_forecast(struct json *j, const struct forecast_out *o, bool up)
{
    json_put_number(j, "running_s", o->running_s);
    put_time(j, "finish_s", &o->finish);
    put_time(j, "finish_wall_s", &o->finish_wall);
    put_by_corner(j, "finish_by_corner", o);
    json_open_object(j, "delivery_ratio");
    json_put_maybe(j, "p05", up ? maybe_of(o->delivery.p05_1) : maybe_none());
    json_put_maybe(j, "p50", up ? maybe_of(o->delivery.p50_1) : maybe_none());
    json_put_maybe(j, "p95", up ? maybe_of(o->delivery.p95_1) : maybe_none());
    json_close(j);
    json_put_number(j, "arrives", o->arrives_1);
    json_put_text(j, "fit", forecast_fit_name(o->fit));
    put_out_of_step(j, o->out_of_step);
}

static void put_row(struct json *j, const struct replay_row *row, bool up, bool undone)
{
    char buf[120];
    struct text t = text_over(buf, sizeof buf);
    refill_log_corners_put(row->corners, &t);
    json_open_object(j, NULL);
    json_put_number(j, "at_s", row->at_s);
    json_put_text(j, "corner", buf);
    put_kpa(j, "reading_kpa", row->reading_pa);
    json_put_flag(j, "flowing", row->flowing);
    json_put_flag(j, "undone", undone);
    put_forecast(j, &row->out, up);
    json_close(j);
}

static void put_final(struct json *j, const struct replay_report *r)
{
    if (!r->forecast) {
        json_put_null(j, "final");
        return;
    }
    json_open_object(j, "final");
    json_put_number(j, "at_s", r->session.now_s);
    json_put_flag(j, "done", r->session.done);
    put_forecast(j, &r->final, r->session.up);
    json_open_array(j, "corners");
    for (int c = 0; c < REFILL_CORNERS; c++) {
        const struct forecast_corner *k = &r->final.corner[c];
        if (k->present) {
            json_open_object(j, NULL);
            json_put_text(j, "corner", name_of(c));
            if (r->session.up) {
                json_put_null(j, "core");
            } else {
                json_put_text(j, "core", r->session.core_out >> c & 1U ? "out" : "in");
            }
            put_kpa(j, "target_kpa", k->target_gauge_pa);
            put_kpa(j, "stop_reading_kpa", k->stop_reading_gauge_pa);
            put_gauge(j, "settled_kpa", &k->settled);
            json_put_maybe(j, "at_target", maybe_of(k->at_target_1));
            json_put_text(j, "fit", forecast_fit_name(k->fit));
            json_close(j);
        }
    }
    json_close(j);
    json_close(j);
}

enum status json_replay_put(const struct json_head *head, const struct replay_report *r,
                            struct text *out)
{
    struct json j;
    json_begin(&j);
    json_part_head(&j, head);
    json_put_text(&j, "job", r->session.up ? "up" : "down");
    json_put_text(&j, "hookup", hookup_name(r->session.hookup));
    json_put_flag(&j, "torn", r->torn);
    json_open_array(&j, "forecasts");
    for (int i = 0; i < r->n_row; i++) {
        put_row(&j, &r->row[i], r->session.up, r->session.reading[r->row[i].reading].undone);
    }
    json_close(&j);
    put_final(&j, r);
    return json_end(&j, out);
}
