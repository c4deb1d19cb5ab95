#include "core/loadindex.h"

#include <stddef.h>
#include <string.h>

#include "base/num.h"
#include "base/units.h"

enum { LI_FIRST = 60, LI_READ = 150, LI_LAST = 179, LI_LIGHT = 121 };

/* kg of load index 60..179.  Up to 150 as read in an open vehicle library and cross-read in
 * general pages; 151..179 from UN R54 Annex 4 [memory]. Every row is within 2 % of the preferred
 * numbers 45 10^(LI/80). */
// clang-format off
static const short LI_KG[] = {
     250,  257,  265,  272,  280,  290,  300,  307,  315,  325, /*  60 */
     335,  345,  355,  365,  375,  387,  400,  412,  425,  437, /*  70 */
     450,  462,  475,  487,  500,  515,  530,  545,  560,  580, /*  80 */
     600,  615,  630,  650,  670,  690,  710,  730,  750,  775, /*  90 */
     800,  825,  850,  875,  900,  925,  950,  975, 1000, 1030, /* 100 */
    1060, 1090, 1120, 1150, 1180, 1215, 1250, 1285, 1320, 1360, /* 110 */
    1400, 1450, 1500, 1550, 1600, 1650, 1700, 1750, 1800, 1850, /* 120 */
    1900, 1950, 2000, 2060, 2120, 2180, 2240, 2300, 2360, 2430, /* 130 */
    2500, 2575, 2650, 2725, 2800, 2900, 3000, 3075, 3150, 3250, /* 140 */
    3350, 3450, 3550, 3650, 3750, 3875, 4000, 4125, 4250, 4375, /* 150 */
    4500, 4625, 4750, 4875, 5000, 5150, 5300, 5450, 5600, 5800, /* 160 */
    6000, 6150, 6300, 6500, 6700, 6900, 7100, 7300, 7500, 7750, /* 170 */
};

/* km/h of the speed symbols, UN R30 / R54 par. 2.29: J..T read, the rest [memory]. */
static const struct {
    char symbol[3];
    short kmh;
} SPEED[] = {
    {"A1", 5},  {"A2", 10}, {"A3", 15}, {"A4", 20}, {"A5", 25}, {"A6", 30}, {"A7", 35}, {"A8", 40},
    {"B", 50},  {"C", 60},  {"D", 65},  {"E", 70},  {"F", 80},  {"G", 90},  {"J", 100}, {"K", 110},
    {"L", 120}, {"M", 130}, {"N", 140}, {"P", 150}, {"Q", 160}, {"R", 170}, {"S", 180}, {"T", 190},
    {"U", 200}, {"H", 210}, {"V", 240}, {"W", 270}, {"Y", 300},
};

/* UN R54 Annex 8 [memory], per cent of load capacity gained at a speed, up to the symbol's own
 * speed where every column is 0. The columns J, K, L, M of the heavier tyres are alike that far.
 * What the Annex takes away beyond the symbol's speed is left out: nobody is sent there. */
enum column { LIGHT, HEAVY_F, HEAVY_G, HEAVY_J, COLUMN_COUNT };
static const struct {
    short kmh;
    double gain_pct[COLUMN_COUNT];
} BONUS[] = {
    {0,   {110.0, 150.0, 150.0, 150.0}}, {5,   {90.0, 110.0, 110.0, 110.0}},
    {10,  {75.0, 80.0, 80.0, 80.0}},     {15,  {60.0, 65.0, 65.0, 65.0}},
    {20,  {50.0, 50.0, 50.0, 50.0}},     {25,  {42.0, 35.0, 35.0, 35.0}},
    {30,  {35.0, 25.0, 25.0, 25.0}},     {35,  {29.0, 19.0, 19.0, 19.0}},
    {40,  {25.0, 15.0, 15.0, 15.0}},     {45,  {22.0, 13.0, 13.0, 13.0}},
    {50,  {20.0, 12.0, 12.0, 12.0}},     {55,  {17.5, 11.0, 11.0, 11.0}},
    {60,  {15.0, 10.0, 10.0, 10.0}},     {65,  {13.5, 7.5, 8.5, 8.5}},
    {70,  {12.5, 5.0, 7.0, 7.0}},        {75,  {11.0, 2.5, 5.5, 5.5}},
    {80,  {10.0, 0.0, 4.0, 4.0}},        {85,  {8.5, 0.0, 2.0, 3.0}},
    {90,  {7.5, 0.0, 0.0, 2.0}},         {95,  {6.5, 0.0, 0.0, 1.0}},
    {100, {5.0, 0.0, 0.0, 0.0}},         {105, {3.75, 0.0, 0.0, 0.0}},
    {110, {2.5, 0.0, 0.0, 0.0}},         {115, {1.25, 0.0, 0.0, 0.0}},
    {120, {0.0, 0.0, 0.0, 0.0}},
};
// clang-format on

