/* outing.h - the rig, the ground and the day being looked at, what follows from them, and the way
 * back through every change. */
#ifndef SANDSHOE_TUI_OUTING_H
#define SANDSHOE_TUI_OUTING_H

#include "core/advice.h"
#include "sim/refill.h"
#include "tui/host.h"

enum { OUTING_EDITS = 32, OUTING_UNDO = 32, OUTING_WHAT = 72 };

/* All that a change may touch: undo keeps copies of it. */
struct outing {
    struct rig_source source;
    int n_edit;
    struct rig_edit edit[OUTING_EDITS];
    bool has_rig;
    struct rig rig;
    int ground; /* in the catalogue; -1 = none chosen, targets are the road's */
    struct conditions conditions;
    enum unit_system units;
};

struct undo {
    char what[OUTING_WHAT]; /* "ground dune sand" */
    struct outing before;
};

struct undo_list {
    int n; /* the newest is the last; a full list forgets the oldest */
    struct undo item[OUTING_UNDO];
};

/* What a ground would ask of this rig, for the chooser. */
struct preview {
    bool known; /* false when the ground is refused for this rig */
    double target_gauge_pa[AXLE_COUNT];
    struct maybe cap_mps;
};

/* Minutes up, all hook-ups: from the ground's targets to road pressure. */
struct outing_refill {
    enum status status;
    struct refill_in in;
    struct refill_out out;
};

struct results {
    enum status status; /* of advice_compute */
    struct advice advice;
    int n_preview;
    struct preview preview[GROUND_MAX];
    double longest_m, widest_m; /* of all patches, at the target and on the road */
    struct outing_refill refill;
};

/* outing_compute - everything that follows from a outing with a rig. */
void outing_compute(const struct outing *s, const struct ground_list *grounds, struct results *out);

/* outing_refill_compute - the minutes, from the results' advice; apart because few screens ask. */
void outing_refill_compute(const struct outing *s, const struct ground_list *grounds,
                           struct results *out);

/* outing_edit - the outing with one more change (or the same key changed again) loaded through
 * the host; false and untouched when the host refuses or there is no room. */
bool outing_edit(struct outing *s, const struct session_host *host, const char *key,
                 const char *value, struct load_report *report);

/* outing_edits - the same with n changes at once. */
bool outing_edits(struct outing *s, const struct session_host *host, int n,
                  const struct rig_edit edits[], struct load_report *report);

/* outing_open - a rig from its source; ground and day stay, and so does the unit once there was a
 * rig. */
bool outing_open(struct outing *s, const struct session_host *host, const struct rig_source *source,
                 struct load_report *report);

/* outing_mass_key - the profile key of a value of the i-th load item, "mass-2.position". */
void outing_mass_key(const struct outing *s, const struct session_host *host, int i,
                     const char *key, char out[HOST_KEY]);

/* undo_note - keep the state before a change; what says which in words. */
void undo_note(struct undo_list *u, const struct outing *before, const char *what);

/* undo_take - go one change back; what (OUTING_WHAT bytes) tells which; false when there is none. */
bool undo_take(struct undo_list *u, struct outing *s, char what[OUTING_WHAT]);

/* outing_ground - the ground chosen, or NULL. */
const struct ground *outing_ground(const struct outing *s, const struct ground_list *grounds);

#endif
