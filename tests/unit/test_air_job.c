/* test_air_job.c - from an advice to a let-down and a refill: readings, warm tyres, the gauge's
 * offset, tyres found low. */
#include "support/check.h"

#include <math.h>
#include <string.h>

#include "app/air_job.h"
#include "profile/profile.h"
#include "support/rigs.h"

#define WARM_K 313.15 /* 40 C */

/* The cabin rig with the air system that a profile has by default. */
static struct rig with_air(void)
{
    static struct rig plain;
    struct rig rig = rigs_cabin_on();
    rig_defaults(&plain);
    rig.air = plain.air;
    return rig;
}

static struct advice advise_at(const struct rig *rig, const char *ground, struct maybe tyre_k)
{
    static struct advice a;
    const struct ground g = rigs_ground(ground);
    const struct conditions day = {.tyre_temp_k = tyre_k};
    enum status s = advice_compute(rig, &g, &day, &a);
    assert_true(s >= STATUS_OK || s == STATUS_E_REFUSED);
    return a;
}

static struct corner_pressures read_all(double pa)
{
    struct corner_pressures p = {.given = true};
    for (int c = 0; c < LOG_CORNERS; c++) {
        p.corner[c] = maybe_of(pa);
    }
    return p;
}

static struct up_question to_road(const struct advice *from, const struct corner_pressures *read)
{
    struct up_question q = {.from = from,
                            .from_name = read->given ? NULL : "dune-sand",
                            .read = read,
                            .from_assumed = true,
                            .to_name = "road pressure"};
    for (int a = 0; a < AXLE_COUNT; a++) {
        q.cold_gauge_pa[a] = from->rig.axle[a].road_gauge_pa;
    }
    return q;
}

static const struct refill_corner_in *front_in(const struct up_report *r)
{
    return &r->in.corner[REFILL_CORNER(AXLE_FRONT, SIDE_LEFT)];
}

static const struct refill_corner_out *front_out(const struct up_report *r)
{
    return &r->out.plan[HOOKUP_LINKED].corner[REFILL_CORNER(AXLE_FRONT, SIDE_LEFT)];
}

static void warm_tyres_are_filled_higher(void **state)
{
    static struct up_report r;
    const struct rig rig = with_air();
    const struct advice a = advise_at(&rig, "dune-sand", maybe_of(WARM_K));
    const struct corner_pressures none = {.given = false};
    const struct up_question q = to_road(&a, &none);
    (void)state;
    CHECK_STATUS(up_job(&q, &r), STATUS_OK);
    /* (38 + 14.6959) 313.15 / 293.15 - 14.6959 */
    CHECK_CLOSE(front_in(&r)->target_gauge_pa / PSI, 41.595, 0.001, 0, "ideal gas by hand");
    CHECK_CLOSE(front_in(&r)->cold_gauge_pa / PSI, 38.0, 1e-9, 0, "the rig's road pressure");
    CHECK_CLOSE(front_out(&r)->settled_gauge_pa / PSI, 41.595, 0.01, 0, "ideal gas by hand");
    assert_true(front_out(&r)->stop_reading_gauge_pa > front_in(&r)->target_gauge_pa);
    assert_true(caution_raised(&r.cautions, CAUTION_ASSUMED)); /* from where: nobody said */
}

/* A gauge that reads 2 psi high: readings in and out shift by it, nothing else does. */
static void the_offset_stays_with_the_readings(void **state)
{
    static struct up_report plain, high;
    struct rig rig = with_air();
    (void)state;
    const struct advice a = advise_at(&rig, "dune-sand", maybe_none());
    const struct corner_pressures true_18 = read_all(18.0 * PSI), shown_20 = read_all(20.0 * PSI);
    const struct up_question q = to_road(&a, &true_18);
    CHECK_STATUS(up_job(&q, &plain), STATUS_OK);
    rig.air.gauge_offset_pa = 2.0 * PSI;
    const struct advice b = advise_at(&rig, "dune-sand", maybe_none());
    const struct up_question p = to_road(&b, &shown_20);
    CHECK_STATUS(up_job(&p, &high), STATUS_OK);
    const char *src = "contract of the offset";
    CHECK_CLOSE(front_in(&high)->from_gauge_pa, 18.0 * PSI, 1e-6, 0, src);
    CHECK_CLOSE(front_in(&high)->target_gauge_pa, 38.0 * PSI, 1e-6, 0, src);
    CHECK_CLOSE(front_out(&high)->done_s, front_out(&plain)->done_s, 1e-9, 0, src);
    CHECK_CLOSE(front_out(&high)->stop_reading_gauge_pa,
                front_out(&plain)->stop_reading_gauge_pa + 2.0 * PSI, 1e-6, 0, src);
    CHECK_CLOSE(front_out(&high)->settled_gauge_pa, front_out(&plain)->settled_gauge_pa, 1e-6, 0,
                src);
}

