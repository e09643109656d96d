#include "card.h"

#include <stdio.h>
#include <stdlib.h>
#include <string.h>

#include "board.h"

#define RULES_MOST 1024
#define NEVER UINT64_MAX

enum kind { FOLLOWS, INVERTS, OSCILLATES, IS };

struct rule {
  enum kind kind;
  uint8_t watch;
  uint8_t drive;
  uint64_t operate_us; /* from the drive's rise to the first edge, or half a swing */
  uint64_t release_us;
  uint64_t bounce_us;
  uint32_t bounces;
  bool level;
  uint32_t edges_left;
  uint64_t edge_at_us; /* the next edge, or NEVER */
};

static struct rule rules[RULES_MOST];
static int rule_count;
static uint64_t next_us = NEVER;
static int8_t forced[BOARD_WATCHES_MOST]; /* 0 free, 1 held at 0, 2 held at 1 */

static bool changed = true;

bool card_changed(void) {
  bool was = changed;
  changed = false;
  return was;
}

static void find_next(void) {
  changed = true;
  next_us = NEVER;
  for (int i = 0; i < rule_count; i++) {
    if (rules[i].edge_at_us < next_us) {
      next_us = rules[i].edge_at_us;
    }
  }
}

static void drive_rule(struct rule *rule, bool on, uint64_t now_us) {
  if (rule->kind == OSCILLATES) {
    rule->edge_at_us = on ? now_us + rule->operate_us : NEVER;
    rule->level = false;
    return;
  }
  bool target = rule->kind == INVERTS ? !on : on;
  if (rule->edge_at_us != NEVER) { /* on its way: what was not over does not happen */
    rule->edge_at_us = NEVER;
  }
  if (rule->level != target) {
    rule->edge_at_us = now_us + (on ? rule->operate_us : rule->release_us);
    rule->edges_left = 1 + 2 * rule->bounces;
  }
}

void card_drive(uint8_t drive, bool on, uint64_t now_us) {
  for (int i = 0; i < rule_count; i++) {
    if (rules[i].kind != IS && rules[i].drive == drive) {
      drive_rule(&rules[i], on, now_us);
    }
  }
  find_next();
}

static void edge(struct rule *rule) {
  rule->level = !rule->level;
  if (rule->kind == OSCILLATES) {
    rule->edge_at_us += rule->operate_us;
  } else if (--rule->edges_left > 0) {
    rule->edge_at_us += rule->bounce_us;
  } else {
    rule->edge_at_us = NEVER;
  }
}

void card_run(uint64_t now_us) {
  while (next_us <= now_us) {
    for (int i = 0; i < rule_count; i++) {
      if (rules[i].edge_at_us <= now_us) {
        edge(&rules[i]);
      }
    }
    find_next();
  }
}

void card_force(uint8_t watch, bool level) {
  forced[watch] = level ? 2 : 1;
  changed = true;
}

void card_free(uint8_t watch) {
  forced[watch] = 0;
  changed = true;
}

bool card_level(uint8_t watch) {
  if (forced[watch] != 0) {
    return forced[watch] == 2;
  }
  for (int i = 0; i < rule_count; i++) {
    if (rules[i].watch == watch && rules[i].level) {
      return true; /* several rules for a watch are a wired OR */
    }
  }
  return false;
}

/* The words of one line of the file, taken one after another. */
struct words {
  const char *rest;
};

static bool word(struct words *words, const char *wanted) {
  size_t length = strlen(wanted);
  const char *at = words->rest + strspn(words->rest, " \t");
  if (strncmp(at, wanted, length) != 0 || (at[length] != '\0' && strchr(" \t", at[length]) == NULL)) {
    return false;
  }
  words->rest = at + length;
  return true;
}

static bool number(struct words *words, unsigned long most, unsigned long *value) {
  char *end;
  const char *at = words->rest + strspn(words->rest, " \t");
  if (*at < '0' || *at > '9') {
    return false;
  }
  *value = strtoul(at, &end, 10);
  words->rest = end;
  return *value <= most;
}

static bool time_us(struct words *words, uint64_t *us) {
  unsigned long value;
  if (!number(words, 1000000000ul, &value)) {
    return false;
  }
  if (word(words, "us")) {
    *us = value;
  } else if (word(words, "ms")) {
    *us = (uint64_t)value * 1000u;
  } else {
    return false;
  }
  return true;
}

static bool channel(struct words *words, const char *kind, unsigned long count, uint8_t *index) {
  unsigned long value;
  if (!word(words, kind) || !number(words, count - 1, &value)) {
    return false;
  }
  *index = (uint8_t)value;
  return true;
}

static bool bounce(struct words *words, struct rule *rule) {
  unsigned long count;
  if (!word(words, "bounce")) {
    return true;
  }
  if (!number(words, 100000, &count) || !word(words, "x") || !time_us(words, &rule->bounce_us)) {
    return false;
  }
  rule->bounces = (uint32_t)count;
  return rule->bounce_us > 0;
}

static bool contact(struct words *words, struct rule *rule) {
  if (!channel(words, "drive", BOARD_DRIVES, &rule->drive) || !word(words, "after") ||
      !time_us(words, &rule->operate_us)) {
    return false;
  }
  rule->release_us = rule->operate_us;
  if (word(words, "release") && !time_us(words, &rule->release_us)) {
    return false;
  }
  return bounce(words, rule);
}

static bool read_rule(struct words *words, struct rule *rule) {
  unsigned long value;
  if (!channel(words, "watch", BOARD_WATCHES, &rule->watch)) {
    return false;
  }
  if (word(words, "follows")) {
    rule->kind = FOLLOWS;
    return contact(words, rule);
  }
  if (word(words, "inverts")) {
    rule->kind = INVERTS;
    rule->level = true;
    return contact(words, rule);
  }
  if (word(words, "oscillates")) {
    rule->kind = OSCILLATES;
    return time_us(words, &rule->operate_us) && rule->operate_us > 0 && word(words, "while") &&
           channel(words, "drive", BOARD_DRIVES, &rule->drive);
  }
  rule->kind = IS;
  if (!word(words, "is") || !number(words, 1, &value)) {
    return false;
  }
  rule->level = value == 1;
  return true;
}

bool card_load(const char *path) {
  char line[256];
  FILE *file = fopen(path, "r");
  if (file == NULL) {
    perror(path);
    return false;
  }
  rule_count = 0;
  next_us = NEVER;
  changed = true;
  bool well = true;
  for (int at = 1; well && fgets(line, sizeof line, file) != NULL; at++) {
    line[strcspn(line, "#\r\n")] = '\0';
    if (line[strspn(line, " \t")] == '\0') {
      continue;
    }
    struct words words = {line};
    struct rule rule = {.edge_at_us = NEVER};
    well = read_rule(&words, &rule) && words.rest[strspn(words.rest, " \t")] == '\0' &&
           rule_count < RULES_MOST;
    if (well) {
      rules[rule_count++] = rule;
    } else {
      fprintf(stderr, "%s:%d: not a rule of a card, from here on: '%s'\n", path, at, words.rest);
    }
  }
  fclose(file);
  return well;
}
