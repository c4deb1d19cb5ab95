/* options.h - the command line, read by one table. */
#ifndef SANDSHOE_APP_OPTIONS_H
#define SANDSHOE_APP_OPTIONS_H

#include <stdbool.h>

#include "base/num.h"
#include "base/status.h"
#include "base/text.h"
#include "base/units.h"
#include "core/refill_log.h"
#include "core/rig.h"

enum { OPTIONS_ARGS = 64, OPTIONS_SETS = 32 };

/* Commands as bits, so that an option's row can say where it belongs. */
enum command_bit {
    CMD_ADVISE = 1 << 0,
    CMD_DOWN = 1 << 1,
    CMD_UP = 1 << 2,
    CMD_REPLAY = 1 << 3,
    CMD_TRIP = 1 << 4,
    CMD_CARD = 1 << 5,
    CMD_CHECK = 1 << 6,
    CMD_HELP = 1 << 7,
    CMD_LIST = 1 << 8,
    CMD_SESSION = 1 << 9,
    CMD_ALL = (1 << 10) - 1,
    CMD_RIG = CMD_ADVISE | CMD_DOWN | CMD_UP | CMD_CARD | CMD_SESSION
};

/* Pressures given as "38psi" or "front=38psi,rear=48psi". */
struct axle_pressures {
    struct maybe axle[AXLE_COUNT];
};

/* The same by corner: "18psi", "front=18psi", "rear-right=11psi"; of two items the later and
 * narrower one wins. */
struct corner_pressures {
    bool given;
    struct maybe corner[LOG_CORNERS]; /* bit LOG_CORNER_BIT */
};

struct options {
    enum command_bit command;
    int n_arg;
    const char *arg[OPTIONS_ARGS];
    bool json, working, ascii, help, version, forget, force;
    bool units_given;
    enum unit_system units;
    const char *ground, *tyre, *rear_tyre, *to, *size, *grounds, *output, *folded, *template_of;
    const char *script, *date;
    struct maybe front_kg, rear_kg;
    struct maybe at_temp_k, at_height_m, tyre_temp_k, speed_mps, slope_1, cross_slope_rad;
    struct maybe side, at_s;
    struct axle_pressures at_pressure, road;
    struct corner_pressures from;
    unsigned found_low;   /* log corner bits */
    unsigned named_axles; /* bits of enum axle_id: those a list names, which the rig must have */
    int n_set;
    const char *set[OPTIONS_SETS];
};

/* options_parse - read argv[1..]; the first word that is a command's name selects it, else the
 * session is meant. Every mistake is put into why, one a line.
 * ret STATUS_OK; E_SYNTAX (usage error, why says what and what to do). */
enum status options_parse(int argc, const char *const argv[], struct options *o,
                          struct text *why) MUST_CHECK;

/* options_help - the help of a command (0 = of the program), from the tables. */
void options_help(enum command_bit command, struct text *out);

/* options_mdoc - the options as a list of a manual page. */
void options_mdoc(struct text *out);

/* command_name - "advise"; command_from_name - its bit, or 0. */
const char *command_name(enum command_bit command);
enum command_bit command_from_name(const char *name);

#endif
