#include "tui/screen_weights.h"

#include <stdio.h>
#include <string.h>

#include "tui/model.h"

/* rows of the list: axles first, then items */
static int axle_rows(const struct model *m)
{
    int n = 0;
    for (int x = 0; x < AXLE_COUNT; x++)
        n += m->outing.rig.axle[x].present;
    return n;
}

static enum axle_id axle_of_row(const struct model *m, int row)
{
    for (int x = 0; x < AXLE_COUNT; x++)
        if (m->outing.rig.axle[x].present && row-- == 0)
            return (enum axle_id)x;
    return AXLE_FRONT;
}

static int rows_of(const struct model *m)
{
    return axle_rows(m) + m->outing.rig.n_mass;
}

/* the item of the marked row, -1 for an axle */
static int item_of(const struct model *m)
{
    return m->at.weights.list.at - axle_rows(m);
}

void weights_enter(struct model *m)
{
    memset(&m->at.weights, 0, sizeof m->at.weights);
}

bool weights_typing(const struct model *m)
{
    return m->at.weights.doing != WEIGHTS_LOOK;
}

static void with_unit(const char *text, const char *unit, char out[HOST_VALUE])
{
    bool bare = text[0] != '\0' && text[strspn(text, "+-0123456789. ")] == '\0';
    snprintf(out, HOST_VALUE, "%.60s%s%s", text, bare ? " " : "", bare ? unit : "");
}

static void key_of_row(const struct model *m, char key[HOST_KEY])
{
    int item = item_of(m);
    if (item >= 0)
        outing_mass_key(&m->at.weights.before, m->host, item, "mass", key);
    else
        snprintf(key, HOST_KEY, "%s.axle_load", axle_name(axle_of_row(m, m->at.weights.list.at)));
}

static int edits_of(const struct model *m, struct rig_edit edits[WEIGHTS_FIELDS])
{
    const struct weights_state *s = &m->at.weights;
    static const char *const keys[] = {"what", "mass", "position"};
    static const char *const units[] = {"", "kg", "m"};
    if (s->doing == WEIGHTS_CHANGE) {
        key_of_row(m, edits[0].key);
        with_unit(s->entry[0].text, "kg", edits[0].value);
        return 1;
    }
    for (int i = 0; i < WEIGHTS_FIELDS; i++) {
        outing_mass_key(&s->before, m->host, s->before.rig.n_mass, keys[i], edits[i].key);
        if (i == 0)
            snprintf(edits[i].value, HOST_VALUE, "%.79s", s->entry[i].text);
        else
            with_unit(s->entry[i].text, units[i], edits[i].value);
    }
    return WEIGHTS_FIELDS;
}

static void try_edits(struct model *m)
{
    struct weights_state *s = &m->at.weights;
    struct rig_edit edits[WEIGHTS_FIELDS];
    struct load_report report;
    int n = edits_of(m, edits);
    m->outing = s->before;
    s->why[0] = '\0';
    if (!outing_edits(&m->outing, m->host, n, edits, &report))
        snprintf(s->why, sizeof s->why, "%s", report.message);
    m->dirty = true;
}

void weights_type(struct model *m, int key)
{
    if (entry_key(&m->at.weights.entry[m->at.weights.field], key))
        try_edits(m);
}

static void commit(struct model *m)
{
    struct weights_state *s = &m->at.weights;
    struct rig_edit edits[WEIGHTS_FIELDS];
    if (s->doing == WEIGHTS_ADD && s->field < WEIGHTS_FIELDS - 1) {
        s->field++;
        return;
    }
    try_edits(m);
    if (s->why[0] != '\0') {
        m->effects |= EFFECT_BEEP;
        return;
    }
    edits_of(m, edits);
    if (s->doing == WEIGHTS_ADD)
        model_changed(m, &s->before, "%.30s added", s->entry[0].text);
    else
        model_changed(m, &s->before, "%s = %.24s", edits[0].key, edits[0].value);
    s->doing = WEIGHTS_LOOK;
}

static void typing_act(struct model *m, enum action a)
{
    struct weights_state *s = &m->at.weights;
    int n = s->doing == WEIGHTS_ADD ? WEIGHTS_FIELDS : 1;
    if (entry_act(&s->entry[s->field], a)) {
        try_edits(m);
    } else if (a == ACT_FIELD_NEXT) {
        s->field = (s->field + 1) % n;
    } else if (a == ACT_FIELD_BEFORE) {
        s->field = (s->field + n - 1) % n;
    } else if (a == ACT_COMMIT) {
        commit(m);
    } else if (a == ACT_TYPING_ABANDON) {
        m->outing = s->before;
        m->dirty = true;
        s->why[0] = '\0';
        s->doing = WEIGHTS_LOOK;
    }
}

