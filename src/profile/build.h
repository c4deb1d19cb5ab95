/* build.h - shared by the loaders of this folder: check every entry against the schema, then fill
 * plain structs from them. */
#ifndef SANDSHOE_PROFILE_BUILD_H
#define SANDSHOE_PROFILE_BUILD_H

#include "profile/profile.h"

struct build {
    const struct ini *ini;
    enum profile_kind kind;
    struct diag_list *diags;
    int bad; /* mistakes found by this build */
};

/* build_check - report unknown sections and keys, values that cannot be read, sections missing. */
void build_check(struct build *b);

/* build_check_entries - the same for a file of which some lines could not be read: what is missing
 * may stand on those lines and is not reported. */
void build_check_entries(const struct ini *ini, enum profile_kind kind, struct diag_list *diags);

/* build_fill - store what is given and the defaults of the rest; report required keys that are
 * missing. Values that build_check reported are left alone. */
void build_fill(struct build *b, enum schema_section section, const char *name, void *to);

/* build_defaults - store every default of a section. */
void build_defaults(enum schema_section section, void *to);

/* build_has - whether a key is given; key "" asks for the section. */
bool build_has(const struct build *b, const char *section, const char *key);

/* build_says - report a mistake at a key, or at its section when the key is not given. */
void build_says(struct build *b, const char *section, const char *key, enum status code,
                const char *format, ...) __attribute__((format(printf, 5, 6)));

#endif
