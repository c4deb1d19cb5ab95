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
Q           := $(if $(V),,@)
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
	@echo '  LD  $@'
	$(Q)$(CC) $(ALL_LDFLAGS) -o $@ $^ $(LIBS)

$(B)/libsandshoe.a: $(LIB_OBJ)
	@echo '  AR  $@'
	$(Q)rm -f $@ && ar rcs $@ $^

$(B)/src/%.o: src/%.c Makefile
	@mkdir -p $(@D)
	@echo '  CC  $<'
	$(Q)$(CC) $(ALL_CFLAGS) -MMD -MP -c -o $@ $<

$(B)/tests-obj/%.o: tests/%.c Makefile
	@mkdir -p $(@D)
	@echo '  CC  $<'
	$(Q)$(CC) $(ALL_CFLAGS) -Itests -MMD -MP -c -o $@ $<

$(B)/tests/%: $(B)/tests-obj/unit/%.o $(SUPPORT_OBJ) $(B)/libsandshoe.a
	@mkdir -p $(@D)
	@echo '  LD  $@'
	$(Q)$(CC) $(ALL_LDFLAGS) -o $@ $^ $(LIBS) $(TEST_LIBS)

$(B)/bench/%: $(B)/tests-obj/bench/%.o $(B)/libsandshoe.a
	@mkdir -p $(@D)
	@echo '  LD  $@'
	$(Q)$(CC) $(ALL_LDFLAGS) -o $@ $^ $(LIBS)

FUZZ        := $(sort $(wildcard tests/fuzz/fuzz_*.c))
FUZZ_BIN    := $(patsubst tests/fuzz/%.c,$(B)/fuzz/%,$(FUZZ))
FUZZ_TIME   ?= 30
TTY_BIN     := $(patsubst tests/tty/%.c,$(B)/tests/%,$(wildcard tests/tty/test_*.c))
CHECKS      := $(UNIT_BIN) $(B)/sandshoe $(TTY_BIN)
RUN         := ASAN_OPTIONS=detect_leaks=1 UBSAN_OPTIONS=print_stacktrace=1
SANDSHOE    := $(CURDIR)/$(B)/sandshoe

