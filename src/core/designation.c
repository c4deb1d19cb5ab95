#include "core/designation.h"

#include <string.h>

#include "base/num.h"
#include "base/units.h"
#include "core/loadindex.h"

/* Plausible numbers: wider than any tyre made for road or country, narrow enough to catch a slip
 * of the hand. */
#define WIDTH_MIN_M      0.100 /* m */
#define WIDTH_MAX_M      0.700
#define HEIGHT_MIN_M     0.030 /* m, rim flange to tread */
#define RIM_MIN_IN       8.0
#define RIM_MAX_IN       30.0
#define ASPECT_MIN_1     0.20
#define ASPECT_MAX_1     1.10
#define OD_MAX_M         1.800

#define ASPECT_NUMERIC_1 0.95  /* 7.50R16 and the like, common practice */
#define ASPECT_C_TYPE_1  0.82  /* no ratio written, ETRTO [memory] */
#define MM_FROM          100.0 /* a first number from here on is mm, below it inches */

enum { TEXT_BYTES = 80, DIGITS_MAX = 8, LI_TRUCK = 136 };

/* The text in capitals with the place that is read next, and what has been found. */
struct reader {
    char text[TEXT_BYTES];
    const char *at;
    struct designation d;
    bool prefix_p;
    double first, second, rim_in; /* as written */
};

static bool is_digit(char c)
{
    return c >= '0' && c <= '9';
}

static bool is_letter(char c)
{
    return c >= 'A' && c <= 'Z';
}

/* Capitals, with blanks for tabs and brackets. False when it is too long. */
static bool start(struct reader *r, const char *s)
{
    static const char capitals[] = "ABCDEFGHIJKLMNOPQRSTUVWXYZ";
    size_t n = strlen(s);
    if (n >= sizeof r->text) {
        return false;
    }
    memcpy(r->text, s, n + 1);
    for (char *p = r->text; *p != '\0'; p++) {
        if (*p >= 'a' && *p <= 'z') {
            *p = capitals[*p - 'a'];
        } else if (*p == '\t' || *p == '(' || *p == ')') {
            *p = ' ';
        }
    }
    r->at = r->text;
    return true;
}

static void skip_blanks(struct reader *r)
{
    while (*r->at == ' ') {
        r->at++;
    }
}

static bool take(struct reader *r, const char *word)
{
    size_t n = strlen(word);
    if (strncmp(r->at, word, n) != 0) {
        return false;
    }
    r->at += n;
    return true;
}

/* A word that ends at a blank or the end. */
static bool take_word(struct reader *r, const char *word)
{
    size_t n = strlen(word);
    if (strncmp(r->at, word, n) != 0 || (r->at[n] != ' ' && r->at[n] != '\0')) {
        return false;
    }
    r->at += n;
    return true;
}

/* "12", "12.50": digits with at most one point; no sign, no exponent. */
static bool take_number(struct reader *r, double *value)
{
    double v = 0.0, place = 1.0;
    bool point = false;
    int digits = 0;
    const char *p = r->at;
    for (; is_digit(*p) || (*p == '.' && !point && is_digit(p[1])); p++) {
        if (*p == '.') {
            point = true;
        } else {
            v = 10.0 * v + (*p - '0');
            place *= point ? 10.0 : 1.0;
            digits++;
        }
    }
    if (digits == 0 || digits > DIGITS_MAX) {
        return false;
    }
    r->at = p;
    *value = v / place;
    return true;
}

static bool take_build(struct reader *r)
{
    static const struct {
        const char *mark;
        enum tyre_build build;
    } marks[] = {{"ZR", TYRE_RADIAL},
                 {"R", TYRE_RADIAL},
                 {"-", TYRE_BIAS},
                 {"D", TYRE_BIAS},
                 {"B", TYRE_BIAS_BELTED}};
    for (size_t i = 0; i < sizeof marks / sizeof marks[0]; i++) {
        if (take(r, marks[i].mark)) {
            r->d.build = marks[i].build;
            return true;
        }
    }
    return false;
}

