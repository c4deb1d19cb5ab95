#include "core/gas.h"

#include "base/num.h"
#include "core/constants.h"

/* US Standard Atmosphere 1976, the layer up to 11 km. */
#define EARTH_RADIUS_M 6356766.0 /* m, makes geometric height geopotential */
#define SEA_LEVEL_K    288.15    /* K */
#define LAPSE_K_M      0.0065    /* K/m */
/* g M/(R* lapse), dimensionless, from the defining constants of the standard */
#define LAPSE_POWER_1  (GRAVITY_M_S2 * 0.0289644 / (8.31432 * LAPSE_K_M))
#define LOWEST_M       (-500.0) /* m, below the lowest dry land */
#define HIGHEST_M      11000.0  /* m, top of the layer */

enum status gas_ambient(double height_m, double *ambient_abs_pa)
{
    if (!(height_m >= LOWEST_M && height_m <= HIGHEST_M)) {
        return STATUS_E_DOMAIN;
    }
    double geopotential_m = EARTH_RADIUS_M * height_m / (EARTH_RADIUS_M + height_m);
    double t_ratio_1 = (SEA_LEVEL_K - LAPSE_K_M * geopotential_m) / SEA_LEVEL_K;
    *ambient_abs_pa = AIR_SEA_LEVEL_PA * pow(t_ratio_1, LAPSE_POWER_1);
    return STATUS_OK;
}

enum status gas_gauge_moved(double p_gauge_pa, double t_k, double ambient_abs_pa, double to_t_k,
                            double to_ambient_abs_pa, double *to_gauge_pa)
{
    const double in[] = {p_gauge_pa, t_k, ambient_abs_pa, to_t_k, to_ambient_abs_pa};
    if (!num_all_finite(5, in) || t_k <= 0.0 || to_t_k <= 0.0 || ambient_abs_pa < 0.0 ||
        to_ambient_abs_pa < 0.0 || p_gauge_pa + ambient_abs_pa < 0.0) {
        return STATUS_E_DOMAIN;
    }
    double moved_pa = (p_gauge_pa + ambient_abs_pa) * (to_t_k / t_k) - to_ambient_abs_pa;
    if (!isfinite(moved_pa)) {
        return STATUS_E_DOMAIN;
    }
    *to_gauge_pa = moved_pa;
    return STATUS_OK;
}
