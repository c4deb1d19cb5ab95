/* tyre.h - one tyre on its rim: capacity, stiffness, deflection, patch, rolling radius, volume.
 *
 *          ______            R0 = outside diameter / 2, unloaded
 *        /        \          section height SH = R0 - rim radius
 *       |   rim    |         deflection d = R0 - loaded radius
 *        \__----__/          d/SH is the number that decides everything
 *   ======--------======
 */
#ifndef SANDSHOE_CORE_TYRE_H
#define SANDSHOE_CORE_TYRE_H

#include <stdbool.h>

#include "base/num.h"
#include "base/status.h"
#include "core/designation.h"

#define TYRE_GAUGE_MAX_PA 2.0e6 /* Pa, 20 bar: no road tyre takes more */

/* Tape and chalk measurements; a pressure of 0 means "not measured". */
struct tyre_calibration {
    double cal_gauge_pa;  /* pressure of the first tape height */
    double cal_height_m;  /* wheel centre above hard ground */
    double cal2_gauge_pa; /* second point */
    double cal2_height_m;
    double cal_load_kg;    /* load on the tyre then */
    double patch_length_m; /* chalk print at cal_gauge_pa; 0 = none */
    double patch_width_m;  /* 0 = none */
};

/* What is known of a tyre. Positive quantities that are not given are 0. */
struct tyre_spec {
    struct designation size;
    double max_load_kg;        /* moulded, single or dual as used; 0 = unknown */
    double max_gauge_pa;       /* moulded; 0 = unknown */
    int load_index;            /* 0 = unknown */
    char speed_symbol[3];      /* "" = unknown */
    char load_range;           /* 0 = unknown */
    double outside_diameter_m; /* measured; 0 = nominal */
    double section_width_m;
    double tread_width_m;
    struct tyre_calibration cal;
};

/* How the stiffness is known: decides the uncertainty of the deflection. */
enum tyre_calibrated { TYRE_UNCALIBRATED, TYRE_ONE_HEIGHT, TYRE_TWO_HEIGHTS };

/* The working model of a tyre, made by tyre_init. Read only. */
struct tyre {
    double r0_m, rim_radius_m, section_height_m, section_width_m, tread_width_m, aspect_1;
    double max_load_kg; /* 0 = unknown */
    double max_gauge_pa;
    double load_exponent_1;   /* above knee_gauge_pa */
    double knee_gauge_pa;     /* passenger: 180 kPa, exponent 0.8 below; else 0 */
    double k0_n_m, k1_n_m_pa; /* Ks = k0 + k1 p, N/m, p gauge Pa */
    double kcal_1, k_length_1, k_area_1;
    double cal_gauge_pa;
    double d0_m; /* reference deflection of the rolling radius */
    enum tyre_calibrated calibrated;
    bool passenger, truck, bias;
};

struct tyre_patch {
    double length_m, width_m, area_m2;
    double length_alone_m; /* Lm of eq. A7, before the tread width limits it */
    double mean_pa;        /* load / gross area */
};

/* tyre_init - build the model of a tyre.
 *
 *   in   spec  designation, rating, measured overrides and calibration
 *   out  t     the model; untouched on error
 *   ret  STATUS_OK; W_ASSUMED (aspect ratio of a numeric size, no diameter measured);
 *        W_NOT_COVERED (bias construction); E_DOMAIN; E_MISSING (a measurement without its
 *        load, pressure or height); E_MEASURE_AGAIN (implausible: kcal outside 0.6..1.6,
 *        stiffness not rising with pressure, a print outside half to twice the model's)
 *   how  docs/theory.md A1-A8
 *   src  Rhyne 2005 [memory]; own fits
 */
enum status tyre_init(const struct tyre_spec *spec, struct tyre *t) MUST_CHECK;

/* tyre_is_truck - the size test that picks the truck floor and exponent.
 *
 *   in   spec  size, load index and maximum load
 *   ret  true for metric without P/LT/C/ST on a rim code ending in .5 (and as high as 395/85R20),
 *        numeric on rim >= 20, LI >= 136, or (no LI) max load >= 2240 kg
 *   src  none: definition of this program (model C5)
 */
bool tyre_is_truck(const struct tyre_spec *spec);

