#include "core/refill_log.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "base/dist.h"
#include "base/num.h"

enum { TIME_MAX_S = 1000000 };

static const char *const WORDS[LOG_WORD_COUNT] = {
    "started", "clock", "rig",  "job",    "core", "hookup", "target", "read", "air",
    "drop",    "join",  "rest", "resume", "undo", "note",   "gap",    "done",
};

/* Cuts the next blank-separated token off *rest; "" at the end. */
static const char *next_token(char **rest)
{
    char *s = *rest + strspn(*rest, " \t");
    size_t n = strcspn(s, " \t");
    *rest = s + n;
    if (s[n] != '\0') {
        s[n] = '\0';
        *rest = s + n + 1;
    }
    return s;
}

static char *trimmed(char *s)
{
    s += strspn(s, " \t");
    size_t n = strlen(s);
    while (n > 0 && (s[n - 1] == ' ' || s[n - 1] == '\t' || s[n - 1] == '\r')) {
        s[--n] = '\0';
    }
    return s;
}

enum status refill_log_corners(const char *name, unsigned *corners)
{
    if (strcmp(name, "all") == 0) {
        *corners = LOG_ALL;
        return STATUS_OK;
    }
    for (int a = 0; a < AXLE_COUNT; a++) {
        if (strcmp(name, axle_name((enum axle_id)a)) == 0) {
            *corners = LOG_AXLE_BITS(a);
            return STATUS_OK;
        }
        for (int s = 0; s < SIDE_COUNT; s++) {
            if (strcmp(name, corner_name((enum axle_id)a, (enum side)s)) == 0) {
                *corners = LOG_CORNER_BIT(a, s);
                return STATUS_OK;
            }
        }
    }
    return STATUS_E_UNKNOWN;
}

void refill_log_corners_put(unsigned corners, struct text *out)
{
    const char *sep = "";
    if ((corners & LOG_ALL) == LOG_ALL) {
        text_put(out, "all");
        return;
    }
    for (unsigned a = 0; a < AXLE_COUNT; a++) {
        if ((corners & LOG_AXLE_BITS(a)) == LOG_AXLE_BITS(a)) {
            text_put(out, "%s%s", sep, axle_name((enum axle_id)a));
            sep = " ";
            continue;
        }
        for (unsigned s = 0; s < SIDE_COUNT; s++) {
            if (corners & LOG_CORNER_BIT(a, s)) {
                text_put(out, "%s%s", sep, corner_name((enum axle_id)a, (enum side)s));
                sep = " ";
            }
        }
    }
}

/* The next token, left where it is. */
static void peek_token(const char *rest, char next[32])
{
    const char *at = rest + strspn(rest, " \t");
    snprintf(next, 32, "%.*s", (int)strcspn(at, " \t"), at);
}

/* One name, or several behind each other. */
static enum status read_corners(char **rest, struct log_event *e, struct text *why)
{
    const char *name = next_token(rest);
    unsigned more = 0;
    if (refill_log_corners(name, &e->corners) != STATUS_OK) {
        text_put(why, "corner '%s' is unknown (all, front, rear, trailer, front-left ...)", name);
        return STATUS_E_UNKNOWN;
    }
    for (;;) {
        char next[32];
        peek_token(*rest, next);
        if (refill_log_corners(next, &more) != STATUS_OK) {
            return STATUS_OK;
        }
        (void)next_token(rest);
        e->corners |= more;
    }
}

static enum status read_pressure(char **rest, struct log_event *e, struct text *why)
{
    char value[64];
    const char *number = next_token(rest);
    /* "38psi" is one token, "38 psi" two */
    bool joined = number[0] != '\0' && strspn(number, "0123456789.+-,eE") < strlen(number);
    snprintf(value, sizeof value, "%s %s", number, joined ? "" : next_token(rest));
    enum status s = units_parse(value, Q_PRESSURE, &e->p_gauge_pa);
    if (s != STATUS_OK) {
        text_put(why, "pressure '%s': %s (accepted: ", trimmed(value), status_text(s));
        units_accepted(Q_PRESSURE, why);
        text_put(why, ")");
        return s;
    }
    if (e->p_gauge_pa < 0.0 || e->p_gauge_pa > 1.5e6) {
        text_put(why, "pressure '%s' is outside 0 .. 15 bar", trimmed(value));
        return STATUS_E_DOMAIN;
    }
    e->unit = strstr(value, "bar") ? UNITS_BAR : strstr(value, "kPa") ? UNITS_KPA : UNITS_PSI;
    return STATUS_OK;
}

static enum status read_reading(char **rest, struct log_event *e, struct text *why)
{
    enum status s = read_corners(rest, e, why);
    if (s == STATUS_OK) {
        s = read_pressure(rest, e, why);
    }
    if (s != STATUS_OK || e->word == LOG_TARGET) {
        return s;
    }
    const char *how = next_token(rest);
    e->flowing = strcmp(how, "flowing") == 0;
    if (!e->flowing && strcmp(how, "settled") != 0) {
        text_put(why, "a reading ends in 'settled' or 'flowing', not '%s'", how);
        return STATUS_E_SYNTAX;
    }
    return STATUS_OK;
}

