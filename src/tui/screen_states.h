/* screen_states.h - what each screen keeps for itself between two keys. */
#ifndef SANDSHOE_TUI_SCREEN_STATES_H
#define SANDSHOE_TUI_SCREEN_STATES_H

#include "tui/screen_card.h"
#include "tui/screen_clock.h"
#include "tui/screen_corners.h"
#include "tui/screen_danger.h"
#include "tui/screen_footprint.h"
#include "tui/screen_form.h"
#include "tui/screen_ground.h"
#include "tui/screen_help.h"
#include "tui/screen_hookups.h"
#include "tui/screen_questions.h"
#include "tui/screen_resume.h"
#include "tui/screen_rigs.h"
#include "tui/screen_save.h"
#include "tui/screen_trip.h"
#include "tui/screen_values.h"
#include "tui/screen_weights.h"
#include "tui/screen_working.h"

struct screen_states {
    struct card_state card;
    struct clock_state clock;
    struct danger_state danger;
    struct form_state form;
    struct ground_state ground;
    struct help_state help;
    struct hookups_state hookups;
    struct questions_state questions;
    struct rigs_state rigs;
    struct save_state save;
    struct trip_state trip;
    struct values_state values;
    struct weights_state weights;
    struct working_state working;
};

#endif
