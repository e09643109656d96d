/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "bench.h"

#include <stddef.h>
#include <stdlib.h>

#include <avr_ioport.h>

#define MOST 64
#define PORTS 12

static struct pin drive[MOST];
static struct pin watch[MOST];
static unsigned drives;
static unsigned watches;
static avr_irq_t *watch_irq[MOST];
static avr_irq_t *port_irq[PORTS];
static uint64_t watch_levels;
static uint64_t drive_levels;
static uint8_t port_now[PORTS];
static uint8_t direction_now[PORTS];
static bool changed;
static avr_cycle_count_t changed_at;

static unsigned parse(const char *text, struct pin *into) {
  unsigned count = 0;
  for (const char *at = text; *at != 0;) {
    if (count == MOST || at[0] < 'A' || at[0] > 'L' || at[1] < '0' || at[1] > '7') {
      die("pins such as C0,C1, at most 64", text);
    }
    into[count++] = (struct pin){.port = at[0], .bit = (uint8_t)(at[1] - '0')};
    at += 2;
    if (*at == ',') {
      at++;
    }
  }
  return count;
}

/* A pin is driven high when it is an output at 1; an input with its pull-up is not. */
static uint64_t driven(void) {
  uint64_t levels = 0;
  for (unsigned i = 0; i < drives; i++) {
    unsigned port = (unsigned)(drive[i].port - 'A');
    levels |= (uint64_t)((port_now[port] & direction_now[port]) >> drive[i].bit & 1) << i;
  }
  return levels;
}

/* What a pin of the chip is at for what hangs on it; `let_go` while it is an input. */
bool pins_level(struct pin pin, bool let_go) {
  unsigned port = (unsigned)(pin.port - 'A');
  bool output = (direction_now[port] >> pin.bit & 1) != 0;
  return output ? (port_now[port] >> pin.bit & 1) != 0 : let_go;
}

bool pins_are_outputs(char port, uint8_t bits) {
  return (direction_now[port - 'A'] & bits) == bits;
}

static void look(void) {
  if (shift_is_used()) {
    shift_look();
  }
  uint64_t levels = shift_is_used() ? shift_drives() : driven();
  if (levels != drive_levels) {
    if (!changed) {
      changed_at = chip->cycle;
    }
    changed = true;
    drive_levels = levels;
    edges_note('d', chip->cycle, levels);
  }
}

static void on_port(avr_irq_t *irq, uint32_t value, void *which) {
  (void)irq;
  port_now[(size_t)which] = (uint8_t)value;
  look();
}

static void on_direction(avr_irq_t *irq, uint32_t value, void *which) {
  (void)irq;
  direction_now[(size_t)which] = (uint8_t)value;
  look();
}

void pins_begin(const char *drive_text, const char *watch_text) {
  drives = drive_text == NULL ? 0 : parse(drive_text, drive);
  watches = watch_text == NULL ? 0 : parse(watch_text, watch);
  for (char name = 'A'; name < 'A' + PORTS; name++) {
    avr_irq_t *irq = avr_io_getirq(chip, AVR_IOCTL_IOPORT_GETIRQ(name), 0);
    port_irq[name - 'A'] = irq;
    if (irq != NULL) {
      void *which = (void *)(size_t)(name - 'A');
      avr_irq_register_notify(irq + IOPORT_IRQ_REG_PORT, on_port, which);
      avr_irq_register_notify(irq + IOPORT_IRQ_DIRECTION_ALL, on_direction, which);
    }
  }
  for (unsigned i = 0; i < watches; i++) {
    watch_irq[i] = avr_io_getirq(chip, AVR_IOCTL_IOPORT_GETIRQ(watch[i].port), watch[i].bit);
    if (watch_irq[i] == NULL) {
      die("this controller lacks a port of", watch_text);
    }
    avr_raise_irq(watch_irq[i], 0);
  }
}

/*
 * The registers were cleared without a word: all pins let go at once, and the inputs have to be given again. The
 * simulator passes on only what differs from what it passed on last, so it is told of the zeros too.
 */
void pins_after_reset(void) {
  for (unsigned i = 0; i < PORTS; i++) {
    port_now[i] = 0;
    direction_now[i] = 0;
  }
  look();
  for (unsigned i = 0; i < PORTS; i++) {
    if (port_irq[i] != NULL) {
      avr_raise_irq(port_irq[i] + IOPORT_IRQ_REG_PORT, 0);
      avr_raise_irq(port_irq[i] + IOPORT_IRQ_DIRECTION_ALL, 0);
    }
  }
  pins_give();
}

static uint32_t level_for_chip(unsigned i) {
  return jtag_has(watch[i].port, watch[i].bit) ? 0 : watch_levels >> i & 1;
}

/* Every input anew, whatever it was given last. */
void pins_give(void) {
  for (unsigned i = 0; i < watches; i++) {
    uint32_t level = level_for_chip(i);
    avr_raise_irq(watch_irq[i], !level);
    avr_raise_irq(watch_irq[i], level);
  }
}

bool pins_changed(avr_cycle_count_t *when, uint64_t *levels) {
  if (!changed) {
    return false;
  }
  changed = false;
  *when = changed_at;
  *levels = drive_levels;
  return true;
}

void pins_watch(uint64_t levels) {
  uint64_t moved = levels ^ watch_levels;
  if (moved == 0) {
    return;
  }
  watch_levels = levels;
  for (unsigned i = 0; i < watches; i++) {
    if (moved >> i & 1) {
      avr_raise_irq(watch_irq[i], level_for_chip(i));
    }
  }
  shift_watch(levels);
  edges_note('w', chip->cycle, levels);
}
