/* card_job.h - from a rig (or a trip) to a finished card: advice for each ground, the refill, the
 * content, and the card as text or as PDF bytes. No file is touched here. */
#ifndef SANDSHOE_APP_CARD_JOB_H
#define SANDSHOE_APP_CARD_JOB_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "base/text.h"
#include "card/card_text.h"
#include "card/draw_pdf.h"
#include "card/layout.h"
#include "core/advice.h"
#include "core/ground.h"
#include "core/rig.h"
#include "core/trip_plan.h"

enum { CARD_JOB_GROUNDS = 8 };

struct card_job {
    const struct rig *rig;
    const struct rig *other; /* second load state of a folded sheet; NULL = one card */
    const struct trip *trip; /* the card of a trip with this rig; NULL = of the rig */
    const struct ground_list *catalogue;
    int n_ground; /* 0 = the usual ones, as many as fit */
    char ground[CARD_JOB_GROUNDS][GROUND_NAME];
    struct conditions conditions;
    enum unit_system units;
    enum card_size size;
    bool log_side;    /* side 2 */
    const char *date; /* as printed */
};

/* Why there is no card, or what is to be known of the one there is. */
struct card_job_report {
    bool danger;            /* a DANGER arises from these inputs: it stands on the card */
    struct refusal refusal; /* with E_REFUSED */
    char what[CARD_PROBLEM];
};

/* card_job_grounds - read "a,b,c" into a job.
 *   ret  STATUS_OK; E_UNKNOWN (a ground the catalogue lacks, named in what); E_FULL */
enum status card_job_grounds(const char *list, struct card_job *job,
                             struct card_job_report *fault) MUST_CHECK;

/* card_job_text - append the card as text.
 *   ret  STATUS_OK; E_REFUSED; E_FULL (too many rows: what says how many fit); E_UNKNOWN;
 *        E_DOMAIN; E_MISSING and others of advice_compute */
enum status card_job_text(const struct card_job *job, struct text *out,
                          struct card_job_report *fault) MUST_CHECK;

/* card_job_pdf - the card as a file of bytes. ret as card_job_text; E_SYNTAX (a character that the
 * card's fonts lack, with its key); as card_pdf. */
enum status card_job_pdf(const struct card_job *job, size_t cap, unsigned char bytes[],
                         size_t *n_byte, struct card_job_report *fault) MUST_CHECK;

#endif