/* LT, C or CP right behind the rim, or LT as the next word. */
static void take_suffix(struct reader *r, bool *lt, bool *c)
{
    *c = take_word(r, "CP") || take_word(r, "C");
    *lt = !*c && take_word(r, "LT");
    skip_blanks(r);
    *lt = *lt || (!*c && take_word(r, "LT"));
}

static void set_metric(struct designation *d, double width_m, double aspect_1)
{
    d->section_width_m = width_m;
    d->aspect_1 = aspect_1;
    d->section_height_m = width_m * aspect_1;
    d->outside_diameter_m = d->rim_diameter_m + 2.0 * d->section_height_m;
}

/* A bare metric size is a truck's when the text alone shows it: 15-degree truck rims are the ones
 * whose code ends in .5, and no car tyre as high as 80 % of its width is made for a rim of 20 in
 * or more (395/85R20), where car tyres end at 65 %. */
static bool looks_like_truck(double rim_in, double aspect_1)
{
    return rim_in - floor(rim_in) > 0.25 || (rim_in >= 20.0 && aspect_1 >= 0.80);
}

static enum tyre_family metric_family(const struct reader *r, bool st, bool lt, bool c,
                                      double aspect_1)
{
    if (c) {
        return TYRE_C_TYPE;
    }
    if (st || lt || r->prefix_p) {
        return st ? TYRE_ST : lt ? TYRE_LT_METRIC : TYRE_P_METRIC;
    }
    return looks_like_truck(r->rim_in, aspect_1) ? TYRE_TRUCK_METRIC : TYRE_EURO_METRIC;
}

/* 285/70R17, P265/70R17, LT..., ST..., 315/70R17LT, 225/75R16C, 395/85R20. */
static enum status read_metric(struct reader *r, bool st, bool lt)
{
    bool suffix_lt = false, c = false;
    if (!take_number(r, &r->second) || !take_build(r) || !take_number(r, &r->rim_in)) {
        return STATUS_E_SYNTAX;
    }
    take_suffix(r, &suffix_lt, &c);
    if ((suffix_lt || c) && (st || lt || r->prefix_p)) {
        return STATUS_E_SYNTAX;
    }
    r->d.family = metric_family(r, st, lt || suffix_lt, c, r->second / 100.0);
    r->d.rim_diameter_m = r->rim_in * UNITS_M_PER_INCH;
    set_metric(&r->d, r->first / 1000.0, r->second / 100.0);
    return STATUS_OK;
}

/* 35x12.50R17LT: the diameter and the section in inches. */
static enum status read_flotation(struct reader *r)
{
    bool lt = false, c = false;
    if (!take_number(r, &r->second) || !take_build(r) || !take_number(r, &r->rim_in)) {
        return STATUS_E_SYNTAX;
    }
    take_suffix(r, &lt, &c);
    if (c) {
        return STATUS_E_SYNTAX;
    }
    struct designation *d = &r->d;
    d->family = TYRE_FLOTATION;
    d->rim_diameter_m = r->rim_in * UNITS_M_PER_INCH;
    d->outside_diameter_m = r->first * UNITS_M_PER_INCH;
    d->section_width_m = r->second * UNITS_M_PER_INCH;
    d->section_height_m = (d->outside_diameter_m - d->rim_diameter_m) / 2.0;
    d->aspect_1 = d->section_width_m > 0.0 ? d->section_height_m / d->section_width_m : 0.0;
    return STATUS_OK;
}

/* 7.50R16, 16.00-20, 7.50R16LT in inches; 195R14C in mm. No ratio is written. */
static enum status read_without_ratio(struct reader *r)
{
    bool lt = false, c = false;
    if (!take_build(r) || !take_number(r, &r->rim_in)) {
        return STATUS_E_SYNTAX;
    }
    take_suffix(r, &lt, &c);
    bool mm = r->first >= MM_FROM;
    double aspect_1 = mm ? ASPECT_C_TYPE_1 : ASPECT_NUMERIC_1;
    if (mm || c) {
        r->d.family = metric_family(r, false, lt, c, aspect_1);
    } else {
        r->d.family = TYRE_NUMERIC;
    }
    r->d.aspect_assumed = true;
    r->d.rim_diameter_m = r->rim_in * UNITS_M_PER_INCH;
    set_metric(&r->d, mm ? r->first / 1000.0 : r->first * UNITS_M_PER_INCH, aspect_1);
    return STATUS_OK;
}

