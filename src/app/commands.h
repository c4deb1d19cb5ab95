/* commands.h - one function a command. */
#ifndef SANDSHOE_APP_COMMANDS_H
#define SANDSHOE_APP_COMMANDS_H

#include "app/context.h"

enum exit_status cmd_advise(struct context *c) MUST_CHECK;
enum exit_status cmd_down(struct context *c) MUST_CHECK;
enum exit_status cmd_up(struct context *c) MUST_CHECK;
enum exit_status cmd_replay(struct context *c) MUST_CHECK;
enum exit_status cmd_trip(struct context *c) MUST_CHECK;
enum exit_status cmd_card(struct context *c) MUST_CHECK;
enum exit_status cmd_check(struct context *c) MUST_CHECK;
enum exit_status cmd_help(struct context *c) MUST_CHECK;
enum exit_status cmd_list(struct context *c) MUST_CHECK;
enum exit_status cmd_session(struct context *c) MUST_CHECK;

#endif
