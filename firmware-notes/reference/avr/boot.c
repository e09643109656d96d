/*
 * Reset cause, boot number and board id.
 *
 * EEPROM: bytes 0 to 3 count boots; bytes 8 to 15 are the board id, or all 0xFF where none was written. A cell is good
 * for 100,000 writes, so for that many resets. A reset in the middle of the write may leave any count behind; the low
 * byte of the boot number is noise, so that two boots are told apart even then in 255 cases of 256.
 */
#include <avr/eeprom.h>
#include <avr/io.h>
#include <avr/wdt.h>

#include "board.h"
#include "port.h"
#include "avr/chip.h"

#define COUNT_AT ((uint32_t *)0)
#define ID_AT ((const void *)8)
#define ID_BYTES 8
#define CONVERSIONS 16
#define PATIENCE 5000u

#define UNINITIALISED __attribute__((section(".noinit")))

static uint8_t reset_flags UNINITIALISED;
static uint8_t power_up[16] UNINITIALISED; /* what the memory happens to hold */

/* Before main: a watchdog that bit stays armed, with the shortest time, until it is switched off. */
void keep_reset_flags(void) __attribute__((naked, used, section(".init3")));
void keep_reset_flags(void) {
  reset_flags = MCUSR;
  MCUSR = 0;
  wdt_disable();
}

/* Many boot loaders clear the flags before they start the program: then the cause is unknown, 0. */
static uint8_t reset_cause(void) {
  if (reset_flags & _BV(PORF)) {
    return 1;
  }
  if (reset_flags & _BV(BORF)) {
    return 3;
  }
  if (reset_flags & _BV(WDRF)) {
    return 4;
  }
  return (reset_flags & _BV(EXTRF)) != 0 ? 2 : 0;
}

/* The low bits of a converter that measures its own reference against the supply. */
static uint8_t noise(void) {
  uint8_t mixed = 0x5A;
  for (uint8_t i = 0; i < sizeof power_up; i++) {
    mixed = (uint8_t)((uint8_t)(mixed << 1 | mixed >> 7) ^ power_up[i]);
  }
  ADMUX = _BV(REFS0) | NOISE_CHANNEL;
  ADCSRA = _BV(ADEN) | _BV(ADPS2) | _BV(ADPS1) | _BV(ADPS0);
  for (uint8_t i = 0; i < CONVERSIONS; i++) {
    ADCSRA |= _BV(ADSC);
    for (uint16_t wait = PATIENCE; wait != 0 && (ADCSRA & _BV(ADSC)); wait--) {
    }
    mixed = (uint8_t)((uint8_t)(mixed << 1 | mixed >> 7) ^ ADCL);
    (void)ADCH; /* the low byte is kept until the high one is read */
  }
  ADCSRA = 0;
  return mixed;
}

static void read_id(void) {
  eeprom_read_block(identity.id, ID_AT, ID_BYTES);
  uint8_t all = 0xFF;
  for (uint8_t i = 0; i < ID_BYTES; i++) {
    all &= identity.id[i];
  }
  for (uint8_t i = 0; i < ID_BYTES && all == 0xFF; i++) {
    identity.id[i] = 0;
  }
}

void boot_begin(void) {
  uint32_t count = eeprom_read_dword(COUNT_AT) + 1u;
  eeprom_update_dword(COUNT_AT, count);
  eeprom_busy_wait();
  identity.boot = count << 8 | noise();
  identity.reset_cause = reset_cause();
  identity.name = BOARD_NAME;
  for (uint8_t i = 0; i < sizeof power_up; i++) {
    power_up[i] += (uint8_t)count; /* a warm start finds other noise */
  }
  read_id();
}
