#include "profile/schema.h"

#include <stdlib.h>
#include <string.h>

#include "base/dist.h"
#include "core/ground.h"
#include "core/rig.h"
#include "core/trip_plan.h"

enum { NEAR = 2, DIST_STEM = 64 }; /* edits between a slip and its name */

#define AT(type, field) offsetof(struct type, field), sizeof(((struct type *)NULL)->field)
#define PSI_RANGE       "1 psi", "150 psi"

// clang-format off
static const struct schema_section_row SECTIONS[] = {
    {SECTION_RIG,        "rig",        PROFILE_RIG, 0, true,  "the vehicle as a whole"},
    {SECTION_FRONT,      "front",      PROFILE_RIG, 0, true,  "the front axle and its tyres"},
    {SECTION_MIDDLE,     "middle",     PROFILE_RIG, 0, false, "the first axle of a rear bogie"},
    {SECTION_REAR,       "rear",       PROFILE_RIG, 0, true,  "the rear axle and its tyres"},
    {SECTION_TRAILER,    "trailer",    PROFILE_RIG, 0, false, "the trailer's axle"},
    {SECTION_TRAILER2,   "trailer2",   PROFILE_RIG, 0, false, "the trailer's second axle"},
    {SECTION_MASS,       "mass",       PROFILE_RIG, RIG_MASSES, false,
     "something added after the weighing; [mass-1], [mass-2] and so on"},
    {SECTION_AIR,        "air",        PROFILE_RIG, 0, false, "the source of air, hoses and gauge"},
    {SECTION_SPARE,      "spare",      PROFILE_RIG, 0, false, "a spare carried as an air tank"},
    {SECTION_SPRINGS,    "springs",    PROFILE_RIG, 0, false, "rear air springs on the same supply"},
    {SECTION_GROUND,     "",           PROFILE_GROUNDS, 0, false, "one ground; the section is its name"},
    {SECTION_COMPRESSOR, "compressor", PROFILE_COMPRESSOR, 0, true, "a compressor"},
    {SECTION_TRIP,       "trip",       PROFILE_TRIP, 0, true, "the trip as a whole"},
    {SECTION_LEG,        "leg",        PROFILE_TRIP, TRIP_LEGS, false,
     "a stretch over one ground; [leg-1], [leg-2] and so on, in order"},
};

