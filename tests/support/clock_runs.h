/* clock_runs.h - timed jobs for the tests: a session at the air clock, its records, its moments. */
#ifndef SANDSHOE_TESTS_CLOCK_RUNS_H
#define SANDSHOE_TESTS_CLOCK_RUNS_H

#include "app/journal.h"
#include "support/tui_session.h"

/* Keys up to the first air (questions and dangers answered), and to a settled reading of 23. */
#define CLOCK_BEFORE  "keys a u a\ntype 18\nkeys Enter\n"
#define CLOCK_ON_KEYS "a u a\ntype 18\nkeys Enter Space y Enter Enter Enter\n"
#define CLOCK_ON      "keys " CLOCK_ON_KEYS
#define CLOCK_MID     CLOCK_ON "tick 60\nkeys Space\ntick 25\ntype 23\nkeys Enter Space\ntick 10\n"
#define CLOCK_DOWN    "keys a a\ntype 38\nkeys Enter Space Enter Enter Enter\n"

/* clock_session - flatbed-cabin on dune sand at 80x24; ended by tui_end. */
struct tui_session *clock_session(void);

/* clock_restart - the same session after the program ended and was started again. */
void clock_restart(struct tui_session *t);

/* clock_press, clock_wait - a key, or nothing, at a moment of the session; returns the effects. */
int clock_press(struct tui_session *t, int key, double at_s);
int clock_wait(struct tui_session *t, double at_s);

/* clock_frame - what stands on the screen now; valid until the next call. */
const char *clock_frame(struct tui_session *t);

/* clock_last_log - read the latest record; clock_replay - its session, from the session's rig and
 * day. Mistakes fail the test. */
void clock_last_log(const struct tui_session *t, struct journal_events *log);
void clock_replay(const struct tui_session *t, const struct journal_events *log, struct session *s);

/* job - the clock's, of the session. */
struct clock_job *job(struct tui_session *t);

/* assert_shows, assert_hides - words that must, or must not, stand on a frame. */
void assert_shows(const char *frame, const char *words);
void assert_hides(const char *frame, const char *words);

/* clock_log_path - the latest record's file; false: none. */
bool clock_log_path(const struct tui_session *t, char path[HOST_PATH]);

#endif
