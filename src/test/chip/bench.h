/* SPDX-License-Identifier: GPL-3.0-or-later */
#ifndef CHIP_BENCH_H
#define CHIP_BENCH_H

#include <stdbool.h>
#include <stdint.h>
#include <stdnoreturn.h>

#include <sim_avr.h>

#define CLOCK_HZ 16000000u
#define NEVER UINT64_MAX

noreturn void die(const char *what, const char *detail);

/* chip.c: the simulated controller. */
extern avr_t *chip;
void chip_load(const char *elf, const char *mcu, unsigned heap);
void chip_run_to(avr_cycle_count_t limit);
void chip_reset(uint8_t cause, unsigned hold_ms);
void chip_hang(void);
unsigned chip_resets(void);
unsigned chip_stack_used(void);

/* pins.c: drives and watches. */
struct pin {
  char port;
  uint8_t bit;
};
void pins_begin(const char *drives, const char *watches);
void pins_after_reset(void);
void pins_give(void);
bool pins_level(struct pin pin, bool let_go);
bool pins_are_outputs(char port, uint8_t bits);
bool pins_changed(avr_cycle_count_t *when, uint64_t *levels);
void pins_watch(uint64_t levels);

/* jtag.c: pins that are the JTAG port until the program switches it off. */
void jtag_begin(const char *mcu);
void jtag_after_reset(void);
bool jtag_is_on(void);
bool jtag_has(char port, uint8_t bit);

/* shift.c: channels behind shift registers. */
void shift_begin(const char *text);
void shift_power(void);
void shift_after_reset(void);
bool shift_is_used(void);
void shift_look(void);
void shift_watch(uint64_t levels);
uint64_t shift_drives(void);
unsigned shift_collisions(void);
unsigned long shift_loads(void);
avr_cycle_count_t shift_take_longest(void);

/* edges.c: what happened to the pins. */
void edges_note(char kind, avr_cycle_count_t cycle, uint64_t levels);
unsigned edges_write(const char *file);

/* uart.c: the chip's UART and the line at it. */
typedef void (*byte_taker)(uint8_t byte);
struct uart_stats {
  unsigned overruns;         /* bytes that the chip's receiver lost */
  unsigned garbled;          /* bytes either way while the chip was set for another rate */
  unsigned lost_sent;        /* bytes written where the transmitter had no room */
  unsigned long received;    /* bytes that came to the chip's pin */
  unsigned long sent;        /* bytes that left it */
  avr_cycle_count_t last_byte; /* when the last one came */
};
void uart_begin(byte_taker taker);
void uart_after_reset(void);
unsigned uart_room(void);
void uart_put(uint8_t byte);
bool uart_busy(void);
struct uart_stats uart_stats(void);

/* pty.c: the line ends in a pseudo-terminal. */
void pty_begin(const char *link);
int pty_fd(void);
void pty_poll(void);
void pty_send(uint8_t byte);

/* step.c: the line ends at the standard streams. */
void step_send(uint8_t byte);
bool step_stops(void);
void step_go(char *text);

/* talk.c: lines on the standard streams. */
typedef void (*command_taker)(char *line);
void talk_begin(command_taker taker);
__attribute__((format(printf, 1, 2))) void talk_say(const char *format, ...);
noreturn void talk_serve(void);
void talk_take_commands(int timeout_ms, int other_fd);
void talk_ask(const char *what, avr_cycle_count_t cycle, uint64_t levels, bool with_levels);
avr_cycle_count_t talk_next_due(void);

#endif
