#include "tui/loop.h"

#include <errno.h>
#include <fcntl.h>
#include <poll.h>
#include <signal.h>
#include <unistd.h>

#include "tui/term.h"

/* Handlers only write the signal's number into a pipe that the loop polls. */
static int wake_fd = -1;

static void note_signal(int signal)
{
    int saved = errno;
    unsigned char byte = (unsigned char)signal;
    ssize_t n = write(wake_fd, &byte, 1);
    (void)n; /* a full pipe holds a signal already */
    errno = saved;
}

static const int watched[] = {SIGTSTP, SIGINT, SIGTERM, SIGHUP, SIGCONT, SIGWINCH};
enum { WATCHED = sizeof watched / sizeof *watched };

struct loop {
    const struct loop_client *client;
    struct frame frame;
    bool ascii;
    int pipe_fd[2];
    struct sigaction before[WATCHED];
};

static void watch_signals(struct loop *l)
{
    struct sigaction act = {.sa_handler = note_signal, .sa_flags = SA_RESTART};
    sigemptyset(&act.sa_mask);
    for (int i = 0; i < WATCHED; i++)
        sigaction(watched[i], &act, &l->before[i]);
}

static void unwatch_signals(const struct loop *l)
{
    for (int i = 0; i < WATCHED; i++)
        sigaction(watched[i], &l->before[i], NULL);
}

static enum status fit_frame(struct loop *l, int rows, int cols)
{
    struct frame fresh;
    enum status s = frame_init(&fresh, rows, cols, l->ascii);
    if (s != STATUS_OK)
        return s;
    frame_done(&l->frame);
    l->frame = fresh;
    return STATUS_OK;
}

static void show(struct loop *l)
{
    frame_clear(&l->frame);
    l->client->render(l->client->self, &l->frame);
    term_blit(&l->frame);
}

/* what the frame just shown says is being saved */
static void save(struct loop *l)
{
    struct event e = {.kind = EVENT_SAVE, .now_ns = l->client->now_ns()};
    if (l->client->update(l->client->self, &e) != EFFECT_NONE)
        show(l);
}

/* one event through the model; returns true when the session ends */
static bool feed(struct loop *l, struct event e)
{
    e.now_ns = l->client->now_ns();
    if (e.kind == EVENT_RESIZE && fit_frame(l, e.rows, e.cols) != STATUS_OK)
        return true;
    int effects = l->client->update(l->client->self, &e);
    if ((effects & EFFECT_BEEP) != 0)
        term_beep();
    if ((effects & EFFECT_SUSPEND) != 0) {
        term_suspend();
        effects |= EFFECT_REDRAW;
    }
    if ((effects & EFFECT_REPAINT) != 0)
        term_repaint();
    if ((effects & (EFFECT_REDRAW | EFFECT_REPAINT)) != 0)
        show(l);
    if ((effects & EFFECT_SAVE) != 0)
        save(l);
    return (effects & EFFECT_QUIT) != 0;
}

static struct event signal_event(int signal)
{
    struct event e = {.kind = EVENT_SIGNAL, .signal = EVENT_TERMINATE};
    if (signal == SIGTSTP)
        e.signal = EVENT_STOP;
    else if (signal == SIGINT)
        e.signal = EVENT_INTERRUPT;
    else if (signal == SIGHUP)
        e.signal = EVENT_HANGUP;
    else if (signal == SIGCONT)
        e = (struct event){.kind = EVENT_TICK};
    return e;
}

static bool take_signals(struct loop *l)
{
    unsigned char byte;
    while (read(l->pipe_fd[0], &byte, 1) == 1)
        if (byte == SIGWINCH)
            term_fit();
        else if (feed(l, signal_event(byte)))
            return true;
    return false;
}

static bool take_keys(struct loop *l)
{
    struct event e;
    while (term_next(&e))
        if (feed(l, e))
            return true;
    return false;
}

static int wait_ms(const struct loop *l)
{
    int64_t next = l->client->next_change_ns(l->client->self);
    if (next < 0)
        return -1;
    int64_t ns = next - l->client->now_ns();
    return ns <= 0 ? 0 : ns > 60000000000 ? 60000 : (int)((ns + 999999) / 1000000);
}

static void run(struct loop *l)
{
    struct pollfd fds[] = {{.fd = STDIN_FILENO, .events = POLLIN},
                           {.fd = l->pipe_fd[0], .events = POLLIN}};
    for (bool ended = false; !ended;) {
        int n = poll(fds, 2, wait_ms(l));
        if (n == 0)
            ended = feed(l, (struct event){.kind = EVENT_TICK});
        ended = ended || take_signals(l) || take_keys(l);
        if (n > 0 && (fds[0].revents & (POLLHUP | POLLERR | POLLNVAL)) != 0)
            ended = feed(l, (struct event){.kind = EVENT_SIGNAL, .signal = EVENT_HANGUP}) || true;
    }
}

static bool open_pipe(struct loop *l)
{
    if (pipe(l->pipe_fd) != 0)
        return false;
    for (int i = 0; i < 2; i++) {
        fcntl(l->pipe_fd[i], F_SETFL, O_NONBLOCK);
        fcntl(l->pipe_fd[i], F_SETFD, FD_CLOEXEC);
    }
    wake_fd = l->pipe_fd[1];
    return true;
}

static enum status start(struct loop *l)
{
    int rows = 0, cols = 0;
    term_size(&rows, &cols);
    enum status s = fit_frame(l, rows, cols);
    if (s != STATUS_OK)
        return s;
    watch_signals(l);
    if (!feed(l, (struct event){.kind = EVENT_RESIZE, .rows = rows, .cols = cols}))
        run(l);
    unwatch_signals(l);
    return STATUS_OK;
}

enum status loop_run(const struct loop_client *c, bool colour, bool ascii, struct text *why)
{
    struct loop l = {.client = c, .ascii = ascii};
    enum status s = term_open(colour, why);
    if (s != STATUS_OK)
        return s;
    if (open_pipe(&l)) {
        s = start(&l);
        close(l.pipe_fd[0]);
        close(l.pipe_fd[1]);
        wake_fd = -1;
    } else {
        s = STATUS_E_SYSTEM;
    }
    term_close();
    frame_done(&l.frame);
    if (s != STATUS_OK)
        text_put(why, "%s", status_text(s));
    return s;
}
