# sandshoe: one GNU makefile, everything built under build/.  "make help" lists the targets.
SHELL       := /bin/bash
VERSION     := 0.1.0
MODE        ?= release
PREFIX      ?= /usr/local
DESTDIR     ?=
ifeq ($(origin CC),default)
CC          := gcc
endif
WERROR      ?=
B           := build/$(MODE)$(if $(findstring clang,$(CC)),-clang)

IS_CLANG    := $(findstring clang,$(shell $(CC) --version))
WARN        := -Wall -Wextra -Wpedantic -Wshadow -Wconversion -Wsign-conversion -Wdouble-promotion \
               -Wfloat-conversion -Wformat=2 -Wundef -Wstrict-prototypes -Wmissing-prototypes \
               -Wold-style-definition -Wcast-qual -Wcast-align -Wwrite-strings -Wpointer-arith \
               -Wnull-dereference -Wswitch-enum -Wvla
WARN_GCC    := -Wlogical-op -Wduplicated-cond -Wduplicated-branches -Wjump-misses-init
STD         := -std=c17 -D_DEFAULT_SOURCE -D_XOPEN_SOURCE=700 -ffp-contract=off
DEFS        := -DSANDSHOE_VERSION='"$(VERSION)"' -DSANDSHOE_DATADIR='"$(PREFIX)/share/sandshoe"' \
               -DSANDSHOE_SRCDIR='"$(CURDIR)"'
HARDEN      := -fstack-protector-strong -fPIE

flags_release  := -O2 -g -D_FORTIFY_SOURCE=2
flags_sanitize := -O1 -g -fno-omit-frame-pointer -fsanitize=address,undefined -fno-sanitize-recover=all
flags_coverage := -O0 -g --coverage
flags_fuzz     := -O1 -g -fsanitize=address,undefined,fuzzer-no-link -fno-sanitize-recover=all
link_release   := -pie -Wl,-z,relro,-z,now
link_sanitize  := -fsanitize=address,undefined -pie
link_coverage  := --coverage
link_fuzz      := -fsanitize=address,undefined

ALL_CFLAGS  := $(STD) $(WARN) $(if $(IS_CLANG),,$(WARN_GCC)) $(WERROR) $(HARDEN) $(flags_$(MODE)) \
               $(DEFS) -Isrc $(CFLAGS)
ALL_LDFLAGS := $(link_$(MODE)) $(LDFLAGS)
LIBS        := -lncursesw -ltinfo -liniparser -lhpdf -ljansson -lz -lgsl -lgslcblas -lm
TEST_LIBS   := -lcmocka -lvterm

SRC         := $(sort $(shell find src -name '*.c'))
LIB_OBJ     := $(patsubst src/%.c,$(B)/src/%.o,$(filter-out src/app/main.c,$(SRC)))
MAIN_OBJ    := $(B)/src/app/main.o
UNIT        := $(sort $(wildcard tests/unit/test_*.c))
UNIT_BIN    := $(patsubst tests/unit/%.c,$(B)/tests/%,$(UNIT))
SUPPORT     := $(sort $(wildcard tests/support/*.c))
SUPPORT_OBJ := $(patsubst tests/%.c,$(B)/tests-obj/%.o,$(SUPPORT))
BENCH       := $(sort $(wildcard tests/bench/bench_*.c))
BENCH_BIN   := $(patsubst tests/bench/%.c,$(B)/bench/%,$(BENCH))

.DEFAULT_GOAL := all
.DELETE_ON_ERROR:
.SECONDARY:

all: $(B)/sandshoe ## build the program

$(B)/sandshoe: $(MAIN_OBJ) $(B)/libsandshoe.a
	$(CC) $(ALL_LDFLAGS) -o $@ $^ $(LIBS)

$(B)/libsandshoe.a: $(LIB_OBJ)
	@rm -f $@
	ar rcs $@ $^

$(B)/src/%.o: src/%.c Makefile
	@mkdir -p $(@D)
	$(CC) $(ALL_CFLAGS) -MMD -MP -c -o $@ $<

$(B)/tests-obj/%.o: tests/%.c Makefile
	@mkdir -p $(@D)
	$(CC) $(ALL_CFLAGS) -Itests -MMD -MP -c -o $@ $<

$(B)/tests/%: $(B)/tests-obj/unit/%.o $(SUPPORT_OBJ) $(B)/libsandshoe.a
	@mkdir -p $(@D)
	$(CC) $(ALL_LDFLAGS) -o $@ $^ $(LIBS) $(TEST_LIBS)

$(B)/bench/%: $(B)/tests-obj/bench/%.o $(B)/libsandshoe.a
	@mkdir -p $(@D)
	$(CC) $(ALL_LDFLAGS) -o $@ $^ $(LIBS)

unit: $(UNIT_BIN) ## build and run the unit tests
	@set -e; for t in $(UNIT_BIN); do echo "== $${t##*/}"; $$t > $(B)/unit.log 2>&1 || { cat $(B)/unit.log; exit 1; }; tail -2 $(B)/unit.log; done

check: unit ## build and run every test

clean: ## remove everything built
	rm -rf build

help: ## list the targets
	@grep -hE '^[a-z-]+:.*##' $(MAKEFILE_LIST) | sed -E 's/^([a-z-]+):.*## /\1\t/' | expand -t 14

-include $(shell find $(B) -name '*.d' 2>/dev/null)

.PHONY: all unit check clean help
