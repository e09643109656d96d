package cardproof.conformance;

/** Types of frames, sections 5 and 9. */
final class Type {
  static final int HELLO = 0x01;
  static final int OPEN = 0x02;
  static final int ARM = 0x03;
  static final int STOP = 0x04;
  static final int RESUME = 0x05;
  static final int STEP = 0x06;
  static final int BEAT = 0x07;
  static final int READ = 0x08;
  static final int SEQUENCE = 0x10;
  static final int READ_EDGES = 0x14;
  static final int SUPPLY = 0x18;
  static final int READ_SENSE = 0x19;
  static final int HELLO_R = 0x81;
  static final int STATUS = 0x82;
  static final int RESULT = 0x83;
  static final int NACK = 0x84;
  static final int EDGES = 0x94;
  static final int SUPPLY_R = 0x98;
  static final int SENSE = 0x99;

  private Type() {}
}
