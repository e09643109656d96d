/*
 * The scripted card: what its lines do is said in a file, one rule a line; README.md has the grammar.
 * Times are microseconds since the program started.
 */
#ifndef BENCH_HOST_CARD_H
#define BENCH_HOST_CARD_H

#include <stdbool.h>
#include <stdint.h>

/* Reads the rules of a file in place of those there are; says on standard error what is wrong. */
bool card_load(const char *path);

/* The drive has this level from now on. */
void card_drive(uint8_t drive, bool on, uint64_t now_us);

/* Lets the card's time run up to now. */
void card_run(uint64_t now_us);

/* Holds a watch at a level whatever the rules say, or lets it go. */
void card_force(uint8_t watch, bool level);
void card_free(uint8_t watch);

bool card_level(uint8_t watch);

/* True when a level may have changed since the last call. */
bool card_changed(void);

#endif
