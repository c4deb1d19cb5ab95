#include "app/card_out.h"

#include <string.h>

#include "app/clock.h"
#include "app/files.h"

enum { OUT_TEXT = 2 * CARD_TEXT_MAX };

static bool ends_in(const char *name, const char *end)
{
    size_t n = strlen(name), e = strlen(end);
    return n > e && strcmp(name + n - e, end) == 0;
}

enum exit_status card_job_of(const struct context *c, char date[16], struct card_job *job)
{
    const struct options *o = &c->opt;
    struct card_job_report report = {.what = ""};
    clock_today(date);
    *job = (struct card_job){.catalogue = &c->grounds,
                             .conditions = context_conditions(o),
                             .units = c->units,
                             .size = CARD_3X5,
                             .date = o->date ? o->date : date};
    if (o->size && card_size_from_name(o->size, &job->size) < 0) {
        context_say("--size %s: a card is 3x5, a6 or quarter", o->size);
        return EXIT_USAGE;
    }
    double side = maybe_or(o->side, 1.0);
    job->log_side = side > 1.5;
    if (side < 0.5 || side > 2.5) {
        context_say("--side: 1 is the card, 2 the log grid");
        return EXIT_USAGE;
    }
    if (o->grounds && card_job_grounds(o->grounds, job, &report) < 0) {
        context_say("--grounds: %s ('sandshoe list' shows the grounds)", report.what);
        return EXIT_USAGE;
    }
    return EXIT_FINE;
}

static enum exit_status say_refusal(const struct context *c, const struct refusal *refusal)
{
    char words[1024];
    struct text t = text_over(words, sizeof words);
    text_put(&t, "no card: ");
    refusal_put(refusal, c->units, &t);
    text_put(&t, "\n          ");
    refusal_put_way_out(refusal, c->units, &t);
    context_say("%s", words);
    return EXIT_REFUSED;
}

static enum exit_status say_fault(const struct context *c, enum status st,
                                  const struct card_job_report *report)
{
    if (st == STATUS_E_REFUSED) {
        return say_refusal(c, &report->refusal);
    }
    context_say("no card: %s", report->what);
    return st == STATUS_E_FULL                              ? EXIT_USAGE
           : st == STATUS_E_SYSTEM || st == STATUS_E_MEMORY ? EXIT_SYSTEM
                                                            : EXIT_BAD_FILE;
}

static enum exit_status write_file(const struct context *c, const char *bytes, size_t n)
{
    char why[512];
    struct text w = text_over(why, sizeof why);
    enum status st = file_write(c->opt.output, bytes, n, c->opt.force, &w);
    if (st == STATUS_E_REFUSED) {
        context_say("%s is there already: --force replaces it", c->opt.output);
        return EXIT_SYSTEM;
    }
    if (st < 0) {
        context_say("%s", why);
        return EXIT_SYSTEM;
    }
    context_say("wrote %s", c->opt.output);
    return EXIT_FINE;
}

static enum exit_status text_out(const struct context *c, const struct card_job *job,
                                 struct card_job_report *report)
{
    char words[OUT_TEXT];
    struct text t = text_over(words, sizeof words);
    bool file = c->opt.output && strcmp(c->opt.output, "-") != 0;
    enum status st = card_job_text(job, &t, report);
    if (st < 0) {
        return say_fault(c, st, report);
    }
    return file ? write_file(c, words, t.len) : context_out(words);
}

static enum exit_status pdf_out(const struct context *c, const struct card_job *job,
                                struct card_job_report *report)
{
    static unsigned char bytes[CARD_PDF_MAX];
    size_t n = 0;
    enum status st = card_job_pdf(job, sizeof bytes, bytes, &n, report);
    if (st < 0) {
        return say_fault(c, st, report);
    }
    return write_file(c, (const char *)bytes, n);
}

enum exit_status card_out(const struct context *c, const struct card_job *job)
{
    const char *to = c->opt.output;
    struct card_job_report report = {.what = ""};
    enum exit_status s = EXIT_USAGE;
    if (!to || strcmp(to, "-") == 0 || ends_in(to, ".txt")) {
        s = text_out(c, job, &report);
    } else if (ends_in(to, ".pdf")) {
        s = pdf_out(c, job, &report);
    } else {
        context_say("-o %s: the name ends in .pdf or .txt, or is -", to);
    }
    return s == EXIT_FINE && report.danger ? EXIT_DANGER : s;
}
