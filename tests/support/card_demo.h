/* card_demo.h - invented cards for the tests of layout, text and drawing. */
#ifndef SANDSHOE_TESTS_CARD_DEMO_H
#define SANDSHOE_TESTS_CARD_DEMO_H

#include "card/content.h"

/* card_demo - a flatbed with n_ground grounds (at most 8), with or without a trailer. */
void card_demo(struct card_content *c, enum unit_system u, int n_ground, bool trailer);

/* card_demo_wide - the widest rig: three axles, a trailer of two, a spare; kPa. */
void card_demo_wide(struct card_content *c, int n_ground);

/* card_demo_trip - a trip of n_leg legs. */
void card_demo_trip(struct card_content *c, int n_leg);

#endif
