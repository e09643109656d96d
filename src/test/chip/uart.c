/* SPDX-License-Identifier: GPL-3.0-or-later */
/*
 * The chip's UART 0 and the line at it, in place of the simulator's own, whose receiver has 64 places, hands bytes on
 * a byte time late and loses some without a word, and whose transmitter has no buffer and takes eleven bits a byte.
 * The chip's receiver has two places and a shift register, its transmitter one and a shift register (data sheet of
 * the ATmega2560, chapter 22: an overrun happens when the buffer is full, a byte waits in the shift register and a new
 * start bit is detected).
 */
#include "bench.h"

#include <string.h>

#include <avr_uart.h>
#include <sim_cycle_timers.h>

#define BIT_CYCLES 64u /* of the line, at 250,000 baud */
#define FRAME_BITS 10u /* start, eight, stop */
#define WAITING 4096u
#define PLACES 3u      /* the last is the shift register */
#define LEAVING 2u     /* one in the transmitter's shift register, one in its buffer */
#define TOLERANCE 50u  /* a part in so many: 2 %, the data sheet's recommended limit for eight bits and a little more */

static avr_uart_t *uart;
static byte_taker take;

static uint8_t waiting[WAITING]; /* on the host's side of the line */
static unsigned head;
static unsigned tail;
static bool on_the_line;
static uint8_t arriving;

static uint8_t held[PLACES];
static unsigned holds;

static uint8_t leaving[LEAVING];
static unsigned leaves;

static struct uart_stats stats;

static avr_uart_t *find_uart(void) {
  for (avr_io_t *io = chip->io_port; io != NULL; io = io->next) {
    if (strcmp(io->kind, "uart") == 0 && ((avr_uart_t *)io)->name == '0') {
      return (avr_uart_t *)io;
    }
  }
  die("this controller has no UART 0", "");
}

static unsigned chip_bit_cycles(void) {
  unsigned divisor = avr_regbit_get(chip, uart->ubrrl) | (unsigned)avr_regbit_get(chip, uart->ubrrh) << 8;
  return (divisor + 1) * (avr_regbit_get(chip, uart->u2x) ? 8 : 16);
}

/* A chip set for another rate reads and sends something else. */
static uint8_t through_the_line(uint8_t byte) {
  unsigned bit = chip_bit_cycles();
  unsigned off = bit > BIT_CYCLES ? bit - BIT_CYCLES : BIT_CYCLES - bit;
  if (off * TOLERANCE <= BIT_CYCLES) {
    return byte;
  }
  stats.garbled++;
  return (uint8_t)~byte;
}

static void set_flag(avr_int_vector_t *flag) {
  avr_raise_interrupt(chip, flag);
}

static void clear_flag(avr_int_vector_t *flag) {
  avr_clear_interrupt(chip, flag);
  avr_regbit_clear(chip, flag->raised); /* a sticky one is left by the former */
}

static uint8_t on_read(avr_t *avr, avr_io_addr_t address, void *param) {
  (void)param;
  if (holds != 0) {
    avr->data[address] = held[0];
    holds--;
    memmove(held, held + 1, holds);
    avr_regbit_clear(avr, uart->dor);
    if (holds == 0) {
      clear_flag(&uart->rxc);
    }
  }
  return avr->data[address];
}

/* Timers run up to an instruction late; the line does not. */
static void at(avr_cycle_count_t cycle, avr_cycle_timer_t timer) {
  avr_cycle_timer_register(chip, cycle - chip->cycle, timer, NULL);
}

static avr_cycle_count_t on_start_bit(avr_t *avr, avr_cycle_count_t when, void *param);

/* The middle of the stop bit: the byte is there. */
static avr_cycle_count_t on_stop_bit(avr_t *avr, avr_cycle_count_t when, void *param) {
  (void)param;
  stats.received++;
  stats.last_byte = avr->cycle;
  if (avr_regbit_get(avr, uart->rxen)) {
    held[holds++] = through_the_line(arriving);
    set_flag(&uart->rxc);
  }
  on_the_line = head != tail;
  if (on_the_line) {
    at(when + BIT_CYCLES, on_start_bit);
  }
  return 0;
}

/* The middle of a start bit: what still waits in the shift register is lost to the byte that begins. */
static avr_cycle_count_t on_start_bit(avr_t *avr, avr_cycle_count_t when, void *param) {
  (void)param;
  if (holds == PLACES) {
    holds--;
    stats.overruns++;
    avr_regbit_set(avr, uart->dor);
  }
  arriving = waiting[tail];
  tail = (tail + 1) % WAITING;
  at(when + BIT_CYCLES * (FRAME_BITS - 1), on_stop_bit);
  return 0;
}

static avr_cycle_count_t on_left(avr_t *avr, avr_cycle_count_t when, void *param) {
  (void)avr;
  (void)param;
  uint8_t byte = leaving[0];
  leaves--;
  memmove(leaving, leaving + 1, leaves);
  stats.sent++;
  set_flag(leaves == 0 ? &uart->txc : &uart->udrc);
  take(byte);
  return leaves == 0 ? 0 : when + chip_bit_cycles() * FRAME_BITS;
}

static void on_write(avr_t *avr, avr_io_addr_t address, uint8_t byte, void *param) {
  (void)address;
  (void)param;
  if (!avr_regbit_get(avr, uart->txen)) {
    return;
  }
  if (leaves == LEAVING) {
    stats.lost_sent++; /* the program did not wait for room */
    return;
  }
  leaving[leaves++] = through_the_line(byte);
  if (leaves == 1) {
    at(avr->cycle + chip_bit_cycles() * FRAME_BITS, on_left);
  } else {
    clear_flag(&uart->udrc);
  }
}

void uart_begin(byte_taker taker) {
  take = taker;
  uart = find_uart();
  chip->io[AVR_DATA_TO_IO(uart->r_udr)].r.c = on_read;
  chip->io[AVR_DATA_TO_IO(uart->r_udr)].w.c = on_write;
  uart_after_reset();
}

/* Timers are gone with a reset; what was on the line, or in the chip, is lost. */
void uart_after_reset(void) {
  head = tail = 0;
  on_the_line = false;
  holds = 0;
  leaves = 0;
  uint32_t none = 0; /* no sleeping, no printing */
  avr_ioctl(chip, AVR_IOCTL_UART_SET_FLAGS('0'), &none);
}

unsigned uart_room(void) {
  return (tail + WAITING - head - 1) % WAITING;
}

void uart_put(uint8_t byte) {
  if (uart_room() == 0) {
    die("more bytes at once than a line holds", "");
  }
  waiting[head] = byte;
  head = (head + 1) % WAITING;
  if (!on_the_line) {
    on_the_line = true;
    avr_cycle_timer_register(chip, BIT_CYCLES / 2, on_start_bit, NULL);
  }
}

bool uart_busy(void) {
  return on_the_line;
}

struct uart_stats uart_stats(void) {
  return stats;
}
