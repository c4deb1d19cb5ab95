/* gas.h - ambient pressure by height; gauge pressure with temperature and place. */
#ifndef SANDSHOE_CORE_GAS_H
#define SANDSHOE_CORE_GAS_H

#include "base/status.h"

/* gas_ambient - atmospheric pressure at a height.
 *
 *   in   height_m        geometric height, m; -500..11000
 *   out  ambient_abs_pa  Pa absolute; untouched on error
 *   ret  STATUS_OK; E_DOMAIN
 *   src  US Standard Atmosphere 1976 (NOAA-S/T 76-1562)
 */
enum status gas_ambient(double height_m, double *ambient_abs_pa) MUST_CHECK;

/* gas_gauge_moved - what a sealed tyre reads at another temperature and ambient pressure.
 *
 *   in   p_gauge_pa, t_k, ambient_abs_pa        the known state
 *   in   to_t_k, to_ambient_abs_pa              the other state
 *   out  to_gauge_pa  Pa gauge, may be negative; untouched on error
 *   ret  STATUS_OK; E_DOMAIN
 *   how  constant volume: (p + pa)/T is constant
 *   src  ideal gas law
 */
enum status gas_gauge_moved(double p_gauge_pa, double t_k, double ambient_abs_pa, double to_t_k,
                            double to_ambient_abs_pa, double *to_gauge_pa) MUST_CHECK;

#endif
