/* paths.h - where rigs, trips, compressors, logs and grounds are looked for.
 *
 * In this order: the current folder, $XDG_CONFIG_HOME/sandshoe, $XDG_DATA_HOME/sandshoe,
 * $SANDSHOE_DATA, profiles/ beside the source tree of an uninstalled build, $XDG_STATE_HOME/sandshoe
 * (the records of timed jobs), share/sandshoe beside the bin/ of an installed program, else where
 * the build was to be installed. */
#ifndef SANDSHOE_APP_PATHS_H
#define SANDSHOE_APP_PATHS_H

#include "base/status.h"
#include "base/text.h"

enum { PATHS_DIRS = 7, PATHS_LEN = 512, PATHS_FOUND = 128 };

struct search_path {
    int n;
    char dir[PATHS_DIRS][PATHS_LEN];
};

/* One file found: its bare name and path. */
struct found_file {
    char name[64];
    char path[PATHS_LEN];
};

struct found_list {
    int n;
    struct found_file item[PATHS_FOUND];
};

/* paths_search - the search path of this environment. */
void paths_search(struct search_path *p);

/* paths_find - a file by path or bare name; folder is its sub-folder ("rigs"), extension what a
 * bare name lacks (".ini"). ret STATUS_OK; E_UNKNOWN with a hint of the nearest name in why. */
enum status paths_find(const struct search_path *p, const char *folder, const char *extension,
                       const char *name, char path[PATHS_LEN], struct text *why) MUST_CHECK;

/* paths_list - every file of a folder on the search path, the earlier of equal names first found
 * only; sorted by name. */
void paths_list(const struct search_path *p, const char *folder, const char *extension,
                struct found_list *out);

/* paths_config - $XDG_CONFIG_HOME/sandshoe/FOLDER/NAME; paths_state - $XDG_STATE_HOME/sandshoe/NAME.
 * ret STATUS_OK; E_MISSING when neither the variable nor HOME is set. */
enum status paths_config(const char *folder, const char *name, char path[PATHS_LEN]) MUST_CHECK;
enum status paths_state(const char *name, char path[PATHS_LEN]) MUST_CHECK;

#endif
