#include "report/json_part.h"

enum { PART_TEXT = 640 };

void json_part_tool(struct json *j)
{
    json_put_text(j, "tool", "sandshoe");
    json_put_text(j, "version", SANDSHOE_VERSION);
}

static void put_caution(struct json *j, const struct caution *c, enum unit_system u)
{
    char buf[PART_TEXT];
    struct text t = text_over(buf, sizeof buf);
    caution_put(c, u, &t);
    json_open_object(j, NULL);
    json_put_text(j, "level", caution_level_name(caution_level_of(c->code)));
    json_put_text(j, "code", caution_code_name(c->code));
    json_put_text(j, "text", buf);
    if (c->has_axle) {
        json_put_text(j, "corner",
                      c->has_side ? corner_name(c->axle, c->side) : axle_name(c->axle));
    }
    if (caution_is_standing(c->code)) {
        json_put_flag(j, "standing", true);
    }
    json_close(j);
}

void json_part_cautions(struct json *j, const char *key, const struct caution_list *list,
                        enum unit_system u)
{
    json_open_array(j, key);
    for (int i = 0; list && i < list->n; i++) {
        put_caution(j, &list->item[i], u);
    }
    json_close(j);
}

void json_part_refusal(struct json *j, const char *key, const struct refusal *r, enum unit_system u)
{
    char buf[PART_TEXT];
    struct text t = text_over(buf, sizeof buf);
    json_open_object(j, key);
    json_put_text(j, "code", refusal_name(r->code));
    refusal_put(r, u, &t);
    json_put_text(j, "text", buf);
    text_clear(&t);
    refusal_put_way_out(r, u, &t);
    json_put_text(j, "way_out", buf);
    json_close(j);
}

void json_part_head(struct json *j, const struct json_head *head)
{
    json_part_tool(j);
    json_put_text(j, "rig", head->rig);
    json_put_text(j, "load_state", head->load_state);
    json_put_integer(j, "status", head->status);
    json_part_cautions(j, "cautions", head->cautions, head->units);
    if (head->refusal && head->refusal->code != REFUSAL_NONE) {
        json_part_refusal(j, "refusal", head->refusal, head->units);
    }
}
