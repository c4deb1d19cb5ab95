#include "profile/profile.h"

#include <errno.h>
#include <fcntl.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

#include <iniparser/iniparser.h>

#include "profile/build.h"

static void say_file(const char *path, enum status code, const char *what, struct diag_list *diags)
{
    struct diag d = {.code = code};
    diag_copy(d.file, sizeof d.file, path);
    diag_copy(d.text, sizeof d.text, what);
    diag_add(diags, &d);
}

static const char TOO_LARGE[] = "is too large for a profile (at most 64 KiB)";

/* The whole of a regular file, at most INI_FILE bytes. Never waits on a pipe or terminal. */
static const char *slurp(const char *path, char *bytes, size_t *size)
{
    int fd = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK);
    if (fd < 0) {
        return strerror(errno);
    }
    struct stat st;
    const char *fault = fstat(fd, &st) != 0     ? strerror(errno)
                        : S_ISDIR(st.st_mode)   ? "is a directory"
                        : !S_ISREG(st.st_mode)  ? "is not a regular file"
                        : st.st_size > INI_FILE ? TOO_LARGE
                                                : NULL;
    *size = 0;
    for (ssize_t n = 1; !fault && n > 0 && *size < INI_FILE;) {
        n = read(fd, bytes + *size, INI_FILE - *size);
        if (n < 0 && errno == EINTR) {
            n = 1;
        } else if (n < 0) {
            fault = strerror(errno);
        } else {
            *size += (size_t)n;
        }
    }
    close(fd);
    return fault;
}

/* iniparser would print its complaints; the strict scan has already found what there is to say. */
static int keep_quiet(const char *format, ...)
{
    (void)format;
    return 0;
}

/* Entry i of the dictionary against what the scan saw: same key, same value, same order. */
static bool agrees(const dictionary *d, int i, const struct ini_entry *e)
{
    char name[2 * INI_NAME];
    struct text t = text_over(name, sizeof name);
    text_put(&t, "%s%s%s", e->section, e->key[0] != '\0' ? ":" : "", e->key);
    if (!d->key[i] || strcmp(d->key[i], name) != 0) {
        return false;
    }
    const char *value = iniparser_getstring(d, name, NULL);
    return e->key[0] == '\0' ? value == NULL : value && strcmp(value, e->value) == 0;
}

/* The values are iniparser's; the scan knows the lines. They can only differ when the file changed
 * in between. */
static bool take_values(const char *path, struct ini *ini, int first)
{
    iniparser_set_error_callback(keep_quiet);
    dictionary *d = iniparser_load(path);
    bool same = d && d->n == ini->n - first;
    for (int i = 0; same && i < d->n; i++) {
        struct ini_entry *e = &ini->entry[first + i];
        same = agrees(d, i, e);
        if (same && e->key[0] != '\0') {
            diag_copy(e->value, sizeof e->value, d->val[i]);
        }
    }
    if (d) {
        iniparser_freedict(d);
    }
    return same;
}

enum status profile_read(const char *path, struct ini *ini, struct diag_list *diags)
{
    char bytes[INI_FILE];
    size_t size = 0;
    const char *fault = slurp(path, bytes, &size);
    if (fault) {
        enum status s = fault == TOO_LARGE ? STATUS_E_SYNTAX : STATUS_E_SYSTEM;
        say_file(path, s, fault, diags);
        return s;
    }
    int first = ini->n;
    enum status s = ini_scan(bytes, size, path, ini, diags);
    if (s < 0) {
        return STATUS_E_SYNTAX;
    }
    if (!take_values(path, ini, first)) {
        say_file(path, STATUS_E_SYNTAX, "changed while it was being read: try again", diags);
        return STATUS_E_SYNTAX;
    }
    return STATUS_OK;
}

enum profile_kind profile_guess(const struct ini *ini)
{
    static const enum profile_kind order[] = {PROFILE_TRIP, PROFILE_COMPRESSOR, PROFILE_RIG};
    for (size_t k = 0; k < sizeof order / sizeof order[0]; k++) {
        for (int i = 0; i < ini->n; i++) {
            int number = 0;
            if (schema_section(order[k], ini->entry[i].section, &number)) {
                return order[k];
            }
        }
    }
    return PROFILE_GROUNDS;
}

static int file_index(struct ini *ini, const char *name)
{
    int i = 0;
    while (i < ini->n_file && strcmp(ini->file[i], name) != 0) {
        i++;
    }
    if (i == INI_FILES) {
        return -1;
    }
    if (i == ini->n_file) {
        diag_copy(ini->file[ini->n_file++], DIAG_FILE, name);
    }
    return i;
}

static struct ini_entry *entry_of(struct ini *ini, const char *section, const char *key)
{
    for (int i = 0; i < ini->n; i++) {
        struct ini_entry *e = &ini->entry[i];
        if (strcmp(e->section, section) == 0 && strcmp(e->key, key) == 0) {
            return e;
        }
    }
    return NULL;
}