static enum status read_size(struct reader *r)
{
    skip_blanks(r);
    bool lt = take(r, "LT");
    bool st = !lt && take(r, "ST");
    r->prefix_p = !lt && !st && take(r, "P");
    bool prefix = lt || st || r->prefix_p;
    skip_blanks(r);
    if (!take_number(r, &r->first)) {
        return STATUS_E_SYNTAX;
    }
    if (take(r, "/")) {
        return read_metric(r, st, lt);
    }
    if (prefix) {
        return STATUS_E_SYNTAX;
    }
    return take(r, "X") ? read_flotation(r) : read_without_ratio(r);
}

static bool within(double x, double lo, double hi)
{
    return x >= lo && x <= hi;
}

static bool plausible(const struct reader *r)
{
    const struct designation *d = &r->d;
    return within(r->rim_in, RIM_MIN_IN, RIM_MAX_IN) &&
           within(d->section_width_m, WIDTH_MIN_M, WIDTH_MAX_M) &&
           within(d->aspect_1, ASPECT_MIN_1, ASPECT_MAX_1) && d->section_height_m >= HEIGHT_MIN_M &&
           d->outside_diameter_m <= OD_MAX_M;
}

static bool is_range(char letter)
{
    return letter != '\0' && strchr("BCDEFGHJLMN", letter) != NULL;
}

static bool set_range(struct reader *r, char letter)
{
    if (r->d.load_range != 0 || !is_range(letter)) {
        return false;
    }
    r->d.load_range = letter;
    return true;
}

/* Ply rating to load range, TRA [memory]: 4 B, 6 C, 8 D, 10 E ... 24 N. */
static bool set_ply_rating(struct reader *r, double plies)
{
    static const char letters[] = "BCDEFGHJLMN";
    for (size_t i = 0; letters[i] != '\0'; i++) {
        if (plies == 4.0 + 2.0 * (double)i) {
            return set_range(r, letters[i]);
        }
    }
    return false;
}

/* A speed symbol of one letter, or A1..A8, that ends the word. */
static bool take_symbol(struct reader *r)
{
    double speed_mps = 0.0;
    char symbol[3] = {r->at[0], '\0', '\0'};
    if (r->at[0] == 'A' && is_digit(r->at[1])) {
        symbol[1] = r->at[1];
    }
    if (r->d.speed_symbol[0] != '\0' || loadindex_speed(symbol, &speed_mps) < 0 ||
        !take_word(r, symbol)) {
        return false;
    }
    memcpy(r->d.speed_symbol, symbol, sizeof symbol);
    return true;
}

static bool passenger(const struct reader *r)
{
    return r->d.family == TYRE_P_METRIC || r->d.family == TYRE_EURO_METRIC;
}

/* What may follow the load index: a symbol at once ("121Q"), or as the next word where that
 * cannot be a load range ("116 T" on a passenger size; "121 E" on a light truck's is a range). */
static enum status read_symbol_of_index(struct reader *r)
{
    if (is_letter(*r->at)) {
        return take_symbol(r) ? STATUS_OK : STATUS_E_SYNTAX;
    }
    if (*r->at != ' ' && *r->at != '\0') {
        return STATUS_E_SYNTAX;
    }
    skip_blanks(r);
    if (passenger(r)) {
        (void)take_symbol(r);
    }
    return STATUS_OK;
}

