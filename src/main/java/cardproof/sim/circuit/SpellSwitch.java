package cardproof.sim.circuit;

/**
 * A connection that a fault makes or breaks while it is present.
 *
 * @param firstNet number of a net of the wiring
 * @param secondNet another
 * @param closedWhilePresent true for a bridge, false for a joint that opens
 */
public record SpellSwitch(int firstNet, int secondNet, boolean closedWhilePresent, Spell spell) {}
