#include "app/session_trip.h"

#include <stdio.h>
#include <string.h>

static void describe(struct session_files *f, struct host_trip *trip)
{
    struct diag_list quiet = {0};
    f->ini.n = f->ini.n_file = 0;
    bool read = profile_read(trip->path, &f->ini, &quiet) == STATUS_OK;
    const struct ini_entry *name = read ? ini_find(&f->ini, "trip", "name") : NULL;
    const struct ini_entry *rig = read ? ini_find(&f->ini, "trip", "rig") : NULL;
    const char *slash = strrchr(trip->path, '/');
    snprintf(trip->name, sizeof trip->name, "%.60s",
             name != NULL    ? name->value
             : slash != NULL ? slash + 1
                             : trip->path);
    snprintf(trip->rig, sizeof trip->rig, "%.60s", rig != NULL ? rig->value : "has mistakes");
}

int session_trips(struct session_files *f, int max, struct host_trip out[])
{
    paths_list(f->search, "trips", ".ini", &f->found);
    int n = f->found.n < max ? f->found.n : max;
    for (int i = 0; i < n; i++) {
        snprintf(out[i].path, sizeof out[i].path, "%s", f->found.item[i].path);
        describe(f, &out[i]);
    }
    return n;
}

bool session_trip(struct session_files *f, const char *path, struct trip *trip,
                  struct load_report *report)
{
    struct diag_list diags = {0};
    if (trip_load(path, f->grounds, &f->ini, trip, &diags) == STATUS_OK)
        return true;
    struct text t = text_over(report->message, sizeof report->message);
    diag_list_put(&diags, &t);
    return false;
}
