/* test_tyre_measured.c - three measured tyres: where the model holds, and where it is known not
 * to. */
#include "support/check.h"

#include "support/tyres.h"

#define KPA_PER_PSI 6.894757293168361
#define CURVES      "measurement notes 2021-07-12, flat plate, 255/40R17 98W"
#define PRINTS      "measurement notes 2021-09-25, ink prints, 255/40R17 98W"
#define TRUCK       "tyre lab for the US Army demonstrator, 335/65R22.5"
#define FIELD       "Richmond, CRREL Report 95-7 (1995) p. 4-5, 235/75R15"

/* A load in N as the kg that the helpers take. */
static double kg(double load_n)
{
    return load_n / TYRES_G_M_S2;
}

struct load_case {
    double psi, load_n;
    struct check_row row;
};

#define AT(psi, n, mm)                                                                             \
    {                                                                                              \
        psi, n,                                                                                    \
        {                                                                                          \
            "tyre: measured deflection", "255/40R17 " #psi " psi " #n " N, mm", mm, 0, 0.12,       \
                CURVES, "read"                                                                     \
        }                                                                                          \
    }

// clang-format off
static const struct load_case CAR[] = {
    AT(24, 2224, 10.96), AT(24, 3559, 16.98), AT(24, 4448, 20.81), AT(24, 5338, 24.51), AT(24, 6228, 28.10),
    AT(30, 2224, 9.32), AT(30, 3559, 14.59), AT(30, 4448, 17.98), AT(30, 5338, 21.28), AT(30, 6228, 24.51),
    AT(36, 2224, 8.33), AT(36, 3559, 13.07), AT(36, 4448, 16.12), AT(36, 5338, 19.11), AT(36, 6228, 22.03),
};
// clang-format on

static void car_tyre_deflects_as_measured(void **state)
{
    (void)state;
    struct tyre t = tyres_made("255/40R17", 0, 0);
    for (size_t i = 0; i < sizeof CAR / sizeof CAR[0]; i++) {
        CHECK_ROW(&CAR[i].row,
                  tyres_deflection_mm(&t, kg(CAR[i].load_n), CAR[i].psi * KPA_PER_PSI));
    }
}

/* The two end points again at the closer tolerance that the notes allow. */
static void car_tyre_at_the_heaviest_load(void **state)
{
    (void)state;
    struct tyre t = tyres_made("255/40R17", 0, 0);
    CHECK_CLOSE(tyres_deflection_mm(&t, kg(6228), 24 * KPA_PER_PSI), 28.10, 0, 0.10, CURVES);
    CHECK_CLOSE(tyres_deflection_mm(&t, kg(6228), 36 * KPA_PER_PSI), 22.03, 0, 0.10, CURVES);
}

/* lb, psi, length and width in inches, area in square inches. */
static const struct {
    double lb, psi, length_in, width_in, area_in2;
    const char *length, *width, *area;
} INK[] = {
#define PRINT(lb, psi, l, w, a)                                                                    \
    {                                                                                              \
        lb, psi, l, w, a, "255/40R17 " #lb " lb " #psi " psi: length, mm",                         \
            "255/40R17 " #lb " lb " #psi " psi: width, mm",                                        \
            "255/40R17 " #lb " lb " #psi " psi: area, cm2"                                         \
    }
    PRINT(500, 24, 3.41, 6.98, 19.7),  PRINT(500, 30, 3.09, 6.76, 17.1),
    PRINT(500, 36, 2.74, 6.39, 13.9),  PRINT(1000, 24, 5.29, 8.44, 37.9),
    PRINT(1000, 30, 4.55, 7.95, 30.1), PRINT(1000, 36, 4.20, 7.61, 27.5),
    PRINT(1400, 24, 6.36, 9.05, 50.0), PRINT(1400, 30, 5.72, 8.70, 42.5),
    PRINT(1400, 36, 5.19, 8.39, 37.7),
#undef PRINT
};

static void check_print(const char *name, double want, double tol_rel, double got)
{
    const struct check_row row = {"tyre: measured print", name, want, 0, tol_rel, PRINTS, "read"};
    CHECK_ROW(&row, got);
}

