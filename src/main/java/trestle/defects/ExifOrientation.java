package trestle.defects;

import java.nio.ByteBuffer;
import java.nio.ByteOrder;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;

/**
 * Which way up a JPEG says it was taken: tag 0x0112 of the first directory of its EXIF segment
 * (CIPA DC-008); 1, upright, where it says nothing or nonsense.
 */
final class ExifOrientation {
  private static final int UPRIGHT = 1;
  private static final int TAG = 0x0112;
  private static final byte[] EXIF = "Exif\0\0".getBytes(StandardCharsets.US_ASCII);

  private ExifOrientation() {}

  static int of(byte[] file) {
    try {
      ByteBuffer tiff = tiff(file);
      return tiff == null ? UPRIGHT : orientation(tiff);
    } catch (RuntimeException e) {
      // A directory that points outside of its segment: as good as none.
      return UPRIGHT;
    }
  }

  private static ByteBuffer tiff(byte[] file) {
    int at = 2;
    while (at + 4 <= file.length && (file[at] & 0xff) == 0xff) {
      int marker = file[at + 1] & 0xff;
      if (marker == 0xda || marker == 0xd9) {
        return null;
      }
      int length = (file[at + 2] & 0xff) << 8 | file[at + 3] & 0xff;
      int content = at + 4;
      int end = at + 2 + length;
      if (marker == 0xe1
          && end <= file.length
          && Arrays.equals(file, content, content + EXIF.length, EXIF, 0, EXIF.length)) {
        return ByteBuffer.wrap(Arrays.copyOfRange(file, content + EXIF.length, end));
      }
      at = end;
    }
    return null;
  }

  private static int orientation(ByteBuffer tiff) {
    tiff.order(tiff.getShort(0) == 0x4949 ? ByteOrder.LITTLE_ENDIAN : ByteOrder.BIG_ENDIAN);
    int directory = tiff.getInt(4);
    int entries = tiff.getShort(directory) & 0xffff;
    for (int i = 0; i < entries; i++) {
      int entry = directory + 2 + 12 * i;
      if ((tiff.getShort(entry) & 0xffff) == TAG) {
        int value = tiff.getShort(entry + 8) & 0xffff;
        return value >= 1 && value <= 8 ? value : UPRIGHT;
      }
    }
    return UPRIGHT;
  }
}
