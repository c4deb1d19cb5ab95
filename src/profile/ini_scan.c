#include "profile/ini_scan.h"

#include <string.h>

/* A line of the file: a span without its line end. */
struct span {
    const char *s;
    size_t n;
};

struct scan {
    struct ini *ini;
    struct diag_list *diags;
    int file;
    int line;
    int bad;                /* mistakes so far */
    char section[INI_NAME]; /* current; "" before the first and inside one that cannot be read */
    bool in_section;        /* a header, good or bad, was seen */
};

static bool is_blank(char c)
{
    return c == ' ' || c == '\t';
}

static struct span trimmed(struct span l)
{
    while (l.n > 0 && is_blank(l.s[0])) {
        l.s++;
        l.n--;
    }
    while (l.n > 0 && is_blank(l.s[l.n - 1])) {
        l.n--;
    }
    return l;
}

static size_t index_of(struct span l, char c)
{
    const char *p = memchr(l.s, c, l.n);
    return p ? (size_t)(p - l.s) : l.n;
}

static bool has(struct span l, char c)
{
    return index_of(l, c) < l.n;
}

/* Copy a span as a string; the caller has checked the length. */
static void copy_span(char *to, size_t cap, struct span from)
{
    size_t n = from.n < cap ? from.n : cap - 1;
    memcpy(to, from.s, n);
    to[n] = '\0';
}

static void complain(struct scan *sc, struct span key, const char *what)
{
    struct diag d = {.code = STATUS_E_SYNTAX, .line = sc->line};
    diag_copy(d.file, sizeof d.file, sc->ini->file[sc->file]);
    diag_copy(d.section, sizeof d.section, sc->section);
    struct text name = text_over(d.key, sizeof d.key);
    text_put(&name, "%.*s", (int)key.n, key.s);
    diag_copy(d.text, sizeof d.text, what);
    diag_add(sc->diags, &d);
    sc->bad++;
}

static void complain_line(struct scan *sc, const char *what)
{
    complain(sc, (struct span){"", 0}, what);
}

/* What is wrong with a name, or NULL. */
static const char *name_fault(struct span name)
{
    if (name.n == 0) {
        return "the name is empty";
    }
    if (name.n >= INI_NAME) {
        return "the name is too long (at most 63 characters)";
    }
    for (size_t i = 0; i < name.n; i++) {
        char c = name.s[i];
        if (c >= 'A' && c <= 'Z') {
            return "names are written in lower case";
        }
        bool letter = (c >= 'a' && c <= 'z') || c == '_';
        bool later = (c >= '0' && c <= '9') || c == '-';
        if (!letter && !(later && i > 0)) {
            return "a name has only letters, digits, '_' and '-', and begins with a letter";
        }
    }
    return NULL;
}

const struct ini_entry *ini_find(const struct ini *ini, const char *section, const char *key)
{
    for (int i = 0; i < ini->n; i++) {
        const struct ini_entry *e = &ini->entry[i];
        if (strcmp(e->section, section) == 0 && strcmp(e->key, key) == 0) {
            return e;
        }
    }
    return NULL;
}

/* The same within the file being scanned: several files may share one list. */
static const struct ini_entry *find_here(const struct scan *sc, const char *section,
                                         const char *key)
{
    for (int i = 0; i < sc->ini->n; i++) {
        const struct ini_entry *e = &sc->ini->entry[i];
        if (e->file == sc->file && strcmp(e->section, section) == 0 && strcmp(e->key, key) == 0) {
            return e;
        }
    }
    return NULL;
}

static struct ini_entry *append(struct scan *sc)
{
    if (sc->ini->n == INI_ENTRIES) {
        if (sc->bad == 0) {
            complain_line(sc, "too many entries (at most 768)");
        }
        sc->bad++;
        return NULL;
    }
    struct ini_entry *e = &sc->ini->entry[sc->ini->n++];
    *e = (struct ini_entry){.line = sc->line, .file = sc->file};
    memcpy(e->section, sc->section, sizeof e->section);
    return e;
}

static void complain_twice(struct scan *sc, struct span key, int first)
{
    char buf[64];
    struct text t = text_over(buf, sizeof buf);
    text_put(&t, "given twice (first at line %d)", first);
    complain(sc, key, buf);
}

