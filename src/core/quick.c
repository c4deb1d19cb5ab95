#include "core/quick.h"

#include <math.h>
#include <string.h>

#include "core/loadindex.h"
#include "core/loadrange.h"

#define LIGHT_TRUCK_RANGE 'E'

/* Road pressure where none is given: common practice, labelled as an estimate. */
#define ROAD_MARGIN_1     1.10
#define ROAD_LEAST_PA     (26.0 * UNITS_PA_PER_PSI)
#define ROAD_UNKNOWN_PA   (35.0 * UNITS_PA_PER_PSI)
#define ROAD_TEMP_K       293.15 /* K, 20 C */

static struct text word_of(struct caution *c)
{
    return text_over(c->word, sizeof c->word);
}

static struct caution *assume(struct caution_list *list, enum axle_id a, bool axle_named)
{
    struct caution *c = caution_raise(list, CAUTION_ASSUMED);
    return axle_named ? caution_at_axle(c, a) : c;
}

/* ---- the tyre ---- */

static bool light_truck(const struct designation *d)
{
    return d->family == TYRE_LT_METRIC || d->family == TYRE_FLOTATION;
}

static bool passenger(const struct designation *d)
{
    return d->family == TYRE_P_METRIC || d->family == TYRE_EURO_METRIC;
}

static void set_range(struct tyre_spec *t, struct text *say)
{
    t->load_range = t->size.load_range;
    if (t->load_range != 0) {
        return;
    }
    if (light_truck(&t->size)) {
        t->load_range = LIGHT_TRUCK_RANGE;
        text_put(say, "load range %c", LIGHT_TRUCK_RANGE);
    } else if (passenger(&t->size) && !t->size.extra_load) {
        text_put(say, "standard load (SL)");
    }
}

static void set_rating(struct tyre_spec *t, enum unit_system u, struct caution_list *list,
                       enum axle_id a, bool axle_named)
{
    char buf[CAUTION_WORD];
    struct text say = text_over(buf, sizeof buf);
    t->load_index = t->size.load_index;
    memcpy(t->speed_symbol, t->size.speed_symbol, sizeof t->speed_symbol);
    set_range(t, &say);
    if (loadrange_usual_pressure(&t->size, t->load_range, &t->max_gauge_pa) >= 0) {
        text_put(&say, "%smaximum pressure ", say.len > 0 ? ", " : "");
        units_put(&say, t->max_gauge_pa, Q_PRESSURE, u, 0);
        text_put(&say, ", the usual one");
    }
    if (say.len > 0) {
        struct text word = word_of(assume(list, a, axle_named));
        text_put(&word, "%s", say.s);
    }
    if (t->load_index != 0 && loadindex_kg(t->load_index, &t->max_load_kg) >= 0) {
        struct text word = word_of(assume(list, a, axle_named));
        text_put(&word, "maximum load ");
        units_put(&word, t->max_load_kg, Q_MASS, u, 0);
        text_put(&word, ", from load index %d", t->load_index);
    }
}

/* ---- the road pressure ---- */

static double estimated_road_pa(const struct axle *x, double step_pa)
{
    struct tyre model;
    double per_tyre_kg = x->load_kg / 2.0, p_pa = 0.0, max_pa = x->tyre.max_gauge_pa;
    if (x->tyre.max_load_kg <= 0.0 || max_pa <= 0.0 || tyre_init(&x->tyre, &model) < 0) {
        return num_ceil_to(ROAD_UNKNOWN_PA, step_pa);
    }
    if (tyre_pressure_for_load(&model, per_tyre_kg, &p_pa) < 0) {
        return max_pa; /* overloaded: the advice refuses it */
    }
    return fmin(num_ceil_to(fmax(ROAD_MARGIN_1 * p_pa, ROAD_LEAST_PA), step_pa), max_pa);
}

static bool positive(double x, double hi)
{
    return x > 0.0 && x <= hi; /* NaN fails */
}

