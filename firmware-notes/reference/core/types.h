/* Numbers of messages, and what version is spoken. */
#ifndef BENCH_TYPES_H
#define BENCH_TYPES_H

enum type {
  TYPE_HELLO = 0x01,
  TYPE_OPEN = 0x02,
  TYPE_ARM = 0x03,
  TYPE_STOP = 0x04,
  TYPE_RESUME = 0x05,
  TYPE_STEP = 0x06,
  TYPE_BEAT = 0x07,
  TYPE_READ = 0x08,
  TYPE_SEQUENCE = 0x10,
  TYPE_READ_EDGES = 0x14,
  TYPE_HELLO_R = 0x81,
  TYPE_STATUS = 0x82,
  TYPE_RESULT = 0x83,
  TYPE_NACK = 0x84,
  TYPE_EDGES = 0x94
};

#define PROTOCOL_MAJOR 1u
#define PROTOCOL_MINOR 1u /* the highest that is spoken */

#endif
