package trestle.records;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.file.Files;
import java.nio.file.Path;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import trestle.ledger.SomeProof;

/** docs/check-proof.sh against the vectors that this program's own checker is held to. */
class IndependentCheckerTest {
  private static final HexFormat HEX = HexFormat.of();

  @TempDir Path directory;

  /** RFC 6962's reference tests: roots of the first n leaves. */
  @Test
  void itsTreesAreThePublishedOnes() throws Exception {
    String[][] leavesAndRoots = {
      {"", "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d"},
      {"00", "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125"},
      {"10", "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77"},
      {"2021", "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7"},
      {"3031", "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4"}
    };
    List<String> arguments = new ArrayList<>(List.of("--root"));
    for (String[] each : leavesAndRoots) {
      arguments.add(file("leaf" + arguments.size(), HEX.parseHex(each[0])));
      assertThat(Shell.check(arguments.toArray(String[]::new)).said().strip()).isEqualTo(each[1]);
    }
  }

  /** RFC 8032, 7.1, test 3. */
  @Test
  void itsSignaturesAreThePublishedOnes() throws Exception {
    byte[] signature =
        HEX.parseHex(
            "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac"
                + "18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a");
    String key =
        file(
            "key",
            HEX.parseHex("fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025"));
    String message = file("message", HEX.parseHex("af82"));
    assertThat(Shell.check("--signature", key, message, file("right", signature)).code()).isZero();
    signature[0] ^= 1;
    assertThat(Shell.check("--signature", key, message, file("wrong", signature)).code())
        .isEqualTo(1);
  }

  @Test
  void itAcceptsWhatHoldsHoweverItWasCopied() throws Exception {
    for (int[] each : new int[][] {{1, 1}, {1, 2}, {2, 3}, {3, 13}, {13, 13}, {7, 8}}) {
      String proof = SomeProof.text(each[0], each[1]);
      Shell.Answer answer = Shell.check(proof);
      assertThat(answer.code()).as("%s of %s: %s", each[0], each[1], answer.said()).isZero();
    }
    String proof = SomeProof.text();
    assertThat(Shell.check("HTTPS://TRESTLE.EXAMPLE.ORG/P/" + proof).code()).isZero();
    assertThat(Shell.check(proof.replaceAll("(.{60})", "$1\n") + "(end)").code()).isZero();
    String head = proof.replace("PROOF", "HEAD").replaceFirst("(\\.[^.]*){3}$", "");
    assertThat(Shell.check(head).code()).isZero();
    assertThat(Shell.check("--record", file("record", new byte[] {2, 1}), proof).code()).isZero();
    assertThat(Shell.check("--record", file("record", new byte[] {3, 1}), proof).code())
        .isEqualTo(1);
  }

  @Test
  void itRefusesWhateverIsChanged() throws Exception {
    List<String> fields = List.of(SomeProof.text(3, 13).split("\\."));
    for (int i = 0; i < fields.size(); i++) {
      List<String> changed = new ArrayList<>(fields);
      changed.set(i, otherwise(fields.get(i)));
      Shell.Answer answer = Shell.check(String.join(".", changed));
      assertThat(answer.code()).as("field %s: %s", i, answer.said()).isNotZero();
      changed.remove(i);
      assertThat(Shell.check(String.join(".", changed)).code()).as("without %s", i).isEqualTo(2);
    }
    String path = fields.get(9);
    for (int step = 0; step < path.length(); step += 52) {
      List<String> changed = new ArrayList<>(fields);
      changed.set(9, path.substring(0, step) + path.substring(step + 52));
      assertThat(Shell.check(String.join(".", changed)).code()).isEqualTo(1);
    }
    assertThat(Shell.check("hello").code()).isEqualTo(2);
  }

  @Test
  void itTakesOneWayOfWritingAlone() throws Exception {
    for (String text : SomeProof.writtenOtherwise()) {
      assertThat(Shell.check(text).code()).as(text).isNotZero();
    }
  }

  /** Its last letter or digit but two, turned into the next. */
  private static String otherwise(String field) {
    int at = field.length() - 3 < 0 ? field.length() - 1 : field.length() - 3;
    String order = "ABCDEFGHIJKLMNOPQRSTUVWXYZ234567A0123456789 ";
    char next = order.charAt(order.indexOf(field.charAt(at)) + 1);
    return field.substring(0, at) + (next == ' ' ? '8' : next) + field.substring(at + 1);
  }

  private String file(String name, byte[] bytes) throws Exception {
    return Files.write(directory.resolve(name), bytes).toString();
  }
}
