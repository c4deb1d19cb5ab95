#include "tui/screen_danger.h"

#include <stdio.h>

#include "tui/model.h"
#include "tui/widget.h"

static bool is_unread(const struct model *m, const struct caution *c)
{
    return caution_level_of(c->code) == CAUTION_DANGER && !m->acknowledged[c->code];
}

/* the clock's act is the way its job goes */
static enum caution_job job_of(const struct model *m, enum screen_id then)
{
    bool down = then == SCREEN_CLOCK && !m->at.clock.job.session.up;
    return down ? CAUTION_JOB_DOWN : screen_of(then)->job;
}

bool danger_ahead(struct model *m, enum screen_id then)
{
    struct danger_state *s = &m->at.danger;
    s->then = then;
    s->list = m->results.advice.cautions;
    caution_remind(&s->list, job_of(m, then), &m->outing.rig);
    for (int i = 0; i < s->list.n; i++)
        if (is_unread(m, &s->list.item[i]))
            return true;
    return false;
}

static struct rect room_of(int rows, int cols)
{
    return (struct rect){4, 11, rows - 9, cols - 13};
}

/* Draw those not yet read that fit whole (one at least), or only count them: f NULL. */
static int unread_put(const struct model *m, struct frame *f, struct rect r,
                      bool shown[CAUTION_LIST])
{
    const struct caution_list *list = &m->at.danger.list;
    struct frame nothing = {.rows = 0};
    int row = 0, n = 0;
    for (int i = 0; i < list->n; i++) {
        char words[400];
        struct text t = text_over(words, sizeof words);
        shown[i] = false;
        if (!is_unread(m, &list->item[i]))
            continue;
        caution_put(&list->item[i], model_units(m), &t);
        int need = frame_wrap(&nothing, (struct rect){0, 0, 0, r.cols}, STYLE_PLAIN, words);
        if (n > 0 && row + need > r.rows)
            break;
        if (f != NULL) {
            frame_put(f, r.row + row, r.col - 9, STYLE_DANGER, " DANGER ");
            frame_wrap(f, (struct rect){r.row + row, r.col, r.rows - row, r.cols}, STYLE_PLAIN,
                       words);
        }
        shown[i] = true;
        row += need;
        n++;
    }
    return n;
}

static int count_unread(const struct model *m)
{
    int n = 0;
    for (int i = 0; i < m->at.danger.list.n; i++)
        n += is_unread(m, &m->at.danger.list.item[i]);
    return n;
}

bool danger_act(struct model *m, enum action a, int key)
{
    (void)key;
    const struct caution_list *list = &m->at.danger.list;
    bool shown[CAUTION_LIST] = {false};
    if (a != ACT_ACKNOWLEDGE)
        return false;
    unread_put(m, NULL, room_of(m->rows, m->cols), shown);
    for (int i = 0; i < list->n; i++)
        if (shown[i])
            m->acknowledged[list->item[i].code] = true;
    if (count_unread(m) > 0)
        return true;
    model_leave(m);
    model_go(m, m->at.danger.then);
    return true;
}

void danger_render(const struct model *m, struct frame *f, struct rect body)
{
    bool shown[CAUTION_LIST] = {false};
    struct rect in = panel_put(f, body, "Before you start");
    int more = count_unread(m) - unread_put(m, f, room_of(f->rows, f->cols), shown);
    char line[80] = "Enter: read and heeded, go on.   q: not now.";
    if (more > 0)
        snprintf(line, sizeof line, "Enter: read and heeded, %d more.   q: not now.", more);
    frame_put(f, in.row + in.rows - 1, in.col + 1, STYLE_TITLE, line);
}
