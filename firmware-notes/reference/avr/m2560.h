/* ATmega2560: 32 drives and 24 watches on its own pins; boards.md has the map. */
#ifndef BENCH_M2560_H
#define BENCH_M2560_H

#include <avr/io.h>

#include "avr/table.h"

#define BOARD_DRIVES 32
#define BOARD_DRIVES_MOST BOARD_DRIVES
#define BOARD_WATCHES 24
#define BOARD_WATCHES_MOST BOARD_WATCHES
#define BOARD_SLOTS 8
#define BOARD_SLOTS_MOST BOARD_SLOTS
#define BOARD_CHANGES 128
#define BOARD_FRAME 256
#define BOARD_REPLY 384
#define BOARD_ENTRIES 16
#define BOARD_EDGES 640
#define BOARD_PERIOD_NS 4300u
#define BOARD_BLIND_US 40u
#define BOARD_CAPABILITIES 0u
#define BOARD_NAME "ATmega2560 32+24"

#define RECEIVE_BYTES 128
#define NOISE_CHANNEL 0x1E /* the band gap, against the supply */

/* One sample of every watch: full ports, so that a set's bytes need no shuffling. */
#define SAMPLE_BYTES 3
static inline uint16_t board_sample(uint8_t *a, uint8_t *b, uint8_t *c) {
  uint16_t tick = TCNT1;
  *a = PINF;
  *b = PINK;
  *c = PINA;
  return tick;
}

#endif
