/* options_table.h - every command and every option, one row each. */
#ifndef SANDSHOE_APP_OPTIONS_TABLE_H
#define SANDSHOE_APP_OPTIONS_TABLE_H

// clang-format off

/* C(bit, name, arguments, least, most, what it does) */
#define COMMAND_TABLE(C)                                                                           \
    C(CMD_SESSION, "session", "[RIG]", 0, 1, "the trailhead session, full screen (the default)")   \
    C(CMD_ADVISE, "advise", "RIG --ground G | --tyre SIZE --front LOAD --rear LOAD --ground G",    \
      0, 1, "target pressures, footprint, flotation, limits and speed cap of every corner")        \
    C(CMD_DOWN, "down", "RIG --ground G", 0, 1,                                                    \
      "minutes to let every corner down, and the reading to stop at")                              \
    C(CMD_UP, "up", "RIG [--from P] [--to road|GROUND|P] [--ground G]", 0, 1,                      \
      "minutes to refill by every hook-up, what to drop when, the reading to stop at")             \
    C(CMD_REPLAY, "replay", "LOG", 1, 1, "the live forecast over a recorded refill")               \
    C(CMD_TRIP, "trip", "TRIP", 1, 1, "the pressure plan for a route of legs")                     \
    C(CMD_CARD, "card", "RIG|TRIP [-o FILE.pdf|FILE.txt|-]", 0, 1,                                 \
      "the glovebox card of a rig, or of a trip")                                                  \
    C(CMD_CHECK, "check", "FILE...", 1, OPTIONS_ARGS,                                              \
      "validate profiles, trips and logs: every mistake with its line")                            \
    C(CMD_HELP, "help", "[TOPIC]", 0, 1, "the cautions and the job, in words")                     \
    C(CMD_LIST, "list", "[--template rig|trip|grounds|compressor]", 0, 0,                          \
      "rigs, trips, grounds, compressors and past refills on the search path")

