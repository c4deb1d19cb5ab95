#include "tty/vt.h"

#include "support/check.h"

#include <dirent.h>
#include <fcntl.h>
#include <poll.h>
#include <pty.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <sys/wait.h>
#include <time.h>
#include <unistd.h>
#include <utmp.h>

/* what the keeper says: the program's pid first, then each change of its state */
enum { NEWS_PID, NEWS_STOPPED, NEWS_ENDED };

struct news {
    int what;
    int value;
};

static void tell(int fd, int what, int value)
{
    struct news n = {what, value};
    if (write(fd, &n, sizeof n) != (ssize_t)sizeof n)
        _exit(3);
}

static void run_program(const struct vt_start *s)
{
    char *argv[3] = {getenv("SANDSHOE"), NULL, NULL};
    char rig[300];
    if (argv[0] == NULL)
        _exit(99);
    if (s->rig != NULL) {
        snprintf(rig, sizeof rig, "%s/profiles/rigs/%s.ini", SANDSHOE_SRCDIR, s->rig);
        argv[1] = rig;
    }
    setenv("TERM", s->term, 1);
    setenv("LC_ALL", "C.UTF-8", 1);
    setenv("XDG_CONFIG_HOME", s->home, 1);
    setenv("XDG_STATE_HOME", s->home, 1);
    setenv("XDG_DATA_HOME", s->home, 1);
    unsetenv("LINES");
    unsetenv("COLUMNS");
    unsetenv("NO_COLOR");
    if (s->no_color)
        setenv("NO_COLOR", "1", 1);
    if (s->stdin_null) {
        int null = open("/dev/null", O_RDONLY | O_CLOEXEC);
        dup2(null, STDIN_FILENO);
    }
    execv(argv[0], argv);
    _exit(98);
}

/* a foreground process group of its own, as a job of a shell */
static pid_t start_job(const struct vt_start *s)
{
    pid_t pid = fork();
    if (pid == 0) {
        setpgid(0, 0);
        tcsetpgrp(STDOUT_FILENO, getpid());
        signal(SIGTTOU, SIG_DFL);
        run_program(s);
    }
    setpgid(pid, pid);
    tcsetpgrp(STDOUT_FILENO, pid);
    return pid;
}

static void keep(const struct vt_start *s, int line, int from_test, int to_test)
{
    int status = 0;
    char go;
    login_tty(line);
    signal(SIGTTOU, SIG_IGN);
    signal(SIGHUP, SIG_IGN);
    pid_t pid = start_job(s);
    tell(to_test, NEWS_PID, pid);
    for (;;) {
        if (waitpid(pid, &status, WUNTRACED) != pid)
            _exit(4);
        tcsetpgrp(STDOUT_FILENO, getpid());
        if (!WIFSTOPPED(status))
            break;
        tell(to_test, NEWS_STOPPED, WSTOPSIG(status));
        if (read(from_test, &go, 1) != 1)
            break;
        tcsetpgrp(STDOUT_FILENO, pid);
        kill(-pid, SIGCONT);
    }
    tell(to_test, NEWS_ENDED, status);
    (void)!read(from_test, &go, 1); /* until the test is done with the line */
    _exit(0);
}

static void open_screen(struct vt *v)
{
    v->vterm = vterm_new(v->rows, v->cols);
    assert_non_null(v->vterm);
    vterm_set_utf8(v->vterm, 1);
    v->screen = vterm_obtain_screen(v->vterm);
    vterm_screen_enable_altscreen(v->screen, 1);
    vterm_screen_reset(v->screen, 1);
}

static struct news hear(struct vt *v);

void vt_open(struct vt *v, const struct vt_start *s)
{
    struct winsize size = {.ws_row = (unsigned short)s->rows, .ws_col = (unsigned short)s->cols};
    int up[2], down[2];
    memset(v, 0, sizeof *v);
    v->rows = s->rows;
    v->cols = s->cols;
    assert_int_equal(openpty(&v->master, &v->line, NULL, NULL, &size), 0);
    assert_int_equal(pipe(up), 0);
    assert_int_equal(pipe(down), 0);
    assert_int_equal(tcgetattr(v->line, &v->before), 0);
    open_screen(v);
    v->keeper = fork();
    assert_true(v->keeper >= 0);
    if (v->keeper == 0) {
        close(v->master);
        close(up[0]);
        close(down[1]);
        keep(s, dup(v->line), down[0], up[1]);
    }
    close(up[1]);
    close(down[0]);
    v->from_keeper = up[0];
    v->to_keeper = down[1];
    v->program = (pid_t)hear(v).value;
}

void vt_close(struct vt *v)
{
    close(v->to_keeper);
    close(v->from_keeper);
    close(v->master);
    close(v->line);
    kill(v->program, SIGKILL);
    kill(v->keeper, SIGKILL);
    waitpid(v->keeper, NULL, 0);
    vterm_free(v->vterm);
}

static long now_ms(void)
{
    struct timespec t;
    clock_gettime(CLOCK_MONOTONIC, &t);
    return (long)t.tv_sec * 1000 + t.tv_nsec / 1000000;
}

