/* fuzz_keys.c - random keys, ticks, signals and window sizes into the session: no crash, no cell
 * outside the frame or ill-formed, what is computed stays finite. Two bytes are one event. */
#include <math.h>
#include <stdint.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "app/context.h"
#include "app/session_host.h"
#include "tui/model.h"
#include "tui/utf8.h"

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

static struct context context;
static struct session_files files;
static struct session_host host;
static struct model model;

/* nothing is written while fuzzing */
static enum host_saved no_save(void *self, const struct rig_source *source, int n,
                               const struct rig_edit edits[], const char *name, bool overwrite,
                               char path[HOST_PATH], struct text *message)
{
    (void)self, (void)source, (void)n, (void)edits, (void)path;
    text_put(message, "not saved: %s", name);
    return overwrite ? HOST_SAVED : HOST_EXISTS;
}

static bool no_card(void *self, const struct rig *rig, const struct conditions *day,
                    enum unit_system u, const char *size, char path[HOST_PATH],
                    struct text *message)
{
    (void)self, (void)rig, (void)day, (void)u, (void)path;
    text_put(message, "no card of size %s", size);
    return false;
}

static bool no_trip_card(void *self, const struct rig *rig, const struct trip *trip,
                         enum unit_system u, char path[HOST_PATH], struct text *message)
{
    (void)self, (void)rig, (void)trip, (void)u, (void)path;
    text_put(message, "no card of the trip");
    return false;
}

static bool no_print(void *self, const char *path, struct text *message)
{
    (void)self;
    text_put(message, "not printed: %s", path);
    return false;
}

static void prepare(void)
{
    if (context.grounds.n > 0)
        return;
    paths_search(&context.search);
    if (context_load_grounds(&context) != EXIT_FINE)
        abort();
    files.compressors = &context.compressors;
    files.search = &context.search;
    host = session_host_of(&files);
    host.save = no_save;
    host.card = no_card;
    host.trip_card = no_trip_card;
    host.print = no_print;
}

static void begin(bool with_rig)
{
    struct model_start start = {.host = &host, .grounds = &context.grounds};
    struct load_report report;
    if (with_rig) {
        start.source.kind = SOURCE_FILE;
        snprintf(start.source.path, HOST_PATH, "%s/profiles/rigs/touring-wagon.ini",
                 SANDSHOE_SRCDIR);
    }
    if (model_init(&start, &model, &report) != STATUS_OK)
        abort();
}

static struct event event_of(uint8_t kind, uint8_t value)
{
    static const int special[] = {
        TKEY_TAB,   TKEY_ENTER,   TKEY_ESC,     TKEY_BACKSPACE, TKEY_UP,   TKEY_DOWN, TKEY_LEFT,
        TKEY_RIGHT, TKEY_BACKTAB, TKEY_PAGE_UP, TKEY_PAGE_DOWN, TKEY_HOME, TKEY_END,  TKEY_CTRL_U,
        TKEY_F2,    TKEY_F3,      TKEY_OTHER,   0x7802,         0x301,     0x10FFFF};
    if (kind < 160)
        return (struct event){.kind = EVENT_KEY, .key = 32 + value % 95};
    if (kind < 230)
        return (struct event){.kind = EVENT_KEY,
                              .key = special[value % (sizeof special / sizeof *special)]};
    if (kind < 245)
        return (struct event){.kind = EVENT_RESIZE, .rows = 1 + value % 60, .cols = 1 + value};
    if (kind < 250)
        return (struct event){.kind = EVENT_TICK};
    return (struct event){.kind = EVENT_SIGNAL, .signal = EVENT_STOP};
}

static void check_frame(const struct frame *f)
{
    for (int row = 0; row < f->rows; row++)
        for (int col = 0; col < f->cols; col++) {
            const struct cell *c = frame_cell(f, row, col);
            if (c->width > 2 || c->style >= STYLE_COUNT || memchr(c->utf8, 0, 8) == NULL)
                abort();
            if (f->ascii && (unsigned char)c->utf8[0] > 126)
                abort();
        }
}

static void check_results(void)
{
    const struct results *r = &model.results;
    for (int x = 0; x < AXLE_COUNT && model.outing.has_rig && r->status >= STATUS_OK; x++)
        if (!isfinite(r->advice.axle[x].target_gauge_pa))
            abort();
    if (model.outing.has_rig && !model.outing.rig.axle[model.axle].present)
        abort();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct frame f;
    prepare();
    begin(size > 0 && data[0] % 4 != 0);
    int rows = 24, cols = 80;
    for (size_t i = 1; i + 1 < size && i < 400; i += 2) {
        struct event e = event_of(data[i], data[i + 1]);
        if (e.kind == EVENT_RESIZE) {
            rows = e.rows;
            cols = e.cols;
        }
        model_update(&model, &e);
        if (frame_init(&f, rows, cols, data[0] % 2 == 0) != STATUS_OK)
            abort();
        model_render(&model, &f);
        check_frame(&f);
        check_results();
        frame_done(&f);
    }
    return 0;
}
