/* What the parts of an AVR port know of each other. */
#ifndef BENCH_AVR_CHIP_H
#define BENCH_AVR_CHIP_H

#include <stdint.h>

/* Drives off and pins set up; comes first of all. */
void board_begin(void);

/* Fills in who the board is: reset cause, boot number, board id. Takes up to 20 ms. */
void boot_begin(void);

#endif