/* One of two words: sets *first. */
static enum status read_choice(char **rest, const char *yes, const char *no, bool *first,
                               struct text *why)
{
    const char *word = next_token(rest);
    *first = strcmp(word, yes) == 0;
    if (!*first && strcmp(word, no) != 0) {
        text_put(why, "'%s' or '%s' is wanted, not '%s'", yes, no, word);
        return STATUS_E_SYNTAX;
    }
    return STATUS_OK;
}

/* up, or down with or without a word on the valve cores */
static enum status read_job(char **rest, struct log_event *e, struct text *why)
{
    bool in = false;
    enum status s = read_choice(rest, "up", "down", &e->on, why);
    if (s == STATUS_OK && !e->on && (*rest)[strspn(*rest, " \t")] != '\0') {
        s = read_choice(rest, "core-in", "core-out", &in, why);
        e->core = in ? LOG_CORE_IN : LOG_CORE_OUT;
    }
    return s;
}

/* in or out, of all corners when none is named */
static enum status read_core(char **rest, struct log_event *e, struct text *why)
{
    char next[32];
    bool in = false;
    enum status s = STATUS_OK;
    peek_token(*rest, next);
    if (next[0] == '\0' || strcmp(next, "in") == 0 || strcmp(next, "out") == 0) {
        e->corners = LOG_ALL;
    } else {
        s = read_corners(rest, e, why);
    }
    if (s == STATUS_OK) {
        s = read_choice(rest, "in", "out", &in, why);
        e->core = in ? LOG_CORE_IN : LOG_CORE_OUT;
    }
    return s;
}

static enum status read_hookup(char **rest, struct log_event *e, struct text *why)
{
    const char *name = next_token(rest);
    for (int h = 0; h < HOOKUP_COUNT; h++) {
        if (strcmp(name, hookup_name((enum hookup)h)) == 0) {
            e->hookup = (enum hookup)h;
            return STATUS_OK;
        }
    }
    text_put(why, "hookup '%s' is unknown (linked, pairs, single)", name);
    return STATUS_E_UNKNOWN;
}

static enum status read_seconds(const char *token, double *out_s, struct text *why)
{
    double v = 0.0;
    if (units_parse(token, Q_NUMBER, &v) != STATUS_OK || v < 0.0 || v > TIME_MAX_S) {
        text_put(why, "'%s' is not a time in seconds (0 .. %d)", token, TIME_MAX_S);
        return STATUS_E_DOMAIN;
    }
    *out_s = v;
    return STATUS_OK;
}

static enum status read_text(char **rest, struct log_event *e, struct text *why)
{
    char *text = trimmed(*rest);
    if (text[0] == '\0' || strlen(text) >= sizeof e->text) {
        text_put(why, "'%s' wants a text of 1 to %d bytes", WORDS[e->word], LOG_TEXT - 1);
        return STATUS_E_SYNTAX;
    }
    snprintf(e->text, sizeof e->text, "%s", text);
    *rest += strlen(*rest);
    return STATUS_OK;
}

static enum status read_started(char **rest, struct log_event *e, struct text *why)
{
    snprintf(e->text, sizeof e->text, "%s", next_token(rest));
    if (e->word == LOG_STARTED && strcmp(next_token(rest), "boot") == 0) {
        snprintf(e->boot, sizeof e->boot, "%s", next_token(rest));
    }
    if (e->text[0] == '\0' || (e->word == LOG_STARTED && e->boot[0] == '\0')) {
        text_put(why, e->word == LOG_STARTED ? "'started WALLTIME boot ID' is wanted"
                                             : "'clock WALLTIME' is wanted");
        return STATUS_E_SYNTAX;
    }
    return STATUS_OK;
}

static enum status read_undo(char **rest, struct log_event *e, struct text *why)
{
    const char *what = next_token(rest);
    e->on = strcmp(what, "gap") == 0;
    if (!e->on && what[0] != '\0') {
        text_put(why, "'undo' of the last reading, or 'undo gap'");
        return STATUS_E_SYNTAX;
    }
    return STATUS_OK;
}

static enum status read_arguments(char **rest, struct log_event *e, struct text *why)
{
    switch (e->word) {
    case LOG_STARTED:
    case LOG_CLOCK:
        return read_started(rest, e, why);
    case LOG_RIG:
    case LOG_NOTE:
        return read_text(rest, e, why);
    case LOG_JOB:
        return read_job(rest, e, why);
    case LOG_CORE:
        return read_core(rest, e, why);
    case LOG_AIR:
        return read_choice(rest, "on", "off", &e->on, why);
    case LOG_HOOKUP:
        return read_hookup(rest, e, why);
    case LOG_TARGET:
    case LOG_READ:
        return read_reading(rest, e, why);
    case LOG_DROP:
    case LOG_JOIN:
        return read_corners(rest, e, why);
    case LOG_GAP:
        return read_seconds(next_token(rest), &e->gap_s, why);
    case LOG_UNDO:
        return read_undo(rest, e, why);
    case LOG_REST:
    case LOG_RESUME:
    case LOG_DONE:
    case LOG_WORD_COUNT:
        break;
    }
    return STATUS_OK;
}