/* "121Q", "121/118S", "121", and the ply ratings "10PR", "10 PR". */
static enum status read_index(struct reader *r)
{
    double single = 0.0, dual = 0.0, kg = 0.0;
    if (!take_number(r, &single)) {
        return STATUS_E_SYNTAX;
    }
    const char *behind = r->at;
    skip_blanks(r);
    if (take_word(r, "PR")) {
        return set_ply_rating(r, single) ? STATUS_OK : STATUS_E_SYNTAX;
    }
    r->at = behind;
    if (take(r, "/") && !take_number(r, &dual)) {
        return STATUS_E_SYNTAX;
    }
    if (r->d.load_index != 0 || single != floor(single) || dual != floor(dual)) {
        return STATUS_E_SYNTAX;
    }
    if (!within(single, 0.0, 999.0) || dual > single || loadindex_kg((int)single, &kg) < 0 ||
        (dual != 0.0 && loadindex_kg((int)dual, &kg) < 0)) {
        return STATUS_E_DOMAIN;
    }
    r->d.load_index = (int)single;
    r->d.load_index_dual = (int)dual;
    return read_symbol_of_index(r);
}

/* Markings that say nothing about size, load or speed. */
static bool take_idle_word(struct reader *r)
{
    static const char *const idle[] = {"SL", "TL", "TT", "M+S", "POR"};
    for (size_t i = 0; i < sizeof idle / sizeof idle[0]; i++) {
        if (take_word(r, idle[i])) {
            return true;
        }
    }
    return false;
}

static bool take_extra_load(struct reader *r)
{
    return take_word(r, "XL") || take_word(r, "EXTRA LOAD") || take_word(r, "RF") ||
           take_word(r, "REINFORCED");
}

/* "LOAD RANGE E", "LR E", "LRE", and a lone letter: a load range where it can be one, else a speed
 * symbol. */
static bool take_range(struct reader *r)
{
    bool named = take_word(r, "LOAD RANGE") || take(r, "LR");
    skip_blanks(r);
    char letter = r->at[0];
    bool alone = letter != '\0' && (r->at[1] == ' ' || r->at[1] == '\0');
    if (!alone || !is_range(letter)) {
        return !named && take_symbol(r);
    }
    r->at++;
    return set_range(r, letter);
}

static enum status read_service(struct reader *r)
{
    for (skip_blanks(r); *r->at != '\0'; skip_blanks(r)) {
        if (is_digit(*r->at)) {
            enum status s = read_index(r);
            if (s != STATUS_OK) {
                return s;
            }
        } else if (take_extra_load(r)) {
            r->d.extra_load = true;
        } else if (!take_idle_word(r) && !take_range(r)) {
            return STATUS_E_SYNTAX;
        }
    }
    return STATUS_OK;
}

/* The size as written ends where its reading ended; blanks around it are not part of it. */
static void keep_size(struct reader *r, const char *s)
{
    size_t from = strspn(s, " \t"), to = (size_t)(r->at - r->text);
    while (to > from && r->text[to - 1] == ' ') {
        to--;
    }
    size_t n = to - from < DESIGNATION_TEXT ? to - from : DESIGNATION_TEXT - 1;
    memcpy(r->d.text, s + from, n);
    r->d.text[n] = '\0';
}

enum status designation_parse(const char *s, struct designation *d)
{
    struct reader r = {.at = NULL};
    if (!start(&r, s)) {
        return STATUS_E_SYNTAX;
    }
    enum status ret = read_size(&r);
    if (ret == STATUS_OK && *r.at != ' ' && *r.at != '\0' && r.at[-1] != ' ') {
        ret = STATUS_E_SYNTAX; /* letters stuck to the rim code */
    }
    if (ret == STATUS_OK && !plausible(&r)) {
        ret = STATUS_E_DOMAIN;
    }
    if (ret == STATUS_OK) {
        keep_size(&r, s);
        ret = read_service(&r);
    }
    if (ret != STATUS_OK) {
        return ret;
    }
    if (r.d.family == TYRE_EURO_METRIC && r.d.load_index >= LI_TRUCK) {
        r.d.family = TYRE_TRUCK_METRIC;
    }
    *d = r.d;
    return d->aspect_assumed ? STATUS_W_ASSUMED : STATUS_OK;
}
