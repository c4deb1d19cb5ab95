#include "support/card_demo.h"

#include "base/units.h"

struct demo_ground {
    const char *title;
    double front_psi, rear_psi, trailer_psi, cap_kmh;
};

/* Invented numbers of a plausible size. */
static const struct demo_ground GROUNDS[] = {
    {"graded gravel", 32, 41, 38, 80},   {"stony track", 26, 33, 32, 40},
    {"damp sand", 22, 28, 28, 40},       {"dune sand", 17, 22, 23, 25},
    {"greasy clay", 24, 30, 30, 30},     {"loose snow", 16, 20, 22, 25},
    {"corrugated road", 30, 38, 36, 70}, {"wet field", 20, 26, 26, 30},
};

static void add_corner(struct card_content *c, const char *name, const char *load,
                       enum axle_id axle, enum side side, double road_m, double soft_m)
{
    struct card_corner *k = &c->corner[c->n_corner++];
    CARD_PUT_WORD(k->name, name);
    CARD_PUT_WORD(k->load, load);
    k->axle = axle;
    k->side = side;
    k->road_length_m = road_m;
    k->road_width_m = 0.24;
    k->soft_length_m = soft_m;
    k->soft_width_m = 0.25;
}

static void add_corners(struct card_content *c, bool trailer)
{
    CARD_PUT_WORD(c->softest, "dune sand");
    add_corner(c, "LF", "975 kg", AXLE_FRONT, SIDE_LEFT, 0.19, 0.30);
    add_corner(c, "RF", "975 kg", AXLE_FRONT, SIDE_RIGHT, 0.19, 0.30);
    add_corner(c, "LR", "1175 kg", AXLE_REAR, SIDE_LEFT, 0.20, 0.31);
    add_corner(c, "RR", "1175 kg", AXLE_REAR, SIDE_RIGHT, 0.20, 0.31);
    if (trailer) {
        add_corner(c, "LT", "725 kg", AXLE_TRAILER, SIDE_LEFT, 0.16, 0.24);
        add_corner(c, "RT", "725 kg", AXLE_TRAILER, SIDE_RIGHT, 0.16, 0.24);
    }
}

static void put(struct card_row *row, int col, double psi, enum unit_system u)
{
    card_put_pressure(&row->cell[col], psi * UNITS_PA_PER_PSI, 0.0, u);
}

static void add_table(struct card_content *c, enum unit_system u, int n_ground, bool trailer)
{
    card_put_units(c, u);
    card_add_column(c, "FRONT", "F");
    card_add_column(c, "REAR", "R");
    if (trailer) {
        card_add_column(c, "TRAILER", "T");
    }
    card_add_column(c, "SPARE", "SP");
    card_add_column(c, "MAX km/h", "km/h");
    struct card_row *road = card_add_row(c, CARD_ROW_TARGET, "ROAD cold, 20 C", "");
    put(road, 0, 38, u);
    put(road, 1, 48, u);
    put(road, 2, trailer ? 45 : 48, u);
    if (trailer) {
        put(road, 3, 48, u);
    }
    for (int i = 0; i < n_ground; i++) {
        const struct demo_ground *g = &GROUNDS[i];
        struct card_row *row = card_add_row(c, CARD_ROW_PLAIN, g->title, "[ground] title");
        put(row, 0, g->front_psi, u);
        put(row, 1, g->rear_psi, u);
        if (trailer) {
            put(row, 2, g->trailer_psi, u);
        }
        card_put_cap(&row->cell[trailer ? 4 : 3], maybe_of(g->cap_kmh / 3.6));
    }
    struct card_row *floor = card_add_row(c, CARD_ROW_FLOOR, "NEVER BELOW", "");
    put(floor, 0, 15, u);
    put(floor, 1, 18, u);
    if (trailer) {
        put(floor, 2, 18, u);
    }
}

