package trestle.records.pack;

import com.fasterxml.jackson.core.JsonProcessingException;
import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import java.io.BufferedReader;
import java.io.IOException;
import java.io.InputStreamReader;
import java.nio.charset.StandardCharsets;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HexFormat;
import java.util.List;
import java.util.UUID;
import java.util.function.Consumer;

/** Reads the ledger lines of a pack with their proofs, one at a time. */
final class PackLines {
  private static final ObjectMapper JSON = new ObjectMapper();
  private static final int LONGEST = 1 << 20;

  private PackLines() {}

  /**
   * A line as another operator's ledger has it.
   *
   * @param text its canonical JSON, exactly
   * @param json the same, read
   * @param path the proof's hashes from the leaf up
   */
  record PackLine(
      long seq,
      String kind,
      int version,
      UUID recordId,
      Instant recordedAt,
      UUID recordedBy,
      byte[] leaf,
      String text,
      JsonNode json,
      List<byte[]> path) {}

  /**
   * @throws trestle.web.Refusal where a line is none
   */
  static void read(PackFile pack, Consumer<PackLine> reader) {
    try (BufferedReader lines = opened(pack, PackNames.LINES);
        BufferedReader proofs = opened(pack, PackNames.PROOFS)) {
      int number = 0;
      for (String line = lines.readLine(); line != null; line = lines.readLine()) {
        String proof = proofs.readLine();
        number++;
        if (proof == null || line.length() > LONGEST || proof.length() > LONGEST) {
          throw unreadable(number);
        }
        reader.accept(line(line, proof, number));
      }
      if (proofs.readLine() != null) {
        throw unreadable(number + 1);
      }
    } catch (IOException e) {
      throw PackFile.damaged(PackNames.LINES);
    }
  }

  private static PackLine line(String text, String proof, int number) {
    try {
      JsonNode line = JSON.readTree(text);
      JsonNode path = JSON.readTree(proof);
      long seq = line.get("seq").asLong();
      if (path.get("seq").asLong() != seq) {
        throw unreadable(number);
      }
      List<byte[]> hashes = new ArrayList<>();
      path.get("path").forEach(hash -> hashes.add(HexFormat.of().parseHex(hash.textValue())));
      String json = line.get("json").textValue();
      return new PackLine(
          seq,
          line.get("kind").textValue(),
          line.get("version").asInt(),
          UUID.fromString(line.get("record").textValue()),
          Instant.parse(line.get("recorded_at").textValue()),
          UUID.fromString(line.get("recorded_by").textValue()),
          HexFormat.of().parseHex(line.get("leaf").textValue()),
          json,
          JSON.readTree(json),
          hashes);
    } catch (JsonProcessingException | RuntimeException e) {
      throw unreadable(number);
    }
  }

  private static BufferedReader opened(PackFile pack, String name) {
    return new BufferedReader(new InputStreamReader(pack.read(name), StandardCharsets.UTF_8));
  }

  private static RuntimeException unreadable(int number) {
    return PackFile.refused("Line " + number + " of its ledger can’t be read.");
  }
}
