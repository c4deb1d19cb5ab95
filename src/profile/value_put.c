#include <string.h>

#include "profile/value.h"

/* decimals beyond the usual ones; zeros at the end are taken off again */
enum { DECIMALS = 4 };

static void drop_zeros(struct text *out, size_t from)
{
    if (!strchr(out->s + from, '.')) {
        return;
    }
    while (out->s[out->len - 1] == '0') {
        out->s[--out->len] = '\0';
    }
    if (out->s[out->len - 1] == '.') {
        out->s[--out->len] = '\0';
    }
}

static void put_quantity(double si, enum quantity q, enum unit_system u, struct text *out)
{
    size_t from = out->len;
    units_put_bare(out, si, q, u, DECIMALS);
    drop_zeros(out, from);
    const char *symbol = units_symbol(q, u);
    text_put(out, "%s%s", symbol[0] != '\0' ? " " : "", symbol);
}

static void put_word(const struct schema_row *row, int index, struct text *out)
{
    const char *w = row->words;
    for (int i = 0; i < index; i++) {
        w += strcspn(w, "|");
        w += *w == '|';
    }
    text_put(out, "%.*s", (int)strcspn(w, "|"), w);
}

static void put_flow(const struct compressor *c, enum unit_system u, struct text *out)
{
    for (int i = 0; i < c->n_flow; i++) {
        text_put(out, "%s", i > 0 ? ", " : "");
        put_quantity(c->flow_gauge_pa[i], Q_PRESSURE, u, out);
        text_put(out, " ");
        put_quantity(c->flow_m3_s[i], Q_FLOW, u, out);
    }
}

/* Zero stands for "not given" unless the key is required or has a default. */
static bool is_given(const struct schema_row *row, double si)
{
    return si != 0.0 || row->need == NEED_DEFAULT || row->need == NEED_REQUIRED;
}

static void put_number(const struct schema_row *row, const char *at, enum unit_system u,
                       struct text *out)
{
    double si = 0.0;
    struct maybe maybe;
    if (row->type == TYPE_MAYBE) {
        memcpy(&maybe, at, sizeof maybe);
        si = maybe.v;
    } else {
        memcpy(&si, at, sizeof si);
        maybe = (struct maybe){is_given(row, si), si};
    }
    if (maybe.is) {
        put_quantity(si, row->q, u, out);
    }
}

void value_put(const struct schema_row *row, const void *section, enum unit_system u,
               struct text *out)
{
    const char *at = (const char *)section + row->offset;
    int number = 0;
    bool flag = false;
    switch (row->type) {
    case TYPE_QUANTITY:
    case TYPE_MAYBE:
        put_number(row, at, u, out);
        break;
    case TYPE_COUNT:
        memcpy(&number, at, sizeof number);
        if (number != 0) {
            text_put(out, "%d", number);
        }
        break;
    case TYPE_WORD:
        memcpy(&number, at, sizeof number);
        put_word(row, number, out);
        break;
    case TYPE_FLAG:
        memcpy(&flag, at, sizeof flag);
        put_word(row, flag, out);
        break;
    case TYPE_TEXT:
    case TYPE_DATE:
    case TYPE_SPEED:
        text_put(out, "%s", at);
        break;
    case TYPE_LETTER:
        if (*at != '\0') {
            text_put(out, "%c", *at);
        }
        break;
    case TYPE_TYRE:
        text_put(out, "%s", ((const struct designation *)(const void *)at)->text);
        break;
    case TYPE_FLOW:
        put_flow((const struct compressor *)(const void *)at, u, out);
        break;
    }
}
