package trestle.programme;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Components;
import trestle.fleet.Fleet;
import trestle.fleet.Parts;
import trestle.ledger.View;
import trestle.people.Members;
import trestle.reckoning.Hours;
import trestle.reckoning.HoursStyle;
import trestle.reckoning.Limit;
import trestle.reckoning.Usage;
import trestle.standing.DueItem;
import trestle.standing.Subject;
import trestle.web.NotHere;
import trestle.web.Reading;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Viewer;

/** One requirement as seen for an aircraft or a component, with everything behind it. */
@ApplicationScoped
public class RequirementView {
  @Inject Requirements requirements;
  @Inject RequirementRecords requirementRecords;
  @Inject RequirementRepository repository;
  @Inject Programmes programmes;
  @Inject ComplianceRecords complianceRecords;
  @Inject Extensions extensions;
  @Inject DueItems dueItems;
  @Inject Subjects subjects;
  @Inject Fleet fleet;
  @Inject Components components;
  @Inject Parts parts;
  @Inject Members members;

  /** The programme, aircraft or component that a requirement belongs to. */
  public record Owner(String words, String link, boolean component) {}

  /** A requirement named by another. */
  public record Named(UUID id, String title) {}

  /** One line of the history of a subject. */
  public record Done(ComplianceLine line, String requirement, boolean own, String by) {}

  /** One revision, with who filed it. */
  public record Revised(Revision revision, String by) {}

  /** Another subject on which the same requirement is carried. */
  public record Elsewhere(String words, String link) {}

  /**
   * @param subject the aircraft or component it is seen for, or null
   * @param aircraft the aircraft the subject is, or is fitted to, or null
   * @param item null where it is not seen for a subject, or that does not carry it
   * @param history newest first: the requirement's own, and what larger work did
   */
  public record Seen(
      RequirementSheet requirement,
      Revision revision,
      Owner owner,
      Subject subject,
      AircraftSheet aircraft,
      DueItem item,
      List<Explained.LimitLine> limits,
      String reckoned,
      List<Done> history,
      List<ExtensionLine> extensions,
      List<Named> covers,
      List<Named> coveredBy,
      List<Named> with,
      List<Revised> revisions,
      List<Elsewhere> elsewhere,
      HoursStyle style,
      String query,
      boolean mayRevise,
      boolean mayComply,
      boolean mayExtend) {

    public String state() {
      return item == null ? "" : Explained.words(item.state());
    }

    /** "6.5 h". */
    public String labour() {
      return new Hours(revision.terms().labourMinutes() * 60L) + " h";
    }

    /** A point of an extension in words. */
    public String due(ExtensionLine line, Long point) {
      if (point == null) {
        return "an unknown point";
      }
      var entry = Reckoned.at(revision.terms().rule().group(), line.limit());
      return entry instanceof Limit.Measured measured
          ? Explained.point(measured.scale(), point, style)
          : line.calendar() ? Shown.date(LocalDate.ofEpochDay(point)) : point.toString();
    }

    /** Readings in words: "1,234.5 h, 2,210 landings". */
    public String words(Usage usage) {
      return usage.toMap().entrySet().stream()
          .map(entry -> Explained.point(entry.getKey(), entry.getValue(), style))
          .collect(Collectors.joining(", "));
    }
  }

  /** Who owns what is to be created. */
  @Reading
  public Owner owner(Viewer viewer, RequirementSheet sheet) {
    UUID programme = sheet.programmeId();
    UUID component = sheet.componentId();
    UUID aircraft = sheet.aircraftId();
    if (sheet.partNumber() != null) {
      String link =
          parts
              .of(viewer, sheet.partNumber(), Records.ALL)
              .map(part -> "/parts/" + part.id())
              .orElse("/parts");
      return new Owner("part number " + sheet.partNumber(), link, true);
    }
    if (programme != null) {
      return new Owner(
          programmes.sheet(viewer, programme).name(), "/programmes/" + programme, false);
    }
    if (component != null) {
      return new Owner(
          components.history(viewer, component, Records.ALL).sheet().words(),
          "/components/" + component,
          true);
    }
    if (aircraft == null) {
      throw new NotHere("Say for what the requirement is to be.");
    }
    return new Owner(
        fleet.sheet(viewer, aircraft, Records.ALL).registration(), "/aircraft/" + aircraft, false);
  }

  /** The page's address. */
  public String link(UUID requirement, UUID aircraft, UUID component) {
    return "/requirements/" + requirement + query(aircraft, component);
  }

