/* profile.h - read profiles strictly: every mistake at once with file and line, nothing guessed.
 *
 *   file --profile_read--> struct ini --rig_from_ini--> struct rig
 *                            ^ profile_set ("--set rear.axle_load=1800kg"), profile_put (an editor)
 *
 * The list of keys as written (struct ini) stays beside the plain struct, so that values can be
 * changed, validated again, and written out. Nothing here allocates but iniparser, which gives it
 * all back before profile_read returns. */
#ifndef SANDSHOE_PROFILE_PROFILE_H
#define SANDSHOE_PROFILE_PROFILE_H

#include "base/diag.h"
#include "core/ground.h"
#include "core/rig.h"
#include "core/trip_plan.h"
#include "profile/ini_scan.h"
#include "profile/schema.h"

enum { COMPRESSOR_MAX = 24 };

/* Compressor profiles by the name of their file and the name inside. */
struct compressor_list {
    int n;
    char stem[COMPRESSOR_MAX][RIG_NAME];
    struct compressor item[COMPRESSOR_MAX];
};

/* profile_read - append the entries of a file to ini (set ini->n_file = ini->n = 0 before the
 * first). The strict scan finds mistakes and lines; iniparser supplies the values; both must agree.
 * ret STATUS_OK; E_SYNTAX (mistakes in diags); E_SYSTEM (cannot be opened or read, said in diags).
 */
enum status profile_read(const char *path, struct ini *ini, struct diag_list *diags) MUST_CHECK;

/* profile_guess - the kind of profile that the sections speak of. */
enum profile_kind profile_guess(const struct ini *ini);

/* profile_put - set one value in place, or append it; NULL takes it away. from says in messages
 * where it came from ("--set", "edited"). ret STATUS_OK; E_FULL; E_SYNTAX (cannot stand in a file). */
enum status profile_put(struct ini *ini, const char *section, const char *key, const char *value,
                        const char *from) MUST_CHECK;

/* profile_set - profile_put for "section.key=value" of the option --set.
 * ret STATUS_OK; E_SYNTAX (said in diags). */
enum status profile_set(struct ini *ini, const char *text, struct diag_list *diags) MUST_CHECK;

/* profile_check_value - check one value as if it stood in a file of that kind.
 * ret STATUS_OK; the status of the mistake, told in d (without file and line). */
enum status profile_check_value(enum profile_kind kind, const char *section, const char *key,
                                const char *value, struct diag *d) MUST_CHECK;

/* profile_write - append the entries as the text of a profile: sections and keys in the order of
 * the schema, values as they were written. */
void profile_write(const struct ini *ini, enum profile_kind kind, struct text *out);

/* rig_from_ini - validate and build. list: compressors to look names up in.
 * out rig untouched on error. ret STATUS_OK; E_SYNTAX (mistakes in diags). */
enum status rig_from_ini(const struct ini *ini, const struct compressor_list *list, struct rig *rig,
                         struct diag_list *diags) MUST_CHECK;

/* rig_load - profile_read, profile_set for each of set, rig_from_ini; ini is the caller's and keeps
 * the values as written. ret as profile_read. */
enum status rig_load(const char *path, int n_set, const char *const set[],
                     const struct compressor_list *list, struct ini *ini, struct rig *rig,
                     struct diag_list *diags) MUST_CHECK;

/* rig_to_ini - the entries that would give this rig: what differs from the defaults, in the rig's own
 * pressure unit. A named compressor is written by its name only. The rig may still lack what a
 * profile requires (a moulded maximum): rig_from_ini tells. ret STATUS_OK; E_FULL; E_SYNTAX (a
 * text that cannot stand in a file). */
enum status rig_to_ini(const struct rig *rig, struct ini *ini) MUST_CHECK;

/* rig_defaults - a rig of which nothing was given: every default of the schema, generic compressor,
 * front and rear axle present. */
void rig_defaults(struct rig *rig);

/* grounds_from_ini - validate and build the catalogue. When several files were read into ini, the
 * earlier file wins, section by section, key by key. ret as rig_from_ini. */
enum status grounds_from_ini(const struct ini *ini, struct ground_list *list,
                             struct diag_list *diags) MUST_CHECK;

/* compressor_from_ini, compressor_load - one compressor profile. ret as rig_load. */
enum status compressor_from_ini(const struct ini *ini, struct compressor *c,
                                struct diag_list *diags) MUST_CHECK;
enum status compressor_load(const char *path, struct ini *ini, struct compressor *c,
                            struct diag_list *diags) MUST_CHECK;

/* compressor_list_add - append unless an earlier one has that stem; stem is the file's base name
 * without ".ini". A full list drops it. */
void compressor_list_add(struct compressor_list *list, const char *path,
                         const struct compressor *c);

/* compressor_find - by stem or name, or NULL. */
const struct compressor *compressor_find(const struct compressor_list *list, const char *name);

/* compressor_generic - the generic twin of two 12 V heads. */
void compressor_generic(struct compressor *c);

/* trip_from_ini, trip_load - a trip; grounds may be NULL (names are then not checked). */
enum status trip_from_ini(const struct ini *ini, const struct ground_list *grounds,
                          struct trip *trip, struct diag_list *diags) MUST_CHECK;
enum status trip_load(const char *path, const struct ground_list *grounds, struct ini *ini,
                      struct trip *trip, struct diag_list *diags) MUST_CHECK;

#endif
