#include "tui/screen_values.h"

#include <stdio.h>
#include <string.h>

#include "tui/model.h"

static void fetch(struct model *m)
{
    struct values_state *s = &m->at.values;
    s->n = m->host->values(m->host->self, &m->outing.source, m->outing.n_edit, m->outing.edit,
                           HOST_VALUES, s->value);
}

void values_enter(struct model *m)
{
    m->at.values.doing = VALUES_LOOK;
    m->at.values.why[0] = '\0';
    fetch(m);
    if (m->at.values.list.at >= m->at.values.n)
        m->at.values.list = (struct list){0, 0};
}

bool values_typing(const struct model *m)
{
    return m->at.values.doing != VALUES_LOOK;
}

/* the first key that holds the words, from the marked one on */
static void find(struct model *m)
{
    struct values_state *s = &m->at.values;
    for (int i = 0; i < s->n; i++) {
        int at = (s->list.at + i) % s->n;
        if (strstr(s->value[at].key, s->entry.text) != NULL) {
            s->list.at = at;
            return;
        }
    }
}

/* what is typed is loaded at once, so that the answer changes with it; a mistake leaves the rig as
 * it was before */
static void try_value(struct model *m)
{
    struct values_state *s = &m->at.values;
    struct load_report report;
    m->outing = s->before;
    s->why[0] = '\0';
    if (!outing_edit(&m->outing, m->host, s->value[s->list.at].key, s->entry.text, &report))
        snprintf(s->why, sizeof s->why, "%s", report.message);
    m->dirty = true;
}

static void changed_entry(struct model *m)
{
    if (m->at.values.doing == VALUES_FIND)
        find(m);
    else
        try_value(m);
}

void values_type(struct model *m, int key)
{
    if (entry_key(&m->at.values.entry, key))
        changed_entry(m);
}

static void commit(struct model *m)
{
    struct values_state *s = &m->at.values;
    const struct host_value *v = &s->value[s->list.at];
    if (s->doing == VALUES_FIND || strcmp(s->entry.text, v->value) == 0) {
        if (s->doing == VALUES_CHANGE)
            m->outing = s->before;
        s->doing = VALUES_LOOK;
        s->why[0] = '\0';
        return;
    }
    if (s->why[0] != '\0') {
        m->effects |= EFFECT_BEEP;
        return;
    }
    model_changed(m, &s->before, "%s = %s", v->key, s->entry.text);
    s->doing = VALUES_LOOK;
    fetch(m);
}

static void abandon(struct model *m)
{
    struct values_state *s = &m->at.values;
    if (s->doing == VALUES_CHANGE) {
        m->outing = s->before;
        m->dirty = true;
    }
    s->doing = VALUES_LOOK;
    s->why[0] = '\0';
}

static void start(struct model *m, const char *text)
{
    m->at.values.doing = VALUES_CHANGE;
    m->at.values.before = m->outing;
    entry_set(&m->at.values.entry, text);
}

bool values_act(struct model *m, enum action a, int key)
{
    (void)key;
    struct values_state *s = &m->at.values;
    if (s->doing != VALUES_LOOK) {
        if (entry_act(&s->entry, a))
            changed_entry(m);
        else if (a == ACT_COMMIT)
            commit(m);
        else if (a == ACT_TYPING_ABANDON)
            abandon(m);
        return true;
    }
    if (a == ACT_TAKE && s->n > 0) {
        start(m, s->value[s->list.at].value);
    } else if (a == ACT_FIND) {
        s->doing = VALUES_FIND;
        entry_set(&s->entry, "");
    } else {
        return list_move(&s->list, a, s->n, m->rows - 11);
    }
    return true;
}

static void row_put(const struct model *m, struct frame *f, struct rect r, int i)
{
    const struct values_state *s = &m->at.values;
    const struct host_value *v = &s->value[i];
    bool marked = i == s->list.at;
    int col = r.col + 30;
    frame_put_within(f, r.row, r.col + 1, 28, marked ? STYLE_CHOSEN : STYLE_LABEL, v->key);
    if (marked && s->doing == VALUES_CHANGE)
        entry_put(&s->entry, f, r.row, col, r.cols - 31, true);
    else
        frame_put_within(f, r.row, col, r.cols - 31,
                         v->value[0] != '\0' ? STYLE_VALUE : STYLE_LABEL,
                         v->value[0] != '\0' ? v->value : "-");
}

void values_render(const struct model *m, struct frame *f, struct rect body)
{
    const struct values_state *s = &m->at.values;
    struct rect in = panel_put(f, body, "Values of the rig, for this session");
    int page = in.rows - 4, top = list_top(&s->list, s->n, page);
    for (int i = top; i < s->n && i < top + page; i++)
        row_put(m, f, (struct rect){in.row + i - top, in.col, 1, in.cols}, i);
    struct rect below = {in.row + page + 1, in.col + 1, 3, in.cols - 2};
    if (s->doing == VALUES_FIND) {
        frame_put(f, below.row, below.col, STYLE_LABEL, "find");
        entry_put(&s->entry, f, below.row, below.col + 5, 24, true);
    } else if (s->why[0] != '\0') {
        frame_wrap(f, below, STYLE_ERROR, s->why);
    } else if (s->n > 0) {
        frame_wrap(f, below, STYLE_LABEL, s->value[s->list.at].help);
    }
}
