#include "app/files.h"

#include <errno.h>
#include <fcntl.h>
#include <libgen.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

enum { FILES_PATH = 600 };

static enum status system_error(const char *path, struct text *why)
{
    text_put(why, "%s: %s", path, strerror(errno));
    return STATUS_E_SYSTEM;
}

static enum status read_all(int fd, const char *path, char *bytes, size_t cap, size_t *n,
                            struct text *why)
{
    size_t have = 0;
    while (have < cap) {
        ssize_t r = read(fd, bytes + have, cap - have);
        if (r == 0) {
            *n = have;
            return STATUS_OK;
        }
        if (r < 0 && errno != EINTR) {
            return system_error(path, why);
        }
        have += r > 0 ? (size_t)r : 0;
    }
    text_put(why, "%s: larger than %zu bytes", path, cap - 1);
    return STATUS_E_FULL;
}

enum status file_read(const char *path, char *bytes, size_t cap, size_t *n, struct text *why)
{
    struct stat st;
    int fd = open(path, O_RDONLY | O_CLOEXEC | O_NONBLOCK); /* never waits on a pipe */
    if (fd < 0) {
        return system_error(path, why);
    }
    enum status s = STATUS_E_SYSTEM;
    if (fstat(fd, &st) != 0) {
        s = system_error(path, why);
    } else if (!S_ISREG(st.st_mode)) {
        text_put(why, "%s: not a regular file", path);
    } else {
        s = read_all(fd, path, bytes, cap, n, why);
    }
    close(fd);
    return s;
}

static enum status write_all(int fd, const char *path, const char *bytes, size_t n,
                             struct text *why)
{
    size_t done = 0;
    while (done < n) {
        ssize_t w = write(fd, bytes + done, n - done);
        if (w < 0 && errno == EINTR) {
            continue;
        }
        if (w <= 0) {
            return system_error(path, why);
        }
        done += (size_t)w;
    }
    return fsync(fd) == 0 ? STATUS_OK : system_error(path, why);
}

/* The new name is on disk only when its folder is. */
static void sync_folder_of(const char *path)
{
    char copy[FILES_PATH];
    snprintf(copy, sizeof copy, "%s", path);
    int fd = open(dirname(copy), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (fd >= 0) {
        (void)fsync(fd);
        close(fd);
    }
}

/* link() refuses an existing name, so nothing can be overwritten between a look and the act. */
static enum status put_in_place(const char *temp, const char *path, bool replace, struct text *why)
{
    if (replace) {
        return rename(temp, path) == 0 ? STATUS_OK : system_error(path, why);
    }
    if (link(temp, path) == 0) {
        (void)unlink(temp);
        return STATUS_OK;
    }
    if (errno == EEXIST) {
        text_put(why, "%s: exists already, not overwritten", path);
        return STATUS_E_REFUSED;
    }
    return system_error(path, why);
}

enum status file_write(const char *path, const char *bytes, size_t n, bool replace,
                       struct text *why)
{
    char temp[FILES_PATH];
    int len = snprintf(temp, sizeof temp, "%s.XXXXXX", path);
    if (len < 0 || (size_t)len >= sizeof temp) {
        text_put(why, "%s: the path is too long", path);
        return STATUS_E_SYSTEM;
    }
    if (!replace && access(path, F_OK) == 0) {
        text_put(why, "%s: exists already, not overwritten", path);
        return STATUS_E_REFUSED;
    }
    int fd = mkstemp(temp);
    if (fd < 0) {
        return system_error(path, why);
    }
    (void)fchmod(fd, 0644);
    enum status s = write_all(fd, path, bytes, n, why);
    if (close(fd) != 0 && s == STATUS_OK) {
        s = system_error(path, why);
    }
    if (s == STATUS_OK) {
        s = put_in_place(temp, path, replace, why);
    }
    if (s != STATUS_OK) {
        (void)unlink(temp);
        return s;
    }
    sync_folder_of(path);
    return STATUS_OK;
}

enum status file_make_folders(const char *path, struct text *why)
{
    char copy[FILES_PATH];
    int len = snprintf(copy, sizeof copy, "%s", path);
    if (len < 0 || (size_t)len >= sizeof copy) {
        text_put(why, "%s: the path is too long", path);
        return STATUS_E_SYSTEM;
    }
    for (char *p = copy + 1; (p = strchr(p, '/')) != NULL; p++) {
        *p = '\0';
        if (mkdir(copy, 0755) != 0 && errno != EEXIST) {
            return system_error(copy, why);
        }
        *p = '/';
    }
    return STATUS_OK;
}
