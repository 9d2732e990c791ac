package trestle.ledger;

import static org.assertj.core.api.Assertions.assertThat;

import java.nio.charset.StandardCharsets;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.Random;
import org.junit.jupiter.api.Test;

/** Checked against the vectors published with RFC 6962's reference tests. */
class MerkleFrontierTest {
  private static final HexFormat HEX = HexFormat.of();
  private static final List<String> LEAVES = List.of("", "00", "10", "2021", "3031", "40414243");

  /** Roots of the first n leaves, n = 0, 2, 3, 4, 5. */
  private static final String[] ROOTS = {
    "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855",
    "6e340b9cffb37a989ca544e6bb780a2c78901d3fb33738768511a30617afa01d",
    "fac54203e7cc696cf0dfcb42c92a1d9dbaf70ad9e621f4bd8d98662f00e3c125",
    "aeb6bcfe274b70a14fb067a5e5578264db0fa9b51af5e0ba159158f329e06e77",
    "d37ee418976dd95753c1c73862b9398fa2a2cf9b4ff0fdfe8b30cd95209614b7",
    "4e3bbb1f7b478dcfe71fb631631519a3bca12c9aefca1612bfce4c13a86264d4",
  };

  @Test
  void rootsAreThePublishedOnes() {
    MerkleFrontier edge = MerkleFrontier.EMPTY;
    for (int size = 0; size < ROOTS.length; size++) {
      assertThat(HEX.formatHex(edge.root())).as("root of %s", size).isEqualTo(ROOTS[size]);
      edge = edge.append(MerkleFrontier.leaf(HEX.parseHex(LEAVES.get(size))));
    }
  }

  @Test
  void leafAndNodeHashesAreThePublishedOnes() {
    assertThat(HEX.formatHex(MerkleFrontier.leaf(bytes("L123456"))))
        .isEqualTo("395aa064aa4c29f7010acfe3f25db9485bbd4b91897b6ad7ad547639252b4d56");
    assertThat(HEX.formatHex(MerkleFrontier.node(bytes("N123"), bytes("N456"))))
        .isEqualTo("aa217fe888e47007fa15edab33c2b492a722cb106c64667fc2b044444de66bbb");
  }

  @Test
  void appendingOneByOneGivesTheRecursiveDefinitionsRoot() {
    Random random = new Random(6962);
    List<byte[]> leaves = new ArrayList<>();
    MerkleFrontier edge = MerkleFrontier.EMPTY;
    for (int size = 1; size <= 300; size++) {
      byte[] data = new byte[random.nextInt(40)];
      random.nextBytes(data);
      leaves.add(MerkleFrontier.leaf(data));
      edge = MerkleFrontier.of(edge.size(), edge.bytes()).append(leaves.get(size - 1));
      assertThat(edge.root()).as("root of %s", size).isEqualTo(recursive(leaves));
    }
  }

  /** RFC 6962, 2.1, word for word: split at the largest power of two below n. */
  private static byte[] recursive(List<byte[]> leaves) {
    if (leaves.size() == 1) {
      return leaves.get(0);
    }
    int split = Integer.highestOneBit(leaves.size() - 1);
    return MerkleFrontier.node(
        recursive(leaves.subList(0, split)), recursive(leaves.subList(split, leaves.size())));
  }

  private static byte[] bytes(String text) {
    return text.getBytes(StandardCharsets.UTF_8);
  }
}
