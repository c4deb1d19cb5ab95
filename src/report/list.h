/* list.h - what is on the search path, as text. */
#ifndef SANDSHOE_REPORT_LIST_H
#define SANDSHOE_REPORT_LIST_H

#include <stdbool.h>

#include "base/text.h"
#include "core/ground.h"
#include "core/rig.h"

enum list_kind { LIST_RIG, LIST_TRIP, LIST_COMPRESSOR, LIST_LOG, LIST_KINDS };

/* One file on the search path; note: load state, name inside, or why it cannot be used. */
struct list_entry {
    char name[RIG_NAME];
    char note[2 * RIG_NAME + 8];
    char path[512];
    bool bad;
};

enum { LIST_ENTRIES = 128, LIST_LEARNED = 64 };

/* What finished refills taught of one air system. */
struct list_learned {
    char id[160];
    int refills;
    double last_1;     /* what it gave in the last one, relative to its label */
    double delivery_1; /* what the next forecast starts from */
};

struct list_page {
    int n[LIST_KINDS];
    struct list_entry entry[LIST_KINDS][LIST_ENTRIES];
    const struct ground_list *grounds;
    int n_learned;
    struct list_learned learned[LIST_LEARNED];
};

/* list_text_put - append every kind with its entries. */
void list_text_put(const struct list_page *page, enum unit_system u, struct text *out);

#endif
