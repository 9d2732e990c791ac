package trestle.web;

import jakarta.enterprise.context.RequestScoped;
import jakarta.enterprise.inject.Instance;
import jakarta.inject.Inject;
import jakarta.inject.Named;
import java.time.Instant;
import java.time.InstantSource;
import java.time.temporal.ChronoUnit;
import java.util.List;
import java.util.stream.Collectors;
import java.util.stream.Stream;

/** What stands around every page: who is asking, and where they may go from here. */
@Named("frame")
@RequestScoped
public class Frame {
  @Inject Instance<Viewer> viewers;
  @Inject InstantSource clock;

  private Viewer viewer;

  /** A place in the navigation; {@code key} is what a page calls itself as {@code current}. */
  public record Place(String key, String label, String href) {}

  /** Whether somebody has signed in. */
  public boolean isSignedIn() {
    return viewer() != null && viewer().personId() != null;
  }

  public Viewer viewer() {
    if (viewer == null && viewers.isResolvable()) {
      viewer = viewers.get();
    }
    return viewer;
  }

  /** When the page is made: a phone that has kept it says how old it is. */
  public Instant made() {
    return clock.instant().truncatedTo(ChronoUnit.SECONDS);
  }

  /** How times of the day are meant that a form asks for: "UTC" or "local time". */
  public String times() {
    return viewer().flightTimes();
  }

  /** Shows the frame as this viewer sees it. */
  void show(Viewer someone) {
    viewer = someone;
  }

  /** "Farrow Sound Air Services", or "" where no operator is chosen. */
  public String operator() {
    return viewer().operatorName() == null ? "" : viewer().operatorName();
  }

  /** "I. Tarn, owner, pilot". */
  public String who() {
    Stream<String> administrator =
        viewer().administrator() ? Stream.of(Allow.ADMINISTRATOR) : Stream.empty();
    return Stream.of(
            Stream.of(viewer().personName()),
            Stream.of(Role.values()).filter(viewer()::is).map(Role::word),
            administrator)
        .flatMap(words -> words)
        .collect(Collectors.joining(", "));
  }

  public List<Place> places() {
    return Stream.of(
            ofTheEngineer(), ofTheOperator(), ofItsPeople(), ofItsRecord(), ofTheInstallation())
        .flatMap(List::stream)
        .toList();
  }

  private List<Place> ofTheOperator() {
    if (viewer().roles().isEmpty()) {
      return List.of();
    }
    return List.of(
        new Place("fleet", "Fleet", "/fleet"),
        new Place("due-list", "Due list", "/due-list"),
        new Place("defects", "Defects", "/defects"),
        new Place("work-orders", "Work orders", "/work-orders"),
        new Place("components", "Components", "/components"),
        new Place("programmes", "Programmes", "/programmes"),
        new Place("directives", "Directives", "/directives"));
  }

  private List<Place> ofTheEngineer() {
    return viewer().is(Role.ENGINEER)
        ? List.of(new Place("engineer", "For the engineer", "/engineer"))
        : List.of();
  }

  private List<Place> ofItsPeople() {
    return viewer().isAny(Role.OWNER, Role.CONTROLLER)
        ? List.of(
            new Place("members", "Members", "/members"),
            new Place("rule-profile", "Rules", "/rule-profile"))
        : List.of();
  }

  private List<Place> ofItsRecord() {
    return viewer().isAny(Role.OWNER, Role.CONTROLLER, Role.AUDITOR)
        ? List.of(new Place("verification", "Verification", "/verification"))
        : List.of();
  }

  private List<Place> ofTheInstallation() {
    return viewer().administrator()
        ? List.of(new Place("operators", "Operators", "/operators"))
        : List.of();
  }
}
