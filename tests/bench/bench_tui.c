/* bench_tui.c - from a keystroke to its frame, and from nothing to the first frame. */
#include <string.h>

#include "app/context.h"
#include "app/session_host.h"
#include "bench/bench.h"
#include "tui/model.h"

static struct context context;
static struct session_files files;
static struct model model;

struct work {
    struct model_start start;
    struct frame frame;
    int turn;
};

static void draw(struct work *w)
{
    frame_clear(&w->frame);
    model_render(&model, &w->frame);
}

static void start_over(struct work *w)
{
    struct load_report report;
    struct event size = {.kind = EVENT_RESIZE, .rows = w->frame.rows, .cols = w->frame.cols};
    if (model_init(&w->start, &model, &report) != STATUS_OK) {
        fprintf(stderr, "%s\n", report.message);
        exit(1);
    }
    model_update(&model, &size);
}

/* the catalogues and the rig read, everything computed, the first frame drawn */
static void first_frame(void *to)
{
    struct work *w = to;
    context.grounds_ini.n = context.grounds_ini.n_file = context.compressors.n = 0;
    if (context_load_grounds(&context) != EXIT_FINE)
        exit(1);
    start_over(w);
    draw(w);
}

/* each call is one key: the chooser opens, a ground is taken, in turn */
static void keystroke(void *to)
{
    static const int keys[] = {'g', 'u', 'g', 'r'};
    struct work *w = to;
    struct event e = {.kind = EVENT_KEY, .key = keys[w->turn++ % 4]};
    model_update(&model, &e);
    draw(w);
}

/* a digit of a load typed: the rig is validated and loaded anew, everything computed */
static void digit(void *to)
{
    struct work *w = to;
    struct event e = {.kind = EVENT_KEY, .key = w->turn++ % 2 == 0 ? '0' : TKEY_BACKSPACE};
    model_update(&model, &e);
    draw(w);
}

static void press(int64_t now_ns, const char *keys)
{
    for (; *keys != '\0'; keys++) {
        struct event e = {
            .kind = EVENT_KEY, .key = *keys == '\n' ? TKEY_ENTER : *keys, .now_ns = now_ns};
        model_update(&model, &e);
    }
}

/* a second that passes while air flows */
static void clock_second(void *to)
{
    struct work *w = to;
    struct event e = {.kind = EVENT_TICK, .now_ns = (int64_t)++w->turn * 1000000000};
    model_update(&model, &e);
    draw(w);
}

/* a reading taken: saved (nowhere) and the forecast brought up to it */
static void clock_reading_taken(void *to)
{
    struct work *w = to;
    struct event save = {.kind = EVENT_SAVE, .now_ns = (int64_t)w->turn * 1000000000};
    model.at.clock.job.stale = true;
    model_update(&model, &save);
    draw(w);
}

static void bench_clock(struct work *w)
{
    struct event save = {.kind = EVENT_SAVE};
    struct event minute = {.kind = EVENT_TICK, .now_ns = (int64_t)60 * 1000000000};
    start_over(w);
    press(0, "aua18\n");
    model_update(&model, &save);
    press(0, " y\n\n\n");
    model_update(&model, &save);
    model_update(&model, &minute);
    press(minute.now_ns, "25\n");
    save.now_ns = minute.now_ns;
    model_update(&model, &save);
    bench_print("clock_keystroke_frame", digit, w);
    w->turn = 61; /* a second later */
    bench_print("clock_reading_frame", clock_reading_taken, w);
    bench_print("clock_tick_frame", clock_second, w);
}

int main(void)
{
    struct session_host host = session_host_of(&files);
    struct work w = {.start = {.host = &host, .grounds = &context.grounds, .ground = "dune-sand"}};
    files.compressors = &context.compressors;
    files.search = &context.search;
    paths_search(&context.search);
    w.start.source.kind = SOURCE_FILE;
    snprintf(w.start.source.path, HOST_PATH, "%s/profiles/rigs/flatbed-cabin.ini", SANDSHOE_SRCDIR);
    if (frame_init(&w.frame, 24, 80, false) != STATUS_OK)
        return 1;
    bench_print("first_frame", first_frame, &w);
    bench_print("keystroke_frame", keystroke, &w);
    start_over(&w);
    press(0, "w\n");
    w.turn = 0;
    bench_print("digit_frame", digit, &w);
    bench_clock(&w);
    frame_done(&w.frame);
    return 0;
}
