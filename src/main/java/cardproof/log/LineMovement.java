package cardproof.log;

/**
 * A moved line together with the vector it moved in.
 *
 * @param vector number of the vector
 * @param moved what the line did
 */
public record LineMovement(long vector, MovedLine moved) {}