static enum status set_axle(const struct quick_form *in, enum axle_id a, struct rig *rig,
                            struct caution_list *list)
{
    bool front = a == AXLE_FRONT;
    bool own_rear =
        in->rear_tyre && in->rear_tyre[0] != '\0' && strcmp(in->rear_tyre, in->tyre) != 0;
    const char *size = !front && own_rear ? in->rear_tyre : in->tyre;
    struct maybe road = front ? in->front_road_gauge_pa : in->rear_road_gauge_pa;
    struct axle *x = &rig->axle[a];
    *x = (struct axle){.present = true,
                       .load_kg = front ? in->front_load_kg : in->rear_load_kg,
                       .left_share_1 = 0.5,
                       .wheels = 2,
                       .road_temp_k = ROAD_TEMP_K};
    enum status s = designation_parse(size, &x->tyre.size);
    if (s < 0) {
        return s;
    }
    if (!positive(x->load_kg, 60000.0) || (road.is && !positive(road.v, TYRE_GAUGE_MAX_PA))) {
        return STATUS_E_DOMAIN;
    }
    struct caution_list twice = {0}; /* one size on both axles: say it once */
    set_rating(&x->tyre, rig->units, front || own_rear ? list : &twice, a, own_rear);
    x->road_estimated = !road.is;
    x->road_gauge_pa = road.is ? road.v : estimated_road_pa(x, rig->air.gauge_step_pa);
    if (x->road_estimated) {
        struct caution *c = caution_at_axle(caution_raise(list, CAUTION_ROAD_ESTIMATED), a);
        (void)caution_with(c, 0, Q_PRESSURE, x->road_gauge_pa, 0);
    }
    return STATUS_OK;
}

/* ---- the air system: the defaults of a profile that says nothing of it ---- */

static struct air_system generic_air(enum unit_system u)
{
    return (struct air_system){
        .source = AIR_COMPRESSOR,
        .compressor = {.name = "twin-12v",
                       .swept_m3_s = 166e-3 / 60.0, /* m3/s, derived from common practice */
                       .clearance_1 = 0.06,
                       .exponent_1 = 1.25,
                       .sag_1 = 0.10,
                       .run_time_s = 900.0,
                       .rest_time_s = 900.0},
        .regulator_area_m2 = 8e-6,
        .hookup = HOOKUP_LINKED,
        .main_length_m = 3.0,
        .branch_length_m = 3.0,
        .tail_length_m = 5.0,
        .hose_bore_m = 0.00635,
        .valve = VALVE_CORE_IN,
        .move_time_s = 25.0,
        .gauge_step_pa = units_step(u),
    };
}

static void name_rig(const struct quick_form *in, struct rig *rig)
{
    struct text name = text_over(rig->name, sizeof rig->name);
    struct text state = text_over(rig->load_state, sizeof rig->load_state);
    text_put(&name, "%s", rig->axle[AXLE_FRONT].tyre.size.text);
    if (strcmp(rig->axle[AXLE_FRONT].tyre.size.text, rig->axle[AXLE_REAR].tyre.size.text) != 0) {
        text_put(&name, " and %s", rig->axle[AXLE_REAR].tyre.size.text);
    }
    text_put(&state, "front ");
    units_put(&state, in->front_load_kg, Q_MASS, in->units, 0);
    text_put(&state, ", rear ");
    units_put(&state, in->rear_load_kg, Q_MASS, in->units, 0);
}

enum status quick_rig(const struct quick_form *in, struct rig *rig, struct caution_list *assumed)
{
    struct rig made = {.driven = DRIVEN_ALL, .units = in->units, .quick = true};
    struct caution_list list = *assumed;
    made.air = generic_air(in->units);
    enum status s = set_axle(in, AXLE_FRONT, &made, &list);
    if (s == STATUS_OK) {
        s = set_axle(in, AXLE_REAR, &made, &list);
    }
    if (s != STATUS_OK) {
        return s;
    }
    struct text drive = word_of(assume(&list, AXLE_FRONT, false));
    text_put(&drive, "all wheels driven, plain wheels, no trailer");
    struct text air = word_of(assume(&list, AXLE_FRONT, false));
    text_put(&air, "a twin 12 V compressor, all corners linked, 15 min on, 15 off");
    name_rig(in, &made);
    *rig = made;
    *assumed = list;
    return STATUS_OK;
}
