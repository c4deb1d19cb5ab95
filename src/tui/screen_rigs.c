#include "tui/screen_rigs.h"

#include <stdio.h>
#include <string.h>

#include "tui/model.h"

void rigs_enter(struct model *m)
{
    struct rigs_state *s = &m->at.rigs;
    s->n = m->host->rigs(m->host->self, HOST_RIGS, s->rig);
    s->list = (struct list){0, 0};
    s->why[0] = '\0';
}

static void open_marked(struct model *m)
{
    struct rigs_state *s = &m->at.rigs;
    struct rig_source source = {.kind = SOURCE_FILE};
    struct load_report report;
    struct outing before = m->outing;
    snprintf(source.path, sizeof source.path, "%s", s->rig[s->list.at].path);
    if (!model_open(m, &source, &report)) {
        snprintf(s->why, sizeof s->why, "%s", report.message);
        m->effects |= EFFECT_BEEP;
        return;
    }
    if (before.has_rig)
        model_changed(m, &before, "rig %s", m->outing.rig.name);
    model_leave(m);
    model_go(m, SCREEN_CORNERS);
}

bool rigs_act(struct model *m, enum action a, int key)
{
    (void)key;
    struct rigs_state *s = &m->at.rigs;
    if (a != ACT_TAKE)
        return list_move(&s->list, a, s->n, m->rows - 12);
    if (s->n > 0)
        open_marked(m);
    return true;
}

static void row_put(const struct rigs_state *s, struct frame *f, struct rect r, int i)
{
    enum style style = i == s->list.at ? STYLE_CHOSEN : STYLE_PLAIN;
    int name = r.cols * 2 / 5;
    frame_fill(f, r, style, " ");
    frame_put_within(f, r.row, r.col + 1, name - 2, style, s->rig[i].name);
    frame_put_within(f, r.row, r.col + name, r.cols - name - 1, style, s->rig[i].load_state);
}

void rigs_render(const struct model *m, struct frame *f, struct rect body)
{
    const struct rigs_state *s = &m->at.rigs;
    struct rect in = panel_put(f, body, "Which rig?");
    int page = in.rows - 5, top = list_top(&s->list, s->n, page);
    for (int i = top; i < s->n && i < top + page; i++)
        row_put(s, f, (struct rect){in.row + i - top, in.col, 1, in.cols}, i);
    struct rect below = {in.row + page + 1, in.col + 1, 4, in.cols - 2};
    if (s->n == 0)
        frame_put(f, in.row, in.col + 1, STYLE_LABEL, "None on the search path.");
    else if (s->why[0] != '\0')
        frame_wrap(f, below, STYLE_ERROR, s->why);
    else
        frame_put_within(f, below.row, below.col, below.cols, STYLE_LABEL, s->rig[s->list.at].path);
}