static const struct schema_row ROWS[] = {
    {SECTION_RIG, "name", TYPE_TEXT, Q_NUMBER, NULL, NULL, NULL, NEED_REQUIRED, NULL,
     "flatbed with cabin", "what you call it", AT(rig, name)},
    {SECTION_RIG, "load_state", TYPE_TEXT, Q_NUMBER, NULL, NULL, NULL, NEED_REQUIRED, NULL,
     "cabin on, water full", "the load that the weights belong to; on every screen and card",
     AT(rig, load_state)},
    {SECTION_RIG, "driven", TYPE_WORD, Q_NUMBER, NULL, NULL, "all|front|rear", NEED_DEFAULT, "all",
     "all", "driven axles; rear means every axle behind the front", AT(rig, driven)},
    {SECTION_RIG, "clearance", TYPE_QUANTITY, Q_LENGTH, "50 mm", "1.5 m", NULL, NEED_OPTIONAL, NULL,
     "260 mm", "ground clearance at road pressure", AT(rig, clearance_m)},
    {SECTION_RIG, "power", TYPE_QUANTITY, Q_POWER, "5 kW", "1500 kW", NULL, NEED_OPTIONAL, NULL,
     "130 kW", "engine power", AT(rig, power_w)},
    {SECTION_RIG, "gearbox", TYPE_WORD, Q_NUMBER, NULL, NULL, "automatic|manual", NEED_DEFAULT,
     "automatic", "automatic", "kind of gearbox", AT(rig, gearbox)},
    {SECTION_RIG, "cg_height", TYPE_QUANTITY, Q_LENGTH, "0.2 m", "4 m", NULL, NEED_OPTIONAL, NULL,
     "1.15 m", "height of the centre of gravity; with track, enables the side-slope check",
     AT(rig, cg_height_m)},
    {SECTION_RIG, "track", TYPE_QUANTITY, Q_LENGTH, "0.8 m", "3.5 m", NULL, NEED_OPTIONAL, NULL,
     "1.65 m", "distance between the wheel planes of an axle", AT(rig, track_m)},
    {SECTION_RIG, "wheelbase", TYPE_QUANTITY, Q_LENGTH, "1 m", "15 m", NULL, NEED_OPTIONAL, NULL,
     "3.30 m", "front axle to rear axle, or to the middle of a bogie; needed with [mass-N]",
     AT(rig, wheelbase_m)},

    {SECTION_AXLES, "axle_load", TYPE_QUANTITY, Q_MASS, "50 kg", "30 t", NULL, NEED_REQUIRED, NULL,
     "1950 kg", "weighed load of the whole axle, loaded as it travels", AT(axle, load_kg)},
    {SECTION_AXLES, "left_share", TYPE_QUANTITY, Q_SHARE, "20 %", "80 %", NULL, NEED_DEFAULT, "50 %",
     "50 %", "share of the axle load on the left side", AT(axle, left_share_1)},
    {SECTION_AXLES, "axle_rating", TYPE_QUANTITY, Q_MASS, "50 kg", "40 t", NULL, NEED_OPTIONAL, NULL,
     "2200 kg", "the axle's own limit, from the vehicle's plate", AT(axle, rating_kg)},
    {SECTION_AXLES, "wheels", TYPE_COUNT, Q_NUMBER, NULL, NULL, "2|4", NEED_DEFAULT, "2",
     "2", "tyres on the axle; 4 for duals", AT(axle, wheels)},
    {SECTION_AXLES, "tyre", TYPE_TYRE, Q_NUMBER, NULL, NULL, NULL, NEED_REQUIRED, NULL,
     "35x12.50R17LT", "size as moulded; load index, speed symbol and load range may follow",
     AT(axle, tyre.size)},
    {SECTION_AXLES, "load_range", TYPE_LETTER, Q_NUMBER, NULL, NULL, NULL, NEED_OPTIONAL, NULL,
     "E", "load range letter; may be left out when max_pressure is given",
     AT(axle, tyre.load_range)},
    {SECTION_AXLES, "load_index", TYPE_COUNT, Q_NUMBER, "60", "179", NULL, NEED_OPTIONAL, NULL,
     "121", "load index; instead of max_load", AT(axle, tyre.load_index)},
    {SECTION_AXLES, "speed_symbol", TYPE_SPEED, Q_NUMBER, NULL, NULL, NULL, NEED_OPTIONAL, NULL,
     "Q", "speed symbol; assumed L up to load index 121, J above", AT(axle, tyre.speed_symbol)},
    {SECTION_AXLES, "max_load", TYPE_QUANTITY, Q_MASS, "50 kg", "10 t", NULL, NEED_MOSTLY, NULL,
     "1450 kg", "moulded maximum load of one tyre (dual with wheels = 4); or give load_index",
     AT(axle, tyre.max_load_kg)},
    {SECTION_AXLES, "max_pressure", TYPE_QUANTITY, Q_PRESSURE, "15 psi", "150 psi", NULL,
     NEED_MOSTLY, NULL, "65 psi", "moulded maximum pressure; or give load_range for its usual one",
     AT(axle, tyre.max_gauge_pa)},
    {SECTION_AXLES, "rim_width", TYPE_QUANTITY, Q_LENGTH, "3 in", "24 in", NULL, NEED_OPTIONAL, NULL,
     "9 in", "rim width between the flanges", AT(axle, rim_width_m)},
    {SECTION_AXLES, "wheel", TYPE_WORD, Q_NUMBER, NULL, NULL, "plain|beadlock|multi-piece",
     NEED_DEFAULT, "plain", "plain", "kind of wheel", AT(axle, wheel)},
    {SECTION_AXLES, "road_pressure", TYPE_QUANTITY, Q_PRESSURE, "10 psi", "150 psi", NULL,
     NEED_REQUIRED, NULL, "38 psi", "cold road pressure for this load; its unit is the rig's unit",
     AT(axle, road_gauge_pa)},
    {SECTION_AXLES, "road_temp", TYPE_QUANTITY, Q_TEMPERATURE, "-50 C", "60 C", NULL, NEED_DEFAULT,
     "20 C", "20 C", "temperature that the cold figure belongs to", AT(axle, road_temp_k)},
    {SECTION_AXLES, "floor", TYPE_QUANTITY, Q_PRESSURE, PSI_RANGE, NULL, NEED_OPTIONAL, NULL,
     "15 psi", "the tyre maker's own minimum", AT(axle, floor_gauge_pa)},
    {SECTION_AXLES, "outside_diameter", TYPE_QUANTITY, Q_LENGTH, "300 mm", "2 m", NULL,
     NEED_OPTIONAL, NULL, "889 mm", "measured; overrides the size's own",
     AT(axle, tyre.outside_diameter_m)},
    {SECTION_AXLES, "section_width", TYPE_QUANTITY, Q_LENGTH, "80 mm", "800 mm", NULL, NEED_OPTIONAL,
     NULL, "318 mm", "measured; overrides the size's own", AT(axle, tyre.section_width_m)},
    {SECTION_AXLES, "tread_width", TYPE_QUANTITY, Q_LENGTH, "50 mm", "800 mm", NULL, NEED_OPTIONAL,
     NULL, "250 mm", "measured; else 0.80 to 0.82 of the section width",
     AT(axle, tyre.tread_width_m)},
    {SECTION_AXLES, "cal_pressure", TYPE_QUANTITY, Q_PRESSURE, PSI_RANGE, NULL, NEED_OPTIONAL, NULL,
     "35 psi", "pressure of the first tape height", AT(axle, tyre.cal.cal_gauge_pa)},
    {SECTION_AXLES, "cal_height", TYPE_QUANTITY, Q_LENGTH, "100 mm", "1 m", NULL, NEED_OPTIONAL,
     NULL, "415 mm", "height of the wheel centre above hard ground at cal_pressure",
     AT(axle, tyre.cal.cal_height_m)},
    {SECTION_AXLES, "cal2_pressure", TYPE_QUANTITY, Q_PRESSURE, PSI_RANGE, NULL, NEED_OPTIONAL, NULL,
     "15 psi", "pressure of the second tape height", AT(axle, tyre.cal.cal2_gauge_pa)},
    {SECTION_AXLES, "cal2_height", TYPE_QUANTITY, Q_LENGTH, "100 mm", "1 m", NULL, NEED_OPTIONAL,
     NULL, "388 mm", "height of the wheel centre at cal2_pressure", AT(axle, tyre.cal.cal2_height_m)},
    {SECTION_AXLES, "cal_load", TYPE_QUANTITY, Q_MASS, "20 kg", "10 t", NULL, NEED_OPTIONAL, NULL,
     "975 kg", "load on the tyre at the tape heights; else that of the heavier corner",
     AT(axle, tyre.cal.cal_load_kg)},
    {SECTION_AXLES, "cal_patch_length", TYPE_QUANTITY, Q_LENGTH, "30 mm", "1 m", NULL, NEED_OPTIONAL,
     NULL, "190 mm", "chalk print at cal_pressure: length", AT(axle, tyre.cal.patch_length_m)},
    {SECTION_AXLES, "cal_patch_width", TYPE_QUANTITY, Q_LENGTH, "30 mm", "1 m", NULL, NEED_OPTIONAL,
     NULL, "240 mm", "chalk print: width; with the length it fixes the area too",
     AT(axle, tyre.cal.patch_width_m)},
    {SECTION_TRAILER, "ball_load", TYPE_QUANTITY, Q_MASS, "0 kg", "5 t", NULL, NEED_OPTIONAL, NULL,
     "150 kg", "load on the coupling; already inside the rear axle's load", AT(axle, ball_load_kg)},

    {SECTION_MASS, "what", TYPE_TEXT, Q_NUMBER, NULL, NULL, NULL, NEED_REQUIRED, NULL,
     "roof tent", "what was added", AT(added_mass, what)},
    {SECTION_MASS, "mass", TYPE_QUANTITY, Q_MASS, "-10 t", "10 t", NULL, NEED_REQUIRED, NULL,
     "60 kg", "its mass; negative removes", AT(added_mass, mass_kg)},
    {SECTION_MASS, "position", TYPE_QUANTITY, Q_LENGTH, "-5 m", "20 m", NULL, NEED_REQUIRED, NULL,
     "1.2 m", "how far behind the front axle", AT(added_mass, position_m)},

    {SECTION_AIR, "source", TYPE_WORD, Q_NUMBER, NULL, NULL, "compressor|regulator|tank",
     NEED_DEFAULT, "compressor", "compressor", "what the air comes from", AT(air_system, source)},
    {SECTION_AIR, "compressor", TYPE_TEXT, Q_NUMBER, NULL, NULL, NULL, NEED_DEFAULT, "twin-12v",
     "twin-12v", "name of a compressor profile; flow beside it comes first",
     AT(air_system, compressor.name)},
    {SECTION_AIR, "flow", TYPE_FLOW, Q_FLOW, "0 L/min", "5000 L/min", NULL, NEED_OPTIONAL, NULL,
     "0 psi 158 L/min, 35 psi 138 L/min, 80 psi 116 L/min",
     "delivered free air against back pressure, 2 to 12 points", AT(air_system, compressor)},
    {SECTION_AIR, "run_time", TYPE_QUANTITY, Q_DURATION, "10 s", "24 h", NULL, NEED_OPTIONAL, NULL,
     "15 min", "the label's duty: run this long; else the compressor profile's",
     AT(air_system, compressor.run_time_s)},
    {SECTION_AIR, "rest_time", TYPE_QUANTITY, Q_DURATION, "0 s", "24 h", NULL, NEED_OPTIONAL, NULL,
     "15 min", "then rest; else the compressor profile's", AT(air_system, compressor.rest_time_s)},
    {SECTION_AIR, "cut_out", TYPE_QUANTITY, Q_PRESSURE, "15 psi", "250 psi", NULL, NEED_OPTIONAL,
     NULL, "110 psi", "pressure at which the source switches off; else the compressor profile's",
     AT(air_system, compressor.cut_out_gauge_pa)},
    {SECTION_AIR, "cut_in", TYPE_QUANTITY, Q_PRESSURE, "5 psi", "250 psi", NULL, NEED_OPTIONAL, NULL,
     "80 psi", "pressure at which it starts again; else cut_out less 30 psi",
     AT(air_system, cut_in_gauge_pa)},
    {SECTION_AIR, "regulator_pressure", TYPE_QUANTITY, Q_PRESSURE, "10 psi", "250 psi", NULL,
     NEED_OPTIONAL, NULL, "90 psi", "required with source = regulator",
     AT(air_system, regulator_gauge_pa)},
    {SECTION_AIR, "regulator_area", TYPE_QUANTITY, Q_AREA, "0.5 mm2", "200 mm2", NULL, NEED_DEFAULT,
     "8 mm2", "8 mm2", "effective area of the regulator", AT(air_system, regulator_area_m2)},
    {SECTION_AIR, "tank_volume", TYPE_QUANTITY, Q_VOLUME, "0.5 L", "1000 L", NULL, NEED_OPTIONAL,
     NULL, "19 L", "required with source = tank; may stand beside a compressor",
     AT(air_system, tank_volume_m3)},
    {SECTION_AIR, "tank_pressure", TYPE_QUANTITY, Q_PRESSURE, "0 psi", "350 psi", NULL,
     NEED_OPTIONAL, NULL, "120 psi", "in the tank at the start; required with source = tank",
     AT(air_system, tank_gauge_pa)},
    {SECTION_AIR, "hookup", TYPE_WORD, Q_NUMBER, NULL, NULL, "linked|pairs|single", NEED_DEFAULT,
     "linked", "linked", "corners on one line at a time: all, an axle, one", AT(air_system, hookup)},
    {SECTION_AIR, "main_length", TYPE_QUANTITY, Q_LENGTH, "0 m", "50 m", NULL, NEED_DEFAULT, "3 m",
     "3 m", "hose from the source to the branching point", AT(air_system, main_length_m)},
    {SECTION_AIR, "branch_length", TYPE_QUANTITY, Q_LENGTH, "0 m", "50 m", NULL, NEED_DEFAULT, "3 m",
     "3 m", "hose from there to a corner", AT(air_system, branch_length_m)},
    {SECTION_AIR, "hose_bore", TYPE_QUANTITY, Q_LENGTH, "2 mm", "25 mm", NULL, NEED_DEFAULT,
     "6.35 mm", "6.35 mm", "inner diameter of the hoses", AT(air_system, hose_bore_m)},
    {SECTION_AIR, "valve", TYPE_WORD, Q_NUMBER, NULL, NULL, "core-in|core-out", NEED_DEFAULT,
     "core-in", "core-in", "valve cores in or out while filling", AT(air_system, valve)},
    {SECTION_AIR, "move_time", TYPE_QUANTITY, Q_DURATION, "0 s", "10 min", NULL, NEED_DEFAULT,
     "25 s", "25 s", "hands-on time to move the hose to another corner", AT(air_system, move_time_s)},
    {SECTION_AIR, "tail_length", TYPE_QUANTITY, Q_LENGTH, "0 m", "50 m", NULL, NEED_DEFAULT, "5 m",
     "5 m", "hose to the trailer", AT(air_system, tail_length_m)},
    {SECTION_AIR, "inlet_temp", TYPE_MAYBE, Q_TEMPERATURE, "-50 C", "120 C", NULL, NEED_OPTIONAL,
     NULL, "20 C", "air drawn by the compressor; else the outside air",
     AT(air_system, inlet_temp_k)},
    {SECTION_AIR, "gauge_step", TYPE_QUANTITY, Q_PRESSURE, "0.01 psi", "10 psi", NULL, NEED_OPTIONAL,
     NULL, "1 psi", "smallest step of the gauge; else 1 psi, 0.1 bar or 5 kPa by the rig's unit",
     AT(air_system, gauge_step_pa)},
    {SECTION_AIR, "gauge_offset", TYPE_QUANTITY, Q_PRESSURE, "-10 psi", "10 psi", NULL, NEED_DEFAULT,
     "0 psi", "0 psi", "the gauge reads this much high", AT(air_system, gauge_offset_pa)},
    {SECTION_AIR, "check_valves", TYPE_FLAG, Q_NUMBER, NULL, NULL, "no|yes", NEED_DEFAULT, "no",
     "no", "a check valve at each corner", AT(air_system, check_valves)},

    {SECTION_SPARE, "volume", TYPE_QUANTITY, Q_VOLUME, "5 L", "1000 L", NULL, NEED_OPTIONAL, NULL,
     "117 L", "air volume; else that of a rear tyre", AT(air_system, spare_volume_m3)},
    {SECTION_SPARE, "pressure", TYPE_QUANTITY, Q_PRESSURE, "5 psi", "150 psi", NULL, NEED_REQUIRED,
     NULL, "65 psi", "pressure in the spare at the start", AT(air_system, spare_gauge_pa)},
    {SECTION_SPARE, "check_valve", TYPE_FLAG, Q_NUMBER, NULL, NULL, "no|yes", NEED_DEFAULT, "yes",
     "yes", "a check valve keeps line air out of the spare", AT(air_system, spare_check_valve)},

    {SECTION_SPRINGS, "usual", TYPE_QUANTITY, Q_PRESSURE, "0 psi", "150 psi", NULL, NEED_REQUIRED,
     NULL, "5 psi", "usual pressure for this load", AT(air_system, springs_usual_gauge_pa)},
    {SECTION_SPRINGS, "minimum", TYPE_QUANTITY, Q_PRESSURE, "0 psi", "150 psi", NULL, NEED_DEFAULT,
     "5 psi", "5 psi", "the maker's minimum", AT(air_system, springs_minimum_gauge_pa)},

    {SECTION_GROUND, "title", TYPE_TEXT, Q_NUMBER, NULL, NULL, NULL, NEED_REQUIRED, NULL,
     "dune sand", "the ground in words", AT(ground, title)},
    {SECTION_GROUND, "kind", TYPE_WORD, Q_NUMBER, NULL, NULL, "firm|sand|fine|snow|ice",
     NEED_REQUIRED, NULL, "sand", "picks the method of flotation", AT(ground, kind)},
    {SECTION_GROUND, "strength", TYPE_MAYBE, Q_STRENGTH, "1 psi", "1000 psi", NULL, NEED_MOSTLY,
     NULL, "32 psi", "cone index, rating cone index of fine ground; not for firm ground and snow", AT(ground, strength_pa)},
    {SECTION_GROUND, "density", TYPE_MAYBE, Q_DENSITY, "50 kg/m3", "917 kg/m3", NULL, NEED_OPTIONAL,
     NULL, "200 kg/m3", "of snow", AT(ground, snow_density_kg_m3)},
    {SECTION_GROUND, "depth", TYPE_MAYBE, Q_LENGTH, "1 mm", "5 m", NULL, NEED_OPTIONAL, NULL,
     "25 cm", "of snow", AT(ground, snow_depth_m)},
    {SECTION_GROUND, "soil", TYPE_WORD, Q_NUMBER, NULL, NULL, "none|sm|sc|ml|cl|ch|oh",
     NEED_DEFAULT, "none", "cl", "soil class of fine ground; with moisture, instead of strength",
     AT(ground, soil)},
    {SECTION_GROUND, "moisture", TYPE_MAYBE, Q_SHARE, "1 %", "200 %", NULL, NEED_OPTIONAL, NULL,
     "25 %", "water by mass of dry soil", AT(ground, moisture_1)},
    {SECTION_GROUND, "surface", TYPE_FLAG, Q_NUMBER, NULL, NULL, "even|slick", NEED_DEFAULT, "even",
     "slick", "slick: the top layer slides", AT(ground, slick)},
    {SECTION_GROUND, "sharp", TYPE_FLAG, Q_NUMBER, NULL, NULL, "no|yes", NEED_DEFAULT, "no", "yes",
     "edges pinch a tyre softer than this ground's own target: up before it", AT(ground, sharp)},
    {SECTION_GROUND, "aim", TYPE_QUANTITY, Q_SHARE, "5 %", "40 %", NULL, NEED_MOSTLY, NULL,
     "22 %", "deflection aimed at, as a share of section height; left out: road pressure",
     AT(ground, aim_1)},
    {SECTION_GROUND, "aim_low", TYPE_QUANTITY, Q_SHARE, "5 %", "40 %", NULL, NEED_OPTIONAL, NULL,
     "20 %", "firmer end of the aim; else the aim", AT(ground, aim_low_1)},
    {SECTION_GROUND, "aim_high", TYPE_QUANTITY, Q_SHARE, "5 %", "40 %", NULL, NEED_OPTIONAL, NULL,
     "26 %", "softer end of the aim; else the aim", AT(ground, aim_high_1)},
    {SECTION_GROUND, "limit", TYPE_QUANTITY, Q_SHARE, "5 %", "45 %", NULL, NEED_MOSTLY, NULL,
     "33 %", "most deflection; goes with aim", AT(ground, limit_1)},
    {SECTION_GROUND, "cap", TYPE_MAYBE, Q_SPEED, "1 km/h", "200 km/h", NULL, NEED_OPTIONAL, NULL,
     "25 km/h", "most speed on this ground", AT(ground, cap_mps)},
    {SECTION_GROUND, "hazards", TYPE_TEXT, Q_NUMBER, NULL, NULL, NULL, NEED_OPTIONAL, NULL,
     "slip faces, crests that hide others", "what to look out for", AT(ground, hazards)},
    {SECTION_GROUND, "source", TYPE_TEXT, Q_NUMBER, NULL, NULL, NULL, NEED_OPTIONAL, NULL,
     "own measurement", "where the figures come from", AT(ground, source)},

    {SECTION_COMPRESSOR, "name", TYPE_TEXT, Q_NUMBER, NULL, NULL, NULL, NEED_REQUIRED, NULL,
     "twin-12v", "the name that a rig's compressor key gives", AT(compressor, name)},
    {SECTION_COMPRESSOR, "flow", TYPE_FLOW, Q_FLOW, "0 L/min", "5000 L/min", NULL, NEED_MOSTLY,
     NULL, "0 psi 158 L/min, 35 psi 138 L/min, 80 psi 116 L/min",
     "delivered free air against back pressure, 2 to 12 points; or give swept", 0, sizeof(struct compressor)},
    {SECTION_COMPRESSOR, "swept", TYPE_QUANTITY, Q_FLOW, "1 L/min", "5000 L/min", NULL,
     NEED_OPTIONAL, NULL, "166 L/min", "volume swept by the pistons; instead of flow",
     AT(compressor, swept_m3_s)},
    {SECTION_COMPRESSOR, "clearance", TYPE_QUANTITY, Q_SHARE, "0 %", "30 %", NULL, NEED_DEFAULT,
     "6 %", "6 %", "clearance volume as a share of the swept one", AT(compressor, clearance_1)},
    {SECTION_COMPRESSOR, "exponent", TYPE_QUANTITY, Q_NUMBER, "1", "1.4", NULL, NEED_DEFAULT, "1.25",
     "1.25", "exponent of the re-expansion", AT(compressor, exponent_1)},
    {SECTION_COMPRESSOR, "sag", TYPE_QUANTITY, Q_SHARE, "0 %", "60 %", NULL, NEED_DEFAULT, "10 %",
     "10 %", "speed lost per 100 psi of back pressure", AT(compressor, sag_1)},
    {SECTION_COMPRESSOR, "run_time", TYPE_QUANTITY, Q_DURATION, "10 s", "24 h", NULL, NEED_OPTIONAL,
     NULL, "15 min", "the label's duty: run this long; left out: continuous",
     AT(compressor, run_time_s)},
    {SECTION_COMPRESSOR, "rest_time", TYPE_QUANTITY, Q_DURATION, "0 s", "24 h", NULL, NEED_OPTIONAL,
     NULL, "15 min", "then rest; left out: continuous", AT(compressor, rest_time_s)},
    {SECTION_COMPRESSOR, "cut_out", TYPE_QUANTITY, Q_PRESSURE, "15 psi", "250 psi", NULL,
     NEED_OPTIONAL, NULL, "110 psi", "pressure at which it switches off",
     AT(compressor, cut_out_gauge_pa)},

    {SECTION_TRIP, "name", TYPE_TEXT, Q_NUMBER, NULL, NULL, NULL, NEED_REQUIRED, NULL,
     "dune crossing", "what you call it", AT(trip, name)},
    {SECTION_TRIP, "rig", TYPE_TEXT, Q_NUMBER, NULL, NULL, NULL, NEED_REQUIRED, NULL,
     "flatbed-cabin", "name or path of the rig's profile", AT(trip, rig)},
    {SECTION_TRIP, "date", TYPE_DATE, Q_NUMBER, NULL, NULL, NULL, NEED_OPTIONAL, NULL,
     "2026-05-03", "the day it begins, for the card", AT(trip, date)},
    {SECTION_TRIP, "height_start", TYPE_QUANTITY, Q_LENGTH, "-450 m", "6000 m", NULL, NEED_DEFAULT,
     "0 m", "40 m", "height above the sea at the start", AT(trip, height_start_m)},
    {SECTION_TRIP, "air_temp_start", TYPE_QUANTITY, Q_TEMPERATURE, "-50 C", "60 C", NULL,
     NEED_DEFAULT, "20 C", "24 C", "air temperature at the start", AT(trip, air_temp_start_k)},
    {SECTION_LEG, "ground", TYPE_TEXT, Q_NUMBER, NULL, NULL, NULL, NEED_REQUIRED, NULL,
     "dune-sand", "section name in the ground catalogue", AT(trip_leg, ground)},
    {SECTION_LEG, "length", TYPE_QUANTITY, Q_LENGTH, "10 m", "3000 km", NULL, NEED_REQUIRED, NULL,
     "14 km", "distance", AT(trip_leg, length_m)},
    {SECTION_LEG, "speed", TYPE_QUANTITY, Q_SPEED, "1 km/h", "200 km/h", NULL, NEED_REQUIRED, NULL,
     "30 km/h", "the speed that you would like", AT(trip_leg, speed_mps)},
    {SECTION_LEG, "height_end", TYPE_MAYBE, Q_LENGTH, "-450 m", "6000 m", NULL, NEED_OPTIONAL, NULL,
     "120 m", "height above the sea at its end; else as at its start", AT(trip_leg, height_end_m)},
    {SECTION_LEG, "air_temp", TYPE_MAYBE, Q_TEMPERATURE, "-50 C", "60 C", NULL, NEED_OPTIONAL, NULL,
     "30 C", "air temperature; else as before", AT(trip_leg, air_temp_k)},
    {SECTION_LEG, "slope", TYPE_QUANTITY, Q_SHARE, "-60 %", "60 %", NULL, NEED_DEFAULT, "0 %",
     "5 %", "steepest climb that matters", AT(trip_leg, slope_1)},
    {SECTION_LEG, "stop_after", TYPE_FLAG, Q_NUMBER, NULL, NULL, "no|yes", NEED_DEFAULT, "no",
     "yes", "a level place to stop and refill at its end", AT(trip_leg, stop_after)},
};
// clang-format on

