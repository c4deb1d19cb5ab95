#include "app/card_job.h"

#include <string.h>

#include "base/num.h"
#include "card/rig_card.h"
#include "card/trip_card.h"
#include "core/constants.h"
#include "core/gas.h"
#include "sim/refill.h"
#include "sim/trip_caution.h"

/* The grounds of a card when none are asked for, hardest first; where there is no room for all,
 * those of the lowest rank stay [practice]. */
static const struct {
    const char *name;
    int rank;
} USUAL[] = {{"graded-gravel", 0}, {"stony-track", 2}, {"damp-sand", 3},
             {"dune-sand", 1},     {"greasy-clay", 4}, {"loose-snow", 5}};

static enum status fail(struct card_job_report *fault, enum status st, const char *what)
{
    struct text t = text_over(fault->what, sizeof fault->what);
    text_put(&t, "%s", what);
    return st;
}

/* ---- grounds ---- */

enum status card_job_grounds(const char *list, struct card_job *job, struct card_job_report *fault)
{
    job->n_ground = 0;
    for (const char *p = list;; p++) {
        size_t n = strcspn(p, ",");
        char name[GROUND_NAME];
        struct text t = text_over(name, sizeof name);
        text_put(&t, "%.*s", (int)n, p);
        if (job->n_ground == CARD_JOB_GROUNDS) {
            return fail(fault, STATUS_E_FULL, "more grounds than any card holds: 6 fit");
        }
        if (!ground_find(job->catalogue, name)) {
            struct text w = text_over(fault->what, sizeof fault->what);
            text_put(&w, "no ground is called \"%s\"", name);
            return STATUS_E_UNKNOWN;
        }
        memcpy(job->ground[job->n_ground++], name, sizeof name);
        p += n;
        if (*p == '\0') {
            return STATUS_OK;
        }
    }
}

/* The grounds asked for, or the usual ones that the catalogue has, at most room of them. */
static int choose_grounds(const struct card_job *job, int room, const struct ground *chosen[])
{
    int n = 0;
    for (int i = 0; i < job->n_ground; i++) {
        chosen[n] = ground_find(job->catalogue, job->ground[i]);
        n += chosen[n] != NULL;
    }
    for (size_t i = 0; i < sizeof USUAL / sizeof USUAL[0] && job->n_ground == 0; i++) {
        chosen[n] = ground_find(job->catalogue, USUAL[i].name);
        n += chosen[n] != NULL && USUAL[i].rank < room;
    }
    for (int i = 0; i < job->catalogue->n && n == 0; i++) {
        chosen[0] = &job->catalogue->item[i];
        n = chosen[0]->road ? 0 : 1;
    }
    return n;
}

/* ---- refill ---- */

/* A cold pressure as it reads at today's tyre temperature. */
static enum status now_of(const struct advice *a, int axle, double cold_pa, double *now_pa)
{
    return gas_gauge_moved(cold_pa, a->rig.axle[axle].road_temp_k, a->ambient_abs_pa,
                           a->tyre_temp_k[axle], a->ambient_abs_pa, now_pa);
}

static enum status fill_corner(const struct advice *soft, const struct advice *gravel, int axle,
                               struct refill_corner_in *k)
{
    const struct axle_advice *a = &soft->axle[axle];
    k->cold_gauge_pa = a->road_gauge_pa;
    enum status st = now_of(soft, axle, a->target_gauge_pa, &k->from_gauge_pa);
    st = st < 0 ? st : now_of(soft, axle, a->road_gauge_pa, &k->target_gauge_pa);
    return st < 0 ? st
                  : now_of(soft, axle, gravel->axle[axle].target_gauge_pa, &k->gravel_gauge_pa);
}

/* From the softest ground's pressures to the road. */
static enum status refill_of(const struct card_job *job, const struct rig *rig,
                             const struct advice *soft, struct refill_out *out)
{
    const struct ground *ground = ground_find(job->catalogue, "graded-gravel");
    struct advice gravel = *soft;
    struct refill_in in;
    double air_k = maybe_or(job->conditions.air_temp_k, AIR_FREE_TEMP_K);
    enum status st = STATUS_OK;
    if (ground) {
        st = advice_compute(rig, ground, &job->conditions, &gravel);
    }
    if (st >= 0) {
        st = refill_in_of(&soft->rig, soft->ambient_abs_pa, soft->tyre_temp_k[AXLE_FRONT],
                          maybe_or(rig->air.inlet_temp_k, air_k), &in);
    }
    for (int a = 0; a < AXLE_COUNT && st >= 0; a++) {
        for (int side = 0; side < SIDE_COUNT && st >= 0; side++) {
            struct refill_corner_in *k = &in.corner[REFILL_CORNER(a, side)];
            st = k->present ? fill_corner(soft, &gravel, a, k) : st;
        }
    }
    return st < 0 ? st : refill_compute(&in, out);
}

/* ---- content ---- */

