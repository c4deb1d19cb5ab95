/* golden.h - kept texts: the test compares, UPDATE=1 in the environment rewrites. */
#ifndef SANDSHOE_TESTS_GOLDEN_H
#define SANDSHOE_TESTS_GOLDEN_H

/* golden_check - fail unless the file tests/golden/NAME holds exactly got. */
void golden_check_at(const char *name, const char *got, const char *file, int line);
#define GOLDEN_CHECK(name, got) golden_check_at((name), (got), __FILE__, __LINE__)

#endif
