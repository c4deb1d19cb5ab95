#include "app/options.h"

#include <ctype.h>
#include <stddef.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "app/options_table.h"
#include "base/date.h"
#include "base/diag.h"
#include "base/dist.h"
#include "report/wrap.h"

enum kind {
    KIND_FLAG,
    KIND_TEXT,
    KIND_QUANTITY,
    KIND_AXLES,
    KIND_PLACES,
    KIND_CORNERS,
    KIND_UNITS,
    KIND_SETS
};

struct option_row {
    const char *name, *argument, *help;
    size_t offset;
    int letter; /* 0 = none */
    enum kind kind;
    enum quantity q;
    unsigned commands; /* 0: hidden, for the session's tests */
};

struct command_row {
    enum command_bit bit;
    const char *name, *arguments;
    int least, most;
    const char *help;
};

static const struct option_row OPTIONS[] = {
#define OPTION_ROW(field, name, letter, argument, kind, q, commands, help)                         \
    {name, argument, help, offsetof(struct options, field), letter, KIND_##kind, q, commands},
    OPTION_TABLE(OPTION_ROW)
#undef OPTION_ROW
};

static const struct command_row COMMANDS[] = {
#define COMMAND_ROW(bit, name, arguments, least, most, help)                                       \
    {bit, name, arguments, least, most, help},
    COMMAND_TABLE(COMMAND_ROW)
#undef COMMAND_ROW
};

/* What a quantity on the command line may be, in SI; outside it is a slip of the finger. */
static const struct option_range {
    size_t offset;
    double lo, hi;
    const char *name, *words;
} RANGES[] = {
#define RANGE(field, name, lo, hi, words)                                                          \
    {                                                                                              \
        offsetof(struct options, field), lo, hi, name, words                                       \
    }
    RANGE(at_temp_k, "at-temp", 213.15, 333.15, "-60 C to 60 C"),
    RANGE(tyre_temp_k, "tyre-temp", 213.15, 423.15, "-60 C to 150 C"),
    RANGE(at_height_m, "at-height", -450.0, 6000.0, "-450 m to 6000 m"),
    RANGE(speed_mps, "speed", 0.1, 70.0, "above 0 to 250 km/h"),
    RANGE(slope_1, "slope", -1.0, 1.0, "-100 % to 100 %"),
    RANGE(cross_slope_rad, "cross-slope", -0.7854, 0.7854, "-45 deg to 45 deg"),
    RANGE(front_kg, "front", 50.0, 40000.0, "50 kg to 40 t"),
    RANGE(rear_kg, "rear", 50.0, 40000.0, "50 kg to 40 t"),
#undef RANGE
};

#define PRESSURE_MOST_PA 1.5e6 /* above any tyre */

enum {
    LIST_ITEMS = 2 * LOG_CORNERS,
    N_RANGES = sizeof RANGES / sizeof RANGES[0],
    N_OPTIONS = sizeof OPTIONS / sizeof OPTIONS[0],
    N_COMMANDS = sizeof COMMANDS / sizeof COMMANDS[0],
    HELP_COLUMN = 28,
    HELP_LABEL = 64,
    USAGE_COLUMN = 7,
    HELP_USAGE = 256
};

static const struct command_row *command_row(enum command_bit bit)
{
    for (int i = 0; i < N_COMMANDS; i++) {
        if (COMMANDS[i].bit == bit) {
            return &COMMANDS[i];
        }
    }
    return &COMMANDS[0];
}

const char *command_name(enum command_bit command)
{
    return command_row(command)->name;
}

enum command_bit command_from_name(const char *name)
{
    for (int i = 0; i < N_COMMANDS; i++) {
        if (strcmp(COMMANDS[i].name, name) == 0) {
            return COMMANDS[i].bit;
        }
    }
    return (enum command_bit)0;
}

/* A member of *o at a row's offset. */
static void *field_of(struct options *o, const struct option_row *row)
{
    return (char *)o + row->offset;
}

static void say_quantity(const struct option_row *row, const char *value, enum status s,
                         struct text *why)
{
    text_put(why, "--%s %s: %s", row->name, value, status_text(s));
    if (row->q != Q_NUMBER) {
        text_put(why, " (accepted: ");
        units_accepted(row->q, why);
        text_put(why, ")");
    }
    text_put(why, "\n");
}

static enum status read_quantity(const struct option_row *row, const char *value, struct maybe *out,
                                 struct text *why)
{
    double si = 0.0;
    enum status s = units_parse(value, row->q, &si);
    if (s != STATUS_OK) {
        say_quantity(row, value, s, why);
        return s;
    }
    *out = maybe_of(si);
    return STATUS_OK;
}

static int axle_from_name(const char *name)
{
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (strcmp(name, axle_name((enum axle_id)a)) == 0) {
            return a;
        }
    }
    return -1;
}

