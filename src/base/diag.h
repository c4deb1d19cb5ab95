/* diag.h - what is wrong and where: a bounded list of mistakes, handed down by the caller. */
#ifndef SANDSHOE_BASE_DIAG_H
#define SANDSHOE_BASE_DIAG_H

#include "base/status.h"
#include "base/text.h"

enum { DIAG_MAX = 20, DIAG_FILE = 256, DIAG_NAME = 64, DIAG_VALUE = 64, DIAG_TEXT = 256 };

/* One mistake. Parts that do not apply are "" and line 0. */
struct diag {
    enum status code;
    char file[DIAG_FILE]; /* path, or where else it came from: "--set" */
    int line;
    char section[DIAG_NAME];
    char key[DIAG_NAME];
    char value[DIAG_VALUE]; /* as written, when the value is at fault */
    char text[DIAG_TEXT];   /* what is wrong, why, what to do */
};

/* Sorted by line within each file; files stay in the order in which they first came. When full,
 * the mistakes of the latest lines give way and are only counted. */
struct diag_list {
    int n;
    int dropped;
    struct diag item[DIAG_MAX];
};

/* diag_add - put a mistake into the list at its place. */
void diag_add(struct diag_list *list, const struct diag *d);

/* diag_put - append one mistake as a line without newline:
 * "path:14: [front] axle_load = 9 kg: out of range (50 kg to 30 t)". */
void diag_put(const struct diag *d, struct text *out);

/* diag_list_put - append every mistake, one a line, and the count of those dropped. */
void diag_list_put(const struct diag_list *list, struct text *out);

/* diag_text - the text of a mistake as a builder over d->text. */
struct text diag_text(struct diag *d);

/* diag_copy - copy a string into a field of cap bytes, cut where it does not fit. */
void diag_copy(char *to, size_t cap, const char *from);

#endif