static void car_tyre_prints_as_inked(void **state)
{
    (void)state;
    struct tyre t = tyres_made("255/40R17", 0, 0);
    for (size_t i = 0; i < sizeof INK / sizeof INK[0]; i++) {
        struct tyre_patch p = tyres_patch(&t, INK[i].lb * 0.45359237, INK[i].psi * KPA_PER_PSI);
        check_print(INK[i].area, INK[i].area_in2 * 6.4516, 0.12, 1e4 * p.area_m2);
        check_print(INK[i].length, INK[i].length_in * 25.4, 0.12, 1e3 * p.length_m);
        if (INK[i].lb > 500) {
            check_print(INK[i].width, INK[i].width_in * 25.4, 0.12, 1e3 * p.width_m);
        }
    }
}

/* Known failure: small prints fill 0.80 of length times width, not 0.86, so that their width
 * comes out too small by 9 to 13 %. */
static void light_prints_are_wider_than_the_model(void **state)
{
    (void)state;
    struct tyre t = tyres_made("255/40R17", 0, 0);
    for (size_t i = 0; i < 3; i++) {
        struct tyre_patch p = tyres_patch(&t, INK[i].lb * 0.45359237, INK[i].psi * KPA_PER_PSI);
        check_print(INK[i].width, INK[i].width_in * 25.4, 0.13, 1e3 * p.width_m);
        CHECK_BETWEEN(1e3 * p.width_m / (INK[i].width_in * 25.4) - 1.0, -0.13, -0.09, PRINTS);
    }
}

static void truck_tyre_secant_at_nominal_load(void **state)
{
    (void)state;
    static const struct {
        double p_kpa, load_n;
        struct check_row row;
    } points[] = {
        {270,
         16929,
         {"tyre: measured stiffness", "335/65R22.5 270 kPa 16929 N, N/mm", 406.52, 0, 0.05, TRUCK,
          "read"}},
        {650,
         29912,
         {"tyre: measured stiffness", "335/65R22.5 650 kPa 29912 N, N/mm", 848.55, 0, 0.12, TRUCK,
          "read"}},
    };
    struct tyre t = tyres_made("335/65R22.5", 0, 0);
    for (size_t i = 0; i < 2; i++) {
        double d_mm = tyres_deflection_mm(&t, kg(points[i].load_n), points[i].p_kpa);
        CHECK_ROW(&points[i].row, points[i].load_n / d_mm);
        CHECK_CLOSE(tyres_stiffness_n_mm(&t, points[i].p_kpa), points[i].row.want, 0,
                    points[i].row.tol_rel, TRUCK);
    }
}

static void truck_tyre_map_at_40_psi(void **state)
{
    (void)state;
    static const struct {
        double load_n;
        struct check_row row;
    } map[] = {
#define MAP(mm, n)                                                                                 \
    {                                                                                              \
        n,                                                                                         \
        {                                                                                          \
            "tyre: measured deflection", "335/65R22.5 40 psi " #n " N, mm", mm, 0, 0.15, TRUCK,    \
                "read"                                                                             \
        }                                                                                          \
    }
        MAP(30, 10902.6), MAP(40, 15275.2), MAP(50, 19832),
        MAP(60, 24462),   MAP(70, 29054.2), MAP(80, 33497.6),
#undef MAP
    };
    struct tyre t = tyres_made("335/65R22.5", 0, 0);
    for (size_t i = 0; i < sizeof map / sizeof map[0]; i++) {
        CHECK_ROW(&map[i].row, tyres_deflection_mm(&t, kg(map[i].load_n), 40 * KPA_PER_PSI));
        double f_n = map[i].load_n, d_m = map[i].row.want / 1e3, p_pa = 0.0;
        CHECK_STATUS(tyre_pressure_for_deflection(&t, f_n, d_m, &p_pa), STATUS_OK);
        assert_true(p_pa > 0.0);
    }
}

/* Known failure: a tyre on an instrumented vehicle in the field deflects 62 to 75 mm, by the free
 * radius that is taken; the uncalibrated model stays 20 to 40 % below. One tape height mends it. */
