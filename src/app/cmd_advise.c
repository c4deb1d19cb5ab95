/* cmd_advise.c - the main job: target pressures, footprint, flotation, limits, cap. */
#include "app/commands.h"
#include "core/advice_working.h"
#include "report/advise_text.h"
#include "report/json_advise.h"
#include "report/working_text.h"

enum { ADVISE_TEXT = 512 * 1024 };

static void put_text(const struct context *c, const struct advice *a, const struct working *w,
                     struct text *out)
{
    advise_text_put(a, c->units, out);
    if (w) {
        working_text_put(w, c->units, out);
    }
}

static enum exit_status show(const struct context *c, const struct advice *a)
{
    static char buf[ADVISE_TEXT];
    static struct working working;
    struct text t = text_over(buf, sizeof buf);
    const struct working *w = NULL;
    enum exit_status result = context_outcome(&a->refusal, &a->cautions);
    if (c->opt.working) {
        advice_working(a, &working);
        w = &working;
    }
    if (!c->opt.json) {
        put_text(c, a, w, &t);
    } else {
        const struct json_head head =
            context_json_head(c, &a->rig, &a->cautions, &a->refusal, result);
        if (json_advise_put(&head, a, w, &t) != STATUS_OK) {
            context_say("this advice cannot be written as JSON");
            return EXIT_SYSTEM;
        }
    }
    enum exit_status s = context_out(buf);
    return s == EXIT_FINE ? result : s;
}

enum exit_status cmd_advise(struct context *c)
{
    static struct advice a;
    const struct ground *ground = NULL;
    enum exit_status s = context_load_rig(c);
    if (s == EXIT_FINE) {
        s = context_named_ground(c, &ground);
    }
    if (s == EXIT_FINE) {
        s = context_advise(c, ground, &a);
    }
    return s == EXIT_FINE ? show(c, &a) : s;
}
