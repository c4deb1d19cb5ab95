/* content.h - what the glovebox card says, in words, before anyone decides where it goes.
 *
 * A card is a heading, one table whose columns are the axles, and lines in order of importance.
 * The table is generic: the grounds of a rig and the legs of a trip are rows of the same kind. */
#ifndef SANDSHOE_CARD_CONTENT_H
#define SANDSHOE_CARD_CONTENT_H

#include <stdbool.h>

#include "base/num.h"
#include "core/advice.h"
#include "core/rig.h"
#include "sim/refill.h"

enum {
    CARD_COLUMNS = 9,
    CARD_ROWS = 20,
    CARD_LINES = 20,
    CARD_CORNERS = AXLE_COUNT * SIDE_COUNT,
    CARD_WORD = 16,
    CARD_TITLE = 96,
    CARD_LINE = 240,
    CARD_KEY = 48
};

struct card_cell {
    char value[CARD_WORD];
    char second[CARD_WORD]; /* the same in the second unit, printed smaller; "" = none */
};

struct card_column {
    char name[CARD_WORD];  /* "FRONT" */
    char brief[CARD_WORD]; /* for narrow columns, "F" */
};

enum card_row_kind {
    CARD_ROW_TARGET, /* large: the road targets */
    CARD_ROW_PLAIN,  /* a ground, a leg */
    CARD_ROW_FLOOR   /* a limit */
};

struct card_row {
    enum card_row_kind kind;
    char title[CARD_TITLE];
    char key[CARD_KEY]; /* where the title comes from, "[dune-sand] title" */
    struct card_cell cell[CARD_COLUMNS];
};

struct card_table {
    char head[CARD_TITLE];  /* over the titles: "psi gauge, cold" */
    char second[CARD_WORD]; /* the second unit, "bar"; "" = none */
    int n_column, n_row;
    struct card_column column[CARD_COLUMNS];
    struct card_row row[CARD_ROWS];
};

enum card_part { CARD_REFILL, CARD_CAUTION, CARD_ORIGIN, CARD_NOTE };

struct card_line {
    enum card_part part;
    char text[CARD_LINE];
    char brief[CARD_TITLE]; /* the same in fewer words, for small cards; "" = no such form */
    char key[CARD_KEY];
};

/* One corner of the plan, seen from above. Lengths 0 = no patch known. */
struct card_corner {
    char name[CARD_WORD]; /* "LF" */
    char load[CARD_WORD];
    enum axle_id axle;
    enum side side;
    double road_length_m, road_width_m;
    double soft_length_m, soft_width_m;
};

struct card_content {
    char heading[CARD_TITLE]; /* the load state it is valid for, or the trip's name */
    char heading_key[CARD_KEY];
    char subject[CARD_TITLE]; /* rig name */
    char subject_key[CARD_KEY];
    char tyre[CARD_LINE]; /* sizes and load ranges */
    char tyre_key[CARD_KEY];
    char date[CARD_WORD];
    struct card_table table;
    bool legs; /* the plain rows are legs of a trip, not grounds */
    int n_line;
    struct card_line line[CARD_LINES]; /* in order of importance */
    bool overfull;                     /* a line found no room: not a card to hand out */
    int n_corner;                      /* 0 = no plan, no log grid by corner */
    struct card_corner corner[CARD_CORNERS];
    char softest[CARD_TITLE]; /* ground of the soft patches */
};

/* card_put_word - copy a word into a field, cut at its end (never inside a character). */
void card_put_word(char *dst, size_t cap, const char *word);
#define CARD_PUT_WORD(dst, word) card_put_word((dst), sizeof(dst), (word))

/* card_start - an empty card under a heading. */
void card_start(struct card_content *c, const char *heading, const char *heading_key);

/* card_add_column, card_add_row - append to the table; NULL when it is full. */
struct card_column *card_add_column(struct card_content *c, const char *name, const char *brief);
struct card_row *card_add_row(struct card_content *c, enum card_row_kind kind, const char *title,
                              const char *key);

/* card_put_pressure - a cold gauge pressure into a cell, in both units; never shown below floor. */
void card_put_pressure(struct card_cell *cell, double p_gauge_pa, double floor_gauge_pa,
                       enum unit_system u);

/* card_put_cap - a speed cap into a cell, km/h with mph beside it, rounded down. */
void card_put_cap(struct card_cell *cell, struct maybe cap_mps);

/* card_plain_rows - how many rows are grounds or legs; card_drop_row - take the last of them away,
 * false when there is none. */
int card_plain_rows(const struct card_content *c);
bool card_drop_row(struct card_content *c);

/* card_add_line - append a line; NULL, and the card overfull, when there is no room for it. */
struct card_line *card_add_line(struct card_content *c, enum card_part part, const char *key,
                                const char *format, ...) __attribute__((format(printf, 4, 5)));

/* card_line_words - the line's words, the brief ones if wanted and given. */
const char *card_line_words(const struct card_line *line, bool brief);

/* card_add_cautions - the three cautions that every card carries. */
void card_add_cautions(struct card_content *c);

/* card_add_origin - the date and whose word counts more. */
void card_add_origin(struct card_content *c, const char *date);

/* card_put_units - head the table with "psi gauge, cold" and the second unit. */
void card_put_units(struct card_content *c, enum unit_system u);

#endif
