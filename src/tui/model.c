#include "tui/model.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "tui/chrome.h"

void model_say(struct model *m, enum style style, const char *format, ...)
{
    va_list args;
    va_start(args, format);
    vsnprintf(m->message, sizeof m->message, format, args);
    va_end(args);
    m->message_style = style;
}

void model_changed(struct model *m, const struct outing *before, const char *format, ...)
{
    char what[OUTING_WHAT];
    va_list args;
    va_start(args, format);
    vsnprintf(what, sizeof what, format, args);
    va_end(args);
    undo_note(&m->undo, before, what);
    m->dirty = true;
}

enum unit_system model_units(const struct model *m)
{
    return m->outing.units;
}

static const struct screen *uppermost(const struct model *m)
{
    return screen_of(m->editor != SCREEN_NONE ? m->editor : m->screen);
}

static void enter(struct model *m)
{
    if (uppermost(m)->enter != NULL)
        uppermost(m)->enter(m);
}

void model_edit(struct model *m, enum screen_id editor)
{
    m->editor = editor;
    enter(m);
}

void model_leave(struct model *m)
{
    m->editor = SCREEN_NONE;
}

void model_go(struct model *m, enum screen_id screen)
{
    if (screen_of(screen)->tells_steps && danger_ahead(m, screen)) {
        model_edit(m, EDITOR_DANGER);
        return;
    }
    m->editor = SCREEN_NONE;
    if (screen != m->screen && m->screen != SCREEN_HELP && m->screen != SCREEN_WORKING)
        m->before = m->screen;
    m->screen = screen;
    enter(m);
}

void model_ground(struct model *m, int ground)
{
    struct outing before = m->outing;
    if (ground == before.ground)
        return;
    m->outing.ground = ground;
    const struct ground *g = outing_ground(&m->outing, m->grounds);
    model_changed(m, &before, "ground %s", g != NULL ? g->title : "none");
    m->keep_ground = g != NULL;
    m->effects |= EFFECT_SAVE; /* the frame does not wait for the disk */
}

static void keep_ground(struct model *m)
{
    const struct ground *g = outing_ground(&m->outing, m->grounds);
    if (m->keep_ground && g != NULL)
        m->host->used_ground(m->host->self, &m->outing.rig, g->name);
    m->keep_ground = false;
}

static int ground_index(const struct ground_list *grounds, const char *name)
{
    for (int i = 0; i < grounds->n; i++)
        if (strcmp(grounds->item[i].name, name) == 0)
            return i;
    return -1;
}

/* the ground last used with the rig, when none is chosen yet */
static void recall_ground(struct model *m)
{
    char name[GROUND_NAME];
    if (m->outing.ground < 0 && m->host->last_ground(m->host->self, &m->outing.rig, name))
        m->outing.ground = ground_index(m->grounds, name);
}

bool model_open(struct model *m, const struct rig_source *source, struct load_report *report)
{
    if (m->at.clock.job.begun && !m->at.clock.job.session.done) {
        *report = (struct load_report){.field = -1};
        snprintf(report->message, sizeof report->message,
                 "a timed job is going on: end it at the air clock first");
        return false;
    }
    if (!outing_open(&m->outing, m->host, source, report))
        return false;
    memset(m->acknowledged, 0, sizeof m->acknowledged); /* another rig is another job */
    m->axle = AXLE_FRONT;
    m->side = SIDE_LEFT;
    recall_ground(m);
    m->dirty = true;
    return true;
}

static void compute(struct model *m)
{
    m->dirty = false;
    if (!m->outing.has_rig)
        return;
    outing_compute(&m->outing, m->grounds, &m->results);
    outing_refill_compute(&m->outing, m->grounds, &m->results);
    clock_follow(m);
    trip_follow(m);
    if (m->screen == SCREEN_WORKING)
        working_fill(m);
}

/* the rig that a session starts with; without its changes it is not what was asked for */
static bool open_first(struct model *m, const struct model_start *start, struct load_report *report)
{
    if (start->source.kind == SOURCE_NONE || !model_open(m, &start->source, report))
        return false;
    if (start->n_edit == 0 || outing_edits(&m->outing, m->host, start->n_edit, start->edit, report))
        return true;
    m->outing.has_rig = false;
    return false;
}