enum { N_ROWS = sizeof ROWS / sizeof ROWS[0], N_SECTIONS = sizeof SECTIONS / sizeof SECTIONS[0] };

const struct schema_row *schema_rows(size_t *n)
{
    *n = N_ROWS;
    return ROWS;
}

const struct schema_section_row *schema_sections(size_t *n)
{
    *n = N_SECTIONS;
    return SECTIONS;
}

const struct schema_row *schema_row(unsigned section, const char *key)
{
    for (size_t i = 0; i < N_ROWS; i++) {
        if ((ROWS[i].sections & section) != 0 && strcmp(ROWS[i].key, key) == 0) {
            return &ROWS[i];
        }
    }
    return NULL;
}

/* N of "name-N" without leading zeros and within the highest, or 0. */
static int number_of(const struct schema_section_row *row, const char *name)
{
    size_t n = strlen(row->name);
    if (strncmp(name, row->name, n) != 0 || name[n] != '-' || name[n + 1] < '1' ||
        name[n + 1] > '9') {
        return 0;
    }
    char *end = NULL;
    long number = strtol(name + n + 1, &end, 10);
    return *end == '\0' && number <= row->numbered ? (int)number : 0;
}

const struct schema_section_row *schema_section(enum profile_kind kind, const char *name,
                                                int *number)
{
    *number = 0;
    for (size_t i = 0; i < N_SECTIONS; i++) {
        const struct schema_section_row *row = &SECTIONS[i];
        if (row->kind != kind) {
            continue;
        }
        *number = row->numbered > 0 ? number_of(row, name) : 0;
        if (*number > 0 || row->name[0] == '\0' ||
            (row->numbered == 0 && strcmp(row->name, name) == 0)) {
            return row;
        }
    }
    return NULL;
}

