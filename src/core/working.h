/* working.h - the working: every number with its equation, inputs, source and status, as data. */
#ifndef SANDSHOE_CORE_WORKING_H
#define SANDSHOE_CORE_WORKING_H

#include <stdbool.h>

#include "base/text.h"
#include "base/units.h"
#include "core/rig.h"

/* P published and read, PM published but from memory, C common practice, D derived or fitted
 * here, U the user's own. */
enum standing { STANDING_P, STANDING_PM, STANDING_C, STANDING_D, STANDING_U };

enum { WORKING_INPUTS = 5, WORKING_ROWS = 600 };

struct working_input {
    const char *symbol; /* static string */
    double si;
    enum quantity q;
};

struct working_row {
    char where[24];       /* "front-left", "rear", "" for the whole rig */
    const char *symbol;   /* "d", "p_aim": static string */
    const char *what;     /* in words: static string */
    const char *equation; /* number in docs/theory.md, "A5" */
    const char *formula;  /* short, ASCII: "F = K d (1 + 0.6 d/SH)" */
    const char *source;   /* who, year: static string */
    enum standing standing;
    double si;
    enum quantity q;
    struct maybe low, high; /* band in SI, where the model is a band */
    int n_in;
    struct working_input in[WORKING_INPUTS];
};

struct working {
    int n;
    struct working_row row[WORKING_ROWS];
    struct working_row spill; /* takes what a full list drops; never read */
};

/* working_add - append a row; a full list drops it.
 *   in   w, where, symbol, what, equation, formula, source, standing, si, q
 *   ret  the row, for inputs and band (a scratch row when full; never NULL)
 *   src  none: bookkeeping */
struct working_row *working_add(struct working *w, const char *where, const char *symbol,
                                const char *what, const char *equation, const char *formula,
                                const char *source, enum standing standing, double si,
                                enum quantity q);

/* working_in - append an input to a row (dropped when the row is full).
 *   in   r, symbol, si, q
 *   ret  the row, so that calls chain
 *   src  none: bookkeeping */
struct working_row *working_in(struct working_row *r, const char *symbol, double si,
                               enum quantity q);

/* working_put - append a row as text of at most width columns a line, ending in a newline.
 *   in   r, u, width
 *   out  out  text
 *   ret  nothing
 *   src  none: formatting */
void working_put(const struct working_row *r, enum unit_system u, int width, struct text *out);

/* standing_name - "published", "published, from memory", "common practice", "derived here",
 * "yours".
 *   in   s    standing
 *   ret  a string constant
 *   src  none: definition */
const char *standing_name(enum standing s);

#endif
