#include "tui/screen_questions.h"

#include <stdio.h>
#include <string.h>

#include "tui/chrome.h"
#include "tui/model.h"
#include "tui/widget.h"

static const char *const questions[] = {"tyre size", "front axle", "rear axle", "ground"};

void questions_enter(struct model *m)
{
    m->at.questions.resting = false;
}

bool questions_typing(const struct model *m)
{
    return !m->at.questions.resting;
}

static void answer(const struct entry *e, const char *unit, char out[HOST_VALUE])
{
    bool bare =
        unit[0] != '\0' && e->text[0] != '\0' && e->text[strspn(e->text, "0123456789. ")] == '\0';
    snprintf(out, HOST_VALUE, "%.60s%s%s", e->text, bare ? " " : "", bare ? unit : "");
}

/* the rig of the answers, if they make one; an older answer is not left standing */
static void try_answers(struct model *m)
{
    struct questions_state *s = &m->at.questions;
    struct rig_source source = {.kind = SOURCE_QUICK, .units = m->outing.units};
    answer(&s->entry[QUESTION_TYRE], "", source.tyre);
    answer(&s->entry[QUESTION_FRONT], "kg", source.front);
    answer(&s->entry[QUESTION_REAR], "kg", source.rear);
    if (!model_open(m, &source, &s->report)) {
        m->outing.has_rig = false;
        m->dirty = true;
    }
}

static bool take_ground(struct model *m, int key)
{
    char letters[GROUND_MAX];
    ground_letters(m->grounds, letters);
    for (int i = 0; i < m->grounds->n; i++)
        if (letters[i] != '\0' && key == letters[i]) {
            m->outing.ground = i;
            m->dirty = true;
            return true;
        }
    return false;
}

void questions_type(struct model *m, int key)
{
    struct questions_state *s = &m->at.questions;
    if (s->at == QUESTION_GROUND)
        take_ground(m, key);
    else if (entry_key(&s->entry[s->at], key))
        try_answers(m);
}

static void commit(struct model *m)
{
    struct questions_state *s = &m->at.questions;
    if (m->outing.has_rig && m->results.status >= STATUS_OK && s->at == QUESTION_GROUND) {
        model_go(m, SCREEN_CORNERS);
        return;
    }
    bool wrong = s->at < QUESTION_GROUND && s->report.field == s->at &&
                 s->entry[s->at].text[0] != '\0' && !m->outing.has_rig;
    if (wrong)
        m->effects |= EFFECT_BEEP;
    else if (s->at == QUESTION_GROUND)
        s->at = s->report.field >= 0 ? s->report.field : QUESTION_TYRE;
    else
        s->at++;
}

static bool typing_act(struct model *m, enum action a)
{
    struct questions_state *s = &m->at.questions;
    if (a == ACT_FIELD_NEXT)
        s->at = (s->at + 1) % QUESTIONS;
    else if (a == ACT_FIELD_BEFORE)
        s->at = (s->at + QUESTIONS - 1) % QUESTIONS;
    else if (a == ACT_COMMIT)
        commit(m);
    else if (a == ACT_TYPING_ABANDON)
        s->resting = true;
    else if (s->at < QUESTION_GROUND && entry_act(&s->entry[s->at], a))
        try_answers(m);
    else
        return false;
    return true;
}

bool questions_act(struct model *m, enum action a, int key)
{
    struct questions_state *s = &m->at.questions;
    if (a == ACT_ASK_OPEN) {
        model_edit(m, EDITOR_RIGS);
        return true;
    }
    if (a == ACT_ASK_SAVE) {
        if (m->outing.has_rig)
            model_edit(m, EDITOR_SAVE);
        else
            model_say(m, STYLE_ERROR, "First the three answers.");
        return true;
    }
    if (!s->resting)
        return typing_act(m, a);
    if (a == ACT_NEXT || a == ACT_DOWN || a == ACT_UP || key == TKEY_ENTER) {
        s->resting = false;
        return true;
    }
    return false;
}

