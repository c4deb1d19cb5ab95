/* cmd_trip.c - the pressure plan for a route of legs, or its card with -o. */
#include "app/card_out.h"
#include "app/commands.h"
#include "report/trip_report.h"
#include "sim/trip_caution.h"
#include "sim/trip_working.h"

enum { TRIP_TEXT = 1024 * 1024 };

static enum exit_status load(struct context *c, struct trip *trip)
{
    static struct ini ini;
    char path[PATHS_LEN], why[PATHS_LEN];
    struct text w = text_over(why, sizeof why);
    if (paths_find(&c->search, "trips", ".ini", c->opt.arg[0], path, &w) != STATUS_OK) {
        context_say("%s", why);
        return EXIT_SYSTEM;
    }
    if (trip_load(path, &c->grounds, &ini, trip, &c->diags) < 0) {
        return context_trouble(c);
    }
    return context_load_rig_named(c, trip->rig);
}

static enum exit_status make_card(const struct context *c, const struct trip *trip)
{
    char date[16];
    struct card_job job;
    enum exit_status s = card_job_of(c, date, &job);
    if (s != EXIT_FINE) {
        return s;
    }
    job.rig = &c->rig;
    job.trip = trip;
    job.units = c->units;
    job.date = !c->opt.date && trip->date[0] != '\0' ? trip->date : job.date;
    return card_out(c, &job);
}

static enum exit_status show(const struct context *c, const struct trip_report *r,
                             enum exit_status result)
{
    static char buf[TRIP_TEXT];
    struct text t = text_over(buf, sizeof buf);
    if (!c->opt.json) {
        trip_text_put(r, c->units, &t);
    } else {
        const struct json_head head =
            context_json_head(c, &c->rig, r->cautions, &r->plan->refusal, result);
        if (json_trip_put(&head, r, &t) != STATUS_OK) {
            context_say("this plan cannot be written as JSON");
            return EXIT_SYSTEM;
        }
    }
    enum exit_status s = context_out(buf);
    return s == EXIT_FINE ? result : s;
}

static enum exit_status plan_and_show(const struct context *c, const struct trip_in *in)
{
    static struct trip_plan plan;
    static struct caution_list cautions;
    static struct working working;
    struct trip_report r = {.in = in, .plan = &plan, .cautions = &cautions};
    enum status s = trip_compute(in, &plan);
    if (s == STATUS_E_REFUSED) {
        return show(c, &r, EXIT_REFUSED);
    }
    s = s < 0 ? s : trip_cautions(in, &plan, &cautions);
    if (s < 0) {
        context_say("no plan for this trip: %s", status_text(s));
        return EXIT_BAD_FILE;
    }
    if (c->opt.working) {
        trip_working(in, &plan, &working);
        r.working = &working;
    }
    return show(c, &r, caution_any_danger(&cautions) ? EXIT_DANGER : EXIT_FINE);
}

enum exit_status cmd_trip(struct context *c)
{
    static struct trip trip;
    struct trip_in in = {.rig = &c->rig, .trip = &trip};
    enum exit_status s = context_load_grounds(c);
    s = s == EXIT_FINE ? load(c, &trip) : s;
    if (s != EXIT_FINE) {
        return s;
    }
    if (c->opt.output) {
        return make_card(c, &trip);
    }
    for (int i = 0; i < trip.n_leg; i++) {
        in.ground[i] = ground_find(&c->grounds, trip.leg[i].ground);
    }
    return plan_and_show(c, &in);
}
