#include "report/json_air.h"
#include "report/json_working.h"

static void put_kpa(struct json *j, const char *key, double pa)
{
    json_put_number(j, key, units_in(pa, Q_PRESSURE, "kPa"));
}

static void put_corner(struct json *j, int corner, const struct down_line *c)
{
    const struct down_result *r = &c->result;
    json_open_object(j, NULL);
    json_put_text(j, "corner", report_corner_name(corner));
    put_kpa(j, "from_kpa", c->in.from_gauge_pa); /* the pressure itself: the offset is taken out */
    put_kpa(j, "to_kpa", c->to_reading_pa);
    json_put_number(j, "core_in_s", r->time_s[VALVE_CORE_IN]);
    json_put_number(j, "core_out_s", r->time_s[VALVE_CORE_OUT]);
    put_kpa(j, "stop_reading_core_in_kpa", r->stop_reading_gauge_pa[VALVE_CORE_IN]);
    put_kpa(j, "stop_reading_core_out_kpa", r->stop_reading_gauge_pa[VALVE_CORE_OUT]);
    json_close(j);
}

static void put_refused_corner(struct json *j, int corner)
{
    static const char *const keys[] = {"from_kpa",
                                       "to_kpa",
                                       "core_in_s",
                                       "core_out_s",
                                       "stop_reading_core_in_kpa",
                                       "stop_reading_core_out_kpa"};
    json_open_object(j, NULL);
    json_put_text(j, "corner", report_corner_name(corner));
    for (size_t i = 0; i < sizeof keys / sizeof keys[0]; i++) {
        json_put_null(j, keys[i]);
    }
    json_close(j);
}

enum status json_down_put(const struct json_head *head, const struct down_report *r,
                          const struct working *working, struct text *out)
{
    struct json j;
    bool refused = r->refusal.code != REFUSAL_NONE;
    json_begin(&j);
    json_part_head(&j, head);
    json_put_text(&j, "ground", r->ground->name);
    json_open_array(&j, "corners");
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (r->corner[c].present && refused) {
            put_refused_corner(&j, c);
        } else if (r->corner[c].present) {
            put_corner(&j, c, &r->corner[c]);
        }
    }
    json_close(&j);
    if (working) {
        json_working_put(&j, "working", working);
    }
    return json_end(&j, out);
}
