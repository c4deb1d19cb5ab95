#include "support/tui_session.h"

#include "support/check.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/stat.h>
#include <unistd.h>

/* Relative to the source tree: no path of this machine, nor its length, may show on a screen. */
#define PROFILES "profiles"

static void load_compressors(struct tui_session *t)
{
    static const char *const names[] = {"twin-12v", "single-12v", "portable-12v", "engine-driven",
                                        "shop-air"};
    struct diag_list diags = {0};
    for (size_t i = 0; i < sizeof names / sizeof *names; i++) {
        char path[300];
        struct compressor c;
        snprintf(path, sizeof path, "%s/compressors/%s.ini", PROFILES, names[i]);
        if (compressor_load(path, &t->files.ini, &c, &diags) >= STATUS_OK)
            compressor_list_add(&t->compressors, path, &c);
    }
}

static void load_grounds(struct tui_session *t)
{
    struct diag_list diags = {0};
    t->files.ini.n = t->files.ini.n_file = 0;
    assert_true(profile_read(PROFILES "/grounds.ini", &t->files.ini, &diags) >= STATUS_OK);
    assert_true(grounds_from_ini(&t->files.ini, &t->grounds, &diags) >= STATUS_OK);
}

static void make_files(struct tui_session *t)
{
    struct session_files *f = &t->files;
    snprintf(t->save_dir, sizeof t->save_dir, "/tmp/sandshoe-tui-XXXXXX");
    assert_non_null(mkdtemp(t->save_dir));
    f->compressors = &t->compressors;
    f->grounds = &t->grounds;
    f->search = &t->search;
    t->search.n = 2;
    snprintf(t->search.dir[0], PATHS_LEN, "%s", t->save_dir);
    snprintf(t->search.dir[1], PATHS_LEN, "%s", PROFILES);
    snprintf(f->save_dir, HOST_PATH, "%s/rigs", t->save_dir);
    snprintf(f->ground_file, HOST_PATH, "%s/state/grounds", t->save_dir);
    snprintf(f->log.dir, HOST_PATH, "%s/state/logs", t->save_dir);
    snprintf(f->log.learned_file, HOST_PATH, "%s/state/learned", t->save_dir);
    f->log.journal.fd = -1;
    t->host = session_host_of(f);
}

struct tui_session *tui_begin(const char *rig, const char *ground, int cols, int rows)
{
    struct tui_session *t = calloc(1, sizeof *t);
    struct model_start start = {.ground = ground};
    struct load_report report;
    assert_non_null(t);
    assert_int_equal(chdir(SANDSHOE_SRCDIR), 0);
    load_compressors(t);
    load_grounds(t);
    make_files(t);
    t->cols = cols;
    t->rows = rows;
    start.host = &t->host;
    start.grounds = &t->grounds;
    if (rig != NULL) {
        start.source.kind = SOURCE_FILE;
        snprintf(start.source.path, HOST_PATH, "%s/rigs/%s.ini", PROFILES, rig);
    }
    CHECK_STATUS(model_init(&start, &t->model, &report), STATUS_OK);
    return t;
}

static void remove_files(const char *dir)
{
    struct dirent **entry = NULL;
    int n = scandir(dir, &entry, NULL, alphasort);
    for (int i = 0; i < n; i++) {
        char path[400];
        snprintf(path, sizeof path, "%s/%s", dir, entry[i]->d_name);
        if (entry[i]->d_name[0] != '.' && unlink(path) != 0)
            remove_files(path);
        free(entry[i]);
    }
    free(entry);
    rmdir(dir);
}

void tui_end(struct tui_session *t)
{
    remove_files(t->save_dir);
    free(t);
}

static void keep(void *to, const char *text)
{
    struct tui_session *t = to;
    size_t n = strlen(text);
    assert_true(t->len + n < sizeof t->out);
    memcpy(t->out + t->len, text, n + 1);
    t->len += n;
}

const char *tui_script(struct tui_session *t, const char *lines)
{
    char words[300];
    struct text why = text_over(words, sizeof words);
    struct loop_client client = model_client(&t->model, NULL);
    struct script s = {&client, t->rows, t->cols, t->ascii, 0, keep, t};
    t->len = 0;
    t->out[0] = '\0';
    if (script_run(&s, lines, &why) != STATUS_OK)
        fail_msg("%s", words);
    t->rows = s.rows;
    t->cols = s.cols;
    return t->out;
}

static void full_path(const char *path, char out[400])
{
    snprintf(out, 400, "%s/%s", SANDSHOE_SRCDIR, path);
}

char *tui_file(const char *path)
{
    char full[400];
    full_path(path, full);
    FILE *f = fopen(full, "rb");
    char *text = f != NULL ? calloc(1, 1000000) : NULL;
    size_t n = text != NULL ? fread(text, 1, 999999, f) : 0;
    (void)n;
    if (f != NULL)
        fclose(f);
    return text;
}

void tui_golden(const char *path, const char *text)
{
    char full[400];
    full_path(path, full);
    if (getenv("UPDATE") != NULL) {
        FILE *f = fopen(full, "wb");
        assert_non_null(f);
        fputs(text, f);
        fclose(f);
        return;
    }
    char *want = tui_file(path);
    if (want == NULL)
        fail_msg("no %s: run with UPDATE=1", path);
    else
        check_text_at(text, want, path, 0);
    free(want);
}
