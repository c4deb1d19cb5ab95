#include "tui/outing.h"

#include <stdio.h>
#include <string.h>

#include "core/gas.h"

#define AIR_DRAWN_K 293.15 /* by the source, when nothing is said of it; as the commands take it */

const struct ground *outing_ground(const struct outing *s, const struct ground_list *grounds)
{
    return s->ground >= 0 && s->ground < grounds->n ? &grounds->item[s->ground] : NULL;
}

/* With no ground chosen the road is advised on: the catalogue's, or a plain one. */
static struct ground ground_or_road(const struct outing *s, const struct ground_list *grounds)
{
    const struct ground *g = outing_ground(s, grounds);
    for (int i = 0; g == NULL && i < grounds->n; i++)
        if (grounds->item[i].road)
            g = &grounds->item[i];
    return g != NULL ? *g
                     : (struct ground){.name = "sealed-road",
                                       .title = "sealed road",
                                       .kind = GROUND_FIRM,
                                       .road = true,
                                       .limit_1 = 0.2};
}

static void widen(const struct tyre_patch *patch, double *longest_m, double *widest_m)
{
    *longest_m = fmax(*longest_m, patch->length_m);
    *widest_m = fmax(*widest_m, patch->width_m);
}

static void measure(const struct advice *a, double *longest_m, double *widest_m)
{
    for (int x = 0; x < AXLE_COUNT; x++)
        for (int i = 0; a->axle[x].present && i < SIDE_COUNT; i++) {
            widen(&a->axle[x].corner[i].road.patch, longest_m, widest_m);
            widen(&a->axle[x].corner[i].at.patch, longest_m, widest_m);
        }
}

static struct preview preview_of(const struct outing *s, const struct ground *ground)
{
    struct advice a;
    struct preview p = {.known = false};
    if (advice_compute(&s->rig, ground, &s->conditions, &a) < STATUS_OK)
        return p;
    p.known = true;
    p.cap_mps = a.cap_mps;
    for (int x = 0; x < AXLE_COUNT; x++)
        p.target_gauge_pa[x] = a.axle[x].target_gauge_pa;
    return p;
}

void outing_compute(const struct outing *s, const struct ground_list *grounds, struct results *out)
{
    struct ground ground = ground_or_road(s, grounds);
    memset(out, 0, sizeof *out);
    out->refill.status = STATUS_E_MISSING;
    out->status = advice_compute(&s->rig, &ground, &s->conditions, &out->advice);
    out->n_preview = grounds->n;
    for (int i = 0; i < grounds->n; i++)
        out->preview[i] = preview_of(s, &grounds->item[i]);
    if (out->status >= STATUS_OK)
        measure(&out->advice, &out->longest_m, &out->widest_m);
}

/* the reading to fill to now for a cold pressure */
static enum status reading_now(const struct advice *a, enum axle_id x, double cold_gauge_pa,
                               double *now_gauge_pa)
{
    const struct axle *axle = &a->rig.axle[x];
    return gas_gauge_moved(cold_gauge_pa, axle->road_temp_k, a->ambient_abs_pa, a->tyre_temp_k[x],
                           a->ambient_abs_pa, now_gauge_pa);
}

static enum status fill_axle(const struct advice *a, enum axle_id x, const struct preview *gravel,
                             struct refill_in *in)
{
    const struct axle_advice *axle = &a->axle[x];
    double cold = gravel != NULL ? gravel->target_gauge_pa[x] : axle->road_gauge_pa, to = 0,
           part = 0;
    enum status s = reading_now(a, x, axle->road_gauge_pa, &to);
    if (s >= STATUS_OK)
        s = reading_now(a, x, cold, &part);
    for (int i = 0; s >= STATUS_OK && i < SIDE_COUNT; i++) {
        struct refill_corner_in *c = &in->corner[REFILL_CORNER(x, i)];
        c->from_gauge_pa = axle->set_now_gauge_pa - a->rig.air.gauge_offset_pa;
        c->target_gauge_pa = to;
        c->cold_gauge_pa = axle->road_gauge_pa;
        c->gravel_gauge_pa = part;
    }
    return s;
}

static const struct preview *gravel_preview(const struct ground_list *grounds,
                                            const struct results *r)
{
    for (int i = 0; i < grounds->n; i++)
        if (strcmp(grounds->item[i].name, "graded-gravel") == 0 && r->preview[i].known)
            return &r->preview[i];
    return NULL;
}

