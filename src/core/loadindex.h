/* loadindex.h - load index, speed symbol and the load-speed bonus of the standards. */
#ifndef SANDSHOE_CORE_LOADINDEX_H
#define SANDSHOE_CORE_LOADINDEX_H

#include "base/status.h"

/* loadindex_kg - load of a load index.
 *
 *   in   li      load index, 60..179
 *   out  max_kg  kg per tyre; untouched on error
 *   ret  STATUS_OK; W_ASSUMED for 151..179 (from memory); E_DOMAIN outside
 *   src  UN R54 Annex 4; read for 60..150, [memory] for 151..179
 */
enum status loadindex_kg(int li, double *max_kg) MUST_CHECK;

/* loadindex_for_kg - the load index that a moulded load stands for.
 *
 *   in   load_kg  moulded maximum load, kg; >= 250
 *   out  li       the largest index, 60..179, whose load is not above load_kg; untouched on error
 *   ret  STATUS_OK; W_CLAMPED (the last index of the table); E_DOMAIN
 *   src  inverse of loadindex_kg
 */
enum status loadindex_for_kg(double load_kg, int *li) MUST_CHECK;

/* loadindex_speed - maximum speed of a speed symbol.
 *
 *   in   symbol     "A1".."A8", "B".."Y"
 *   out  speed_mps  m/s; untouched on error
 *   ret  STATUS_OK; E_UNKNOWN
 *   src  UN R30 / R54 par. 2.29; J..T read, the rest [memory]
 */
enum status loadindex_speed(const char *symbol, double *speed_mps) MUST_CHECK;

/* loadindex_bonus_speed - highest tabulated speed whose load bonus covers a need.
 *
 *   in   li        load index, 60..179; <= 121 and >= 122 use different columns
 *   in   symbol    speed symbol; "" = the default, L up to LI 121, J above
 *   in   need_1    required bonus W/capacity - 1 (0.25 = 25 %)
 *   out  speed_mps m/s; 0 when nothing covers the need; the symbol's own speed (and ret
 *                  W_CLAMPED) when nothing limits, that is the need is covered at it
 *   ret  STATUS_OK; W_CLAMPED (nothing limits); E_DOMAIN; E_UNKNOWN symbol
 *   how  no interpolation between rows; a symbol without a column of its own gets the lesser
 *        of the neighbouring ones, below F nothing; never above the symbol's own speed
 *   src  UN R54 Annex 8 [memory]
 */
enum status loadindex_bonus_speed(int li, const char *symbol, double need_1,
                                  double *speed_mps) MUST_CHECK;

#endif
