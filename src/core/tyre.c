#include "core/tyre.h"

#include "core/constants.h"
#include "core/loadindex.h"

#define PA_PER_KPA             1000.0
#define MM_PER_M               1000.0

/* Capacity (A3). */
#define EXPONENT_LIGHT_TRUCK_1 0.7      /* fits a published LT row within 0.7 % */
#define EXPONENT_C_TYPE_1      0.75     /* ETRTO, older form [memory] */
#define EXPONENT_PASSENGER_1   0.5      /* TRA P-metric [memory] */
#define EXPONENT_LOW_1         0.8      /* passenger below the knee, own, conservative */
#define KNEE_PA                180000.0 /* Pa, passenger */
#define TABLE_FROM_PA          240000.0 /* Pa, 35 psi: the LT tables begin here */
#define TRUCK_LOAD_INDEX       136
#define TRUCK_LOAD_KG          2240.0 /* kg, load index 136 */
#define TRUCK_NUMERIC_RIM_M    0.508  /* m, 20 in */

/* Stiffness (A4), Rhyne 2005 [memory]: kgf/mm, kPa, mm. */
#define RHYNE_SLOPE_1          0.00028
#define RHYNE_INTERCEPT_1      3.45
#define K0_MAX_N_M             150000.0 /* N/m, clamp of a measured carcass stiffness */
#define KCAL_MIN_1             0.6
#define KCAL_MAX_1             1.6
#define PRINT_MIN_1            0.5 /* a print outside half to twice the model's is a slip */
#define PRINT_MAX_1            2.0

/* Progressive law (A5) and patch (A7), own fits. */
#define PROGRESSION_1          0.6
#define RATED_SHARE_1          0.2 /* deflection / section height at which Ks is the secant */
#define AREA_FACTOR_1          2.6
#define PATCH_FILL_1           0.86 /* area / (length width) */
#define LENGTH_ROOT_1          0.51
#define LENGTH_LINEAR_1        1.11
#define TREAD_METRIC_1         0.82 /* tread width / section width */
#define TREAD_FLOTATION_1      0.80

/* Rolling radius (A8), Pacejka 2012 eq. 4.E70, parameters [memory]. */
#define ROLL_D_1               0.21
#define ROLL_B_1               8.4
#define ROLL_F_1               0.007
/* d0 / R0 where the moulded maximum is unknown: puts the rolling radius at rated load at
 * 0.972 R0, the mean of eight sizes in a maker's catalogue (revolutions a mile). */
#define ROLL_D0_1              0.09
#define ROLL_LOAD_1            0.8  /* d0 belongs to this share of the moulded load ... */
#define ROLL_PRESSURE_1        0.65 /* ... and of the moulded pressure */
#define VOLUME_FACTOR_1        0.78 /* inner volume / box of section and circumference (A9), own */

/* Uncertainty of the deflection (A6), own judgement. */
#define ERROR_LOW_1            0.30
#define ERROR_HIGH_1           0.10
#define ERROR_LOW_PA           150000.0 /* Pa and below */
#define ERROR_HIGH_PA          250000.0 /* Pa and above */
#define ERROR_FAR_1            0.20     /* one height, away from its pressure */
#define ERROR_NEAR_SPAN_1      0.4      /* "near" is within this share of its pressure */

/* Bounds of the entries. */
#define OD_MAX_M               2.5
#define WIDTH_MAX_M            1.5
#define RATIO_MIN_1            0.15 /* section height / section width */
#define RATIO_MAX_1            1.3
#define LOAD_MAX_KG            30000.0

static bool not_above(double x, double hi)
{
    return x >= 0.0 && x <= hi; /* NaN fails */
}

static int load_index_of(const struct tyre_spec *spec)
{
    return spec->load_index != 0 ? spec->load_index : spec->size.load_index;
}

/* A bare metric size on a 15-degree rim (code ending in .5) is of this family already, and so is
 * one as high as 395/85R20: no car tyre is, and taking a truck's tyre for a car's would put its
 * bead floor too low. */
