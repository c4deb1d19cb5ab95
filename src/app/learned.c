#include "app/learned.h"

#include <math.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "app/files.h"
#include "core/refill_note.h"

enum { LEARNED_BYTES = 65536, LEARNED_LINE = 320 };

/* The file as it is, "" when there is none. */
static void whole(const char *path, char bytes[LEARNED_BYTES])
{
    char words[200];
    struct text why = text_over(words, sizeof words);
    size_t n = 0;
    if (path[0] == '\0' || file_read(path, bytes, LEARNED_BYTES - 1, &n, &why) != STATUS_OK) {
        n = 0;
    }
    bytes[n] = '\0';
}

static bool read_lesson(const char *numbers, struct forecast_learned *l)
{
    return num_read(&numbers, &l->log_mean_1) && num_read(&numbers, &l->log_sd_1) &&
           num_read(&numbers, &l->temp_k) && num_read(&numbers, &l->ambient_abs_pa) &&
           fabs(l->log_mean_1) <= NOTE_RATIO_LOG_MOST_1 && l->log_sd_1 > 0.0 &&
           l->log_sd_1 <= NOTE_RATIO_LOG_MOST_1 && l->temp_k > 0.0 && l->ambient_abs_pa > 0.0;
}

/* The next line into its parts; false at the end. A line that is none gives an empty id. */
static bool next_line(const char **at, char id[LEARNED_ID], struct forecast_learned *l)
{
    char line[LEARNED_LINE];
    size_t n = strcspn(*at, "\n");
    if (**at == '\0') {
        return false;
    }
    snprintf(line, sizeof line, "%.*s", (int)(n < sizeof line ? n : sizeof line - 1), *at);
    *at += n + ((*at)[n] == '\n');
    size_t key = strcspn(line, "\t");
    id[0] = '\0';
    *l = (struct forecast_learned){0};
    if (key == 0 || key >= LEARNED_ID || line[key] == '\0' || !read_lesson(line + key, l)) {
        return true;
    }
    snprintf(id, LEARNED_ID, "%.*s", (int)key, line);
    return true;
}

static void put_line(struct text *out, const char *id, const struct forecast_learned *l)
{
    text_put(out, "%s\t%.9g\t%.9g\t%.6g\t%.6g\n", id, l->log_mean_1, l->log_sd_1, l->temp_k,
             l->ambient_abs_pa);
}

void learned_read(const char *path, const char *id, struct learned_list *list)
{
    static char bytes[LEARNED_BYTES];
    char of[LEARNED_ID];
    struct forecast_learned l;
    whole(path, bytes);
    list->n = 0;
    for (const char *at = bytes; next_line(&at, of, &l);) {
        if (strcmp(of, id) != 0) {
            continue;
        }
        if (list->n == LEARNED_MAX) {
            memmove(&list->item[0], &list->item[1], (LEARNED_MAX - 1) * sizeof list->item[0]);
            list->n--;
        }
        list->item[list->n++] = l;
    }
}

/* The file anew: every other air system's lines, then this one's. */
static enum status rewrite(const char *path, const char *id, const struct learned_list *list,
                           struct text *why)
{
    static char bytes[LEARNED_BYTES];
    static char fresh[LEARNED_BYTES];
    char of[LEARNED_ID];
    struct forecast_learned l;
    struct text out = text_over(fresh, sizeof fresh);
    whole(path, bytes);
    for (const char *at = bytes; next_line(&at, of, &l);) {
        if (of[0] != '\0' && strcmp(of, id) != 0) {
            put_line(&out, of, &l);
        }
    }
    for (int i = 0; i < list->n; i++) {
        put_line(&out, id, &list->item[i]);
    }
    if (out.cut) {
        text_put(why, "%s: no room for more", path);
        return STATUS_E_FULL;
    }
    enum status s = file_make_folders(path, why);
    return s < STATUS_OK ? s : file_write(path, fresh, out.len, true, why);
}

enum status learned_add(const char *path, const char *id, const struct forecast_learned *lesson,
                        struct text *why)
{
    struct learned_list list;
    if (path[0] == '\0') {
        text_put(why, "no folder for what was learned");
        return STATUS_E_MISSING;
    }
    learned_read(path, id, &list);
    if (list.n == LEARNED_MAX) {
        memmove(&list.item[0], &list.item[1], (LEARNED_MAX - 1) * sizeof list.item[0]);
        list.n--;
    }
    list.item[list.n++] = *lesson;
    return rewrite(path, id, &list, why);
}

enum status learned_forget(const char *path, const char *id, struct text *why)
{
    return rewrite(path, id, &(struct learned_list){.n = 0}, why);
}

int learned_ids(const char *path, int max, char id[][LEARNED_ID])
{
    static char bytes[LEARNED_BYTES];
    char of[LEARNED_ID];
    struct forecast_learned l;
    int n = 0;
    whole(path, bytes);
    for (const char *at = bytes; n < max && next_line(&at, of, &l);) {
        bool known = of[0] == '\0';
        for (int i = 0; i < n && !known; i++) {
            known = strcmp(id[i], of) == 0;
        }
        if (!known) {
            snprintf(id[n++], LEARNED_ID, "%s", of);
        }
    }
    return n;
}