void card_demo(struct card_content *c, enum unit_system u, int n_ground, bool trailer)
{
    card_start(c, "CABIN ON, WATER FULL", "[rig] load_state");
    CARD_PUT_WORD(c->subject, "flatbed with cabin");
    CARD_PUT_WORD(c->subject_key, "[rig] name");
    CARD_PUT_WORD(c->tyre, "35x12.50R17LT load range E");
    CARD_PUT_WORD(c->tyre_key, "[front] tyre");
    add_table(c, u, n_ground, trailer);
    struct card_line *refill =
        card_add_line(c, CARD_REFILL, "", "REFILL from dune sand %s min",
                      trailer ? "19 min (all linked): front off at 6, rear at 11, trailer at 19"
                              : "11 min (all linked): front off at 6, rear at 11");
    CARD_PUT_WORD(refill->brief,
                  trailer ? "REFILL 19 min: F off 6, R 11, T 19" : "REFILL 11 min: F off 6, R 11");
    card_add_cautions(c);
    card_add_origin(c, "2026-05-02");
    card_add_line(c, CARD_NOTE, "", "WARM, for each 15 C over cold add F 2.7 R 3.2 psi");
    card_add_line(c, CARD_NOTE, "", "HEIGHT, a set tyre reads 1.7 psi more per 1000 m up");
    add_corners(c, trailer);
}

void card_demo_wide(struct card_content *c, int n_ground)
{
    static const char *const names[][2] = {{"FRONT", "F"},   {"MIDDLE", "M"},   {"REAR", "R"},
                                           {"TRAILER", "T"}, {"TRAIL 2", "T2"}, {"SPARE", "SP"}};
    card_start(c, "LOADED FOR THE SEASON", "[rig] load_state");
    CARD_PUT_WORD(c->subject, "expedition truck and trailer");
    CARD_PUT_WORD(c->tyre, "395/85R20 LI 168");
    card_put_units(c, UNITS_KPA);
    for (int i = 0; i < 6; i++) {
        card_add_column(c, names[i][0], names[i][1]);
    }
    card_add_column(c, "MAX km/h", "km/h");
    struct card_row *road = card_add_row(c, CARD_ROW_TARGET, "ROAD cold, 20 C", "");
    for (int i = 0; i < 6; i++) {
        put(road, i, 80 + i, UNITS_KPA);
    }
    for (int i = 0; i < n_ground; i++) {
        struct card_row *row = card_add_row(c, CARD_ROW_PLAIN, GROUNDS[i].title, "[ground] title");
        for (int k = 0; k < 5; k++) {
            put(row, k, GROUNDS[i].front_psi + k, UNITS_KPA);
        }
        card_put_cap(&row->cell[6], maybe_of(GROUNDS[i].cap_kmh / 3.6));
    }
    struct card_row *floor = card_add_row(c, CARD_ROW_FLOOR, "NEVER BELOW", "");
    for (int k = 0; k < 5; k++) {
        put(floor, k, 16, UNITS_KPA);
    }
    card_add_cautions(c);
    card_add_origin(c, "2026-05-02");
    add_corners(c, true);
}

void card_demo_trip(struct card_content *c, int n_leg)
{
    card_start(c, "DUNE CROSSING", "[trip] name");
    CARD_PUT_WORD(c->subject, "flatbed with cabin, cabin on, water full");
    c->legs = true;
    card_put_units(c, UNITS_PSI);
    card_add_column(c, "FRONT", "F");
    card_add_column(c, "REAR", "R");
    card_add_column(c, "MAX km/h", "km/h");
    card_add_column(c, "DRIVE min", "min");
    card_add_column(c, "BEFORE", "do");
    for (int i = 0; i < n_leg; i++) {
        const struct demo_ground *g = &GROUNDS[i % 8];
        struct card_row *row = card_add_row(c, CARD_ROW_PLAIN, g->title, "[leg] ground");
        put(row, 0, g->front_psi, UNITS_PSI);
        put(row, 1, g->rear_psi, UNITS_PSI);
        card_put_cap(&row->cell[2], maybe_of(g->cap_kmh / 3.6));
        CARD_PUT_WORD(row->cell[3].value, "35");
        CARD_PUT_WORD(row->cell[4].value, i % 2 ? "up 11" : "down 6");
    }
    card_add_cautions(c);
    card_add_origin(c, "2026-05-02");
}
