package cardproof.link;

/** Counts that only ever go up; {@link LinkCounters} says what they are. */
final class Tally {
  long framesSent;
  long bytesSent;
  long bytesReceived;
  long framesRefused;
  long nacks;
  long stepsResent;
  long resultsRead;
  long requestsRepeated;

  LinkCounters with(FrameParser parser) {
    return new LinkCounters(
        framesSent,
        bytesSent,
        parser.whole(),
        bytesReceived,
        parser.damaged(),
        framesRefused,
        nacks,
        stepsResent,
        resultsRead,
        requestsRepeated);
  }
}