static void scan_header(struct scan *sc, struct span l)
{
    sc->in_section = true;
    sc->section[0] = '\0';
    size_t close = index_of(l, ']');
    if (close == l.n) {
        complain_line(sc, "the section's ']' is missing");
        return;
    }
    struct span name = {l.s + 1, close - 1};
    const char *fault = name_fault(name);
    if (!fault && close + 1 < l.n) {
        fault = "nothing may follow a section's ']' (put the comment on a line of its own)";
    }
    if (fault) {
        complain_line(sc, fault);
        return;
    }
    copy_span(sc->section, sizeof sc->section, name);
    const struct ini_entry *first = find_here(sc, sc->section, "");
    if (first) {
        complain_twice(sc, (struct span){"", 0}, first->line);
        return;
    }
    append(sc);
}

/* Reduce a raw value to what it says. Returns what is wrong, or NULL. */
static const char *value_fault(struct span *v)
{
    if (v->n > 0 && v->s[0] == '"') {
        struct span inside = {v->s + 1, v->n - 1};
        size_t close = index_of(inside, '"');
        if (close == inside.n) {
            return "the closing quote is missing";
        }
        struct span rest = trimmed((struct span){inside.s + close + 1, inside.n - close - 1});
        if (rest.n > 0 && rest.s[0] != '#' && rest.s[0] != ';') {
            return "text after the closing quote (quotes cannot stand inside a value)";
        }
        *v = (struct span){inside.s, close};
        return has(*v, '\\') ? "a backslash does not escape anything here: leave it out" : NULL;
    }
    size_t hash = index_of(*v, '#');
    size_t semicolon = index_of(*v, ';');
    *v = trimmed((struct span){v->s, hash < semicolon ? hash : semicolon});
    if (v->n > 0 && v->s[0] == '\'') {
        return "single quotes are not used here: write double quotes";
    }
    if (has(*v, '"')) {
        return "a quote inside a value (write inches as \"in\")";
    }
    return has(*v, '=') ? "a second '=' (put the value in double quotes)" : NULL;
}

/* A bare value cut at a '#' or ';' without a blank before is more likely a slip than a comment. */
static bool cut_inside_word(struct span raw, struct span v)
{
    if (raw.n == 0 || raw.s[0] == '"' || v.n == 0) {
        return false;
    }
    const char *end = v.s + v.n;
    return end < raw.s + raw.n && (*end == '#' || *end == ';');
}

static void scan_key(struct scan *sc, struct span l)
{
    size_t equals = index_of(l, '=');
    if (equals == l.n) {
        complain_line(sc, "neither a [section], a comment nor 'key = value'");
        return;
    }
    struct span key = trimmed((struct span){l.s, equals});
    struct span raw = trimmed((struct span){l.s + equals + 1, l.n - equals - 1});
    struct span value = raw;
    const char *fault = name_fault(key);
    fault = fault ? fault : value_fault(&value);
    if (!fault && trimmed(value).n == 0) {
        fault = "the value is missing";
    }
    if (!fault && cut_inside_word(raw, value)) {
        fault = "'#' and ';' begin a comment (put the value in double quotes)";
    }
    if (!fault && value.n >= INI_VALUE) {
        fault = "the value is too long (at most 319 bytes)";
    }
    if (!fault && !sc->in_section) {
        fault = "stands before the first [section]";
    }
    if (fault) {
        complain(sc, key, fault);
        return;
    }
    if (sc->section[0] == '\0') {
        return; /* its header was reported */
    }
    char name[INI_NAME];
    copy_span(name, sizeof name, key);
    const struct ini_entry *first = find_here(sc, sc->section, name);
    if (first) {
        complain_twice(sc, key, first->line);
        return;
    }
    struct ini_entry *e = append(sc);
    if (e) {
        copy_span(e->key, sizeof e->key, key);
        copy_span(e->value, sizeof e->value, value);
    }
}

