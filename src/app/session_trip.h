/* session_trip.h - the trips that the session can open. */
#ifndef SANDSHOE_APP_SESSION_TRIP_H
#define SANDSHOE_APP_SESSION_TRIP_H

#include "app/session_host.h"

/* session_trips - those on the search path, with their names. */
int session_trips(struct session_files *f, int max, struct host_trip out[]);

/* session_trip - read one; false: the report says every mistake. */
bool session_trip(struct session_files *f, const char *path, struct trip *trip,
                  struct load_report *report);

#endif
