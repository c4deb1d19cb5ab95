#include "tui/screen_help.h"

#include <stdio.h>
#include <string.h>

#include "tui/model.h"

static void key_names(const char *keys, char buf[32])
{
    struct text t = text_over(buf, 32);
    while (*keys != '\0') {
        size_t n = strcspn(keys, " ");
        text_put(&t, "%s%.*s", t.len > 0 ? " " : "", (int)n, keys);
        keys += n + strspn(keys + n, " ");
    }
}

static void keys_lines(struct roll *l)
{
    for (int c = 0; c < KEYS_COUNT; c++) {
        roll_line(l, STYLE_TITLE, keymap_context_title((enum keymap_context)c));
        for (int a = ACT_NONE + 1; a < ACT_COUNT; a++) {
            const struct keymap_row *row = keymap_row((enum action)a);
            char names[32], line[200];
            if ((int)row->context != c)
                continue;
            key_names(row->keys, names);
            snprintf(line, sizeof line, "  %-12s %s", names, row->help);
            roll_line(l, STYLE_PLAIN, line);
        }
        roll_line(l, STYLE_PLAIN, "");
    }
}

static enum style level_style(enum caution_level level)
{
    static const enum style styles[] = {STYLE_NOTE, STYLE_CAUTION, STYLE_DANGER};
    return styles[level];
}

static void deference_lines(struct roll *l)
{
    static const char *const first[] = {"Whose word goes before this program's, in this order:",
                                        "  1 the vehicle's placard and handbook",
                                        "  2 the tyre maker",
                                        "  3 the wheel maker",
                                        "  4 local law and the rules of the place",
                                        "  5 a licensed or trained person",
                                        "  6 then this program",
                                        ""};
    for (size_t i = 0; i < sizeof first / sizeof *first; i++)
        roll_line(l, i == 0 ? STYLE_TITLE : STYLE_PLAIN, first[i]);
}

static void raised_lines(const struct model *m, struct roll *l)
{
    const struct caution_list *list = &m->results.advice.cautions;
    roll_line(l, STYLE_TITLE, list->n > 0 ? "Raised by this rig, ground and day:" : "");
    for (int level = CAUTION_DANGER; level >= CAUTION_NOTE; level--)
        for (int i = 0; i < list->n; i++) {
            char words[400], corner[48] = "";
            const struct caution *c = &list->item[i];
            if ((int)caution_level_of(c->code) != level)
                continue;
            if (c->has_axle)
                snprintf(corner, sizeof corner, ", %s",
                         c->has_side ? corner_name(c->axle, c->side) : axle_name(c->axle));
            snprintf(words, sizeof words, "%s%s", caution_level_name((enum caution_level)level),
                     corner);
            roll_line(l, level_style((enum caution_level)level), words);
            struct text t = text_over(words, sizeof words);
            caution_put(c, model_units(m), &t);
            roll_text(l, STYLE_PLAIN, 2, words);
        }
    roll_line(l, STYLE_PLAIN, "");
}

static void table_lines(struct roll *l)
{
    static const struct {
        enum caution_level level;
        const char *code, *text, *when;
    } rows[] = {
#define HELP_ROW(id, level, standing, code, text, when) {level, code, text, when},
        CAUTION_TABLE(HELP_ROW)
#undef HELP_ROW
    };
    roll_line(l, STYLE_TITLE, "All cautions of the program ({0} .. stand for numbers):");
    for (int level = CAUTION_DANGER; level >= CAUTION_NOTE; level--)
        for (size_t i = 0; i < sizeof rows / sizeof *rows; i++) {
            char head[200];
            if ((int)rows[i].level != level)
                continue;
            snprintf(head, sizeof head, "%s %s: when %s", caution_level_name(rows[i].level),
                     rows[i].code, rows[i].when);
            roll_text(l, level_style(rows[i].level), 0, head);
            roll_text(l, STYLE_PLAIN, 2, rows[i].text);
        }
}

static void all_lines(const struct model *m, struct roll *l)
{
    if (!m->at.help.cautions) {
        keys_lines(l);
        return;
    }
    raised_lines(m, l);
    deference_lines(l);
    table_lines(l);
}

static struct roll roll_of(const struct model *m, struct frame *f, struct rect body)
{
    struct roll l = {f, {body.row, 1, body.rows - 1, body.cols - 2}, m->at.help.list.at, 0};
    all_lines(m, &l);
    return l;
}

bool help_act(struct model *m, enum action a, int key)
{
    (void)key;
    struct list *list = &m->at.help.list;
    struct roll l = roll_of(m, NULL, (struct rect){2, 0, m->rows - 5, m->cols});
    if (a == ACT_HELP || a == ACT_CAUTIONS) {
        m->at.help.cautions = a == ACT_CAUTIONS;
        list->at = 0;
        return true;
    }
    int room = l.r.rows < l.n ? l.n - l.r.rows + 1 : 1;
    return list_move(list, a, room, l.r.rows - 1);
}

void help_render(const struct model *m, struct frame *f, struct rect body)
{
    struct roll l = roll_of(m, f, body);
    roll_more(&l);
}