static void question_put(const struct model *m, struct frame *f, struct rect r, int i)
{
    static const char *const hints[] = {"as moulded: 35x12.50R17LT 121",
                                        "kg, weighed as it travels", "kg"};
    const struct questions_state *s = &m->at.questions;
    bool active = i == s->at && !s->resting;
    frame_put(f, r.row, r.col, active ? STYLE_TITLE : STYLE_LABEL, questions[i]);
    entry_put(&s->entry[i], f, r.row, r.col + 11, r.cols - 11, active);
    bool wrong = s->report.field == i && s->entry[i].text[0] != '\0' && !m->outing.has_rig;
    frame_put_within(f, r.row + 1, r.col + 2, r.cols - 2, wrong ? STYLE_ERROR : STYLE_LABEL,
                     wrong ? s->report.message : hints[i]);
}

static void grounds_put(const struct model *m, struct frame *f, struct rect r)
{
    char letters[GROUND_MAX];
    int half = (m->grounds->n + 1) / 2;
    bool active = m->at.questions.at == QUESTION_GROUND && !m->at.questions.resting;
    ground_letters(m->grounds, letters);
    frame_put(f, r.row, r.col, active ? STYLE_TITLE : STYLE_LABEL, "ground: a letter");
    for (int i = 0; i < m->grounds->n; i++) {
        int row = r.row + 1 + i % half, col = r.col + i / half * (r.cols / 2);
        bool chosen = i == m->outing.ground;
        if (i % half >= r.rows - 1)
            continue;
        frame_printf(f, row, col, active ? STYLE_KEY : STYLE_LABEL, "%c",
                     letters[i] ? letters[i] : ' ');
        frame_put_within(f, row, col + 2, r.cols / 2 - 3, chosen ? STYLE_CHOSEN : STYLE_PLAIN,
                         m->grounds->item[i].title);
    }
}

static void pressure_put(const struct model *m, struct frame *f, int row, int col, enum axle_id x)
{
    char digits[32], road[32];
    const struct axle_advice *a = &m->results.advice.axle[x];
    enum unit_system u = model_units(m);
    frame_put(f, row + 1, col, STYLE_TITLE, axle_name(x));
    int width = big_put(f, row, col + 7, 3, cold_bare(m, digits, a->target_gauge_pa));
    frame_put(f, row + 2, col + 8 + width, STYLE_LABEL, units_symbol(Q_PRESSURE, u));
    frame_printf(f, row + 1, col + 8 + width, STYLE_LABEL, "road %s",
                 cold_bare(m, road, a->road_gauge_pa));
}

static void assumed_put(const struct model *m, struct frame *f, struct rect r)
{
    const struct load_report *report = &m->at.questions.report;
    for (int i = 0, row = 0; i < report->n_assumed && row < r.rows; i++)
        row += frame_wrap(f, (struct rect){r.row + row, r.col, r.rows - row, r.cols}, STYLE_LABEL,
                          report->assumed[i]);
}

static void answer_put(const struct model *m, struct frame *f, struct rect r)
{
    char cap[32];
    frame_put(f, r.row, r.col, STYLE_TITLE, "target pressures");
    if (!m->outing.has_rig) {
        frame_wrap(f, (struct rect){r.row + 2, r.col, 4, r.cols}, STYLE_LABEL,
                   "They stand here as soon as the tyre and both axles are known.");
        return;
    }
    if (m->results.status < STATUS_OK) {
        refused_put(m, f, r);
        return;
    }
    pressure_put(m, f, r.row + 2, r.col, AXLE_FRONT);
    pressure_put(m, f, r.row + 6, r.col, AXLE_REAR);
    if (m->results.advice.cap_mps.is)
        frame_printf(f, r.row + 10, r.col, STYLE_VALUE, "cap %s",
                     quantity_text(cap, m->results.advice.cap_mps.v, Q_SPEED, model_units(m)));
    assumed_put(m, f, (struct rect){r.row + 12, r.col, r.rows - 12, r.cols});
}

void questions_render(const struct model *m, struct frame *f, struct rect body)
{
    int left = body.cols * 11 / 20;
    for (int i = 0; i < QUESTION_GROUND; i++)
        question_put(m, f, (struct rect){body.row + 2 * i, 1, 2, left - 2}, i);
    grounds_put(m, f,
                (struct rect){body.row + 2 * QUESTION_GROUND, 1, body.rows - 2 * QUESTION_GROUND,
                              left - 2});
    answer_put(m, f, (struct rect){body.row, left, body.rows, body.cols - left - 1});
}
