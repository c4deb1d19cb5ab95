/* refs.h - the bibliography: what the numbers stand on. R(id, standing, text). */
#ifndef SANDSHOE_CORE_REFS_H
#define SANDSHOE_CORE_REFS_H

#include "core/working.h"

// clang-format off
#define REF_TABLE(R)                                                                               \
    R(PROFILE,   STANDING_U,  "the rig's profile")                                                 \
    R(ASKED,     STANDING_U,  "given with the command")                                            \
    R(GROUND,    STANDING_C,  "ground catalogue, common practice; yours to edit")                  \
    R(PRACTICE,  STANDING_C,  "common practice")                                                   \
    R(GRAMMAR,   STANDING_PM, "UN R30 and R54 par. 2.17, TRA and ETRTO year books")                \
    R(STATICS,   STANDING_D,  "statics")                                                           \
    R(TABLES,    STANDING_P,  "TRA load tables; the exponent fits a published LT row within 0.7 %") \
    R(RHYNE,     STANDING_PM, "Rhyne, Tire Science and Technology 33(3), 2005")                    \
    R(TAPE,      STANDING_U,  "your tape heights on Rhyne 2005")                                   \
    R(LAW,       STANDING_D,  "fitted here to measured load-deflection curves")                    \
    R(JUDGED,    STANDING_D,  "judged here on three measured tyres")                               \
    R(PRINTS,    STANDING_D,  "fitted here to 25 ink prints of one tyre, rms 3.4 %")               \
    R(PACEJKA,   STANDING_PM, "Pacejka, Tire and Vehicle Dynamics, 2012, eq. 4.E70")               \
    R(GAS,       STANDING_P,  "ideal gas law; US Standard Atmosphere 1976")                        \
    R(ANNEX8,    STANDING_PM, "UN R54 Annex 8; does not license under-inflation")                  \
    R(VCI,       STANDING_P,  "Priddy and Willoughby, Journal of Terramechanics 43, 2006")         \
    R(VCI50,     STANDING_PM, "Priddy, ERDC TR GL-99-8, 1999, second-hand")                        \
    R(SAND,      STANDING_PM, "Turnage, WES, 1972; +-30 %")                                        \
    R(PULL,      STANDING_PM, "Brixius 1987, bias form; Turnage 1972 on sand")                     \
    R(BRIXIUS,   STANDING_PM, "Brixius, 1987, bias form")                                          \
    R(MACLAURIN, STANDING_PM, "Maclaurin, 1990")                                                   \
    R(SNOW,      STANDING_P,  "CRREL Reports 95-1 and 95-7; one tracked vehicle")                  \
    R(ROWLAND,   STANDING_PM, "Rowland, 1972; Larminie, 1988")
// clang-format on

enum ref {
#define REF_ENUM(id, standing, text) REF_##id,
    REF_TABLE(REF_ENUM)
#undef REF_ENUM
        REF_COUNT
};

/* ref_text - the reference in words; ref_standing - what it is worth.
 *   in   r
 *   ret  the column
 *   src  the table */
const char *ref_text(enum ref r);
enum standing ref_standing(enum ref r);

#endif
