/* session_host.h - the files of the trailhead session: rigs on the search path, their values,
 * saving, the ground last used. */
#ifndef SANDSHOE_APP_SESSION_HOST_H
#define SANDSHOE_APP_SESSION_HOST_H

#include "app/paths.h"
#include "app/session_journal.h"
#include "profile/profile.h"
#include "tui/host.h"

struct session_files {
    const struct compressor_list *compressors;
    const struct ground_list *grounds; /* for the card */
    const struct search_path *search;  /* where rigs are looked for */
    char save_dir[HOST_PATH];          /* where new ones go; made when needed */
    char ground_file[HOST_PATH];       /* "rig<TAB>ground" a line; "" = not kept */
    struct session_journal log;        /* the record of a timed job */
    struct ini ini;                    /* scratch: the entries of the rig at hand */
    struct found_list found;           /* scratch: the rigs there are */
};

/* session_host_of - callbacks over files; files outlives the host. */
struct session_host session_host_of(struct session_files *files);

#endif
