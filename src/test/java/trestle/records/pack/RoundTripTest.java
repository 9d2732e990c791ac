package trestle.records.pack;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Collectors;
import org.junit.jupiter.api.Test;
import trestle.defects.OpenDefects;
import trestle.fleet.Components;
import trestle.fleet.Configurations;
import trestle.fleet.Fleet;
import trestle.fleet.Hangar;
import trestle.fleet.Particulars;
import trestle.ledger.Ledger;
import trestle.ledger.View;
import trestle.ledger.verify.Verifier;
import trestle.overview.StatusSheet;
import trestle.overview.StatusSheets;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.programme.ComplianceRecords;
import trestle.programme.DueItems;
import trestle.standing.DueItem;
import trestle.web.AsAt;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Viewer;
import trestle.web.Walls;

/** What one operator hands over is the same at the other. */
@QuarkusTest
class RoundTripTest {
  @Inject RecordPacks packs;
  @Inject TakingIn takingIn;
  @Inject TakenPacks takenPacks;
  @Inject Seller seller;
  @Inject Operators operators;
  @Inject Members members;
  @Inject Hangar hangar;
  @Inject Fleet fleet;
  @Inject Components components;
  @Inject DueItems dueItems;
  @Inject StatusSheets statuses;
  @Inject ComplianceRecords complianceRecords;
  @Inject Configurations configurations;
  @Inject OpenDefects defects;
  @Inject PackTotals totals;
  @Inject Ledger ledger;
  @Inject Verifier verifier;
  @Inject Walls walls;
  @Inject InstantSource clock;

  @Test
  void anAircraftIsTheSameAtTheOperatorThatTakesItIn() throws Exception {
    Seller.Sold sold = seller.sold();
    Viewer there = sold.viewer();
    Viewer here = buyer("buyer-trip");
    Path file = packs.made(there, PackSubject.aircraft(sold.aircraft()));
    UUID upload = takingIn.uploaded(here, file);

    TakingIn.Preview preview = takingIn.preview(here, upload);
    assertThat(preview.against()).isEmpty();
    assertThat(preview.pack().fromName()).isEqualTo(sold.company().name());
    assertThat(preview.kept().keySet()).contains("signature");
    assertThat(preview.filed()).doesNotContainKey("signature");
    assertThat(fleet.sheets(here, View.EVERYTHING)).as("a preview files nothing").isEmpty();

    UUID taken = takingIn.takeIn(here, upload);

    assertThat(sheets(here, sold)).hasSizeGreaterThan(8).isEqualTo(sheets(there, sold));
    assertThat(due(here, sold.aircraft()))
        .hasSizeGreaterThan(3)
        .isEqualTo(due(there, sold.aircraft()));
    assertThat(totals.of(here, preview.pack().subject(), preview.pack().parts(), View.EVERYTHING))
        .isNotEmpty()
        .isEqualTo(
            totals.of(there, preview.pack().subject(), preview.pack().parts(), View.EVERYTHING));
    assertThat(components.histories(here, List.of(sold.magneto()), View.EVERYTHING).toString())
        .isEqualTo(
            components.histories(there, List.of(sold.magneto()), View.EVERYTHING).toString());
    assertThat(configurations.of(here, sold.aircraft(), View.EVERYTHING))
        .isEqualTo(configurations.of(there, sold.aircraft(), View.EVERYTHING));
    assertThat(open(here, sold)).isEqualTo(open(there, sold));
    assertThat(fleet.sheet(here, sold.other(), View.EVERYTHING).retired())
        .as("an aircraft that a part was on before is none of this operator's")
        .isTrue();
    assertThat(fleet.sheet(here, sold.aircraft(), View.EVERYTHING).retired()).isFalse();
    assertThat(takenPacks.kept(here, taken, "signature", 0, 50)).isNotEmpty();
    assertThat(takenPacks.kept(here, taken, "", 0, 5_000))
        .hasSize(preview.pack().lines())
        .allMatch(line -> line.leadsTo(preview.pack().head()));
    assertThat(complianceRecords.one(here, sold.rows().doing()).transcribedFrom())
        .contains("the record of " + sold.company().name());

    theNextOneNeedsNothingTwice(there, here, sold);
    long size = size(here);
    UUID again = takingIn.uploaded(here, file);
    assertThat(takingIn.preview(here, again).against()).contains("This pack was taken in already.");
    assertThatThrownBy(() -> takingIn.takeIn(here, again))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("taken in already");
    assertThat(size(here)).isEqualTo(size);
    Files.delete(file);
  }

