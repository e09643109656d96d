package cardproof.report;

import cardproof.card.Card;
import cardproof.card.Line;
import cardproof.card.wiring.Net;
import cardproof.text.Nearest;
import cardproof.text.Problem;
import cardproof.text.RefusedException;
import java.util.ArrayList;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Set;
import java.util.TreeSet;
import java.util.regex.Pattern;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** Picks nets of a card by their names, in which {@code *} stands for any letters or none. */
public final class NetChoice {
  private NetChoice() {}

  /**
   * @param option where the names were given, for what is said of them
   * @param lists names with commas between them
   * @return numbers of nets in the card's wiring that are no lines, rising; lines of the card may
   *     be named, and need not be picked
   * @throws RefusedException where a name fits no net, for each of them
   */
  public static List<Integer> of(Card card, String option, List<String> lists) {
    List<String> lines = card.lines().stream().map(Line::name).toList();
    List<String> nets =
        card.wiring().map(w -> w.nets().stream().map(Net::name).toList()).orElse(List.of());
    Set<String> all = new LinkedHashSet<>(lines);
    all.addAll(nets);
    Set<Integer> lineNets = card.wiring().map(w -> Set.copyOf(w.lineNets())).orElse(Set.of());
    Set<Integer> chosen = new TreeSet<>();
    List<Problem> problems = new ArrayList<>();
    for (String name : names(lists)) {
      Pattern pattern = pattern(name);
      for (int net = 0; net < nets.size(); net++) {
        if (!lineNets.contains(net) && pattern.matcher(nets.get(net)).matches()) {
          chosen.add(net);
        }
      }
      if (all.stream().noneMatch(known -> pattern.matcher(known).matches())) {
        problems.add(unknown(card, option, name, all));
      }
    }
    if (!problems.isEmpty()) {
      throw new RefusedException(problems);
    }
    return List.copyOf(chosen);
  }

  private static List<String> names(List<String> lists) {
    return lists.stream()
        .flatMap(list -> Stream.of(list.split(",")))
        .map(String::trim)
        .filter(name -> !name.isEmpty())
        .toList();
  }

  private static Pattern pattern(String name) {
    return Pattern.compile(
        Stream.of(name.split("\\*", -1)).map(Pattern::quote).collect(Collectors.joining(".*")));
  }

  /** Near names are looked for among those with any index, too, as one is most likely meant. */
  private static Problem unknown(Card card, String option, String name, Set<String> all) {
    Set<String> known = new LinkedHashSet<>();
    if (name.indexOf('*') >= 0) {
      all.forEach(one -> known.add(one.replaceAll("\\[\\d+]", "[*]")));
    }
    known.addAll(all);
    String found =
        card.wiring().isPresent()
            ? "card " + card.name() + " has no net '" + name + "'"
            : "card "
                + card.name()
                + " has no line '"
                + name
                + "', and its file does not say how it is wired";
    return new Problem(option, found, "names of its nets", Nearest.hint(name, known));
  }
}
