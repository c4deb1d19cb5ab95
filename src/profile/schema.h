/* schema.h - every section and key that a profile may have, one row each. Validation, hints, the
 * manual page and the commented templates all come from this table. */
#ifndef SANDSHOE_PROFILE_SCHEMA_H
#define SANDSHOE_PROFILE_SCHEMA_H

#include <stdbool.h>
#include <stddef.h>

#include "base/text.h"
#include "base/units.h"

enum profile_kind { PROFILE_RIG, PROFILE_GROUNDS, PROFILE_COMPRESSOR, PROFILE_TRIP, PROFILE_KINDS };

/* Sections as bits, so that one row may serve several. */
enum schema_section {
    SECTION_RIG = 1 << 0,
    SECTION_FRONT = 1 << 1,
    SECTION_MIDDLE = 1 << 2,
    SECTION_REAR = 1 << 3,
    SECTION_TRAILER = 1 << 4,
    SECTION_TRAILER2 = 1 << 5,
    SECTION_MASS = 1 << 6,
    SECTION_AIR = 1 << 7,
    SECTION_SPARE = 1 << 8,
    SECTION_SPRINGS = 1 << 9,
    SECTION_GROUND = 1 << 10,
    SECTION_COMPRESSOR = 1 << 11,
    SECTION_TRIP = 1 << 12,
    SECTION_LEG = 1 << 13,
    SECTION_AXLES =
        SECTION_FRONT | SECTION_MIDDLE | SECTION_REAR | SECTION_TRAILER | SECTION_TRAILER2
};

enum schema_type {
    TYPE_QUANTITY, /* double, SI */
    TYPE_MAYBE,    /* struct maybe, SI */
    TYPE_COUNT,    /* int */
    TYPE_WORD,     /* enum, in the order of words */
    TYPE_FLAG,     /* bool: the second word is true */
    TYPE_TEXT,     /* char[size] */
    TYPE_DATE,     /* char[size]: YYYY-MM-DD */
    TYPE_LETTER,   /* char: a load range */
    TYPE_SPEED,    /* char[3]: a speed symbol */
    TYPE_TYRE,     /* struct designation */
    TYPE_FLOW      /* struct compressor: pairs of pressure and free air */
};

enum schema_need {
    NEED_REQUIRED,
    NEED_MOSTLY, /* required but in the cases that the help names; checked by the loaders */
    NEED_OPTIONAL,
    NEED_DEFAULT
};

/* NOLINTNEXTLINE(clang-analyzer-optin.performance.Padding): the order in which a row is read */
struct schema_row {
    unsigned sections;
    const char *key;
    enum schema_type type;
    enum quantity q;
    const char *min, *max; /* as they are written, "50 kg"; NULL = no range */
    const char *words;     /* "all|front|rear"; NULL = any */
    enum schema_need need;
    const char *standard; /* the default as it is written; NULL = none */
    const char *example;  /* for the template */
    const char *help;
    size_t offset, size; /* where the value goes in the section's struct */
};

/* NOLINTNEXTLINE(clang-analyzer-optin.performance.Padding): the order in which a row is read */
struct schema_section_row {
    enum schema_section section;
    const char *name;
    enum profile_kind kind;
    int numbered; /* 0, or the highest N of name-N */
    bool required;
    const char *help;
};

/* schema_rows - the table of keys; schema_sections - of sections, in the order of a profile. */
const struct schema_row *schema_rows(size_t *n);
const struct schema_section_row *schema_sections(size_t *n);

/* schema_row - the row of a key in a section, or NULL. */
const struct schema_row *schema_row(unsigned section, const char *key);

/* schema_section - what a section name means in a file of that kind, and N of name-N (else 0);
 * NULL when there is no such section. */
const struct schema_section_row *schema_section(enum profile_kind kind, const char *name,
                                                int *number);

/* schema_hint_key - append " (did you mean ...?)" for an unknown key of a section. */
void schema_hint_key(const struct schema_section_row *section, const char *key, struct text *out);

/* schema_hint_section - append the same for an unknown section. */
void schema_hint_section(enum profile_kind kind, const char *name, struct text *out);

/* schema_word - index of a word in "a|b|c", or -1; schema_words - the words as "a, b, c". */
int schema_word(const char *words, const char *word);
void schema_words(const char *words, struct text *out);

/* profile_kind_name - "rig", "grounds", "compressor", "trip"; the reverse returns PROFILE_KINDS
 * for an unknown name. */
const char *profile_kind_name(enum profile_kind kind);
enum profile_kind profile_kind_from_name(const char *name);

#endif
