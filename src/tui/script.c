#include "tui/script.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "tui/keymap.h"
#include "tui/utf8.h"

enum { SCRIPT_LINE = 256 };

static int feed(struct script *s, struct event e)
{
    e.now_ns = s->now_ns;
    int effects = s->client->update(s->client->self, &e);
    if ((effects & EFFECT_SAVE) != 0) {
        e.kind = EVENT_SAVE;
        s->client->update(s->client->self, &e);
    }
    return effects;
}

static void press_keys(struct script *s, const char *names, bool *ok)
{
    while (names[strspn(names, " ")] != '\0') {
        int key = keymap_key_at(&names);
        *ok = *ok && key != 0;
        feed(s, (struct event){.kind = EVENT_KEY, .key = key});
    }
}

static void type_text(struct script *s, const char *text)
{
    for (uint32_t cp = utf8_next(&text); cp != 0; cp = utf8_next(&text))
        feed(s, (struct event){.kind = EVENT_KEY, .key = (int)cp});
}

static void resize(struct script *s)
{
    feed(s, (struct event){.kind = EVENT_RESIZE, .rows = s->rows, .cols = s->cols});
}

bool script_size(const char *s, int *cols, int *rows)
{
    char *x = NULL, *end = NULL;
    long c = strtol(s, &x, 10);
    if (x == s || *x != 'x')
        return false;
    long r = strtol(x + 1, &end, 10);
    bool read = end != x + 1 && *end == '\0';
    if (!read || c < 1 || r < 1 || c > FRAME_COLS_MAX || r > FRAME_ROWS_MAX)
        return false;
    *cols = (int)c;
    *rows = (int)r;
    return true;
}

static enum status dump(struct script *s, bool styles)
{
    struct frame f;
    enum status status = frame_init(&f, s->rows, s->cols, s->ascii);
    if (status != STATUS_OK)
        return status;
    size_t cap = (size_t)(f.rows + 1) * (size_t)(f.cols * 6 + 2) + 64;
    char *buf = malloc(cap);
    if (buf != NULL) {
        struct text t = text_over(buf, cap);
        s->client->render(s->client->self, &f);
        if (styles)
            frame_dump(&f, &t);
        else
            frame_dump_text(&f, &t);
        s->out(s->to, buf);
    }
    frame_done(&f);
    free(buf);
    return buf != NULL ? STATUS_OK : STATUS_E_MEMORY;
}

static bool tick(struct script *s, const char *seconds)
{
    char *end = NULL;
    double time_s = strtod(seconds, &end);
    if (end == seconds || !(time_s >= 0) || !(time_s < 1e6))
        return false;
    s->now_ns += (int64_t)(time_s * 1e9);
    feed(s, (struct event){.kind = EVENT_TICK});
    return true;
}

static enum status run_line(struct script *s, const char *line)
{
    size_t verb = strcspn(line, " ");
    const char *rest = line + verb + strspn(line + verb, " ");
    bool ok = true;
    if (verb == 0 || line[0] == '#')
        return STATUS_OK;
    if (strncmp(line, "dump", verb) == 0 || strncmp(line, "text", verb) == 0)
        return dump(s, line[0] == 'd');
    if (strncmp(line, "keys", verb) == 0) {
        press_keys(s, rest, &ok);
    } else if (strncmp(line, "type", verb) == 0) {
        type_text(s, rest);
    } else if (strncmp(line, "size", verb) == 0) {
        ok = script_size(rest, &s->cols, &s->rows);
        resize(s);
    } else if (strncmp(line, "tick", verb) == 0) {
        ok = tick(s, rest);
    } else {
        ok = false;
    }
    return ok ? STATUS_OK : STATUS_E_SYNTAX;
}

enum status script_run(struct script *s, const char *lines, struct text *why)
{
    char line[SCRIPT_LINE];
    resize(s);
    for (int number = 1; *lines != '\0'; number++) {
        size_t n = strcspn(lines, "\n");
        snprintf(line, sizeof line, "%.*s", (int)(n < sizeof line ? n : sizeof line - 1), lines);
        enum status status = run_line(s, line);
        if (status != STATUS_OK) {
            text_put(why, "line %d: %s: %s", number, line, status_text(status));
            return status;
        }
        lines += n + (lines[n] == '\n');
    }
    return STATUS_OK;
}
