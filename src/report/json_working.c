#include "report/json_working.h"

static void put_value(struct json *j, double si, enum quantity q)
{
    const char *unit = units_symbol(q, UNITS_KPA);
    json_put_number(j, "value", units_in(si, q, unit));
    json_put_text(j, "unit", unit);
}

static void put_input(struct json *j, const struct working_input *in)
{
    json_open_object(j, NULL);
    json_put_text(j, "symbol", in->symbol);
    put_value(j, in->si, in->q);
    json_close(j);
}

static void put_row(struct json *j, const struct working_row *r)
{
    const char *unit = units_symbol(r->q, UNITS_KPA);
    json_open_object(j, NULL);
    json_put_text(j, "where", r->where);
    json_put_text(j, "symbol", r->symbol);
    json_put_text(j, "what", r->what);
    json_put_text(j, "equation", r->equation);
    json_put_text(j, "formula", r->formula);
    json_put_text(j, "source", r->source);
    json_put_text(j, "standing", standing_name(r->standing));
    put_value(j, r->si, r->q);
    if (r->low.is && r->high.is) {
        json_put_number(j, "low", units_in(r->low.v, r->q, unit));
        json_put_number(j, "high", units_in(r->high.v, r->q, unit));
    }
    json_open_array(j, "inputs");
    for (int i = 0; i < r->n_in; i++) {
        put_input(j, &r->in[i]);
    }
    json_close(j);
    json_close(j);
}

void json_working_put(struct json *j, const char *key, const struct working *w)
{
    json_open_array(j, key);
    for (int i = 0; i < w->n; i++) {
        put_row(j, &w->row[i]);
    }
    json_close(j);
}
