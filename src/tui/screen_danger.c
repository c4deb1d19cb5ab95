#include "tui/screen_danger.h"

#include "tui/model.h"
#include "tui/widget.h"

static bool is_unread(const struct model *m, const struct caution *c)
{
    return caution_level_of(c->code) == CAUTION_DANGER && !m->acknowledged[c->code];
}

bool danger_ahead(struct model *m, enum screen_id then)
{
    struct danger_state *s = &m->at.danger;
    s->then = then;
    s->list = m->results.advice.cautions;
    caution_remind(&s->list, screen_of(then)->job, &m->outing.rig);
    for (int i = 0; i < s->list.n; i++)
        if (is_unread(m, &s->list.item[i]))
            return true;
    return false;
}

bool danger_act(struct model *m, enum action a, int key)
{
    (void)key;
    const struct caution_list *list = &m->at.danger.list;
    if (a != ACT_ACKNOWLEDGE)
        return false;
    for (int i = 0; i < list->n; i++)
        if (caution_level_of(list->item[i].code) == CAUTION_DANGER)
            m->acknowledged[list->item[i].code] = true;
    model_leave(m);
    model_go(m, m->at.danger.then);
    return true;
}

void danger_render(const struct model *m, struct frame *f, struct rect body)
{
    const struct caution_list *list = &m->at.danger.list;
    struct rect in = panel_put(f, body, "Before you start");
    int row = in.row + 1;
    for (int i = 0; i < list->n && row < in.row + in.rows - 2; i++) {
        char words[400];
        struct text t = text_over(words, sizeof words);
        if (!is_unread(m, &list->item[i]))
            continue;
        frame_put(f, row, in.col + 1, STYLE_DANGER, " DANGER ");
        caution_put(&list->item[i], model_units(m), &t);
        row +=
            frame_wrap(f, (struct rect){row, in.col + 10, in.row + in.rows - 1 - row, in.cols - 11},
                       STYLE_PLAIN, words);
    }
    frame_put(f, in.row + in.rows - 1, in.col + 1, STYLE_TITLE,
              "Enter: read and heeded, go on.   q: not now.");
}
