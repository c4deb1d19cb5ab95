/* screens.c - the table of screens. */
#include "tui/screen.h"

#include "tui/model.h"

#define FOOTER(...) ((const enum action[]){__VA_ARGS__, ACT_NONE})

// clang-format off
static const struct screen screens[SCREEN_COUNT] = {
    [SCREEN_QUESTIONS] = {
        .title = "Three questions", .context = KEYS_QUESTIONS, .open = ACT_NONE,
        .footer = FOOTER(ACT_COMMIT, ACT_FIELD_NEXT, ACT_ASK_SAVE, ACT_ASK_OPEN, ACT_BACK, ACT_TYPING_ABANDON),
        .typing = questions_typing, .enter = questions_enter, .type = questions_type,
        .act = questions_act, .render = questions_render},
    [SCREEN_CORNERS] = {
        .title = "Corners", .context = KEYS_SESSION, .open = ACT_CORNERS,
        .footer = FOOTER(ACT_GROUND, ACT_WEIGHTS, ACT_FOOTPRINT, ACT_HOOKUPS, ACT_CLOCK, ACT_HELP, ACT_UNDO, ACT_AIR,
                         ACT_SPEED, ACT_CROSS, ACT_EDIT, ACT_BASIS, ACT_UNITS, ACT_CARD, ACT_CAUTIONS, ACT_RIGS, ACT_SAVE, ACT_BACK),
        .render = corners_render},
    [SCREEN_FOOTPRINT] = {
        .title = "Footprint", .context = KEYS_SESSION, .open = ACT_FOOTPRINT,
        .footer = FOOTER(ACT_NEXT, ACT_GROUND, ACT_WEIGHTS, ACT_CORNERS, ACT_BASIS, ACT_HELP, ACT_BACK),
        .render = footprint_render},
    [SCREEN_CLOCK] = {
        .title = "Air clock", .context = KEYS_CLOCK, .open = ACT_CLOCK, .job = CAUTION_JOB_UP,
        .footer = FOOTER(ACT_CLOCK_AIR, ACT_CLOCK_TAKE, ACT_CLOCK_ALL, ACT_UNDO, ACT_CLOCK_OFF, ACT_CLOCK_FLOWING,
                         ACT_CLOCK_END, ACT_CLOCK_MUTE, ACT_CLOCK_TURN, ACT_CLOCK_HOOKUP, ACT_CLOCK_TARGET,
                         ACT_CLOCK_REST, ACT_CLOCK_CORE, ACT_HELP, ACT_BACK),
        .typing = clock_typing, .enter = clock_enter, .type = clock_type,
        .act = clock_act, .render = clock_render},
    [SCREEN_HOOKUPS] = {
        .title = "Hook-ups", .context = KEYS_SESSION, .open = ACT_HOOKUPS, .tells_steps = true, .job = CAUTION_JOB_UP,
        .footer = FOOTER(ACT_DOWN, ACT_PAGE_DOWN, ACT_GROUND, ACT_WEIGHTS, ACT_CORNERS, ACT_BASIS, ACT_HELP, ACT_BACK),
        .enter = hookups_enter, .act = hookups_act, .render = hookups_render},
    [SCREEN_TRIP] = {
        .title = "Trip", .context = KEYS_TRIP, .open = ACT_TRIP,
        .footer = FOOTER(ACT_TRIP_OPEN, ACT_DOWN, ACT_UP, ACT_PAGE_DOWN, ACT_TRIP_CARD, ACT_UNITS, ACT_CORNERS, ACT_HELP, ACT_BACK),
        .enter = trip_enter, .act = trip_act, .render = trip_render},
    [SCREEN_WORKING] = {
        .title = "Working", .context = KEYS_WORKING, .open = ACT_BASIS,
        .footer = FOOTER(ACT_SEARCH, ACT_SEARCH_NEXT, ACT_DOWN, ACT_UP, ACT_PAGE_DOWN, ACT_CORNERS, ACT_BACK),
        .typing = working_typing, .enter = working_enter, .type = working_type,
        .act = working_act, .render = working_render},
    [SCREEN_HELP] = {
        .title = "Cautions and help", .context = KEYS_SESSION, .open = ACT_HELP,
        .footer = FOOTER(ACT_DOWN, ACT_UP, ACT_PAGE_DOWN, ACT_CAUTIONS, ACT_HELP, ACT_CORNERS, ACT_BACK),
        .act = help_act, .render = help_render},
    [EDITOR_GROUND] = {
        .title = "Ground", .context = KEYS_CHOOSER, .open = ACT_GROUND,
        .footer = FOOTER(ACT_TAKE, ACT_DOWN, ACT_UP, ACT_BACK),
        .enter = ground_enter, .act = ground_act, .render = ground_render},
    [EDITOR_WEIGHTS] = {
        .title = "Weights", .context = KEYS_WEIGHTS, .open = ACT_WEIGHTS,
        .footer = FOOTER(ACT_ITEM_SWITCH, ACT_ITEM_CHANGE, ACT_ITEM_ADD, ACT_UNDO, ACT_DOWN, ACT_UP, ACT_BACK),
        .typing = weights_typing, .enter = weights_enter, .type = weights_type,
        .act = weights_act, .render = weights_render},
    [EDITOR_AIR] = {
        .title = "The day", .context = KEYS_SESSION, .open = ACT_AIR,
        .footer = FOOTER(ACT_COMMIT, ACT_FIELD_NEXT, ACT_TYPING_ABANDON),
        .typing = form_typing, .enter = form_enter, .type = form_type, .act = form_act, .render = form_render},
    [EDITOR_SPEED] = {
        .title = "Speed", .context = KEYS_SESSION, .open = ACT_SPEED,
        .footer = FOOTER(ACT_COMMIT, ACT_TYPING_ABANDON),
        .typing = form_typing, .enter = form_enter, .type = form_type, .act = form_act, .render = form_render},
    [EDITOR_CROSS] = {
        .title = "Side slope", .context = KEYS_SESSION, .open = ACT_CROSS,
        .footer = FOOTER(ACT_COMMIT, ACT_TYPING_ABANDON),
        .typing = form_typing, .enter = form_enter, .type = form_type, .act = form_act, .render = form_render},
    [EDITOR_VALUES] = {
        .title = "Values", .context = KEYS_CHOOSER, .open = ACT_EDIT,
        .footer = FOOTER(ACT_TAKE, ACT_FIND, ACT_DOWN, ACT_UP, ACT_PAGE_DOWN, ACT_BACK),
        .typing = values_typing, .enter = values_enter, .type = values_type,
        .act = values_act, .render = values_render},
    [EDITOR_RIGS] = {
        .title = "Rigs", .context = KEYS_CHOOSER, .open = ACT_RIGS,
        .footer = FOOTER(ACT_TAKE, ACT_DOWN, ACT_UP, ACT_BACK),
        .enter = rigs_enter, .act = rigs_act, .render = rigs_render},
    [EDITOR_SAVE] = {
        .title = "Save", .context = KEYS_CONFIRM, .open = ACT_SAVE,
        .footer = FOOTER(ACT_COMMIT, ACT_TYPING_ABANDON),
        .typing = save_typing, .enter = save_enter, .type = save_type, .act = save_act, .render = save_render},
    [EDITOR_CARD] = {
        .title = "Card", .context = KEYS_CARD, .open = ACT_CARD,
        .footer = FOOTER(ACT_CARD_MAKE, ACT_CARD_PRINT, ACT_NEXT, ACT_BACK),
        .enter = card_enter, .act = card_act, .render = card_render},
    [EDITOR_DANGER] = {
        .title = "Danger", .context = KEYS_DANGER, .open = ACT_NONE,
        .footer = FOOTER(ACT_ACKNOWLEDGE, ACT_BACK),
        .act = danger_act, .render = danger_render},
    [EDITOR_RESUME] = {
        .title = "Unfinished", .context = KEYS_CONFIRM, .open = ACT_NONE,
        .footer = FOOTER(ACT_YES, ACT_NO, ACT_BACK),
        .act = resume_act, .render = resume_render},
};
// clang-format on

const struct screen *screen_of(enum screen_id id)
{
    return &screens[(unsigned)id < SCREEN_COUNT ? id : SCREEN_NONE];
}

enum screen_id screen_opened_by(enum action a)
{
    if (a == ACT_CAUTIONS)
        return SCREEN_HELP;
    for (int id = SCREEN_NONE + 1; a != ACT_NONE && id < SCREEN_COUNT; id++)
        if (screens[id].open == a)
            return (enum screen_id)id;
    return SCREEN_NONE;
}
