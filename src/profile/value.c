#include "profile/value.h"

#include <ctype.h>
#include <string.h>

#include "base/date.h"
#include "core/loadindex.h"

static enum status say_unit(enum status s, const char *fault, enum quantity q, const char *what,
                            struct text *why)
{
    char units[128];
    struct text u = text_over(units, sizeof units);
    units_accepted(q, &u);
    text_put(why, "%s (%s %s)", fault, what, units);
    return s;
}

/* The written value with its first comma as a point. */
static enum status say_comma(const char *text, struct text *why)
{
    size_t comma = strcspn(text, ",");
    text_put(why, "a decimal comma (write %.*s.%s)", (int)comma, text, text + comma + 1);
    return STATUS_E_DECIMAL_COMMA;
}

static enum status read_quantity(const char *text, enum quantity q, double *si, struct text *why)
{
    enum status s = units_parse(text, q, si);
    switch ((int)s) {
    case STATUS_OK:
        return s;
    case STATUS_E_UNIT_MISSING:
        return say_unit(s, "a bare number", q, "add the unit:", why);
    case STATUS_E_UNIT_UNKNOWN:
        if (q == Q_NUMBER) {
            text_put(why, "a unit or word where a bare number belongs");
            return s;
        }
        return say_unit(s, "not a unit of this key", q, "use", why);
    case STATUS_E_DECIMAL_COMMA:
        return say_comma(text, why);
    case STATUS_E_DOMAIN:
        text_put(why, "the number is too large");
        return s;
    default:
        if (q == Q_NUMBER) {
            text_put(why, "not a number");
            return s;
        }
        return say_unit(s, "not a number with a unit", q, "units:", why);
    }
}

/* The table's own ranges are read like values; a unit test reads every one of them. */
static double range_end(const char *text, enum quantity q)
{
    double si = 0.0;
    return units_parse(text, q, &si) == STATUS_OK ? si : 0.0;
}

static enum status check_range(const struct schema_row *row, double si, struct text *why)
{
    if (!row->min) {
        return STATUS_OK;
    }
    double lo = range_end(row->min, row->q);
    double hi = range_end(row->max, row->q);
    double slack = 1e-9 * (hi - lo);
    if (si >= lo - slack && si <= hi + slack) {
        return STATUS_OK;
    }
    text_put(why, "out of range (%s to %s)", row->min, row->max);
    return STATUS_E_DOMAIN;
}

static enum status read_word(const struct schema_row *row, const char *text, int *index,
                             struct text *why)
{
    int i = schema_word(row->words, text);
    if (i >= 0) {
        *index = i;
        return STATUS_OK;
    }
    text_put(why, "not one of ");
    schema_words(row->words, why);
    char lower[DIAG_VALUE];
    struct text t = text_over(lower, sizeof lower);
    text_put(&t, "%s", text);
    for (char *p = lower; *p != '\0'; p++) {
        *p = (char)tolower((unsigned char)*p);
    }
    if (schema_word(row->words, lower) >= 0) {
        text_put(why, " (words are written in lower case)");
    }
    return STATUS_E_UNKNOWN;
}

static enum status read_count(const struct schema_row *row, const char *text, int *number,
                              struct text *why)
{
    int word = 0;
    if (row->words && read_word(row, text, &word, why) < 0) {
        return STATUS_E_UNKNOWN;
    }
    double n = 0.0;
    enum status s = read_quantity(text, Q_NUMBER, &n, why);
    if (s < 0) {
        return s;
    }
    if (n < -1e6 || n > 1e6 || n != (int)n) {
        text_put(why, "not a whole number");
        return STATUS_E_DOMAIN;
    }
    *number = (int)n;
    return check_range(row, n, why);
}

static enum status read_text(const struct schema_row *row, const char *text, struct text *why)
{
    if (strlen(text) < row->size) {
        return STATUS_OK;
    }
    text_put(why, "too long (at most %zu bytes)", row->size - 1);
    return STATUS_E_FULL;
}

static enum status read_letter(const char *text, struct text *why)
{
    if (text[0] >= 'B' && text[0] <= 'N' && text[1] == '\0') {
        return STATUS_OK;
    }
    text_put(why, "not a load range (a letter from B to N)");
    return STATUS_E_UNKNOWN;
}

static enum status read_speed(const char *text, struct text *why)
{
    double speed_mps = 0.0;
    if (strlen(text) < 3 && loadindex_speed(text, &speed_mps) == STATUS_OK) {
        return STATUS_OK;
    }
    text_put(why, "not a speed symbol (A1 to A8, B to Y)");
    return STATUS_E_UNKNOWN;
}

static enum status read_tyre(const char *text, struct designation *size, struct text *why)
{
    enum status s = designation_parse(text, size);
    if (s < 0) {
        text_put(why, "cannot be read as a tyre size "
                      "(for example 35x12.50R17LT, LT265/70R17 121/118S, 195/80R15C)");
    }
    return s < 0 ? s : STATUS_OK;
}

/* End of the first quantity in "35 psi 138 L/min": the second number begins there. */
static const char *second_number(const char *s)
{
    s += strspn(s, " \t");
    s += strspn(s, "+-.0123456789");
    return s + strcspn(s, "+-.0123456789");
}

