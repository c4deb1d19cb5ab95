#include "tui/screen_ground.h"

#include <stdio.h>
#include <string.h>

#include "tui/chrome.h"
#include "tui/model.h"

static bool is_free(char c, int n, const char letters[])
{
    return c >= 'a' && c <= 'z' && strchr("hjklqz", c) == NULL &&
           memchr(letters, c, (size_t)n) == NULL;
}

void ground_letters(const struct ground_list *grounds, char letters[GROUND_MAX])
{
    memset(letters, 0, GROUND_MAX);
    for (int i = 0; i < grounds->n; i++) {
        const char *c = grounds->item[i].name;
        while (*c != '\0' && !is_free(*c, i, letters))
            c++;
        char letter = *c;
        for (char spare = 'a'; letter == '\0' && spare <= 'z'; spare++)
            if (is_free(spare, i, letters))
                letter = spare;
        letters[i] = letter;
    }
}

void ground_enter(struct model *m)
{
    m->at.ground.list.at = m->outing.ground >= 0 ? m->outing.ground : 0;
}

static int page_of(const struct model *m)
{
    return m->rows - 10;
}

static bool take(struct model *m, int i)
{
    model_leave(m);
    model_ground(m, i);
    return true;
}

bool ground_act(struct model *m, enum action a, int key)
{
    char letters[GROUND_MAX];
    ground_letters(m->grounds, letters);
    for (int i = 0; i < m->grounds->n; i++)
        if (letters[i] != '\0' && key == letters[i])
            return take(m, i);
    if (a == ACT_TAKE)
        return m->grounds->n > 0 && take(m, m->at.ground.list.at);
    return list_move(&m->at.ground.list, a, m->grounds->n, page_of(m));
}

static void targets_put(const struct model *m, int i, struct text *out)
{
    const struct preview *p = &m->results.preview[i];
    char value[32];
    static const enum axle_id shown[] = {AXLE_FRONT, AXLE_MIDDLE, AXLE_REAR, AXLE_TRAILER};
    if (!p->known) {
        text_put(out, "refused");
        return;
    }
    for (size_t k = 0; k < sizeof shown / sizeof *shown; k++)
        if (m->outing.rig.axle[shown[k]].present)
            text_put(out, "%5s", cold_bare(m, value, p->target_gauge_pa[shown[k]]));
}

static void row_put(const struct model *m, struct frame *f, struct rect r, int i, char letter)
{
    const struct ground *g = &m->grounds->item[i];
    char targets[48], cap[32];
    struct text t = text_over(targets, sizeof targets);
    bool marked = m->at.ground.list.at == i;
    enum style style = marked ? STYLE_CHOSEN : STYLE_PLAIN;
    frame_fill(f, r, style, " ");
    frame_printf(f, r.row, r.col + 1, marked ? STYLE_CHOSEN : STYLE_KEY, "%c",
                 letter ? letter : ' ');
    frame_put_within(f, r.row, r.col + 3, 20, style, g->title);
    if (!g->road)
        frame_printf(f, r.row, r.col + 24, style, "%4.4g %%", 100 * g->aim_1);
    if (m->results.preview[i].cap_mps.is)
        frame_printf(f, r.row, r.col + 32, style, "%8s",
                     quantity_text(cap, m->results.preview[i].cap_mps.v, Q_SPEED, model_units(m)));
    targets_put(m, i, &t);
    frame_put(f, r.row, r.col + 41, style, targets);
}

static void columns_put(const struct model *m, struct frame *f, int row, int col)
{
    static const struct {
        enum axle_id axle;
        const char *name;
    } shown[] = {
        {AXLE_FRONT, "front"}, {AXLE_MIDDLE, "mid"}, {AXLE_REAR, "rear"}, {AXLE_TRAILER, "trlr"}};
    frame_put(f, row, col + 24, STYLE_LABEL, "  aim");
    frame_put(f, row, col + 37, STYLE_LABEL, "cap");
    int at = col + 41;
    for (size_t k = 0; k < sizeof shown / sizeof *shown; k++)
        if (m->outing.rig.axle[shown[k].axle].present)
            at = frame_printf(f, row, at, STYLE_LABEL, "%5s", shown[k].name);
    frame_printf(f, row, at + 1, STYLE_LABEL, "%s", units_symbol(Q_PRESSURE, model_units(m)));
}

static void about_put(const struct model *m, struct frame *f, struct rect r)
{
    const struct ground *g = &m->grounds->item[m->at.ground.list.at];
    char line[200];
    if (g->road)
        snprintf(line, sizeof line, "%s: road pressure.", g->title);
    else
        snprintf(line, sizeof line, "aim %.4g to %.4g %%, limit %.4g %%", 100 * g->aim_low_1,
                 100 * g->aim_high_1, 100 * g->limit_1);
    frame_put_within(f, r.row, r.col, r.cols, STYLE_LABEL, line);
    r.row++;
    r.rows--;
    frame_wrap(f, r, STYLE_CAUTION, g->hazards);
}

void ground_render(const struct model *m, struct frame *f, struct rect body)
{
    char letters[GROUND_MAX];
    struct rect in = panel_put(f, body, "Which ground?");
    int page = in.rows - 5, top = list_top(&m->at.ground.list, m->grounds->n, page);
    ground_letters(m->grounds, letters);
    columns_put(m, f, in.row, in.col);
    for (int i = top; i < m->grounds->n && i < top + page; i++)
        row_put(m, f, (struct rect){in.row + 1 + i - top, in.col, 1, in.cols}, i, letters[i]);
    if (m->grounds->n > 0)
        about_put(m, f, (struct rect){in.row + in.rows - 3, in.col + 1, 3, in.cols - 2});
}
