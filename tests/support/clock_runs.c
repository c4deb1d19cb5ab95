#include "support/clock_runs.h"

#include "support/check.h"

#include <dirent.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "app/files.h"

struct tui_session *clock_session(void)
{
    return tui_begin("flatbed-cabin", "dune-sand", 80, 24);
}

void clock_restart(struct tui_session *t)
{
    struct rig_source source = t->model.outing.source;
    struct model_start start = {
        .host = &t->host, .grounds = &t->grounds, .source = source, .ground = "dune-sand"};
    struct load_report report;
    session_log_end(&t->files.log);
    CHECK_STATUS(model_init(&start, &t->model, &report), STATUS_OK);
}

static int feed(struct tui_session *t, struct event e, double at_s)
{
    e.now_ns = (int64_t)(at_s * 1e9);
    return model_update(&t->model, &e);
}

int clock_wait(struct tui_session *t, double at_s)
{
    int effects = feed(t, (struct event){.kind = EVENT_TICK}, at_s);
    if ((effects & EFFECT_SAVE) != 0)
        feed(t, (struct event){.kind = EVENT_SAVE}, at_s);
    return effects;
}

int clock_press(struct tui_session *t, int key, double at_s)
{
    return feed(t, (struct event){.kind = EVENT_KEY, .key = key}, at_s);
}

const char *clock_frame(struct tui_session *t)
{
    static char buf[100000];
    struct frame f;
    struct text out = text_over(buf, sizeof buf);
    CHECK_STATUS(frame_init(&f, t->rows, t->cols, false), STATUS_OK);
    model_render(&t->model, &f);
    frame_dump_text(&f, &out);
    frame_done(&f);
    return buf;
}

bool clock_log_path(const struct tui_session *t, char path[HOST_PATH])
{
    struct dirent **entry = NULL;
    int n = scandir(t->files.log.dir, &entry, NULL, alphasort);
    bool found = n > 0 && strcmp(entry[n - 1]->d_name, "..") != 0;
    struct text out = text_over(path, HOST_PATH);
    if (found)
        text_put(&out, "%s/%s", t->files.log.dir, entry[n - 1]->d_name);
    for (int i = 0; i < n; i++)
        free(entry[i]);
    free(entry);
    return found;
}

void clock_last_log(const struct tui_session *t, struct journal_events *log)
{
    static char bytes[300000];
    char path[HOST_PATH], words[300];
    struct text why = text_over(words, sizeof words);
    struct diag_list diags = {.n = 0};
    size_t n = 0;
    assert_true(clock_log_path(t, path));
    CHECK_STATUS(file_read(path, bytes, sizeof bytes, &n, &why), STATUS_OK);
    CHECK_STATUS(journal_parse(path, bytes, n, log, &diags), STATUS_OK);
}

void clock_replay(const struct tui_session *t, const struct journal_events *log, struct session *s)
{
    char words[300];
    struct text why = text_over(words, sizeof words);
    session_init(&t->model.results.refill.in, s);
    for (int i = 0; i < log->n; i++)
        if (session_apply(s, &log->event[i], &why) != STATUS_OK)
            fail_msg("event %d: %s", i, words);
}

struct clock_job *job(struct tui_session *t)
{
    return &t->model.at.clock.job;
}

void assert_shows(const char *frame, const char *words)
{
    if (strstr(frame, words) == NULL)
        fail_msg("not on the screen: %s\n%s", words, frame);
}

void assert_hides(const char *frame, const char *words)
{
    if (strstr(frame, words) != NULL)
        fail_msg("on the screen: %s\n%s", words, frame);
}