void outing_refill_compute(const struct outing *s, const struct ground_list *grounds,
                           struct results *out)
{
    const struct advice *a = &out->advice;
    struct outing_refill *r = &out->refill;
    r->status = out->status < STATUS_OK ? out->status : STATUS_OK;
    if (r->status < STATUS_OK)
        return;
    double tyre_temp_k = a->tyre_temp_k[AXLE_FRONT];
    double air_temp_k = maybe_or(s->conditions.air_temp_k, AIR_DRAWN_K);
    double inlet_temp_k = maybe_or(s->rig.air.inlet_temp_k, air_temp_k);
    r->status = refill_in_of(&s->rig, a->ambient_abs_pa, tyre_temp_k, inlet_temp_k, &r->in);
    for (int x = 0; r->status >= STATUS_OK && x < AXLE_COUNT; x++)
        if (a->axle[x].present)
            r->status = fill_axle(a, (enum axle_id)x, gravel_preview(grounds, out), &r->in);
    if (r->status >= STATUS_OK)
        r->status = refill_compute(&r->in, &r->out);
}

/* put a change into the list: the same key is changed in place */
static bool note_edit(struct outing *s, const struct rig_edit *e)
{
    for (int i = 0; i < s->n_edit; i++)
        if (strcmp(s->edit[i].key, e->key) == 0) {
            s->edit[i] = *e;
            return true;
        }
    if (s->n_edit >= OUTING_EDITS)
        return false;
    s->edit[s->n_edit++] = *e;
    return true;
}

/* which load items are switched off outlives a reload: files know nothing of it */
static void keep_switches(const struct rig *before, struct rig *after)
{
    for (int i = 0; i < after->n_mass && i < before->n_mass; i++)
        after->mass[i].off = before->mass[i].off;
}

bool outing_edits(struct outing *s, const struct session_host *host, int n,
                  const struct rig_edit edits[], struct load_report *report)
{
    struct outing trial = *s;
    *report = (struct load_report){.field = -1};
    for (int i = 0; i < n; i++)
        if (!note_edit(&trial, &edits[i])) {
            snprintf(report->message, sizeof report->message,
                     "no room for more changes: save first");
            return false;
        }
    if (!host->load(host->self, &trial.source, trial.n_edit, trial.edit, &trial.rig, report))
        return false;
    keep_switches(&s->rig, &trial.rig);
    *s = trial;
    return true;
}

bool outing_edit(struct outing *s, const struct session_host *host, const char *key,
                 const char *value, struct load_report *report)
{
    struct rig_edit e;
    snprintf(e.key, sizeof e.key, "%s", key);
    snprintf(e.value, sizeof e.value, "%s", value);
    return outing_edits(s, host, 1, &e, report);
}

bool outing_open(struct outing *s, const struct session_host *host, const struct rig_source *source,
                 struct load_report *report)
{
    struct rig rig;
    *report = (struct load_report){.field = -1};
    if (!host->load(host->self, source, 0, NULL, &rig, report))
        return false;
    if (!s->has_rig)
        s->units = rig.units;
    s->rig = rig;
    s->source = *source;
    s->n_edit = 0;
    s->has_rig = true;
    return true;
}

void outing_mass_key(const struct outing *s, const struct session_host *host, int i,
                     const char *key, char out[HOST_KEY])
{
    char section[HOST_KEY];
    host->mass_section(host->self, &s->source, s->n_edit, s->edit, i, section);
    snprintf(out, HOST_KEY, "%.30s.%.15s", section, key);
}

void undo_note(struct undo_list *u, const struct outing *before, const char *what)
{
    if (u->n == OUTING_UNDO) {
        memmove(&u->item[0], &u->item[1], (OUTING_UNDO - 1) * sizeof u->item[0]);
        u->n--;
    }
    snprintf(u->item[u->n].what, sizeof u->item[u->n].what, "%s", what);
    u->item[u->n].before = *before;
    u->n++;
}

bool undo_take(struct undo_list *u, struct outing *s, char what[OUTING_WHAT])
{
    if (u->n == 0)
        return false;
    u->n--;
    *s = u->item[u->n].before;
    snprintf(what, OUTING_WHAT, "%s", u->item[u->n].what);
    return true;
}
