/* SPDX-License-Identifier: GPL-3.0-or-later */
#define _GNU_SOURCE
#include "bench.h"

#include <errno.h>
#include <fcntl.h>
#include <stdlib.h>
#include <string.h>
#include <termios.h>
#include <unistd.h>

#include <avr_uart.h>
#include <sim_cycle_timers.h>

#define BYTE_CYCLES 640 /* ten bits at 250,000 baud */
#define UNREAD_MOST 3   /* two in the buffer, one in the shift register; the next start bit kills that one's successor */
#define WAITING 2048

static int master = -1;
static avr_irq_t *to_chip;
static avr_uart_t *uart;
static uint8_t waiting[WAITING];
static unsigned head;
static unsigned tail;
static bool pumping;
static avr_cycle_count_t last_byte;
static unsigned overruns;
static unsigned long received;
static unsigned long sent;

static avr_uart_t *find_uart(void) {
  for (avr_io_t *io = chip->io_port; io != NULL; io = io->next) {
    if (strcmp(io->kind, "uart") == 0 && ((avr_uart_t *)io)->name == '0') {
      return (avr_uart_t *)io;
    }
  }
  die("this controller has no UART 0", "");
}

/* The line can be slower than the chip's answers for a while, never for good. */
static void on_output(avr_irq_t *irq, uint32_t value, void *param) {
  (void)irq;
  (void)param;
  uint8_t byte = (uint8_t)value;
  sent++;
  while (write(master, &byte, 1) != 1) {
    if (errno != EAGAIN && errno != EINTR) {
      return; /* nobody is there to hear it */
    }
    usleep(100);
  }
}

static unsigned unread(void) {
  unsigned size = sizeof uart->input.buffer / sizeof uart->input.buffer[0];
  return (uart->input.write + size - uart->input.read) % size;
}

static avr_cycle_count_t pump(avr_t *avr, avr_cycle_count_t when, void *param) {
  (void)param;
  if (head == tail) {
    pumping = false;
    return 0;
  }
  uint8_t byte = waiting[tail];
  tail = (tail + 1) % WAITING;
  if (unread() >= UNREAD_MOST) {
    overruns++;
    avr_regbit_set(avr, uart->dor);
  } else {
    avr_raise_irq(to_chip, byte);
  }
  last_byte = avr->cycle;
  received++;
  return when + BYTE_CYCLES;
}

static void start(void) {
  if (!pumping && head != tail) {
    pumping = true;
    avr_cycle_timer_register(chip, BYTE_CYCLES, pump, NULL);
  }
}

static void flags(void) {
  uint32_t none = 0;
  avr_ioctl(chip, AVR_IOCTL_UART_SET_FLAGS('0'), &none);
}

void uart_begin(const char *link) {
  master = posix_openpt(O_RDWR | O_NOCTTY | O_NONBLOCK);
  char name[128];
  if (master < 0 || grantpt(master) != 0 || unlockpt(master) != 0
      || ptsname_r(master, name, sizeof name) != 0) {
    die("no pseudo-terminal", strerror(errno));
  }
  int slave = open(name, O_RDWR | O_NOCTTY); /* kept open: without it the master reads an error between two hosts */
  struct termios raw;
  if (slave < 0 || tcgetattr(slave, &raw) != 0) {
    die("cannot open", name);
  }
  cfmakeraw(&raw);
  tcsetattr(slave, TCSANOW, &raw);
  unlink(link);
  if (symlink(name, link) != 0) {
    die("cannot link", link);
  }
  uart = find_uart();
  avr_irq_t *irq = avr_io_getirq(chip, AVR_IOCTL_UART_GETIRQ('0'), 0);
  to_chip = irq + UART_IRQ_INPUT;
  avr_irq_register_notify(irq + UART_IRQ_OUTPUT, on_output, NULL);
  flags();
}

/* Cycle timers are gone with a reset; what was on the line is lost. */
void uart_after_reset(void) {
  head = tail = 0;
  pumping = false;
  flags();
}

int uart_fd(void) {
  return master;
}

void uart_poll(void) {
  uint8_t bytes[256];
  unsigned room = (tail + WAITING - head - 1) % WAITING;
  size_t most = room < sizeof bytes ? room : sizeof bytes;
  ssize_t got = most == 0 ? 0 : read(master, bytes, most);
  for (ssize_t i = 0; i < got; i++) {
    waiting[head] = bytes[i];
    head = (head + 1) % WAITING;
  }
  start();
}

bool uart_busy(void) {
  return head != tail;
}

avr_cycle_count_t uart_last_byte(void) {
  return last_byte;
}

void uart_stats(unsigned *lost, unsigned long *in, unsigned long *out) {
  *lost = overruns;
  *in = received;
  *out = sent;
}
