/* ATmega328P with shift registers: 24 drives and 24 watches on its SPI; boards.md has the map. */
#ifndef BENCH_M328P_SHIFT_H
#define BENCH_M328P_SHIFT_H

#include <avr/io.h>

#include "avr/table.h"

#define BOARD_DRIVES 24
#define BOARD_DRIVES_MOST BOARD_DRIVES
#define BOARD_WATCHES 24
#define BOARD_WATCHES_MOST BOARD_WATCHES
#define BOARD_SLOTS 3
#define BOARD_SLOTS_MOST BOARD_SLOTS
#define BOARD_CHANGES 32
#define BOARD_FRAME 112
#define BOARD_REPLY 128
#define BOARD_ENTRIES 6
#define BOARD_EDGES 0 /* the slots take the memory */
#define BOARD_PERIOD_NS 9800u
#define BOARD_BLIND_US 60u
#define BOARD_CAPABILITIES 0u
#define BOARD_NAME "ATmega328P shift 24+24"

#define RECEIVE_BYTES 64
#define NOISE_CHANNEL 0x0E /* the band gap, against the supply */

#define SHIFT_LOAD PD2   /* low: the 165s take their inputs in */
#define SHIFT_ENABLE PD3 /* low: the 595s drive */
#define SHIFT_LATCH PB2  /* rising: the 595s put out what was shifted */

static inline uint8_t shift_byte(uint8_t out) {
  SPDR = out;
  while (!(SPSR & _BV(SPIF))) {
  }
  return SPDR;
}

/*
 * One sample of every watch: all are taken in at once, then shifted. What goes out meanwhile is never latched.
 */
#define SAMPLE_BYTES 3
static inline uint16_t board_sample(uint8_t *a, uint8_t *b, uint8_t *c) {
  PORTD &= (uint8_t)~_BV(SHIFT_LOAD);
  uint16_t tick = TCNT1;
  PORTD |= _BV(SHIFT_LOAD);
  *a = shift_byte(0);
  *b = shift_byte(0);
  *c = shift_byte(0);
  return tick;
}

#endif
