#include "tui/screen_save.h"

#include <ctype.h>
#include <stdio.h>
#include <string.h>

#include "tui/model.h"
#include "tui/widget.h"

/* a file name to begin with: the rig's name in lower case, dashes for the rest */
static void suggest(const char *name, struct entry *e)
{
    struct text t = text_over(e->text, 40);
    text_clear(&t);
    for (; *name != '\0'; name++)
        if (isalnum((unsigned char)*name))
            text_char(&t, (char)tolower((unsigned char)*name), 1);
        else if (t.len > 0 && t.s[t.len - 1] != '-')
            text_char(&t, '-', 1);
}

void save_enter(struct model *m)
{
    memset(&m->at.save, 0, sizeof m->at.save);
    suggest(m->outing.rig.name, &m->at.save.name);
}

bool save_typing(const struct model *m)
{
    return !m->at.save.confirming;
}

void save_type(struct model *m, int key)
{
    entry_key(&m->at.save.name, key);
    m->at.save.why[0] = '\0';
}

/* what a reload must give again: items that are off are written with no mass */
static struct outing to_write(const struct outing *o, const struct session_host *host)
{
    struct outing w = *o;
    for (int i = 0; i < o->rig.n_mass && w.n_edit < OUTING_EDITS; i++)
        if (o->rig.mass[i].off) {
            struct rig_edit *e = &w.edit[w.n_edit++];
            outing_mass_key(o, host, i, "mass", e->key);
            snprintf(e->value, sizeof e->value, "0 kg");
        }
    return w;
}

/* the session goes on with the file: its changes are no longer changes */
static void go_on_with(struct model *m, const char *path)
{
    struct rig_source source = {.kind = SOURCE_FILE};
    struct load_report report;
    snprintf(source.path, sizeof source.path, "%s", path);
    if (outing_open(&m->outing, m->host, &source, &report))
        m->dirty = true;
}

static void save(struct model *m, bool overwrite)
{
    struct save_state *s = &m->at.save;
    struct outing w = to_write(&m->outing, m->host);
    char path[HOST_PATH] = "";
    struct text why = text_over(s->why, sizeof s->why);
    text_clear(&why);
    enum host_saved saved = m->host->save(m->host->self, &w.source, w.n_edit, w.edit, s->name.text,
                                          overwrite, path, &why);
    s->confirming = saved == HOST_EXISTS;
    if (saved == HOST_SAVED) {
        model_leave(m);
        go_on_with(m, path);
        model_say(m, STYLE_GOOD, "Saved as %s", path);
    } else {
        m->effects |= EFFECT_BEEP;
    }
}

bool save_act(struct model *m, enum action a, int key)
{
    (void)key;
    struct save_state *s = &m->at.save;
    if (s->confirming) {
        if (a == ACT_YES)
            save(m, true);
        else if (a == ACT_NO || a == ACT_BACK || a == ACT_ABANDON)
            s->confirming = false;
        return true;
    }
    if (entry_act(&s->name, a))
        s->why[0] = '\0';
    else if (a == ACT_COMMIT && s->name.text[0] != '\0')
        save(m, false);
    else if (a == ACT_TYPING_ABANDON)
        model_leave(m);
    return true;
}

void save_render(const struct model *m, struct frame *f, struct rect body)
{
    const struct save_state *s = &m->at.save;
    struct rect r = {body.row + body.rows - 5, 0, 5, body.cols};
    struct rect in = panel_put(f, r, "Save as a rig");
    frame_put(f, in.row, in.col + 1, STYLE_LABEL, "name");
    entry_put(&s->name, f, in.row, in.col + 7, in.cols - 8, !s->confirming);
    struct rect below = {in.row + 1, in.col + 1, 3, in.cols - 2};
    if (s->confirming)
        frame_wrap(f, below, STYLE_CAUTION,
                   "There is a rig of that name. Write over it? y yes, n no");
    else if (s->why[0] != '\0')
        frame_wrap(f, below, STYLE_ERROR, s->why);
    else
        frame_wrap(f, below, STYLE_LABEL,
                   "Enter writes it to your own rigs. Nothing is written over unasked.");
}