enum status model_init(const struct model_start *start, struct model *m, struct load_report *report)
{
    memset(m, 0, sizeof *m);
    m->host = start->host;
    m->grounds = start->grounds;
    m->outing.ground = -1;
    m->outing.conditions = start->conditions;
    m->screen = m->before = SCREEN_QUESTIONS;
    *report = (struct load_report){.field = -1};
    bool asked = start->ground != NULL && start->ground[0] != '\0';
    if (asked)
        m->outing.ground = ground_index(m->grounds, start->ground);
    if (asked && m->outing.ground < 0)
        return STATUS_E_UNKNOWN;
    bool opened = open_first(m, start, report);
    if (start->has_units)
        m->outing.units = start->units;
    if (opened)
        m->screen = m->before = SCREEN_CORNERS;
    compute(m);
    enter(m);
    resume_offer(m);
    return opened || start->source.kind == SOURCE_NONE ? STATUS_OK : STATUS_E_MISSING;
}

bool model_undo(struct model *m)
{
    char what[OUTING_WHAT];
    if (!undo_take(&m->undo, &m->outing, what)) {
        model_say(m, STYLE_NOTE, "Nothing to undo.");
        m->effects |= EFFECT_BEEP;
        return true;
    }
    m->dirty = true;
    model_say(m, STYLE_NOTE, "Undone: %s. %d more.", what, m->undo.n);
    return true;
}

static void next_units(struct model *m)
{
    struct outing before = m->outing;
    m->outing.units = before.units == UNITS_PSI   ? UNITS_BAR
                      : before.units == UNITS_BAR ? UNITS_KPA
                                                  : UNITS_PSI;
    if (before.source.kind == SOURCE_QUICK && before.has_rig) {
        struct load_report report;
        m->outing.source.units = m->outing.units;
        if (!outing_edits(&m->outing, m->host, 0, NULL, &report))
            m->outing.source.units = before.units;
    }
    model_changed(m, &before, "unit %s", units_name(m->outing.units));
}

static void pick_axle(struct model *m, int step)
{
    for (int x = (int)m->axle + step; x >= 0 && x < AXLE_COUNT; x += step)
        if (m->outing.rig.axle[x].present) {
            m->axle = (enum axle_id)x;
            return;
        }
}

/* the next corner round the rig, by rows */
static void pick_next(struct model *m, int step)
{
    int n = AXLE_COUNT * SIDE_COUNT, at = REFILL_CORNER(m->axle, m->side);
    do {
        at = (at + step + n) % n;
    } while (!m->outing.rig.axle[at / SIDE_COUNT].present);
    m->axle = (enum axle_id)(at / SIDE_COUNT);
    m->side = (enum side)(at % SIDE_COUNT);
}

static void pick(struct model *m, enum action a)
{
    if (a == ACT_LEFT)
        m->side = SIDE_LEFT;
    else if (a == ACT_RIGHT)
        m->side = SIDE_RIGHT;
    else if (a == ACT_UP || a == ACT_DOWN)
        pick_axle(m, a == ACT_UP ? -1 : 1);
    else if (a == ACT_NEXT || a == ACT_PREVIOUS)
        pick_next(m, a == ACT_NEXT ? 1 : -1);
}

/* changes of the rig that no file holds are left only by a second q, air that flows by a y */
static void leave(struct model *m, bool asked_before)
{
    m->leaving = clock_flows(m) || (m->outing.n_edit > 0 && !asked_before);
    if (clock_flows(m)) {
        model_say(m, STYLE_DANGER,
                  "AIR IS FLOWING. Leave all the same? y leaves, the record stays open.");
        m->effects |= EFFECT_BEEP;
    } else if (m->leaving)
        model_say(m, STYLE_CAUTION,
                  "The rig's changes are not saved. n saves them, q again leaves.");
    else
        m->effects |= EFFECT_QUIT;
}

/* the answer to the question whether to leave while air flows; true: the key had its use */
static bool leave_answered(struct model *m, int key)
{
    if (!m->leaving || !clock_flows(m) || m->editor != SCREEN_NONE)
        return false;
    enum action a = keymap_find(KEYS_CONFIRM, key);
    m->leaving = false;
    m->effects |= a == ACT_YES ? EFFECT_QUIT : 0;
    return a == ACT_YES || a == ACT_NO;
}

static void back(struct model *m, bool asked_before)
{
    enum screen_id home = m->outing.has_rig ? SCREEN_CORNERS : SCREEN_QUESTIONS;
    if (m->screen == home || m->screen == SCREEN_QUESTIONS)
        leave(m, asked_before);
    else /* working and help go back to what they explain */
        model_go(m, m->screen == SCREEN_WORKING || m->screen == SCREEN_HELP ? m->before : home);
}