bool tyre_is_truck(const struct tyre_spec *spec)
{
    const struct designation *size = &spec->size;
    int li = load_index_of(spec);
    return size->family == TYRE_TRUCK_METRIC ||
           (size->family == TYRE_NUMERIC && size->rim_diameter_m >= TRUCK_NUMERIC_RIM_M - 1e-6) ||
           li >= TRUCK_LOAD_INDEX || (li == 0 && spec->max_load_kg >= TRUCK_LOAD_KG);
}

static bool spec_in_domain(const struct tyre_spec *spec)
{
    const struct tyre_calibration *c = &spec->cal;
    const struct designation *z = &spec->size;
    return not_above(spec->max_load_kg, LOAD_MAX_KG) &&
           not_above(spec->max_gauge_pa, TYRE_GAUGE_MAX_PA) &&
           not_above(spec->outside_diameter_m, OD_MAX_M) &&
           not_above(spec->section_width_m, WIDTH_MAX_M) &&
           not_above(spec->tread_width_m, WIDTH_MAX_M) &&
           not_above(c->cal_gauge_pa, TYRE_GAUGE_MAX_PA) &&
           not_above(c->cal2_gauge_pa, TYRE_GAUGE_MAX_PA) && not_above(c->cal_height_m, OD_MAX_M) &&
           not_above(c->cal2_height_m, OD_MAX_M) && not_above(c->cal_load_kg, LOAD_MAX_KG) &&
           not_above(c->patch_length_m, OD_MAX_M) && not_above(c->patch_width_m, WIDTH_MAX_M) &&
           not_above(z->section_width_m, WIDTH_MAX_M) &&
           not_above(z->outside_diameter_m, OD_MAX_M) && z->rim_diameter_m > 0.0;
}

/* Measured values before those of the designation (A1). */
static enum status set_geometry(const struct tyre_spec *spec, struct tyre *t)
{
    const struct designation *z = &spec->size;
    double od_m = spec->outside_diameter_m > 0.0 ? spec->outside_diameter_m : z->outside_diameter_m;
    t->r0_m = od_m / 2.0;
    t->rim_radius_m = z->rim_diameter_m / 2.0;
    t->section_height_m = t->r0_m - t->rim_radius_m;
    t->section_width_m = spec->section_width_m > 0.0 ? spec->section_width_m : z->section_width_m;
    t->aspect_1 = t->section_height_m / t->section_width_m;
    if (!(t->aspect_1 >= RATIO_MIN_1 && t->aspect_1 <= RATIO_MAX_1)) {
        return STATUS_E_DOMAIN;
    }
    double tread_1 = z->family == TYRE_FLOTATION ? TREAD_FLOTATION_1 : TREAD_METRIC_1;
    t->tread_width_m =
        spec->tread_width_m > 0.0 ? spec->tread_width_m : tread_1 * t->section_width_m;
    return STATUS_OK;
}

/* The rating: the moulded load, else that of the load index (A2, A3). */
static enum status set_rating(const struct tyre_spec *spec, struct tyre *t)
{
    enum tyre_family f = spec->size.family;
    int li = load_index_of(spec);
    t->truck = tyre_is_truck(spec);
    t->passenger = !t->truck && (f == TYRE_P_METRIC || f == TYRE_EURO_METRIC);
    t->bias = spec->size.build != TYRE_RADIAL;
    t->max_load_kg = spec->max_load_kg;
    t->max_gauge_pa = spec->max_gauge_pa;
    t->load_exponent_1 = t->passenger                      ? EXPONENT_PASSENGER_1
                         : (f == TYRE_C_TYPE && !t->truck) ? EXPONENT_C_TYPE_1
                                                           : EXPONENT_LIGHT_TRUCK_1;
    t->knee_gauge_pa = t->passenger ? KNEE_PA : 0.0;
    if (t->max_load_kg <= 0.0 && li != 0 && loadindex_kg(li, &t->max_load_kg) < 0) {
        return STATUS_E_DOMAIN;
    }
    return STATUS_OK;
}

