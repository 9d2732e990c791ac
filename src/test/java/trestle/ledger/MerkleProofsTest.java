package trestle.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import org.junit.jupiter.api.Test;
import trestle.ledger.MerkleSpans.Span;

/** Proofs over trees in memory, against the definitions and published paths. */
class MerkleProofsTest {
  private static final HexFormat HEX = HexFormat.of();

  /** The leaves of RFC 6962's reference tests. */
  private static final List<String> LEAVES =
      List.of(
          "",
          "00",
          "10",
          "2021",
          "3031",
          "40414243",
          "5051525354555657",
          "606162636465666768696a6b6c6d6e6f");

  private static final String ROOT_OF_8 =
      "5dc9da79a70659a9ad559cb701ded9a2ab9d823aad2f4960cfe370eff4604328";

  /** From memory of the reference tests of RFC 6962's authors: first leaf of eight. */
  @Test
  void thePathIsThePublishedOne() {
    Inclusion first = inclusion(published(), 1, 8);
    assertThat(first.path().stream().map(HEX::formatHex))
        .containsExactly(
            "96a296d224f285c67bee93c30f8a309157f0daa35dc5b87e410b78630a09cfc7",
            "5f083f0a1a33ca076a95279832580db3e0ef4584bdff1f54c8a360f50de3031e",
            "6b47aaf29ee3c2af9af889bc1fb9254dabd31177f16232dd6aab035ca39bf6e4");
    assertThat(HEX.formatHex(first.root())).isEqualTo(ROOT_OF_8);
  }

  /** RFC 6962, 2.1.3, of its example tree of seven leaves: PATH(0), PATH(3), PATH(4), PATH(6). */
  @Test
  void pathsAreThoseOfTheRfcsExample() {
    assertThat(MerkleSpans.inclusion(0, 7))
        .containsExactly(new Span(1, 2), new Span(2, 4), new Span(4, 7));
    assertThat(MerkleSpans.inclusion(3, 7))
        .containsExactly(new Span(2, 3), new Span(0, 2), new Span(4, 7));
    assertThat(MerkleSpans.inclusion(4, 7))
        .containsExactly(new Span(5, 6), new Span(6, 7), new Span(0, 4));
    assertThat(MerkleSpans.inclusion(6, 7)).containsExactly(new Span(4, 6), new Span(0, 4));
  }

  /** The same example: PROOF(3), PROOF(4), PROOF(6) of seven. */
  @Test
  void consistencyProofsAreThoseOfTheRfcsExample() {
    assertThat(MerkleSpans.consistency(3, 7))
        .containsExactly(new Span(2, 3), new Span(3, 4), new Span(0, 2), new Span(4, 7));
    assertThat(MerkleSpans.consistency(4, 7)).containsExactly(new Span(4, 7));
    assertThat(MerkleSpans.consistency(6, 7))
        .containsExactly(new Span(4, 6), new Span(6, 7), new Span(0, 4));
  }

  @Test
  void everyLeafOfEveryTreeIsProvenAndNoOther() {
    List<byte[]> leaves = numbered(70);
    for (int size = 1; size <= leaves.size(); size++) {
      byte[] root = root(leaves, 0, size);
      for (int seq = 1; seq <= size; seq++) {
        Inclusion right = inclusion(leaves, seq, size);
        assertThat(right.root()).as("%s of %s", seq, size).isEqualTo(root);
        assertThat(rootOrNone(new Inclusion(seq % size + 1, size, right.leaf(), right.path())))
            .as("%s of %s at the next place", seq, size)
            .satisfies(other -> assertThat(right.size() == 1).isEqualTo(equal(other, root)));
      }
    }
  }

  @Test
  void everyTreeGrewFromEverySmallerOne() {
    List<byte[]> leaves = numbered(40);
    for (int size = 1; size <= leaves.size(); size++) {
      for (int old = 1; old <= size; old++) {
        Consistency right = consistency(leaves, old, size);
        byte[] oldRoot = root(leaves, 0, old);
        byte[] root = root(leaves, 0, size);
        assertThat(right.holds(oldRoot, root)).as("%s to %s", old, size).isTrue();
        assertThat(right.holds(flipped(oldRoot, 0), root)).isFalse();
        assertThat(right.holds(oldRoot, flipped(root, 31))).isFalse();
        for (int i = 0; i < right.path().size(); i++) {
          List<byte[]> path = new ArrayList<>(right.path());
          path.set(i, flipped(path.get(i), i));
          assertThat(new Consistency(old, size, path).holds(oldRoot, root)).isFalse();
          path.remove(i);
          assertThat(new Consistency(old, size, path).holds(oldRoot, root)).isFalse();
        }
        List<byte[]> longer = new ArrayList<>(right.path());
        longer.add(root);
        assertThat(new Consistency(old, size, longer).holds(oldRoot, root)).isFalse();
      }
    }
  }

  @Test
  void aPathTooLongOrTooShortLeadsNowhere() {
    Inclusion right = inclusion(published(), 3, 8);
    List<byte[]> longer = new ArrayList<>(right.path());
    longer.add(right.leaf());
    assertThatThrownBy(() -> new Inclusion(3, 8, right.leaf(), longer).root())
        .hasMessage("the path is longer than the size asks for");
    assertThatThrownBy(() -> new Inclusion(3, 8, right.leaf(), right.path().subList(0, 2)).root())
        .hasMessage("the path is shorter than the size asks for");
    assertThatThrownBy(() -> new Inclusion(9, 8, right.leaf(), right.path()).root())
        .hasMessage("record 9 is not one of the 8 that the head counts");
  }

  private static List<byte[]> published() {
    return LEAVES.stream().map(HEX::parseHex).map(MerkleFrontier::leaf).toList();
  }

  static List<byte[]> numbered(int count) {
    List<byte[]> leaves = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      leaves.add(MerkleFrontier.leaf(new byte[] {(byte) i, 1}));
    }
    return leaves;
  }

  static Inclusion inclusion(List<byte[]> leaves, int seq, int size) {
    return new Inclusion(
        seq,
        size,
        leaves.get(seq - 1),
        MerkleSpans.inclusion(seq - 1, size).stream().map(span -> root(leaves, span)).toList());
  }

  static Consistency consistency(List<byte[]> leaves, int old, int size) {
    return new Consistency(
        old,
        size,
        MerkleSpans.consistency(old, size).stream().map(span -> root(leaves, span)).toList());
  }

  private static byte[] root(List<byte[]> leaves, Span span) {
    return root(leaves, (int) span.from(), (int) span.to());
  }

  /** RFC 6962, 2.1, word for word. */
  static byte[] root(List<byte[]> leaves, int from, int to) {
    if (to - from == 1) {
      return leaves.get(from);
    }
    int split = from + Integer.highestOneBit(to - from - 1);
    return MerkleFrontier.node(root(leaves, from, split), root(leaves, split, to));
  }

  private static byte[] rootOrNone(Inclusion inclusion) {
    try {
      return inclusion.root();
    } catch (IllegalArgumentException e) {
      return new byte[0];
    }
  }

  private static boolean equal(byte[] one, byte[] other) {
    return java.util.Arrays.equals(one, other);
  }

  private static byte[] flipped(byte[] bytes, int at) {
    byte[] other = bytes.clone();
    other[at % other.length] ^= 1;
    return other;
  }
}
