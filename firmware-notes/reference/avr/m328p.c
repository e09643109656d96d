#include "board.h"
#include "port.h"
#include "avr/chip.h"

#define RECEIVE_PULL_UP _BV(PD0) /* the line rests at 1 while nothing is plugged in */
#define MASK_D 0xFC

void port_release(void) {
  PORTD = RECEIVE_PULL_UP;
}

/* The latch first, directions after: no pin is ever an output at 1 in between. */
void board_begin(void) {
  port_release();
  DDRD = MASK_D;
}

/* One port, one instruction: there is no skew. */
void port_drives(const uint8_t *on, uint16_t *first_tick, uint16_t *last_tick) {
  PORTD = (uint8_t)((uint8_t)(on[0] << 2) | RECEIVE_PULL_UP);
  uint16_t tick = TCNT1;
  *first_tick = tick;
  *last_tick = tick;
}