  /** Another aircraft of the same operator, under the same programme. */
  private void theNextOneNeedsNothingTwice(Viewer there, Viewer here, Seller.Sold sold)
      throws Exception {
    Path file = packs.made(there, PackSubject.aircraft(sold.second()));
    UUID upload = takingIn.uploaded(here, file);
    TakingIn.Preview preview = takingIn.preview(here, upload);
    assertThat(preview.against()).isEmpty();
    assertThat(preview.here()).isPositive();
    assertThat(preview.filed()).doesNotContainKey("programme");
    takingIn.takeIn(here, upload);
    assertThat(due(here, sold.second())).isNotEmpty().isEqualTo(due(there, sold.second()));
    Files.delete(file);

    Path other = packs.made(there, PackSubject.aircraft(sold.other()));
    UUID refused = takingIn.uploaded(here, other);
    assertThat(takingIn.preview(here, refused).against())
        .anyMatch(one -> one.contains("is here for the history of a part"));
    takingIn.setAside(here, refused);
    Files.delete(other);
  }

  /** Sold, flown and put right there, and bought back: one record, with all of both in it. */
  @Test
  void anAircraftComesBackToTheOperatorThatHandedItOver() throws Exception {
    Seller.Sold sold = seller.another("returning");
    Viewer first = sold.viewer();
    Viewer second = buyer("buyer-returning");
    PackSubject subject = PackSubject.aircraft(sold.aircraft());
    takenIn(second, packs.made(first, subject));
    seller.flown(second, sold.aircraft(), clock.instant().minusSeconds(7_200));
    long before = size(first);
    Path back = packs.made(second, subject);
    UUID upload = takingIn.uploaded(first, back);

    TakingIn.Preview preview = takingIn.preview(first, upload);
    assertThat(preview.against()).isEmpty();
    assertThat(preview.mind()).anyMatch(one -> one.startsWith("It was here before: "));
    assertThat(preview.filed()).containsEntry("journey-log-entry", 1);
    takingIn.takeIn(first, upload);
    Files.delete(back);

    assertThat(totals.of(first, subject, preview.pack().parts(), View.EVERYTHING))
        .isEqualTo(totals.of(second, subject, preview.pack().parts(), View.EVERYTHING))
        .isEqualTo(preview.pack().totals());
    assertThat(due(first, sold.aircraft())).isEqualTo(due(second, sold.aircraft()));
    assertThat(size(first)).isGreaterThan(before);
    assertThat(verifier.verify(first.operatorId(), false).trouble()).isEmpty();
  }

  /** An engine was sold, put into another's aircraft and flown; then the aircraft is bought. */
  @Test
  void anEngineComesBackInAnAircraftThatWasNeverHere() throws Exception {
    Viewer first = buyer("engine-first");
    Viewer second = buyer("engine-second");
    Instant began = clock.instant().minus(Duration.ofDays(40));
    UUID engine = hangar.engine(first, "BACK-1", began, Hangar.hours(700), Hangar.hours(200));
    UUID mine = hangar.single(first, "QX-BK1", began);
    UUID fitted = hangar.fit(first, engine, mine, "engine", began);
    seller.flown(first, mine, began.plus(Duration.ofDays(2)));
    hangar.remove(first, fitted, began.plus(Duration.ofDays(4)));
    takenIn(second, packs.made(first, PackSubject.component(engine)));
    UUID theirs = hangar.register(second, Particulars.of("QX-BK2", "Skerry 200", "S-2"), began);
    hangar.fit(second, engine, theirs, "engine", began.plus(Duration.ofDays(10)));
    seller.flown(second, theirs, began.plus(Duration.ofDays(12)));

    PackSubject subject = PackSubject.aircraft(theirs);
    Path file = packs.made(second, subject);
    UUID upload = takingIn.uploaded(first, file);
    TakingIn.Preview preview = takingIn.preview(first, upload);
    assertThat(preview.against()).isEmpty();
    assertThat(preview.mind()).anyMatch(one -> one.startsWith("A part of it was here before: "));
    takingIn.takeIn(first, upload);
    Files.delete(file);

    assertThat(totals.of(first, subject, preview.pack().parts(), View.EVERYTHING))
        .isNotEmpty()
        .isEqualTo(totals.of(second, subject, preview.pack().parts(), View.EVERYTHING));
    assertThat(fleet.sheet(first, mine, View.EVERYTHING).retired()).isFalse();
    assertThat(components.histories(first, List.of(engine), View.EVERYTHING).toString())
        .isEqualTo(components.histories(second, List.of(engine), View.EVERYTHING).toString());
    assertThat(verifier.verify(first.operatorId(), false).trouble()).isEmpty();
  }

