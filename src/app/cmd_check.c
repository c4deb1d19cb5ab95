/* cmd_check.c - validate files: every mistake with its line. */
#include <stdio.h>
#include <string.h>

#include "app/commands.h"
#include "app/files.h"
#include "app/journal.h"
#include "report/json_list.h"

enum { CHECK_BYTES = 262144, CHECK_TEXT = 65536 };

/* Logs begin with their head line, or are not called .ini and hold no section. */
static bool is_log(const char *path, const char *bytes)
{
    size_t n = strlen(path);
    bool ini = n > 4 && strcmp(path + n - 4, ".ini") == 0;
    return strncmp(bytes, REFILL_LOG_HEAD, strlen(REFILL_LOG_HEAD)) == 0 ||
           (!ini && !strstr(bytes, "\n[") && bytes[0] != '[');
}

/* A catalogue may override single keys of the one it stands before. */
static enum status check_grounds(struct context *c, struct ini *ini, struct diag_list *diags)
{
    static struct ground_list list;
    struct diag_list quiet = {.n = 0};
    for (int i = 0; i < c->grounds_ini.n_file && ini->n_file < INI_FILES; i++) {
        if (profile_read(c->grounds_ini.file[i], ini, &quiet) != STATUS_OK) {
            break;
        }
    }
    return grounds_from_ini(ini, &list, diags);
}

static enum status check_profile(struct context *c, const char *path, struct diag_list *diags)
{
    static struct ini ini;
    static struct rig rig;
    struct trip trip;
    struct compressor compressor;
    ini.n = 0;
    ini.n_file = 0;
    enum status s = profile_read(path, &ini, diags);
    if (s == STATUS_OK && ini.n == 0) {
        struct diag d = {.code = STATUS_E_MISSING};
        diag_copy(d.file, sizeof d.file, path);
        diag_copy(d.text, sizeof d.text, "no section: 'sandshoe list --template rig' shows a rig");
        diag_add(diags, &d);
        s = STATUS_E_MISSING;
    }
    if (s != STATUS_OK) {
        return s;
    }
    switch (profile_guess(&ini)) {
    case PROFILE_GROUNDS:
        return check_grounds(c, &ini, diags);
    case PROFILE_COMPRESSOR:
        return compressor_from_ini(&ini, &compressor, diags);
    case PROFILE_TRIP:
        return trip_from_ini(&ini, c->grounds.n > 0 ? &c->grounds : NULL, &trip, diags);
    case PROFILE_RIG:
    case PROFILE_KINDS:
        break;
    }
    return rig_from_ini(&ini, &c->compressors, &rig, diags);
}

/* Bare names are looked for where each kind lives. */
static void find(const struct context *c, const char *name, char path[PATHS_LEN])
{
    static const char *const where[][2] = {
        {"rigs", ".ini"}, {"trips", ".ini"}, {"compressors", ".ini"}, {"logs", ".log"}};
    char why[PATHS_LEN];
    for (size_t i = 0; i < sizeof where / sizeof where[0]; i++) {
        struct text w = text_over(why, sizeof why);
        if (paths_find(&c->search, where[i][0], where[i][1], name, path, &w) == STATUS_OK) {
            return;
        }
    }
    snprintf(path, PATHS_LEN, "%s", name);
}

static enum exit_status check_one(struct context *c, const char *name, struct diag_list *diags)
{
    static char bytes[CHECK_BYTES];
    static struct journal_events events;
    char path[PATHS_LEN], why[PATHS_LEN + 128];
    struct text w = text_over(why, sizeof why);
    size_t n = 0;
    find(c, name, path);
    if (file_read(path, bytes, sizeof bytes - 1, &n, &w) != STATUS_OK) {
        context_say("%s", why);
        return EXIT_SYSTEM;
    }
    bytes[n] = '\0';
    enum status s = is_log(path, bytes) ? journal_parse(path, bytes, n, &events, diags)
                                        : check_profile(c, path, diags);
    return s == STATUS_OK && diags->n == 0 ? EXIT_FINE : EXIT_BAD_FILE;
}

static enum exit_status say_sound(struct context *c, struct text *out)
{
    if (c->opt.json && json_sound_put(c->opt.n_arg, c->opt.arg, out) != STATUS_OK) {
        context_say("the answer cannot be written as JSON");
        return EXIT_SYSTEM;
    }
    return context_out(out->s);
}

enum exit_status cmd_check(struct context *c)
{
    static char buf[CHECK_TEXT];
    struct text fine = text_over(buf, sizeof buf);
    enum exit_status worst = EXIT_FINE;
    if (context_read_catalogues(c) != STATUS_OK) {
        c->grounds.n = 0; /* its own mistakes are told when it is among the files */
    }
    c->diags = (struct diag_list){.n = 0};
    for (int i = 0; i < c->opt.n_arg; i++) {
        struct diag_list own = {.n = 0};
        enum exit_status s = check_one(c, c->opt.arg[i], c->opt.json ? &c->diags : &own);
        worst = s > worst ? s : worst;
        if (s == EXIT_FINE && !c->opt.json) {
            text_put(&fine, "%s: fine\n", c->opt.arg[i]);
        } else if (s == EXIT_BAD_FILE && !c->opt.json) {
            context_mistakes(&own);
        }
    }
    if (c->opt.json && worst == EXIT_BAD_FILE) {
        return context_trouble(c);
    }
    enum exit_status s = worst == EXIT_FINE || !c->opt.json ? say_sound(c, &fine) : EXIT_FINE;
    return s > worst ? s : worst;
}