/* ---- lists: "front=18psi,rear=22psi", "rear-left,trailer" ---- */

typedef enum status (*item_reader)(const struct option_row *row, char *item, struct options *o,
                                   unsigned *bits, struct text *why);

/* Reads every item of a list. bits is what an item sets: one that leaves nothing of an earlier one
 * is a slip of the hand, not a wish. */
static enum status read_list(const struct option_row *row, const char *value, item_reader read,
                             struct options *o, struct text *why)
{
    char copy[400];
    unsigned before[LIST_ITEMS];
    int n = 0;
    enum status worst = STATUS_OK;
    if (strlen(value) >= sizeof copy) {
        text_put(why, "--%s: the list is too long\n", row->name);
        return STATUS_E_FULL;
    }
    snprintf(copy, sizeof copy, "%s", value);
    char *rest = copy;
    for (char *item = strsep(&rest, ","); item; item = strsep(&rest, ",")) {
        unsigned bits = 0;
        enum status s = read(row, item, o, &bits, why);
        for (int i = 0; s == STATUS_OK && i < n; i++) {
            if (before[i] != 0 && (before[i] & ~bits) == 0) {
                text_put(why, "--%s %s: something is given twice\n", row->name, value);
                s = STATUS_E_SYNTAX;
            }
        }
        if (s == STATUS_OK && n < LIST_ITEMS) {
            before[n++] = bits;
        }
        worst = status_worse(worst, s);
    }
    return worst;
}

/* Cuts "front=38psi" into a name and a value; without a name all are meant. */
static char *cut_name(char *item, char **value)
{
    char *equals = strchr(item, '=');
    *value = equals ? equals + 1 : item;
    if (!equals) {
        return NULL;
    }
    *equals = '\0';
    return item;
}

static enum status read_axle_item(const struct option_row *row, char *item, struct options *o,
                                  unsigned *bits, struct text *why)
{
    struct axle_pressures *out = field_of(o, row);
    struct maybe p = maybe_none();
    char *value = NULL;
    const char *name = cut_name(item, &value);
    int axle = name ? axle_from_name(name) : -1;
    if (name && axle < 0) {
        text_put(why, "--%s: axle '%s' is unknown (front, middle, rear, trailer, trailer2)\n",
                 row->name, name);
        return STATUS_E_UNKNOWN;
    }
    *bits = axle < 0 ? (1U << AXLE_COUNT) - 1U : 1U << axle;
    o->named_axles |= axle < 0 ? 0U : *bits;
    enum status s = read_quantity(row, value, &p, why);
    for (int a = 0; a < AXLE_COUNT && s == STATUS_OK; a++) {
        if (*bits >> a & 1U) {
            out->axle[a] = p;
        }
    }
    return s;
}

/* Notes the axles of corners that were named, all of which the rig must have. */
static void note_axles(const char *name, unsigned corners, struct options *o)
{
    for (int c = 0; c < LOG_CORNERS && strcmp(name, "all") != 0; c++) {
        if (corners >> c & 1U) {
            o->named_axles |= 1U << (c / SIDE_COUNT);
        }
    }
}

static enum status read_place_item(const struct option_row *row, char *item, struct options *o,
                                   unsigned *bits, struct text *why)
{
    struct corner_pressures *out = field_of(o, row);
    struct maybe p = maybe_none();
    char *value = NULL;
    const char *name = cut_name(item, &value);
    *bits = LOG_ALL;
    if (name && refill_log_corners(name, bits) != STATUS_OK) {
        text_put(why, "--%s: '%s' is no axle or corner (front, rear-right, trailer ...)\n",
                 row->name, name);
        return STATUS_E_UNKNOWN;
    }
    note_axles(name ? name : "all", *bits, o);
    out->given = true;
    enum status s = read_quantity(row, value, &p, why);
    for (int c = 0; c < LOG_CORNERS && s == STATUS_OK; c++) {
        if (*bits >> c & 1U) {
            out->corner[c] = p;
        }
    }
    return s;
}

