/* keymap.h - the one table of keys.  It makes the enum of actions, the dispatch, the footer, the
 * help screen and the KEYS section of the manual page.
 *
 * K(action, context, keys, short label, help sentence): keys are names separated by blanks. A
 * context's keys are tried before those of the session; while a text is typed only the keys of
 * the TYPING context act. */
#ifndef SANDSHOE_TUI_KEYMAP_H
#define SANDSHOE_TUI_KEYMAP_H

#include <stddef.h>

#include "base/text.h"

// clang-format off
#define KEYMAP_CONTEXTS(X)                                                                         \
    X(SESSION, "Everywhere")                                                                       \
    X(TYPING, "While typing")                                                                      \
    X(QUESTIONS, "Three questions")                                                                \
    X(CHOOSER, "In a list")                                                                        \
    X(WEIGHTS, "In the weights")                                                                   \
    X(WORKING, "In the working")                                                                   \
    X(CARD, "At the card")                                                                         \
    X(TRIP, "On a trip")                                                                           \
    X(CLOCK, "At the air clock")                                                                   \
    X(DANGER, "Before an act")                                                                     \
    X(CONFIRM, "When asked")

#define KEYMAP_TABLE(K)                                                                            \
    K(CORNERS, SESSION, "c", "corners", "Corners: footprints and target pressures.")               \
    K(FOOTPRINT, SESSION, "p", "footprint", "Footprint of the axle picked: patches, section, flotation.") \
    K(HOOKUPS, SESSION, "o", "hook-ups", "Hook-ups side by side: minutes up, order of corners.")   \
    K(CLOCK, SESSION, "a", "air clock", "Air clock: timed air-down and air-up, told by your gauge.")  \
    K(TRIP, SESSION, "r", "route", "Trip: pressures, stops and minutes of a route.")               \
    K(BASIS, SESSION, "b", "basis", "Working: what every number stands on.")                     \
    K(CAUTIONS, SESSION, "!", "cautions", "Cautions, and whose word goes before this program's.")  \
    K(HELP, SESSION, "?", "help", "Help: all keys.")                                               \
    K(GROUND, SESSION, "g", "ground", "Choose the ground; in the list one letter takes it.")       \
    K(WEIGHTS, SESSION, "w", "weights", "Load items on or off, added, changed.")                   \
    K(AIR, SESSION, "t", "temp/height", "Air temperature, tyre temperature, height.")              \
    K(SPEED, SESSION, "s", "speed", "The speed you would like; empty asks none.")                  \
    K(CROSS, SESSION, "x", "side slope", "Side slope, in degrees; empty for level.")               \
    K(UNITS, SESSION, "v", "units", "Next pressure unit: psi, bar, kPa.")                          \
    K(EDIT, SESSION, "e", "edit", "Change any value of the rig for this session.")                 \
    K(RIGS, SESSION, "y F3", "rigs", "Open one of your rigs.")                                     \
    K(SAVE, SESSION, "n F2", "save", "Save the rig under a new name, or over a file when confirmed.") \
    K(CARD, SESSION, "i", "card", "The glovebox card: made, where it is, printed when asked.")     \
    K(UNDO, SESSION, "z", "undo", "Take the last change back; again for the one before.")          \
    K(UP, SESSION, "k Up", "up", "Corner or row above.")                                           \
    K(DOWN, SESSION, "j Down", "down", "Corner or row below.")                                     \
    K(LEFT, SESSION, "h Left", "left", "Corner to the left.")                                      \
    K(RIGHT, SESSION, "l Right", "right", "Corner to the right.")                                  \
    K(NEXT, SESSION, "Tab", "next", "Next corner, row or field.")                                  \
    K(PREVIOUS, SESSION, "BackTab", "previous", "The one before.")                                 \
    K(PAGE_UP, SESSION, "PgUp", "page up", "A page up.")                                           \
    K(PAGE_DOWN, SESSION, "PgDn Space", "page", "A page down.")                                    \
    K(FIRST, SESSION, "Home", "first", "To the first row.")                                        \
    K(LAST, SESSION, "End", "last", "To the last row.")                                            \
    K(BACK, SESSION, "q", "back", "Back; from Corners, leave: unsaved changes take a second q, air that flows a y.")             \
    K(ABANDON, SESSION, "Esc", "leave", "Back without a change; never leaves the program.")        \
    K(REPAINT, SESSION, "Ctrl-L", "redraw", "Draw the screen again.")                              \
    K(COMMIT, TYPING, "Enter", "take", "Take what was typed.")                                     \
    K(RUB, TYPING, "Backspace", "rub out", "Take the last character back.")                        \
    K(WIPE, TYPING, "Ctrl-U", "empty", "Empty the field.")                                         \
    K(FIELD_NEXT, TYPING, "Tab Down", "next", "Next field.")                                       \
    K(FIELD_BEFORE, TYPING, "BackTab Up", "before", "The field before.")                           \
    K(TYPING_ABANDON, TYPING, "Esc", "leave", "Leave the field as it was.")                        \
    K(ASK_SAVE, QUESTIONS, "F2", "save as rig", "Save the three answers as a rig.")                \
    K(ASK_OPEN, QUESTIONS, "F3", "open a rig", "Open one of your rigs instead.")                   \
    K(TAKE, CHOOSER, "Enter", "take", "Take the row marked.")                                      \
    K(FIND, CHOOSER, "/", "find", "Find a row by its words.")                                      \
    K(ITEM_SWITCH, WEIGHTS, "Space", "on/off", "Load item on or off.")                             \
    K(ITEM_CHANGE, WEIGHTS, "Enter", "change", "Change the mass of the item.")                     \
    K(ITEM_ADD, WEIGHTS, "a", "add", "Add an item: words, mass, distance behind the front axle.")  \
    K(SEARCH, WORKING, "/", "search", "Search the working.")                                       \
    K(SEARCH_NEXT, WORKING, "Enter", "next hit", "To the next place found.")                       \
    K(CARD_MAKE, CARD, "Enter", "make it", "Make the card.")                                       \
    K(CARD_PRINT, CARD, "p", "print it", "Send the card to the printer, by the command lp.")       \
    K(TRIP_OPEN, TRIP, "Enter", "trips", "Open the trip marked; with one open, the list of trips.") \
    K(TRIP_CARD, TRIP, "i", "card", "The card of this trip: a PDF in the current folder.")         \
    K(CLOCK_AIR, CLOCK, "Space", "air", "Start, pause, go on; after the end a new job.")       \
    K(CLOCK_TAKE, CLOCK, "Enter", "done", "Take the reading typed, or say that the act asked for is done.") \
    K(CLOCK_FLOWING, CLOCK, "f", "flowing", "The reading is taken while air flows, or settled.")   \
    K(CLOCK_ALL, CLOCK, "a", "all", "Every corner at once.")                                       \
    K(CLOCK_OFF, CLOCK, "d", "off", "Corner off the line (or valve shut); again: back on.")   \
    K(CLOCK_REST, CLOCK, "r", "rest", "Rest the compressor; again: go on.")                        \
    K(CLOCK_TARGET, CLOCK, "t", "target", "The number typed is a new target, not a reading. Below the floor it is asked about; where bead or casing give out it is refused. Without a number: the targets of the ground and day chosen since the job began.") \
    K(CLOCK_HOOKUP, CLOCK, "o", "hook-up", "Next hook-up: linked, pairs, single.")                 \
    K(CLOCK_TURN, CLOCK, "u", "up/down", "Air up or air down, before it starts.")                  \
    K(CLOCK_CORE, CLOCK, "i", "core", "Letting down: valve core in or out of the corners picked, before air.") \
    K(CLOCK_MUTE, CLOCK, "m", "mute", "Bell off or on.")                                           \
    K(CLOCK_END, CLOCK, "e", "end", "End the job and see its record.")                             \
    K(CLOCK_FORGET, CLOCK, "x", "forget", "Forget what earlier refills taught of this air system.") \
    K(ACKNOWLEDGE, DANGER, "Enter", "read and heeded", "You have read the danger; go on.")         \
    K(YES, CONFIRM, "y", "yes", "Do it.")                                                          \
    K(NO, CONFIRM, "n", "no", "Leave it.")
