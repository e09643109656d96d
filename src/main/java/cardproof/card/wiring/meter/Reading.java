package cardproof.card.wiring.meter;

/**
 * What is expected between a pin and a rail of a card without power, every relay released.
 *
 * @param pin by which the line leaves the card
 * @param line its name
 * @param rail the net of the other lead
 * @param ohms on a meter's ohm range, whose voltage opens no diode: the same both ways round;
 *     infinite where nothing joins them
 * @param forwardVolts on the pin with the supply's voltage fed to it through {@link
 *     PrePower#FEED_OHMS}, its other lead on the rail; the full voltage where nothing joins them
 * @param reverseVolts the same with the leads exchanged, between rail and pin
 */
public record Reading(
    String pin, String line, String rail, double ohms, double forwardVolts, double reverseVolts) {}
