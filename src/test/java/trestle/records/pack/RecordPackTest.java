package trestle.records.pack;

import static java.nio.charset.StandardCharsets.UTF_8;
import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.ObjectMapper;
import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeSet;
import java.util.zip.ZipEntry;
import java.util.zip.ZipFile;
import org.apache.commons.csv.CSVFormat;
import org.apache.commons.csv.CSVRecord;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.text.PDFTextStripper;
import org.junit.jupiter.api.Test;
import trestle.flights.ComponentLines;
import trestle.flights.UsageLines;
import trestle.ledger.Inclusion;
import trestle.ledger.MerkleFrontier;
import trestle.ledger.SignedHead;
import trestle.ledger.SignedText;
import trestle.ledger.View;
import trestle.reckoning.Counter;

/** A pack read with nothing but a ZIP, CSV, JSON and PDF reader. */
@QuarkusTest
class RecordPackTest {
  @Inject RecordPacks packs;
  @Inject Seller seller;
  @Inject UsageLines usage;
  @Inject ComponentLines components;

  @Test
  void holdsTheRecordSoThatItCanBeReadAndCheckedWithoutTheProgram() throws IOException {
    Seller.Sold sold = seller.sold();
    Path file = packs.made(sold.viewer(), PackSubject.aircraft(sold.aircraft()));
    Map<String, byte[]> files = unzipped(file);

    manifestNamesEveryFile(files);
    linesLeadToTheSignedHead(files);
    tablesSumUpToTheTotals(sold, files);
    summarySaysWhatTheLawAsks(sold, files);
    Path again = packs.made(sold.viewer(), PackSubject.aircraft(sold.aircraft()));
    assertThat(unzipped(again).get("summary.pdf")).isEqualTo(files.get("summary.pdf"));
    assertThat(Files.mismatch(again, file)).as("the same head, the same bytes").isEqualTo(-1);

    Path part = packs.made(sold.viewer(), PackSubject.component(sold.engine()));
    Map<String, byte[]> ofPart = unzipped(part);
    manifestNamesEveryFile(ofPart);
    linesLeadToTheSignedHead(ofPart);
    assertThat(text(ofPart.get("summary.pdf"))).contains("Where it was fitted", "Total times");
    for (Path made : List.of(file, again, part)) {
      Files.delete(made);
    }
  }

  private static void manifestNamesEveryFile(Map<String, byte[]> files) throws IOException {
    JsonNode manifest = new ObjectMapper().readTree(files.get("manifest.json"));
    Set<String> named = new TreeSet<>();
    for (JsonNode one : manifest.get("files")) {
      named.add(one.get("name").asText());
      byte[] bytes = files.get(one.get("name").asText());
      assertThat(PackWriter.sha256(bytes)).isEqualTo(one.get("sha256").asText());
      assertThat(bytes.length).isEqualTo(one.get("bytes").asInt());
    }
    Set<String> all = new TreeSet<>(files.keySet());
    all.removeAll(Set.of("manifest.json", "manifest.sig"));
    assertThat(named).isEqualTo(all);
    assertThat(files.keySet()).allMatch(PackNames::isName);
    SignedText signed = SignedText.parse(new String(files.get("manifest.sig"), UTF_8));
    assertThat(signed.what()).isEqualTo(PackWriter.sha256(files.get("manifest.json")));
    assertThat(signed.verify()).isTrue();
    assertThat(text(files.get("summary.pdf")).replaceAll("\\s", ""))
        .contains(manifest.get("contents").asText());
  }

  private static void linesLeadToTheSignedHead(Map<String, byte[]> files) throws IOException {
    SignedHead head = SignedHead.parse(new String(files.get("ledger/head.txt"), UTF_8));
    assertThat(head.verify()).isTrue();
    String[] lines = new String(files.get("ledger/lines.ndjson"), UTF_8).split("\n");
    String[] proofs = new String(files.get("ledger/proofs.ndjson"), UTF_8).split("\n");
    assertThat(proofs).hasSameSizeAs(lines).hasSizeGreaterThan(20);
    for (int i = 0; i < lines.length; i++) {
      JsonNode line = new ObjectMapper().readTree(lines[i]);
      byte[] leaf = MerkleFrontier.leaf(line.get("json").asText().getBytes(UTF_8));
      assertThat(HexFormat.of().formatHex(leaf)).isEqualTo(line.get("leaf").asText());
      List<byte[]> path = new ArrayList<>();
      new ObjectMapper()
          .readTree(proofs[i])
          .get("path")
          .forEach(hash -> path.add(HexFormat.of().parseHex(hash.asText())));
      Inclusion proof = new Inclusion(line.get("seq").asLong(), head.size(), leaf, path);
      assertThat(proof.root()).isEqualTo(head.root());
    }
  }

