#include "report/caution_text.h"

#include <string.h>

#include "report/wrap.h"

enum { LEVEL_COLUMN = 9, LINE_TEXT = 640 };

/* One bit for each axle and each corner that a caution may be about. */
static unsigned place_bit(const struct caution *c)
{
    return c->has_side ? 1U << (AXLE_COUNT + (int)c->axle * SIDE_COUNT + (int)c->side)
                       : 1U << c->axle;
}

/* The places that raise the same words: "front, rear: ". */
static void put_places(const struct caution_list *list, int at, const char *words,
                       enum unit_system u, struct text *line)
{
    char other[LINE_TEXT];
    unsigned said = 0;
    for (int i = at; i < list->n; i++) {
        const struct caution *c = &list->item[i];
        struct text t = text_over(other, sizeof other);
        if (c->code != list->item[at].code || !c->has_axle || (said & place_bit(c))) {
            continue;
        }
        caution_put(c, u, &t);
        if (strcmp(other, words) == 0) {
            text_put(line, "%s%s", said ? ", " : "",
                     c->has_side ? corner_name(c->axle, c->side) : axle_name(c->axle));
            said |= place_bit(c);
        }
    }
    if (said) {
        text_put(line, ": ");
    }
}

/* Whether the same words came earlier in the list. */
static bool said_before(const struct caution_list *list, int at, const char *words,
                        enum unit_system u)
{
    char other[LINE_TEXT];
    for (int i = 0; i < at; i++) {
        struct text t = text_over(other, sizeof other);
        if (list->item[i].code == list->item[at].code) {
            caution_put(&list->item[i], u, &t);
            if (strcmp(other, words) == 0) {
                return true;
            }
        }
    }
    return false;
}

static void put_one(const struct caution_list *list, int at, enum unit_system u, struct text *out)
{
    char words[LINE_TEXT], buf[LINE_TEXT + 64];
    struct text w = text_over(words, sizeof words);
    struct text line = text_over(buf, sizeof buf);
    caution_put(&list->item[at], u, &w);
    if (said_before(list, at, words, u)) {
        return;
    }
    put_places(list, at, words, u, &line);
    text_put(&line, "%s", words);
    wrap_put(out, LEVEL_COLUMN, caution_level_name(caution_level_of(list->item[at].code)), buf);
}

/* What a report says in a place of its own: whom to trust, and the stuck step. */
static bool said_elsewhere(enum caution_code code)
{
    return code == CAUTION_ESTIMATE || code == CAUTION_STUCK_STEP;
}

void caution_text_put(const struct caution_list *list, enum unit_system u, struct text *out)
{
    for (int level = CAUTION_DANGER; level >= CAUTION_NOTE; level--) {
        for (int standing = 0; standing <= 1; standing++) {
            for (int i = 0; i < list->n; i++) {
                enum caution_code code = list->item[i].code;
                if (caution_level_of(code) == (enum caution_level)level &&
                    caution_is_standing(code) == (standing == 1) && !said_elsewhere(code)) {
                    put_one(list, i, u, out);
                }
            }
        }
    }
}

void refusal_text_put(const struct refusal *r, enum unit_system u, struct text *out)
{
    char buf[LINE_TEXT];
    struct text t = text_over(buf, sizeof buf);
    refusal_put(r, u, &t);
    wrap_put(out, LEVEL_COLUMN, "REFUSED", buf);
    text_clear(&t);
    refusal_put_way_out(r, u, &t);
    wrap_put(out, LEVEL_COLUMN, "", buf);
}

void cautions_end(const struct caution_list *list, enum unit_system u, struct text *out)
{
    text_put(out, "\n");
    size_t before = out->len;
    caution_text_put(list, u, out);
    text_put(out, "%s", out->len > before ? "\n" : "");
    wrap_put(out, 0, "",
             "An estimate. First come placard and handbook, tyre maker, wheel maker, local law, a "
             "licensed or trained person; then this program.");
}
