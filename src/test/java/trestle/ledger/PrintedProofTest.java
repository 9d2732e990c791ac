package trestle.ledger;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import trestle.formats.Base32;

/** A checker that skips a part of the proof is worth nothing: every field is changed here. */
class PrintedProofTest {
  private static final HexFormat HEX = HexFormat.of();
  private static final UUID OPERATOR = UUID.fromString("01890a5d-ac96-774b-bcce-b302099a8057");
  private static final UUID SHORT_NODE = UUID.fromString("01890a5d-ac96-774b-bcce-0302099a8057");
  private static final Instant AT = Instant.parse("2026-03-12T09:30:00Z");

  /** RFC 8032, 7.1, tests 1 to 3: secret, public, message, signature. */
  private static final String[][] RFC_8032 = {
    {
      "9d61b19deffd5a60ba844af492ec2cc44449c5697b326919703bac031cae7f60",
      "d75a980182b10ab7d54bfed3c964073a0ee172f3daa62325af021a68f707511a",
      "",
      "e5564300c360ac729086e2cc806e828a84877f1eb8e5d974d873e065224901555"
          + "fb8821590a33bacc61e39701cf9b46bd25bf5f0595bbe24655141438e7a100b"
    },
    {
      "4ccd089b28ff96da9db6c346ec114e0f5b8a319f35aba624da8cf6ed4fb8a6fb",
      "3d4017c3e843895a92b70aa74d1b7ebc9c982ccf2ec4968cc0cd55f12af4660c",
      "72",
      "92a009a9f0d4cab8720e820b5f642540a2b27b5416503f8fb3762223ebdb69da"
          + "085ac1e43e15996e458f3613d0f11d8c387b2eaeb4302aeeb00d291612bb0c00"
    },
    {
      "c5aa8df43f9f837bedb7442f31dcb7b166d38535076f094b85ce3a2e0b4458f7",
      "fc51cd8e6218a1a38da47ed00230f0580816ed13ba3303ac5deb911548908025",
      "af82",
      "6291d657deec24024827e69c3abe01a30ce548a284743a445e3680d7db5ac3ac"
          + "18ff9b538d16f290ae67f760984dc6594a7c15e9716ed28dc027beceea1ec40a"
    }
  };

  @Test
  void signaturesAreThePublishedOnes() {
    for (String[] vector : RFC_8032) {
      byte[] message = HEX.parseHex(vector[2]);
      byte[] signature = Ed25519.sign(HEX.parseHex(vector[0]), message);
      assertThat(HEX.formatHex(signature)).isEqualTo(vector[3]);
      assertThat(Ed25519.verify(HEX.parseHex(vector[1]), message, signature)).isTrue();
      signature[3] ^= 4;
      assertThat(Ed25519.verify(HEX.parseHex(vector[1]), message, signature)).isFalse();
    }
  }

  @Test
  void aProofIsReadBackFromItsText() {
    PrintedProof proof = proof(3, 13);
    assertThat(proof.holds()).isTrue();
    assertThat(proof.text()).matches("[A-Z0-9.:-]+");
    PrintedProof read = PrintedProof.parse(proof.text());
    assertThat(read.text()).isEqualTo(proof.text());
    assertThat(read.holds()).isTrue();
    String wrapped = proof.text().replaceAll("(.{40})", "$1\n ");
    assertThat(PrintedProof.parse(wrapped).text()).isEqualTo(proof.text());
  }

  @Test
  void everyCharacterOfTheTextCounts() {
    String text = proof(7, 13).text();
    String others = "ABCDEFGHIJKLMNOPQRSTUVWXYZ0123456789.-:";
    for (int at = 0; at < text.length(); at++) {
      char other = others.charAt((others.indexOf(text.charAt(at)) + 1) % others.length());
      String changed = text.substring(0, at) + other + text.substring(at + 1);
      assertThat(isAccepted(changed)).as("%s at %s", other, at).isFalse();
      assertThat(isAccepted(text.substring(0, at) + text.substring(at + 1)))
          .as("without %s", at)
          .isFalse();
    }
    assertThat(isAccepted(text)).isTrue();
  }

  @Test
  void aProofIsWrittenInOneWayAlone() {
    for (String text : SomeProof.writtenOtherwise()) {
      assertThat(isAccepted(text)).as(text).isFalse();
    }
  }

  @Test
  void whatAKeySignedBesidesIsWrittenInOneWayAlone() {
    SignedText bare =
        new SignedText(
            "TRESTLE-TEST-1", SHORT_NODE, "ab".repeat(32), HEX.parseHex(RFC_8032[0][1]), null);
    byte[] signature =
        Ed25519.sign(
            HEX.parseHex(RFC_8032[0][0]), bare.statement().getBytes(StandardCharsets.US_ASCII));
    String text = bare.statement() + "." + Base32.of(signature);
    assertThat(SignedText.parse(text).verify()).isTrue();
    String moved = dashesMoved(text);
    assertThat(moved).isNotEqualTo(text);
    assertThatThrownBy(() -> SignedText.parse(moved))
        .hasMessage("The operator is not written as in a signed head.");
  }

  /**
   * Texts of the same moment and the same operator as those of proofs that hold, written otherwise.
   */
  static List<String> writtenOtherwise() {
    List<byte[]> leaves = MerkleProofsTest.numbered(13);
    String midnight = at("2026-03-13T00:00:00Z", leaves);
    String before = at("2026-03-12T23:59:59Z", leaves);
    String operator = proof(3, 13, SHORT_NODE, AT, RFC_8032[0], leaves).text();
    List.of(midnight, before, operator).forEach(text -> assertThat(isAccepted(text)).isTrue());
    return List.of(
        midnight.replace("2026-03-13T00:00:00Z", "2026-03-12T24:00:00Z"),
        before.replace("23:59:59Z", "23:59:60Z"),
        dashesMoved(operator));
  }

