#include "core/working.h"

#include <math.h>
#include <string.h>

#define SMALL_M2 1e-4

enum { LINE = 640, HANG = 4 };

struct working_row *working_add(struct working *w, const char *where, const char *symbol,
                                const char *what, const char *equation, const char *formula,
                                const char *source, enum standing standing, double si,
                                enum quantity q)
{
    struct working_row *r = w->n < WORKING_ROWS ? &w->row[w->n++] : &w->spill;
    *r = (struct working_row){.symbol = symbol,
                              .what = what,
                              .equation = equation,
                              .formula = formula,
                              .source = source,
                              .standing = standing,
                              .si = si,
                              .q = q};
    struct text t = text_over(r->where, sizeof r->where);
    text_put(&t, "%s", where);
    return r;
}

struct working_row *working_in(struct working_row *r, const char *symbol, double si,
                               enum quantity q)
{
    if (r->n_in < WORKING_INPUTS) {
        r->in[r->n_in++] = (struct working_input){.symbol = symbol, .si = si, .q = q};
    }
    return r;
}

const char *standing_name(enum standing s)
{
    static const char *const names[] = {"published", "published, from memory", "common practice",
                                        "derived here", "yours"};
    return s <= STANDING_U ? names[s] : "?";
}

/* Where a whole unit would hide what the number does. */
static int more_decimals(enum quantity q)
{
    return q == Q_PRESSURE || q == Q_STRENGTH || q == Q_LENGTH || q == Q_SHARE || q == Q_TEMPERATURE
               ? 1
               : 0;
}

/* A valve's area is lost in the unit of a tyre's print. */
static void put_value(struct text *t, double si, enum quantity q, enum unit_system u)
{
    if (q == Q_AREA && fabs(si) < SMALL_M2) {
        text_put(t, "%.2f mm2", units_in(si, q, "mm2"));
        return;
    }
    units_put(t, si, q, u, more_decimals(q));
}

/* Words of one line, broken at blanks to width columns; continued lines hang by HANG. */
static void put_wrapped(struct text *out, const char *line, int indent, int width)
{
    text_char(out, ' ', indent);
    int column = indent;
    for (const char *s = line; *s != '\0';) {
        size_t n = strcspn(s, " ");
        int cells = (int)n;
        if (column > indent && column + 1 + cells > width) {
            text_char(out, '\n', 1);
            text_char(out, ' ', indent + HANG);
            column = indent + HANG;
        } else if (column > indent) {
            text_char(out, ' ', 1);
            column++;
        }
        text_put(out, "%.*s", (int)n, s);
        column += cells;
        s += n;
        s += strspn(s, " ");
    }
    text_char(out, '\n', 1);
}

static void put_head(const struct working_row *r, enum unit_system u, struct text *t)
{
    text_put(t, "%s%s%s = ", r->where, r->where[0] != '\0' ? ": " : "", r->symbol);
    put_value(t, r->si, r->q, u);
    if (r->low.is && r->high.is) {
        text_put(t, " (");
        put_value(t, r->low.v, r->q, u);
        text_put(t, " to ");
        put_value(t, r->high.v, r->q, u);
        text_put(t, ")");
    }
    text_put(t, ", %s", r->what);
}

static void put_inputs(const struct working_row *r, enum unit_system u, struct text *t)
{
    text_put(t, "%s", r->equation);
    text_put(t, "%s%s", r->formula[0] != '\0' ? ": " : "", r->formula);
    for (int i = 0; i < r->n_in; i++) {
        text_put(t, "%s%s = ", i == 0 ? "; with " : ", ", r->in[i].symbol);
        put_value(t, r->in[i].si, r->in[i].q, u);
    }
}

void working_put(const struct working_row *r, enum unit_system u, int width, struct text *out)
{
    char buf[LINE];
    struct text t = text_over(buf, sizeof buf);
    put_head(r, u, &t);
    put_wrapped(out, buf, 0, width);
    text_clear(&t);
    put_inputs(r, u, &t);
    put_wrapped(out, buf, HANG, width);
    text_clear(&t);
    text_put(&t, "%s (%s)", r->source, standing_name(r->standing));
    put_wrapped(out, buf, HANG, width);
}
