package trestle.defects;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.web.Shown;
import trestle.web.Viewer;

/** Defects as pages write them. */
public final class DefectWords {
  private final Viewer viewer;
  private final Map<UUID, String> names;
  private final Map<UUID, String> parts;

  /**
   * @param names of the members
   * @param parts the components that were ever on the aircraft
   */
  DefectWords(Viewer viewer, Map<UUID, String> names, Map<UUID, String> parts) {
    this.viewer = viewer;
    this.names = names;
    this.parts = parts;
  }

  /**
   * A defect in a list.
   *
   * @param wash "held", "limited" or ""
   * @param earlier "came back: 2 earlier", or ""
   */
  public record Row(
      String link,
      String no,
      String words,
      String system,
      String found,
      String wash,
      String state,
      String limitation,
      String until,
      String earlier) {}

  /** One filed row of a defect, the latest first, each fact on its own. */
  public record Version(
      UUID id,
      String title,
      boolean replaced,
      long ledgerSeq,
      String filed,
      String reason,
      List<Fact> facts) {}

  /**
   * @param changed whether it differs from the row before
   */
  public record Fact(String name, String value, boolean changed) {}

  static Row open(DefectLine line, int earlier, LocalDate today) {
    return new Row(
        line.link(),
        line.no(),
        line.words(),
        line.system(),
        Shown.day(line.foundOn(), today),
        line.holds() ? "held" : line.limits() ? "limited" : "",
        line.stateWords(),
        line.limitation(),
        line.untilWords(),
        earlier == 0 ? "" : Shown.plural(earlier, "earlier occurrence"));
  }

  Row closed(DefectBook.Entry entry) {
    DefectSheet now = entry.current();
    RectificationSheet done = entry.rectification();
    return new Row(
        now.link(),
        now.no(),
        now.defect().words(),
        Chapters.label(now.chapter()),
        Shown.date(now.foundOn()),
        "",
        done == null ? "" : done.marked(),
        "",
        done == null ? "" : Shown.date(done.on()),
        "");
  }

  /** The rows of a defect, the latest first, with what each changed. */
  List<Version> versions(DefectBook.Entry entry) {
    List<Version> versions = new ArrayList<>();
    Map<String, String> before = new HashMap<>();
    for (DefectSheet row : entry.rows()) {
      boolean first = row.corrects() == null;
      boolean replaced = row != entry.current();
      List<Fact> facts = new ArrayList<>();
      facts(row)
          .forEach(
              fact ->
                  facts.add(
                      new Fact(
                          fact.name(),
                          fact.value(),
                          !first && !fact.value().equals(before.get(fact.name())))));
      before.clear();
      facts.forEach(fact -> before.put(fact.name(), fact.value()));
      versions.add(
          0,
          new Version(
              row.id(),
              first ? "As reported" : "Corrected",
              replaced,
              row.ledgerSeq(),
              filed(row.recordedAt(), row.recordedBy()),
              row.reason() == null ? "" : row.reason(),
              facts));
    }
    return versions;
  }

  /** "25 November 2026, 14:10, by I. Tarn". */
  public String filed(Instant at, UUID by) {
    return Shown.moment(at, viewer.zone()) + ", by " + name(by);
  }

  public String name(UUID person) {
    return names.getOrDefault(person, "a former member");
  }

  public String date(LocalDate day) {
    return Shown.date(day);
  }

  public String moment(Instant at) {
    return Shown.moment(at, viewer.zone());
  }

  /** Of what is asked for in the clock of the flights, and shown in it: "…, 14:10 UTC". */
  public String happened(Instant at) {
    return Shown.moment(at, viewer.flightZone());
  }

  private List<Fact> facts(DefectSheet row) {
    DefectDraft defect = row.defect();
    List<Fact> facts = new ArrayList<>();
    add(facts, "What is wrong", defect.words());
    add(facts, "Reporter’s judgement", defect.judgement().shown());
    add(
        facts,
        "System",
        row.chapter().isEmpty()
            ? "Not said"
            : Chapters.label(row.chapter())
                + (row.chapterFromWords() ? " (taken from the words)" : ""));
    add(facts, "Found", Shown.moment(defect.discoveredAt(), viewer.zone()));
    add(facts, "Place", defect.place());
    add(facts, "Part", part(defect.componentId()));
    add(facts, "When it showed", defect.phase() == null ? "" : defect.phase().shown());
    add(facts, "Noticed", defect.noticedBy() == null ? "" : defect.noticedBy().shown());
    add(facts, "Indication", indication(defect));
    return facts;
  }

  private String part(UUID componentId) {
    return componentId == null ? "" : parts.getOrDefault(componentId, "a part of another aircraft");
  }

  private static String indication(DefectDraft defect) {
    if (!defect.indicationMissed()) {
      return defect.indicationPlace();
    }
    return "There, and not seen"
        + (defect.indicationPlace().isEmpty() ? "" : ": " + defect.indicationPlace());
  }

  private static void add(List<Fact> facts, String name, String value) {
    if (!value.isEmpty()) {
      facts.add(new Fact(name, value, false));
    }
  }
}
