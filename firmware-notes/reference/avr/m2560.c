#include "board.h"
#include "port.h"
#include "avr/chip.h"

#define RECEIVE_PULL_UP _BV(PE0) /* the line rests at 1 while nothing is plugged in */

#define MASK_B (_BV(PB4) | _BV(PB5) | _BV(PB6))
#define MASK_E _BV(PE3)
#define MASK_G (_BV(PG0) | _BV(PG1) | _BV(PG2) | _BV(PG5))
#define MASK_H (_BV(PH0) | _BV(PH1) | _BV(PH3) | _BV(PH4) | _BV(PH5) | _BV(PH6))
#define MASK_J (_BV(PJ0) | _BV(PJ1))

void port_release(void) {
  PORTC = 0;
  PORTL = 0;
  PORTH = 0;
  PORTJ = 0;
  PORTB = 0;
  PORTG = 0;
  PORTE = RECEIVE_PULL_UP;
}

/*
 * PF4 to PF7 are the chip's JTAG port until that is switched off, which wants the same write twice within four cycles
 * (data sheet ATmega640/1280/1281/2560/2561, MCUCR, bit JTD). The interrupts are still off, so nothing comes between.
 */
static inline void jtag_off(void) {
  uint8_t control = (uint8_t)(MCUCR | _BV(JTD));
  MCUCR = control;
  MCUCR = control;
}

/* Latches first, directions after: no pin is ever an output at 1 in between. */
void board_begin(void) {
  jtag_off();
  port_release();
  DDRC = 0xFF;
  DDRL = 0xFF;
  DDRH = MASK_H;
  DDRJ = MASK_J;
  DDRB = MASK_B;
  DDRG = MASK_G;
  DDRE = MASK_E;
}

void port_drives(const uint8_t *on, uint16_t *first_tick, uint16_t *last_tick) {
  uint8_t c = on[0];
  uint8_t l = on[1];
  uint8_t h = (uint8_t)((on[2] & 0x03) | ((on[2] & 0x3C) << 1));
  uint8_t j = on[2] >> 6;
  uint8_t b = (uint8_t)((on[3] & 0x07) << 4);
  uint8_t g = (uint8_t)(((on[3] >> 3) & 0x07) | ((on[3] & 0x40) >> 1));
  uint8_t e = (uint8_t)(((on[3] & 0x80) >> 4) | RECEIVE_PULL_UP);
  /* The core has frozen the sampling, so nothing comes between these. */
  PORTC = c;
  uint16_t first = TCNT1;
  PORTL = l;
  PORTH = h;
  PORTJ = j;
  PORTB = b;
  PORTG = g;
  PORTE = e;
  *last_tick = TCNT1;
  *first_tick = first;
}