static void open_by(struct model *m, enum screen_id id)
{
    bool without_rig = id == SCREEN_HELP || id == EDITOR_RIGS;
    if (!m->outing.has_rig && !without_rig)
        model_say(m, STYLE_ERROR, "First the three answers, or open a rig.");
    else if (id >= EDITOR_GROUND)
        model_edit(m, id);
    else
        model_go(m, id);
}

/* a session key that the screen itself had no use for */
static void session_act(struct model *m, enum action a)
{
    bool asked_before = m->leaving;
    m->leaving = false;
    enum screen_id id = screen_opened_by(a);
    if (id == SCREEN_HELP)
        m->at.help = (struct help_state){.cautions = a == ACT_CAUTIONS};
    if (id != SCREEN_NONE)
        open_by(m, id);
    else if (a == ACT_UNDO)
        model_undo(m);
    else if (a == ACT_UNITS)
        next_units(m);
    else if (a == ACT_BACK)
        back(m, asked_before);
    else if (a == ACT_ABANDON && m->screen != SCREEN_QUESTIONS && m->screen != SCREEN_CORNERS)
        back(m, false);
    else if (m->outing.has_rig)
        pick(m, a);
}

static void typed(struct model *m, const struct screen *s, int key)
{
    enum action a = keymap_find(KEYS_TYPING, key);
    if (a == ACT_NONE && (key < ' ' || key > 0x10FFFF))
        a = keymap_find(s->context, key);
    if (a == ACT_NONE || !s->act(m, a, key))
        s->type(m, key);
}

static void pressed(struct model *m, const struct screen *s, int key)
{
    enum action own = s->context == KEYS_SESSION ? ACT_NONE : keymap_find(s->context, key);
    enum action a = keymap_find(KEYS_SESSION, key);
    if (a == ACT_REPAINT)
        m->effects |= EFFECT_REPAINT;
    else if (own != ACT_NONE && s->act != NULL && s->act(m, own, key))
        return;
    else if (s->act != NULL && s->act(m, a, key))
        return;
    else if (m->editor == SCREEN_NONE)
        session_act(m, a);
    else if (a == ACT_BACK || a == ACT_ABANDON)
        model_leave(m);
}

static void key_event(struct model *m, int key)
{
    const struct screen *s = uppermost(m);
    m->message[0] = '\0';
    m->effects |= EFFECT_REDRAW;
    if (key == TKEY_CTRL_C)
        m->effects |= EFFECT_QUIT;
    else if (leave_answered(m, key))
        return;
    else if (s->typing != NULL && s->typing(m) && keymap_find(KEYS_SESSION, key) != ACT_REPAINT)
        typed(m, s, key);
    else
        pressed(m, s, key);
}

int model_update(struct model *m, const struct event *e)
{
    m->effects = EFFECT_NONE;
    m->now_ns = e->now_ns;
    if (e->kind == EVENT_KEY) {
        key_event(m, e->key);
    } else if (e->kind == EVENT_RESIZE) {
        m->rows = e->rows;
        m->cols = e->cols;
        m->effects |= EFFECT_REDRAW | EFFECT_REPAINT;
    } else if (e->kind == EVENT_SIGNAL) {
        m->effects |= e->signal == EVENT_STOP ? EFFECT_SUSPEND : EFFECT_QUIT;
    } else if (e->kind == EVENT_SAVE) {
        keep_ground(m);
        clock_save(m);
    } else {
        clock_tick(m);
    }
    if (m->dirty)
        compute(m);
    return m->effects;
}

int64_t model_next_change(const struct model *m)
{
    return clock_next_change(m);
}

void model_render(const struct model *m, struct frame *f)
{
    if (f->rows < MODEL_ROWS_MIN || f->cols < MODEL_COLS_MIN) {
        chrome_too_small(f);
        return;
    }
    const struct screen *s = screen_of(m->screen), *over = screen_of(m->editor);
    struct rect body = chrome_put(m, f, uppermost(m));
    s->render(m, f, body);
    if (m->editor != SCREEN_NONE)
        over->render(m, f, body);
}

static int client_update(void *self, const struct event *e)
{
    return model_update(self, e);
}

static void client_render(const void *self, struct frame *f)
{
    model_render(self, f);
}

static int64_t client_next(const void *self)
{
    return model_next_change(self);
}

struct loop_client model_client(struct model *m, int64_t (*now_ns)(void))
{
    return (struct loop_client){m, client_update, client_render, client_next, now_ns};
}
