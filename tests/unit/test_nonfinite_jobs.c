/* test_nonfinite_jobs.c - not a number and infinity in what a timed job, its forecast and a trip
 * are told: refused, and what was there before stays. */
#include "support/air.h"
#include "support/check.h"
#include "support/rigs.h"
#include "support/sweep.h"
#include "support/trips.h"

#include <string.h>

#include "sim/forecast.h"

/* ---- the session ---- */

static struct session session;
static struct log_event event;

static void tell(const char *line)
{
    char why[200];
    struct text w = text_over(why, sizeof why);
    struct log_event e;
    CHECK_STATUS(refill_log_parse(line, &e, &w), STATUS_OK);
    CHECK_STATUS(session_apply(&session, &e, &w), STATUS_OK);
}

static void begin(bool up)
{
    struct refill_in in = up ? air_pickup(15, 15, 35, 35) : air_pickup(35, 35, 15, 15);
    session_init(&in, &session);
    if (!up) {
        tell("0 job down");
    }
    tell(up ? "0 read all 15 psi settled" : "0 read all 35 psi settled");
    tell("0 air on");
    tell("60 air off");
    tell(up ? "80 read all 19 psi settled" : "80 read all 30 psi settled");
    tell("90 air on");
}

static enum status apply(void)
{
    static struct session s, was;
    char why[200] = "";
    struct text w = text_over(why, sizeof why);
    s = was = session;
    enum status st = session_apply(&s, &event, &w);
    if (st < 0) {
        assert_memory_equal(&s, &was, sizeof s);
        assert_true(why[0] != '\0');
    }
    return st;
}

static void sessions_take_none(void **state)
{
    (void)state;
    begin(true);
    double *const field[] = {&event.at_s, &event.p_gauge_pa};
    static const char *const name[] = {"at_s", "p_gauge_pa"};
    event = (struct log_event){.at_s = 100, .word = LOG_READ, .corners = LOG_ALL};
    event.p_gauge_pa = 20 * PSI;
    sweep(2, field, name, apply);
    event.word = LOG_TARGET;
    sweep(2, field, name, apply);
    event = (struct log_event){.at_s = 100, .word = LOG_GAP, .gap_s = 20};
    double *const gap[] = {&event.at_s, &event.gap_s};
    static const char *const gap_name[] = {"at_s", "gap_s"};
    sweep(2, gap, gap_name, apply);
}

/* ---- the forecast ---- */

static struct forecast forecast;
static struct forecast_prior prior;
static double now_s;

static enum status init(void)
{
    static struct forecast f;
    sweep_fill(&f, sizeof f);
    enum status s = forecast_init(&f, 1, 100, &prior);
    if (s < 0) {
        sweep_untouched(&f, sizeof f);
    }
    return s;
}

static void priors_take_none(void **state)
{
    (void)state;
#define FIELDS(F) F(prior.log_mean_1) F(prior.log_sd_1)
    SWEEP_FIELDS(FIELDS);
#undef FIELDS
    prior = forecast_prior_label();
    SWEEP(init);
}

static enum status update(void)
{
    static struct forecast_out out;
    sweep_fill(&out, sizeof out);
    enum status s = forecast_update(&forecast, &session, now_s, &out);
    if (s < 0) {
        sweep_untouched(&out, sizeof out);
    }
    return s;
}

static enum status tick(void)
{
    static struct forecast_out out;
    sweep_fill(&out, sizeof out);
    enum status s = forecast_tick(&forecast, &session, now_s, &out);
    if (s < 0) {
        sweep_untouched(&out, sizeof out);
    }
    return s;
}

static void sweep_forecast(bool up)
{
    begin(up);
    struct refill_in *in = &session.in;
    struct refill_corner_in *c = &in->corner[REFILL_CORNER(AXLE_REAR, SIDE_LEFT)];
#define FIELDS(F)                                                                                  \
    F(now_s)                                                                                       \
    F(in->ambient_abs_pa)                                                                          \
    F(in->tyre_temp_k)                                                                             \
    F(in->inlet_temp_k)                                                                            \
    F(c->volume_m3)                                                                                \
    F(c->target_gauge_pa)                                                                          \
    F(in->air.compressor.swept_m3_s)                                                               \
    F(in->air.compressor.clearance_1)                                                              \
    F(in->air.compressor.exponent_1)                                                               \
    F(in->air.compressor.sag_1)                                                                    \
    F(in->air.compressor.cut_out_gauge_pa)                                                         \
    F(in->air.main_length_m)                                                                       \
    F(in->air.branch_length_m)                                                                     \
    F(in->air.tail_length_m)                                                                       \
    F(in->air.hose_bore_m)                                                                         \
    F(in->air.tank_volume_m3)                                                                      \
    F(in->air.gauge_step_pa)                                                                       \
    F(in->air.gauge_offset_pa)                                                                     \
    F(session.start_gauge_pa[0])                                                                   \
    F(session.now_s)                                                                               \
    F(session.first_air_s)                                                                         \
    F(session.running_s)                                                                           \
    F(session.span[0].lasts_s)                                                                     \
    F(session.reading[1].p_gauge_pa)                                                               \
    F(session.reading[1].at_s)                                                                     \
    F(session.reading[1].running_s)
    SWEEP_FIELDS(FIELDS);
#undef FIELDS
    struct forecast_prior label = forecast_prior_label();
    CHECK_STATUS(forecast_init(&forecast, 1, 100, &label), STATUS_OK);
    now_s = 100;
    SWEEP(update);
    SWEEP(tick);
}