static enum status read_word(const char *word, enum log_word *out, struct text *why)
{
    for (int i = 0; i < LOG_WORD_COUNT; i++) {
        if (strcmp(word, WORDS[i]) == 0) {
            *out = (enum log_word)i;
            return STATUS_OK;
        }
    }
    int near = dist_nearest(word, WORDS, LOG_WORD_COUNT, 2);
    text_put(why, "'%s' is not an event of the log", word);
    if (near >= 0) {
        text_put(why, " (did you mean %s?)", WORDS[near]);
    }
    return STATUS_E_UNKNOWN;
}

/* A comment starts at a '#' that begins the line or follows a blank. */
static void cut_comment(char *line)
{
    for (char *p = line; (p = strchr(p, '#')) != NULL; p++) {
        if (p == line || p[-1] == ' ' || p[-1] == '\t') {
            *p = '\0';
            return;
        }
    }
}

enum status refill_log_parse(const char *line, struct log_event *e, struct text *why)
{
    char copy[LOG_LINE];
    struct log_event got = {.at_s = 0.0};
    if (strlen(line) >= sizeof copy) {
        text_put(why, "the line is longer than %d bytes", LOG_LINE - 1);
        return STATUS_E_SYNTAX;
    }
    snprintf(copy, sizeof copy, "%s", line);
    cut_comment(copy);
    char *rest = trimmed(copy);
    if (rest[0] == '\0') {
        return STATUS_E_MISSING;
    }
    enum status s = read_seconds(next_token(&rest), &got.at_s, why);
    if (s == STATUS_OK) {
        s = read_word(next_token(&rest), &got.word, why);
    }
    if (s == STATUS_OK) {
        s = read_arguments(&rest, &got, why);
    }
    if (s == STATUS_OK && trimmed(rest)[0] != '\0') {
        text_put(why, "'%s' after the end of the event", trimmed(rest));
        s = STATUS_E_SYNTAX;
    }
    if (s == STATUS_OK) {
        *e = got;
    }
    return s;
}

/* The shortest decimals that read back as the same number. */
static void put_number(double v, struct text *out)
{
    char s[40];
    for (int digits = 6; digits <= 17; digits++) {
        snprintf(s, sizeof s, "%.*g", digits, v);
        if (strtod(s, NULL) == v) {
            break;
        }
    }
    text_put(out, "%s", s);
}

static void put_pressure(const struct log_event *e, struct text *out)
{
    const char *unit = units_symbol(Q_PRESSURE, e->unit);
    put_number(round(units_in(e->p_gauge_pa, Q_PRESSURE, unit) * 1e6) / 1e6, out);
    text_put(out, " %s", unit);
}

void refill_log_put(const struct log_event *e, struct text *out)
{
    static const char *const cores[] = {"", " core-in", " core-out"};
    put_number(round(e->at_s * 1000.0) / 1000.0, out);
    text_put(out, " %s", e->word < LOG_WORD_COUNT ? WORDS[e->word] : "note ?");
    switch (e->word) {
    case LOG_STARTED:
        text_put(out, " %s boot %s", e->text, e->boot);
        break;
    case LOG_CLOCK:
    case LOG_RIG:
    case LOG_NOTE:
        text_put(out, " %s", e->text);
        break;
    case LOG_JOB:
        text_put(out, "%s%s", e->on ? " up" : " down", cores[e->on ? LOG_CORE_AS_RIG : e->core]);
        break;
    case LOG_CORE:
        if (e->corners != LOG_ALL) {
            text_put(out, " ");
            refill_log_corners_put(e->corners, out);
        }
        text_put(out, e->core == LOG_CORE_OUT ? " out" : " in");
        break;
    case LOG_AIR:
        text_put(out, e->on ? " on" : " off");
        break;
    case LOG_HOOKUP:
        text_put(out, " %s", hookup_name(e->hookup));
        break;
    case LOG_TARGET:
    case LOG_READ:
    case LOG_DROP:
    case LOG_JOIN:
        text_put(out, " ");
        refill_log_corners_put(e->corners, out);
        if (e->word == LOG_TARGET || e->word == LOG_READ) {
            text_put(out, " ");
            put_pressure(e, out);
        }
        if (e->word == LOG_READ) {
            text_put(out, e->flowing ? " flowing" : " settled");
        }
        break;
    case LOG_GAP:
        text_put(out, " ");
        put_number(e->gap_s, out);
        break;
    case LOG_UNDO:
        text_put(out, e->on ? " gap" : "");
        break;
    case LOG_REST:
    case LOG_RESUME:
    case LOG_DONE:
    case LOG_WORD_COUNT:
        break;
    }
}
