/* ATmega2560: 32 drives and 24 watches on its own pins; boards.md has the map. */
#ifndef BENCH_M2560_H
#define BENCH_M2560_H

#include <avr/interrupt.h>
#include <avr/io.h>

#include "avr/table.h"

#define BOARD_DRIVES 32
#define BOARD_DRIVES_MOST BOARD_DRIVES
#define BOARD_WATCHES 24
#define BOARD_WATCHES_MOST BOARD_WATCHES
#define BOARD_SLOTS 5
#define BOARD_SLOTS_MOST BOARD_SLOTS
#define BOARD_CHANGES 128
#define BOARD_FRAME 256
#define BOARD_REPLY 384
#define BOARD_ANSWERS 10 /* one a slot and as many more: what may come at once is then taken in at once */
#define BOARD_ENTRIES 16
#define BOARD_EDGES 640
#define BOARD_PERIOD_NS 5000u
#define BOARD_BLIND_US 16u
#define BOARD_CAPABILITIES 0u
#define BOARD_NAME "ATmega2560 32+24"

#define RECEIVE_BYTES 256
#define NOISE_CHANNEL 0x1E /* the band gap, against the supply */

#define BOARD_FREEZE() cli()
#define BOARD_THAW() sei()
#define BOARD_PERIOD_TICKS 10u

/* Whether a port differs from the last sample, which the general purpose registers hold; jumps to 1 if so. */
#define SAMPLE_COMPARE                                                                      \
  "in r24, %[f]\n\t in r25, %[seen_a]\n\t cpse r24, r25\n\t rjmp 1f\n\t"                    \
  "lds r24, %[k]\n\t in r25, %[seen_b]\n\t cpse r24, r25\n\t rjmp 1f\n\t"                   \
  "in r24, %[a]\n\t in r25, %[seen_c]\n\t cpse r24, r25\n\t rjmp 1f\n\t"
#define SAMPLE_PORTS                                                                        \
  [f] "I"(_SFR_IO_ADDR(PINF)), [k] "n"(_SFR_MEM_ADDR(PINK)), [a] "I"(_SFR_IO_ADDR(PINA))
static inline void sample_note(uint8_t a, uint8_t b, uint8_t c) {
  GPIOR0 = a;
  GPIOR1 = b;
  GPIOR2 = c;
}

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