/* tyre_capacity - load that a pressure carries.
 *
 *   in   t, p_gauge_pa  Pa gauge, > 0
 *   out  capacity_kg    kg, never above max_load_kg; untouched on error
 *   ret  STATUS_OK; W_EXTRAPOLATED (below 240 kPa, passenger tyres below 180 kPa); E_MISSING (no
 *        moulded maximum); E_DOMAIN
 *   src  TRA / ETRTO load-inflation forms, fitted to a published row
 */
enum status tyre_capacity(const struct tyre *t, double p_gauge_pa, double *capacity_kg) MUST_CHECK;

/* tyre_pressure_for_load - the least pressure whose capacity is load_kg (inverse of tyre_capacity).
 *
 *   in   t, load_kg
 *   out  p_gauge_pa  Pa gauge; untouched on error
 *   ret  as tyre_capacity; E_NO_SOLUTION when load_kg exceeds max_load_kg
 *   src  as tyre_capacity
 */
enum status tyre_pressure_for_load(const struct tyre *t, double load_kg,
                                   double *p_gauge_pa) MUST_CHECK;

/* tyre_stiffness - secant stiffness Ks of eq. A4 (or calibrated).
 *
 *   in   t, p_gauge_pa  >= 0
 *   out  k_n_m          N/m; untouched on error
 *   ret  STATUS_OK; W_NOT_COVERED (bias); E_DOMAIN
 *   src  Rhyne, Tire Sci. Technol. 33(3) 2005 [memory]
 */
enum status tyre_stiffness(const struct tyre *t, double p_gauge_pa, double *k_n_m) MUST_CHECK;

/* tyre_deflection - deflection under a load at a pressure.
 *
 *   in   t, load_n >= 0 (N per tyre), p_gauge_pa >= 0
 *   out  d_m   m; untouched on error
 *   ret  STATUS_OK; W_NOT_COVERED; E_DOMAIN
 *   how  F = K d (1 + c d/SH), c = 0.6; docs/theory.md A5
 *   src  own fit
 */
enum status tyre_deflection(const struct tyre *t, double load_n, double p_gauge_pa,
                            double *d_m) MUST_CHECK;

/* tyre_pressure_for_deflection - pressure at which the load deflects the tyre by d_m.
 *
 *   in   t, load_n > 0, d_m > 0
 *   out  p_gauge_pa  Pa gauge, may be below 0 (the carcass alone is stiffer); untouched on error
 *   ret  STATUS_OK; E_DOMAIN; E_NO_SOLUTION (stiffness does not rise with pressure)
 *   src  inverse of tyre_deflection
 */
enum status tyre_pressure_for_deflection(const struct tyre *t, double load_n, double d_m,
                                         double *p_gauge_pa) MUST_CHECK;

/* tyre_deflection_error - relative half-width of the band of the deflection.
 *
 *   in   t, p_gauge_pa
 *   out  error_1  d (1 -+ error_1)
 *   ret  STATUS_OK; E_DOMAIN
 *   src  own judgement on three measured tyres (model A6)
 */
enum status tyre_deflection_error(const struct tyre *t, double p_gauge_pa,
                                  double *error_1) MUST_CHECK;

/* tyre_patch_at - contact patch on hard ground.
 *
 *   in   t, load_n > 0, d_m > 0
 *   out  patch  m, m2, Pa; untouched on error
 *   ret  STATUS_OK; E_DOMAIN
 *   how  docs/theory.md A7
 *   src  own fit to 25 ink prints of one tyre
 */
enum status tyre_patch_at(const struct tyre *t, double load_n, double d_m,
                          struct tyre_patch *patch) MUST_CHECK;

/* tyre_rolling_radius - effective rolling radius at a deflection.
 *
 *   in   t, d_m >= 0
 *   out  re_m  m; untouched on error
 *   ret  STATUS_OK; E_DOMAIN
 *   src  Pacejka 2012 eq. 4.E70, parameters [memory]
 */
enum status tyre_rolling_radius(const struct tyre *t, double d_m, double *re_m) MUST_CHECK;

/* tyre_air_volume - inner air volume at ambient pressure.
 *
 *   in   t
 *   out  v_m3  m3 (+-10 %); untouched on error
 *   ret  STATUS_OK; E_DOMAIN
 *   src  0.78 of the box of section and circumference, own
 */
enum status tyre_air_volume(const struct tyre *t, double *v_m3) MUST_CHECK;

#endif
