#include "report/json_error.h"

#include "report/json.h"
#include "report/json_part.h"

enum { BAD_FILE = 3 };

static void put_text_or_null(struct json *j, const char *key, const char *s)
{
    if (s[0] != '\0') {
        json_put_text(j, key, s);
    } else {
        json_put_null(j, key);
    }
}

static void put_mistake(struct json *j, const struct diag *d)
{
    json_open_object(j, NULL);
    json_put_text(j, "file", d->file);
    if (d->line > 0) {
        json_put_integer(j, "line", d->line);
    } else {
        json_put_null(j, "line");
    }
    put_text_or_null(j, "section", d->section);
    put_text_or_null(j, "key", d->key);
    json_put_text(j, "text", d->text);
    json_close(j);
}

enum status json_error_put(const struct diag_list *diags, struct text *out)
{
    struct json j;
    json_begin(&j);
    json_part_tool(&j);
    json_put_integer(&j, "status", BAD_FILE);
    json_open_array(&j, "errors");
    for (int i = 0; i < diags->n; i++) {
        put_mistake(&j, &diags->item[i]);
    }
    json_close(&j);
    if (diags->dropped > 0) {
        json_put_integer(&j, "errors_dropped", diags->dropped);
    }
    return json_end(&j, out);
}
