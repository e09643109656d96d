/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * Shift registers at the chip's SPI, and that SPI, in place of the simulator's own, which takes 100 us for a byte
 * whatever its rate. Serial-in latches (74HC595) for drives and parallel-in registers (74HC165) for watches, each kind
 * in a chain, with one clock; see firmware-notes/boards.md. A byte goes at once when it is written, and is there after
 * eight periods of the clock (data sheet ATmega328P, SPI); nothing else can happen in between, since this knows of no
 * interrupts. Delays within the registers, tens of nanoseconds, are less than a cycle and left out. SPI mode 0, most
 * significant bit first, master.
 */
#include "bench.h"

#include <stdlib.h>
#include <string.h>

#include <avr_spi.h>

#define MOST 4u
#define BITS 8u
#define SPIF 0x80u
#define WCOL 0x40u
#define SPI2X 0x01u
#define SPR 0x03u
#define MASTER 0x50u /* SPE and MSTR */
#define MODE 0x2Cu   /* DORD, CPOL, CPHA: all have to be 0 */
#define DATA_OUT 3u  /* of port B */
#define CLOCK 5u
#define SELECT 2u

static bool used;
static struct pin latch;
static struct pin load;
static struct pin enable;
static unsigned latches;
static unsigned registers;

static uint8_t shifted[MOST]; /* nearest to the chip first */
static uint8_t latched[MOST];
static uint8_t parallel[MOST];
static uint64_t inputs;
static bool latch_was;
static bool loading;
static bool enabled;

static avr_spi_t *spi;
static avr_cycle_count_t done_at = NEVER; /* NEVER while nothing was written */
static bool flag_seen;
static uint8_t received;
static unsigned collisions;

static unsigned long loads; /* samples, that is */
static avr_cycle_count_t loaded_at;
static avr_cycle_count_t longest; /* between two of them, since it was asked for */

static avr_spi_t *find_spi(void) {
  for (avr_io_t *io = chip->io_port; io != NULL; io = io->next) {
    if (strcmp(io->kind, "spi") == 0) {
      return (avr_spi_t *)io;
    }
  }
  die("this controller has no SPI", "");
}

static void load_inputs(void) {
  for (unsigned i = 0; i < registers; i++) {
    parallel[i] = (uint8_t)(inputs >> (BITS * i));
  }
}

/* Eight rising edges of the clock. What is loaded meanwhile does not move. */
static uint8_t clock_byte(uint8_t out) {
  memmove(shifted + 1, shifted, latches - 1);
  shifted[0] = out;
  uint8_t in = parallel[0];
  if (loading) {
    return in & 0x80 ? 0xFF : 0;
  }
  memmove(parallel, parallel + 1, registers - 1);
  parallel[registers - 1] = 0; /* its serial input is at ground */
  return in;
}

static unsigned clock_cycles(void) {
  static const unsigned divisor[] = {4, 16, 64, 128};
  unsigned cycles = divisor[chip->data[spi->r_spcr] & SPR];
  return (chip->data[spi->r_spsr] & SPI2X) != 0 ? cycles / 2 : cycles;
}

static void on_write(avr_t *avr, avr_io_addr_t address, uint8_t byte, void *param) {
  (void)address;
  (void)param;
  uint8_t control = avr->data[spi->r_spcr];
  if (done_at != NEVER && avr->cycle < done_at) {
    collisions++;
    return;
  }
  if ((control & MASTER) != MASTER || (control & MODE) != 0) {
    die("the SPI is no master, or not in mode 0, most significant bit first", "");
  }
  if (!pins_are_outputs('B', 1u << DATA_OUT | 1u << CLOCK | 1u << SELECT)) {
    die("data out, clock and select have to be outputs before a byte is sent", "");
  }
  received = clock_byte(byte);
  flag_seen = false;
  done_at = avr->cycle + 1 + BITS * clock_cycles();
}

