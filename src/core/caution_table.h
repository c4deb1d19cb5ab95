/* caution_table.h - the one table of cautions.
 * C(id, level, standing, code, text, when it is raised). {0}..{3} are numbers, {w} a word. */
#ifndef SANDSHOE_CORE_CAUTION_TABLE_H
#define SANDSHOE_CORE_CAUTION_TABLE_H

// clang-format off
#define CAUTION_TABLE(C)                                                                           \
    C(ESTIMATE, CAUTION_NOTE, true, "estimate",                                                    \
      "An estimate from the figures given. Placard, tyre maker and a trained fitter come first.",  \
      "always")                                                                                    \
    C(HIGHWAY, CAUTION_DANGER, true, "highway-speed",                                              \
      "Set for {0} at most. Heat builds inside where you cannot see it: refill before you speed "  \
      "up.",                                                                                       \
      "any corner below its road pressure")
// clang-format on

#endif
