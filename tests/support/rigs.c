#include "support/rigs.h"

#include <stdio.h>
#include <string.h>

#include "support/check.h"

// clang-format off
/* name, kind, aim, low, high, limit (%), cap km/h (0 = none), cone index psi (0 = none): model C4 */
static const struct {
    const char *name;
    enum ground_kind kind;
    double aim, low, high, limit, kmh, psi;
} GROUNDS[] = {
    {"sealed-road",    GROUND_FIRM, 0,    0,    0,    0,  0,  0},
    {"graded-gravel",  GROUND_FIRM, 13.5, 12.5, 15.5, 20, 80, 0},
    {"corrugated-road",GROUND_FIRM, 15.5, 14,   18,   24, 80, 0},
    {"stony-track",    GROUND_FIRM, 18,   16,   21,   26, 30, 0},
    {"rock-steps",     GROUND_FIRM, 19,   16,   22,   28, 12, 0},
    {"damp-sand",      GROUND_SAND, 18,   17,   22,   30, 40, 150},
    {"dry-sand",       GROUND_SAND, 21,   19,   25,   32, 30, 65},
    {"dune-sand",      GROUND_SAND, 22,   20,   26,   33, 25, 32},
    {"greasy-clay",    GROUND_FINE, 19,   17,   22,   28, 25, 60},
    {"wet-field",      GROUND_FINE, 22,   20,   26,   32, 15, 45},
    {"bog",            GROUND_FINE, 25,   22,   29,   33, 8,  20},
    {"loose-snow",     GROUND_SNOW, 23,   20,   28,   33, 25, 0},
    {"packed-snow",    GROUND_SNOW, 14,   12,   16,   22, 40, 0},
    {"ice",            GROUND_ICE,  14,   12,   16,   22, 30, 0},
};
// clang-format on

struct ground rigs_ground(const char *name)
{
    struct ground g = {.kind = GROUND_FIRM};
    for (size_t i = 0; i < sizeof GROUNDS / sizeof GROUNDS[0]; i++) {
        if (strcmp(GROUNDS[i].name, name) != 0) {
            continue;
        }
        (void)snprintf(g.name, sizeof g.name, "%s", name);
        (void)snprintf(g.title, sizeof g.title, "%s", name);
        g.kind = GROUNDS[i].kind;
        g.road = strcmp(name, "sealed-road") == 0;
        g.aim_1 = GROUNDS[i].aim / 100;
        g.aim_low_1 = GROUNDS[i].low / 100;
        g.aim_high_1 = GROUNDS[i].high / 100;
        g.limit_1 = GROUNDS[i].limit / 100;
        g.cap_mps = GROUNDS[i].kmh > 0 ? maybe_of(GROUNDS[i].kmh * KMH) : maybe_none();
        g.strength_pa = GROUNDS[i].psi > 0 ? maybe_of(GROUNDS[i].psi * PSI) : maybe_none();
        g.slick = strcmp(name, "greasy-clay") == 0;
        if (g.kind == GROUND_SNOW) {
            bool packed = strcmp(name, "packed-snow") == 0;
            g.snow_density_kg_m3 = maybe_of(packed ? 450 : 200);
            g.snow_depth_m = maybe_of(packed ? 0.10 : 0.25);
        }
    }
    assert_true(g.name[0] != '\0');
    return g;
}

void rigs_set_axle(struct rig *r, enum axle_id a, const char *size, double load_kg, double road_pa,
                   double max_kg, double max_pa)
{
    struct axle *x = &r->axle[a];
    *x = (struct axle){.present = true,
                       .load_kg = load_kg,
                       .left_share_1 = 0.5,
                       .wheels = 2,
                       .road_gauge_pa = road_pa,
                       .road_temp_k = 293.15};
    assert_true(designation_parse(size, &x->tyre.size) >= 0);
    x->tyre.max_load_kg = max_kg;
    x->tyre.max_gauge_pa = max_pa;
}

static struct rig two_axles(const char *name, const char *size, double front_kg, double rear_kg,
                            double front_pa, double rear_pa, double max_kg, double max_pa)
{
    struct rig r = {
        .driven = DRIVEN_ALL, .clearance_m = 0.24, .power_w = 120e3, .units = UNITS_PSI};
    (void)snprintf(r.name, sizeof r.name, "%s", name);
    rigs_set_axle(&r, AXLE_FRONT, size, front_kg, front_pa, max_kg, max_pa);
    rigs_set_axle(&r, AXLE_REAR, size, rear_kg, rear_pa, max_kg, max_pa);
    return r;
}

struct rig rigs_cabin_on(void)
{
    struct rig r = two_axles("flatbed with cabin", "35x12.50R17LT", 1950, 2350, 38 * PSI, 48 * PSI,
                             1450, 65 * PSI);
    r.axle[AXLE_FRONT].rim_width_m = r.axle[AXLE_REAR].rim_width_m = 9 * UNITS_M_PER_INCH;
    r.air.springs = true;
    return r;
}

struct rig rigs_bed_bare(void)
{
    return two_axles("flatbed, bed bare", "35x12.50R17LT", 1900, 1500, 38 * PSI, 30 * PSI, 1450,
                     65 * PSI);
}

struct rig rigs_light_wagon(void)
{
    return two_axles("light wagon", "195/80R15C", 700, 640, 26 * PSI, 26 * PSI, 950, 65 * PSI);
}

struct rig rigs_tourer(void)
{
    struct rig r =
        two_axles("touring wagon", "LT265/70R17", 1400, 1700, 36 * PSI, 44 * PSI, 1450, 80 * PSI);
    rigs_set_axle(&r, AXLE_TRAILER, "LT265/70R17", 1450, 45 * PSI, 1450, 80 * PSI);
    return r;
}

struct rig rigs_buggy(void)
{
    struct rig r =
        two_axles("rock buggy", "37x12.50R17LT", 950, 850, 20 * PSI, 20 * PSI, 1600, 50 * PSI);
    r.axle[AXLE_FRONT].wheel = r.axle[AXLE_REAR].wheel = WHEEL_BEADLOCK;
    return r;
}

struct rig rigs_truck_12t(void)
{
    struct rig r = two_axles("expedition truck", "395/85R20", 5200, 6800, 4.2 * BAR, 5.4 * BAR,
                             5600, 7.6 * BAR);
    r.units = UNITS_BAR;
    return r;
}

struct advice rigs_advise(const struct rig *r, const char *ground)
{
    struct advice a;
    struct ground g = rigs_ground(ground);
    struct conditions c = {.slope_1 = 0};
    CHECK_STATUS(advice_compute(r, &g, &c, &a), STATUS_OK);
    return a;
}