static enum status read_corner_item(const struct option_row *row, char *item, struct options *o,
                                    unsigned *bits, struct text *why)
{
    if (refill_log_corners(item, bits) != STATUS_OK) {
        text_put(why, "--%s: corner '%s' is unknown (front-left, rear-right, trailer ...)\n",
                 row->name, item);
        return STATUS_E_UNKNOWN;
    }
    note_axles(item, *bits, o);
    *(unsigned *)field_of(o, row) |= *bits;
    *bits = 0; /* a corner named twice does no harm */
    return STATUS_OK;
}

static enum status read_units(struct options *o, const char *value, struct text *why)
{
    o->units_given = true;
    if (units_from_name(value, &o->units) != STATUS_OK) {
        text_put(why, "--units %s: unknown unit (psi, bar, kpa)\n", value);
        return STATUS_E_UNKNOWN;
    }
    return STATUS_OK;
}

static enum status read_value(const struct option_row *row, const char *value, struct options *o,
                              struct text *why)
{
    switch (row->kind) {
    case KIND_FLAG:
        *(bool *)field_of(o, row) = true;
        break;
    case KIND_TEXT:
        *(const char **)field_of(o, row) = value;
        break;
    case KIND_QUANTITY:
        return read_quantity(row, value, field_of(o, row), why);
    case KIND_AXLES:
        return read_list(row, value, read_axle_item, o, why);
    case KIND_PLACES:
        return read_list(row, value, read_place_item, o, why);
    case KIND_CORNERS:
        return read_list(row, value, read_corner_item, o, why);
    case KIND_UNITS:
        return read_units(o, value, why);
    case KIND_SETS:
        if (o->n_set == OPTIONS_SETS) {
            text_put(why, "--set: more than %d values\n", OPTIONS_SETS);
            return STATUS_E_FULL;
        }
        o->set[o->n_set++] = value;
        break;
    }
    return STATUS_OK;
}

/* The row of "--name", "--name=value" or "-o"; *value is what follows '='. */
static const struct option_row *find_option(const char *word, const char **value)
{
    size_t n = strcspn(word, "=");
    *value = word[n] == '=' ? word + n + 1 : NULL;
    for (int i = 0; i < N_OPTIONS; i++) {
        const struct option_row *row = &OPTIONS[i];
        bool is_long = strncmp(word, "--", 2) == 0 && strlen(row->name) == n - 2 &&
                       strncmp(word + 2, row->name, n - 2) == 0;
        bool is_short = row->letter && word[1] == row->letter && word[2] == '\0';
        if (is_long || is_short) {
            return row;
        }
    }
    return NULL;
}

static void say_unknown(const char *word, struct text *why)
{
    const char *names[N_OPTIONS];
    char bare[80];
    for (int i = 0; i < N_OPTIONS; i++) {
        names[i] = OPTIONS[i].name;
    }
    snprintf(bare, sizeof bare, "%.*s", (int)strcspn(word + strspn(word, "-"), "="),
             word + strspn(word, "-"));
    int near = dist_nearest(bare, names, N_OPTIONS, 2);
    text_put(why, "%s: unknown option", word);
    if (near >= 0 && strlen(bare) > 1) { /* every name is near a single letter */
        text_put(why, " (did you mean --%s?)", names[near]);
    }
    text_put(why, "\n");
}

