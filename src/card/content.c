#include "card/content.h"

#include <math.h>
#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "base/num.h"
#include "base/text.h"
#include "base/units.h"

void card_put_word(char *dst, size_t cap, const char *word)
{
    struct text t = text_over(dst, cap);
    text_put(&t, "%s", word);
}
void card_start(struct card_content *c, const char *heading, const char *heading_key)
{
    memset(c, 0, sizeof *c);
    CARD_PUT_WORD(c->heading, heading);
    CARD_PUT_WORD(c->heading_key, heading_key);
}

struct card_column *card_add_column(struct card_content *c, const char *name, const char *brief)
{
    if (c->table.n_column == CARD_COLUMNS) {
        return NULL;
    }
    struct card_column *col = &c->table.column[c->table.n_column++];
    CARD_PUT_WORD(col->name, name);
    CARD_PUT_WORD(col->brief, brief);
    return col;
}

struct card_row *card_add_row(struct card_content *c, enum card_row_kind kind, const char *title,
                              const char *key)
{
    if (c->table.n_row == CARD_ROWS) {
        return NULL;
    }
    struct card_row *row = &c->table.row[c->table.n_row++];
    memset(row, 0, sizeof *row);
    row->kind = kind;
    CARD_PUT_WORD(row->title, title);
    CARD_PUT_WORD(row->key, key);
    return row;
}

int card_plain_rows(const struct card_content *c)
{
    int n = 0;
    for (int i = 0; i < c->table.n_row; i++) {
        n += c->table.row[i].kind == CARD_ROW_PLAIN;
    }
    return n;
}

bool card_drop_row(struct card_content *c)
{
    struct card_table *t = &c->table;
    for (int i = t->n_row - 1; i >= 0; i--) {
        if (t->row[i].kind == CARD_ROW_PLAIN) {
            memmove(&t->row[i], &t->row[i + 1], (size_t)(t->n_row - i - 1) * sizeof t->row[0]);
            t->n_row--;
            return true;
        }
    }
    return false;
}

const char *card_line_words(const struct card_line *line, bool brief)
{
    return brief && line->brief[0] != '\0' ? line->brief : line->text;
}

struct card_line *card_add_line(struct card_content *c, enum card_part part, const char *key,
                                const char *format, ...)
{
    if (c->n_line == CARD_LINES) {
        c->overfull = true;
        return NULL;
    }
    char whole[2 * CARD_LINE];
    va_list args;
    va_start(args, format);
    int n = vsnprintf(whole, sizeof whole, format, args);
    va_end(args);
    if (n < 0) {
        return NULL;
    }
    struct card_line *line = &c->line[c->n_line++];
    line->part = part;
    line->brief[0] = '\0';
    CARD_PUT_WORD(line->text, whole);
    CARD_PUT_WORD(line->key, key);
    return line;
}

static enum unit_system second_unit(enum unit_system u)
{
    return u == UNITS_PSI ? UNITS_BAR : UNITS_PSI;
}

void card_put_units(struct card_content *c, enum unit_system u)
{
    struct text head = text_over(c->table.head, sizeof c->table.head);
    text_put(&head, "%s gauge, cold", units_symbol(Q_PRESSURE, u));
    CARD_PUT_WORD(c->table.second, units_symbol(Q_PRESSURE, second_unit(u)));
}

/* The nearest whole gauge step of a unit, or the next above when that is below the floor. */
static double shown_pa(double p_pa, double floor_pa, enum unit_system u)
{
    double step_pa = units_step(u);
    double nearest_pa = floor(p_pa / step_pa + 0.5 + 1e-9) * step_pa;
    return nearest_pa < floor_pa - 1e-6 * step_pa ? num_ceil_to(floor_pa, step_pa) : nearest_pa;
}

void card_put_pressure(struct card_cell *cell, double p_gauge_pa, double floor_gauge_pa,
                       enum unit_system u)
{
    enum unit_system v = second_unit(u);
    double p_pa = shown_pa(p_gauge_pa, floor_gauge_pa, u);
    struct text first = text_over(cell->value, sizeof cell->value);
    struct text second = text_over(cell->second, sizeof cell->second);
    units_put_bare(&first, p_pa, Q_PRESSURE, u, 0);
    units_put_bare(&second, shown_pa(p_pa, floor_gauge_pa, v), Q_PRESSURE, v, 0);
}

void card_put_cap(struct card_cell *cell, struct maybe cap_mps)
{
    if (!cap_mps.is) {
        CARD_PUT_WORD(cell->value, "law"); /* no cap but the road's own */
        return;
    }
    struct text first = text_over(cell->value, sizeof cell->value);
    struct text second = text_over(cell->second, sizeof cell->second);
    text_put(&first, "%.0f", floor(units_in(cap_mps.v, Q_SPEED, "km/h") + 1e-6));
    text_put(&second, "%.0f", floor(units_in(cap_mps.v, Q_SPEED, "mph") + 1e-6));
}

void card_add_cautions(struct card_content *c)
{
    static const char *const words[] = {
        "DANGER  Refill before highway speed.",
        "CAUTION No sharp turns on soft tyres.",
        "DANGER  Clear of sidewalls; no fire on a bead.",
    };
    for (size_t i = 0; i < sizeof words / sizeof words[0]; i++) {
        (void)card_add_line(c, CARD_CAUTION, "", "%s", words[i]);
    }
}

void card_add_origin(struct card_content *c, const char *date)
{
    CARD_PUT_WORD(c->date, date);
    (void)card_add_line(c, CARD_ORIGIN, "", "estimate, placard and tyre maker rule");
}
