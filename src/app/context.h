/* context.h - what every command works with: options, search path, catalogues, the rig in hand. */
#ifndef SANDSHOE_APP_CONTEXT_H
#define SANDSHOE_APP_CONTEXT_H

#include <stdbool.h>

#include "app/exit_status.h"
#include "app/options.h"
#include "app/paths.h"
#include "base/diag.h"
#include "core/advice.h"
#include "core/ground.h"
#include "core/rig.h"
#include "profile/profile.h"
#include "report/json_part.h"

struct context {
    struct options opt;
    struct search_path search;
    struct diag_list diags;
    struct compressor_list compressors;
    struct ini grounds_ini, rig_ini;
    struct ground_list grounds;
    struct rig rig;
    struct caution_list assumed; /* quick form: what was assumed */
    enum unit_system units;      /* --units, else the rig's own, else psi */
    bool utf8;                   /* the output can take more than ASCII */
};

/* context_load_grounds - read compressors and the merged ground catalogue.
 * ret EXIT_FINE; EXIT_BAD_FILE (mistakes printed); EXIT_SYSTEM. */
enum exit_status context_load_grounds(struct context *c) MUST_CHECK;

/* context_read_catalogues - the same without a word: mistakes stay in c->diags.
 * ret STATUS_OK; E_SYNTAX; E_MISSING (no grounds.ini anywhere). */
enum status context_read_catalogues(struct context *c) MUST_CHECK;

/* context_load_rig - the rig that the options name: a profile or the quick form, with --set
 * applied; also loads the catalogues and settles the units.
 * ret as above; EXIT_USAGE when neither a rig nor a complete quick form is given. */
enum exit_status context_load_rig(struct context *c) MUST_CHECK;

/* context_load_rig_named - the same for a rig by name, options' quick form left aside. */
enum exit_status context_load_rig_named(struct context *c, const char *name) MUST_CHECK;

/* context_ground - a ground by name; NULL with a message and hint when there is none. */
const struct ground *context_ground(const struct context *c, const char *name);

/* context_conditions - today's circumstances as the options give them. */
struct conditions context_conditions(const struct options *o);

/* context_advise - the advice for the rig in hand on a ground, with the quick form's assumptions
 * among its cautions.
 * ret EXIT_FINE (the advice may be a refusal: see context_outcome); EXIT_USAGE or EXIT_BAD_FILE
 * with a message when the rig and the conditions cannot be computed. */
enum exit_status context_advise(const struct context *c, const struct ground *ground,
                                struct advice *a) MUST_CHECK;

/* context_add_assumed - put the quick form's assumptions before the cautions of a list. */
void context_add_assumed(const struct context *c, struct caution_list *list);

/* context_named_ground - the ground of --ground.
 * ret EXIT_FINE; EXIT_USAGE with a message (not given, not known). */
enum exit_status context_named_ground(const struct context *c,
                                      const struct ground **ground) MUST_CHECK;

/* context_outcome - the exit status that an answer stands for. */
enum exit_status context_outcome(const struct refusal *refusal,
                                 const struct caution_list *cautions);

/* context_json_head - what heads a command's object. */
struct json_head context_json_head(const struct context *c, const struct rig *rig,
                                   const struct caution_list *cautions,
                                   const struct refusal *refusal, enum exit_status result);

/* context_trouble - print every mistake: JSON on standard output with --json, lines on standard
 * error otherwise. ret EXIT_BAD_FILE. */
enum exit_status context_trouble(const struct context *c);

/* context_mistakes - print mistakes on standard error, one a line. */
void context_mistakes(const struct diag_list *diags);

/* context_say - a message on standard error, "sandshoe: " before it, a newline after it. */
void context_say(const char *format, ...) __attribute__((format(printf, 1, 2)));

/* context_out - text on standard output. ret EXIT_FINE; EXIT_SYSTEM when it cannot be written. */
enum exit_status context_out(const char *text) MUST_CHECK;

#endif
