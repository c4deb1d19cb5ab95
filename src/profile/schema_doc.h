/* schema_doc.h - the table of keys as documentation. */
#ifndef SANDSHOE_PROFILE_SCHEMA_DOC_H
#define SANDSHOE_PROFILE_SCHEMA_DOC_H

#include "profile/schema.h"

/* schema_put_mdoc - append the sections and keys of a kind of profile as mdoc(7) source: one
 * subsection per section, one tagged item per key with units, range, need and help. */
void schema_put_mdoc(enum profile_kind kind, struct text *out);

/* schema_put_template - append a commented profile: what is required with example values, the rest
 * commented out. It loads as it stands. */
void schema_put_template(enum profile_kind kind, struct text *out);

#endif