  /** Plain arithmetic over the tables: openings plus flights that no later row replaces. */
  private void tablesSumUpToTheTotals(Seller.Sold sold, Map<String, byte[]> files)
      throws IOException {
    long seconds = 0;
    long landings = 0;
    for (CSVRecord row : csv(files, "counter-opening")) {
      if (row.get("aircraft_id").equals(sold.aircraft().toString())) {
        seconds += row.get("counter").equals("hours") ? Long.parseLong(row.get("amount")) : 0;
        landings += row.get("counter").equals("landings") ? Long.parseLong(row.get("amount")) : 0;
      }
    }
    List<CSVRecord> flights = csv(files, "journey-log-entry");
    Set<String> corrected = new HashSet<>();
    flights.forEach(row -> corrected.add(row.get("corrects")));
    for (CSVRecord row : flights) {
      boolean counts =
          row.get("aircraft_id").equals(sold.aircraft().toString())
              && !corrected.contains(row.get("id"))
              && !row.get("void").equals("true");
      if (counts) {
        seconds +=
            Instant.parse(row.get("landing_at")).getEpochSecond()
                - Instant.parse(row.get("take_off_at")).getEpochSecond();
        landings += Long.parseLong(row.get("landings"));
      }
    }
    Map<Counter, Long> totals =
        usage.of(sold.viewer(), sold.aircraft(), View.EVERYTHING).total().toMap();
    assertThat(totals).containsEntry(Counter.HOURS, seconds);
    assertThat(totals).containsEntry(Counter.LANDINGS, landings);
    Map<String, String> stated = new HashMap<>();
    for (CSVRecord row : records(files.get("context/totals.csv"))) {
      stated.put(row.get("of") + row.get("what") + row.get("counter"), row.get("units"));
    }
    assertThat(stated)
        .containsEntry(sold.aircraft() + "totalhours", Long.toString(seconds))
        .containsEntry(
            sold.magneto() + "since-newhours",
            Long.toString(
                components
                    .of(sold.viewer(), sold.magneto(), View.EVERYTHING)
                    .sinceNew(Counter.HOURS)));
  }

  /**
   * 14 CFR 91.417(a)(2)(i) to (vi) with (b)(2) and 91.419, M.A.305(d) and M.A.307: what is retained
   * and transferred with the aircraft, in plain language or coded form.
   */
  private static void summarySaysWhatTheLawAsks(Seller.Sold sold, Map<String, byte[]> files)
      throws IOException {
    String text = text(files.get("summary.pdf")).replaceAll("\\s+", " ");
    assertThat(text)
        .contains(
            "91.417(a)(2)(i)",
            "91.417(a)(2)(ii)",
            "91.417(a)(2)(iii)",
            "91.417(a)(2)(iv)",
            "91.417(a)(2)(v)",
            "91.417(a)(2)(vi)",
            "91.417(b)(2), 91.419; M.A.307");
    assertThat(text).contains(sold.registration());
    assertThat(section(text, "Total times", "Life-limited parts"))
        .as("(i) total time in service of the airframe")
        .contains("Time in service", " h", "Landings");
    assertThat(section(text, "Life-limited parts", "Time since overhaul"))
        .as("(ii) current status of life-limited parts: limit, accumulated, remaining")
        .contains("Limit", "Accumulated", "Remaining");
    assertThat(section(text, "Time since overhaul", "Inspection status"))
        .as("(i) each engine; (iii) time since last overhaul")
        .contains("Since new", "Since overhaul", sold.engineSerial());
    assertThat(section(text, "Inspection status", "Directive status"))
        .as("(iv) inspection status with the last one")
        .contains(sold.inspection(), "Last done", "Next due");
    assertThat(section(text, "Directive status", "Directives kept as requirements"))
        .as("(v) number, revision, method, next action")
        .contains(sold.directive(), "Revision", "Method", "Next due");
    assertThat(section(text, "Major modifications and repairs", "Overruns"))
        .as("(vi) forms for each major alteration")
        .contains(sold.modification(), sold.modificationForm());
    assertThat(section(text, "Open defects and deferrals", "Empty weight"))
        .as("M.A.306, M.A.403: outstanding deferred defects")
        .contains("Defect", "Until");
    assertThat(text).as("M.A.305: mass and balance").contains("Centre of gravity");
  }

  private static String section(String text, String from, String to) {
    int begins = text.lastIndexOf(from + " ");
    int ends = text.indexOf(to, begins);
    assertThat(begins).as(from).isPositive();
    assertThat(ends).as(to).isGreaterThan(begins);
    return text.substring(begins, ends);
  }

  private static List<CSVRecord> csv(Map<String, byte[]> files, String kind) throws IOException {
    return records(files.get("csv/" + kind + ".csv"));
  }

  private static List<CSVRecord> records(byte[] csv) throws IOException {
    return CSVFormat.RFC4180
        .builder()
        .setHeader()
        .setSkipHeaderRecord(true)
        .get()
        .parse(new java.io.StringReader(new String(csv, UTF_8)))
        .getRecords();
  }

  private static String text(byte[] pdf) throws IOException {
    try (var document = Loader.loadPDF(pdf)) {
      return new PDFTextStripper().getText(document);
    }
  }

  static Map<String, byte[]> unzipped(Path file) throws IOException {
    Map<String, byte[]> files = new LinkedHashMap<>();
    try (ZipFile zip = new ZipFile(file.toFile())) {
      for (ZipEntry entry : zip.stream().toList()) {
        files.put(entry.getName(), zip.getInputStream(entry).readAllBytes());
      }
    }
    return files;
  }
}
