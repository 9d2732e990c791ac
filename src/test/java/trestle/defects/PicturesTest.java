package trestle.defects;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.awt.Color;
import java.awt.image.BufferedImage;
import java.io.ByteArrayInputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import javax.imageio.ImageIO;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;

/** What becomes of the files that people send as photos. */
class PicturesTest {
  private static final String PLACE = "GPS 47.5615 N 52.7126 W";

  @Test
  void onlyThePictureIsKeptAndNotWhereItWasTaken() {
    byte[] sent = Snaps.withExif(Snaps.jpeg(400, 300), 1, PLACE);
    assertThat(text(sent)).contains(PLACE);
    Picture picture = Pictures.of(sent);
    assertThat(text(picture.bytes())).doesNotContain(PLACE, "Exif", "GPS");
    assertThat(text(picture.thumbnail())).doesNotContain(PLACE, "Exif", "GPS");
    assertThat(List.of(picture.width(), picture.height())).containsExactly(400, 300);
  }

  @Test
  void whatHangsOnAfterThePictureIsGone() {
    byte[] jpeg = Snaps.jpeg(40, 30);
    byte[] script = "<script>alert(1)</script>".getBytes(StandardCharsets.UTF_8);
    byte[] both = Arrays.copyOf(jpeg, jpeg.length + script.length);
    System.arraycopy(script, 0, both, jpeg.length, script.length);
    assertThat(text(Pictures.of(both).bytes())).doesNotContain("script");
  }

  /**
   * Where the upper left corner of the stored pixels, which is red, comes to lie. Orientations:
   * CIPA DC-008 (EXIF), table of tag 274, from memory.
   */
  @ParameterizedTest
  @CsvSource({
    "1, 400, 200, left, top",
    "2, 400, 200, right, top",
    "3, 400, 200, right, bottom",
    "4, 400, 200, left, bottom",
    "5, 200, 400, left, top",
    "6, 200, 400, right, top",
    "7, 200, 400, right, bottom",
    "8, 200, 400, left, bottom",
  })
  void aPictureIsTurnedUpright(int orientation, int width, int height, String x, String y)
      throws IOException {
    Picture picture = Pictures.of(Snaps.withExif(Snaps.jpeg(400, 200), orientation, PLACE));
    assertThat(List.of(picture.width(), picture.height())).containsExactly(width, height);
    BufferedImage image = ImageIO.read(new ByteArrayInputStream(picture.bytes()));
    int column = x.equals("left") ? width / 4 : width * 3 / 4;
    int row = y.equals("top") ? height / 4 : height * 3 / 4;
    assertThat(isRed(image, column, row)).isTrue();
    assertThat(isRed(image, width - column, height - row)).isFalse();
  }

  @ParameterizedTest
  @ValueSource(
      strings = {
        "<script>alert(1)</script>",
        "<!doctype html><title>x</title>",
        "<svg xmlns=\"http://www.w3.org/2000/svg\"><script>x</script></svg>",
        "#!/bin/sh\nrm -rf /\n",
        "GIF89a nothing else",
        "RIFF....WEBPVP8 ",
        "",
        "x"
      })
  void whatIsNoPictureIsRefusedWhateverItIsCalled(String content) {
    assertThatThrownBy(() -> Pictures.of(content.getBytes(StandardCharsets.ISO_8859_1)))
        .isInstanceOf(IllegalArgumentException.class)
        .hasMessage("is not a picture that can be kept: send it as JPEG or PNG");
  }

  @Test
  void aScriptWithTheFirstBytesOfAPictureIsRefused() {
    byte[] script = "xxx<script>alert(1)</script>".getBytes(StandardCharsets.ISO_8859_1);
    script[0] = (byte) 0xff;
    script[1] = (byte) 0xd8;
    script[2] = (byte) 0xff;
    assertThatThrownBy(() -> Pictures.of(script)).hasMessageStartingWith("is damaged");
  }

  @Test
  void aFileCutOffAnywhereNeverFailsOtherwise() {
    byte[] jpeg = Snaps.withExif(Snaps.jpeg(64, 48), 6, PLACE);
    byte[] png = Snaps.png(64, 48);
    for (byte[] whole : List.of(jpeg, png)) {
      for (int length = 0; length < whole.length; length += 7) {
        byte[] cut = Arrays.copyOf(whole, length);
        try {
          assertThat(Pictures.of(cut).width()).isPositive();
        } catch (IllegalArgumentException told) {
          assertThat(told.getMessage()).isNotBlank();
        }
      }
    }
  }

  @Test
  void aPictureOfTooManyPixelsIsRefusedUnread() {
    assertThatThrownBy(() -> Pictures.of(Snaps.pngClaiming(30_000, 30_000)))
        .hasMessageContaining("80 million pixels");
  }

  @Test
  void aLargePictureBecomesSmallerAndItsThumbnailSmallerStill() throws IOException {
    Picture picture = Pictures.of(Snaps.jpeg(5_000, 2_500));
    assertThat(List.of(picture.width(), picture.height())).containsExactly(4_096, 2_048);
    BufferedImage thumbnail = ImageIO.read(new ByteArrayInputStream(picture.thumbnail()));
    assertThat(List.of(thumbnail.getWidth(), thumbnail.getHeight())).containsExactly(320, 160);
  }

  @Test
  void theSameFileGivesTheSamePicture() {
    assertThat(Pictures.of(Snaps.png(90, 60)).bytes())
        .isEqualTo(Pictures.of(Snaps.png(90, 60)).bytes());
  }

  private static boolean isRed(BufferedImage image, int x, int y) {
    Color colour = new Color(image.getRGB(x, y));
    return colour.getRed() > 180 && colour.getBlue() < 80;
  }

  private static String text(byte[] bytes) {
    return new String(bytes, StandardCharsets.ISO_8859_1);
  }
}
