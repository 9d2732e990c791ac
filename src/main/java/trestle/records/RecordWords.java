package trestle.records;

import com.fasterxml.jackson.databind.JsonNode;
import java.io.UncheckedIOException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.TreeMap;
import java.util.UUID;
import java.util.regex.Pattern;
import trestle.formats.CanonicalJson;
import trestle.web.Shown;

/** What the ledger's JSON holds, as people read it. */
final class RecordWords {
  private static final Pattern MOMENT = Pattern.compile("\\d{4}-\\d\\d-\\d\\dT[\\d:.]+Z");
  private static final Pattern DAY = Pattern.compile("\\d{4}-\\d\\d-\\d\\d");
  private static final Pattern ID = Pattern.compile("[0-9a-f]{8}(-[0-9a-f]{4}){3}-[0-9a-f]{12}");

  /** Columns that every record has, and that a page says otherwise. */
  private static final Set<String> OF_EVERY_RECORD =
      Set.of(
          "id",
          "kind_version",
          "version",
          "ledger_kind",
          "operator_id",
          "ledger_seq",
          "recorded_at",
          "recorded_by",
          "corrects",
          "reason",
          "form_key",
          "happened_on",
          "voided",
          "void");

  private static final int MOST = 160;

  private final Map<UUID, String> names;
  private final Map<UUID, String> registrations;
  private final ZoneId zone;

  RecordWords(Map<UUID, String> names, Map<UUID, String> registrations, ZoneId zone) {
    this.names = names;
    this.registrations = registrations;
    this.zone = zone;
  }

  String person(UUID id) {
    return names.getOrDefault(id, "somebody who is no member");
  }

  String registration(UUID aircraftId) {
    return registrations.get(aircraftId);
  }

  String moment(Instant at) {
    return Shown.moment(at, zone);
  }

  boolean takesAway(JsonNode json) {
    return json.path("voided").asBoolean() || json.path("void").asBoolean();
  }

  /** What tells most of a record, on one line. */
  String says(RecordKind kind, JsonNode json) {
    List<String> said = new ArrayList<>();
    for (String column : kind.says()) {
      String value = value(json.path(column));
      if (!value.isBlank()) {
        said.add(value);
      }
    }
    String all = String.join(", ", said);
    return all.length() <= MOST ? all : all.substring(0, MOST).strip() + "…";
  }

  /** All that is a record's own, by name. */
  Map<String, String> facts(JsonNode json) {
    Map<String, String> facts = new TreeMap<>();
    json.fields()
        .forEachRemaining(
            field -> {
              boolean kept = OF_EVERY_RECORD.contains(field.getKey()) || isLedgers(field, json);
              String value = value(field.getValue());
              if (!kept && !value.isBlank()) {
                facts.put(name(field.getKey()), value);
              }
            });
    return facts;
  }

  /** Whether "kind" is the ledger's word, and not a column of the record that is called so. */
  private static boolean isLedgers(Map.Entry<String, JsonNode> field, JsonNode json) {
    return field.getKey().equals("kind")
        && !json.has("ledger_kind")
        && RecordKinds.isKind(field.getValue().asText());
  }

  /** "take_off_at" is "Take off at". */
  private static String name(String column) {
    String plain = column.replaceAll("_(id|sha256)$", "").replace('_', ' ');
    return plain.substring(0, 1).toUpperCase(java.util.Locale.ROOT) + plain.substring(1);
  }

  private String value(JsonNode node) {
    if (node.isArray() || node.isObject()) {
      return nested(node);
    }
    if (node.isBoolean()) {
      return node.asBoolean() ? "yes" : "no";
    }
    String text = node.asText("");
    if (MOMENT.matcher(text).matches()) {
      return moment(Instant.parse(text));
    }
    if (DAY.matcher(text).matches()) {
      return Shown.date(LocalDate.parse(text));
    }
    if (text.startsWith("{")) {
      return laidOut(text);
    }
    return ID.matcher(text).matches() ? named(UUID.fromString(text), text) : text;
  }

  /** What was signed is JSON in a text. */
  private String laidOut(String text) {
    try {
      return nested(CanonicalJson.parse(text));
    } catch (UncheckedIOException e) {
      return text;
    }
  }

  private String named(UUID id, String text) {
    String registration = registrations.get(id);
    return registration == null ? names.getOrDefault(id, text) : registration;
  }

  private String nested(JsonNode node) {
    List<String> parts = new ArrayList<>();
    if (node.isArray()) {
      node.forEach(each -> parts.add(value(each)));
    } else {
      node.fields()
          .forEachRemaining(each -> parts.add(each.getKey() + " " + value(each.getValue())));
    }
    return String.join(", ", parts);
  }
}
