#include "core/refill_note.h"

#include <math.h>
#include <stdio.h>
#include <string.h>

#define REFILLS_MAX 1e6
#define BACK_MAX    100.0 /* events of one undo */

struct form {
    const char *word, *unit;
    enum quantity q;
};

static const struct form FORMS[] = {
    [NOTE_AIR] = {"air", "C", Q_TEMPERATURE},
    [NOTE_TYRES] = {"tyres", "C", Q_TEMPERATURE},
    [NOTE_HEIGHT] = {"height", "m", Q_LENGTH},
};

/* The text behind a leading word and its blank, or NULL. */
static const char *behind(const char *text, const char *word)
{
    size_t n = strlen(word);
    return strncmp(text, word, n) == 0 && text[n] == ' ' ? text + n + 1 : NULL;
}

static bool read_prior(const char *text, struct refill_note *n)
{
    double refills = 0.0;
    bool read = num_read(&text, &n->log_mean_1) && num_read(&text, &n->log_sd_1) &&
                num_read(&text, &refills);
    if (!read || *text != '\0' || n->log_sd_1 <= 0.0 || n->log_sd_1 > NOTE_RATIO_LOG_MOST_1 ||
        fabs(n->log_mean_1) > NOTE_RATIO_LOG_MOST_1 || refills < 0.0 || refills > REFILLS_MAX) {
        return false;
    }
    n->refills = (int)refills;
    return n->refills == refills;
}

static bool read_low(const char *text, struct refill_note *n)
{
    for (size_t len; *text != '\0'; text += len + (text[len] == ' ')) {
        char name[32];
        unsigned corners = 0;
        len = strcspn(text, " ");
        snprintf(name, sizeof name, "%.*s", (int)len, text);
        if (len >= sizeof name || refill_log_corners(name, &corners) != STATUS_OK) {
            return false;
        }
        n->corners |= corners;
    }
    return n->corners != 0;
}

static bool read_back(const char *text, struct refill_note *n)
{
    double events = 0.0;
    if (!num_read(&text, &events) || *text != '\0' || events < 1.0 || events > BACK_MAX) {
        return false;
    }
    n->events = (int)events;
    return n->events == events;
}

static bool read_set(const char *text, struct refill_note *n)
{
    size_t key = strcspn(text, " ");
    if (key == 0 || key >= sizeof n->key || text[key] == '\0' || !memchr(text, '.', key) ||
        strlen(text + key + 1) >= sizeof n->value) {
        return false;
    }
    snprintf(n->key, sizeof n->key, "%.*s", (int)key, text);
    snprintf(n->value, sizeof n->value, "%s", text + key + 1);
    return true;
}

static const struct {
    const char *words;
    enum refill_note_kind kind;
    bool (*read)(const char *text, struct refill_note *n);
} READERS[] = {
    {"prior", NOTE_PRIOR, read_prior},
    {"set", NOTE_SET, read_set},
    {"found low:", NOTE_LOW, read_low},
    {"taken back", NOTE_BACK, read_back},
};

struct refill_note refill_note_read(const char *text)
{
    struct refill_note n = {.kind = NOTE_WORDS};
    const char *rest = NULL;
    for (int k = NOTE_AIR; k <= NOTE_HEIGHT; k++) {
        rest = behind(text, FORMS[k].word);
        if (rest != NULL && units_parse(rest, FORMS[k].q, &n.si) == STATUS_OK) {
            n.kind = (enum refill_note_kind)k;
            return n;
        }
    }
    for (size_t i = 0; i < sizeof READERS / sizeof READERS[0]; i++) {
        n = (struct refill_note){.kind = READERS[i].kind};
        rest = behind(text, READERS[i].words);
        if (rest != NULL && READERS[i].read(rest, &n)) {
            return n;
        }
    }
    return (struct refill_note){.kind = NOTE_WORDS};
}

void refill_note_put(const struct refill_note *n, struct text *out)
{
    switch (n->kind) {
    case NOTE_AIR:
    case NOTE_TYRES:
    case NOTE_HEIGHT:
        text_put(out, "%s %.10g %s", FORMS[n->kind].word,
                 units_in(n->si, FORMS[n->kind].q, FORMS[n->kind].unit), FORMS[n->kind].unit);
        break;
    case NOTE_PRIOR:
        text_put(out, "prior %.12g %.12g %d", n->log_mean_1, n->log_sd_1, n->refills);
        break;
    case NOTE_SET:
        text_put(out, "set %s %s", n->key, n->value);
        break;
    case NOTE_LOW:
        text_put(out, "found low: ");
        refill_log_corners_put(n->corners, out);
        break;
    case NOTE_BACK:
        text_put(out, "taken back %d", n->events);
        break;
    case NOTE_WORDS:
        break;
    }
}
