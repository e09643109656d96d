package cardproof.firmware;

import java.util.stream.Collectors;
import java.util.stream.IntStream;
import java.util.stream.Stream;

/**
 * The chips that the reference firmware is built for, with the pins of their channels as {@code
 * firmware-notes/reference/boards.md} has them, lowest channel first, and what the chip has (data
 * sheets of the ATmega328P and ATmega2560: memory, flash, first address of memory).
 */
public enum Chip {
  M2560(
      "m2560",
      "atmega2560",
      pins("C", 0, 7) + pins("L", 0, 7) + "H0,H1,H3,H4,H5,H6,J0,J1,B4,B5,B6,G0,G1,G2,G5,E3",
      pins("F", 0, 7) + pins("K", 0, 7) + pins("A", 0, 7),
      8192,
      256 * 1024),
  M328P("m328p", "atmega328p", pins("D", 2, 7), pins("C", 0, 5) + "B0,B1", 2048, 32 * 1024);

  public final String target;
  final String controller;
  final String drivePins;
  final String watchPins;
  final int memoryBytes;
  final int flashBytes;

  Chip(
      String target,
      String controller,
      String drivePins,
      String watchPins,
      int memoryBytes,
      int flashBytes) {
    this.target = target;
    this.controller = controller;
    this.drivePins = drivePins;
    this.watchPins = watchPins;
    this.memoryBytes = memoryBytes;
    this.flashBytes = flashBytes;
  }

  public int drives() {
    return (int) Stream.of(drivePins.split(",")).count();
  }

  public int watches() {
    return (int) Stream.of(watchPins.split(",")).count();
  }

  private static String pins(String port, int from, int to) {
    return IntStream.rangeClosed(from, to)
        .mapToObj(bit -> port + bit + ",")
        .collect(Collectors.joining());
  }
}
