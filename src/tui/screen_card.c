#include "tui/screen_card.h"

#include <stdio.h>
#include <string.h>

#include "tui/model.h"
#include "tui/widget.h"

static const struct {
    const char *name, *words;
} sizes[] = {{"3x5", "3 x 5 inches"}, {"a6", "A6"}, {"quarter", "a quarter of letter paper"}};

enum { SIZES = sizeof sizes / sizeof *sizes };

void card_enter(struct model *m)
{
    int size = m->at.card.size;
    m->at.card = (struct card_state){.size = size};
}

static void make(struct model *m)
{
    struct card_state *s = &m->at.card;
    struct text said = text_over(s->said, sizeof s->said);
    text_clear(&said);
    s->path[0] = '\0';
    s->failed = !m->host->card(m->host->self, &m->outing.rig, &m->outing.conditions, model_units(m),
                               sizes[s->size].name, s->path, &said);
    m->effects |= s->failed ? EFFECT_BEEP : EFFECT_NONE;
}

static void print(struct model *m)
{
    struct card_state *s = &m->at.card;
    struct text said = text_over(s->said, sizeof s->said);
    text_clear(&said);
    if (s->path[0] == '\0') {
        text_put(&said, "First make it: Enter.");
        return;
    }
    s->failed = !m->host->print(m->host->self, s->path, &said);
    m->effects |= s->failed ? EFFECT_BEEP : EFFECT_NONE;
}

bool card_act(struct model *m, enum action a, int key)
{
    (void)key;
    struct card_state *s = &m->at.card;
    if (a == ACT_CARD_MAKE)
        make(m);
    else if (a == ACT_CARD_PRINT)
        print(m);
    else if (a == ACT_NEXT || a == ACT_DOWN || a == ACT_UP)
        *s = (struct card_state){.size = (s->size + (a == ACT_UP ? SIZES - 1 : 1)) % SIZES};
    else
        return false;
    return true;
}

void card_render(const struct model *m, struct frame *f, struct rect body)
{
    const struct card_state *s = &m->at.card;
    struct rect in = panel_put(f, (struct rect){body.row + body.rows - 7, 0, 7, body.cols},
                               "Glovebox card of this rig");
    for (int i = 0; i < SIZES; i++)
        frame_printf(f, in.row + i, in.col + 1, i == s->size ? STYLE_CHOSEN : STYLE_LABEL,
                     i == s->size ? "> %s " : "  %s ", sizes[i].words);
    struct rect below = {in.row + SIZES, in.col + 1, 3, in.cols - 2};
    if (s->said[0] != '\0') {
        frame_wrap(f, below, s->failed ? STYLE_ERROR : STYLE_GOOD, s->said);
    } else if (s->path[0] != '\0') {
        char line[HOST_PATH + 40];
        snprintf(line, sizeof line, "Made: %s  (p prints it)", s->path);
        frame_wrap(f, below, STYLE_GOOD, line);
    } else {
        frame_wrap(f, below, STYLE_LABEL, "Enter makes a PDF in the current folder, over nothing.");
    }
}