/* Reads the option at argv[i]; returns how many words it took. */
static int read_option(int argc, const char *const argv[], int i, struct options *o,
                       unsigned *wanted_by, bool *bad, struct text *why)
{
    const char *value = NULL;
    const struct option_row *row = find_option(argv[i], &value);
    int took = 1;
    if (!row) {
        say_unknown(argv[i], why);
        *bad = true;
        return took;
    }
    if (row->kind == KIND_FLAG && value) {
        text_put(why, "--%s takes no value\n", row->name);
        *bad = true;
        return took;
    }
    if (row->kind != KIND_FLAG && !value) {
        value = i + 1 < argc ? argv[i + 1] : NULL;
        took = 2;
    }
    if (row->kind != KIND_FLAG && (!value || value[0] == '\0')) {
        text_put(why, "--%s wants a value: --%s %s\n", row->name, row->name, row->argument);
        *bad = true;
        return took;
    }
    wanted_by[row - OPTIONS] = 1;
    *bad = read_value(row, value, o, why) != STATUS_OK || *bad;
    return took;
}

static bool options_fit(const struct options *o, const unsigned given[], struct text *why)
{
    bool fit = true;
    for (int i = 0; i < N_OPTIONS; i++) {
        /* a scripted session, for tests, takes --size as well */
        bool hidden = o->command == CMD_SESSION && (OPTIONS[i].commands == 0 || o->script);
        if (given[i] && !(OPTIONS[i].commands & (unsigned)o->command) && !hidden) {
            text_put(why, "--%s does not go with '%s'\n", OPTIONS[i].name,
                     command_name(o->command));
            fit = false;
        }
    }
    return fit;
}

static bool pressures_fit(const char *name, size_t n, const struct maybe p[], double least_pa,
                          struct text *why)
{
    for (size_t i = 0; i < n; i++) {
        if (p[i].is && !(p[i].v >= least_pa && p[i].v <= PRESSURE_MOST_PA)) {
            text_put(why, "--%s: out of range (%s 0 to 15 bar, gauge)\n", name,
                     least_pa > 0.0 ? "above" : "from");
            return false;
        }
    }
    return true;
}

static bool date_fits(const char *date, struct text *why)
{
    char words[DIAG_TEXT];
    struct text t = text_over(words, sizeof words);
    if (!date || date_check(date, &t) == STATUS_OK) {
        return true;
    }
    text_put(why, "--date: '%s': %s\n", date, words);
    return false;
}

static bool ranges_fit(const struct options *o, struct text *why)
{
    bool fit = true;
    for (int i = 0; i < N_RANGES; i++) {
        const struct maybe *m = (const void *)((const char *)o + RANGES[i].offset);
        if (m->is && !(m->v >= RANGES[i].lo && m->v <= RANGES[i].hi)) {
            text_put(why, "--%s: out of range (%s)\n", RANGES[i].name, RANGES[i].words);
            fit = false;
        }
    }
    fit = pressures_fit("at-pressure", AXLE_COUNT, o->at_pressure.axle, 1.0, why) && fit;
    fit = date_fits(o->date, why) && fit;
    fit = pressures_fit("road", AXLE_COUNT, o->road.axle, 1.0, why) && fit;
    return pressures_fit("from", LOG_CORNERS, o->from.corner, 0.0, why) && fit;
}

static bool arguments_fit(const struct options *o, struct text *why)
{
    const struct command_row *c = command_row(o->command);
    if (o->n_arg >= c->least && o->n_arg <= c->most) {
        return true;
    }
    text_put(why, "usage: sandshoe %s %s\n", c->name, c->arguments);
    return false;
}

/* An unknown first word that looks like a command rather than a rig. */
static bool looks_like_command(const char *word, struct text *why)
{
    const char *names[N_COMMANDS];
    for (int i = 0; i < N_COMMANDS; i++) {
        names[i] = COMMANDS[i].name;
    }
    int near = dist_nearest(word, names, N_COMMANDS, 1);
    if (near < 0) {
        return false;
    }
    text_put(why, "%s: unknown command (did you mean %s?)\n", word, names[near]);
    return true;
}

