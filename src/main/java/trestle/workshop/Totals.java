package trestle.workshop;

import com.fasterxml.jackson.databind.JsonNode;
import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.Instant;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.fleet.Components;
import trestle.fleet.Fitting;
import trestle.fleet.PartKind;
import trestle.flights.ComponentLine;
import trestle.flights.ComponentLines;
import trestle.flights.UsageLine;
import trestle.flights.UsageLines;
import trestle.formats.CanonicalJson;
import trestle.ledger.View;
import trestle.reckoning.Counter;
import trestle.reckoning.Scale;
import trestle.reckoning.Usage;
import trestle.web.Reading;
import trestle.web.Shown;
import trestle.web.Viewer;

/**
 * The totals of an aircraft and of the engines and propellers fitted to it at some moment: what is
 * written beside every signature, and what a log entry prints.
 */
@ApplicationScoped
public class Totals {
  @Inject UsageLines usageLines;
  @Inject ComponentLines componentLines;
  @Inject Components components;

  /**
   * One thing's totals, as read back from a signed row.
   *
   * @param kind {@code aircraft}, {@code engine}, {@code propeller} or {@code other}
   * @param componentId null for the aircraft
   * @param position where it was fitted; "" for the aircraft
   * @param sinceOverhaul hours since overhaul, "" where not known
   */
  public record Of(
      String kind,
      UUID componentId,
      String position,
      String partNumber,
      String serial,
      Map<String, String> totals,
      String sinceOverhaul) {

    public String hours() {
      return totals.getOrDefault(Counter.HOURS.name(), "");
    }

    /** "Airframe", or "Engine 1, serial E-7". */
    public String name() {
      return componentId == null ? "Airframe" : position + ", serial " + serial;
    }

    /** "6,012.5 hours, 2,010 landings". */
    public String words() {
      String words =
          totals.isEmpty()
              ? "not known"
              : totals.entrySet().stream()
                  .map(one -> Shown.grouped(one.getValue()) + " " + one.getKey())
                  .collect(Collectors.joining(", "));
      return sinceOverhaul.isEmpty()
          ? words
          : words + ", " + Shown.grouped(sinceOverhaul) + " since overhaul";
    }
  }

  /** How everything of one aircraft ran, to be asked for several moments. */
  static final class Running {
    private final UsageLine line;
    private final List<Fitting> fittings;
    private final Map<UUID, ComponentLine> parts;
    private final Map<Instant, String> json = new HashMap<>();

    private Running(UsageLine line, List<Fitting> fittings, Map<UUID, ComponentLine> parts) {
      this.line = line;
      this.fittings = fittings;
      this.parts = parts;
    }

    /** The totals of a subject at a moment: of a component, or with null of the aircraft. */
    Usage usage(UUID componentId, Instant at) {
      return componentId == null ? line.usageAt(at) : parts.get(componentId).usageAt(at);
    }

    boolean knows(UUID componentId) {
      return componentId == null || parts.containsKey(componentId);
    }

    /**
     * The engine or propeller that a component is, or sits on, at a moment; null where it is
     * neither.
     */
    UUID bookOf(UUID componentId, Instant at) {
      List<Fitting> then = fittings.stream().filter(one -> one.holdsAt(at)).toList();
      return then.stream()
          .filter(one -> one.componentId().equals(componentId))
          .flatMap(
              own ->
                  then.stream()
                      .filter(one -> one.kind() != PartKind.OTHER)
                      .filter(one -> one.positionCode().equals(own.positionCode())))
          .map(Fitting::componentId)
          .findFirst()
          .orElse(null);
    }

    String json(Instant at) {
      return json.computeIfAbsent(at, this::written);
    }

    private String written(Instant at) {
      ObjectNode whole = JsonNodeFactory.instance.objectNode();
      whole.set("aircraft", amounts(line.usageAt(at)));
      ArrayNode fitted = whole.putArray("components");
      for (Fitting fitting : fittings) {
        if (fitting.holdsAt(at) && fitting.kind() != PartKind.OTHER) {
          ComponentLine part = parts.get(fitting.componentId());
          ObjectNode one = fitted.addObject();
          one.put("component", fitting.componentId().toString());
          one.put("kind", fitting.kind().word());
          one.put("position", fitting.positionLabel());
          one.put("part-number", fitting.partNumber());
          one.put("serial", fitting.serial());
          one.set("totals", amounts(part.usageAt(at)));
          one.put("since-overhaul", sinceOverhaul(part, at));
        }
      }
      return CanonicalJson.of(whole);
    }

    private static String sinceOverhaul(ComponentLine part, Instant at) {
      var origin = part.origins().get("overhaul");
      long then = part.unitsAt(at, Counter.HOURS);
      long from = origin == null ? Scale.UNKNOWN : origin.usage().units(Counter.HOURS);
      return then == Scale.UNKNOWN || from == Scale.UNKNOWN || then < from
          ? ""
          : Counter.HOURS.unit().show(then - from);
    }

    private static ObjectNode amounts(Usage usage) {
      ObjectNode amounts = JsonNodeFactory.instance.objectNode();
      usage
          .toMap()
          .forEach((counter, units) -> amounts.put(counter.name(), counter.unit().show(units)));
      return amounts;
    }
  }

  Running of(Viewer viewer, UUID aircraftId) {
    List<Fitting> fittings =
        components
            .fittings(viewer, List.of(aircraftId), View.EVERYTHING)
            .getOrDefault(aircraftId, List.of());
    List<UUID> ids = fittings.stream().map(Fitting::componentId).distinct().toList();
    return new Running(
        usageLines.of(viewer, aircraftId, View.EVERYTHING),
        fittings,
        componentLines.of(viewer, ids, View.EVERYTHING));
  }

  /** The totals at a moment as they would be written beside a signature. */
  @Reading
  public List<Of> at(Viewer viewer, UUID aircraftId, Instant moment) {
    return read(of(viewer, aircraftId).json(moment));
  }

  /** The totals of a signed row: the aircraft's first. */
  public static List<Of> read(String json) {
    JsonNode whole = CanonicalJson.parse(json);
    List<Of> all = new ArrayList<>();
    all.add(new Of("aircraft", null, "", "", "", texts(whole.get("aircraft")), ""));
    for (JsonNode one : whole.get("components")) {
      all.add(
          new Of(
              one.get("kind").asText(),
              UUID.fromString(one.get("component").asText()),
              one.get("position").asText(),
              one.get("part-number").asText(),
              one.get("serial").asText(),
              texts(one.get("totals")),
              one.get("since-overhaul").asText()));
    }
    return all;
  }

  private static Map<String, String> texts(JsonNode amounts) {
    Map<String, String> texts = new java.util.TreeMap<>();
    amounts.properties().forEach(each -> texts.put(each.getKey(), each.getValue().asText()));
    return texts;
  }
}
