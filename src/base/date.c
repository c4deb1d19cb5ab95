#include "base/date.h"

#include <stdbool.h>
#include <stddef.h>

static bool has_form(const char *text)
{
    static const char form[] = "dddd-dd-dd";
    for (size_t i = 0; i < sizeof form; i++) {
        bool digit = text[i] >= '0' && text[i] <= '9';
        if (form[i] == 'd' ? !digit : text[i] != form[i]) {
            return false;
        }
    }
    return true;
}

static int number(const char *digits, int n)
{
    int v = 0;
    for (int i = 0; i < n; i++) {
        v = 10 * v + (digits[i] - '0');
    }
    return v;
}

static int days_in(int year, int month)
{
    static const int days[12] = {31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
    bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    return days[month - 1] + (leap && month == 2);
}

enum status date_check(const char *text, struct text *why)
{
    if (!has_form(text)) {
        text_put(why, "not a date (write " DATE_FORM ")");
        return STATUS_E_SYNTAX;
    }
    int year = number(text, 4), month = number(text + 5, 2), day = number(text + 8, 2);
    if (month < 1 || month > 12) {
        text_put(why, "there is no month %02d (" DATE_FORM ")", month);
        return STATUS_E_DOMAIN;
    }
    if (day < 1 || day > days_in(year, month)) {
        text_put(why, "there is no day %02d in %04d-%02d (01 to %d)", day, year, month,
                 days_in(year, month));
        return STATUS_E_DOMAIN;
    }
    return STATUS_OK;
}