static void note_said(struct vt *v, const char *bytes, size_t n)
{
    if (v->said_len + n >= sizeof v->said)
        v->said_len = 0;
    memcpy(v->said + v->said_len, bytes, n);
    v->said_len += n;
    v->said[v->said_len] = '\0';
}

/* take what the program wrote, and answer what the terminal is asked */
static void take_output(struct vt *v)
{
    char bytes[4096];
    ssize_t n = read(v->master, bytes, sizeof bytes);
    if (n <= 0)
        return;
    note_said(v, bytes, (size_t)n);
    vterm_input_write(v->vterm, bytes, (size_t)n);
    size_t back = vterm_output_read(v->vterm, bytes, sizeof bytes);
    if (back > 0 && write(v->master, bytes, back) != (ssize_t)back)
        fail_msg("the line takes no answer");
}

static void screen_line(const struct vt *v, int row, char *line, size_t cap)
{
    size_t n = 0;
    for (int col = 0; col < v->cols && n + 8 < cap; col++) {
        VTermScreenCell cell;
        VTermPos pos = {row, col};
        vterm_screen_get_cell(v->screen, pos, &cell);
        uint32_t cp = cell.chars[0];
        line[n++] = cp == 0 ? ' ' : cp < 127 ? (char)cp : '#';
    }
    line[n] = '\0';
}

bool vt_shows(const struct vt *v, const char *words)
{
    char line[1000];
    for (int row = 0; row < v->rows; row++) {
        screen_line(v, row, line, sizeof line);
        if (strstr(line, words) != NULL)
            return true;
    }
    return false;
}

static void give_up(const struct vt *v, const char *what)
{
    char line[1000];
    for (int row = 0; row < v->rows; row++) {
        screen_line(v, row, line, sizeof line);
        fprintf(stderr, "|%s|\n", line);
    }
    fail_msg("waited %d ms in vain: %s", VT_DEADLINE_MS, what);
}

static void wait_for(struct vt *v, const char *words, bool there)
{
    long end = now_ms() + VT_DEADLINE_MS;
    while (vt_shows(v, words) != there) {
        struct pollfd p = {.fd = v->master, .events = POLLIN};
        long left = end - now_ms();
        if (left <= 0)
            give_up(v, words);
        if (poll(&p, 1, (int)left) > 0)
            take_output(v);
    }
}

void vt_wait(struct vt *v, const char *words)
{
    wait_for(v, words, true);
}

void vt_wait_gone(struct vt *v, const char *words)
{
    wait_for(v, words, false);
}

/* the keeper's next news; the program's output is taken meanwhile, or it would block */
static struct news hear(struct vt *v)
{
    long end = now_ms() + VT_DEADLINE_MS;
    struct news n = {NEWS_ENDED, -1};
    for (;;) {
        struct pollfd p[] = {{.fd = v->from_keeper, .events = POLLIN},
                             {.fd = v->master, .events = POLLIN}};
        long left = end - now_ms();
        if (left <= 0)
            give_up(v, "news of the program");
        poll(p, 2, (int)left);
        if ((p[1].revents & POLLIN) != 0)
            take_output(v);
        else if ((p[0].revents & (POLLIN | POLLHUP)) != 0)
            break;
    }
    if (read(v->from_keeper, &n, sizeof n) != (ssize_t)sizeof n)
        fail_msg("the keeper is gone");
    return n;
}

void vt_wait_stopped(struct vt *v)
{
    assert_int_equal(hear(v).what, NEWS_STOPPED);
}

void vt_continue(struct vt *v)
{
    assert_int_equal(write(v->to_keeper, "c", 1), 1);
}

int vt_wait_end(struct vt *v)
{
    struct news n = hear(v);
    assert_int_equal(n.what, NEWS_ENDED);
    return n.value;
}

void vt_send(struct vt *v, const char *bytes)
{
    assert_int_equal(write(v->master, bytes, strlen(bytes)), (ssize_t)strlen(bytes));
}

void vt_resize(struct vt *v, int rows, int cols)
{
    struct winsize size = {.ws_row = (unsigned short)rows, .ws_col = (unsigned short)cols};
    v->rows = rows;
    v->cols = cols;
    vterm_set_size(v->vterm, rows, cols);
    assert_int_equal(ioctl(v->master, TIOCSWINSZ, &size), 0);
}

bool vt_modes_restored(const struct vt *v)
{
    struct termios now;
    assert_int_equal(tcgetattr(v->line, &now), 0);
    return now.c_iflag == v->before.c_iflag && now.c_oflag == v->before.c_oflag &&
           now.c_cflag == v->before.c_cflag && now.c_lflag == v->before.c_lflag &&
           memcmp(now.c_cc, v->before.c_cc, sizeof now.c_cc) == 0;
}

void vt_remove_tree(const char *dir)
{
    struct dirent **entry = NULL;
    int n = scandir(dir, &entry, NULL, alphasort);
    for (int i = 0; i < n; i++) {
        char path[600];
        snprintf(path, sizeof path, "%s/%s", dir, entry[i]->d_name);
        if (entry[i]->d_name[0] != '.' && unlink(path) != 0)
            vt_remove_tree(path);
        free(entry[i]);
    }
    free(entry);
    rmdir(dir);
}
