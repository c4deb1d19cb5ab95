#include "tui/keymap.h"

#include <stdint.h>
#include <string.h>

#include "tui/event.h"
#include "tui/utf8.h"

static const struct {
    const char *name;
    int key;
} key_names[] = {
    {"Up", TKEY_UP},         {"Down", TKEY_DOWN},
    {"Left", TKEY_LEFT},     {"Right", TKEY_RIGHT},
    {"Tab", TKEY_TAB},       {"BackTab", TKEY_BACKTAB},
    {"Enter", TKEY_ENTER},   {"Esc", TKEY_ESC},
    {"Space", TKEY_SPACE},   {"Backspace", TKEY_BACKSPACE},
    {"PgUp", TKEY_PAGE_UP},  {"PgDn", TKEY_PAGE_DOWN},
    {"Home", TKEY_HOME},     {"End", TKEY_END},
    {"Ctrl-L", TKEY_CTRL_L}, {"Ctrl-U", TKEY_CTRL_U},
    {"F2", TKEY_F2},         {"F3", TKEY_F3},
};

const struct keymap_row *keymap_row(enum action a)
{
    static const struct keymap_row rows[ACT_COUNT] = {{ACT_NONE, KEYS_SESSION, "", "", ""},
#define KEYMAP_ROW(action, context, keys, label, help)                                             \
    {ACT_##action, KEYS_##context, keys, label, help},
                                                      KEYMAP_TABLE(KEYMAP_ROW)
#undef KEYMAP_ROW
    };
    return &rows[(unsigned)a < ACT_COUNT ? a : ACT_NONE];
}

const char *keymap_context_title(enum keymap_context c)
{
    static const char *const titles[KEYS_COUNT] = {
#define KEYMAP_TITLE(id, title) title,
        KEYMAP_CONTEXTS(KEYMAP_TITLE)
#undef KEYMAP_TITLE
    };
    return (unsigned)c < KEYS_COUNT ? titles[c] : "";
}

static int named_key(const char *name, size_t len)
{
    for (size_t i = 0; i < sizeof key_names / sizeof *key_names; i++)
        if (strlen(key_names[i].name) == len && memcmp(key_names[i].name, name, len) == 0)
            return key_names[i].key;
    const char *p = name;
    uint32_t cp = utf8_next(&p);
    return p == name + len ? (int)cp : 0;
}

int keymap_key_at(const char **keys)
{
    *keys += strspn(*keys, " ");
    size_t len = strcspn(*keys, " ");
    const char *name = *keys;
    *keys += len;
    return len == 0 ? 0 : named_key(name, len);
}

enum action keymap_find(enum keymap_context c, int key)
{
    for (int a = ACT_NONE + 1; a < ACT_COUNT; a++) {
        const struct keymap_row *row = keymap_row((enum action)a);
        if (row->context != c)
            continue;
        const char *keys = row->keys;
        for (int k = keymap_key_at(&keys); k != 0; k = keymap_key_at(&keys))
            if (k == key)
                return row->action;
    }
    return ACT_NONE;
}

void keymap_first_key(enum action a, struct text *out)
{
    const char *keys = keymap_row(a)->keys;
    text_put(out, "%.*s", (int)strcspn(keys, " "), keys);
}

/* each sentence on a line of its own, as mdoc wants it */
static void put_sentences(const char *words, struct text *out)
{
    for (const char *end; (end = strstr(words, ". ")) != NULL; words = end + 2)
        text_put(out, "%.*s.\n", (int)(end - words), words);
    text_put(out, "%s\n", words);
}

static void put_mdoc_row(const struct keymap_row *row, struct text *out)
{
    text_put(out, ".It");
    const char *keys = row->keys, *separator = " ";
    while (*keys != '\0') {
        size_t len = strcspn(keys, " ");
        text_put(out, "%sIc %s%.*s", separator, strchr("!?", *keys) != NULL ? "\\&" : "", (int)len,
                 keys);
        keys += len + strspn(keys + len, " ");
        separator = " , ";
    }
    text_put(out, "\n");
    put_sentences(row->help, out);
}

void keymap_put_mdoc(struct text *out)
{
    for (int c = 0; c < KEYS_COUNT; c++) {
        text_put(out, ".Ss \\&%s\n.Bl -tag -width Backspace -compact\n",
                 keymap_context_title((enum keymap_context)c));
        for (int a = ACT_NONE + 1; a < ACT_COUNT; a++)
            if ((int)keymap_row((enum action)a)->context == c)
                put_mdoc_row(keymap_row((enum action)a), out);
        text_put(out, ".El\n");
    }
}
