#include "tui/screen_form.h"

#include <stddef.h>
#include <stdio.h>
#include <string.h>

#include "tui/model.h"
#include "tui/widget.h"

struct form_field {
    const char *label, *unit;
    enum quantity q;
    size_t at; /* of a struct maybe in struct conditions */
    const char *empty;
};

struct form {
    enum screen_id id;
    const char *title;
    int n;
    struct form_field field[FORM_FIELDS];
};

// clang-format off
static const struct form forms[] = {
    {EDITOR_AIR, "The day", 3,
     {{"air temperature", "C", Q_TEMPERATURE, offsetof(struct conditions, air_temp_k), "as on the road"},
      {"tyre temperature", "C", Q_TEMPERATURE, offsetof(struct conditions, tyre_temp_k), "as the air"},
      {"height", "m", Q_LENGTH, offsetof(struct conditions, height_m), "sea level"}}},
    {EDITOR_SPEED, "Speed", 1,
     {{"speed you would like", "km/h", Q_SPEED, offsetof(struct conditions, speed_mps), "none asked"}}},
    {EDITOR_CROSS, "Side slope", 1,
     {{"side slope", "deg", Q_ANGLE, offsetof(struct conditions, cross_slope_rad), "level"}}},
};
// clang-format on

static const struct form *form_of(const struct model *m)
{
    for (size_t i = 0; i < sizeof forms / sizeof *forms; i++)
        if (forms[i].id == m->editor)
            return &forms[i];
    return &forms[0];
}

static struct maybe value_of(const struct conditions *c, const struct form_field *field)
{
    struct maybe v;
    memcpy(&v, (const char *)c + field->at, sizeof v);
    return v;
}

void form_enter(struct model *m)
{
    const struct form *form = form_of(m);
    struct form_state *s = &m->at.form;
    memset(s, 0, sizeof *s);
    s->before = m->outing;
    for (int i = 0; i < form->n; i++) {
        struct maybe v = value_of(&m->outing.conditions, &form->field[i]);
        if (v.is)
            snprintf(s->entry[i].text, sizeof s->entry[i].text, "%.6g",
                     units_in(v.v, form->field[i].q, form->field[i].unit));
    }
}

bool form_typing(const struct model *m)
{
    (void)m;
    return true;
}

/* what can be read counts at once; what cannot leaves the value that was there before */
static void apply(struct model *m)
{
    const struct form *form = form_of(m);
    struct form_state *s = &m->at.form;
    const struct form_field *field = &form->field[s->at];
    struct maybe v = value_of(&s->before.conditions, field);
    struct text why = text_over(s->why[s->at], sizeof s->why[s->at]);
    text_clear(&why);
    if (!entry_value(&s->entry[s->at], field->q, field->unit, &v, &why))
        v = value_of(&s->before.conditions, field);
    memcpy((char *)&m->outing.conditions + field->at, &v, sizeof v);
    m->dirty = true;
}

void form_type(struct model *m, int key)
{
    if (entry_key(&m->at.form.entry[m->at.form.at], key))
        apply(m);
}

/* the first field with a mistake, or -1 */
static int wrong_field(const struct model *m)
{
    for (int i = 0; i < form_of(m)->n; i++)
        if (m->at.form.why[i][0] != '\0')
            return i;
    return -1;
}

static bool changed(const struct model *m)
{
    const struct form *form = form_of(m);
    for (int i = 0; i < form->n; i++) {
        struct maybe was = value_of(&m->at.form.before.conditions, &form->field[i]);
        struct maybe is = value_of(&m->outing.conditions, &form->field[i]);
        if (was.is != is.is || (is.is && (was.v < is.v || was.v > is.v)))
            return true;
    }
    return false;
}

static void commit(struct model *m)
{
    struct form_state *s = &m->at.form;
    int wrong = wrong_field(m);
    if (wrong >= 0) {
        s->at = wrong;
        m->effects |= EFFECT_BEEP;
        return;
    }
    if (changed(m))
        model_changed(m, &s->before, "%s", form_of(m)->title);
    model_leave(m);
}

bool form_act(struct model *m, enum action a, int key)
{
    (void)key;
    struct form_state *s = &m->at.form;
    int n = form_of(m)->n;
    if (entry_act(&s->entry[s->at], a)) {
        apply(m);
    } else if (a == ACT_FIELD_NEXT) {
        s->at = (s->at + 1) % n;
    } else if (a == ACT_FIELD_BEFORE) {
        s->at = (s->at + n - 1) % n;
    } else if (a == ACT_COMMIT) {
        commit(m);
    } else if (a == ACT_TYPING_ABANDON) {
        m->outing = s->before;
        m->dirty = true;
        model_leave(m);
    } else {
        return false;
    }
    return true;
}

void form_render(const struct model *m, struct frame *f, struct rect body)
{
    const struct form *form = form_of(m);
    const struct form_state *s = &m->at.form;
    int rows = 2 + form->n;
    struct rect r = {body.row + body.rows - rows, 0, rows, body.cols};
    struct rect in = panel_put(f, r, form->title);
    for (int i = 0; i < form->n; i++) {
        const struct form_field *field = &form->field[i];
        int row = in.row + i;
        frame_put(f, row, in.col + 1, i == s->at ? STYLE_TITLE : STYLE_LABEL, field->label);
        entry_put(&s->entry[i], f, row, in.col + 23, 10, i == s->at);
        int col = frame_put(f, row, in.col + 34, STYLE_LABEL, field->unit) + 2;
        if (s->why[i][0] != '\0')
            frame_put_within(f, in.row + form->n, in.col + 1, in.cols - 2, STYLE_ERROR, s->why[i]);
        else if (s->entry[i].text[0] == '\0')
            frame_put_within(f, row, col, in.cols - col, STYLE_LABEL, field->empty);
    }
}
