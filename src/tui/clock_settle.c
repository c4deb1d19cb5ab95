/* clock_settle.c - corners that air stopped flowing in: when to read them, and what that tells. */
#include <math.h>

#include "tui/clock_job.h"

/* Of a corner without a reading the forecast only has to allow that it is there. */
#define ALLOWED_1 0.25 /* probability; own judgement, as for the mate taken off with a corner */

static unsigned flowing(const struct session *s)
{
    return s->air && s->first_air_s >= 0 ? session_open(s) : 0;
}

void clock_note_stop(struct clock_job *j, const struct session *before, double at_s)
{
    unsigned was = flowing(before), is = flowing(&j->session);
    for (int i = 0; i < REFILL_CORNERS; i++)
        if (is >> i & 1u)
            j->stop_s[i] = -1;
        else if (was >> i & 1u)
            j->stop_s[i] = at_s;
}

const struct session_reading *clock_reading_since(const struct clock_job *j, int i)
{
    const struct session_reading *r = session_last_reading(&j->session, i);
    return j->stop_s[i] >= 0 && r != NULL && !r->flowing && r->at_s >= j->stop_s[i] ? r : NULL;
}

unsigned clock_unread(const struct clock_job *j)
{
    unsigned unread = 0;
    for (int i = 0; i < REFILL_CORNERS; i++)
        unread |= j->stop_s[i] >= 0 && clock_reading_since(j, i) == NULL ? 1u << i : 0;
    return unread & j->session.present;
}

double clock_settle_left(const struct clock_job *j, unsigned corners, double now_s)
{
    double left_s = 0;
    for (int i = 0; i < REFILL_CORNERS; i++)
        if (corners >> i & 1u && j->stop_s[i] >= 0)
            left_s = fmax(left_s, j->stop_s[i] + CLOCK_SETTLE_S - now_s);
    return left_s;
}

unsigned clock_read_due(const struct clock_job *j, double now_s, double read_s)
{
    unsigned due = 0, unread = clock_unread(j);
    for (int i = 0; i < REFILL_CORNERS; i++)
        if (unread >> i & 1u && j->stop_s[i] > read_s && j->stop_s[i] <= now_s - CLOCK_SETTLE_S)
            due |= 1u << i;
    return due;
}

unsigned clock_reached(const struct clock_job *j)
{
    const struct session *s = &j->session;
    unsigned there = 0;
    for (int i = 0; i < REFILL_CORNERS; i++) {
        const struct session_reading *r = clock_reading_since(j, i);
        double least_1 = s->dropped >> i & 1u ? ALLOWED_1 : 0.5;
        double lack = r != NULL ? s->in.corner[i].target_gauge_pa - r->p_gauge_pa : 0;
        bool at = r != NULL ? (s->up ? lack : -lack) <= 1.001 * s->in.air.gauge_step_pa
                            : j->known && j->out.corner[i].at_target_1 >= least_1;
        there |= at ? 1u << i : 0;
    }
    return there & s->present;
}

unsigned clock_left_out(const struct session *s)
{
    unsigned out = 0;
    for (int i = 0; i < REFILL_CORNERS; i++)
        if (s->dropped >> i & 1u && (s->first_air_s < 0 || s->drop_at_s[i] <= s->first_air_s))
            out |= 1u << i;
    return out & s->present;
}
