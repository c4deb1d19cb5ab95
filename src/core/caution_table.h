/* caution_table.h - the one table of cautions.
 * C(id, level, standing, code, text, when it is raised). {0}..{3} are numbers, {w} a word. Standing
 * reminders hold whatever the inputs are and never change the exit status. */
#ifndef SANDSHOE_CORE_CAUTION_TABLE_H
#define SANDSHOE_CORE_CAUTION_TABLE_H

// clang-format off
#define CAUTION_TABLE(C) \
    C(ESTIMATE, CAUTION_NOTE, true, "estimate",                                                    \
      "An estimate from the figures given. Placard, tyre maker and a trained fitter come "         \
      "first.",                                                                                    \
      "always")                                                                                    \
    C(HIGHWAY, CAUTION_DANGER, true, "highway-speed",                                              \
      "Set for {0} at most. Heat builds inside where you cannot see it: refill before you "        \
      "speed up.",                                                                                 \
      "any corner below its road pressure")                                                        \
    C(HIGHWAY_NO_CAP, CAUTION_DANGER, true, "below-road-pressure",                                 \
      "Below road pressure, so not for the highway: heat builds inside where you cannot see "      \
      "it. Refill first.",                                                                         \
      "any corner below its road pressure, and no cap rules")                                      \
    C(BEAD, CAUTION_CAUTION, true, "bead",                                                         \
      "A soft tyre leaves its rim when it is pushed sideways. Turn slowly and wide, do not "       \
      "slide.",                                                                                    \
      "any corner below its road pressure")                                                        \
    C(BELOW_15, CAUTION_CAUTION, false, "below-15-psi",                                            \
      "{0} without a beadlock: many drivers take 15 psi as the floor. Sharp turns, side "          \
      "slopes and sliding pull the bead off first.",                                               \
      "target below 15 psi on wheels without beadlocks")                                           \
    C(OVERLOAD_TYRE, CAUTION_DANGER, false, "overload-tyre",                                       \
      "Each tyre carries {0}, moulded for {1}. No pressure mends that: about {2} must come "       \
      "off this axle.",                                                                            \
      "a corner above the moulded maximum load")                                                   \
    C(OVERLOAD_AXLE, CAUTION_DANGER, false, "overload-axle",                                       \
      "The axle carries {0}, rated for {1}. No pressure mends that: about {2} must come off "      \
      "it.",                                                                                       \
      "an axle above its rating")                                                                  \
    C(OVER_INFLATION, CAUTION_DANGER, false, "over-inflation",                                     \
      "{0} is above the limit moulded on the sidewall, {1}. Do not fill so far; let it down "      \
      "if it stands there.",                                                                       \
      "a reading to set, or a pressure to judge, above the moulded maximum")                       \
    C(ROAD_ABOVE_MAX, CAUTION_CAUTION, false, "road-above-maximum",                                \
      "The road pressure given, {0}, is above the moulded maximum, {1}. No target goes past "      \
      "the maximum.",                                                                              \
      "road pressure above the moulded maximum")                                                   \
    C(ROAD_BELOW_TABLE, CAUTION_CAUTION, false, "road-below-table",                                \
      "The road pressure, {0}, is below what this load asks for by the table form, {1}. Check"     \
      " the tyre maker's table.",                                                                  \
      "road pressure more than 1 % below the pressure for the load")                               \
    C(NO_MARGIN, CAUTION_NOTE, false, "no-margin",                                                 \
      "No margin: road pressure {0} against {1} for this load. Any more load asks for more "       \
      "pressure.",                                                                                 \
      "road pressure within -1..+5 % of the pressure for the load")                                \
    C(ROAD_ESTIMATED, CAUTION_NOTE, false, "road-estimated",                                       \
      "The road pressure, {0}, is estimated: your placard rules.",                                 \
      "quick form without a road pressure")                                                        \
    C(ASSUMED, CAUTION_NOTE, false, "assumed",                                                     \
      "Assumed: {w}.",                                                                             \
      "quick form, once for each value that was not given")                                        \
    C(CAPACITY_UNKNOWN, CAUTION_CAUTION, false, "capacity-unknown",                                \
      "What the tyre may carry is unknown, so an overload cannot be seen. Enter the moulded "      \
      "maximum load and pressure.",                                                                \
      "no moulded maximum load or pressure")                                                       \
    C(CAPACITY_EXTRAPOLATED, CAUTION_NOTE, false, "capacity-extrapolated",                         \
      "No table goes as low as {0}: the capacity shown is extrapolated.",                          \
      "capacity below the range of the load tables")                                               \
    C(ASPECT_ASSUMED, CAUTION_NOTE, false, "aspect-assumed",                                       \
      "This size does not tell its height: {0} of section height is assumed. Measure the "         \
      "outside diameter.",                                                                         \
      "a numeric size without a measured diameter")                                                \
    C(SYMBOL_ASSUMED, CAUTION_NOTE, false, "speed-symbol-assumed",                                 \
      "No speed symbol is given: L is taken up to load index 121, J above.",                       \
      "a standard-derived speed without a speed symbol")                                           \
    C(BIAS, CAUTION_CAUTION, false, "bias-tyre",                                                   \
      "A bias tyre: the stiffness relation is of radials and does not cover it. Trust a tape "     \
      "more than these figures.",                                                                  \
      "bias or bias-belted construction")                                                          \
    C(RIM_WIDTH, CAUTION_DANGER, false, "rim-width",                                               \
      "Rim {0} on a section of {1} is outside 65 to 90 %: the bead is not held as it should "      \
      "be. Stay at road pressure.",                                                                \
      "rim width outside 0.65..0.90 of the section width")                                         \
    C(LEFT_RIGHT, CAUTION_CAUTION, false, "left-right-load",                                       \
      "Left and right carry {0} and {1}. Both are set for the heavier; shift some load "           \
      "across.",                                                                                   \
      "left and right loads differ by more than 10 %")                                             \
    C(FLOOR_ABOVE_ROAD, CAUTION_CAUTION, false, "floor-above-road",                                \
      "This ground asks for no less than {0}, and the road pressure is {1}. Carry less, or "       \
      "stay off it.",                                                                              \
      "a floor above the road pressure")                                                           \
    C(SIDE_SLOPE_LOAD, CAUTION_CAUTION, false, "side-slope-load",                                  \
      "On this side slope a downhill tyre carries {0} instead of {1}. Keep straight, do not "      \
      "turn downhill.",                                                                            \
      "downhill load above 1.3 times the level load")                                              \
    C(STUCK_STEP, CAUTION_NOTE, false, "stuck-step",                                               \
      "Stuck: {0} at walking pace, for metres, wheels straight. Then back up to the target.",      \
      "a stuck step is given")                                                                     \
    C(ASKED_SPEED, CAUTION_DANGER, false, "asked-speed",                                           \
      "{0} is above the cap of {1} at these pressures.",                                           \
      "the asked speed is above the cap")                                                          \
    C(AT_BELOW_FLOOR, CAUTION_DANGER, false, "below-floor",                                        \
      "{0} is below the floor of {1} for this load, wheel and ground.",                            \
      "a pressure to judge below the floor")                                                       \
    C(AT_BELOW_STUCK, CAUTION_DANGER, false, "below-stuck-step",                                   \
      "{0} is below even the stuck step of {1}: rim and bead are at risk at any speed.",           \
      "a pressure to judge below the stuck step")                                                  \
    C(LIKELY_STUCK, CAUTION_CAUTION, false, "likely-to-stick",                                     \
      "Even at the target this ground is likely to hold you. Look for another line, or come "      \
      "with help.",                                                                                \
      "verdict likely to stick")                                                                   \
    C(SLICK, CAUTION_CAUTION, false, "slick-surface",                                              \
      "The top layer slides whatever the pressure. Nothing here promises steering or brakes.",     \
      "a slick surface")                                                                           \
    C(ICE, CAUTION_CAUTION, false, "ice",                                                          \
      "Airing down does not help on ice. Chains or studs do, and staying away.",                   \
      "ice")                                                                                       \
    C(STRENGTH_UNKNOWN, CAUTION_NOTE, false, "strength-unknown",                                   \
      "The strength of this ground is not given: nothing is said of sinking.",                     \
      "soft ground without its strength")                                                          \
    C(CLEARANCE_ASSUMED, CAUTION_NOTE, false, "clearance-assumed",                                 \
      "Ground clearance is not given: {0} is assumed.",                                            \
      "a method needs the clearance and it is not given")                                          \
    C(DEFLECTION_CLAMPED, CAUTION_NOTE, false, "deflection-clamped",                               \
      "Deflection is outside the 10 to 40 % that the soil method covers: held at its edge.",       \
      "deflection outside the range of the soil method")                                           \
    C(LINE_OF_FIRE, CAUTION_DANGER, true, "line-of-fire",                                          \
      "Nobody beside or over a tyre while it fills. Stand in line with the tread, a full hose"     \
      " away.",                                                                                    \
      "before any filling")                                                                        \
    C(FOUND_LOW, CAUTION_DANGER, false, "found-low",                                               \
      "Found low? It may be broken inside. Do not add air: fit the spare and have this one "       \
      "taken off and looked at.",                                                                  \
      "a corner found low that nobody let down")                                                   \
    C(INSPECT, CAUTION_CAUTION, true, "inspect-first",                                             \
      "Look before you fill: cuts, bulges, bead line, stem, stones. A damaged tyre gets no "       \
      "air.",                                                                                      \
      "before any filling")                                                                        \
    C(MULTI_PIECE, CAUTION_DANGER, false, "multi-piece-wheel",                                     \
      "A wheel in several pieces is for trained people with a cage. No steps are given.",          \
      "wheel = multi-piece")                                                                       \
    C(RESEAT, CAUTION_DANGER, true, "reseat",                                                      \
      "A bead off its seat: no flame, fuel, spray or starter fluid, ever. Stop at 40 psi "         \
      "(2.8 bar) or the maker's lower figure; not seated, let it down.",                           \
      "before any reseating")                                                                      \
    C(CORE, CAUTION_CAUTION, true, "valve-core",                                                   \
      "A core leaves at speed. Face and hands out of its path, glasses on.",                       \
      "cores come out")                                                                            \
    C(HOSE, CAUTION_CAUTION, true, "hose",                                                         \
      "Shut off and vent a hose before it is uncoupled: under pressure it whips.",                 \
      "before any hose is taken off")                                                              \
    C(EQUALISE, CAUTION_CAUTION, true, "shared-line",                                              \
      "Corners on one open line run together, and one leak pulls all down. Shut them off "         \
      "before you leave.",                                                                         \
      "linked corners without check valves")                                                       \
    C(COMPRESSOR_HOT, CAUTION_CAUTION, false, "hot-compressor",                                    \
      "The compressor is due a rest of {0}. Head and fittings burn; keep dry grass away.",         \
      "a rest falls in a refill")                                                                  \
    C(JACK, CAUTION_DANGER, true, "jack",                                                          \
      "Never under a vehicle that is held by a jack, or by air.",                                  \
      "before any wheel leaves the ground")                                                        \
    C(AIR_SPRINGS, CAUTION_DANGER, true, "air-springs",                                            \
      "Air springs can shift a vehicle without warning: vent them as their maker says before "     \
      "you lift or reach in. They are no load rating. Keep at least {0} in them.",                 \
      "air springs on the rig")                                                                    \
    C(BRAKE_AIR, CAUTION_DANGER, true, "brake-air",                                                \
      "Brakes need the air first. Do not drive off while their gauge is below its mark.",                 \
      "a truck-size tyre on the rig")                                                              \
    C(EXHAUST, CAUTION_CAUTION, true, "exhaust",                                                   \
      "Engine running: in the open air only.",                                                     \
      "a compressor driven by the vehicle")                                                        \
    C(HEARING, CAUTION_NOTE, true, "hearing",                                                      \
      "A compressor is loud: plugs, and glasses for the dust.",                                    \
      "before a compressor runs")                                                                  \
    C(ALTITUDE_COLD, CAUTION_CAUTION, false, "height-and-cold",                                    \
      "Set high and warm, it reads {0} less at the lowest, coldest point. Read again there.",      \
      "a trip that ends lower or colder")                                                          \
    C(UNEVEN_AXLE, CAUTION_CAUTION, false, "uneven-axle",                                          \
      "Left and right differ by {0}. Find out why before you drive.",                              \
      "settled readings of an axle that differ")                                                   \
    C(DUALS, CAUTION_CAUTION, true, "duals",                                                       \
      "Paired tyres touch when soft and hold stones between them. Look at the gap, and read "      \
      "the inner one too.",                                                                        \
      "an axle on four wheels below its road pressure")                                            \
    C(BEADLOCK, CAUTION_NOTE, true, "beadlock",                                                    \
      "Beadlocks: bolts to torque, an outer ring leaves the inner bead free, and the law may "     \
      "not allow them on a road.",                                                                 \
      "wheel = beadlock")                                                                          \
    C(LAW, CAUTION_NOTE, true, "law",                                                              \
      "A beach or a track may be a road in law. Local rules apply.",                               \
      "before any soft ground")                                                                    \
    C(WARNING_LAMP, CAUTION_CAUTION, true, "warning-lamp",                                         \
      "A pressure warning lamp that is lit already will not tell you of a puncture now.",          \
      "any corner below its road pressure")                                                        \
    C(RECHECK, CAUTION_NOTE, true, "recheck-cold",                                                 \
      "Read all corners again cold, the next morning.",                                            \
      "after any filling")                                                                         \
    C(TRIP_LOW, CAUTION_DANGER, false, "will-read-low",                                            \
      "Set for leg {w} as planned, it will read {0} at the end of leg {3}, below the floor of "    \
      "{1}. Set {2} there instead.",                                                               \
      "a pressure set on a trip falls below the floor on the way")                                 \
    C(TRIP_UNDER, CAUTION_CAUTION, false, "will-read-under",                                       \
      "At the end of leg {w} it reads {0}, its road figure is {1}: read it cold there and add "    \
      "air before speed. Do not overfill higher up instead.",                                      \
      "road pressure falls more than 5 % short, or below the table, on a trip")                    \
    C(TRIP_NO_STOP, CAUTION_DANGER, false, "no-stop-between",                                      \
      "No place to change pressures before leg {w}: it is driven on those of softer ground. "      \
      "{0} at most.",                                                                              \
      "soft ground and rock or sealed road without a stop between")                                \
    C(TRIP_NO_AIR, CAUTION_DANGER, false, "air-source-too-weak",                                   \
      "The air source cannot make the change before leg {w}. Find other air; until then {0} "      \
      "at most.",                                                                                  \
      "a trip needs a pressure that the source cannot reach")                                      \
    C(TRIP_PAST_LIMIT, CAUTION_CAUTION, false, "softer-than-ground",                               \
      "Leg {w} stays softer than its ground wants: {0} at most, and feel the sidewalls on "        \
      "the way.",                                                                                  \
      "a trip stays soft on a short firm leg")                                                     \
    C(TRIP_STUCK, CAUTION_CAUTION, false, "leg-likely-to-stick",                                   \
      "Leg {w}: even at these pressures the ground is likely to hold you. Look for another "       \
      "way, or come with help.",                                                                   \
      "verdict likely to stick on a leg of a trip")
// clang-format on

#endif