static bool done(const avr_t *avr) {
  return done_at != NEVER && avr->cycle >= done_at;
}

static uint8_t on_status(avr_t *avr, avr_io_addr_t address, void *param) {
  (void)param;
  uint8_t status = (uint8_t)(avr->data[address] & SPI2X);
  if (done(avr)) {
    status |= SPIF;
    flag_seen = true;
  }
  return status;
}

/* A byte that is read before it is whole is not what was sent. */
static uint8_t on_read(avr_t *avr, avr_io_addr_t address, void *param) {
  (void)address;
  (void)param;
  if (!done(avr)) {
    collisions++;
    return (uint8_t)~received;
  }
  if (flag_seen) {
    done_at = NEVER;
  }
  return received;
}

/* SH/LD pin, RCLK pin, OE pin, how many 595, how many 165: B2,D2,D3,3,3. */
void shift_begin(const char *text) {
  used = text != NULL;
  if (!used) {
    return;
  }
  if (strlen(text) != sizeof "B2,D2,D3,3,3" - 1) {
    die("latch, load and enable, and how many of each, such as B2,D2,D3,3,3, not", text);
  }
  latch = (struct pin){.port = text[0], .bit = (uint8_t)(text[1] - '0')};
  load = (struct pin){.port = text[3], .bit = (uint8_t)(text[4] - '0')};
  enable = (struct pin){.port = text[6], .bit = (uint8_t)(text[7] - '0')};
  latches = (unsigned)(text[9] - '0');
  registers = (unsigned)(text[11] - '0');
  if (latches == 0 || latches > MOST || registers == 0 || registers > MOST) {
    die("1 to 4 registers of each kind, not", text);
  }
  spi = find_spi();
  chip->io[AVR_DATA_TO_IO(spi->r_spdr)].w.c = on_write;
  chip->io[AVR_DATA_TO_IO(spi->r_spdr)].r.c = on_read;
  chip->io[AVR_DATA_TO_IO(spi->r_spsr)].r.c = on_status;
  shift_power();
}

/* Registers have no reset here: they hold noise when power comes, and keep what they hold else. */
void shift_power(void) {
  static uint32_t noise = 7;
  for (unsigned i = 0; i < MOST; i++) {
    noise = noise * 1664525u + 1013904223u;
    shifted[i] = (uint8_t)(noise >> 24);
    latched[i] = (uint8_t)(noise >> 16);
    parallel[i] = (uint8_t)(noise >> 8);
  }
}

void shift_after_reset(void) {
  done_at = NEVER;
  loads = 0;
}

bool shift_is_used(void) {
  return used;
}

static void note_load(void) {
  if (loads != 0 && chip->cycle - loaded_at > longest) {
    longest = chip->cycle - loaded_at;
  }
  loads++;
  loaded_at = chip->cycle;
}

/* A pin of the chip may have changed. Let go, OE is pulled up, and so is the load pin by its register's own habit. */
void shift_look(void) {
  bool now = pins_level(latch, false);
  if (now && !latch_was) {
    memcpy(latched, shifted, sizeof latched);
  }
  latch_was = now;
  bool load_now = !pins_level(load, true);
  if (load_now && !loading) {
    note_load();
  }
  loading = load_now;
  enabled = !pins_level(enable, true);
  if (loading) {
    load_inputs();
  }
}

void shift_watch(uint64_t levels) {
  inputs = levels;
  if (loading) {
    load_inputs();
  }
}

uint64_t shift_drives(void) {
  uint64_t levels = 0;
  for (unsigned i = 0; i < latches && enabled; i++) {
    levels |= (uint64_t)latched[i] << (BITS * i);
  }
  return levels;
}

unsigned long shift_loads(void) {
  return loads;
}

avr_cycle_count_t shift_take_longest(void) {
  avr_cycle_count_t taken = longest;
  longest = 0;
  return taken;
}

unsigned shift_collisions(void) {
  return collisions;
}