/* Rhyne's line in SI for a kcal of 1 (A4). */
static void set_stiffness(struct tyre *t)
{
    double sn_mm = t->section_width_m * MM_PER_M;
    double od_mm = 2.0 * t->r0_m * MM_PER_M; /* SN AR/50 + DR */
    double g_mm = sqrt((1.03 - 0.4 * t->aspect_1) * sn_mm * od_mm);
    t->k0_n_m = GRAVITY_M_S2 * RHYNE_INTERCEPT_1 * MM_PER_M;
    t->k1_n_m_pa = GRAVITY_M_S2 * RHYNE_SLOPE_1 * g_mm * MM_PER_M / PA_PER_KPA;
}

static double stiffness_n_m(const struct tyre *t, double p_gauge_pa)
{
    return t->k0_n_m + t->k1_n_m_pa * p_gauge_pa;
}

/* F/K of the progressive law: d (1 + c d/SH) / (1 + 0.2 c), by which Ks multiplies. */
static double law_m(const struct tyre *t, double d_m)
{
    return d_m * (1.0 + PROGRESSION_1 * d_m / t->section_height_m) /
           (1.0 + RATED_SHARE_1 * PROGRESSION_1);
}

/* The inverse: the d with Ks law(d) = F, in the form that loses no digits at small loads. */
static double deflection_m(const struct tyre *t, double load_n, double k_n_m)
{
    double a_m = load_n / k_n_m * (1.0 + RATED_SHARE_1 * PROGRESSION_1);
    return 2.0 * a_m / (1.0 + sqrt(1.0 + 4.0 * PROGRESSION_1 * a_m / t->section_height_m));
}

/* The secant stiffness that a tape height shows, as N/m; a share of Rhyne's must be plausible. */
static enum status measured_stiffness(const struct tyre *t, double load_n, double p_gauge_pa,
                                      double height_m, double *k_n_m)
{
    double d_m = t->r0_m - height_m;
    if (!(d_m > 0.0)) {
        return STATUS_E_MEASURE_AGAIN;
    }
    *k_n_m = load_n / law_m(t, d_m);
    double kcal_1 = *k_n_m / stiffness_n_m(t, p_gauge_pa);
    return kcal_1 >= KCAL_MIN_1 && kcal_1 <= KCAL_MAX_1 ? STATUS_OK : STATUS_E_MEASURE_AGAIN;
}

/* The line through two measured points. Where its intercept is clamped the slope is fitted anew
 * (least squares), so that the line still runs between the points. */
static enum status set_two_point_line(struct tyre *t, double p1_pa, double k1_n_m, double p2_pa,
                                      double k2_n_m)
{
    double slope = (k2_n_m - k1_n_m) / (p2_pa - p1_pa);
    if (!isfinite(slope) || slope <= 0.0) {
        return STATUS_E_MEASURE_AGAIN;
    }
    double k0_n_m = k1_n_m - slope * p1_pa;
    double kept_n_m = num_clamp(k0_n_m, 0.0, K0_MAX_N_M);
    if (kept_n_m < k0_n_m || kept_n_m > k0_n_m) {
        slope = (p1_pa * (k1_n_m - kept_n_m) + p2_pa * (k2_n_m - kept_n_m)) /
                (p1_pa * p1_pa + p2_pa * p2_pa);
    }
    t->k0_n_m = kept_n_m;
    t->k1_n_m_pa = slope;
    t->calibrated = TYRE_TWO_HEIGHTS;
    return STATUS_OK;
}

