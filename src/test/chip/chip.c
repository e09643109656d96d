/* SPDX-License-Identifier: GPL-3.0-or-later */
#include "bench.h"

#include <string.h>

#include <avr_extint.h>
#include <sim_elf.h>

#define MCUSR_ADDRESS 0x54 /* on every chip that is used here */
#define WATCHDOG_CAUSE 0x08
#define RUN_CYCLES 12 /* between two looks: a lot more accurate than the sampling period */
#define PAINT 0xC5
#define INTERRUPTS 8

avr_t *chip;
static unsigned resets;
static unsigned heap_start;
static bool asked_for;

/* What memory holds when power comes: anything, and each time something else; where the stack will be, a known value. */
static void fill_memory(void) {
  static uint32_t noise = 1;
  uint32_t from = chip->ioend + 1u;
  uint32_t painted = heap_start != 0 ? heap_start : chip->ramend + 1u;
  for (uint32_t i = from; i < painted; i++) {
    noise = noise * 1664525u + 1013904223u;
    chip->data[i] = (uint8_t)(noise >> 24);
  }
  memset(chip->data + painted, PAINT, chip->ramend + 1u - painted);
}

/* Also undone by a reset: the limit of a run, and strict levels, which make low interrupt pins slow. */
static void settings(void) {
  chip->run_cycle_limit = RUN_CYCLES;
  for (int i = 0; i < INTERRUPTS; i++) {
    avr_extint_set_strict_lvl_trig(chip, (uint8_t)i, 0);
  }
}

static void others_after_reset(void) {
  jtag_after_reset();
  shift_after_reset();
  pins_after_reset();
  uart_after_reset();
}

/* The chip resets itself: only the watchdog does. */
static void on_reset(avr_t *avr) {
  (void)avr;
  settings();
  if (!asked_for) {
    resets++;
    chip->data[MCUSR_ADDRESS] = WATCHDOG_CAUSE;
    edges_note('r', chip->cycle, 0);
    others_after_reset();
  }
}

void chip_load(const char *elf, const char *mcu, unsigned heap) {
  elf_firmware_t firmware;
  memset(&firmware, 0, sizeof firmware);
  if (elf_read_firmware(elf, &firmware) != 0) {
    die("cannot read", elf);
  }
  chip = avr_make_mcu_by_name(mcu);
  if (chip == NULL) {
    die("no such controller", mcu);
  }
  asked_for = true;
  avr_init(chip);
  chip->frequency = CLOCK_HZ;
  avr_load_firmware(chip, &firmware);
  chip->frequency = CLOCK_HZ;
  chip->reset = on_reset;
  heap_start = heap;
  settings();
  chip->data[MCUSR_ADDRESS] = 0x01;
  fill_memory();
  asked_for = false;
}

void chip_run_to(avr_cycle_count_t limit) {
  while (chip->cycle < limit) {
    int state = avr_run(chip);
    if (state == cpu_Done || state == cpu_Crashed) {
      die("the program crashed", "");
    }
    avr_cycle_count_t when;
    uint64_t levels;
    if (pins_changed(&when, &levels)) {
      talk_ask("drives", when, levels, true);
      return;
    }
    if (step_stops()) {
      return;
    }
  }
}

void chip_reset(uint8_t cause, unsigned hold_ms) {
  asked_for = true;
  avr_reset(chip);
  asked_for = false;
  resets++;
  chip->data[MCUSR_ADDRESS] = cause;
  edges_note('r', chip->cycle, 0);
  if (cause == 0x01) {
    fill_memory();
    shift_power();
  }
  others_after_reset();
  chip->cycle += (avr_cycle_count_t)hold_ms * (CLOCK_HZ / 1000);
}

/* The program goes round in a circle from now on; its interrupts still come. */
void chip_hang(void) {
  avr_flashaddr_t end = chip->flashend - 1; /* behind any program that leaves room for a boot loader */
  chip->flash[end] = 0xFF;
  chip->flash[end + 1] = 0xCF; /* rjmp .-2 */
  chip->pc = end;
}

unsigned chip_resets(void) {
  return resets;
}

unsigned chip_stack_used(void) {
  unsigned at = heap_start;
  while (heap_start != 0 && at <= chip->ramend && chip->data[at] == PAINT) {
    at++;
  }
  return heap_start == 0 ? 0 : chip->ramend + 1u - at;
}