static enum status rig_content(const struct card_job *job, const struct rig *rig, int room,
                               struct card_content *content, struct card_job_report *fault)
{
    const struct ground *ground[CARD_JOB_GROUNDS] = {NULL};
    struct advice advice[CARD_JOB_GROUNDS];
    struct refill_out refill;
    int n = choose_grounds(job, room, ground);
    for (int i = 0; i < n; i++) {
        enum status st = advice_compute(rig, ground[i], &job->conditions, &advice[i]);
        if (st < 0) {
            fault->refusal = st == STATUS_E_REFUSED ? advice[i].refusal : fault->refusal;
            return fail(fault, st, status_text(st));
        }
        fault->danger = fault->danger || caution_any_danger(&advice[i].cautions);
    }
    int soft = card_softest(n, advice);
    if (soft < 0) {
        return fail(fault, STATUS_E_MISSING, "no ground to make a card for");
    }
    enum status st = refill_of(job, rig, &advice[soft], &refill);
    struct card_source source = {.rig = rig,
                                 .n_advice = n,
                                 .advice = advice,
                                 .refill = &refill,
                                 .refill_from = advice[soft].ground.title,
                                 .units = job->units,
                                 .date = job->date};
    st = st < 0 ? st : card_content_of_rig(&source, content);
    return st < 0 ? fail(fault, st, status_text(st)) : STATUS_OK;
}

static enum status trip_content(const struct card_job *job, struct card_content *content,
                                struct card_job_report *fault)
{
    struct trip_in in = {.rig = job->rig, .trip = job->trip};
    struct trip_plan plan;
    for (int i = 0; i < job->trip->n_leg; i++) {
        in.ground[i] = ground_find(job->catalogue, job->trip->leg[i].ground);
        if (!in.ground[i]) {
            return fail(fault, STATUS_E_UNKNOWN, "a leg's ground is not in the catalogue");
        }
    }
    enum status st = trip_compute(&in, &plan);
    if (st < 0) {
        fault->refusal = st == STATUS_E_REFUSED ? plan.refusal : fault->refusal;
        return fail(fault, st, status_text(st));
    }
    struct card_trip_source source = {
        .in = &in, .plan = &plan, .units = job->units, .date = job->date};
    struct caution_list cautions = {.n = 0};
    st = trip_cautions(&in, &plan, &cautions);
    fault->danger = caution_any_danger(&cautions);
    st = st < 0 ? st : card_content_of_trip(&source, content);
    return st < 0 ? fail(fault, st, status_text(st)) : STATUS_OK;
}

static enum status content_of(const struct card_job *job, const struct rig *rig, int room,
                              struct card_content *content, struct card_job_report *fault)
{
    return job->trip ? trip_content(job, content, fault)
                     : rig_content(job, rig, room, content, fault);
}

/* ---- the two forms ---- */

/* One side of one card, in either form. */
struct face {
    struct text *out; /* text form, or NULL */
    struct card_page *page;
};

static enum status put_side(const struct card_job *job, const struct card_content *content,
                            const struct face *face, struct card_problem *problem)
{
    if (face->out) {
        return job->log_side ? card_text_log(content, job->size, face->out, problem)
                             : card_text_front(content, job->size, face->out, problem);
    }
    return job->log_side ? card_layout_log(content, job->size, face->page, problem)
                         : card_layout(content, job->size, face->page, problem);
}

/* Grounds that were asked for must fit; of the usual ones only as many as fit are shown. */
static enum status make_side(const struct card_job *job, const struct rig *rig,
                             const struct face *face, struct card_job_report *fault)
{
    struct card_content content;
    struct card_problem problem = {.what = "", .fits = -1};
    enum status st = content_of(job, rig, card_format_of(job->size)->grounds, &content, fault);
    if (st < 0) {
        return st;
    }
    st = put_side(job, &content, face, &problem);
    if (st == STATUS_E_FULL && problem.fits > 0 && job->n_ground == 0 && !job->trip) {
        st = content_of(job, rig, problem.fits, &content, fault);
        st = st < 0 ? st : put_side(job, &content, face, &problem);
    }
    return st < 0 ? fail(fault, st, problem.what[0] ? problem.what : status_text(st)) : STATUS_OK;
}

enum status card_job_text(const struct card_job *job, struct text *out,
                          struct card_job_report *fault)
{
    const struct face face = {.out = out};
    enum status st = make_side(job, job->rig, &face, fault);
    if (st >= 0 && job->other) {
        card_text_fold(job->size, out);
        st = make_side(job, job->other, &face, fault);
    }
    return st;
}

enum status card_job_pdf(const struct card_job *job, size_t cap, unsigned char bytes[],
                         size_t *n_byte, struct card_job_report *fault)
{
    static struct card_page page, other, sheet; /* large: kept off the stack */
    struct card_problem problem = {.what = "", .fits = -1};
    enum status st = make_side(job, job->rig, &(struct face){.page = &page}, fault);
    if (st >= 0 && job->other) {
        st = make_side(job, job->other, &(struct face){.page = &other}, fault);
    }
    if (st < 0) {
        return st;
    }
    if (job->other) {
        card_page_stack(&page, &other, &sheet);
    }
    st = card_pdf(1, job->other ? &sheet : &page, cap, bytes, n_byte, &problem);
    return st < 0 ? fail(fault, st, problem.what) : STATUS_OK;
}