/* The section's name as it stands in a file: numbered ones with their N. */
static void put_section(const struct schema_section_row *row, struct text *out)
{
    text_put(out, "[%s%s]", row->name, row->numbered > 0 ? "-1" : "");
}

static const struct schema_row *nearest_key(unsigned sections, const char *key, int max)
{
    const struct schema_row *best = NULL;
    for (size_t i = 0; i < N_ROWS; i++) {
        size_t n = strlen(ROWS[i].key);
        bool alike = n <= strlen(key) + NEAR && strlen(key) <= n + NEAR;
        if (!alike || (ROWS[i].sections & sections) == 0) {
            continue;
        }
        int d = dist_edit(key, ROWS[i].key);
        if (d <= max) {
            best = &ROWS[i];
            max = d - 1;
        }
    }
    return best;
}

/* Edits that still leave a likeness: short names allow fewer. */
static int near_enough(const char *name)
{
    return strlen(name) <= 4 ? 1 : NEAR;
}

void schema_hint_key(const struct schema_section_row *section, const char *key, struct text *out)
{
    const struct schema_row *row = nearest_key(section->section, key, near_enough(key));
    if (row) {
        text_put(out, " (did you mean %s?)", row->key);
        return;
    }
    for (int max = 0; max <= near_enough(key); max += NEAR) {
        for (size_t i = 0; i < N_SECTIONS; i++) {
            row = nearest_key(SECTIONS[i].section, key, max);
            if (row && SECTIONS[i].kind == section->kind) {
                text_put(out, " (%s belongs in ", row->key);
                put_section(&SECTIONS[i], out);
                text_put(out, ")");
                return;
            }
        }
    }
    text_put(out, " (see \"sandshoe list --template %s\")", profile_kind_name(section->kind));
}