  private void takenIn(Viewer here, Path file) throws Exception {
    takingIn.takeIn(here, takingIn.uploaded(here, file));
    Files.delete(file);
  }

  @Test
  void whatStandsHereAlreadySpeaksAgainstIt() throws Exception {
    Seller.Sold sold = seller.sold();
    Viewer here = buyer("buyer-against");
    hangar.single(here, sold.registration(), clock.instant());
    Path file = packs.made(sold.viewer(), PackSubject.aircraft(sold.aircraft()));
    UUID upload = takingIn.uploaded(here, file);
    assertThat(takingIn.preview(here, upload).against())
        .hasSize(1)
        .allMatch(one -> one.contains("has the registration " + sold.registration()));
    assertThatThrownBy(() -> takingIn.takeIn(here, upload)).isInstanceOf(Refusal.class);
    takingIn.setAside(here, upload);
    assertThatThrownBy(() -> takingIn.preview(here, upload)).isInstanceOf(NotHere.class);

    UUID own = takingIn.uploaded(sold.viewer(), file);
    assertThat(takingIn.preview(sold.viewer(), own).against())
        .containsExactly("It is this operator’s own pack: its records are here.");
    takingIn.setAside(sold.viewer(), own);

    Path part = packs.made(sold.viewer(), PackSubject.component(sold.engine()));
    UUID fitted = takingIn.uploaded(here, part);
    assertThat(takingIn.preview(here, fitted).against())
        .contains(
            "It was still fitted when the pack was made: ask for one made after its removal.");
    assertThat(takenPacks.all(here)).isEmpty();
    Files.delete(file);
    Files.delete(part);
  }

  /** But for the words that say where a record was copied from. */
  private Map<String, String> sheets(Viewer viewer, Seller.Sold sold) {
    LocalDate today = viewer.dateOf(clock.instant());
    String source = "the record of " + sold.company().name() + " for " + sold.registration();
    return statuses.of(viewer, sold.aircraft(), AsAt.on(today, today.plusDays(1))).parts().stream()
        .collect(
            Collectors.toMap(
                StatusSheet.Part::title,
                part -> part.rows().toString().replace("; " + source, "").replace(source, "")));
  }

  private List<String> due(Viewer viewer, UUID aircraft) {
    View view = View.asAt(viewer.dateOf(clock.instant()));
    return dueItems.dueItems(viewer, List.of(aircraft), view).get(aircraft).stream()
        .map(RoundTripTest::words)
        .sorted()
        .toList();
  }

  private static String words(DueItem item) {
    return item.requirementId()
        + " "
        + item.subject()
        + " "
        + item.title()
        + " "
        + item.lastDone()
        + " "
        + item.usage()
        + " "
        + item.extensions()
        + " "
        + item.reckoning();
  }

  /** But for the numbers, which are the operator's own, and triage, which is each engineer's. */
  private List<String> open(Viewer viewer, Seller.Sold sold) {
    return defects
        .of(viewer, List.of(sold.aircraft()), View.EVERYTHING)
        .getOrDefault(sold.aircraft(), List.of())
        .stream()
        .map(
            one -> one.entryId() + " " + one.words() + " " + one.lastDay() + " " + one.limitation())
        .sorted()
        .toList();
  }

  private long size(Viewer viewer) throws Exception {
    return walls.reading(viewer, () -> ledger.head(viewer.operatorId()).size());
  }

  private Viewer buyer(String name) {
    return Company.founded(
            name + "-" + UUID.randomUUID().toString().substring(0, 8), operators, members)
        .viewer(Role.CONTROLLER);
  }
}