/* Tape heights to stiffness (A6). */
static enum status calibrate_heights(const struct tyre_calibration *c, struct tyre *t)
{
    double load_n = c->cal_load_kg * GRAVITY_M_S2;
    double ka_n_m = 0.0, kb_n_m = 0.0;
    enum status s = measured_stiffness(t, load_n, c->cal_gauge_pa, c->cal_height_m, &ka_n_m);
    if (s != STATUS_OK) {
        return s;
    }
    if (c->cal2_height_m <= 0.0) {
        t->kcal_1 = ka_n_m / stiffness_n_m(t, c->cal_gauge_pa);
        t->k0_n_m *= t->kcal_1;
        t->k1_n_m_pa *= t->kcal_1;
        t->calibrated = TYRE_ONE_HEIGHT;
        return STATUS_OK;
    }
    s = measured_stiffness(t, load_n, c->cal2_gauge_pa, c->cal2_height_m, &kb_n_m);
    if (s != STATUS_OK) {
        return s;
    }
    return set_two_point_line(t, c->cal_gauge_pa, ka_n_m, c->cal2_gauge_pa, kb_n_m);
}

static bool print_plausible(double ratio_1)
{
    return ratio_1 >= PRINT_MIN_1 && ratio_1 <= PRINT_MAX_1;
}

/* A chalk print to kL, with its width to kA too (A6). kL scales the length that the tread width
 * has not limited, so that the calibrated model gives the measured print back. */
static enum status calibrate_print(const struct tyre_calibration *c, struct tyre *t)
{
    double load_n = c->cal_load_kg * GRAVITY_M_S2;
    double d_m = deflection_m(t, load_n, stiffness_n_m(t, c->cal_gauge_pa));
    struct tyre_patch model;
    if (tyre_patch_at(t, load_n, d_m, &model) < 0) {
        return STATUS_E_MEASURE_AGAIN;
    }
    t->k_length_1 = c->patch_length_m / model.length_alone_m;
    if (c->patch_width_m > 0.0) {
        t->k_area_1 = PATCH_FILL_1 * c->patch_length_m * c->patch_width_m / model.area_m2;
        t->tread_width_m = fmax(t->tread_width_m, c->patch_width_m);
    }
    return print_plausible(t->k_length_1) && print_plausible(t->k_area_1) ? STATUS_OK
                                                                          : STATUS_E_MEASURE_AGAIN;
}

static enum status calibrate(const struct tyre_calibration *c, struct tyre *t)
{
    bool height = c->cal_height_m > 0.0, height2 = c->cal2_height_m > 0.0;
    bool print = c->patch_length_m > 0.0;
    if (!height && !height2 && !print) {
        return c->patch_width_m > 0.0 ? STATUS_E_MISSING : STATUS_OK;
    }
    if (c->cal_load_kg <= 0.0 || c->cal_gauge_pa <= 0.0 || (height2 && !height) ||
        (height2 && c->cal2_gauge_pa <= 0.0)) {
        return STATUS_E_MISSING;
    }
    t->cal_gauge_pa = c->cal_gauge_pa;
    enum status s = height ? calibrate_heights(c, t) : STATUS_OK;
    return s == STATUS_OK && print ? calibrate_print(c, t) : s;
}

/* Reference deflection of the rolling radius (A8). */
static double reference_deflection_m(const struct tyre *t)
{
    if (t->max_load_kg <= 0.0 || t->max_gauge_pa <= 0.0) {
        return ROLL_D0_1 * t->r0_m;
    }
    double load_n = ROLL_LOAD_1 * t->max_load_kg * GRAVITY_M_S2;
    return deflection_m(t, load_n, stiffness_n_m(t, ROLL_PRESSURE_1 * t->max_gauge_pa));
}

enum status tyre_init(const struct tyre_spec *spec, struct tyre *t)
{
    struct tyre made = {.kcal_1 = 1.0, .k_length_1 = 1.0, .k_area_1 = 1.0};
    if (!spec_in_domain(spec)) {
        return STATUS_E_DOMAIN;
    }
    enum status s = set_geometry(spec, &made);
    if (s == STATUS_OK) {
        s = set_rating(spec, &made);
    }
    if (s == STATUS_OK) {
        set_stiffness(&made);
        s = calibrate(&spec->cal, &made);
    }
    if (s != STATUS_OK) {
        return s;
    }
    made.d0_m = reference_deflection_m(&made);
    *t = made;
    if (made.bias) {
        return STATUS_W_NOT_COVERED;
    }
    return spec->size.aspect_assumed && spec->outside_diameter_m <= 0.0 ? STATUS_W_ASSUMED
                                                                        : STATUS_OK;
}

