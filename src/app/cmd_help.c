/* cmd_help.c - the job and the cautions in words, as data. */
#include <string.h>

#include "app/commands.h"
#include "app/help_topics.h"
#include "base/dist.h"
#include "core/caution.h"
#include "report/wrap.h"

enum { HELP_TEXT = 32768, HELP_INDENT = 2, HELP_NAME_COLUMN = 14, HELP_LEVEL_COLUMN = 10 };

struct topic {
    const char *name, *title, *text;
};

static const struct topic TOPICS[] = {
#define TOPIC_ROW(name, title, text) {name, title, text},
    HELP_TOPICS(TOPIC_ROW)
#undef TOPIC_ROW
};

enum { N_TOPICS = sizeof TOPICS / sizeof TOPICS[0] };

static const char CAUTIONS[] = "cautions";

/* Paragraph by paragraph. */
static void put_topic(const struct topic *topic, struct text *out)
{
    static char copy[4096];
    char *rest = NULL;
    struct text t = text_over(copy, sizeof copy);
    text_put(&t, "%s", topic->text);
    text_put(out, "%s\n", topic->title);
    for (char *p = strtok_r(copy, "\n", &rest); p; p = strtok_r(NULL, "\n", &rest)) {
        text_put(out, "\n");
        wrap_put(out, HELP_INDENT, "", p);
    }
}

/* The table of cautions, worst first, its numbers as they stand in the table. */
static void put_cautions(struct text *out)
{
    text_put(out, "every caution of the program; {0} {1} stand for its numbers\n\n");
    for (int level = CAUTION_DANGER; level >= CAUTION_NOTE; level--) {
        for (int i = 0; i < CAUTION_COUNT; i++) {
            enum caution_code code = (enum caution_code)i;
            char words[240];
            struct text when = text_over(words, sizeof words);
            if (caution_level_of(code) == (enum caution_level)level) {
                wrap_put(out, HELP_LEVEL_COLUMN, caution_level_name((enum caution_level)level),
                         caution_text(code));
                text_put(&when, "When: %s.", caution_when(code));
                wrap_put(out, HELP_LEVEL_COLUMN, "", words);
            }
        }
    }
}

static void put_list(struct text *out)
{
    put_topic(&TOPICS[0], out);
    text_put(out, "\nmore: sandshoe help TOPIC\n\n");
    for (int i = 0; i < N_TOPICS; i++) {
        text_put(out, "  %s", TOPICS[i].name);
        text_pad_to(out, HELP_NAME_COLUMN);
        text_put(out, "%s\n", TOPICS[i].title);
    }
    text_put(out, "  %s", CAUTIONS);
    text_pad_to(out, HELP_NAME_COLUMN);
    text_put(out, "every caution there is\n");
    text_put(out, "\n'sandshoe --help' lists the commands, 'sandshoe COMMAND --help' options.\n");
}

static enum exit_status say_unknown(const char *name)
{
    const char *names[N_TOPICS + 1];
    for (int i = 0; i < N_TOPICS; i++) {
        names[i] = TOPICS[i].name;
    }
    names[N_TOPICS] = CAUTIONS;
    int near = dist_nearest(name, names, N_TOPICS + 1, 2);
    if (near >= 0) {
        context_say("help on '%s' is unknown (did you mean %s?)", name, names[near]);
    } else {
        context_say("help on '%s' is unknown ('sandshoe help' lists the topics)", name);
    }
    return EXIT_USAGE;
}

/* A command's name is a topic too. */
static bool put_named(const char *name, struct text *out)
{
    for (int i = 0; i < N_TOPICS; i++) {
        if (strcmp(TOPICS[i].name, name) == 0) {
            put_topic(&TOPICS[i], out);
            return true;
        }
    }
    if (strcmp(name, CAUTIONS) == 0) {
        put_cautions(out);
        return true;
    }
    if (command_from_name(name) != 0) {
        options_help(command_from_name(name), out);
        return true;
    }
    return false;
}

enum exit_status cmd_help(struct context *c)
{
    static char buf[HELP_TEXT];
    struct text t = text_over(buf, sizeof buf);
    if (c->opt.n_arg == 0) {
        put_list(&t);
    } else if (!put_named(c->opt.arg[0], &t)) {
        return say_unknown(c->opt.arg[0]);
    }
    return context_out(buf);
}
