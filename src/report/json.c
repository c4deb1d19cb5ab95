#include "report/json.h"

#include <jansson.h>
#include <math.h>
#include <stdlib.h>
#include <string.h>

/* Digits: enough for every quantity shown, few enough that 0.1 prints as 0.1. */
enum { JSON_DIGITS = 12 };

static void fail(struct json *j, enum status s)
{
    if (j->status == STATUS_OK) {
        j->status = s;
    }
}

void json_begin(struct json *j)
{
    *j = (struct json){.depth = 1, .status = STATUS_OK};
    j->open[0] = json_object();
    if (!j->open[0]) {
        fail(j, STATUS_E_MEMORY);
    }
}

/* Takes value over, also when it cannot be put anywhere. */
static void put(struct json *j, const char *key, json_t *value, enum status if_null)
{
    if (!value) {
        fail(j, if_null);
        return;
    }
    json_t *to = j->depth > 0 ? j->open[j->depth - 1] : NULL;
    int bad = json_is_array(to) ? json_array_append_new(to, value)
                                : json_object_set_new(to, key ? key : "", value);
    if (bad != 0) {
        fail(j, STATUS_E_MEMORY);
    }
}

static void open_one(struct json *j, const char *key, json_t *value)
{
    if (j->depth >= JSON_DEPTH) {
        json_decref(value);
        fail(j, STATUS_E_FULL);
        return;
    }
    put(j, key, value, STATUS_E_MEMORY);
    j->open[j->depth++] = value;
}

void json_open_object(struct json *j, const char *key)
{
    open_one(j, key, json_object());
}

void json_open_array(struct json *j, const char *key)
{
    open_one(j, key, json_array());
}

void json_close(struct json *j)
{
    if (j->depth > 1) {
        j->depth--;
    }
}

void json_put_number(struct json *j, const char *key, double v)
{
    put(j, key, isfinite(v) ? json_real(v) : NULL, STATUS_E_DOMAIN);
}

void json_put_maybe(struct json *j, const char *key, struct maybe m)
{
    if (m.is) {
        json_put_number(j, key, m.v);
    } else {
        json_put_null(j, key);
    }
}

void json_put_integer(struct json *j, const char *key, long v)
{
    put(j, key, json_integer(v), STATUS_E_MEMORY);
}

void json_put_flag(struct json *j, const char *key, bool v)
{
    put(j, key, json_boolean(v), STATUS_E_MEMORY);
}

void json_put_text(struct json *j, const char *key, const char *s)
{
    put(j, key, json_string(s), STATUS_E_SYNTAX);
}

void json_put_null(struct json *j, const char *key)
{
    put(j, key, json_null(), STATUS_E_MEMORY);
}

void json_put_pair(struct json *j, const char *key, double lo, double hi)
{
    json_open_array(j, key);
    json_put_number(j, NULL, lo);
    json_put_number(j, NULL, hi);
    json_close(j);
}

enum status json_end(struct json *j, struct text *out)
{
    char *s = j->status == STATUS_OK
                  ? json_dumps(j->open[0], JSON_INDENT(2) | JSON_REAL_PRECISION(JSON_DIGITS))
                  : NULL;
    json_decref(j->open[0]);
    j->open[0] = NULL;
    if (!s) {
        return j->status == STATUS_OK ? STATUS_E_MEMORY : j->status;
    }
    enum status status = strlen(s) + 2 > out->cap - out->len ? STATUS_E_FULL : STATUS_OK;
    if (status == STATUS_OK) {
        text_put(out, "%s\n", s);
    }
    free(s);
    return status;
}
