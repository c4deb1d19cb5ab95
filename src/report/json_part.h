/* json_part.h - the keys that the objects of several commands share. */
#ifndef SANDSHOE_REPORT_JSON_PART_H
#define SANDSHOE_REPORT_JSON_PART_H

#include "core/caution.h"
#include "core/refusal.h"
#include "core/rig.h"
#include "report/json.h"

/* What heads the object of every command. */
struct json_head {
    const char *rig, *load_state;
    int status; /* the exit status */
    const struct caution_list *cautions;
    const struct refusal *refusal; /* NULL or REFUSAL_NONE: none */
    enum unit_system units;        /* of the pressures within texts */
};

/* json_part_tool - tool, version. */
void json_part_tool(struct json *j);

/* json_part_head - tool, version, rig, load_state, status, cautions, and refusal where there is
 * one. */
void json_part_head(struct json *j, const struct json_head *head);

/* json_part_cautions - an array of {level, code, text, corner?, standing?} under key. */
void json_part_cautions(struct json *j, const char *key, const struct caution_list *list,
                        enum unit_system u);

/* json_part_refusal - {code, text, way_out} under key. */
void json_part_refusal(struct json *j, const char *key, const struct refusal *r,
                       enum unit_system u);

#endif
