/* designation.h - tyre size designations: text to geometry. */
#ifndef SANDSHOE_CORE_DESIGNATION_H
#define SANDSHOE_CORE_DESIGNATION_H

#include <stdbool.h>

#include "base/status.h"

enum tyre_family {
    TYRE_P_METRIC,    /* P265/70R17 */
    TYRE_EURO_METRIC, /* 265/75R16 116T, XL */
    TYRE_LT_METRIC,   /* LT285/70R17, 315/70R17LT */
    TYRE_FLOTATION,   /* 35x12.50R17LT */
    TYRE_NUMERIC,     /* 7.50R16, 16.00R20 */
    TYRE_C_TYPE,      /* 225/75R16C, 195R14C */
    TYRE_ST,          /* ST225/75R15 */
    TYRE_TRUCK_METRIC /* 395/85R20, 295/80R22.5 */
};

enum tyre_build { TYRE_RADIAL, TYRE_BIAS, TYRE_BIAS_BELTED };

enum { DESIGNATION_TEXT = 32 };

struct designation {
    char text[DESIGNATION_TEXT]; /* the size as written, without its service description */
    enum tyre_family family;
    enum tyre_build build;
    double section_width_m;
    double section_height_m;
    double rim_diameter_m;
    double outside_diameter_m;
    double aspect_1;      /* section height / section width */
    bool aspect_assumed;  /* numeric sizes (0.95) and C-type without a ratio (0.82) */
    bool extra_load;      /* XL, EXTRA LOAD, RF */
    int load_index;       /* 0 = not written */
    int load_index_dual;  /* 0 = not written */
    char speed_symbol[3]; /* "" = not written; "A1".."A8", "B".."Y" */
    char load_range;      /* 'B'..'N', 0 = not written; SL is 0 */
};

/* designation_parse - read a size designation with its optional service description.
 *
 *   in   s  text such as "35x12.50R17LT 121Q E", "LT285/70R17 121/118S", "7.50R16"; blanks
 *           separate; letters of either case, x or X; not null
 *   out  d  geometry in m; untouched on error
 *   ret  STATUS_OK; W_ASSUMED (aspect ratio assumed); E_SYNTAX; E_DOMAIN (numbers out of any
 *        tyre's range)
 *   src  UN R30 / R54 par. 2.17, TRA and ETRTO practice [memory]
 */
enum status designation_parse(const char *s, struct designation *d) MUST_CHECK;

#endif
