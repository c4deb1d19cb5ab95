#include "profile/build.h"

#include <stdarg.h>
#include <stdio.h>
#include <string.h>

#include "profile/value.h"

static void add(struct build *b, const struct diag *d)
{
    diag_add(b->diags, d);
    b->bad++;
}

static void check_header(struct build *b, const struct ini_entry *e)
{
    int number = 0;
    if (schema_section(b->kind, e->section, &number)) {
        return;
    }
    struct diag d = ini_diag(b->ini, e, STATUS_E_UNKNOWN);
    struct text t = diag_text(&d);
    text_put(&t, "unknown section");
    schema_hint_section(b->kind, e->section, &t);
    add(b, &d);
}

/* A long value is cut visibly. */
static void show_value(const char *value, struct diag *d)
{
    char head[sizeof d->value - 3];
    struct text t = text_over(d->value, sizeof d->value);
    diag_copy(head, sizeof head, value);
    if (strlen(value) < sizeof d->value) {
        text_put(&t, "%s", value);
    } else {
        text_put(&t, "%s...", head);
    }
}

/* ret E_MISSING when the section itself is unknown: its header is reported instead. */
static enum status check_one(enum profile_kind kind, const char *section, const char *key,
                             const char *value, struct diag *d)
{
    int number = 0;
    struct value v;
    struct text why = diag_text(d);
    const struct schema_section_row *s = schema_section(kind, section, &number);
    if (!s) {
        text_put(&why, "unknown section");
        schema_hint_section(kind, section, &why);
        return STATUS_E_MISSING;
    }
    const struct schema_row *row = schema_row(s->section, key);
    if (!row) {
        text_put(&why, "unknown key");
        schema_hint_key(s, key, &why);
        return STATUS_E_UNKNOWN;
    }
    const char *fault = ini_value_fault(value);
    if (fault) {
        text_put(&why, "%s", fault);
        return STATUS_E_SYNTAX;
    }
    show_value(value, d);
    return value_read(row, value, &v, &why);
}

enum status profile_check_value(enum profile_kind kind, const char *section, const char *key,
                                const char *value, struct diag *d)
{
    struct diag found = {.code = STATUS_OK};
    diag_copy(found.section, sizeof found.section, section);
    diag_copy(found.key, sizeof found.key, key);
    found.code = check_one(kind, section, key, value, &found);
    if (found.code < 0) {
        *d = found;
    }
    return found.code < 0 ? found.code : STATUS_OK;
}

static void check_entry(struct build *b, const struct ini_entry *e)
{
    struct diag d = ini_diag(b->ini, e, STATUS_OK);
    d.code = check_one(b->kind, e->section, e->key, e->value, &d);
    if (d.code < 0 && d.code != STATUS_E_MISSING) {
        add(b, &d);
    }
}

static void check_sections(struct build *b)
{
    size_t n = 0;
    const struct schema_section_row *rows = schema_sections(&n);
    for (size_t i = 0; i < n; i++) {
        if (rows[i].kind == b->kind && rows[i].required && !build_has(b, rows[i].name, "")) {
            build_says(b, rows[i].name, "", STATUS_E_MISSING, "the section is missing (required)");
        }
    }
}

static void check_entries(struct build *b)
{
    for (int i = 0; i < b->ini->n; i++) {
        const struct ini_entry *e = &b->ini->entry[i];
        if (e->key[0] == '\0') {
            check_header(b, e);
        } else {
            check_entry(b, e);
        }
    }
}

void build_check(struct build *b)
{
    check_entries(b);
    check_sections(b);
}

void build_check_entries(const struct ini *ini, enum profile_kind kind, struct diag_list *diags)
{
    struct build b = {.ini = ini, .kind = kind, .diags = diags};
    check_entries(&b);
}

static void store_text(const struct schema_row *row, const char *text, void *to)
{
    struct value v;
    char buf[DIAG_TEXT];
    struct text why = text_over(buf, sizeof buf);
    if (value_read(row, text, &v, &why) == STATUS_OK) {
        value_store(row, &v, to);
    }
}

void build_fill(struct build *b, enum schema_section section, const char *name, void *to)
{
    size_t n = 0;
    const struct schema_row *rows = schema_rows(&n);
    for (size_t i = 0; i < n; i++) {
        const struct schema_row *row = &rows[i];
        if ((row->sections & (unsigned)section) == 0) {
            continue;
        }
        const struct ini_entry *e = ini_find(b->ini, name, row->key);
        if (e) {
            store_text(row, e->value, to);
        } else if (row->need == NEED_DEFAULT) {
            store_text(row, row->standard, to);
        } else if (row->need == NEED_REQUIRED) {
            build_says(b, name, row->key, STATUS_E_MISSING, "missing (required: %s)", row->help);
        }
    }
}

void build_defaults(enum schema_section section, void *to)
{
    size_t n = 0;
    const struct schema_row *rows = schema_rows(&n);
    for (size_t i = 0; i < n; i++) {
        if ((rows[i].sections & (unsigned)section) != 0 && rows[i].need == NEED_DEFAULT) {
            store_text(&rows[i], rows[i].standard, to);
        }
    }
}

bool build_has(const struct build *b, const char *section, const char *key)
{
    return ini_find(b->ini, section, key) != NULL;
}

void build_says(struct build *b, const char *section, const char *key, enum status code,
                const char *format, ...)
{
    const struct ini_entry *e = ini_find(b->ini, section, key);
    struct diag d = {.code = code, .line = e ? e->line : 0};
    if (!e) {
        e = ini_find(b->ini, section, "");
    }
    int file = e ? e->file : 0;
    if (file < b->ini->n_file) {
        diag_copy(d.file, sizeof d.file, b->ini->file[file]);
    }
    diag_copy(d.section, sizeof d.section, section);
    diag_copy(d.key, sizeof d.key, key);
    char buf[DIAG_TEXT];
    va_list args;
    va_start(args, format);
    vsnprintf(buf, sizeof buf, format, args);
    va_end(args);
    diag_copy(d.text, sizeof d.text, buf);
    add(b, &d);
}