static void forecasts_of_a_refill_take_none(void **state)
{
    (void)state;
    sweep_forecast(true);
}

static void forecasts_of_a_let_down_take_none(void **state)
{
    (void)state;
    sweep_forecast(false);
}

static enum status learn(void)
{
    struct forecast_learned l;
    sweep_fill(&l, sizeof l);
    enum status s = forecast_learn(&forecast, &session, &l);
    if (s < 0) {
        sweep_untouched(&l, sizeof l);
    }
    return s;
}

static void lessons_take_none(void **state)
{
    (void)state;
    begin(true);
    struct forecast_prior label = forecast_prior_label();
    struct forecast_out out;
    CHECK_STATUS(forecast_init(&forecast, 1, 100, &label), STATUS_OK);
    CHECK_STATUS(forecast_update(&forecast, &session, 100, &out), STATUS_OK);
#define FIELDS(F) F(session.in.inlet_temp_k) F(session.in.ambient_abs_pa)
    SWEEP_FIELDS(FIELDS);
#undef FIELDS
    SWEEP(learn);
}

/* ---- the trip ---- */

static struct trips_case trip;

static enum status plan(void)
{
    static struct trip_plan p;
    struct trip_in in = trips_in(&trip);
    sweep_fill(&p, sizeof p);
    enum status s = trip_compute(&in, &p);
    if (s < 0 && s != STATUS_E_REFUSED) {
        sweep_untouched(&p, sizeof p);
    }
    return s;
}

static void trips_take_none(void **state)
{
    (void)state;
    struct axle *a = &trip.rig.axle[AXLE_REAR];
    struct trip_leg *l = &trip.trip.leg[1];
    struct air_system *air = &trip.rig.air;
#define FIELDS(F)                                                                                  \
    F(trip.trip.height_start_m)                                                                    \
    F(trip.trip.air_temp_start_k)                                                                  \
    F(l->length_m)                                                                                 \
    F(l->speed_mps)                                                                                \
    F(l->height_end_m.v)                                                                           \
    F(l->air_temp_k.v)                                                                             \
    F(l->slope_1)                                                                                  \
    F(a->load_kg)                                                                                  \
    F(a->road_gauge_pa)                                                                            \
    F(a->road_temp_k)                                                                              \
    F(a->floor_gauge_pa)                                                                           \
    F(a->tyre.max_load_kg)                                                                         \
    F(a->tyre.max_gauge_pa)                                                                        \
    F(air->main_length_m)                                                                          \
    F(air->branch_length_m)                                                                        \
    F(air->hose_bore_m)                                                                            \
    F(air->move_time_s)                                                                            \
    F(air->gauge_offset_pa)                                                                        \
    F(air->compressor.swept_m3_s)                                                                  \
    F(air->compressor.run_time_s)                                                                  \
    F(air->compressor.rest_time_s)                                                                 \
    F(trip.ground[1].aim_1)                                                                        \
    F(trip.ground[1].limit_1)                                                                      \
    F(trip.ground[1].strength_pa.v)                                                                \
    F(trip.ground[1].cap_mps.v)
    SWEEP_FIELDS(FIELDS);
#undef FIELDS
    trips_start(&trip, rigs_cabin_on());
    trips_leg(&trip, "sealed-road", 40, 90);
    trips_leg(&trip, "dune-sand", 12, 25);
    trips_end(&trip, 200, 15);
    trips_leg(&trip, "sealed-road", 40, 90);
    SWEEP(plan);
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(sessions_take_none),
        cmocka_unit_test(priors_take_none),
        cmocka_unit_test(forecasts_of_a_refill_take_none),
        cmocka_unit_test(forecasts_of_a_let_down_take_none),
        cmocka_unit_test(lessons_take_none),
        cmocka_unit_test(trips_take_none),
    };
    return check_run("nonfinite jobs", tests, sizeof tests / sizeof tests[0], argc, argv);
}
