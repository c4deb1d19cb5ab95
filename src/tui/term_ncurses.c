#include "tui/term.h"

#include <ncurses.h>
#include <signal.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>
#include <sys/ioctl.h>
#include <term.h>
#include <termios.h>
#include <unistd.h>

/* What must be known to put the terminal back from a signal handler: plain bytes, no curses. */
static struct {
    volatile sig_atomic_t open;
    bool colour;
    SCREEN *screen;
    struct termios before;
    char restore[256];
    size_t restore_len;
    int rows, cols; /* as last reported */
} term;

static const int fatal_signals[] = {SIGSEGV, SIGBUS, SIGFPE, SIGILL, SIGABRT};

static void restore_raw(int signal)
{
    if (term.open) {
        term.open = 0;
        ssize_t written = write(STDOUT_FILENO, term.restore, term.restore_len);
        (void)written; /* nothing left to do about it here */
        tcsetattr(STDIN_FILENO, TCSANOW, &term.before);
    }
    raise(signal); /* SA_RESETHAND: the default action follows */
}

static void catch_fatal(void)
{
    struct sigaction act = {.sa_handler = restore_raw,
                            .sa_flags = (int)(SA_RESETHAND | SA_NODEFER)};
    sigemptyset(&act.sa_mask);
    for (size_t i = 0; i < sizeof fatal_signals / sizeof *fatal_signals; i++)
        sigaction(fatal_signals[i], &act, NULL);
}

static const char *capability(const char *name)
{
    static char id[16]; /* ncurses declares the parameter without const */
    snprintf(id, sizeof id, "%s", name);
    const char *s = tigetstr(id);
    return s == NULL || s == (const char *)-1 ? "" : s;
}

/* the sequences that end the session: attributes off, cursor on, keypad off, screen left */
static void note_restore(void)
{
    static const char *const names[] = {"sgr0", "cnorm", "rmkx", "rmcup"};
    struct text out = text_over(term.restore, sizeof term.restore);
    for (size_t i = 0; i < sizeof names / sizeof *names; i++)
        text_put(&out, "%s", capability(names[i]));
    text_put(&out, "\r\n");
    term.restore_len = out.len;
}

static void start_colours(bool wanted)
{
    static const short hues[HUE_COUNT] = {-1, COLOR_RED, COLOR_MAGENTA};
    term.colour = wanted && has_colors() && start_color() == OK && use_default_colors() == OK;
    for (short h = 1; term.colour && h < HUE_COUNT; h++)
        init_pair(h, hues[h], -1);
}

static void set_modes(void)
{
    cbreak();
    noqiflush(); /* ^C and ^Z must not empty the queue between a look at it and the read */
    noecho();
    nonl();
    keypad(stdscr, TRUE);
    nodelay(stdscr, TRUE);
    set_escdelay(25);
    leaveok(stdscr, TRUE);
    curs_set(0);
}

static enum status usable(struct text *why)
{
    int found = 0;
    const char *name = getenv("TERM");
    if (name == NULL)
        name = "";
    if (setupterm(NULL, STDOUT_FILENO, &found) != OK) {
        text_put(why,
                 "the terminal type TERM=%s is not known here; set TERM, or use: sandshoe advise",
                 name);
        return STATUS_E_SYSTEM;
    }
    bool places = *capability("cup") != '\0' && *capability("clear") != '\0';
    del_curterm(cur_term); /* newterm makes its own */
    if (!places) {
        text_put(why, "TERM=%s cannot place the cursor; use: sandshoe advise", name);
        return STATUS_E_SYSTEM;
    }
    return STATUS_OK;
}

enum status term_open(bool colour, struct text *why)
{
    if (!isatty(STDIN_FILENO) || !isatty(STDOUT_FILENO)) {
        text_put(why, "the session needs a terminal; in a pipe use: sandshoe advise");
        return STATUS_E_MISSING;
    }
    enum status s = usable(why);
    if (s != STATUS_OK)
        return s;
    tcgetattr(STDIN_FILENO, &term.before);
    term.screen = newterm(NULL, stdout, stdin);
    if (term.screen == NULL) {
        text_put(why, "the terminal could not be opened");
        return STATUS_E_SYSTEM;
    }
    note_restore();
    set_modes();
    start_colours(colour);
    term.open = 1;
    catch_fatal();
    atexit(term_close);
    getmaxyx(stdscr, term.rows, term.cols);
    return STATUS_OK;
}