enum status options_parse(int argc, const char *const argv[], struct options *o, struct text *why)
{
    unsigned given[N_OPTIONS] = {0};
    struct options got = {.command = CMD_SESSION, .units = UNITS_PSI};
    bool bad = false;
    bool only_words = false;
    bool named = false;
    for (int i = 1; i < argc;) {
        const char *word = argv[i];
        if (!only_words && strcmp(word, "--") == 0) {
            only_words = true;
            i++;
        } else if (!only_words && word[0] == '-' && word[1] != '\0') {
            i += read_option(argc, argv, i, &got, given, &bad, why);
        } else if (!named && !only_words && got.n_arg == 0 && command_from_name(word) != 0) {
            got.command = command_from_name(word);
            named = true;
            i++;
        } else if (got.n_arg == OPTIONS_ARGS) {
            text_put(why, "too many arguments\n");
            return STATUS_E_SYNTAX;
        } else {
            got.arg[got.n_arg++] = word;
            i++;
        }
    }
    if (!bad && (got.help || got.version)) {
        *o = got;
        return STATUS_OK;
    }
    bool mistyped = !named && got.n_arg > 0 && looks_like_command(got.arg[0], why);
    bool options_ok = mistyped || options_fit(&got, given, why);
    options_ok = ranges_fit(&got, why) && options_ok;
    bool words_ok = mistyped || arguments_fit(&got, why);
    if (bad || mistyped || !options_ok || !words_ok) {
        return STATUS_E_SYNTAX;
    }
    *o = got;
    return STATUS_OK;
}

static void put_option(const struct option_row *row, struct text *out)
{
    char label[HELP_LABEL];
    struct text t = text_over(label, sizeof label);
    if (row->letter) {
        text_put(&t, "  -%c, --%s", row->letter, row->name);
    } else {
        text_put(&t, "  --%s", row->name);
    }
    if (row->argument) {
        text_put(&t, " %s", row->argument);
    }
    wrap_put(out, HELP_COLUMN, label, row->help);
}

static void help_of_program(struct text *out)
{
    text_put(out, "sandshoe - tyre pressures for a loaded truck on soft ground, and back\n\n"
                  "usage: sandshoe [RIG]            the trailhead session\n"
                  "       sandshoe COMMAND ...      answers on standard output\n\ncommands:\n");
    for (int i = 0; i < N_COMMANDS; i++) {
        char label[HELP_LABEL];
        struct text t = text_over(label, sizeof label);
        text_put(&t, "  %s", COMMANDS[i].name);
        wrap_put(out, HELP_COLUMN, label, COMMANDS[i].help);
    }
    text_put(out, "\n'sandshoe COMMAND --help' lists its options;\n"
                  "'sandshoe help' tells of the job and the cautions.\nPressures are gauge; a "
                  "quantity carries its unit: 38psi, 2.6bar, "
                  "1950kg, 24C.\n");
}

void options_help(enum command_bit command, struct text *out)
{
    if (command == 0) {
        help_of_program(out);
        return;
    }
    char usage[HELP_USAGE];
    struct text u = text_over(usage, sizeof usage);
    const struct command_row *c = command_row(command);
    text_put(&u, "sandshoe %s%s%s", c->bit == CMD_SESSION ? "" : c->name,
             c->bit == CMD_SESSION ? "" : " ", c->arguments);
    wrap_put(out, USAGE_COLUMN, "usage:", usage);
    text_put(out, "\n%s\n\noptions:\n", c->help);
    for (int i = 0; i < N_OPTIONS; i++) {
        if (OPTIONS[i].commands & (unsigned)command) {
            put_option(&OPTIONS[i], out);
        }
    }
}

/* The commands that take an option, unless all do. */
static void put_takers(unsigned commands, struct text *out)
{
    const char *sep = "For";
    for (int i = 0; i < N_COMMANDS && commands != CMD_ALL; i++) {
        if (commands & (unsigned)COMMANDS[i].bit) {
            text_put(out, "%s %s", sep, COMMANDS[i].name);
            sep = ",";
        }
    }
    text_put(out, "%s", commands != CMD_ALL ? ".\n" : "");
}

void options_mdoc(struct text *out)
{
    text_put(out, ".Bl -tag -width Ds\n");
    for (int i = 0; i < N_OPTIONS; i++) {
        const struct option_row *row = &OPTIONS[i];
        if (row->commands == 0) {
            continue;
        }
        text_put(out, ".It ");
        if (row->letter) {
            text_put(out, "Fl %c , ", row->letter);
        }
        text_put(out, "Fl -%s", row->name);
        if (row->argument) {
            text_put(out, " Ar %s", row->argument);
        }
        text_put(out, "\n%c%s.\n", toupper((unsigned char)row->help[0]), row->help + 1);
        put_takers(row->commands, out);
    }
    text_put(out, ".El\n");
}
