package trestle.records.pack;

import static org.assertj.core.api.Assertions.assertThat;

import com.fasterxml.jackson.databind.node.ObjectNode;
import java.time.Instant;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.Test;
import trestle.formats.CanonicalJson;

/** What a pack's lines say was left unfinished in the workshop. */
class OutstandingTest {
  private final Outstanding outstanding = new Outstanding();
  private long seq;

  @Test
  void everythingUnfinishedIsSaid() {
    UUID order = line("work-order", "{\"entry_id\": \"o1\", \"title\": \"Fifty hours\"}");
    line("work-order-step", "{\"order_entry_id\": \"o1\", \"step\": \"started\"}");
    line("work-line", "{\"entry_id\": \"l1\", \"origin\": \"free\", \"title\": \"Replace hose\"}");
    line("line-deferral", "{\"line_entry_id\": \"l1\", \"last_day\": \"2027-03-03\"}");
    UUID release =
        line(
            "work-release",
            "{\"order_entry_id\": \"o2\", \"airworthy\": false,"
                + " \"discrepancies\": [\"Spar cracked\", \"Tyre worn\"],"
                + " \"check_flight\": \"Stall warning\"}");
    line("defect", "{\"entry_id\": \"d1\", \"words\": \"Brake drags\"}");
    line("deferral", "{\"defect_entry_id\": \"d1\"}");
    line("defect-triage", "{\"defect_entry_id\": \"d1\", \"outcome\": \"holds\"}");
    assertThat(outstanding.sentences())
        .containsExactly(
            "Work was begun and not released: Fifty hours.",
            "Left open until 3 March 2027: Replace hose.",
            "Found not airworthy, and not put right: Spar cracked.",
            "Found not airworthy, and not put right: Tyre worn.",
            "Check flight to be made: Stall warning.",
            "Triaged to be put right before it flies: Brake drags.");

    line(
        "work-order",
        "{\"entry_id\": \"o1\", \"title\": \"Fifty hours again\", \"corrects\": \""
            + order
            + "\"}");
    line("work-release", "{\"order_entry_id\": \"o1\", \"airworthy\": true}");
    line("work-line", "{\"entry_id\": \"l2\", \"origin\": \"put-off\", \"from_line\": \"l1\"}");
    line("line-work", "{\"line_entry_id\": \"l2\"}");
    line(
        "work-line",
        "{\"entry_id\": \"l3\", \"origin\": \"discrepancy\", \"from_release\": \""
            + release
            + "\", \"from_ordinal\": 2}");
    line("line-work", "{\"line_entry_id\": \"l3\"}");
    line("check-flight", "{\"release_id\": \"" + release + "\", \"satisfactory\": true}");
    line("rectification", "{\"defect_entry_id\": \"d1\"}");
    assertThat(outstanding.sentences())
        .containsExactly("Found not airworthy, and not put right: Spar cracked.");
  }

  @Test
  void whatWasTakenAwayIsNotUnfinished() {
    UUID left = line("line-deferral", "{\"line_entry_id\": \"l1\", \"last_day\": \"2027-03-03\"}");
    line("line-deferral", "{\"corrects\": \"" + left + "\", \"voided\": true}");
    line("work-order", "{\"entry_id\": \"o1\", \"title\": \"Fifty hours\"}");
    line("work-order-step", "{\"order_entry_id\": \"o1\", \"step\": \"started\"}");
    line("work-order-step", "{\"order_entry_id\": \"o1\", \"step\": \"cancelled\"}");
    line("defect", "{\"entry_id\": \"d1\", \"words\": \"Brake drags\"}");
    line("defect-triage", "{\"defect_entry_id\": \"d1\", \"outcome\": \"holds\"}");
    line("deferral", "{\"defect_entry_id\": \"d1\"}");
    assertThat(outstanding.sentences()).isEmpty();
  }

  private UUID line(String kind, String json) {
    UUID id = UUID.randomUUID();
    ObjectNode row = (ObjectNode) CanonicalJson.parse(json);
    row.put("id", id.toString());
    outstanding.line(
        new PackLines.PackLine(
            ++seq,
            kind,
            1,
            id,
            Instant.EPOCH,
            UUID.randomUUID(),
            new byte[32],
            json,
            row,
            List.of()));
    return id;
  }
}
