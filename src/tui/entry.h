/* entry.h - a line of text being typed. */
#ifndef SANDSHOE_TUI_ENTRY_H
#define SANDSHOE_TUI_ENTRY_H

#include <stdbool.h>

#include "base/num.h"
#include "base/units.h"
#include "tui/frame.h"
#include "tui/keymap.h"

enum { ENTRY_TEXT = 80 };

struct entry {
    char text[ENTRY_TEXT];
};

/* entry_set - start from a text (cut at the room there is). */
void entry_set(struct entry *e, const char *text);

/* entry_key - append a printable key; false for any other key. */
bool entry_key(struct entry *e, int key);

/* entry_act - RUB and WIPE; false for any other action. */
bool entry_act(struct entry *e, enum action a);

/* entry_put - draw the field in cols columns, its cursor when active; the end of a long text
 * stays in sight. */
void entry_put(const struct entry *e, struct frame *f, int row, int col, int cols, bool active);

/* entry_value - the text as a quantity. The unit printed beside the field goes with a bare number.
 * An empty text is none.  why says what is amiss, as for a profile.
 *   ret  false when it cannot be read */
bool entry_value(const struct entry *e, enum quantity q, const char *unit, struct maybe *si,
                 struct text *why);

#endif
