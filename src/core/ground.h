/* ground.h - the ground catalogue's entry: plain data. */
#ifndef SANDSHOE_CORE_GROUND_H
#define SANDSHOE_CORE_GROUND_H

#include <stdbool.h>

#include "base/num.h"

enum ground_kind { GROUND_FIRM, GROUND_SAND, GROUND_FINE, GROUND_SNOW, GROUND_ICE };
enum soil_class { SOIL_NONE, SOIL_SM, SOIL_SC, SOIL_ML, SOIL_CL, SOIL_CH, SOIL_OH };

enum { GROUND_NAME = 32, GROUND_TITLE = 64, GROUND_TEXT = 160, GROUND_MAX = 40 };

struct ground {
    char name[GROUND_NAME];   /* section name, "dune-sand" */
    char title[GROUND_TITLE]; /* in words */
    enum ground_kind kind;
    struct maybe strength_pa; /* cone index, or RCI for fine soil, as pressure */
    enum soil_class soil;
    struct maybe moisture_1; /* by mass */
    bool slick;
    struct maybe snow_density_kg_m3, snow_depth_m;
    bool road;    /* sealed road: the road pressure itself, no aim */
    bool sharp;   /* edges pinch a soft tyre: never softer than its own target here */
    double aim_1; /* deflection / section height */
    double aim_low_1, aim_high_1;
    double limit_1;
    struct maybe cap_mps; /* none = no cap of the ground itself */
    char hazards[GROUND_TEXT];
    char source[GROUND_TEXT];
};

struct ground_list {
    int n;
    struct ground item[GROUND_MAX];
};

/* ground_find - look a ground up by section name.
 *   in   list, name
 *   ret  the entry in list, or NULL
 *   src  none: look-up */
const struct ground *ground_find(const struct ground_list *list, const char *name);

/* ground_is_soft - whether a hard tyre sinks into it: sand, fine soil, and snow below the density
 * that carries.
 *   in   g
 *   ret  true for those
 *   src  model C6, D3 */
bool ground_is_soft(const struct ground *g);

#endif
