/* main.c - read the command line, run one command. */
#include <langinfo.h>
#include <locale.h>
#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include <gsl/gsl_errno.h>

#include "app/commands.h"

enum { MAIN_TEXT = 16384 };

struct command {
    enum command_bit bit;
    enum exit_status (*run)(struct context *c);
};

// clang-format off
static const struct command COMMANDS[] = {
    {CMD_SESSION, cmd_session},
    {CMD_ADVISE, cmd_advise},
    {CMD_DOWN, cmd_down},
    {CMD_UP, cmd_up},
    {CMD_REPLAY, cmd_replay},
    {CMD_TRIP, cmd_trip},
    {CMD_CARD, cmd_card},
    {CMD_CHECK, cmd_check},
    {CMD_HELP, cmd_help},
    {CMD_LIST, cmd_list},
};
// clang-format on

/* A terminal's locale may be richer than what one wants to read: --ascii, NO_COLOR's cousin. */
static bool locale_is_utf8(const struct options *o)
{
    const char *term = getenv("TERM");
    bool dumb = term && strcmp(term, "dumb") == 0;
    return !o->ascii && !dumb && strcmp(nl_langinfo(CODESET), "UTF-8") == 0;
}

static enum exit_status run(struct context *c)
{
    for (size_t i = 0; i < sizeof COMMANDS / sizeof COMMANDS[0]; i++) {
        if (COMMANDS[i].bit == c->opt.command) {
            return COMMANDS[i].run(c);
        }
    }
    context_say("'%s' is not in this build", command_name(c->opt.command));
    return EXIT_USAGE;
}

static enum exit_status show_help(const struct options *o)
{
    static char buf[MAIN_TEXT];
    struct text t = text_over(buf, sizeof buf);
    bool of_program = o->command == CMD_SESSION;
    options_help(of_program ? (enum command_bit)0 : o->command, &t);
    return context_out(buf);
}

int main(int argc, char *argv[])
{
    static struct context c;
    char why[2048];
    struct text w = text_over(why, sizeof why);
    gsl_set_error_handler_off();
    (void)setlocale(LC_CTYPE, "");
    if (options_parse(argc, (const char *const *)argv, &c.opt, &w) != STATUS_OK) {
        fprintf(stderr, "%s", why);
        fprintf(stderr, "'sandshoe --help' and 'sandshoe COMMAND --help' say what there is\n");
        return EXIT_USAGE;
    }
    c.units = c.opt.units;
    c.utf8 = locale_is_utf8(&c.opt);
    paths_search(&c.search);
    if (c.opt.version) {
        return (int)context_out("sandshoe " SANDSHOE_VERSION "\n");
    }
    if (c.opt.help) {
        return (int)show_help(&c.opt);
    }
    return (int)run(&c);
}
