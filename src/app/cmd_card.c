/* cmd_card.c - sandshoe card: the glovebox card of a rig, or of a trip with its rig. */
#include <string.h>

#include "app/card_out.h"
#include "app/commands.h"

/* A name that is no rig but a trip makes the trip's card. */
static bool names_a_trip(const struct context *c, char path[PATHS_LEN])
{
    char why[PATHS_LEN];
    struct text w = text_over(why, sizeof why);
    static struct ini ini;
    struct diag_list quiet = {.n = 0};
    if (c->opt.n_arg == 0) {
        return false;
    }
    const char *name = c->opt.arg[0];
    if (paths_find(&c->search, "rigs", ".ini", name, path, &w) != STATUS_OK) {
        return paths_find(&c->search, "trips", ".ini", name, path, &w) == STATUS_OK;
    }
    return profile_read(path, &ini, &quiet) == STATUS_OK && profile_guess(&ini) == PROFILE_TRIP;
}

static enum exit_status trip_card(struct context *c, const char *path, struct card_job *job)
{
    static struct trip trip;
    static struct ini ini;
    if (c->opt.folded || c->opt.grounds) {
        context_say("--folded and --grounds go with the card of a rig, not of a trip");
        return EXIT_USAGE;
    }
    if (trip_load(path, &c->grounds, &ini, &trip, &c->diags) < 0) {
        return context_trouble(c);
    }
    enum exit_status s = context_load_rig_named(c, trip.rig);
    job->rig = &c->rig;
    job->trip = &trip;
    job->units = c->units;
    return s == EXIT_FINE ? card_out(c, job) : s;
}

static enum exit_status rig_card(struct context *c, struct card_job *job)
{
    static struct rig first;
    first = c->rig;
    job->rig = &first;
    if (c->opt.folded) {
        enum exit_status s = context_load_rig_named(c, c->opt.folded);
        if (s != EXIT_FINE) {
            return s;
        }
        job->other = &c->rig;
    }
    return card_out(c, job);
}

/* What the quick form took for granted: the card cannot say it all. */
static void say_assumed(const struct context *c)
{
    for (int i = 0; i < c->assumed.n; i++) {
        char words[512];
        struct text t = text_over(words, sizeof words);
        caution_put(&c->assumed.item[i], c->units, &t);
        context_say("%s: %s", caution_level_name(caution_level_of(c->assumed.item[i].code)), words);
    }
}

enum exit_status cmd_card(struct context *c)
{
    char path[PATHS_LEN], date[16];
    struct card_job job;
    bool trip = names_a_trip(c, path);
    enum exit_status s = trip ? context_load_grounds(c) : context_load_rig(c);
    if (s != EXIT_FINE) {
        return s;
    }
    say_assumed(c);
    s = card_job_of(c, date, &job);
    if (s != EXIT_FINE) {
        return s;
    }
    return trip ? trip_card(c, path, &job) : rig_card(c, &job);
}
