/* help_topics.h - the job and its cautions in words: T(name, title, text). A blank line between
 * paragraphs is "\n". */
#ifndef SANDSHOE_APP_HELP_TOPICS_H
#define SANDSHOE_APP_HELP_TOPICS_H

// clang-format off
#define HELP_TOPICS(T)                                                                             \
    T("job", "the job",                                                                            \
      "A loaded vehicle leaves the highway for soft or rough ground. Softer tyres lay a longer "   \
      "print, sink less, ride better and spare the track; they also hold their beads less, run "   \
      "hotter, and cost minutes to fill again. The work is to decide how far down, corner by "     \
      "corner, with this load on this ground; to know the limits; and to be back at road "         \
      "pressure before the highway.\n"                                                             \
      "Weigh each axle as it travels. Write a rig profile ('sandshoe list --template rig'), or "   \
      "give size and loads with the command. Ask 'sandshoe advise RIG --ground G'. Then 'down', "  \
      "and later 'up', tell the minutes and the reading to stop at. 'sandshoe RIG' opens the "     \
      "trailhead session, 'trip' plans the evening before, 'card' makes the paper one.\n"          \
      "One rule stands behind the figures: every tyre is to bend by the same share of its "        \
      "section height, and the ground says which. That is why a loaded axle gets more air than "   \
      "a light one, and why the answer turns round when the load comes off.")                      \
    T("bead", "beads",                                                                             \
      "A soft tyre leaves its rim when it is pushed sideways: a fast tight turn, a slide into a "  \
      "rut, reversing on full lock, a side slope. Turn slowly and wide. The bead floor is the "    \
      "least pressure that is advised for a wheel, and no ground goes below it.\n"                 \
      "A bead that is off its seat is a fitter's job. Nothing that burns goes near it: no flame, " \
      "no fuel, no spray, no starter fluid, whatever you have seen done. People have died of it, " \
      "and no steps for it are given here. Filling that is meant to seat a bead stops at 40 psi "  \
      "(2.8 bar) "                                                                                 \
      "or at the maker's lower figure; a bead that has not seated by then is let down again.\n"    \
      "A tyre that was driven off its bead is suspect inside. Fit the spare.")                     \
    T("speed", "speed",                                                                            \
      "A tyre that bends more makes more heat, and hides it inside the casing. The cap is the "    \
      "lowest of three: the ground's own, that of the deflection, and that of the share of road "  \
      "pressure that is left. It is common practice, not a standard.\n"                            \
      "Beside it stands the speed that the load bonus of a regulation would cover. It tells how "  \
      "far the load is beyond the capacity at that pressure; it does not license "                 \
      "under-inflation.\n"                                                                         \
      "No tyre that was let down is ever called fit for highway speed: fill first. On long "       \
      "rough roads feel or read the tyres after 45 minutes. A reading more than about 20 % above " \
      "the cold one says too soft, too fast or too heavy: slow down or add air, do not bleed.")    \
    T("load", "load",                                                                              \
      "The scale decides, not the brochure. Weigh front, rear and trailer axles with people, "     \
      "water and fuel on board. The heavier corner of an axle sets the pressure of both.\n"        \
      "Above what is moulded on the tyre, or above the axle's rating, nothing is advised, for "    \
      "any ground: pressure cannot mend an overload. The answer says how much must come off and "  \
      "from where. Air springs level a load; they never carry more of it.\n"                       \
      "Things that come and go can be listed in the profile as [mass-1] and so on, with their "    \
      "place behind the front axle; both axle loads follow by statics.")                           \
    T("air", "filling",                                                                            \
      "Before: look at every tyre. Cuts, bulges, bead line, stem, stones. A damaged tyre, or one " \
      "that is low for no known reason, gets no air. Nobody beside or over a tyre that fills; "    \
      "stand in line with the tread with the hose at full length, clip-on chuck, gauge in the "    \
      "line. Shut off and vent a hose before it is uncoupled.\n"                                   \
      "Three readings differ. While air flows, the line shows more than the tyre holds. Just "     \
      "after stopping, the air is still warm and reads a little high. A minute later it has "      \
      "settled, and that is the one that counts: the figures to stop at allow for it.\n"           \
      "On one open line all corners meet the lowest target together; that axle comes off, the "    \
      "other goes on. Which one it is follows from the targets, so it changes with the load. "     \
      "Corners left on one open line run together: shut them off before you drive.")               \
    T("card", "the card",                                                                          \
      "'sandshoe card RIG -o card.pdf' makes a card for the glovebox: the load state it holds "    \
      "for, road pressures, a few grounds with pressures and cap, floors, the order of filling, "  \
      "three cautions. It is drawn in black only and made to be read by torch. "                   \
      "'-o card.txt' is the same as text. A card holds for one load state: make one for each.")    \
    T("low", "a tyre found low",                                                                   \
      "Two things look alike on a gauge. A tyre that you let down on purpose, drove slowly and "   \
      "looked at, is filled again every weekend. A tyre that is found low, nobody knows since "    \
      "when or how far and fast it ran, may be broken inside where no one can see it, and may "    \
      "burst while it fills.\n"                                                                    \
      "So it gets no air and no steps: 'sandshoe up RIG --found-low rear-right' plans the others " \
      "and leaves that one out. Fit the spare, and have it taken off and looked at inside.")       \
    T("wheel", "wheels",                                                                           \
      "A wheel made of several pieces can come apart with deadly force when it is filled wrongly " \
      "put together. It is for trained people with a cage; no steps are given here.\n"             \
      "Beadlocks hold the outer bead and allow less pressure. The inner bead is held by air "      \
      "alone, the bolts want their torque, and the law may not allow them on a road.\n"            \
      "A rim far narrower or wider than its tyre asks for does not hold the bead as it should: "   \
      "then the road pressure is the answer.")                                                     \
    T("cold", "cold, warm and high",                                                               \
      "Targets are cold gauge pressures: at the temperature of the road pressure, 20 C unless "    \
      "the profile says otherwise. Driven tyres read more, about 1 psi for 7 C. Give "             \
      "--tyre-temp and the reading to set now stands beside the cold one. Read again cold, the "   \
      "next morning.\n"                                                                            \
      "A tyre that is set high up reads less down in the valley, and less again in the cold of "   \
      "night. 'sandshoe trip' says how much before you go down.")                                  \
    T("units", "units",                                                                            \
      "A quantity carries its unit, in profiles and on the command line: 38psi, 2.6bar, 260kPa, "  \
      "1950kg, 4300lb, 24C, 75F, 1200m, 30km/h, 15deg, 10%. A bare number is refused, so that "    \
      "2.2 never passes for psi. Pressures are gauge pressures. --units chooses what is shown.")   \
    T("trust", "whom to trust",                                                                    \
      "In this order: the vehicle's placard and handbook, the tyre maker, the wheel maker, local " \
      "law and rules, a licensed or trained person, then this program. Its figures are estimates " \
      "from what you entered; where the model is a band, a band is shown. --working unfolds "      \
      "every number: equation, inputs, source, and what that source is worth.")
// clang-format on

#endif
