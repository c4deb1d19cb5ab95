#include "support/trips.h"

#include <stdio.h>
#include <string.h>

#include "support/check.h"
#include "support/rigs.h"

void trips_start(struct trips_case *c, struct rig rig)
{
    *c = (struct trips_case){.rig = rig};
    c->rig.air.main_length_m = c->rig.air.branch_length_m = 3;
    c->rig.air.tail_length_m = 5;
    c->rig.air.hose_bore_m = 6.35e-3;
    c->rig.air.move_time_s = 25;
    c->rig.air.hookup = HOOKUP_LINKED;
    c->rig.air.compressor = (struct compressor){.swept_m3_s = 166 / 6e4,
                                                .clearance_1 = 0.06,
                                                .exponent_1 = 1.25,
                                                .sag_1 = 0.1,
                                                .run_time_s = 900,
                                                .rest_time_s = 900,
                                                .cut_out_gauge_pa = 110 * PSI};
    c->trip.air_temp_start_k = 293.15;
    (void)snprintf(c->trip.name, sizeof c->trip.name, "test trip");
}

struct trip_leg *trips_leg(struct trips_case *c, const char *ground, double km, double kmh)
{
    int i = c->trip.n_leg++;
    struct trip_leg *l = &c->trip.leg[i];
    c->ground[i] = rigs_ground(ground);
    c->ground[i].sharp = strcmp(ground, "rock-steps") == 0 || strcmp(ground, "stony-track") == 0;
    *l = (struct trip_leg){.length_m = km * 1e3, .speed_mps = kmh * KMH, .stop_after = true};
    (void)snprintf(l->ground, sizeof l->ground, "%s", ground);
    return l;
}

void trips_end(struct trips_case *c, double height_m, double air_c)
{
    struct trip_leg *l = &c->trip.leg[c->trip.n_leg - 1];
    l->height_end_m = maybe_of(height_m);
    l->air_temp_k = maybe_of(air_c + 273.15);
}

struct trip_in trips_in(const struct trips_case *c)
{
    struct trip_in in = {.rig = &c->rig, .trip = &c->trip};
    for (int i = 0; i < c->trip.n_leg; i++) {
        int k = 0;
        while (strcmp(c->ground[k].name, c->ground[i].name) != 0) {
            k++;
        }
        in.ground[i] = &c->ground[k]; /* one entry a ground, as in a catalogue */
    }
    return in;
}

struct trip_plan trips_plan(const struct trips_case *c)
{
    struct trip_in in = trips_in(c);
    struct trip_plan p;
    CHECK_STATUS(trip_compute(&in, &p), STATUS_OK);
    return p;
}
