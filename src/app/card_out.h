/* card_out.h - a card to where the options want it: standard output, a text file or a PDF. */
#ifndef SANDSHOE_APP_CARD_OUT_H
#define SANDSHOE_APP_CARD_OUT_H

#include "app/card_job.h"
#include "app/context.h"

/* card_job_of - a job with what the options say of size, side, grounds, date and conditions; the
 * caller adds rig and trip.  date[] holds the date for as long as the job lives.
 * ret EXIT_FINE; EXIT_USAGE (said) */
enum exit_status card_job_of(const struct context *c, char date[16],
                             struct card_job *job) MUST_CHECK;

/* card_out - make the card and write it. An existing file is left alone unless --force.
 * ret EXIT_FINE; EXIT_DANGER; EXIT_USAGE; EXIT_BAD_FILE; EXIT_REFUSED; EXIT_SYSTEM: each said */
enum exit_status card_out(const struct context *c, const struct card_job *job) MUST_CHECK;

#endif