void term_close(void)
{
    if (!term.open)
        return;
    term.open = 0;
    endwin();
    tcsetattr(STDIN_FILENO, TCSADRAIN, &term.before);
    delscreen(term.screen);
    term.screen = NULL;
}

void term_size(int *rows, int *cols)
{
    *rows = term.rows;
    *cols = term.cols;
}

static attr_t attributes_of(const struct look *look)
{
    int bits = term.colour ? look->colour : look->mono;
    attr_t a = A_NORMAL;
    if ((bits & LOOK_BOLD) != 0)
        a |= A_BOLD;
    if ((bits & LOOK_REVERSE) != 0)
        a |= A_REVERSE;
    if ((bits & LOOK_UNDERLINE) != 0)
        a |= A_UNDERLINE;
    return a;
}

void term_blit(const struct frame *f)
{
    for (int row = 0; row < f->rows; row++) {
        move(row, 0);
        for (int col = 0; col < f->cols; col++) {
            const struct cell *c = frame_cell(f, row, col);
            const struct look *look = style_look((enum style)c->style);
            attr_set(attributes_of(look), (short)(term.colour ? look->hue : 0), NULL);
            if (c->width > 0)
                addstr(c->utf8);
        }
    }
    refresh();
}

void term_repaint(void)
{
    clearok(curscr, TRUE);
}

void term_fit(void)
{
    struct winsize size;
    bool known = ioctl(STDOUT_FILENO, TIOCGWINSZ, &size) == 0 && size.ws_row > 0 && size.ws_col > 0;
    if (known && is_term_resized(size.ws_row, size.ws_col))
        resizeterm(size.ws_row, size.ws_col);
}

static int special_key(int code)
{
    static const struct {
        int code, key;
    } map[] = {
        {KEY_UP, TKEY_UP},
        {KEY_DOWN, TKEY_DOWN},
        {KEY_LEFT, TKEY_LEFT},
        {KEY_RIGHT, TKEY_RIGHT},
        {KEY_BTAB, TKEY_BACKTAB},
        {KEY_HOME, TKEY_HOME},
        {KEY_END, TKEY_END},
        {KEY_PPAGE, TKEY_PAGE_UP},
        {KEY_NPAGE, TKEY_PAGE_DOWN},
        {KEY_ENTER, TKEY_ENTER},
        {KEY_BACKSPACE, TKEY_BACKSPACE},
        {KEY_DC, TKEY_BACKSPACE},
        {KEY_F(2), TKEY_F2},
        {KEY_F(3), TKEY_F3},
    };
    for (size_t i = 0; i < sizeof map / sizeof *map; i++)
        if (map[i].code == code)
            return map[i].key;
    return TKEY_OTHER;
}

static int plain_key(wint_t c)
{
    if (c == '\n' || c == '\r')
        return TKEY_ENTER;
    return c == 127 ? TKEY_BACKSPACE : (int)c;
}

bool term_next(struct event *e)
{
    wint_t c = 0;
    int kind = get_wch(&c);
    if (kind == ERR)
        return false;
    if (kind == KEY_CODE_YES && c == KEY_RESIZE) {
        getmaxyx(stdscr, term.rows, term.cols);
        *e = (struct event){.kind = EVENT_RESIZE, .rows = term.rows, .cols = term.cols};
        return true;
    }
    *e = (struct event){.kind = EVENT_KEY,
                        .key = kind == KEY_CODE_YES ? special_key((int)c) : plain_key(c)};
    return true;
}

void term_beep(void)
{
    beep();
}

void term_suspend(void)
{
    struct sigaction stop = {.sa_handler = SIG_DFL}, ours;
    def_prog_mode();
    endwin();
    tcsetattr(STDIN_FILENO, TCSADRAIN, &term.before);
    sigemptyset(&stop.sa_mask);
    sigaction(SIGTSTP, &stop, &ours);
    raise(SIGTSTP); /* stands still here until SIGCONT */
    sigaction(SIGTSTP, &ours, NULL);
    reset_prog_mode();
    clearok(curscr, TRUE);
    refresh();
}
