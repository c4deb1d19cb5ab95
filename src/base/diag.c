#include "base/diag.h"

#include <limits.h>
#include <string.h>

/* A mistake without a line (something missing) stands after those with one. */
static int line_key(const struct diag *d)
{
    return d->line > 0 ? d->line : INT_MAX;
}

static int place_of(const struct diag_list *list, const struct diag *d)
{
    int last = list->n;
    while (last > 0 && strcmp(list->item[last - 1].file, d->file) != 0) {
        last--;
    }
    if (last == 0) {
        return list->n;
    }
    while (last > 0 && strcmp(list->item[last - 1].file, d->file) == 0 &&
           line_key(&list->item[last - 1]) > line_key(d)) {
        last--;
    }
    return last;
}

void diag_add(struct diag_list *list, const struct diag *d)
{
    int at = place_of(list, d);
    if (list->n == DIAG_MAX) {
        list->dropped++;
        if (at == DIAG_MAX) {
            return;
        }
        list->n--;
    }
    size_t after = (size_t)(list->n - at);
    memmove(&list->item[at + 1], &list->item[at], after * sizeof list->item[0]);
    list->item[at] = *d;
    list->n++;
}

void diag_put(const struct diag *d, struct text *out)
{
    const char *sep = "";
    if (d->file[0] != '\0') {
        text_put(out, "%s:", d->file);
        sep = " ";
    }
    if (d->line > 0) {
        text_put(out, "%d:", d->line);
    }
    if (d->section[0] != '\0') {
        text_put(out, "%s[%s]", sep, d->section);
        sep = " ";
    }
    if (d->key[0] != '\0') {
        text_put(out, "%s%s", sep, d->key);
        sep = " ";
    }
    if (d->value[0] != '\0') {
        text_put(out, "%s= %s", sep, d->value);
    }
    if (d->section[0] != '\0' || d->key[0] != '\0') {
        text_put(out, ":");
        sep = " ";
    }
    text_put(out, "%s%s", sep, d->text);
}

void diag_list_put(const struct diag_list *list, struct text *out)
{
    for (int i = 0; i < list->n; i++) {
        diag_put(&list->item[i], out);
        text_put(out, "\n");
    }
    if (list->dropped > 0) {
        text_put(out, "and %d more\n", list->dropped);
    }
}

struct text diag_text(struct diag *d)
{
    return text_over(d->text, sizeof d->text);
}

void diag_copy(char *to, size_t cap, const char *from)
{
    struct text t = text_over(to, cap);
    text_put(&t, "%s", from);
}