#define NEED_MET_WITHIN 1e-9 /* share of capacity: rounding is no overload */

static double kg_of(int li)
{
    return (double)LI_KG[li - LI_FIRST];
}

enum status loadindex_kg(int li, double *max_kg)
{
    if (li < LI_FIRST || li > LI_LAST) {
        return STATUS_E_DOMAIN;
    }
    *max_kg = kg_of(li);
    return li <= LI_READ ? STATUS_OK : STATUS_W_ASSUMED;
}

enum status loadindex_for_kg(double load_kg, int *li)
{
    if (!isfinite(load_kg) || load_kg < kg_of(LI_FIRST)) {
        return STATUS_E_DOMAIN;
    }
    int found = LI_FIRST;
    while (found < LI_LAST && kg_of(found + 1) <= load_kg) {
        found++;
    }
    *li = found;
    return found == LI_LAST ? STATUS_W_CLAMPED : STATUS_OK;
}

/* Symbol to km/h, 0 when unknown. */
static int symbol_kmh(const char *symbol)
{
    for (size_t i = 0; i < sizeof SPEED / sizeof SPEED[0]; i++) {
        if (strcmp(SPEED[i].symbol, symbol) == 0) {
            return SPEED[i].kmh;
        }
    }
    return 0;
}

enum status loadindex_speed(const char *symbol, double *speed_mps)
{
    int kmh = symbol_kmh(symbol);
    if (kmh == 0) {
        return STATUS_E_UNKNOWN;
    }
    *speed_mps = kmh * UNITS_MPS_PER_KMH;
    return STATUS_OK;
}

/* The gain of row i for a tyre whose symbol allows own_kmh. The lighter tyres have columns from L
 * (120 km/h) on: a slower symbol there takes the lesser of the light column and its own heavier
 * one. Symbols slower than F have no column at all and gain nothing. Every column ends with 0 at
 * its symbol's own speed, so that no gain leads beyond it. */
static double gain_1(size_t i, int li, int own_kmh)
{
    if (own_kmh < 80) {
        return 0.0;
    }
    const double *pct = BONUS[i].gain_pct;
    double heavy = pct[own_kmh < 90 ? HEAVY_F : own_kmh < 100 ? HEAVY_G : HEAVY_J];
    if (li > LI_LIGHT) {
        return heavy / 100.0;
    }
    return (own_kmh < 120 ? fmin(pct[LIGHT], heavy) : pct[LIGHT]) / 100.0;
}

enum status loadindex_bonus_speed(int li, const char *symbol, double need_1, double *speed_mps)
{
    const char *used = symbol[0] != '\0' ? symbol : li <= LI_LIGHT ? "L" : "J";
    int own_kmh = symbol_kmh(used);
    if (own_kmh == 0) {
        return STATUS_E_UNKNOWN;
    }
    if (li < LI_FIRST || li > LI_LAST || !isfinite(need_1)) {
        return STATUS_E_DOMAIN;
    }
    if (need_1 <= NEED_MET_WITHIN) {
        *speed_mps = own_kmh * UNITS_MPS_PER_KMH;
        return STATUS_W_CLAMPED;
    }
    size_t i = sizeof BONUS / sizeof BONUS[0] - 1;
    while (i > 0 && gain_1(i, li, own_kmh) < need_1 - NEED_MET_WITHIN) {
        i--;
    }
    *speed_mps = BONUS[i].kmh * UNITS_MPS_PER_KMH;
    return STATUS_OK;
}
