#include "sim/forecast_working.h"

#include <math.h>

static const char OWN[] = "own, checked by the study of test_coverage";
static const char SAMPLING[] = "Bugallo et al., IEEE Signal Process. Mag. 34, 2017";
static const char YOURS[] = "your gauge and the clock";

static void ensemble_rows(const struct forecast *f, const struct forecast_out *out,
                          struct working *w)
{
    (void)working_add(w, "", "N", "members: machines and sets of tyres that there might be", "F1",
                      "each simulated through the job as it went, then on to the targets", SAMPLING,
                      STANDING_PM, f->members, Q_COUNT);
    (void)working_in(working_add(w, "", "N_eff", "effective members after the readings", "F1",
                                 "1 / sum of squared weights; drawn anew below 50", SAMPLING,
                                 STANDING_PM, out->effective_1, Q_COUNT),
                     "rounds", out->rounds, Q_COUNT);
}

/* Letting down needs no machine: nothing is believed of one. */
static void source_rows(const struct forecast *f, const struct forecast_out *out, struct working *w)
{
    const struct forecast_prior *p = &f->prior;
    bool label = p->refills == 0;
    struct working_row *r = working_add(
        w, "", "r0",
        label ? "believed first, by the label alone" : "believed first, by earlier refills",
        label ? "F1" : "F5",
        "delivery over volume: exp(mu + sd T5), or with the share weak far below", OWN,
        label ? STANDING_C : STANDING_D, exp(p->log_mean_1), Q_NUMBER);
    (void)working_in(r, "mu", p->log_mean_1, Q_NUMBER);
    (void)working_in(r, "sd", p->log_sd_1, Q_NUMBER);
    (void)working_in(r, "refills", p->refills, Q_COUNT);
    (void)working_in(r, "weak", forecast_prior_weak(p), Q_NUMBER);
    r = working_add(w, "", "r", "delivery over volume, of the label's; 9 of 10 inside", "F1",
                    "weighted median and quantiles of the members", OWN, STANDING_D,
                    out->delivery.p50_1, Q_NUMBER);
    r->low = maybe_of(out->delivery.p05_1);
    r->high = maybe_of(out->delivery.p95_1);
}

static void reading_rows(const struct session *s, const struct forecast_out *out, struct working *w)
{
    double offset_pa = s->in.air.gauge_offset_pa;
    for (int k = 0; k < out->n_seen; k++) {
        const struct forecast_seen *o = &out->seen[k];
        char where[24];
        struct text t = text_over(where, sizeof where);
        bool all = (o->corners & s->present) == s->present;
        refill_log_corners_put(all ? LOG_ALL : o->corners, &t);
        struct working_row *r =
            working_add(w, where, "p", o->flowing ? "read on the line, flowing" : "read, settled",
                        "F2", "z = (p - expected) / standard error", YOURS, STANDING_U,
                        o->read_gauge_pa + offset_pa, Q_PRESSURE);
        (void)working_in(r, "expected", o->expected_gauge_pa + offset_pa, Q_PRESSURE);
        (void)working_in(r, "z", o->residual_1, Q_NUMBER);
        (void)working_in(r, "at", o->at_s, Q_DURATION);
    }
}

static void fit_rows(const struct session *s, const struct forecast_out *out, struct working *w)
{
    static const char *const fits[] = {"readings used; the fit is good",
                                       "readings used; the fit is poor, so bands are widened",
                                       "readings used; a corner is out of step"};
    static const char FAR[] = "out of step beyond 3 standard errors, or 2.4 from its mates";
    bool none = out->readings == 0;
    (void)working_add(w, "", "n", none ? "readings used so far" : fits[out->fit], "F4", FAR, OWN,
                      STANDING_D, out->readings, Q_COUNT);
    for (int c = 0; c < REFILL_CORNERS; c++) {
        if (out->out_of_step & s->present & (1u << c)) {
            (void)working_add(
                w, corner_name((enum axle_id)(c / SIDE_COUNT), (enum side)(c % SIDE_COUNT)), "z",
                "how far out of step: hose, valve, leak or bead", "F4", FAR, OWN, STANDING_D,
                out->corner[c].residual_1, Q_NUMBER);
        }
    }
}

static void end_rows(const struct forecast_out *out, struct working *w)
{
    const struct forecast_time *t = &out->finish;
    (void)working_add(w, "", "P", "members that reach every target", "F3", "sum of their weights",
                      OWN, STANDING_D, out->arrives_1, Q_SHARE);
    if (!isfinite(t->p50_s)) {
        return;
    }
    struct working_row *r =
        working_add(w, "", "t_end", "last corner done, running time; 9 of 10 inside", "F3",
                    "weighted median and quantiles; never narrower than the gauge allows", OWN,
                    STANDING_D, t->p50_s, Q_DURATION);
    if (isfinite(t->p95_s)) {
        r->low = maybe_of(t->p05_s);
        r->high = maybe_of(t->p95_s);
    }
}

void forecast_working(const struct forecast *f, const struct session *s,
                      const struct forecast_out *out, struct working *w)
{
    ensemble_rows(f, out, w);
    if (s->up) {
        source_rows(f, out, w);
    }
    reading_rows(s, out, w);
    fit_rows(s, out, w);
    end_rows(out, w);
}
