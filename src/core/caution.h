/* caution.h - every caution of the program, as data in one table. */
#ifndef SANDSHOE_CORE_CAUTION_H
#define SANDSHOE_CORE_CAUTION_H

#include <stdbool.h>

#include "base/text.h"
#include "base/units.h"
#include "core/caution_table.h"
#include "core/rig.h"

enum caution_level { CAUTION_NOTE, CAUTION_CAUTION, CAUTION_DANGER };

enum caution_code {
#define CAUTION_ENUM(id, level, standing, code, text, when) CAUTION_##id,
    CAUTION_TABLE(CAUTION_ENUM)
#undef CAUTION_ENUM
        CAUTION_COUNT
};

enum { CAUTION_ARGS = 4, CAUTION_LIST = 64, CAUTION_WORD = 64 };

struct caution_arg {
    enum quantity q;
    double si;
    int more; /* extra decimals */
};

/* One raised caution: which, where, with which numbers. */
struct caution {
    enum caution_code code;
    bool has_axle, has_side;
    enum axle_id axle;
    enum side side;
    struct caution_arg arg[CAUTION_ARGS]; /* {0} .. {3} in the text */
    char word[CAUTION_WORD];              /* {w} in the text */
};

struct caution_list {
    int n;
    struct caution item[CAUTION_LIST];
    struct caution spill; /* takes what a full list loses; never read */
};

/* caution_raise - append a caution without numbers; a full list keeps its first entries, but a
 * DANGER replaces the last NOTE. Returns the entry to fill in (never NULL).
 *   in   list, code
 *   ret  the new entry
 *   src  none: bookkeeping */
struct caution *caution_raise(struct caution_list *list, enum caution_code code);

/* caution_with - set number i of a caution; caution_at_axle - say which axle it is about.
 *   in   c, i (0..3), q, si, more (extra decimals); axle
 *   ret  c, so that calls chain
 *   src  none: bookkeeping */
struct caution *caution_with(struct caution *c, int i, enum quantity q, double si, int more);
struct caution *caution_at_axle(struct caution *c, enum axle_id axle);

/* caution_level_of, caution_code_name, caution_is_standing, caution_when, caution_text - the table's
 * columns.
 *   in   code
 *   ret  the column
 *   src  docs of the table */
enum caution_level caution_level_of(enum caution_code code);
const char *caution_code_name(enum caution_code code);
bool caution_is_standing(enum caution_code code);
const char *caution_when(enum caution_code code);
const char *caution_text(enum caution_code code); /* with its {0}, {w} */
const char *caution_level_name(enum caution_level level);

/* caution_put - append the caution's words with its numbers in the unit system.
 *   in   c, u
 *   out  out  text
 *   ret  nothing
 *   src  none: formatting */
void caution_put(const struct caution *c, enum unit_system u, struct text *out);

/* caution_any_danger - whether a DANGER that is not a standing reminder is in the list.
 *   in   list
 *   ret  true if so: exit status 1
 *   src  none: contract of the exit status */
bool caution_any_danger(const struct caution_list *list);

/* caution_raised - whether a code is in the list.
 *   in   list, code
 *   ret  true if so
 *   src  none: look-up */
bool caution_raised(const struct caution_list *list, enum caution_code code);

/* The acts that have reminders of their own. */
enum caution_job { CAUTION_JOB_DOWN, CAUTION_JOB_UP };

/* caution_remind - append the standing reminders of an act, each once.
 *   in   list, job, rig
 *   ret  nothing
 *   src  practice of the trade */
void caution_remind(struct caution_list *list, enum caution_job job, const struct rig *rig);

#endif
