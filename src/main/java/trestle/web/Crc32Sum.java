package trestle.web;

/**
 * The CRC-32 of two texts one after the other, from theirs. Appending a zero bit is a linear map of
 * the 32 bits of a CRC; so n zero bytes are that map raised to the power 8n, by squaring.
 */
final class Crc32Sum {
  /** The polynomial of RFC 1952, bits in reverse. */
  private static final int POLYNOMIAL = 0xedb88320;

  private Crc32Sum() {}

  /**
   * @param length of the second text, in bytes
   */
  static long combined(long first, long second, long length) {
    int crc = (int) first;
    int[] power = square(square(square(oneZeroBit())));
    for (long bytes = length; bytes > 0; bytes >>= 1) {
      if ((bytes & 1) == 1) {
        crc = times(power, crc);
      }
      power = square(power);
    }
    return (crc ^ (int) second) & 0xffffffffL;
  }

  /** Column i is what the map makes of bit i. */
  private static int[] oneZeroBit() {
    int[] map = new int[32];
    map[0] = POLYNOMIAL;
    for (int bit = 1; bit < 32; bit++) {
      map[bit] = 1 << (bit - 1);
    }
    return map;
  }

  private static int[] square(int[] map) {
    int[] twice = new int[32];
    for (int bit = 0; bit < 32; bit++) {
      twice[bit] = times(map, map[bit]);
    }
    return twice;
  }

  private static int times(int[] map, int bits) {
    int sum = 0;
    for (int bit = 0, left = bits; left != 0; bit++, left >>>= 1) {
      if ((left & 1) == 1) {
        sum ^= map[bit];
      }
    }
    return sum;
  }
}
