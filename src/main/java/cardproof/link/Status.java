package cardproof.link;

import java.util.BitSet;

/**
 * How the fixture is.
 *
 * @param chattering the watch that chattered, 255 where none
 * @param next number of the step it accepts next
 * @param finished first step without a result
 * @param acked first step not acknowledged
 * @param nowUs the fixture's clock
 * @param on drives that are on at this moment
 * @param levels watches at this moment
 * @param stirred watched lines that changed since the last step ended
 */
public record Status(
    FixtureState state,
    DropCause cause,
    int chattering,
    int boot,
    int next,
    int finished,
    int acked,
    long nowUs,
    long framesWhole,
    long framesDamaged,
    BitSet on,
    BitSet levels,
    BitSet stirred)
    implements Message {}
