/* Constant tables stay in flash. */
#ifndef BENCH_AVR_TABLE_H
#define BENCH_AVR_TABLE_H

#include <avr/pgmspace.h>

#define BOARD_TABLE PROGMEM
#define BOARD_TABLE_READ(at) pgm_read_dword(at)

#endif
