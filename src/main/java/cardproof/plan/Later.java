package cardproof.plan;

import java.util.List;

/**
 * What a step with a sequence sets in the course of its vector.
 *
 * @param atUs microseconds from the start of the vector, on the fixture's clock
 */
public record Later(long atUs, List<Setting> settings) {
  public Later {
    settings = List.copyOf(settings);
  }
}
