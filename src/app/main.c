#include <stdio.h>

int main(void)
{
    puts("sandshoe " SANDSHOE_VERSION);
    return 0;
}
