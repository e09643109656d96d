package cardproof.link;

/**
 * What went over a link since it was connected, for diagnosis. Beats that the wire repeats by
 * itself are not in it.
 *
 * @param framesSent by the host, repeats included
 * @param bytesSent on the line
 * @param framesReceived whole
 * @param bytesReceived on the line
 * @param framesDamaged dropped by the host
 * @param framesRefused whole, but not understood by the host
 * @param nacks from the fixture
 * @param stepsResent STEPs sent again
 * @param resultsRead results asked for with READ
 * @param requestsRepeated other requests sent again
 */
public record LinkCounters(
    long framesSent,
    long bytesSent,
    long framesReceived,
    long bytesReceived,
    long framesDamaged,
    long framesRefused,
    long nacks,
    long stepsResent,
    long resultsRead,
    long requestsRepeated) {}
