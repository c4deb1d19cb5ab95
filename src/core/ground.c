#include "core/ground.h"

#include <string.h>

const struct ground *ground_find(const struct ground_list *list, const char *name)
{
    for (int i = 0; i < list->n; i++) {
        if (strcmp(list->item[i].name, name) == 0) {
            return &list->item[i];
        }
    }
    return NULL;
}