  /**
   * A requirement as seen for an aircraft, for a component, or (with neither) as it is written.
   *
   * @throws NotHere when the operator has no such requirement, aircraft or component
   */
  @Reading
  public Seen seen(Viewer viewer, UUID id, UUID aircraftId, UUID componentId, View view) {
    RequirementRecords.History written = requirementRecords.history(viewer, id, view);
    RequirementSheet sheet = written.requirement();
    UUID component = componentId == null ? sheet.componentId() : componentId;
    boolean aboutAircraft = sheet.subject().equals(Subject.AIRCRAFT);
    UUID aircraft =
        aircraftId == null && aboutAircraft && component == null ? sheet.aircraftId() : aircraftId;
    boolean onSubject = component != null || aircraft != null && aboutAircraft;
    Optional<Reckoned.Detail> detail =
        onSubject
            ? dueItems.detail(viewer, id, aircraft, component, view, null, null)
            : Optional.empty();
    Subject subject = onSubject ? subjects.line(viewer, aircraft, component, view).subject() : null;
    UUID of = subject == null ? aircraft : subject.aircraftId();
    AircraftSheet aircraftSheet = of == null ? null : fleet.sheet(viewer, of, view);
    HoursStyle style = aircraftSheet == null ? HoursStyle.TENTHS : aircraftSheet.shownAs();
    Revision inForce = written.inForce(view.upTo());
    Revision revision =
        detail.map(Reckoned.Detail::revision).orElse(inForce == null ? written.latest() : inForce);
    Map<UUID, Terms> others = new HashMap<>();
    repository
        .latestOfAll()
        .forEach(one -> others.put(one.requirement().id(), one.revision().terms()));
    Map<UUID, String> names = members.names(viewer);
    return new Seen(
        sheet,
        revision,
        owner(viewer, sheet),
        subject,
        aircraftSheet,
        detail.map(Reckoned.Detail::item).orElse(null),
        detail.map(found -> Explained.of(found, style)).orElse(List.of()),
        detail
            .map(
                found ->
                    Explained.reckoned(revision.terms().rule(), found.history().doings().size()))
            .orElse(""),
        onSubject ? done(viewer, id, aircraft, component, view, others, names) : List.of(),
        onSubject ? extensions.history(viewer, id, aircraft, component, view) : List.of(),
        named(revision.terms().covers(), others),
        coveredBy(id, others),
        named(
            Rules.companions(revision.terms().rule()).stream().map(UUID::fromString).toList(),
            others),
        written.revisions().stream()
            .map(one -> new Revised(one, names.getOrDefault(one.recordedBy(), "a former member")))
            .sorted(
                (one, other) ->
                    Long.compare(other.revision().sequence(), one.revision().sequence()))
            .toList(),
        onSubject ? List.of() : elsewhere(viewer, sheet, aircraft, view),
        style,
        query(aircraft, component),
        viewer.isAny(Role.OWNER, Role.CONTROLLER),
        viewer.isAny(Role.ENGINEER, Role.OWNER, Role.CONTROLLER),
        viewer.isAny(Role.ENGINEER, Role.CONTROLLER));
  }

  private List<Done> done(
      Viewer viewer,
      UUID id,
      UUID aircraft,
      UUID component,
      View view,
      Map<UUID, Terms> others,
      Map<UUID, String> names) {
    Set<UUID> those = new LinkedHashSet<>(List.of(id));
    List<UUID> open = new ArrayList<>(those);
    while (!open.isEmpty()) {
      UUID at = open.remove(0);
      coveredBy(at, others).stream().map(Named::id).filter(those::add).forEach(open::add);
    }
    List<Done> done = new ArrayList<>();
    for (ComplianceLine line :
        complianceRecords.history(viewer, those, aircraft, component, view)) {
      boolean own = line.requirementId().equals(id);
      if (own || line.complete() && !line.baseline()) {
        Terms terms = others.get(line.requirementId());
        done.add(
            0,
            new Done(
                line,
                terms == null ? "" : terms.title(),
                own,
                names.getOrDefault(line.recordedBy(), "a former member")));
      }
    }
    return done;
  }

  private List<Elsewhere> elsewhere(
      Viewer viewer, RequirementSheet sheet, UUID aircraftId, View view) {
    Map<UUID, AircraftSheet> aircraft = new LinkedHashMap<>();
    fleet.sheets(viewer, view).forEach(one -> aircraft.put(one.id(), one));
    if (aircraftId != null || sheet.aircraftId() != null) {
      aircraft.keySet().retainAll(List.of(aircraftId == null ? sheet.aircraftId() : aircraftId));
    } else if (sheet.programmeId() != null) {
      aircraft.keySet().retainAll(programmes.followers(viewer, sheet.programmeId(), view));
    }
    if (aircraft.isEmpty()) {
      return List.of();
    }
    return subjects.onAircraft(viewer, aircraft.keySet(), view).stream()
        .filter(
            line ->
                sheet.partNumber() == null
                    ? line.subject().kind().equals(sheet.subject())
                    : sheet.partNumber().equalsIgnoreCase(line.partNumber()))
        .map(SubjectLine::subject)
        .map(
            subject ->
                new Elsewhere(
                    subject.isAircraft()
                        ? subject.words()
                        : aircraft.get(subject.aircraftId()).registration()
                            + ", "
                            + subject.words(),
                    subject.isAircraft()
                        ? link(sheet.id(), subject.id(), null)
                        : link(sheet.id(), null, subject.id())))
        .sorted(Comparator.comparing(Elsewhere::words))
        .toList();
  }

  private static List<Named> named(List<UUID> ids, Map<UUID, Terms> others) {
    return ids.stream()
        .filter(others::containsKey)
        .map(id -> new Named(id, others.get(id).title()))
        .toList();
  }

  private static List<Named> coveredBy(UUID id, Map<UUID, Terms> others) {
    return others.entrySet().stream()
        .filter(entry -> entry.getValue().covers().contains(id))
        .map(entry -> new Named(entry.getKey(), entry.getValue().title()))
        .toList();
  }

  private static String query(UUID aircraft, UUID component) {
    if (component != null) {
      return "?component=" + component;
    }
    return aircraft == null ? "" : "?aircraft=" + aircraft;
  }
}
