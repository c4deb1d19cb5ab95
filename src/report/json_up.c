#include "report/json_air.h"
#include "report/json_working.h"

static void put_kpa(struct json *j, const char *key, double pa)
{
    json_put_number(j, key, units_in(pa, Q_PRESSURE, "kPa"));
}

static void put_corner_names(struct json *j, const char *key, unsigned corners)
{
    json_open_array(j, key);
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (corners >> c & 1U) {
            json_put_text(j, NULL, report_corner_name(c));
        }
    }
    json_close(j);
}

static void put_step(struct json *j, const struct refill_step *s)
{
    json_open_object(j, NULL);
    json_put_text(j, "do", refill_do_name(s->what));
    json_put_number(j, "at_s", s->at_s);
    if (s->for_s > 0.0) {
        json_put_number(j, "for_s", s->for_s);
    }
    put_corner_names(j, "corners", s->corners);
    json_close(j);
}

static void put_corner(struct json *j, int corner, const struct refill_corner_in *in,
                       const struct refill_corner_out *out)
{
    json_open_object(j, NULL);
    json_put_text(j, "corner", report_corner_name(corner));
    put_kpa(j, "from_kpa", in->from_gauge_pa);
    put_kpa(j, "target_kpa", in->target_gauge_pa);
    put_kpa(j, "cold_kpa", in->cold_gauge_pa);
    json_put_flag(j, "reached", out->reached);
    if (out->reached) {
        json_put_number(j, "done_s", out->done_s);
        put_kpa(j, "settled_kpa", out->settled_gauge_pa);
        put_kpa(j, "stop_reading_kpa", out->stop_reading_gauge_pa);
    } else {
        json_put_null(j, "done_s");
        json_put_null(j, "settled_kpa");
        json_put_null(j, "stop_reading_kpa");
    }
    json_close(j);
}

/* Times of a plan that does not reach its targets mean nothing. */
static void put_times(struct json *j, const struct refill_plan *p)
{
    const struct {
        const char *key;
        double s;
    } times[] = {{"running_s", p->running_s},
                 {"rest_s", p->rest_s},
                 {"handling_s", p->handling_s},
                 {"total_s", p->total_s}};
    for (size_t i = 0; i < sizeof times / sizeof times[0]; i++) {
        json_put_maybe(j, times[i].key, p->possible ? maybe_of(times[i].s) : maybe_none());
    }
}

static void put_plan(struct json *j, const struct up_report *r, const struct refill_plan *p)
{
    json_open_object(j, NULL);
    json_put_text(j, "hookup", hookup_name(p->hookup));
    json_put_flag(j, "possible", p->possible);
    json_put_text(j, "problem", refill_problem_name(p->problem));
    put_times(j, p);
    json_put_flag(j, "part_refill_first", p->part_refill);
    json_open_array(j, "steps");
    for (int i = 0; i < p->n_step && p->possible; i++) {
        put_step(j, &p->step[i]);
    }
    json_close(j);
    json_open_array(j, "corners");
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (r->in.corner[c].present) {
            put_corner(j, c, &r->in.corner[c], &p->corner[c]);
        }
    }
    json_close(j);
    json_close(j);
}

static void put_whatifs(struct json *j, const struct refill_out *o)
{
    json_open_array(j, "what_if");
    for (int k = 0; k < WHATIF_COUNT; k++) {
        json_open_object(j, NULL);
        json_put_text(j, "change", refill_whatif_name(o->whatif[k].kind));
        json_put_maybe(j, "gain_s", o->whatif[k].gain_s);
        json_close(j);
    }
    json_close(j);
}

static void put_air(struct json *j, const struct up_report *r)
{
    if (!r->planned) {
        json_put_null(j, "free_air_l");
        json_put_null(j, "source_l_min_at_target");
        return;
    }
    json_put_number(j, "free_air_l", units_in(r->out.free_air_m3, Q_VOLUME, "L"));
    json_put_number(j, "source_l_min_at_target",
                    units_in(r->out.at_target_free_m3_s, Q_FLOW, "L/min"));
    put_whatifs(j, &r->out);
}

enum status json_up_put(const struct json_head *head, const struct up_report *r,
                        const struct working *working, struct text *out)
{
    struct json j;
    json_begin(&j);
    json_part_head(&j, head);
    json_put_text(&j, "from", r->from);
    json_put_text(&j, "to", r->to);
    put_corner_names(&j, "found_low", r->found_low);
    json_open_array(&j, "plans");
    for (int h = 0; h < HOOKUP_COUNT && r->planned; h++) {
        put_plan(&j, r, &r->out.plan[h]);
    }
    json_close(&j);
    put_air(&j, r);
    if (working) {
        json_working_put(&j, "working", working);
    }
    return json_end(&j, out);
}
