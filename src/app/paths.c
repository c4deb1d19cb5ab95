#include "app/paths.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include "base/dist.h"

static bool is_folder(const char *path)
{
    struct stat st;
    return stat(path, &st) == 0 && S_ISDIR(st.st_mode);
}

static bool is_file(const char *path)
{
    struct stat st;
    return stat(path, &st) == 0 && S_ISREG(st.st_mode);
}

static void add_dir(struct search_path *p, const char *dir)
{
    if (p->n < PATHS_DIRS && strlen(dir) < PATHS_LEN) {
        snprintf(p->dir[p->n++], PATHS_LEN, "%s", dir);
    }
}

/* $XDG/sandshoe, or the usual place below HOME; false when there is neither. */
static bool xdg(const char *variable, const char *below_home, char dir[PATHS_LEN])
{
    const char *base = getenv(variable);
    const char *home = getenv("HOME");
    int n = -1;
    if (base && base[0] == '/') {
        n = snprintf(dir, PATHS_LEN, "%s/sandshoe", base);
    } else if (home && home[0] == '/') {
        n = snprintf(dir, PATHS_LEN, "%s/%s/sandshoe", home, below_home);
    }
    return n > 0 && n < PATHS_LEN;
}

/* The folder that this program lies in, without its last slash; false where the kernel does not
 * tell. */
static bool program_folder(char dir[PATHS_LEN])
{
    ssize_t n = readlink("/proc/self/exe", dir, PATHS_LEN - 1);
    if (n <= 0 || n == PATHS_LEN - 1) {
        return false;
    }
    dir[n] = '\0';
    char *slash = strrchr(dir, '/');
    if (!slash) {
        return false;
    }
    *slash = '\0';
    return true;
}

/* An installed program does not look into the tree that it was once built in. */
static bool runs_from_source_tree(void)
{
    static const char build[] = SANDSHOE_SRCDIR "/build/";
    char dir[PATHS_LEN];
    return program_folder(dir) && strncmp(dir, build, sizeof build - 1) == 0;
}

/* share/sandshoe of the place that the program was put in, be it another than the one it was built
 * for. */
static bool beside_program(char dir[PATHS_LEN])
{
    char folder[PATHS_LEN];
    int n = program_folder(folder) ? snprintf(dir, PATHS_LEN, "%s/../share/sandshoe", folder) : -1;
    return n > 0 && n < PATHS_LEN && is_folder(dir);
}

void paths_search(struct search_path *p)
{
    char dir[PATHS_LEN];
    const char *own = getenv("SANDSHOE_DATA");
    p->n = 0;
    add_dir(p, ".");
    if (xdg("XDG_CONFIG_HOME", ".config", dir)) {
        add_dir(p, dir);
    }
    if (xdg("XDG_DATA_HOME", ".local/share", dir)) {
        add_dir(p, dir);
    }
    if (own && own[0] != '\0') {
        add_dir(p, own);
    }
    bool built_here = runs_from_source_tree();
    if (built_here && is_folder(SANDSHOE_SRCDIR "/profiles")) {
        add_dir(p, SANDSHOE_SRCDIR "/profiles");
    }
    if (xdg("XDG_STATE_HOME", ".local/state", dir)) {
        add_dir(p, dir); /* the records of timed jobs */
    }
    add_dir(p, !built_here && beside_program(dir) ? dir : SANDSHOE_DATADIR);
}

static bool has_end(const char *name, const char *end)
{
    size_t n = strlen(name);
    size_t m = strlen(end);
    return n > m && strcmp(name + n - m, end) == 0;
}

static bool try_path(char path[PATHS_LEN], const char *dir, const char *folder, const char *name,
                     const char *extension)
{
    const char *ext = has_end(name, extension) ? "" : extension;
    int n = folder[0] != '\0' ? snprintf(path, PATHS_LEN, "%s/%s/%s%s", dir, folder, name, ext)
                              : snprintf(path, PATHS_LEN, "%s/%s%s", dir, name, ext);
    return n > 0 && n < PATHS_LEN && is_file(path);
}