TTY_OBJ     := $(patsubst tests/%.c,$(B)/tests-obj/%.o,$(filter-out tests/tty/test_%.c,$(wildcard tests/tty/*.c)))

$(TTY_BIN): $(B)/tests/%: $(B)/tests-obj/tty/%.o $(TTY_OBJ) $(SUPPORT_OBJ) $(B)/libsandshoe.a
	@mkdir -p $(@D)
	@echo '  LD  $@'
	$(Q)$(CC) $(ALL_LDFLAGS) -o $@ $^ $(LIBS) $(TEST_LIBS)

$(B)/fuzz/%: $(B)/tests-obj/fuzz/%.o $(B)/libsandshoe.a
	@mkdir -p $(@D)
	@echo '  LD  $@'
	$(Q)$(CC) $(ALL_LDFLAGS) -fsanitize=fuzzer -o $@ $^ $(LIBS)

# run-tests LIST,LOG: each program's count of passed tests goes to LOG.counts
define run-tests
	@set -e; : > $(2).counts; for t in $(1); do \
	    SANDSHOE=$(SANDSHOE) $(RUN) $$t > $(2) 2>&1 || { cat $(2); echo "FAILED $${t##*/}"; exit 1; }; \
	    printf '%-24s' "$${t##*/}"; grep -h 'PASSED' $(2) | tee -a $(2).counts; done
endef

unit: $(UNIT_BIN) ## build and run the unit tests
	$(call run-tests,$(UNIT_BIN),$(B)/unit.log)

tty: $(TTY_BIN) $(B)/sandshoe ## drive the program on a real terminal line
	$(call run-tests,$(TTY_BIN),$(B)/tty.log)

cli: $(B)/sandshoe ## commands against their exact output, and every documented example
	@if [ -x tests/cli/run.sh ]; then SANDSHOE=$(SANDSHOE) tests/cli/run.sh; fi
	@SANDSHOE=$(SANDSHOE) tests/cli/card.sh

profiles: $(B)/sandshoe ## every shipped profile loads clean
	@$(SANDSHOE) check $$(find profiles -name '*.ini' -o -path 'profiles/logs/*' -type f | sort)

layers: $(B)/libsandshoe.a ## the direction of dependencies holds
	@tests/tools/layers.sh $(B)/src

docs-fresh: $(UNIT_BIN) ## docs/validation.md is what the tests say
	@tests/tools/validation.sh $(B)/validation.md $(UNIT_BIN)
	@cmp $(B)/validation.md docs/validation.md || { echo 'run "make validation"'; exit 1; }

validation: $(UNIT_BIN) ## write docs/validation.md anew from the tests' rows
	tests/tools/validation.sh docs/validation.md $(UNIT_BIN)

check: unit cli tty profiles $(if $(filter release,$(MODE)),layers docs-fresh check-headers doc-blocks) ## build and run every test
	@cat $(B)/*.counts | awk '{ n += $$(NF - 1) } END { print n " passed, 0 failed" }'

sanitize: ## the same tests under the address and undefined-behaviour sanitizers
	$(MAKE) MODE=sanitize check

check-headers: ## each header compiles alone
	@for h in $$(find src tests/support -name '*.h' | sort); do \
	    printf '#include "%s"\nextern int alone;\n' $$h | \
	    $(CC) $(STD) $(WARN) -Werror $(DEFS) -I. -Isrc -Itests -fsyntax-only -x c - || exit 1; done
	@echo 'check-headers: each compiles alone'

doc-blocks: ## public functions of core and sim have their blocks, doubles their units
	@awk -f tests/tools/doclint.awk src/core/*.h src/sim/*.h && echo 'doc-blocks: complete'

metrics: ## function lengths, against the limits of the house
	@tests/tools/metrics.sh

C_FILES     := $(SRC) $(sort $(shell find tests -name '*.c'))
H_FILES     := $(sort $(shell find src tests -name '*.h'))
BANNED      := assert_float_equal|\batof\b|\batoi\b|\bsprintf\b|\bstrcpy\b|\bstrcat\b|iniparser_get(int|double|boolean)

lint: doc-blocks metrics ## formatters and static analysers
	@clang-format --dry-run --Werror $(C_FILES) $(H_FILES)
	@! grep -nE '$(BANNED)' $(C_FILES) $(H_FILES)
	$(MAKE) MODE=analyze -j2 analyze
	@cppcheck --quiet --error-exitcode=1 --inline-suppr --std=c11 --enable=warning,portability,performance \
	    --suppress=missingIncludeSystem -Isrc -j2 src
	@for f in $(SRC); do echo $$f; done | xargs -P2 -n8 sh -c 'clang-tidy --quiet "$$@" -- $(STD) $(filter-out -DSANDSHOE_%,$(DEFS)) $(TIDY_DEFS) -Isrc 2>/dev/null || exit 255' sh
	mandoc -T lint -W warning man/*
	shellcheck tests/cli/*.sh tests/tools/*.sh .ci/run

TIDY_DEFS   := -DSANDSHOE_VERSION=\"0\" -DSANDSHOE_DATADIR=\"d\" -DSANDSHOE_SRCDIR=\"s\"
analyze: $(patsubst src/%.c,$(B)/analyze/%.ok,$(SRC))

build/analyze/analyze/%.ok: src/%.c
	@mkdir -p $(@D)
	gcc $(STD) $(DEFS) -Isrc -O0 -fanalyzer -Werror -c -o /dev/null $<
	@touch $@

fuzz: ## clang libFuzzer on each target, FUZZ_TIME seconds each
	$(MAKE) MODE=fuzz CC=clang fuzz-run

fuzz-run: $(FUZZ_BIN)
	@for f in $(FUZZ_BIN); do n=$${f##*/}; mkdir -p $(B)/corpus/$$n; \
	    $$f -max_total_time=$(FUZZ_TIME) -rss_limit_mb=2048 -print_final_stats=0 -verbosity=0 \
	    $$([ -f tests/fuzz/$$n.dict ] && echo -dict=tests/fuzz/$$n.dict) $(B)/corpus/$$n \
	    $$([ -d tests/fuzz/corpus/$$n ] && echo tests/fuzz/corpus/$$n) || exit 1; \
	    echo "$$n: $(FUZZ_TIME) s without a finding"; done

coverage: ## line coverage of core and sim by the unit tests, with a floor
	$(MAKE) MODE=coverage unit
	gcovr -r . --object-directory build/coverage -f src/core -f src/sim --fail-under-line 90

bench: $(BENCH_BIN) ## name<TAB>median_ns, one line a workload
	@for b in $(BENCH_BIN); do $$b; done
	@if [ -f tests/bench/cvode/Makefile ]; then $(MAKE) -s -C tests/bench/cvode B=$(CURDIR)/$(B) CC='$(CC)' run; fi

memcheck: $(UNIT_BIN) ## valgrind on the unit tests: uninitialised reads
	@for t in $(UNIT_BIN); do valgrind -q --error-exitcode=9 $$t > $(B)/memcheck.log 2>&1 || { cat $(B)/memcheck.log; exit 1; }; done

golden: $(UNIT_BIN) $(B)/sandshoe ## rewrite every golden file; read the diff before committing
	@for t in $(UNIT_BIN); do UPDATE=1 $$t > /dev/null 2>&1 || true; done
	@if [ -x tests/cli/run.sh ]; then UPDATE=1 SANDSHOE=$(SANDSHOE) tests/cli/run.sh; fi
	@UPDATE=1 SANDSHOE=$(SANDSHOE) tests/cli/card.sh

format: ## clang-format everything in place
	clang-format -i $(C_FILES) $(H_FILES)

install: $(B)/sandshoe ## install below DESTDIR/PREFIX
	install -d $(DESTDIR)$(PREFIX)/bin $(DESTDIR)$(PREFIX)/share/man/man1 $(DESTDIR)$(PREFIX)/share/man/man5
	install -m 755 $(B)/sandshoe $(DESTDIR)$(PREFIX)/bin/sandshoe
	install -m 644 man/sandshoe.1 $(DESTDIR)$(PREFIX)/share/man/man1/
	install -m 644 man/sandshoe-profile.5 $(DESTDIR)$(PREFIX)/share/man/man5/
	cd profiles && find . -type f | while read -r f; do \
	    install -D -m 644 "$$f" "$(DESTDIR)$(PREFIX)/share/sandshoe/$$f"; done

uninstall: ## remove what install put there
	rm -f $(DESTDIR)$(PREFIX)/bin/sandshoe $(DESTDIR)$(PREFIX)/share/man/man1/sandshoe.1 \
	    $(DESTDIR)$(PREFIX)/share/man/man5/sandshoe-profile.5
	rm -rf $(DESTDIR)$(PREFIX)/share/sandshoe

dist: ## a reproducible source archive under build/
	@mkdir -p build
	git archive --format=tar --prefix=sandshoe-$(VERSION)/ --mtime="$$(git log -1 --format=%cI)" HEAD 2>/dev/null \
	    > build/sandshoe-$(VERSION).tar || git archive --format=tar --prefix=sandshoe-$(VERSION)/ HEAD > build/sandshoe-$(VERSION).tar
	gzip -9nf build/sandshoe-$(VERSION).tar
	@sha256sum build/sandshoe-$(VERSION).tar.gz

DEB_BUILD   := gcc make pkg-config libncurses-dev libiniparser-dev libgsl-dev libhpdf-dev libjansson-dev zlib1g-dev
DEB_TEST    := libcmocka-dev libvterm-dev poppler-utils mandoc binutils jq
DEB_LINT    := clang clang-tidy clang-format cppcheck shellcheck universal-ctags gcovr valgrind libsundials-dev
SUDO        := $(if $(filter 0,$(shell id -u)),,sudo)

deps: ## install the Debian packages for building and testing
	@missing=$$(for p in $(DEB_BUILD) $(DEB_TEST); do dpkg -s $$p >/dev/null 2>&1 || echo $$p; done); \
	if [ -n "$$missing" ]; then $(SUDO) apt-get update -qq && \
	    $(SUDO) env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $$missing; fi

deps-lint: deps ## and those for lint, fuzz, coverage and the solver comparison
	$(SUDO) env DEBIAN_FRONTEND=noninteractive apt-get install -y -qq --no-install-recommends $(DEB_LINT)

demo: $(B)/sandshoe ## the main job on a shipped rig
	$(SANDSHOE) advise flatbed-cabin --ground dune-sand

clean: ## remove everything built
	rm -rf build

help: ## list the targets
	@grep -hE '^[a-z-]+:.*##' $(firstword $(MAKEFILE_LIST)) | sed -E 's/^([a-z-]+):.*## /\1\t/' | expand -t 16

-include $(shell find $(B) -name '*.d' 2>/dev/null)

.PHONY: all unit tty cli profiles layers docs-fresh validation check sanitize check-headers doc-blocks \
        metrics lint analyze fuzz fuzz-run coverage bench memcheck golden format install uninstall dist \
        deps deps-lint demo clean help
