#include "sim/session.h"

#include <math.h>
#include <string.h>

#include "base/num.h"

#define FOUND_LOW_SHARE_1 0.8                      /* of the target, 29 CFR 1910.177 */
#define FOUND_LOW_MATE_PA (5.0 * UNITS_PA_PER_PSI) /* under the axle mate, own choice */
#define TIME_BACK_S       1e-6
#define TOW_BITS          ((1U << REFILL_CORNER(AXLE_TRAILER, 0)) - 1U)

static unsigned present_of(const struct refill_in *in)
{
    unsigned bits = 0;
    for (int i = 0; i < REFILL_CORNERS; i++) {
        bits |= in->corner[i].present ? 1U << i : 0U;
    }
    return bits;
}

void session_init(const struct refill_in *in, struct session *s)
{
    *s = (struct session){.in = *in, .up = true, .hookup = in->air.hookup, .first_air_s = -1.0};
    s->present = present_of(in);
    s->core_out = in->air.valve == VALVE_CORE_OUT ? LOG_ALL : 0;
    for (int i = 0; i < REFILL_CORNERS; i++) {
        s->start_gauge_pa[i] = in->corner[i].from_gauge_pa;
    }
}

/* How much air the neediest corner of a group lacks. */
static double group_need_pa(const struct session *s, unsigned group)
{
    double need = -HUGE_VAL;
    for (int i = 0; i < REFILL_CORNERS; i++) {
        if (group & (1U << i)) {
            need = fmax(need, s->in.corner[i].target_gauge_pa - s->start_gauge_pa[i]);
        }
    }
    return need;
}

/* Stable insertion: the tow vehicle's groups by falling need, then the trailer's. */
static void insert_group(const struct session *s, unsigned group, int first, int *n,
                         unsigned list[REFILL_CORNERS])
{
    int at = *n;
    while (at > first && group_need_pa(s, list[at - 1]) < group_need_pa(s, group)) {
        list[at] = list[at - 1];
        at--;
    }
    list[at] = group;
    (*n)++;
}

int session_order(const struct session *s, unsigned group[REFILL_CORNERS])
{
    int n = 0;
    int first = 0;
    for (int a = 0; a < AXLE_COUNT; a++) {
        unsigned axle = LOG_AXLE_BITS(a) & s->present;
        if (a == AXLE_TRAILER) {
            first = n;
        }
        if (axle == 0) {
            continue;
        }
        if (s->hookup == HOOKUP_SINGLE) {
            for (unsigned bit = 1; bit < (1U << REFILL_CORNERS); bit <<= 1) {
                if (axle & bit) {
                    insert_group(s, bit, first, &n, group);
                }
            }
        } else {
            insert_group(s, axle, first, &n, group);
        }
    }
    return n;
}

unsigned session_open(const struct session *s)
{
    unsigned left = s->present & ~s->dropped;
    if (s->hookup == HOOKUP_LINKED && (!s->up || (left & TOW_BITS) != 0)) {
        return s->up ? left & TOW_BITS : left;
    }
    unsigned joined = s->joined & left;
    if (joined) {
        return joined;
    }
    unsigned group[REFILL_CORNERS];
    int n = session_order(s, group);
    for (int i = 0; i < n; i++) {
        unsigned here = group[i] & left;
        if (here) {
            return here;
        }
    }
    return 0;
}

double session_running(const struct session *s, double at_s)
{
    return s->running_s + (s->air ? fmax(0.0, at_s - s->now_s) : 0.0);
}

const struct session_reading *session_last_reading(const struct session *s, int corner)
{
    for (int i = s->n_reading - 1; i >= 0; i--) {
        if (!s->reading[i].undone && (s->reading[i].corners & (1U << corner))) {
            return &s->reading[i];
        }
    }
    return NULL;
}

unsigned session_found_low(const struct session *s)
{
    unsigned low = 0;
    for (int i = 0; i < REFILL_CORNERS; i++) {
        int mate = i ^ 1; /* the other side of the axle */
        unsigned both = (1U << i) | (1U << mate);
        if ((s->present & both) == both &&
            s->start_gauge_pa[i] < FOUND_LOW_SHARE_1 * s->in.corner[i].target_gauge_pa &&
            s->start_gauge_pa[i] < s->start_gauge_pa[mate] - FOUND_LOW_MATE_PA) {
            low |= 1U << i;
        }
    }
    return low;
}

