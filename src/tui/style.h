/* style.h - what a piece of the screen means; how that looks is decided here, in one table, once
 * for colour and once for monochrome.  Meaning never hangs on colour: each pair of roles that must
 * be told apart differs in words, position or reverse video as well. */
#ifndef SANDSHOE_TUI_STYLE_H
#define SANDSHOE_TUI_STYLE_H

/* bits of struct look.attributes */
enum { LOOK_BOLD = 1, LOOK_REVERSE = 2, LOOK_UNDERLINE = 4 };

/* Only hues that hold on a light and on a dark background, and only for warnings; HUE_PLAIN is the
 * terminal's own. */
enum hue { HUE_PLAIN, HUE_RED, HUE_MAGENTA, HUE_COUNT };

/* S(role, letter in dumps, monochrome attributes, colour attributes, hue) */
#define STYLE_TABLE(S)                                                                             \
    S(PLAIN, '.', 0, 0, HUE_PLAIN)                                                                 \
    S(HEADER, 'H', LOOK_REVERSE, LOOK_REVERSE, HUE_PLAIN)                                          \
    S(TITLE, 'T', LOOK_BOLD, LOOK_BOLD, HUE_PLAIN)                                                 \
    S(LABEL, 'l', 0, 0, HUE_PLAIN)                                                                 \
    S(VALUE, 'v', LOOK_BOLD, LOOK_BOLD, HUE_PLAIN)                                                 \
    S(BIG, 'B', LOOK_BOLD, LOOK_BOLD, HUE_PLAIN)                                                   \
    S(PATCH, 'p', 0, 0, HUE_PLAIN)                                                                 \
    S(ADDED, 'a', 0, 0, HUE_PLAIN)                                                                 \
    S(BAR, 'b', 0, 0, HUE_PLAIN)                                                                   \
    S(BAND, 'n', 0, 0, HUE_PLAIN)                                                                  \
    S(MARK, 'm', LOOK_BOLD, LOOK_BOLD, HUE_PLAIN)                                                  \
    S(CHOSEN, 'C', LOOK_REVERSE, LOOK_REVERSE, HUE_PLAIN)                                          \
    S(KEY, 'k', LOOK_BOLD | LOOK_UNDERLINE, LOOK_BOLD | LOOK_UNDERLINE, HUE_PLAIN)                 \
    S(INPUT, 'i', LOOK_UNDERLINE, LOOK_UNDERLINE, HUE_PLAIN)                                       \
    S(NOTE, 'o', 0, 0, HUE_PLAIN)                                                                  \
    S(CAUTION, 'c', LOOK_BOLD, LOOK_BOLD, HUE_MAGENTA)                                             \
    S(DANGER, 'D', LOOK_BOLD | LOOK_REVERSE, LOOK_BOLD | LOOK_REVERSE, HUE_RED)                    \
    S(ERROR, 'e', LOOK_BOLD, LOOK_BOLD, HUE_RED)                                                   \
    S(GOOD, 'g', LOOK_BOLD, LOOK_BOLD, HUE_PLAIN)                                                  \
    S(FRAME, 'f', 0, 0, HUE_PLAIN)

enum style {
#define STYLE_ENUM(role, letter, mono, attributes, hue) STYLE_##role,
    STYLE_TABLE(STYLE_ENUM)
#undef STYLE_ENUM
        STYLE_COUNT
};

struct look {
    char letter;
    int mono, colour; /* attributes without and with colour */
    enum hue hue;
};

/* style_look - the row of a role. */
const struct look *style_look(enum style role);

#endif
