/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The JTAG port of a chip as it comes from the factory, with the fuse JTAGEN programmed: until the program has written
 * JTD twice within four cycles, PF4 to PF7 are TCK, TMS, TDO and TDI, and read 0 whatever is joined to them (data sheet
 * ATmega640/1280/1281/2560/2561, MCUCR, and alternate functions of port F; the latter from memory). A reset switches it
 * on again.
 */
#include "bench.h"

#include <string.h>

#define MCUCR_ADDRESS 0x55
#define JTD 0x80u
#define WITHIN_CYCLES 4u
#define FIRST_PIN 4u /* of port F, and all above */

static bool there;
static bool on;
static bool wrote;
static uint8_t wanted;
static avr_cycle_count_t wrote_at;

static void on_write(avr_t *avr, avr_io_addr_t address, uint8_t value, void *param) {
  (void)param;
  uint8_t asked = value & JTD;
  bool again = wrote && asked == wanted && avr->cycle - wrote_at <= WITHIN_CYCLES;
  wrote = !again;
  wanted = asked;
  wrote_at = avr->cycle;
  if (again) {
    on = asked == 0;
  }
  avr->data[address] = (uint8_t)((value & ~JTD) | (on ? 0 : JTD));
  if (again) {
    pins_give();
  }
}

void jtag_begin(const char *mcu) {
  there = strcmp(mcu, "atmega2560") == 0;
  if (there) {
    avr_register_io_write(chip, MCUCR_ADDRESS, on_write, NULL);
  }
  jtag_after_reset();
}

void jtag_after_reset(void) {
  on = there;
  wrote = false;
}

bool jtag_is_on(void) {
  return on;
}

bool jtag_has(char port, uint8_t bit) {
  return on && port == 'F' && bit >= FIRST_PIN;
}
