/* draw_pdf.h - pages to PDF bytes: vector, black only, the same bytes for the same pages. */
#ifndef SANDSHOE_CARD_DRAW_PDF_H
#define SANDSHOE_CARD_DRAW_PDF_H

#include <stddef.h>

#include "base/status.h"
#include "card/page.h"

enum { CARD_PDF_MAX = 256 * 1024 };

/* card_pdf - draw pages[n_page] as one document.
 *
 *   in   n_page, page[]  each is checked by card_page_check before anything is drawn
 *   in   cap             room in bytes[], CARD_PDF_MAX is ample
 *   out  bytes, n_byte   the file; untouched on error
 *   out  problem         on error: what is wrong
 *   ret  STATUS_OK; as card_page_check; E_FULL (cap too small); E_MEMORY; E_SYSTEM (the library
 *        reported an error, its code in the problem)
 */
enum status card_pdf(int n_page, const struct card_page page[], size_t cap, unsigned char bytes[],
                     size_t *n_byte, struct card_problem *problem) MUST_CHECK;

#endif