static void hint(const struct search_path *p, const char *folder, const char *extension,
                 const char *name, struct text *why)
{
    struct found_list all;
    const char *names[PATHS_FOUND];
    paths_list(p, folder, extension, &all);
    for (int i = 0; i < all.n; i++) {
        names[i] = all.item[i].name;
    }
    int near = dist_nearest(name, names, (size_t)all.n, 3);
    text_put(why, "%s: no such file, and no '%s%s' in %s/ on the search path", name, name,
             has_end(name, extension) ? "" : extension, folder);
    if (near >= 0) {
        text_put(why, " (did you mean %s?)", names[near]);
    } else {
        text_put(why, " (sandshoe list shows what there is)");
    }
}

enum status paths_find(const struct search_path *p, const char *folder, const char *extension,
                       const char *name, char path[PATHS_LEN], struct text *why)
{
    if (strlen(name) < PATHS_LEN && is_file(name)) {
        snprintf(path, PATHS_LEN, "%s", name);
        return STATUS_OK;
    }
    for (int i = 0; i < p->n && !strchr(name, '/'); i++) {
        if (try_path(path, p->dir[i], "", name, extension) ||
            try_path(path, p->dir[i], folder, name, extension)) {
            return STATUS_OK;
        }
    }
    hint(p, folder, extension, name, why);
    return STATUS_E_UNKNOWN;
}

static int by_name(const void *a, const void *b)
{
    const struct found_file *x = a;
    const struct found_file *y = b;
    return strcmp(x->name, y->name);
}

static bool known(const struct found_list *out, const char *name)
{
    for (int i = 0; i < out->n; i++) {
        if (strcmp(out->item[i].name, name) == 0) {
            return true;
        }
    }
    return false;
}

static void list_dir(const char *dir, const char *folder, const char *extension,
                     struct found_list *out)
{
    char path[PATHS_LEN];
    int n = snprintf(path, sizeof path, "%s/%s", dir, folder);
    DIR *d = n > 0 && n < PATHS_LEN ? opendir(path) : NULL;
    if (!d) {
        return;
    }
    const struct dirent *e;
    while ((e = readdir(d)) != NULL && out->n < PATHS_FOUND) {
        struct found_file *f = &out->item[out->n];
        size_t stem = strlen(e->d_name) - strlen(extension);
        if (!has_end(e->d_name, extension) || stem >= sizeof f->name) {
            continue;
        }
        snprintf(f->name, sizeof f->name, "%.*s", (int)stem, e->d_name);
        int m = snprintf(f->path, sizeof f->path, "%s/%s", path, e->d_name);
        if (m > 0 && (size_t)m < sizeof f->path && is_file(f->path) && !known(out, f->name)) {
            out->n++;
        }
    }
    closedir(d);
}

void paths_list(const struct search_path *p, const char *folder, const char *extension,
                struct found_list *out)
{
    out->n = 0;
    for (int i = 0; i < p->n; i++) {
        list_dir(p->dir[i], folder, extension, out);
    }
    qsort(out->item, (size_t)out->n, sizeof out->item[0], by_name);
}

enum status paths_config(const char *folder, const char *name, char path[PATHS_LEN])
{
    char dir[PATHS_LEN];
    if (!xdg("XDG_CONFIG_HOME", ".config", dir)) {
        return STATUS_E_MISSING;
    }
    int n = snprintf(path, PATHS_LEN, "%s/%s/%s", dir, folder, name);
    return n > 0 && n < PATHS_LEN ? STATUS_OK : STATUS_E_MISSING;
}

enum status paths_state(const char *name, char path[PATHS_LEN])
{
    char dir[PATHS_LEN];
    if (!xdg("XDG_STATE_HOME", ".local/state", dir)) {
        return STATUS_E_MISSING;
    }
    int n = snprintf(path, PATHS_LEN, "%s/%s", dir, name);
    return n > 0 && n < PATHS_LEN ? STATUS_OK : STATUS_E_MISSING;
}
