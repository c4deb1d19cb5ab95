/* air_job.h - from an advice to a let-down, from readings to a refill. No file is touched here. */
#ifndef SANDSHOE_APP_AIR_JOB_H
#define SANDSHOE_APP_AIR_JOB_H

#include "app/options.h"
#include "core/advice.h"
#include "report/air_report.h"

/* Readings that the user gave are what his gauge shows: its offset is taken out of them. */

/* down_job - from the readings, else from road pressure, to the reading to set for a's ground.
 *   in   a     advice, may be refused; lives as long as r
 *   out  r     filled; when refused only refusal, cautions and the corners present
 *   ret  STATUS_OK; E_REFUSED; E_DOMAIN; E_NO_SOLUTION */
enum status down_job(const struct advice *a, const struct corner_pressures *from,
                     struct down_report *r) MUST_CHECK;

/* What a refill is asked for; pressures are cold gauge. */
struct up_question {
    const struct advice *from;           /* targets that stand in where no reading is given */
    const char *from_name;               /* NULL: every corner was read */
    const struct corner_pressures *read; /* readings now */
    bool from_assumed;                   /* nobody said from where: a NOTE is due */
    double cold_gauge_pa[AXLE_COUNT];    /* to fill to */
    const char *to_name;                 /* in words */
    const struct advice *gravel;         /* part refill; NULL = none */
    unsigned found_low;                  /* corners, as given */
};

/* up_job - plan the refill.
 *   out  r     filled; when the rig is refused as a whole r->planned is false
 *   ret  STATUS_OK; E_REFUSED (also when a corner is left out as found low); E_DOMAIN */
enum status up_job(const struct up_question *q, struct up_report *r) MUST_CHECK;

/* air_found_low - corners whose reading is below 0.8 of their target and more than 5 psi under
 * their axle mate: nobody lets down one side of an axle on purpose. Bits REFILL_CORNER. */
unsigned air_found_low(const struct refill_in *in);

#endif
