#include "tui/entry.h"

#include <stdio.h>
#include <string.h>

#include "tui/utf8.h"

void entry_set(struct entry *e, const char *text)
{
    struct text t = text_over(e->text, sizeof e->text);
    text_put(&t, "%s", text);
}

bool entry_key(struct entry *e, int key)
{
    char bytes[8];
    if (key < ' ' || key > 0x10FFFF || (key >= 0xD800 && key <= 0xDFFF) ||
        utf8_columns((uint32_t)key) == 0)
        return false;
    size_t have = strlen(e->text), more = (size_t)utf8_encode((uint32_t)key, bytes);
    if (have + more < sizeof e->text)
        memcpy(e->text + have, bytes, more + 1);
    return true;
}

static void rub(struct entry *e)
{
    size_t n = strlen(e->text);
    while (n > 0 && ((unsigned char)e->text[n - 1] & 0xC0u) == 0x80u)
        n--;
    e->text[n > 0 ? n - 1 : 0] = '\0';
}

bool entry_act(struct entry *e, enum action a)
{
    if (a == ACT_RUB)
        rub(e);
    else if (a == ACT_WIPE)
        e->text[0] = '\0';
    else
        return false;
    return true;
}

void entry_put(const struct entry *e, struct frame *f, int row, int col, int cols, bool active)
{
    const char *s = e->text;
    int room = cols - (active ? 1 : 0);
    while (utf8_width(s) > room && *s != '\0')
        utf8_next(&s);
    frame_fill(f, (struct rect){row, col, 1, cols}, STYLE_INPUT, " ");
    int end = frame_put(f, row, col, STYLE_INPUT, s);
    if (active)
        frame_put(f, row, end, STYLE_CHOSEN, " ");
}

static bool bare_number(const char *s)
{
    size_t n = strspn(s, "+-0123456789. ");
    return n > 0 && s[n] == '\0';
}

bool entry_value(const struct entry *e, enum quantity q, const char *unit, struct maybe *si,
                 struct text *why)
{
    char with_unit[ENTRY_TEXT + 16];
    double value = 0;
    if (e->text[strspn(e->text, " ")] == '\0') {
        *si = maybe_none();
        return true;
    }
    snprintf(with_unit, sizeof with_unit, "%s %s", e->text, bare_number(e->text) ? unit : "");
    enum status s = units_parse(with_unit, q, &value);
    if (s >= STATUS_OK) {
        *si = maybe_of(value);
        return true;
    }
    text_put(why, "%s", status_text(s));
    if (s == STATUS_E_UNIT_UNKNOWN || s == STATUS_E_UNIT_MISSING || s == STATUS_E_SYNTAX) {
        text_put(why, "; units: ");
        units_accepted(q, why);
    }
    return false;
}
