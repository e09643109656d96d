package cardproof.firmware;

import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.IntStream;

/**
 * The chips that the reference firmware is built for, with the pins of their channels as {@code
 * firmware-notes/reference/boards.md} has them, lowest channel first, and what the chip has (data
 * sheets of the ATmega328P and ATmega2560: memory, flash, first address of memory).
 */
public enum Chip {
  M2560(
      "m2560",
      "atmega2560",
      List.of(
          "--drives",
          pins("C", 0, 7) + pins("L", 0, 7) + "H0,H1,H3,H4,H5,H6,J0,J1,B4,B5,B6,G0,G1,G2,G5,E3",
          "--watches",
          pins("F", 0, 7) + pins("K", 0, 7) + pins("A", 0, 7)),
      32,
      24,
      8192,
      256 * 1024),
  M328P(
      "m328p",
      "atmega328p",
      List.of("--drives", pins("D", 2, 7), "--watches", pins("C", 0, 5) + "B0,B1"),
      6,
      8,
      2048,
      32 * 1024),
  /** Latch, load and enable pin, then how many latches and how many registers. */
  M328P_SHIFT(
      "m328p-shift", "atmega328p", List.of("--shift", "B2,D2,D3,3,3"), 24, 24, 2048, 32 * 1024);

  public final String target;
  final String controller;
  final List<String> channels;
  final int drives;
  final int watches;
  final int memoryBytes;
  final int flashBytes;

  Chip(
      String target,
      String controller,
      List<String> channels,
      int drives,
      int watches,
      int memoryBytes,
      int flashBytes) {
    this.target = target;
    this.controller = controller;
    this.channels = channels;
    this.drives = drives;
    this.watches = watches;
    this.memoryBytes = memoryBytes;
    this.flashBytes = flashBytes;
  }

  public int drives() {
    return drives;
  }

  public int watches() {
    return watches;
  }

  private static String pins(String port, int from, int to) {
    return IntStream.rangeClosed(from, to)
        .mapToObj(bit -> port + bit + ",")
        .collect(Collectors.joining());
  }
}