static struct ini_entry *entry_new(struct ini *ini, const char *section, const char *key)
{
    if (ini->n == INI_ENTRIES) {
        return NULL;
    }
    struct ini_entry *e = &ini->entry[ini->n++];
    *e = (struct ini_entry){.line = 0};
    diag_copy(e->section, sizeof e->section, section);
    diag_copy(e->key, sizeof e->key, key);
    return e;
}

static void take_away(struct ini *ini, const char *section, const char *key)
{
    struct ini_entry *e = entry_of(ini, section, key);
    if (e) {
        size_t after = (size_t)(&ini->entry[ini->n] - (e + 1));
        memmove(e, e + 1, after * sizeof *e);
        ini->n--;
    }
}

enum status profile_put(struct ini *ini, const char *section, const char *key, const char *value,
                        const char *from)
{
    if (!value) {
        take_away(ini, section, key);
        return STATUS_OK;
    }
    if (ini_value_fault(value)) {
        return STATUS_E_SYNTAX;
    }
    int file = file_index(ini, from);
    if (file < 0 || strlen(section) >= INI_NAME || strlen(key) >= INI_NAME) {
        return STATUS_E_FULL;
    }
    struct ini_entry *head = entry_of(ini, section, "");
    if (!head) {
        head = entry_new(ini, section, "");
        if (!head) {
            return STATUS_E_FULL;
        }
        head->file = file;
    }
    struct ini_entry *e = entry_of(ini, section, key);
    e = e ? e : entry_new(ini, section, key);
    if (!e) {
        return STATUS_E_FULL;
    }
    diag_copy(e->value, sizeof e->value, value);
    e->line = 0;
    e->file = file;
    return STATUS_OK;
}

static enum status refuse_set(const char *text, const char *why, struct diag_list *diags)
{
    struct diag d = {.code = STATUS_E_SYNTAX, .file = "--set"};
    struct text t = diag_text(&d);
    bool shown = text[0] != '\0' && !ini_value_fault(text);
    text_put(&t, "%s%s%s", shown ? text : "", shown ? ": " : "", why);
    diag_add(diags, &d);
    return STATUS_E_SYNTAX;
}

enum status profile_set(struct ini *ini, const char *text, struct diag_list *diags)
{
    char section[INI_NAME];
    char key[INI_NAME];
    struct text s = text_over(section, sizeof section);
    struct text k = text_over(key, sizeof key);
    size_t dot = strcspn(text, ".=");
    size_t equals = strcspn(text, "=");
    if (text[dot] != '.' || text[equals] != '=' || dot == 0 || equals == dot + 1) {
        return refuse_set(text, "write section.key=value, as in rear.axle_load=1800kg", diags);
    }
    text_put(&s, "%.*s", (int)dot, text);
    text_put(&k, "%.*s", (int)(equals - dot - 1), text + dot + 1);
    const char *value = text + equals + 1;
    const char *fault = s.cut || k.cut ? "the name is too long" : ini_value_fault(value);
    if (fault) {
        return refuse_set(text, fault, diags);
    }
    return profile_put(ini, section, key, value + strspn(value, " "), "--set") < 0
               ? refuse_set(text, "too many values", diags)
               : STATUS_OK;
}

/* Values with blanks at an end or with a character that the file gives a meaning need quotes. */
static void put_value(const char *value, struct text *out)
{
    size_t n = strlen(value);
    bool quote = strpbrk(value, "#;='\t") != NULL || value[0] == ' ' || value[n - 1] == ' ';
    text_put(out, quote ? "\"%s\"" : "%s", value);
}

static void write_section(const struct ini *ini, const struct schema_section_row *section,
                          const char *name, struct text *out)
{
    size_t n = 0;
    const struct schema_row *rows = schema_rows(&n);
    text_put(out, "%s[%s]\n", out->len > 0 ? "\n" : "", name);
    for (size_t i = 0; i < n; i++) {
        const struct ini_entry *e = (rows[i].sections & (unsigned)section->section) != 0
                                        ? ini_find(ini, name, rows[i].key)
                                        : NULL;
        if (e) {
            text_put(out, "%-16s = ", e->key);
            put_value(e->value, out);
            text_put(out, "\n");
        }
    }
}

void profile_write(const struct ini *ini, enum profile_kind kind, struct text *out)
{
    size_t n = 0;
    const struct schema_section_row *sections = schema_sections(&n);
    for (size_t i = 0; i < n; i++) {
        for (int j = 0; j < ini->n && sections[i].kind == kind; j++) {
            const struct ini_entry *e = &ini->entry[j];
            int number = 0;
            if (e->key[0] == '\0' && schema_section(kind, e->section, &number) == &sections[i]) {
                write_section(ini, &sections[i], e->section, out);
            }
        }
    }
}
