/* screen_questions.h - three questions for someone without a rig: tyre, load, ground; the answer
 * stands beside them and changes while they are typed. */
#ifndef SANDSHOE_TUI_SCREEN_QUESTIONS_H
#define SANDSHOE_TUI_SCREEN_QUESTIONS_H

#include "tui/entry.h"
#include "tui/host.h"
#include "tui/keymap.h"

struct model;

enum { QUESTION_TYRE, QUESTION_FRONT, QUESTION_REAR, QUESTION_GROUND, QUESTIONS };

struct questions_state {
    int at;
    struct entry entry[QUESTION_GROUND]; /* the ground is a letter */
    bool resting; /* Esc: the keys of the session act until a field is entered again */
    struct load_report report;
};

void questions_enter(struct model *m);
bool questions_typing(const struct model *m);
void questions_type(struct model *m, int key);
bool questions_act(struct model *m, enum action a, int key);
void questions_render(const struct model *m, struct frame *f, struct rect body);

#endif