/* Closes the stretch from the last event to at_s as a span, joining it to an equal one before. */
static enum status close_span(struct session *s, double at_s)
{
    double lasts_s = at_s - s->now_s;
    unsigned open = session_open(s);
    if (lasts_s > 0.0 && s->first_air_s >= 0.0) {
        if (s->n_span == SESSION_SPANS) {
            return STATUS_E_FULL;
        }
        s->span[s->n_span++] = (struct session_span){s->now_s, lasts_s, s->air, false, open};
        s->running_s += s->air ? lasts_s : 0.0;
    }
    s->now_s = at_s;
    return STATUS_OK;
}

static void note_starts(struct session *s, const struct session_reading *r)
{
    for (int i = 0; i < REFILL_CORNERS; i++) {
        if (r->corners & (1U << i)) {
            s->start_gauge_pa[i] = r->p_gauge_pa;
        }
    }
    s->started |= r->corners;
}

static enum status apply_read(struct session *s, const struct log_event *e, struct text *why)
{
    unsigned corners = e->corners & s->present;
    if (corners == 0) {
        text_put(why, "a reading of a corner that this rig does not have");
        return STATUS_E_DOMAIN;
    }
    if (s->n_reading == SESSION_READINGS) {
        text_put(why, "more than %d readings", SESSION_READINGS);
        return STATUS_E_FULL;
    }
    struct session_reading r = {.at_s = e->at_s,
                                .running_s = s->running_s,
                                .span = s->n_span,
                                .corners = corners,
                                .p_gauge_pa = e->p_gauge_pa - s->in.air.gauge_offset_pa,
                                .flowing = e->flowing};
    s->reading[s->n_reading++] = r;
    if (s->first_air_s < 0.0 && !r.flowing) {
        note_starts(s, &r);
    }
    return STATUS_OK;
}

/* A taken-back start reading must not stay behind as the start; once air has flowed from it, it
 * stands. */
static void apply_undo(struct session *s)
{
    int last = s->n_reading - 1;
    while (last >= s->first_reading && s->reading[last].undone) {
        last--;
    }
    if (last < s->first_reading) {
        return;
    }
    s->reading[last].undone = true;
    if (s->first_air_s < 0.0) {
        s->started = 0;
        for (int i = 0; i < REFILL_CORNERS; i++) {
            s->start_gauge_pa[i] = s->in.corner[i].from_gauge_pa;
        }
        for (int i = 0; i < s->n_reading; i++) {
            if (!s->reading[i].undone && !s->reading[i].flowing) {
                note_starts(s, &s->reading[i]);
            }
        }
    }
}

static enum status apply_air(struct session *s, bool on, struct text *why)
{
    if (on && s->first_air_s < 0.0) {
        if (s->present & ~s->started) {
            text_put(why, "no start reading for ");
            refill_log_corners_put(s->present & ~s->started, why);
            return STATUS_E_DOMAIN;
        }
        s->first_air_s = s->now_s;
        s->first_reading = s->n_reading;
    }
    s->air = on;
    s->resting = s->resting && !on;
    return STATUS_OK;
}

/* A core is taken out or put back while its valve is shut, not under a running stopwatch. */
static enum status apply_core(struct session *s, const struct log_event *e, struct text *why)
{
    if (s->up || s->first_air_s >= 0.0) {
        text_put(why, s->up ? "'core' belongs to a job down" : "'core' comes before the first air");
        return STATUS_E_DOMAIN;
    }
    s->core_out = e->core == LOG_CORE_OUT ? s->core_out | e->corners : s->core_out & ~e->corners;
    return STATUS_OK;
}

static void apply_target(struct session *s, const struct log_event *e)
{
    for (int i = 0; i < REFILL_CORNERS; i++) {
        if (e->corners & s->present & (1U << i)) {
            s->in.corner[i].target_gauge_pa = e->p_gauge_pa;
        }
    }
}

static void apply_drop(struct session *s, unsigned corners)
{
    unsigned fresh = corners & s->present & ~s->dropped;
    for (int i = 0; i < REFILL_CORNERS; i++) {
        if (fresh & (1U << i)) {
            s->drop_at_s[i] = s->now_s;
            s->drop_running_s[i] = s->running_s;
        }
    }
    s->waited |= fresh & ~session_open(s);
    s->dropped |= fresh;
}

/* What was on the line is on it again, beside its axle mate where pairs are filled; what only
 * waited waits again, and the hose stays where it is. */
