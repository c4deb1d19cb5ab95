/* files.h - whole files in and out. */
#ifndef SANDSHOE_APP_FILES_H
#define SANDSHOE_APP_FILES_H

#include <stdbool.h>
#include <stddef.h>

#include "base/status.h"
#include "base/text.h"

/* file_read - a regular file of at most cap bytes. ret STATUS_OK; E_SYSTEM with errno text in why;
 * E_FULL when it is larger. */
enum status file_read(const char *path, char *bytes, size_t cap, size_t *n,
                      struct text *why) MUST_CHECK;

/* file_write - write by temporary file, fsync and rename: the old file or the new one is there,
 * never half of it. replace false: an existing file is left alone and E_REFUSED returned. */
enum status file_write(const char *path, const char *bytes, size_t n, bool replace,
                       struct text *why) MUST_CHECK;

/* file_make_folders - the folders above a path, like mkdir -p. */
enum status file_make_folders(const char *path, struct text *why) MUST_CHECK;

#endif
