/* layout.h - where a card's words go on paper: pure, so that it can be proved and kept as a golden.
 *
 *   +--------------------------------------------+
 *   | LOAD STATE                                 |
 *   | rig, tyre, load range                      |
 *   | ------------------------------------------ |
 *   | psi gauge, cold      FRONT  REAR  SPARE MAX|   one column an axle: the eye goes down it
 *   | ROAD cold, 20 C       38     48    48      |   large
 *   | dune sand             16     22         25 |
 *   | NEVER BELOW           15     18            |
 *   | ------------------------------------------ |
 *   | refill, cautions, date, notes  |   plan    |
 *   +--------------------------------------------+
 */
#ifndef SANDSHOE_CARD_LAYOUT_H
#define SANDSHOE_CARD_LAYOUT_H

#include <stdbool.h>

#include "base/status.h"
#include "card/content.h"
#include "card/page.h"

enum card_size { CARD_3X5, CARD_A6, CARD_QUARTER, CARD_SIZE_COUNT };

/* What a size of card holds. All are landscape. */
struct card_format {
    const char *name;
    double width_pt, height_pt;
    int columns, lines; /* of the text form, at 10 characters and 6 lines an inch */
    int grounds;        /* at most */
    int notes;          /* at most */
    bool plan, outlines;
};

/* card_format_of - the format of a size. */
const struct card_format *card_format_of(enum card_size size);

/* card_size_from_name - "3x5", "a6", "quarter". E_UNKNOWN otherwise. */
enum status card_size_from_name(const char *name, enum card_size *size) MUST_CHECK;

/* card_layout - the front of a card.
 *
 *   in   content, size
 *   out  page     sound by card_page_check; undefined on error
 *   out  problem  on error: what is wrong, and how many rows would fit
 *   ret  STATUS_OK; E_FULL (too many rows); E_SYNTAX (a character WinAnsi lacks); E_DOMAIN
 *   how  the largest type of a fixed list of scales at which everything fits; spare room goes
 *        between the rows
 */
enum status card_layout(const struct card_content *content, enum card_size size,
                        struct card_page *page, struct card_problem *problem) MUST_CHECK;

/* card_layout_log - side 2: an empty grid for readings, before and after, by corner.
 *   out, ret  as card_layout; E_DOMAIN for content without corners */
enum status card_layout_log(const struct card_content *content, enum card_size size,
                            struct card_page *page, struct card_problem *problem) MUST_CHECK;

/* card_layout_plan - the corner plan into a block of a page that is being laid out.
 *   in   outlines  patches to scale instead of plain tyres
 *   ret  false when the block is too small */
bool card_layout_plan(const struct card_content *content, bool outlines, double x_pt, double y_pt,
                      double width_pt, double height_pt, struct card_page *page);

/* card_wrap - the longest beginning of s (bytes) that ends at a word and is at most width_pt
 * wide; at least one character. */
size_t card_wrap(enum card_font font, double size_pt, double width_pt, const char *s);

#endif