/* O(field, long, short, argument, kind, quantity, commands, help) */
#define OPTION_TABLE(O)                                                                            \
    O(ground, "ground", 0, "G", TEXT, Q_NUMBER, CMD_ADVISE | CMD_DOWN | CMD_UP | CMD_SESSION,      \
      "the ground ahead: a name that 'sandshoe list' shows")                                       \
    O(tyre, "tyre", 0, "SIZE", TEXT, Q_NUMBER, CMD_RIG,                                            \
      "quick form: tyre size; load index and load range may follow")                               \
    O(rear_tyre, "rear-tyre", 0, "SIZE", TEXT, Q_NUMBER, CMD_RIG,                                  \
      "quick form: tyre size of the rear axle, where it differs")                                  \
    O(front_kg, "front", 0, "LOAD", QUANTITY, Q_MASS, CMD_RIG,                                     \
      "quick form: load on the front axle, weighed")                                               \
    O(rear_kg, "rear", 0, "LOAD", QUANTITY, Q_MASS, CMD_RIG,                                       \
      "quick form: load on the rear axle, weighed")                                                \
    O(road, "road", 0, "P", AXLES, Q_PRESSURE, CMD_RIG,                                            \
      "quick form: cold road pressures, 38psi or front=38psi,rear=48psi")                          \
    O(from, "from", 0, "P", PLACES, Q_PRESSURE, CMD_DOWN | CMD_UP,                                 \
      "readings now, 18psi or front=18psi,rear=22psi,rear-right=20psi")                                             \
    O(to, "to", 0, "road|G|P", TEXT, Q_NUMBER, CMD_UP,                                             \
      "what to fill to: the road pressures, a ground's targets, or one cold pressure")             \
    O(found_low, "found-low", 0, "CORNER,..", CORNERS, Q_NUMBER, CMD_UP,                           \
      "corners found low for no known reason: they get no steps")                                  \
    O(at_pressure, "at-pressure", 0, "P", AXLES, Q_PRESSURE, CMD_ADVISE,                           \
      "judge these cold pressures, front=18psi,rear=22psi")                                        \
    O(at_temp_k, "at-temp", 0, "T", QUANTITY, Q_TEMPERATURE, CMD_RIG | CMD_REPLAY,                              \
      "air temperature now, 24C")                                                                  \
    O(at_height_m, "at-height", 0, "H", QUANTITY, Q_LENGTH, CMD_RIG | CMD_REPLAY,                               \
      "height above sea level, 1200m")                                                             \
    O(tyre_temp_k, "tyre-temp", 0, "T", QUANTITY, Q_TEMPERATURE, CMD_RIG | CMD_REPLAY,                          \
      "temperature of the air in the tyres, 40C")                                                  \
    O(speed_mps, "speed", 0, "V", QUANTITY, Q_SPEED, CMD_ADVISE,                                   \
      "the speed you would like, 30km/h")                                                          \
    O(slope_1, "slope", 0, "S", QUANTITY, Q_SHARE, CMD_ADVISE, "climb to be driven, 10%")          \
    O(cross_slope_rad, "cross-slope", 0, "A", QUANTITY, Q_ANGLE, CMD_ADVISE,                       \
      "side slope to be crossed, 15deg")                                                           \
    O(size, "size", 0, "3x5|a6|quarter", TEXT, Q_NUMBER, CMD_CARD | CMD_TRIP, "size of the card")             \
    O(grounds, "grounds", 0, "A,B,C", TEXT, Q_NUMBER, CMD_CARD, "grounds on the card")             \
    O(side, "side", 0, "N", QUANTITY, Q_NUMBER, CMD_CARD, "2 = the log grid")                      \
    O(folded, "folded", 0, "RIG", TEXT, Q_NUMBER, CMD_CARD,                                        \
      "a second load state on the same sheet")                                                     \
    O(date, "date", 0, "YYYY-MM-DD", TEXT, Q_NUMBER, CMD_CARD | CMD_TRIP, "date on the card; today by default")     \
    O(output, "output", 'o', "FILE", TEXT, Q_NUMBER, CMD_CARD | CMD_TRIP,                          \
      "write to FILE.pdf or FILE.txt; - is standard output")                                       \
    O(force, "force", 'f', NULL, FLAG, Q_NUMBER, CMD_CARD | CMD_TRIP,                              \
      "replace an existing output file")                                                           \
    O(template_of, "template", 0, "KIND", TEXT, Q_NUMBER, CMD_LIST,                                \
      "a commented file to start from: rig, trip, grounds or compressor")                          \
    O(forget, "forget", 0, NULL, FLAG, Q_NUMBER, CMD_LIST,                                         \
      "forget what past refills taught about the air systems")                                     \
    O(set, "set", 0, "SECTION.KEY=VALUE", SETS, Q_NUMBER, CMD_RIG | CMD_REPLAY | CMD_TRIP,                      \
      "override one value of the profile; may be repeated")                                        \
    O(units, "units", 0, "psi|bar|kpa", UNITS, Q_NUMBER, CMD_ALL, "unit of the pressures shown")   \
    O(json, "json", 0, NULL, FLAG, Q_NUMBER,                                                       \
      CMD_ADVISE | CMD_DOWN | CMD_UP | CMD_REPLAY | CMD_TRIP | CMD_CHECK | CMD_LIST,               \
      "machine output on standard output")                                                         \
    O(working, "working", 'w', NULL, FLAG, Q_NUMBER, CMD_ADVISE | CMD_DOWN | CMD_UP | CMD_TRIP,    \
      "show the working: equation, inputs, source and status of every number")                     \
    O(ascii, "ascii", 0, NULL, FLAG, Q_NUMBER, CMD_ALL, "plain characters only")                   \
    O(script, "script", 0, "FILE", TEXT, Q_NUMBER, 0, "")                                          \
    O(at_s, "at", 0, "SECONDS", QUANTITY, Q_NUMBER, 0, "")                                         \
    O(help, "help", 'h', NULL, FLAG, Q_NUMBER, CMD_ALL, "this text")                               \
    O(version, "version", 0, NULL, FLAG, Q_NUMBER, CMD_ALL, "the version")
// clang-format on

#endif