// clang-format on

enum keymap_context {
#define KEYMAP_ENUM(id, title) KEYS_##id,
    KEYMAP_CONTEXTS(KEYMAP_ENUM)
#undef KEYMAP_ENUM
        KEYS_COUNT
};

enum action {
    ACT_NONE,
#define KEYMAP_ENUM(action, context, keys, label, help) ACT_##action,
    KEYMAP_TABLE(KEYMAP_ENUM)
#undef KEYMAP_ENUM
        ACT_COUNT
};

struct keymap_row {
    enum action action;
    enum keymap_context context;
    const char *keys, *label, *help;
};

/* keymap_row - the row of an action; ACT_NONE and stray numbers give an empty row. */
const struct keymap_row *keymap_row(enum action a);

/* keymap_find - the action of a key in a context, or ACT_NONE. */
enum action keymap_find(enum keymap_context c, int key);

/* keymap_context_title - words for a context. */
const char *keymap_context_title(enum keymap_context c);

/* keymap_first_key - append the name of an action's first key, "g", "Enter". */
void keymap_first_key(enum action a, struct text *out);

/* keymap_key_at - the key named at *keys, which then stands behind it; 0 at the end or for a name
 * that is none. */
int keymap_key_at(const char **keys);

/* keymap_put_mdoc - append the KEYS section of the manual page as an mdoc list. */
void keymap_put_mdoc(struct text *out);

#endif
