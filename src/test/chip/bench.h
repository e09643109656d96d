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
void pins_begin(const char *drives, const char *watches);
void pins_after_reset(void);
bool pins_changed(avr_cycle_count_t *when, uint64_t *levels);
void pins_watch(uint64_t levels);

/* edges.c: what happened to the pins. */
void edges_note(char kind, avr_cycle_count_t cycle, uint64_t levels);
unsigned edges_write(const char *file);

/* uart.c: the serial line. */
void uart_begin(const char *link);
void uart_after_reset(void);
int uart_fd(void);
void uart_poll(void);
bool uart_busy(void);
avr_cycle_count_t uart_last_byte(void);
void uart_stats(unsigned *overruns, unsigned long *received, unsigned long *sent);

/* talk.c: lines on the standard streams. */
typedef void (*command_taker)(char *line);
void talk_begin(command_taker taker);
__attribute__((format(printf, 1, 2))) void talk_say(const char *format, ...);
void talk_take_commands(int timeout_ms, int other_fd);
void talk_ask(const char *what, avr_cycle_count_t cycle, uint64_t levels, bool with_levels);
avr_cycle_count_t talk_next_due(void);

#endif
