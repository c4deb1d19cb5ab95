/* air_report.h - what 'down' and 'up' found out, ready to be written. */
#ifndef SANDSHOE_REPORT_AIR_REPORT_H
#define SANDSHOE_REPORT_AIR_REPORT_H

#include <stdbool.h>

#include "core/advice.h"
#include "core/working.h"
#include "sim/down.h"
#include "sim/refill.h"

enum { AIR_FROM = 64 };

/* Readings are what the user's gauge shows: its offset is in. */
struct down_line {
    bool present;
    double from_reading_pa, to_reading_pa;
    double load_kg;
    struct down_corner in;
    struct down_result result;
};

struct down_report {
    const struct rig *rig;
    const struct ground *ground;
    struct conditions conditions;
    double tyre_temp_k, road_temp_k; /* of the front axle */
    struct refusal refusal;
    struct caution_list cautions;
    struct down_line corner[REFILL_CORNERS];
};

struct up_report {
    const struct rig *rig;
    struct conditions conditions;
    double tyre_temp_k, road_temp_k;
    char from[AIR_FROM], to[AIR_FROM]; /* in words */
    unsigned present;                  /* corners of the rig, bit REFILL_CORNER */
    unsigned found_low;                /* corners that get no steps */
    double load_kg[REFILL_CORNERS];
    struct refusal refusal; /* found-low: the other corners are planned all the same */
    struct caution_list cautions;
    bool planned; /* false: refused as a whole, in and out are empty */
    struct refill_in in;
    struct refill_out out;
};

/* refill_problem_name - "none", "source-weak", "cut-out", "tank-empty", "gave-up",
 * "nothing-to-do"; refill_problem_words - the same as a sentence. */
const char *refill_problem_name(enum refill_problem p);
const char *refill_problem_words(enum refill_problem p);

/* refill_problem_short - the same in two or three words, for a row of a table. */
const char *refill_problem_short(enum refill_problem p);

/* refill_do_name - "drop", "move", "rest", "stop". */
const char *refill_do_name(enum refill_do what);

/* refill_whatif_name - "core-out" ...; refill_whatif_words - the same in words. */
const char *refill_whatif_name(enum refill_whatif_kind k);
const char *refill_whatif_words(enum refill_whatif_kind k);

/* report_corner_name - of an index of REFILL_CORNERS. */
const char *report_corner_name(int corner);

#endif