static void apply_join(struct session *s, unsigned corners)
{
    unsigned open = session_open(s), on = corners & s->present & ~(s->dropped & s->waited);
    s->dropped &= ~corners;
    s->waited &= ~corners;
    if (s->hookup == HOOKUP_LINKED) {
        s->joined = 0;
    } else if (on != 0) {
        s->joined = on;
    }
    for (int a = 0; a < AXLE_COUNT && s->hookup == HOOKUP_PAIRS; a++) {
        s->joined |= on & LOG_AXLE_BITS(a) ? open & LOG_AXLE_BITS(a) : 0U;
    }
}

/* Air flowed for a while that nobody recorded: a span of its own. */
static enum status apply_gap(struct session *s, double gap_s)
{
    if (s->n_span == SESSION_SPANS) {
        return STATUS_E_FULL;
    }
    if (gap_s > 0.0 && s->first_air_s >= 0.0) {
        s->span[s->n_span++] = (struct session_span){s->now_s, gap_s, true, true, session_open(s)};
        s->running_s += gap_s;
    }
    return STATUS_OK;
}

/* The last gap did not have that air: what came after it came at less running time. */
static void apply_undo_gap(struct session *s)
{
    int g = s->n_span - 1;
    double before_s = s->running_s;
    for (; g >= 0 && !s->span[g].told; g--) {
        before_s -= s->span[g].air ? s->span[g].lasts_s : 0.0;
    }
    if (g < 0) {
        return;
    }
    double gap_s = s->span[g].lasts_s;
    for (int i = 0; i < s->n_reading; i++) {
        if (s->reading[i].span > g) {
            s->reading[i].span--;
            s->reading[i].running_s -= gap_s;
        }
    }
    for (int i = 0; i < REFILL_CORNERS; i++) {
        if (s->dropped >> i & 1U && s->drop_running_s[i] >= before_s - TIME_BACK_S) {
            s->drop_running_s[i] -= gap_s;
        }
    }
    memmove(&s->span[g], &s->span[g + 1], (size_t)(s->n_span - 1 - g) * sizeof s->span[0]);
    s->n_span--;
    s->running_s -= gap_s;
}

static enum status apply_word(struct session *s, const struct log_event *e, struct text *why)
{
    switch (e->word) {
    case LOG_JOB:
        s->up = e->on;
        if (e->core != LOG_CORE_AS_RIG) {
            s->core_out = e->core == LOG_CORE_OUT ? LOG_ALL : 0;
        }
        break;
    case LOG_CORE:
        return apply_core(s, e, why);
    case LOG_HOOKUP:
        s->hookup = e->hookup;
        s->joined = 0;
        break;
    case LOG_TARGET:
        apply_target(s, e);
        break;
    case LOG_READ:
        return apply_read(s, e, why);
    case LOG_AIR:
        return apply_air(s, e->on, why);
    case LOG_DROP:
        apply_drop(s, e->corners);
        break;
    case LOG_JOIN:
        apply_join(s, e->corners);
        break;
    case LOG_REST:
        s->air = false;
        s->resting = true;
        break;
    case LOG_RESUME:
        return apply_air(s, true, why);
    case LOG_UNDO:
        if (e->on) {
            apply_undo_gap(s);
        } else {
            apply_undo(s);
        }
        break;
    case LOG_GAP:
        return apply_gap(s, e->gap_s);
    case LOG_DONE:
        s->air = false;
        s->done = true;
        break;
    case LOG_STARTED:
    case LOG_CLOCK:
    case LOG_RIG:
    case LOG_NOTE:
    case LOG_WORD_COUNT:
        break;
    }
    return STATUS_OK;
}

enum status session_apply(struct session *s, const struct log_event *e, struct text *why)
{
    const double told[] = {e->at_s, e->p_gauge_pa, e->gap_s};
    double now_s = s->now_s;
    if (!num_all_finite(3, told)) {
        text_put(why, "not a number among time, pressure and gap");
        return STATUS_E_DOMAIN;
    }
    if (e->at_s < now_s - TIME_BACK_S) {
        text_put(why, "time runs backwards: %g s after %g s", e->at_s, now_s);
        return STATUS_E_DOMAIN;
    }
    struct session next = *s;
    enum status st = close_span(&next, fmax(e->at_s, now_s));
    if (st == STATUS_E_FULL) {
        text_put(why, "more than %d events", SESSION_SPANS);
        return st;
    }
    st = apply_word(&next, e, why);
    if (st == STATUS_OK) {
        *s = next;
    }
    return st;
}