static void field_tyre_is_softer_than_the_model(void **state)
{
    (void)state;
    static const struct check_row rows[] = {
        {"tyre: known failure", "235/75R15 103 kPa 6800 N, free radius 367, mm", 62, 0, 0.40,
         FIELD ", column heads not seen", "read"},
        {"tyre: known failure", "235/75R15 103 kPa 6800 N, free radius 380, mm", 75, 0, 0.40,
         FIELD ", column heads not seen", "read"},
    };
    struct tyre t = tyres_made("235/75R15", 0, 0);
    double d_mm = tyres_deflection_mm(&t, kg(6800), 103);
    CHECK_CLOSE(d_mm, 48.7, 0.05, 0, "independent computation of the model");
    for (size_t i = 0; i < 2; i++) {
        CHECK_ROW(&rows[i], d_mm);
        CHECK_BETWEEN(1.0 - d_mm / rows[i].want, 0.20, 0.40, FIELD);
    }
}

static void one_tape_height_mends_the_field_tyre(void **state)
{
    (void)state;
    static const struct check_row row = {"tyre: measured deflection",
                                         "235/75R15 179 kPa 6800 N, calibrated at 103 kPa, mm",
                                         40.0,
                                         0,
                                         0.20,
                                         FIELD ", free radius 367, mean of left and right (37, 43)",
                                         "read"};
    struct tyre_spec spec = tyres_spec("235/75R15", 0, 0);
    struct tyre t;
    spec.cal = (struct tyre_calibration){.cal_gauge_pa = 103e3,
                                         .cal_height_m =
                                             0.3025 + (spec.size.outside_diameter_m / 2 - 0.367),
                                         .cal_load_kg = kg(6800)};
    CHECK_STATUS(tyre_init(&spec, &t), STATUS_OK);
    CHECK_ROW(&row, tyres_deflection_mm(&t, kg(6800), 179));
}

/* 3928 kg on a 16.00R20: the Army's four pressures for that truck fall on the four classes of
 * deflection. The catalogue diameter (1343 mm) stands for the assumed one. */
static void army_pressures_fall_on_the_classes(void **state)
{
    (void)state;
    static const struct {
        double psi;
        struct check_row row;
    } settings[] = {
#define SET(psi, pct)                                                                              \
    {                                                                                              \
        psi,                                                                                       \
        {                                                                                          \
            "tyre: deflection of published settings",                                              \
                "16.00R20 3928 kg " #psi " psi, % of height", pct, 0.05, 0,                        \
                "TM 9-2320-364-10 table 2-7 pressures, own deflection", "own"                      \
        }                                                                                          \
    }
        SET(75, 11.3),
        SET(38, 20.4),
        SET(23, 30.4),
        SET(18, 36.5),
#undef SET
    };
    struct tyre_spec spec = tyres_spec("16.00R20", 0, 0);
    struct tyre t;
    spec.outside_diameter_m = 0.508 + 2 * 0.4175;
    CHECK_STATUS(tyre_init(&spec, &t), STATUS_OK);
    for (size_t i = 0; i < sizeof settings / sizeof settings[0]; i++) {
        double d_mm = tyres_deflection_mm(&t, 3928, settings[i].psi * KPA_PER_PSI);
        CHECK_ROW(&settings[i].row, 100.0 * d_mm / 417.5);
    }
}

int main(int argc, char **argv)
{
    const struct CMUnitTest tests[] = {
        cmocka_unit_test(car_tyre_deflects_as_measured),
        cmocka_unit_test(car_tyre_at_the_heaviest_load),
        cmocka_unit_test(car_tyre_prints_as_inked),
        cmocka_unit_test(light_prints_are_wider_than_the_model),
        cmocka_unit_test(truck_tyre_secant_at_nominal_load),
        cmocka_unit_test(truck_tyre_map_at_40_psi),
        cmocka_unit_test(field_tyre_is_softer_than_the_model),
        cmocka_unit_test(one_tape_height_mends_the_field_tyre),
        cmocka_unit_test(army_pressures_fall_on_the_classes),
    };
    return check_run("tyre measured", tests, sizeof tests / sizeof tests[0], argc, argv);
}
