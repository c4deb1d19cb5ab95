/* cmd_down.c - minutes to let every corner down, and the reading to stop at. */
#include "app/air_job.h"
#include "app/commands.h"
#include "report/down_text.h"
#include "report/json_air.h"
#include "report/working_text.h"
#include "sim/refill_working.h"

enum { DOWN_TEXT = 256 * 1024 };

static void add_working(const struct down_report *r, struct working *w)
{
    for (int i = 0; i < REFILL_CORNERS && r->refusal.code == REFUSAL_NONE; i++) {
        const struct down_line *line = &r->corner[i];
        if (line->present) {
            down_working(&line->in, &line->result, report_corner_name(i), w);
        }
    }
}

static enum exit_status show(const struct context *c, const struct down_report *r)
{
    static char buf[DOWN_TEXT];
    static struct working working;
    struct text t = text_over(buf, sizeof buf);
    enum exit_status result = context_outcome(&r->refusal, &r->cautions);
    if (c->opt.working) {
        add_working(r, &working);
    }
    if (c->opt.json) {
        const struct json_head head =
            context_json_head(c, r->rig, &r->cautions, &r->refusal, result);
        if (json_down_put(&head, r, c->opt.working ? &working : NULL, &t) != STATUS_OK) {
            context_say("this let-down cannot be written as JSON");
            return EXIT_SYSTEM;
        }
    } else {
        down_text_put(r, c->units, &t);
        if (c->opt.working) {
            working_text_put(&working, c->units, &t);
        }
    }
    enum exit_status s = context_out(buf);
    return s == EXIT_FINE ? result : s;
}

enum exit_status cmd_down(struct context *c)
{
    static struct advice a;
    static struct down_report r;
    enum exit_status s = context_load_rig(c);
    const struct ground *ground = NULL;
    if (s == EXIT_FINE) {
        s = context_named_ground(c, &ground);
    }
    if (s == EXIT_FINE) {
        s = context_advise(c, ground, &a);
    }
    if (s != EXIT_FINE) {
        return s;
    }
    enum status computed = down_job(&a, &c->opt.from, &r);
    if (computed < 0 && computed != STATUS_E_REFUSED) {
        context_say("this let-down cannot be computed: %s", status_text(computed));
        return EXIT_USAGE;
    }
    return show(c, &r);
}