static void a_let_down_shifts_with_the_offset_too(void **state)
{
    static struct down_report plain, high;
    struct rig rig = with_air();
    const struct corner_pressures none = {.given = false};
    (void)state;
    const struct advice a = advise_at(&rig, "dune-sand", maybe_none());
    CHECK_STATUS(down_job(&a, &none, &plain), STATUS_OK);
    rig.air.gauge_offset_pa = 2.0 * PSI;
    const struct advice b = advise_at(&rig, "dune-sand", maybe_none());
    CHECK_STATUS(down_job(&b, &none, &high), STATUS_OK);
    const struct down_line *p = &plain.corner[0], *h = &high.corner[0];
    const char *src = "contract of the offset";
    CHECK_CLOSE(p->from_reading_pa, 38.0 * PSI, 1e-6, 0, "the rig's road pressure");
    CHECK_CLOSE(h->from_reading_pa, 40.0 * PSI, 1e-6, 0, src);
    CHECK_CLOSE(h->to_reading_pa, p->to_reading_pa + 2.0 * PSI, 1e-6, 0, src);
    for (int v = VALVE_CORE_IN; v <= VALVE_CORE_OUT; v++) {
        CHECK_CLOSE(h->result.time_s[v], p->result.time_s[v], 1e-9, 0, src);
        CHECK_CLOSE(h->result.stop_reading_gauge_pa[v],
                    p->result.stop_reading_gauge_pa[v] + 2.0 * PSI, 1e-6, 0, src);
        assert_true(p->result.stop_reading_gauge_pa[v] < p->to_reading_pa);
    }
}

/* Below 0.8 of the target and more than 5 psi under the mate: both, or it is not found low. */
static void found_low_takes_both_signs(void **state)
{
    static const struct {
        double one_psi, mate_psi;
        bool low;
    } rows[] = {
        {11.0, 33.0, true},  {18.0, 18.0, false}, {18.0, 22.0, false},
        {35.3, 41.0, false}, {35.1, 41.0, true},  {41.0, 35.1, false},
    };
    (void)state;
    for (size_t i = 0; i < sizeof rows / sizeof rows[0]; i++) {
        struct refill_in in = {0};
        struct refill_corner_in *c = &in.corner[REFILL_CORNER(AXLE_REAR, SIDE_LEFT)];
        c[0] = (struct refill_corner_in){.present = true,
                                         .from_gauge_pa = rows[i].mate_psi * PSI,
                                         .target_gauge_pa = 44.0 * PSI};
        c[1] = c[0];
        c[1].from_gauge_pa = rows[i].one_psi * PSI;
        unsigned want = rows[i].low ? 1U << REFILL_CORNER(AXLE_REAR, SIDE_RIGHT) : 0U;
        unsigned got = air_found_low(&in) & (1U << REFILL_CORNER(AXLE_REAR, SIDE_RIGHT));
        assert_int_equal(got, want);
    }
}

static void a_tyre_found_low_gets_no_steps(void **state)
{
    static struct up_report r;
    const struct rig rig = with_air();
    const struct advice a = advise_at(&rig, "dune-sand", maybe_none());
    const struct corner_pressures at_18 = read_all(18.0 * PSI);
    struct up_question q = to_road(&a, &at_18);
    unsigned low = 1U << REFILL_CORNER(AXLE_REAR, SIDE_RIGHT), touched = 0;
    (void)state;
    q.found_low = low;
    CHECK_STATUS(up_job(&q, &r), STATUS_E_REFUSED);
    assert_true(r.planned);
    assert_int_equal(r.refusal.code, REFUSAL_FOUND_LOW);
    for (int h = 0; h < HOOKUP_COUNT; h++) {
        assert_true(r.out.plan[h].possible);
        for (int i = 0; i < r.out.plan[h].n_step; i++) {
            touched |= r.out.plan[h].step[i].corners;
        }
    }
    assert_int_equal(touched & low, 0);
    assert_int_equal(touched, r.present & ~low);
}

static void a_wheel_in_pieces_is_refused_whole(void **state)
{
    static struct up_report up;
    static struct down_report down;
    struct rig rig = with_air();
    const struct corner_pressures none = {.given = false};
    (void)state;
    rig.axle[AXLE_REAR].wheel = WHEEL_MULTI_PIECE;
    const struct advice a = advise_at(&rig, "dune-sand", maybe_none());
    const struct up_question q = to_road(&a, &none);
    CHECK_STATUS(up_job(&q, &up), STATUS_E_REFUSED);
    assert_false(up.planned);
    assert_int_equal(up.refusal.code, REFUSAL_MULTI_PIECE);
    CHECK_STATUS(down_job(&a, &none, &down), STATUS_E_REFUSED);
    assert_int_equal(down.refusal.code, REFUSAL_MULTI_PIECE);
}

static void above_the_moulded_maximum_is_a_danger(void **state)
{
    static struct up_report r;
    const struct rig rig = with_air();
    const struct advice a = advise_at(&rig, "dune-sand", maybe_none());
    const struct corner_pressures at_18 = read_all(18.0 * PSI);
    struct up_question q = to_road(&a, &at_18);
    (void)state;
    q.cold_gauge_pa[AXLE_REAR] = 66.0 * PSI;
    CHECK_STATUS(up_job(&q, &r), STATUS_OK);
    assert_true(caution_raised(&r.cautions, CAUTION_OVER_INFLATION));
    assert_true(caution_any_danger(&r.cautions));
    q.cold_gauge_pa[AXLE_REAR] = 65.0 * PSI;
    CHECK_STATUS(up_job(&q, &r), STATUS_OK);
    assert_false(caution_any_danger(&r.cautions));
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(warm_tyres_are_filled_higher),
        cmocka_unit_test(the_offset_stays_with_the_readings),
        cmocka_unit_test(a_let_down_shifts_with_the_offset_too),
        cmocka_unit_test(found_low_takes_both_signs),
        cmocka_unit_test(a_tyre_found_low_gets_no_steps),
        cmocka_unit_test(a_wheel_in_pieces_is_refused_whole),
        cmocka_unit_test(above_the_moulded_maximum_is_a_danger),
    };
    return check_run("air job", tests, sizeof tests / sizeof tests[0], argc, argv);
}
