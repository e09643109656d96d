#include "board.h"
#include "port.h"
#include "avr/chip.h"

#define RECEIVE_PULL_UP _BV(PD0) /* the line rests at 1 while nothing is plugged in */

/* Off is the enable pin, at once; what is latched is put right before it is enabled again. */
void port_release(void) {
  PORTD |= _BV(SHIFT_ENABLE);
}

/*
 * PB2 is the SPI's own select pin: it has to be an output, or the chip may fall out of master mode. The enable
 * pin's pull-up is switched on before it becomes an output at 1.
 */
void board_begin(void) {
  PORTD = RECEIVE_PULL_UP | _BV(SHIFT_ENABLE) | _BV(SHIFT_LOAD);
  DDRD = _BV(SHIFT_ENABLE) | _BV(SHIFT_LOAD);
  PORTB = 0;
  DDRB = _BV(SHIFT_LATCH) | _BV(PB3) | _BV(PB5);
  SPCR = _BV(SPE) | _BV(MSTR);
  SPSR = _BV(SPI2X); /* 8 MHz */
}

/* The byte that goes first ends up farthest. All latches take over on one edge: there is no skew. */
void port_drives(const uint8_t *on, uint16_t *first_tick, uint16_t *last_tick) {
  for (uint8_t i = DRIVE_BYTES; i > 0; i--) {
    (void)shift_byte(on[i - 1]);
  }
  PORTB |= _BV(SHIFT_LATCH);
  uint16_t tick = TCNT1;
  PORTD &= (uint8_t)~_BV(SHIFT_ENABLE);
  PORTB &= (uint8_t)~_BV(SHIFT_LATCH);
  *first_tick = tick;
  *last_tick = tick;
}
