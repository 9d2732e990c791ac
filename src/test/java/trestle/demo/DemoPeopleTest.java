package trestle.demo;

import static org.assertj.core.api.Assertions.assertThat;

import java.util.List;
import java.util.Map;
import org.junit.jupiter.api.Test;

/** What is told of the demo's people can be read back after a loading that was cut short. */
class DemoPeopleTest {

  @Test
  void readsBackThePasswordsThatAreKnown() {
    String text =
        DemoPeople.text(
            List.of(
                new CastLoad.Invited("I. Tarn", "tarn", "owner", "7kq2m-aaaaa-bbbbb", true),
                new CastLoad.Invited("E. Quill", "quill", "controller", null, false)));

    assertThat(text).contains("I. Tarn, owner").contains("(as before)");
    assertThat(DemoPeople.passwords(text)).containsOnly(Map.entry("tarn", "7kq2m-aaaaa-bbbbb"));
  }
}