/* Below this pressure the load-inflation form is extrapolated. */
static double table_from_pa(const struct tyre *t)
{
    return t->passenger ? KNEE_PA : TABLE_FROM_PA;
}

static bool rated(const struct tyre *t)
{
    return t->max_load_kg > 0.0 && t->max_gauge_pa > 0.0;
}

/* The passenger knee, never above the moulded pressure; 0 for the others. */
static double knee_pa(const struct tyre *t)
{
    return fmin(t->knee_gauge_pa, t->max_gauge_pa);
}

static double load_at_kg(const struct tyre *t, double p_gauge_pa)
{
    double knee = knee_pa(t);
    double upper_pa = fmax(p_gauge_pa, knee);
    double load_kg = t->max_load_kg * pow(upper_pa / t->max_gauge_pa, t->load_exponent_1);
    return p_gauge_pa < knee ? load_kg * pow(p_gauge_pa / knee, EXPONENT_LOW_1) : load_kg;
}

enum status tyre_capacity(const struct tyre *t, double p_gauge_pa, double *capacity_kg)
{
    if (!isfinite(p_gauge_pa) || p_gauge_pa <= 0.0) {
        return STATUS_E_DOMAIN;
    }
    if (!rated(t)) {
        return STATUS_E_MISSING;
    }
    *capacity_kg = p_gauge_pa < t->max_gauge_pa ? load_at_kg(t, p_gauge_pa) : t->max_load_kg;
    return p_gauge_pa < table_from_pa(t) ? STATUS_W_EXTRAPOLATED : STATUS_OK;
}

enum status tyre_pressure_for_load(const struct tyre *t, double load_kg, double *p_gauge_pa)
{
    if (!isfinite(load_kg) || load_kg <= 0.0) {
        return STATUS_E_DOMAIN;
    }
    if (!rated(t)) {
        return STATUS_E_MISSING;
    }
    if (load_kg > t->max_load_kg) {
        return STATUS_E_NO_SOLUTION;
    }
    double knee = knee_pa(t);
    double knee_kg = knee > 0.0 ? load_at_kg(t, knee) : 0.0;
    double p_pa = load_kg < knee_kg
                      ? knee * pow(load_kg / knee_kg, 1.0 / EXPONENT_LOW_1)
                      : t->max_gauge_pa * pow(load_kg / t->max_load_kg, 1.0 / t->load_exponent_1);
    *p_gauge_pa = p_pa;
    return p_pa < table_from_pa(t) ? STATUS_W_EXTRAPOLATED : STATUS_OK;
}

static enum status covered(const struct tyre *t)
{
    return t->bias ? STATUS_W_NOT_COVERED : STATUS_OK;
}

enum status tyre_stiffness(const struct tyre *t, double p_gauge_pa, double *k_n_m)
{
    if (!not_above(p_gauge_pa, TYRE_GAUGE_MAX_PA)) {
        return STATUS_E_DOMAIN;
    }
    *k_n_m = stiffness_n_m(t, p_gauge_pa);
    return covered(t);
}

enum status tyre_deflection(const struct tyre *t, double load_n, double p_gauge_pa, double *d_m)
{
    if (!not_above(load_n, LOAD_MAX_KG * GRAVITY_M_S2) ||
        !not_above(p_gauge_pa, TYRE_GAUGE_MAX_PA)) {
        return STATUS_E_DOMAIN;
    }
    double k_n_m = stiffness_n_m(t, p_gauge_pa);
    if (k_n_m <= 0.0) {
        return STATUS_E_DOMAIN; /* a measured carcass of no stiffness, without air */
    }
    *d_m = deflection_m(t, load_n, k_n_m);
    return covered(t);
}

