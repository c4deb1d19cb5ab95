/* term.h - the terminal: opened, filled from a frame, read for events, always put back.
 * There is one terminal a process; term_ncurses.c is the only file that knows curses. */
#ifndef SANDSHOE_TUI_TERM_H
#define SANDSHOE_TUI_TERM_H

#include <stdbool.h>

#include "base/status.h"
#include "base/text.h"
#include "tui/event.h"
#include "tui/frame.h"

/* term_open - take the terminal over; why says in words what is amiss on error.
 * E_MISSING: stdin or stdout is no terminal. E_SYSTEM: TERM unknown or too poor. The character
 * set is that of the locale, which the caller has set (LC_CTYPE only). */
enum status term_open(bool colour, struct text *why) MUST_CHECK;

/* term_close - put the terminal back; harmless when it is not open. */
void term_close(void);

void term_size(int *rows, int *cols);

/* term_blit - show a frame: only cells that changed are written. */
void term_blit(const struct frame *f);

/* term_repaint - forget what is on the terminal, so that the next blit writes every cell. */
void term_repaint(void);

/* term_fit - take the window's size anew; the resize comes out of term_next. */
void term_fit(void);

/* term_next - the next key or resize that is waiting; false when there is none. */
bool term_next(struct event *e);

void term_beep(void);

/* term_suspend - put the terminal back, stop the process, and take it over again afterwards. */
void term_suspend(void);

#endif
