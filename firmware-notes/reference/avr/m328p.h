/* ATmega328P: 6 drives and 8 watches on its own pins; boards.md has the map. */
#ifndef BENCH_M328P_H
#define BENCH_M328P_H

#include <avr/interrupt.h>
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
#define BOARD_ANSWERS 6 /* one a slot and as many more: what may come at once is then taken in at once */
#define BOARD_ENTRIES 8
#define BOARD_EDGES 104
#define BOARD_PERIOD_NS 5000u
#define BOARD_BLIND_US 16u
#define BOARD_CAPABILITIES 0u
#define BOARD_NAME "ATmega328P 6+8"

#define RECEIVE_BYTES 128
#define NOISE_CHANNEL 0x0E /* the band gap, against the supply */

#define BOARD_FREEZE() cli()
#define BOARD_THAW() sei()
#define BOARD_PERIOD_TICKS 10u

/* Whether a port differs from the last sample, which the general purpose registers hold; jumps to 1 if so. */
#define SAMPLE_COMPARE                                                                      \
  "in r24, %[c]\n\t andi r24, 0x3F\n\t in r25, %[seen_a]\n\t cpse r24, r25\n\t rjmp 1f\n\t"                    \
  "in r24, %[b]\n\t andi r24, 0x03\n\t in r25, %[seen_b]\n\t cpse r24, r25\n\t rjmp 1f\n\t"
#define SAMPLE_PORTS [c] "I"(_SFR_IO_ADDR(PINC)), [b] "I"(_SFR_IO_ADDR(PINB))
static inline void sample_note(uint8_t a, uint8_t b, uint8_t c) {
  (void)b;
  (void)c;
  GPIOR0 = a & 0x3F;
  GPIOR1 = a >> 6;
}

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
