/* json.h - a builder of one JSON object. The first thing that cannot be written (a number that is
 * not finite, text that is not UTF-8) is remembered and makes json_end fail: nothing is printed.
 *
 *   struct json j;
 *   json_begin(&j);
 *   json_put_text(&j, "tool", "sandshoe");
 *   json_open_array(&j, "corners");
 *   json_open_object(&j, NULL);            in an array there are no keys
 *   json_put_number(&j, "load_kg", 975);
 *   json_close(&j);
 *   json_close(&j);
 *   s = json_end(&j, &out);           always to be called: it gives the memory back */
#ifndef SANDSHOE_REPORT_JSON_H
#define SANDSHOE_REPORT_JSON_H

#include <stdbool.h>

#include "base/num.h"
#include "base/status.h"
#include "base/text.h"

enum { JSON_DEPTH = 12 };

struct json {
    int depth;
    void *open[JSON_DEPTH]; /* objects and arrays not closed yet; open[0] is the whole */
    enum status status;
};

void json_begin(struct json *j);

/* json_open_object, json_open_array - open one under key (NULL in an array); json_close closes the last. */
void json_open_object(struct json *j, const char *key);
void json_open_array(struct json *j, const char *key);
void json_close(struct json *j);

void json_put_number(struct json *j, const char *key, double v);
void json_put_maybe(struct json *j, const char *key, struct maybe m); /* null when absent */
void json_put_integer(struct json *j, const char *key, long v);
void json_put_flag(struct json *j, const char *key, bool v);
void json_put_text(struct json *j, const char *key, const char *s);
void json_put_null(struct json *j, const char *key);

/* json_put_pair - an array of two numbers. */
void json_put_pair(struct json *j, const char *key, double lo, double hi);

/* json_end - append the object with a newline and free it.
 * ret STATUS_OK; E_DOMAIN (a number is not finite); E_SYNTAX (text is not UTF-8); E_FULL (out is
 * too small); E_MEMORY. On error out is untouched. */
enum status json_end(struct json *j, struct text *out) MUST_CHECK;

#endif