/* Length of the UTF-8 sequence at s, 0 when it is not one (overlong forms, surrogates too). */
static size_t utf8_length(const unsigned char *s, size_t n)
{
    static const unsigned least[] = {0, 0, 0x80, 0x800, 0x10000};
    size_t len = s[0] < 0x80 ? 1 : s[0] < 0xc2 ? 0 : s[0] < 0xe0 ? 2 : s[0] < 0xf0 ? 3 : 4;
    if (len == 0 || len > n || s[0] > 0xf4) {
        return 0;
    }
    unsigned code = len == 1 ? s[0] : s[0] & (0x7fU >> len);
    for (size_t i = 1; i < len; i++) {
        if ((s[i] & 0xc0) != 0x80) {
            return 0;
        }
        code = code << 6 | (s[i] & 0x3fU);
    }
    bool good = code >= least[len] && code <= 0x10ffff && (code < 0xd800 || code > 0xdfff);
    return good ? len : 0;
}

static const char *byte_fault(struct span l)
{
    for (size_t i = 0; i < l.n;) {
        unsigned char c = (unsigned char)l.s[i];
        if ((c < 0x20 && c != '\t') || c == 0x7f) {
            return "a control character";
        }
        size_t len = utf8_length((const unsigned char *)l.s + i, l.n - i);
        if (len == 0) {
            return "not UTF-8 text";
        }
        i += len;
    }
    return NULL;
}

const char *ini_value_fault(const char *value)
{
    struct span v = {value, strlen(value)};
    const char *fault = byte_fault(v);
    if (fault) {
        return fault;
    }
    if (has(v, '"') || has(v, '\\')) {
        return "a quote or backslash cannot stand in a value";
    }
    if (trimmed(v).n == 0) {
        return "the value is missing";
    }
    return v.n < INI_VALUE ? NULL : "the value is too long (at most 319 bytes)";
}

static void scan_line(struct scan *sc, struct span l)
{
    if (l.n > 0 && l.s[l.n - 1] == '\r') {
        l.n--;
    }
    const char *fault = l.n > INI_LINE ? "the line is too long (at most 1021 bytes)" : NULL;
    fault = fault ? fault : byte_fault(l);
    l = trimmed(l);
    if (!fault && l.n > 0 && l.s[l.n - 1] == '\\') {
        fault = "a backslash at the end of a line would swallow the next line";
    }
    if (fault) {
        complain_line(sc, fault);
        return;
    }
    if (l.n == 0 || l.s[0] == '#' || l.s[0] == ';') {
        return;
    }
    if (l.s[0] == '[') {
        scan_header(sc, l);
    } else {
        scan_key(sc, l);
    }
}

enum status ini_scan(const char *bytes, size_t size, const char *name, struct ini *ini,
                     struct diag_list *diags)
{
    struct scan sc = {.ini = ini, .diags = diags, .file = ini->n_file};
    if (ini->n_file == INI_FILES) {
        struct diag d = {.code = STATUS_E_FULL, .text = "too many files at once"};
        diag_copy(d.file, sizeof d.file, name);
        diag_add(diags, &d);
        return STATUS_E_FULL;
    }
    diag_copy(ini->file[ini->n_file++], DIAG_FILE, name);
    if (size >= 3 && memcmp(bytes, "\xef\xbb\xbf", 3) == 0) {
        sc.line = 1;
        complain_line(&sc, "a byte order mark (save the file as plain UTF-8 without it)");
        sc.line = 0;
        bytes += 3;
        size -= 3;
    }
    while (size > 0) {
        const char *end = memchr(bytes, '\n', size);
        size_t n = end ? (size_t)(end - bytes) : size;
        sc.line++;
        scan_line(&sc, (struct span){bytes, n});
        size_t step = end ? n + 1 : n;
        bytes += step;
        size -= step;
    }
    return sc.bad > 0 ? STATUS_E_SYNTAX : STATUS_OK;
}

struct diag ini_diag(const struct ini *ini, const struct ini_entry *e, enum status code)
{
    struct diag d = {.code = code, .line = e->line};
    diag_copy(d.file, sizeof d.file, ini->file[e->file]);
    diag_copy(d.section, sizeof d.section, e->section);
    diag_copy(d.key, sizeof d.key, e->key);
    return d;
}