void schema_hint_section(enum profile_kind kind, const char *name, struct text *out)
{
    const struct schema_section_row *best = NULL;
    int max = NEAR;
    for (size_t i = 0; i < N_SECTIONS; i++) {
        const struct schema_section_row *row = &SECTIONS[i];
        size_t n = strcspn(name, row->numbered > 0 ? "-0123456789" : "");
        char stem[DIST_STEM];
        struct text t = text_over(stem, sizeof stem);
        text_put(&t, "%.*s", (int)n, name);
        int d = row->kind == kind ? dist_edit(stem, row->name) : max + 1;
        if (d <= max) {
            best = row;
            max = d - 1;
        }
    }
    if (!best) {
        text_put(out, " (see \"sandshoe list --template %s\")", profile_kind_name(kind));
    } else if (best->numbered > 0) {
        text_put(out, " ([%s-1] to [%s-%d])", best->name, best->name, best->numbered);
    } else {
        text_put(out, " (did you mean [%s]?)", best->name);
    }
}

int schema_word(const char *words, const char *word)
{
    size_t n = strlen(word);
    for (int i = 0; *words != '\0'; i++) {
        size_t len = strcspn(words, "|");
        if (len == n && strncmp(words, word, n) == 0) {
            return i;
        }
        words += len + (words[len] == '|');
    }
    return -1;
}

void schema_words(const char *words, struct text *out)
{
    for (const char *sep = ""; *words != '\0'; sep = ", ") {
        size_t len = strcspn(words, "|");
        text_put(out, "%s%.*s", sep, (int)len, words);
        words += len + (words[len] == '|');
    }
}

static const char *const KINDS[PROFILE_KINDS] = {"rig", "grounds", "compressor", "trip"};

const char *profile_kind_name(enum profile_kind kind)
{
    return kind < PROFILE_KINDS ? KINDS[kind] : "?";
}

enum profile_kind profile_kind_from_name(const char *name)
{
    int i = 0;
    while (i < PROFILE_KINDS && strcmp(KINDS[i], name) != 0) {
        i++;
    }
    return (enum profile_kind)i;
}
