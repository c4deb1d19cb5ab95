#include "profile/schema_doc.h"

#include <stdbool.h>
#include <string.h>

/* "psi, bar, kPa", "all, front, rear", or what else may stand there. */
static void put_form(const struct schema_row *row, struct text *out)
{
    switch (row->type) {
    case TYPE_QUANTITY:
    case TYPE_MAYBE:
        if (row->q == Q_NUMBER) {
            text_put(out, "a number");
        } else {
            units_accepted(row->q, out);
        }
        break;
    case TYPE_COUNT:
    case TYPE_WORD:
    case TYPE_FLAG:
        if (row->words) {
            schema_words(row->words, out);
        } else {
            text_put(out, "a whole number");
        }
        break;
    case TYPE_TEXT:
        text_put(out, "text");
        break;
    case TYPE_DATE:
        text_put(out, "YYYY-MM-DD");
        break;
    case TYPE_LETTER:
        text_put(out, "a letter");
        break;
    case TYPE_SPEED:
        text_put(out, "a symbol");
        break;
    case TYPE_TYRE:
        text_put(out, "a size");
        break;
    case TYPE_FLOW:
        text_put(out, "pressure flow, ...");
        break;
    }
}

static void put_need(const struct schema_row *row, struct text *out)
{
    switch (row->need) {
    case NEED_REQUIRED:
        text_put(out, "required");
        break;
    case NEED_MOSTLY:
        text_put(out, "usually required");
        break;
    case NEED_OPTIONAL:
        text_put(out, "optional");
        break;
    case NEED_DEFAULT:
        text_put(out, "default %s", row->standard);
        break;
    }
}

static void put_facts(const struct schema_row *row, struct text *out)
{
    put_form(row, out);
    if (row->min) {
        text_put(out, "; %s to %s", row->min, row->max);
    }
    text_put(out, "; ");
    put_need(row, out);
}

/* Axles share their keys: they are documented once, under the names of all. */
static bool speaks_for(const struct schema_section_row *section, const struct schema_row *row)
{
    return (row->sections & (unsigned)section->section) != 0;
}

static bool documented_before(const struct schema_section_row *section)
{
    return (section->section & (SECTION_MIDDLE | SECTION_REAR | SECTION_TRAILER2)) != 0;
}

static void mdoc_heading(const struct schema_section_row *section, struct text *out)
{
    if (section->section == SECTION_FRONT) {
        text_put(out, ".Ss [front], [middle], [rear], [trailer], [trailer2]\n"
                      "An axle and its tyres.\n"
                      "The front and rear axles are required;\n"
                      "middle is the first axle of a rear bogie.\n");
    } else if (section->section == SECTION_GROUND) {
        text_put(out, ".Ss [NAME]\n%s.\n", section->help);
    } else {
        text_put(out, ".Ss [%s%s]\n", section->name, section->numbered > 0 ? "-N" : "");
        text_put(out, "%s%s.\n", section->help, section->required ? " (required)" : "");
    }
}

/* The trailer repeats the axle's keys; only its own is new. */
static bool repeats(const struct schema_section_row *section, const struct schema_row *row)
{
    return section->section == SECTION_TRAILER && (row->sections & SECTION_FRONT) != 0;
}

static void mdoc_section(const struct schema_section_row *section, struct text *out)
{
    size_t n = 0;
    const struct schema_row *rows = schema_rows(&n);
    mdoc_heading(section, out);
    text_put(out, ".Bl -tag -width Ds\n");
    for (size_t i = 0; i < n; i++) {
        if (speaks_for(section, &rows[i]) && !repeats(section, &rows[i])) {
            text_put(out, ".It Ic %s\n%s\n.Pq ", rows[i].key, rows[i].help);
            put_facts(&rows[i], out);
            text_put(out, "\n");
        }
    }
    text_put(out, ".El\n");
}

void schema_put_mdoc(enum profile_kind kind, struct text *out)
{
    size_t n = 0;
    const struct schema_section_row *sections = schema_sections(&n);
    for (size_t i = 0; i < n; i++) {
        if (sections[i].kind == kind && !documented_before(&sections[i])) {
            mdoc_section(&sections[i], out);
        }
    }
}

static void template_row(const struct schema_row *row, bool off, struct text *out)
{
    bool given = !off && (row->need == NEED_REQUIRED || row->need == NEED_MOSTLY);
    text_put(out, "# %s\n#   ", row->help);
    put_facts(row, out);
    text_put(out, "\n%s%-16s = %s\n", given ? "" : "#", row->key, row->example);
}

static void template_section(const struct schema_section_row *section, struct text *out)
{
    size_t n = 0;
    const struct schema_row *rows = schema_rows(&n);
    bool ground = section->section == SECTION_GROUND;
    bool off = !section->required && !ground && section->section != SECTION_LEG;
    text_put(out, "\n# ---- %s\n%s[%s%s]\n", section->help, off ? "#" : "",
             ground ? "my-dunes" : section->name, section->numbered > 0 ? "-1" : "");
    for (size_t i = 0; i < n; i++) {
        if (speaks_for(section, &rows[i])) {
            template_row(&rows[i], off, out);
        }
    }
}

void schema_put_template(enum profile_kind kind, struct text *out)
{
    size_t n = 0;
    const struct schema_section_row *sections = schema_sections(&n);
    text_put(out,
             "# A %s profile. Every quantity carries its unit.\n"
             "# Take the # away from what you need.\n",
             kind == PROFILE_GROUNDS ? "ground" : profile_kind_name(kind));
    for (size_t i = 0; i < n; i++) {
        if (sections[i].kind == kind) {
            template_section(&sections[i], out);
        }
    }
}