  private static String at(String time, List<byte[]> leaves) {
    return proof(3, 13, OPERATOR, Instant.parse(time), RFC_8032[0], leaves).text();
  }

  private static String dashesMoved(String text) {
    return text.replace(
        "01890A5D-AC96-774B-BCCE-0302099A8057", "001890A5D-AC96-774B-BCCE-302099A8057");
  }

  @Test
  void everyFieldOfAnotherProofIsRefusedInThisOne() {
    List<String> mine = fields(proof(3, 13));
    List<String> theirs = fields(another());
    for (int i = 1; i < mine.size(); i++) {
      List<String> mixed = new ArrayList<>(mine);
      mixed.set(i, theirs.get(i));
      assertThat(isAccepted(String.join(".", mixed))).as("field %s", i).isFalse();
    }
  }

  @Test
  void everyBitOfSignatureKeyRootAndLeafCounts() {
    PrintedProof proof = proof(3, 13);
    SignedHead head = proof.head();
    Inclusion in = proof.inclusion();
    for (int bit = 0; bit < 256; bit++) {
      int at = bit;
      assertThat(with(head.root(), head.publicKey(), head.signature(), flip(in.leaf(), at), in))
          .isFalse();
      assertThat(with(flip(head.root(), at), head.publicKey(), head.signature(), in.leaf(), in))
          .isFalse();
      assertThat(with(head.root(), flip(head.publicKey(), at), head.signature(), in.leaf(), in))
          .isFalse();
      assertThat(with(head.root(), head.publicKey(), flip(head.signature(), at), in.leaf(), in))
          .isFalse();
      assertThat(
              with(head.root(), head.publicKey(), flip(head.signature(), at + 256), in.leaf(), in))
          .isFalse();
      for (int step = 0; step < in.path().size(); step++) {
        List<byte[]> path = new ArrayList<>(in.path());
        path.set(step, flip(path.get(step), at));
        Inclusion changed = new Inclusion(in.seq(), in.size(), in.leaf(), path);
        assertThat(new PrintedProof(head, changed).holds()).isFalse();
      }
    }
  }

  @Test
  void whatIsWrongIsSaid() {
    PrintedProof proof = proof(3, 13);
    Inclusion in = proof.inclusion();
    assertThat(
            new PrintedProof(proof.head(), new Inclusion(4, 13, in.leaf(), in.path())).troubles())
        .containsExactly("The record and the path do not lead to the root that was signed.");
    assertThat(new PrintedProof(another().head(), in).troubles())
        .containsExactly(
            "The path is for another size than the head's.",
            "The record and the path do not lead to the root that was signed.");
    assertThatThrownBy(() -> PrintedProof.parse("hello"))
        .hasMessage("A printed proof begins with TRESTLE-PROOF-1.");
    assertThatThrownBy(() -> PrintedProof.parse(PrintedProof.TAG + ".A.B"))
        .hasMessage("A printed proof has 10 parts between dots, this has 3.");
    assertThatThrownBy(() -> SignedHead.parse(proof.head().text().replace("2026-03", "2026-13")))
        .hasMessage("The time is no moment of the calendar.");
  }

  @Test
  void aSealOpensWithItsSecretAndNameAlone() {
    byte[] secret = Ed25519.make().secret();
    byte[] sealed = new Seal("one").close(secret, "mine");
    assertThat(new Seal("one").open(sealed, "mine")).hasValue(secret);
    assertThat(new Seal("two").open(sealed, "mine")).isEmpty();
    assertThat(new Seal("one").open(sealed, "yours")).isEmpty();
    for (int at = 0; at < sealed.length; at++) {
      byte[] changed = sealed.clone();
      changed[at] ^= 1;
      assertThat(new Seal("one").open(changed, "mine")).as("byte %s", at).isEmpty();
    }
    assertThat(new Seal("one").open(new byte[5], "mine")).isEmpty();
  }

  static PrintedProof proof(int seq, int size) {
    return proof(seq, size, OPERATOR, AT, RFC_8032[0], MerkleProofsTest.numbered(size));
  }

  private static PrintedProof another() {
    List<byte[]> leaves = new ArrayList<>(MerkleProofsTest.numbered(30));
    java.util.Collections.reverse(leaves);
    return proof(9, 14, UUID.randomUUID(), AT.plusSeconds(60), RFC_8032[1], leaves);
  }

  private static PrintedProof proof(
      int seq, int size, UUID operator, Instant at, String[] key, List<byte[]> leaves) {
    SignedHead head =
        SignedHead.signed(
            operator,
            size,
            MerkleProofsTest.root(leaves, 0, size),
            at,
            HEX.parseHex(key[0]),
            HEX.parseHex(key[1]));
    return new PrintedProof(head, MerkleProofsTest.inclusion(leaves, seq, size));
  }

  private static boolean with(
      byte[] root, byte[] key, byte[] signature, byte[] leaf, Inclusion in) {
    SignedHead head = new SignedHead(OPERATOR, in.size(), root, AT, key, signature);
    return new PrintedProof(head, new Inclusion(in.seq(), in.size(), leaf, in.path())).holds();
  }

  private static byte[] flip(byte[] bytes, int bit) {
    byte[] other = bytes.clone();
    other[bit / 8] ^= (byte) (1 << bit % 8);
    return other;
  }

  private static List<String> fields(PrintedProof proof) {
    return List.of(proof.text().split("\\.", -1));
  }

  private static boolean isAccepted(String text) {
    try {
      return PrintedProof.parse(text).holds();
    } catch (IllegalArgumentException e) {
      return false;
    }
  }
}
