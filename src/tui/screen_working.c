#include "tui/screen_working.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

#include "core/advice_working.h"
#include "sim/forecast_working.h"
#include "sim/refill_working.h"
#include "tui/clock_rows.h"
#include "tui/model.h"

/* a row of the whole rig, or of the axle or one of its corners */
static bool concerns(const struct working_row *row, enum axle_id x)
{
    size_t n = strlen(axle_name(x));
    return row->where[0] == '\0' ||
           (strncmp(row->where, axle_name(x), n) == 0 && strchr("-", row->where[n]) != NULL);
}

/* The forecast's; until there is one, the plan's. */
static void clock_rows(const struct clock_job *j, struct working *w)
{
    if (j->known) {
        forecast_working(&j->forecast, &j->session, &j->out, w);
        return;
    }
    for (int i = 0; i < REFILL_CORNERS; i++) {
        struct down_corner d;
        struct down_result r;
        if (clock_down_of(&j->session, i, &d, &r))
            down_working(&d, &r,
                         corner_name((enum axle_id)(i / SIDE_COUNT), (enum side)(i % SIDE_COUNT)),
                         w);
    }
}

void working_fill(struct model *m)
{
    struct working *w = &m->working;
    bool clock = m->before == SCREEN_CLOCK, up = m->at.clock.job.session.up;
    int kept = 0;
    w->n = 0;
    if (clock && (m->at.clock.job.known || !up)) {
        clock_rows(&m->at.clock.job, w);
        return;
    }
    if (m->results.status < STATUS_OK)
        return;
    if ((clock || m->before == SCREEN_HOOKUPS) && m->results.refill.status >= STATUS_OK) {
        refill_working(&m->results.refill.in, &m->results.refill.out, w);
        return;
    }
    advice_working(&m->results.advice, w);
    if (m->before != SCREEN_FOOTPRINT)
        return;
    for (int i = 0; i < w->n; i++)
        if (concerns(&w->row[i], m->axle))
            w->row[kept++] = w->row[i];
    w->n = kept;
}

void working_enter(struct model *m)
{
    working_fill(m);
    m->at.working.list = (struct list){0, 0};
    m->at.working.searching = false;
}

bool working_typing(const struct model *m)
{
    return m->at.working.searching;
}

/* whether words occur in a text, whatever the case */
static bool occurs(const char *text, const char *words)
{
    size_t n = strlen(words);
    for (; *text != '\0'; text++)
        if (strncasecmp(text, words, n) == 0)
            return true;
    return false;
}

static bool row_has(const struct model *m, int i, const char *words)
{
    char text[1024];
    struct text t = text_over(text, sizeof text);
    working_put(&m->working.row[i], model_units(m), 200, &t);
    return occurs(text, words);
}

/* to the next row with the words, from row from on and round again */
static void search(struct model *m, int from)
{
    struct working_state *w = &m->at.working;
    int n = m->working.n;
    for (int i = 0; i < n && w->words.text[0] != '\0'; i++)
        if (row_has(m, (from + i) % n, w->words.text)) {
            w->list.at = w->list.top = (from + i) % n;
            return;
        }
    if (w->words.text[0] != '\0')
        model_say(m, STYLE_NOTE, "Not found: %s", w->words.text);
}

void working_type(struct model *m, int key)
{
    if (entry_key(&m->at.working.words, key))
        search(m, m->at.working.list.at);
}

static bool typing_act(struct model *m, enum action a)
{
    struct working_state *w = &m->at.working;
    if (entry_act(&w->words, a)) {
        search(m, w->list.at);
        return true;
    }
    if (a == ACT_COMMIT || a == ACT_TYPING_ABANDON)
        w->searching = false;
    return true;
}

bool working_act(struct model *m, enum action a, int key)
{
    (void)key;
    struct working_state *w = &m->at.working;
    if (w->searching)
        return typing_act(m, a);
    if (a == ACT_SEARCH) {
        w->searching = true;
        entry_set(&w->words, "");
        return true;
    }
    if (a == ACT_SEARCH_NEXT) {
        search(m, w->list.at + 1);
        return true;
    }
    return list_move(&w->list, a, m->working.n, 5);
}

/* a row's text: its first line is the number itself */
static int row_put(const struct model *m, struct frame *f, struct rect r, int i)
{
    char text[1024], line[256];
    struct text t = text_over(text, sizeof text);
    int rows = 0;
    bool marked = i == m->at.working.list.at;
    working_put(&m->working.row[i], model_units(m), r.cols - 2, &t);
    for (const char *s = text; *s != '\0'; rows++) {
        size_t n = strcspn(s, "\n");
        snprintf(line, sizeof line, "%.*s", (int)(n < 255 ? n : 255), s);
        if (rows < r.rows)
            frame_put_within(f, r.row + rows, r.col + 2, r.cols - 2,
                             rows == 0 ? STYLE_VALUE : STYLE_LABEL, line);
        s += n + (s[n] == '\n');
    }
    if (marked && r.rows > 0)
        frame_put(f, r.row, r.col, STYLE_CHOSEN, ">");
    return rows;
}

void working_render(const struct model *m, struct frame *f, struct rect body)
{
    const struct working_state *w = &m->at.working;
    int row = body.row + 1, end = body.row + body.rows;
    frame_printf(f, body.row, 1, STYLE_TITLE, "%s: what it stands on, %d of %d",
                 screen_of(m->before)->title, m->working.n > 0 ? w->list.at + 1 : 0, m->working.n);
    if (w->searching) {
        frame_put(f, body.row, body.cols - 28, STYLE_LABEL, "search");
        entry_put(&w->words, f, body.row, body.cols - 21, 20, true);
    }
    for (int i = w->list.at; i < m->working.n && row < end; i++)
        row += row_put(m, f, (struct rect){row, 1, end - row, body.cols - 2}, i);
}
