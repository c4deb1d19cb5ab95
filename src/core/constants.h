/* constants.h - physical constants, each with its unit and source. */
#ifndef SANDSHOE_CORE_CONSTANTS_H
#define SANDSHOE_CORE_CONSTANTS_H

#define GRAVITY_M_S2     9.80665  /* m/s2, standard gravity, CGPM 1901 */
#define AIR_R_J_KG_K     287.05   /* J/(kg K), dry air, US Standard Atmosphere 1976 (287.053) */
#define AIR_GAMMA_1      1.4      /* ratio of specific heats of dry air */
#define AIR_SEA_LEVEL_PA 101325.0 /* Pa, US Standard Atmosphere 1976 */
#define AIR_FREE_KG_M3   1.204    /* kg/m3, "free air": 20 C, 101.325 kPa */
#define AIR_FREE_TEMP_K  293.15   /* K, the temperature of free air */

#endif
