/* ATmega328P: 6 drives and 8 watches on its own pins; boards.md has the map. */
#ifndef BENCH_M328P_H
#define BENCH_M328P_H

#include <avr/io.h>

#include "avr/table.h"

#define BOARD_DRIVES 6
#define BOARD_DRIVES_MOST BOARD_DRIVES
#define BOARD_WATCHES 8
#define BOARD_WATCHES_MOST BOARD_WATCHES
#define BOARD_SLOTS 3
#define BOARD_SLOTS_MOST BOARD_SLOTS
#define BOARD_CHANGES 64
#define BOARD_FRAME 96
#define BOARD_REPLY 148
#define BOARD_ENTRIES 8
#define BOARD_EDGES 104
#define BOARD_PERIOD_NS 3800u
#define BOARD_BLIND_US 36u
#define BOARD_CAPABILITIES 0u
#define BOARD_NAME "ATmega328P 6+8"

#define RECEIVE_BYTES 128
#define NOISE_CHANNEL 0x0E /* the band gap, against the supply */

/* One sample of every watch. */
#define SAMPLE_BYTES 1
static inline uint16_t board_sample(uint8_t *a, uint8_t *b, uint8_t *c) {
  (void)b;
  (void)c;
  uint16_t tick = TCNT1;
  uint8_t low = PINC & 0x3F;
  uint8_t high = PINB;
  if (high & _BV(PB0)) {
    low |= 0x40;
  }
  if (high & _BV(PB1)) {
    low |= 0x80;
  }
  *a = low;
  return tick;
}

#endif