static enum status read_point(const struct schema_row *row, const char *point, struct value *v,
                              struct text *why)
{
    char pressure[48];
    const char *flow = second_number(point);
    struct text t = text_over(pressure, sizeof pressure);
    text_put(&t, "%.*s", (int)(flow - point), point);
    text_put(why, "point %d: ", v->n_flow + 1);
    if (v->n_flow == RIG_FLOW_POINTS) {
        text_put(why, "too many points (at most %d)", RIG_FLOW_POINTS);
        return STATUS_E_FULL;
    }
    if (*flow == '\0') {
        text_put(why, "pressure and flow belong together, as in 35 psi 138 L/min");
        return STATUS_E_SYNTAX;
    }
    double *p = &v->flow_gauge_pa[v->n_flow];
    double *q = &v->flow_m3_s[v->n_flow];
    enum status s = read_quantity(pressure, Q_PRESSURE, p, why);
    s = s < 0 ? s : read_quantity(flow, Q_FLOW, q, why);
    s = s < 0 ? s : check_range(row, *q, why);
    if (s < 0) {
        return s;
    }
    double least = v->n_flow > 0 ? p[-1] : -1.0;
    if (*p <= least || *p < 0.0 || *p > 300.0 * UNITS_PA_PER_PSI) {
        text_put(why, "pressures must rise from point to point, from 0 to 300 psi");
        return STATUS_E_DOMAIN;
    }
    if (v->n_flow == 0 ? *q <= 0.0 : *q > q[-1]) {
        text_put(why, "%s",
                 v->n_flow == 0 ? "the first flow is above 0"
                                : "flow does not rise with the pressure against it");
        return STATUS_E_DOMAIN;
    }
    v->n_flow++;
    return STATUS_OK;
}

static enum status read_flow(const struct schema_row *row, const char *text, struct value *v,
                             struct text *why)
{
    v->n_flow = 0;
    for (const char *p = text;;) {
        char point[96];
        size_t n = strcspn(p, ",");
        struct text t = text_over(point, sizeof point);
        text_put(&t, "%.*s", (int)n, p);
        size_t before = why->len;
        enum status s = read_point(row, point, v, why);
        if (s < 0) {
            return s;
        }
        why->len = before;
        why->s[before] = '\0';
        if (p[n] == '\0') {
            break;
        }
        p += n + 1;
    }
    if (v->n_flow >= 2) {
        return STATUS_OK;
    }
    text_put(why, "one point is not enough (2 to %d)", RIG_FLOW_POINTS);
    return STATUS_E_SYNTAX;
}

static enum status read_by_type(const struct schema_row *row, const char *text, struct value *v,
                                struct text *why)
{
    enum status s = STATUS_OK;
    switch (row->type) {
    case TYPE_QUANTITY:
    case TYPE_MAYBE:
        s = read_quantity(text, row->q, &v->si, why);
        return s < 0 ? s : check_range(row, v->si, why);
    case TYPE_COUNT:
        return read_count(row, text, &v->number, why);
    case TYPE_WORD:
    case TYPE_FLAG:
        return read_word(row, text, &v->number, why);
    case TYPE_TEXT:
        return read_text(row, text, why);
    case TYPE_DATE:
        return date_check(text, why);
    case TYPE_LETTER:
        return read_letter(text, why);
    case TYPE_SPEED:
        return read_speed(text, why);
    case TYPE_TYRE:
        return read_tyre(text, &v->size, why);
    case TYPE_FLOW:
        return read_flow(row, text, v, why);
    }
    return s;
}

enum status value_read(const struct schema_row *row, const char *text, struct value *v,
                       struct text *why)
{
    struct value read = {.text = text};
    enum status s = read_by_type(row, text, &read, why);
    if (s >= 0) {
        *v = read;
    }
    return s;
}

static void store_flow(const struct value *v, struct compressor *c)
{
    c->n_flow = v->n_flow;
    memcpy(c->flow_gauge_pa, v->flow_gauge_pa, sizeof c->flow_gauge_pa);
    memcpy(c->flow_m3_s, v->flow_m3_s, sizeof c->flow_m3_s);
}

void value_store(const struct schema_row *row, const struct value *v, void *section)
{
    char *at = (char *)section + row->offset;
    struct maybe maybe = maybe_of(v->si);
    bool flag = v->number == 1;
    switch (row->type) {
    case TYPE_QUANTITY:
        memcpy(at, &v->si, sizeof v->si);
        break;
    case TYPE_MAYBE:
        memcpy(at, &maybe, sizeof maybe);
        break;
    case TYPE_COUNT:
    case TYPE_WORD:
        memcpy(at, &v->number, sizeof v->number);
        break;
    case TYPE_FLAG:
        memcpy(at, &flag, sizeof flag);
        break;
    case TYPE_LETTER:
        *at = v->text[0];
        break;
    case TYPE_TEXT:
    case TYPE_DATE:
    case TYPE_SPEED:
        diag_copy(at, row->size, v->text);
        break;
    case TYPE_TYRE:
        memcpy(at, &v->size, sizeof v->size);
        break;
    case TYPE_FLOW:
        store_flow(v, (struct compressor *)(void *)at);
        break;
    }
}
