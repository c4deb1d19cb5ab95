#include "report/json_list.h"

#include "base/units.h"
#include "report/json_part.h"

static const char *const KEYS[LIST_KINDS] = {"rigs", "trips", "compressors", "refills"};

static void put_entry(struct json *j, const struct list_entry *e)
{
    json_open_object(j, NULL);
    json_put_text(j, "name", e->name);
    json_put_text(j, "note", e->note);
    json_put_text(j, "path", e->path);
    json_put_flag(j, "usable", !e->bad);
    json_close(j);
}

static void put_ground(struct json *j, const struct ground *g)
{
    json_open_object(j, NULL);
    json_put_text(j, "name", g->name);
    json_put_text(j, "title", g->title);
    json_put_number(j, "aim", g->aim_1);
    json_put_number(j, "limit", g->limit_1);
    json_put_maybe(j, "cap_kmh",
                   g->cap_mps.is ? maybe_of(units_in(g->cap_mps.v, Q_SPEED, "km/h")) : g->cap_mps);
    json_put_text(j, "hazards", g->hazards);
    json_close(j);
}

static void put_learned(struct json *j, const struct list_learned *l)
{
    json_open_object(j, NULL);
    json_put_text(j, "air_system", l->id);
    json_put_integer(j, "refills", l->refills);
    json_put_number(j, "last_delivery_ratio", l->last_1);
    json_put_number(j, "delivery_ratio", l->delivery_1);
    json_close(j);
}

enum status json_list_put(const struct list_page *page, struct text *out)
{
    struct json j;
    json_begin(&j);
    json_part_tool(&j);
    json_put_integer(&j, "status", 0);
    for (int k = 0; k < LIST_KINDS; k++) {
        json_open_array(&j, KEYS[k]);
        for (int i = 0; i < page->n[k]; i++) {
            put_entry(&j, &page->entry[k][i]);
        }
        json_close(&j);
    }
    json_open_array(&j, "grounds");
    for (int i = 0; i < page->grounds->n; i++) {
        put_ground(&j, &page->grounds->item[i]);
    }
    json_close(&j);
    json_open_array(&j, "learned");
    for (int i = 0; i < page->n_learned; i++) {
        put_learned(&j, &page->learned[i]);
    }
    json_close(&j);
    return json_end(&j, out);
}

enum status json_sound_put(int n, const char *const file[], struct text *out)
{
    struct json j;
    json_begin(&j);
    json_part_tool(&j);
    json_put_integer(&j, "status", 0);
    json_open_array(&j, "files");
    for (int i = 0; i < n; i++) {
        json_put_text(&j, NULL, file[i]);
    }
    json_close(&j);
    return json_end(&j, out);
}