static void start(struct model *m, bool add)
{
    struct weights_state *s = &m->at.weights;
    char text[32] = "";
    int item = item_of(m);
    double load_kg = item >= 0 ? m->outing.rig.mass[item].mass_kg
                               : m->outing.rig.axle[axle_of_row(m, s->list.at)].load_kg;
    if (!add)
        snprintf(text, sizeof text, "%.6g", load_kg);
    s->doing = add ? WEIGHTS_ADD : WEIGHTS_CHANGE;
    s->before = m->outing;
    s->field = 0;
    s->why[0] = '\0';
    memset(s->entry, 0, sizeof s->entry);
    entry_set(&s->entry[0], text);
}

static void switch_item(struct model *m)
{
    int item = item_of(m);
    struct outing before = m->outing;
    if (item < 0) {
        model_say(m, STYLE_NOTE, "An axle stays. Items below it can be switched.");
        return;
    }
    struct added_mass *mass = &m->outing.rig.mass[item];
    mass->off = !mass->off;
    model_changed(m, &before, "%.40s %s", mass->what, mass->off ? "off" : "on");
}

bool weights_act(struct model *m, enum action a, int key)
{
    (void)key;
    if (m->at.weights.doing != WEIGHTS_LOOK)
        typing_act(m, a);
    else if (a == ACT_ITEM_SWITCH)
        switch_item(m);
    else if (a == ACT_ITEM_CHANGE || a == ACT_ITEM_ADD)
        start(m, a == ACT_ITEM_ADD);
    else if (a == ACT_UNDO)
        return model_undo(m);
    else
        return list_move(&m->at.weights.list, a, rows_of(m), m->rows - 12);
    return true;
}

static void row_put(const struct model *m, struct frame *f, struct rect r, int i)
{
    const struct weights_state *s = &m->at.weights;
    char value[32], place[48] = "", name[RIG_NAME + 8];
    int axles = axle_rows(m);
    bool marked = i == s->list.at, changing = marked && s->doing == WEIGHTS_CHANGE;
    const struct rig *rig = &m->outing.rig;
    double kg = i < axles ? rig->axle[axle_of_row(m, i)].load_kg : rig->mass[i - axles].mass_kg;
    if (i < axles) {
        snprintf(name, sizeof name, "%s axle, weighed", axle_name(axle_of_row(m, i)));
        snprintf(place, sizeof place, "now %s",
                 quantity_text(value, m->results.advice.axle[axle_of_row(m, i)].load_kg, Q_MASS,
                               model_units(m)));
    } else {
        snprintf(name, sizeof name, "%s %s", rig->mass[i - axles].off ? "off" : "on ",
                 rig->mass[i - axles].what);
        snprintf(place, sizeof place,
                 r.cols < 74 ? "%.2f m behind" : "%.2f m behind the front axle",
                 rig->mass[i - axles].position_m);
    }
    frame_put_within(f, r.row, r.col + 1, 28, marked ? STYLE_CHOSEN : STYLE_LABEL, name);
    if (changing)
        entry_put(&s->entry[0], f, r.row, r.col + 30, 10, true);
    else
        frame_put(f, r.row, r.col + 30, STYLE_VALUE,
                  quantity_text(value, kg, Q_MASS, model_units(m)));
    frame_put_within(f, r.row, r.col + 41, r.cols - 42, STYLE_LABEL, place);
}

static void add_put(const struct model *m, struct frame *f, struct rect r)
{
    static const char *const labels[] = {"what", "mass, kg", "m behind the front axle"};
    const struct weights_state *s = &m->at.weights;
    int col = r.col, widths[] = {18, 7, 6};
    for (int i = 0; i < WEIGHTS_FIELDS; i++) {
        int at = frame_put(f, r.row, col, STYLE_LABEL, labels[i]) + 1;
        if (s->doing == WEIGHTS_ADD)
            entry_put(&s->entry[i], f, r.row + 1, col, widths[i], i == s->field);
        col = (at > col + widths[i] ? at : col + widths[i]) + 2;
    }
}

void weights_render(const struct model *m, struct frame *f, struct rect body)
{
    const struct weights_state *s = &m->at.weights;
    struct rect in = panel_put(f, body, "Weights");
    int n = rows_of(m), page = in.rows - 5, top = list_top(&s->list, n, page);
    for (int i = top; i < n && i < top + page; i++)
        row_put(m, f, (struct rect){in.row + i - top, in.col, 1, in.cols}, i);
    struct rect below = {in.row + page + 1, in.col + 1, 2, in.cols - 2};
    if (s->doing == WEIGHTS_ADD)
        add_put(m, f, below);
    below.row += 2;
    if (s->why[0] != '\0')
        frame_wrap(f, below, STYLE_ERROR, s->why);
}