enum status tyre_pressure_for_deflection(const struct tyre *t, double load_n, double d_m,
                                         double *p_gauge_pa)
{
    if (!isfinite(load_n) || !isfinite(d_m) || load_n <= 0.0 || d_m <= 0.0) {
        return STATUS_E_DOMAIN;
    }
    if (t->k1_n_m_pa <= 0.0) {
        return STATUS_E_NO_SOLUTION;
    }
    double p_pa = (load_n / law_m(t, d_m) - t->k0_n_m) / t->k1_n_m_pa;
    if (!isfinite(p_pa)) {
        return STATUS_E_DOMAIN;
    }
    *p_gauge_pa = p_pa;
    return STATUS_OK;
}

enum status tyre_deflection_error(const struct tyre *t, double p_gauge_pa, double *error_1)
{
    static const double knots_pa[] = {ERROR_LOW_PA, ERROR_HIGH_PA};
    static const double knots_1[] = {ERROR_LOW_1, ERROR_HIGH_1};
    if (!not_above(p_gauge_pa, TYRE_GAUGE_MAX_PA)) {
        return STATUS_E_DOMAIN;
    }
    bool near = fabs(p_gauge_pa - t->cal_gauge_pa) <= ERROR_NEAR_SPAN_1 * t->cal_gauge_pa;
    switch (t->calibrated) {
    case TYRE_UNCALIBRATED:
        *error_1 = num_lerp(2, knots_pa, knots_1, p_gauge_pa);
        break;
    case TYRE_ONE_HEIGHT:
        *error_1 = near ? ERROR_HIGH_1 : ERROR_FAR_1;
        break;
    case TYRE_TWO_HEIGHTS:
        *error_1 = ERROR_HIGH_1;
        break;
    }
    return STATUS_OK;
}

enum status tyre_patch_at(const struct tyre *t, double load_n, double d_m, struct tyre_patch *patch)
{
    if (!isfinite(load_n) || load_n <= 0.0 || !(d_m > 0.0 && d_m < t->r0_m)) {
        return STATUS_E_DOMAIN;
    }
    double z_1 = d_m / t->r0_m;
    struct tyre_patch p;
    p.area_m2 = AREA_FACTOR_1 * t->k_area_1 * d_m * sqrt(2.0 * t->r0_m * t->section_width_m);
    p.length_alone_m =
        2.0 * t->r0_m * t->k_length_1 * (LENGTH_ROOT_1 * sqrt(z_1) + LENGTH_LINEAR_1 * z_1);
    p.length_m = fmax(p.length_alone_m, p.area_m2 / (PATCH_FILL_1 * t->tread_width_m));
    p.width_m = p.area_m2 / (PATCH_FILL_1 * p.length_m);
    p.mean_pa = load_n / p.area_m2;
    *patch = p;
    return STATUS_OK;
}

enum status tyre_rolling_radius(const struct tyre *t, double d_m, double *re_m)
{
    if (!not_above(d_m, t->r0_m)) {
        return STATUS_E_DOMAIN;
    }
    double x_1 = d_m / t->d0_m;
    *re_m = t->r0_m - t->d0_m * (ROLL_D_1 * atan(ROLL_B_1 * x_1) + ROLL_F_1 * x_1);
    return STATUS_OK;
}

enum status tyre_air_volume(const struct tyre *t, double *v_m3)
{
    double box_m3 =
        NUM_PI * (t->r0_m * t->r0_m - t->rim_radius_m * t->rim_radius_m) * t->section_width_m;
    if (!isfinite(box_m3) || box_m3 <= 0.0) {
        return STATUS_E_DOMAIN;
    }
    *v_m3 = VOLUME_FACTOR_1 * box_m3;
    return STATUS_OK;
}
