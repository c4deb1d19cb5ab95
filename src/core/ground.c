#include "core/ground.h"

#include <string.h>

#include "core/soil.h"

const struct ground *ground_find(const struct ground_list *list, const char *name)
{
    for (int i = 0; i < list->n; i++) {
        if (strcmp(list->item[i].name, name) == 0) {
            return &list->item[i];
        }
    }
    return NULL;
}

bool ground_is_soft(const struct ground *g)
{
    if (g->kind == GROUND_SNOW) {
        return maybe_or(g->snow_density_kg_m3, 0.0) < SOIL_PACKED_KG_M3;
    }
    return g->kind == GROUND_SAND || g->kind == GROUND_FINE;
}
