/* ini_scan.h - a strict scan of an INI file held in memory. It accepts only a subset of what
 * iniparser accepts, knows the line of every entry, and reports every mistake it sees:
 *
 *   [name]                     alone on its line, each name once
 *   key = bare value           no quote, '=', ';' or '#' inside; a comment may follow
 *   key = "quoted value"       no quote or backslash inside; a comment may follow
 *   # comment   ; comment
 *
 * Names are [a-z_][a-z0-9_-]*, at most 63 bytes. */
#ifndef SANDSHOE_PROFILE_INI_SCAN_H
#define SANDSHOE_PROFILE_INI_SCAN_H

#include <stddef.h>

#include "base/diag.h"

enum {
    INI_NAME = 64,
    INI_VALUE = 320,
    INI_ENTRIES = 768,
    INI_LINE = 1021,  /* bytes; iniparser reads 1022 */
    INI_FILE = 65536, /* bytes */
    INI_FILES = 8
};

/* One key with its value, or a section header (key ""). */
struct ini_entry {
    char section[INI_NAME];
    char key[INI_NAME];
    char value[INI_VALUE];
    int line; /* 0 = not from a file */
    int file; /* index into ini.file */
};

/* Entries in the order of the file; a section's header stands before its keys. */
struct ini {
    int n_file;
    char file[INI_FILES][DIAG_FILE];
    int n;
    struct ini_entry entry[INI_ENTRIES];
};

/* ini_scan - append the entries of size bytes; name is used in messages.
 * ret STATUS_OK; E_SYNTAX (mistakes are in diags); E_FULL (too many files, said in diags). */
enum status ini_scan(const char *bytes, size_t size, const char *name, struct ini *ini,
                     struct diag_list *diags) MUST_CHECK;

/* ini_find - the entry of a key, or of a section header with key "", or NULL. */
const struct ini_entry *ini_find(const struct ini *ini, const char *section, const char *key);

/* ini_value_fault - what keeps a value from standing in a file, or NULL: control characters, bytes
 * that are not UTF-8, quotes, backslashes, nothing but blanks, too long. */
const char *ini_value_fault(const char *value);

/* ini_diag - a mistake at an entry; the text is still to be written. */
struct diag ini_diag(const struct ini *ini, const struct ini_entry *e, enum status code);

#endif
