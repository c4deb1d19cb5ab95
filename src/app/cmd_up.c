/* cmd_up.c - minutes to refill by every hook-up, what to drop when, the reading to stop at. */
#include <stdio.h>
#include <string.h>

#include "app/air_job.h"
#include "app/commands.h"
#include "report/json_air.h"
#include "report/up_text.h"
#include "report/working_text.h"
#include "sim/refill_working.h"

enum { UP_TEXT = 256 * 1024, UP_NAME = 64 };

static const char DEFAULT_FROM[] = "dune-sand", GRAVEL[] = "graded-gravel";

static enum exit_status show(const struct context *c, const struct up_report *r)
{
    static char buf[UP_TEXT];
    static struct working working;
    struct text t = text_over(buf, sizeof buf);
    enum exit_status result = context_outcome(&r->refusal, &r->cautions);
    if (c->opt.working && r->planned) {
        refill_working(&r->in, &r->out, &working);
    }
    if (c->opt.json) {
        const struct json_head head =
            context_json_head(c, r->rig, &r->cautions, &r->refusal, result);
        if (json_up_put(&head, r, c->opt.working ? &working : NULL, &t) != STATUS_OK) {
            context_say("this refill cannot be written as JSON");
            return EXIT_SYSTEM;
        }
    } else {
        up_text_put(r, c->units, &t);
        if (c->opt.working) {
            working_text_put(&working, c->units, &t);
        }
    }
    enum exit_status s = context_out(buf);
    return s == EXIT_FINE ? result : s;
}

/* ---- where to: road, a ground, one cold pressure ---- */

static enum exit_status to_pressure(const struct context *c, double cold_pa[AXLE_COUNT])
{
    double pa = 0.0;
    if (units_parse(c->opt.to, Q_PRESSURE, &pa) != STATUS_OK || pa <= 0.0) {
        context_say("--to %s: neither 'road', a ground, nor a pressure with its unit (45psi)",
                    c->opt.to);
        return EXIT_USAGE;
    }
    for (int a = 0; a < AXLE_COUNT; a++) {
        cold_pa[a] = pa;
    }
    return EXIT_FINE;
}

/* A ground that is refused refuses the refill as well. */
static enum exit_status to_ground(const struct context *c, const struct ground *g,
                                  struct advice *from, double cold_pa[AXLE_COUNT])
{
    static struct advice to;
    enum exit_status s = context_advise(c, g, &to);
    if (s == EXIT_FINE && to.refusal.code != REFUSAL_NONE) {
        *from = to;
    }
    for (int a = 0; a < AXLE_COUNT && s == EXIT_FINE; a++) {
        cold_pa[a] = to.axle[a].target_gauge_pa;
    }
    return s;
}

static enum exit_status find_to(const struct context *c, struct up_question *q, struct advice *from,
                                char name[UP_NAME])
{
    const char *to = c->opt.to ? c->opt.to : "road";
    const struct ground *g = ground_find(&c->grounds, to);
    snprintf(name, UP_NAME, "%s cold", to);
    q->to_name = name;
    if (strcmp(to, "road") == 0) {
        snprintf(name, UP_NAME, "road pressure");
        for (int a = 0; a < AXLE_COUNT; a++) {
            q->cold_gauge_pa[a] = c->rig.axle[a].road_gauge_pa;
        }
        return EXIT_FINE;
    }
    if (g) {
        snprintf(name, UP_NAME, "the targets of %s", to);
        return to_ground(c, g, from, q->cold_gauge_pa);
    }
    return to_pressure(c, q->cold_gauge_pa);
}

/* ---- where from: readings, else the targets of a ground ---- */

static bool all_read(const struct context *c)
{
    for (int i = 0; i < REFILL_CORNERS; i++) {
        if (c->rig.axle[i / SIDE_COUNT].present && !c->opt.from.corner[i].is) {
            return false;
        }
    }
    return true;
}

static enum exit_status find_from(const struct context *c, struct up_question *q,
                                  struct advice *from)
{
    const char *name = c->opt.ground ? c->opt.ground : DEFAULT_FROM;
    const struct ground *g = context_ground(c, name);
    q->read = &c->opt.from;
    q->from = from;
    q->from_name = all_read(c) ? NULL : name;
    q->from_assumed = !c->opt.ground;
    return g ? context_advise(c, g, from) : EXIT_USAGE;
}

static enum exit_status find_gravel(const struct context *c, struct up_question *q,
                                    struct advice *gravel)
{
    const struct ground *g = ground_find(&c->grounds, GRAVEL);
    if (!g) {
        return EXIT_FINE;
    }
    enum exit_status s = context_advise(c, g, gravel);
    q->gravel = s == EXIT_FINE && gravel->refusal.code == REFUSAL_NONE ? gravel : NULL;
    return s;
}

enum exit_status cmd_up(struct context *c)
{
    static struct advice from, gravel;
    static struct up_report r;
    struct up_question q = {.found_low = c->opt.found_low};
    char to_name[UP_NAME];
    enum exit_status s = context_load_rig(c);
    if (s == EXIT_FINE) {
        s = find_from(c, &q, &from);
    }
    if (s == EXIT_FINE) {
        s = find_to(c, &q, &from, to_name);
    }
    if (s == EXIT_FINE) {
        s = find_gravel(c, &q, &gravel);
    }
    if (s != EXIT_FINE) {
        return s;
    }
    enum status computed = up_job(&q, &r);
    if (computed < 0 && computed != STATUS_E_REFUSED) {
        context_say("this refill cannot be computed: %s", status_text(computed));
        return EXIT_USAGE;
    }
    context_add_assumed(c, &r.cautions);
    return show(c, &r);
}
