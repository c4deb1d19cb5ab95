#include "report/list.h"

#include "report/wrap.h"

enum { NAME_COLUMN = 2, NOTE_COLUMN = 22, LABEL_TEXT = 128, NOTE_TEXT = 256 };

static const char *const TITLES[LIST_KINDS] = {"rigs", "trips", "compressors", "past refills"};

static void put_line(const char *name, const char *note, struct text *out)
{
    char label[LABEL_TEXT];
    struct text t = text_over(label, sizeof label);
    text_char(&t, ' ', NAME_COLUMN);
    text_put(&t, "%s", name);
    wrap_put(out, NOTE_COLUMN, label, note);
}

static void put_kind(const struct list_page *page, int kind, struct text *out)
{
    text_put(out, "%s\n", TITLES[kind]);
    for (int i = 0; i < page->n[kind]; i++) {
        put_line(page->entry[kind][i].name, page->entry[kind][i].note, out);
    }
    if (page->n[kind] == 0) {
        text_put(out, "  none\n");
    }
    text_put(out, "\n");
}

static void put_ground(const struct ground *g, enum unit_system u, struct text *out)
{
    char note[NOTE_TEXT];
    struct text t = text_over(note, sizeof note);
    text_put(&t, "%s", g->title);
    if (g->aim_1 > 0.0) {
        text_put(&t, ", deflection %.3g %%, %.3g %% at most", 100.0 * g->aim_1, 100.0 * g->limit_1);
    }
    if (g->cap_mps.is) {
        text_put(&t, ", cap ");
        units_put(&t, g->cap_mps.v, Q_SPEED, u, 0);
    }
    put_line(g->name, note, out);
}

static void put_learned(const struct list_learned *l, struct text *out)
{
    char note[NOTE_TEXT];
    struct text t = text_over(note, sizeof note);
    text_put(&t, "%d refill%s, %sgave %.0f %% of its label; the next forecast starts from %.0f %%",
             l->refills, l->refills == 1 ? "" : "s", l->refills == 1 ? "" : "the last ",
             100.0 * l->last_1, 100.0 * l->delivery_1);
    put_line(l->id, note, out);
}

void list_text_put(const struct list_page *page, enum unit_system u, struct text *out)
{
    put_kind(page, LIST_RIG, out);
    text_put(out, "grounds\n");
    for (int i = 0; i < page->grounds->n; i++) {
        put_ground(&page->grounds->item[i], u, out);
    }
    text_put(out, "\n");
    for (int kind = LIST_TRIP; kind < LIST_KINDS; kind++) {
        put_kind(page, kind, out);
    }
    text_put(out, "learned of air systems\n");
    for (int i = 0; i < page->n_learned; i++) {
        put_learned(&page->learned[i], out);
    }
    text_put(out, "%s", page->n_learned == 0 ? "  nothing yet\n" : "");
}
