package cardproof.pty;

import cardproof.card.Card;
import cardproof.card.fault.Fault;
import cardproof.card.fault.FaultNames;
import cardproof.files.CardFile;
import cardproof.link.Capability;
import cardproof.link.HelloReply;
import cardproof.sim.SimSettings;
import cardproof.sim.line.LineFault;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.function.UnaryOperator;

/**
 * Makes a {@link PacedBoard} that prints its journal. Arguments, each {@code key=value}: {@code
 * card} a card file, {@code fault}, {@code seed}, {@code slots}, {@code delayUs} each way, {@code
 * resetAfter} so many results, {@code rate} of its clock, {@code board} its name, {@code major} the
 * protocol it claims, {@code simulated} whether it owns up to having no real lines.
 */
public final class BoardMaker implements DeviceMaker {
  private static final int SLOTS = 4;

  @Override
  public Device make(String... arguments) {
    Card card = CardFile.read(Path.of(one("card", "", arguments))).value();
    List<Fault> faults = new ArrayList<>();
    List<LineFault> lineFaults = new ArrayList<>();
    for (String fault : all("fault", arguments)) {
      if (LineFault.isOne(fault)) {
        lineFaults.add(LineFault.parse(fault));
      } else {
        faults.add(FaultNames.parse(fault, card));
      }
    }
    SimSettings settings =
        new SimSettings(
            Long.parseLong(one("seed", "1", arguments)),
            "bench",
            faults,
            Integer.parseInt(one("slots", String.valueOf(SLOTS), arguments)),
            SimSettings.DEFAULT_SAMPLING_NS,
            Long.parseLong(one("delayUs", "0", arguments)),
            lineFaults,
            one("board", "Gull Point board", arguments));
    return new PacedBoard(
        card,
        settings,
        introduction(arguments),
        Integer.parseInt(one("resetAfter", String.valueOf(Integer.MAX_VALUE), arguments)),
        Double.parseDouble(one("rate", "1", arguments)),
        new JournalWriter(System.out));
  }

  private static UnaryOperator<HelloReply> introduction(String... arguments) {
    boolean simulated = Boolean.parseBoolean(one("simulated", "false", arguments));
    String major = one("major", "", arguments);
    return r ->
        new HelloReply(
            major.isEmpty() ? r.major() : Integer.parseInt(major),
            r.minor(),
            r.firmware(),
            r.resetCause(),
            r.boot(),
            r.boardId(),
            r.drives(),
            r.watches(),
            r.slots(),
            r.longestFrame(),
            r.periodNs(),
            r.blindUs(),
            simulated ? r.capabilities() : r.capabilities() & ~Capability.SIMULATED.bit(),
            r.board(),
            r.session());
  }

  private static String one(String key, String otherwise, String... arguments) {
    List<String> values = all(key, arguments);
    return values.isEmpty() ? otherwise : values.get(values.size() - 1);
  }

  private static List<String> all(String key, String... arguments) {
    return List.of(arguments).stream()
        .filter(argument -> argument.startsWith(key + "="))
        .map(argument -> argument.substring(key.length() + 1))
        .toList();
  }
}
