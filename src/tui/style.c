#include "tui/style.h"

const struct look *style_look(enum style role)
{
    static const struct look looks[STYLE_COUNT] = {
#define STYLE_LOOK(role, letter, mono, attributes, hue) {letter, mono, attributes, hue},
        STYLE_TABLE(STYLE_LOOK)
#undef STYLE_LOOK
    };
    return &looks[(unsigned)role < STYLE_COUNT ? role : STYLE_PLAIN];
}
