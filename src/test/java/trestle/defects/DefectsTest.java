package trestle.defects;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import java.util.concurrent.Callable;
import java.util.concurrent.CountDownLatch;
import java.util.concurrent.ExecutorService;
import java.util.concurrent.Executors;
import java.util.concurrent.Future;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.fleet.Hangar;
import trestle.flights.FlightDraft;
import trestle.flights.JourneyLog;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.IdentityProof;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.standing.Reason;
import trestle.standing.Standings;
import trestle.web.NotHere;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/** Reporting, correcting, closing: what is kept, what holds, and what is refused. */
@QuarkusTest
class DefectsTest {
  private static final Instant BEGINNING = Instant.parse("2025-01-01T00:00:00Z");
  private static final Instant FOUND = Instant.parse("2025-03-10T14:00:00Z");
  private static final LocalDate DAY = LocalDate.of(2025, 3, 20);
  private static int companies;

  @Inject Defects defects;
  @Inject Rectifications rectifications;
  @Inject DefectBook book;
  @Inject OpenDefects open;
  @Inject Repeats repeats;
  @Inject AbnormalEvents events;
  @Inject EventInspections inspections;
  @Inject EventKinds kinds;
  @Inject Occurrences occurrences;
  @Inject Photos photos;
  @Inject Standings standings;
  @Inject Hangar hangar;
  @Inject JourneyLog log;
  @Inject Operators operators;
  @Inject Members members;
  @Inject IdentityProof identity;

  private Company company;
  private Viewer pilot;
  private Viewer engineer;
  private UUID aircraft;

  @BeforeEach
  void found() {
    company = Company.founded("defects-" + companies++, operators, members);
    pilot = company.viewer(Role.PILOT);
    engineer = company.viewer(Role.ENGINEER);
    members.addLicence(
        company.viewer(Role.OWNER),
        engineer.personId(),
        new Members.NewLicence("E-1", "Licensed engineer", "", "", null));
    aircraft = hangar.single(company.viewer(Role.OWNER), "QX-SOR", BEGINNING);
  }

  @Test
  void mustNotFlyHoldsFromTheMomentItIsFiledUntilItIsPutRight() {
    assertThat(reasons()).isEmpty();
    UUID defect = report("Brake pedal goes to the floor", Judgement.MUST_NOT_FLY, FOUND);
    assertThat(reasons())
        .allMatch(Reason::holds)
        .extracting(reason -> reason.sentence() + " " + reason.link())
        .containsExactly(
            "Defect No. 1, must not fly: Brake pedal goes to the floor. /defects/" + defect);
    rectify(defect, "Seal replaced", FOUND.plus(Duration.ofDays(2)));
    assertThat(reasons()).isEmpty();
    assertThat(book.entry(pilot, defect).isOpen()).isFalse();
    View dayBetween = View.asAt(LocalDate.of(2025, 3, 11));
    assertThat(open.of(pilot, List.of(aircraft), dayBetween).get(aircraft)).hasSize(1);
    assertThat(open.of(pilot, List.of(aircraft), View.asAt(LocalDate.of(2025, 3, 9)))).isEmpty();
  }

  @Test
  void canFlyHoldsTooUnderThePlainRulesUntilSomebodyHasLookedAtIt() {
    report("Cabin light dim", Judgement.CAN_FLY, FOUND);
    assertThat(reasons().get(0).sentence())
        .isEqualTo("Defect No. 1, not yet triaged: Cabin light dim.");
    assertThat(reasons()).hasSize(1);
  }

  @Test
  void oneFormIsFiledOnceAndAnswersTheSame() {
    UUID key = UUID.randomUUID();
    DefectDraft draft = draft("Oil on the nose leg", Judgement.CAN_FLY, FOUND);
    PhotoDraft photo = photos.prepare(pilot, Snaps.jpeg(64, 48));
    Defects.Reported first = defects.report(pilot, aircraft, draft, List.of(photo), null, key);
    PhotoDraft again = photos.prepare(pilot, Snaps.jpeg(64, 48));
    assertThat(again.picture()).as("kept already, not looked into again").isNull();
    assertThat(defects.report(pilot, aircraft, draft, List.of(again), null, key)).isEqualTo(first);
    DefectDraft other = draft("Oil on the tail", Judgement.CAN_FLY, FOUND);
    assertThatThrownBy(() -> defects.report(pilot, aircraft, other, List.of(photo), null, key))
        .isInstanceOf(Stale.class);
    assertThatThrownBy(() -> defects.report(pilot, aircraft, draft, List.of(), null, key))
        .isInstanceOf(Stale.class);
    assertThat(open.of(pilot, List.of(aircraft), View.asAt(DAY)).get(aircraft)).hasSize(1);
  }

  @Test
  void numbersHaveNoGapsWhateverIsRefusedOrComesAtOnce() throws Exception {
    report("First", Judgement.CAN_FLY, FOUND);
    DefectDraft nothing = draft(" ", Judgement.CAN_FLY, FOUND);
    assertThatThrownBy(() -> defects.report(pilot, aircraft, nothing, List.of(), null, null))
        .isInstanceOf(Refusal.class);
    UUID other = hangar.single(company.viewer(Role.OWNER), "QX-TIR", BEGINNING);
    List<Callable<Long>> many = new ArrayList<>();
    for (int i = 0; i < 12; i++) {
      DefectDraft draft = draft("At once " + i, Judgement.CAN_FLY, FOUND);
      UUID on = i % 2 == 0 ? aircraft : other;
      many.add(() -> defects.report(pilot, on, draft, List.of(), null, null).number());
    }
    ExecutorService people = Executors.newFixedThreadPool(4);
    List<Long> numbers = new ArrayList<>();
    for (Future<Long> number : people.invokeAll(many)) {
      numbers.add(number.get());
    }
    people.shutdown();
    assertThat(numbers)
        .containsExactlyInAnyOrder(2L, 3L, 4L, 5L, 6L, 7L, 8L, 9L, 10L, 11L, 12L, 13L);
  }

  @Test
  void aCorrectionKeepsNumberAndDateAndNeverTakesMustNotFlyBack() {
    UUID defect = report("Crack in the left strutt", Judgement.MUST_NOT_FLY, FOUND);
    DefectDraft right = draft("Crack in the left strut", Judgement.MUST_NOT_FLY, Instant.now());
    DefectDraft lower = draft("Crack in the left strut", Judgement.CAN_FLY, FOUND);
    assertThatThrownBy(() -> defects.correct(pilot, defect, lower, List.of(), "Slip", null))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("not taken back");
    assertThatThrownBy(() -> defects.correct(pilot, defect, right, List.of(), " ", null))
        .isInstanceOf(Refusal.class);
    defects.correct(pilot, defect, right, List.of(), "Slip of the pen", null);
    DefectBook.Entry entry = book.entry(pilot, defect);
    assertThat(entry.rows()).hasSize(2);
    assertThat(entry.current().number()).isEqualTo(1);
    assertThat(entry.current().foundOn()).isEqualTo(LocalDate.of(2025, 3, 10));
    assertThat(entry.current().defect().discoveredAt()).isEqualTo(FOUND);
    assertThat(entry.current().defect().words()).isEqualTo("Crack in the left strut");
    assertThat(reasons()).allMatch(Reason::holds).hasSize(1);
    assertThatThrownBy(() -> defects.correct(pilot, defect, right, List.of(), "Again", null))
        .isInstanceOf(Stale.class);
  }

  @Test
  void whatIsWrongInItselfIsRefused() {
    assertThat(fields(draft("x".repeat(2_001), Judgement.CAN_FLY, FOUND))).containsExactly("words");
    assertThat(fields(draft("Hum", null, FOUND))).containsExactly("judgement");
    assertThat(fields(draft("Hum", Judgement.CAN_FLY, Instant.now().plusSeconds(600))))
        .containsExactly("found-on");
    DefectDraft nowhere =
        new DefectDraft(
            "Hum", "99", "", null, UUID.randomUUID(), Judgement.CAN_FLY, null, false, "", FOUND);
    assertThat(fields(nowhere)).containsExactly("system");
    DefectDraft theirs =
        new DefectDraft(
            "Hum", "24", "", null, UUID.randomUUID(), Judgement.CAN_FLY, null, false, "", FOUND);
    assertThat(fields(theirs)).containsExactly("component");
    DefectDraft good = draft("Hum", Judgement.CAN_FLY, FOUND);
    assertThatThrownBy(() -> defects.report(pilot, UUID.randomUUID(), good, List.of(), null, null))
        .isInstanceOf(NotHere.class);
  }

  @Test
  void onlyUnderALicenceGoodThatDayIsADefectClosed() {
    UUID defect = report("Hum", Judgement.CAN_FLY, FOUND);
    members.addLicence(
        company.viewer(Role.OWNER),
        engineer.personId(),
        new Members.NewLicence("E-OLD", "Licensed engineer", "", "", LocalDate.of(2025, 3, 11)));
    Instant later = FOUND.plus(Duration.ofDays(5));
    for (String licence : List.of("E-OLD", "E-2", "")) {
      assertThatThrownBy(
              () ->
                  rectifications.rectify(
                      engineer,
                      identity.prove(engineer, Company.PASSWORD),
                      defect,
                      new CertifiedWork("Done", "Manual", licence, later),
                      null))
          .isInstanceOf(Refusal.class)
          .hasMessageContaining("Licence");
    }
    assertThatThrownBy(() -> rectify(defect, "Done", FOUND.minus(Duration.ofDays(2))))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("before the defect was found");
    assertThatThrownBy(() -> identity.prove(engineer, "wrong")).isInstanceOf(Refusal.class);
    assertThat(book.entry(pilot, defect).isOpen()).isTrue();
  }

  @Test
  void ofTwoEngineersWhoCloseADefectAtOnceOneIsTold() throws Exception {
    UUID defect = report("Hum", Judgement.CAN_FLY, FOUND);
    var proof = identity.prove(engineer, Company.PASSWORD);
    CountDownLatch go = new CountDownLatch(1);
    Callable<String> close =
        () -> {
          go.await();
          try {
            rectifications.rectify(
                engineer,
                proof,
                defect,
                new CertifiedWork("Done", "Manual", "E-1", FOUND.plusSeconds(60)),
                null);
            return "closed";
          } catch (Stale stale) {
            return stale.getMessage();
          }
        };
    ExecutorService people = Executors.newFixedThreadPool(2);
    List<Future<String>> answers = List.of(people.submit(close), people.submit(close));
    go.countDown();
    List<String> told = List.of(answers.get(0).get(), answers.get(1).get());
    people.shutdown();
    assertThat(told)
        .containsExactlyInAnyOrder(
            "closed", "Defect No. 1 was rectified since you opened this form. Nothing was filed.");
  }

  @Test
  void whatWasDoneMayBePutRightAndTheOriginalIsKept() {
    UUID defect = report("Hum", Judgement.CAN_FLY, FOUND);
    UUID done = rectify(defect, "Belt tightenned", FOUND.plusSeconds(3_600));
    rectifications.correct(
        engineer,
        identity.prove(engineer, Company.PASSWORD),
        done,
        new CertifiedWork("Belt replaced", "Manual", "E-1", FOUND.plusSeconds(3_600)),
        "Wrong line",
        null);
    assertThat(book.entry(pilot, defect).done())
        .extracting(RectificationSheet::done)
        .containsExactly("Belt tightenned", "Belt replaced");
    assertThat(reasons()).isEmpty();
  }

  @Test
  void aRectificationThatIsTakenAwayOpensItsDefectAgainAndItIsClosedAnewOnce() {
    UUID defect = report("Brake soft", Judgement.MUST_NOT_FLY, FOUND);
    UUID done = rectify(defect, "Bled", FOUND.plusSeconds(3_600));
    assertThat(reasons()).isEmpty();
    var proof = identity.prove(engineer, Company.PASSWORD);
    TakingAway why = new TakingAway("Another aircraft's", "E-1");
    assertThatThrownBy(
            () -> rectifications.takeAway(engineer, proof, done, new TakingAway(" ", "E-1"), null))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Reason");
    Viewer controller = company.viewer(Role.CONTROLLER);
    var theirs = identity.prove(controller, Company.PASSWORD);
    assertThatThrownBy(() -> rectifications.takeAway(controller, theirs, done, why, null))
        .isInstanceOf(Refusal.class);
    UUID key = UUID.randomUUID();
    UUID taken = rectifications.takeAway(engineer, proof, done, why, key);
    assertThat(rectifications.takeAway(engineer, proof, done, why, key)).isEqualTo(taken);
    assertThat(reasons()).hasSize(1).allMatch(Reason::holds);
    DefectBook.Entry entry = book.entry(pilot, defect);
    assertThat(entry.isOpen()).isTrue();
    assertThat(entry.rectification()).isNull();
    assertThat(entry.line().state()).isEqualTo("reported");
    assertThat(entry.doneLatestFirst())
        .extracting(row -> row.done() + (row.voided() ? ", away: " + row.reason() : ""))
        .containsExactly("Bled, away: Another aircraft's", "Bled");
    assertThatThrownBy(() -> rectifications.takeAway(engineer, proof, done, why, null))
        .isInstanceOf(Stale.class);
    assertThatThrownBy(
            () ->
                rectifications.correct(
                    engineer,
                    proof,
                    taken,
                    new CertifiedWork("Bled", "Manual", "E-1", FOUND.plusSeconds(60)),
                    "Again",
                    null))
        .isInstanceOf(Stale.class);

    rectify(defect, "Cylinder replaced", FOUND.plusSeconds(7_200));
    assertThat(reasons()).isEmpty();
    assertThat(book.entry(pilot, defect).rectification().done()).isEqualTo("Cylinder replaced");
    assertThat(book.entry(pilot, defect).done()).hasSize(3);
    assertThatThrownBy(() -> rectify(defect, "Once more", FOUND.plusSeconds(7_300)))
        .isInstanceOf(Stale.class);
  }

  @Test
  void whatOldPapersSayWasDoneIsCopiedMarkedAndPutRightWithoutASignature() {
    Viewer controller = company.viewer(Role.CONTROLLER);
    UUID defect = report("Lamp dead", Judgement.CAN_FLY, FOUND);
    Instant then = FOUND.plusSeconds(3_600);
    var without = new Rectifications.Old("Lamp replaced", "", " ", "", then);
    assertThatThrownBy(() -> rectifications.transcribe(controller, defect, without, null))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Copied from");
    var old = new Rectifications.Old("Lamp replased", "", "log 3, page 41", "S. Brandt", then);
    assertThatThrownBy(() -> rectifications.transcribe(pilot, defect, old, null))
        .isInstanceOf(Refusal.class);
    UUID copied = rectifications.transcribe(controller, defect, old, null);
    assertThat(reasons()).isEmpty();
    var right = new Rectifications.Old("Lamp replaced", "", "log 3, page 41", "S. Brandt", then);
    UUID correction = rectifications.correct(controller, copied, right, "Slip", null);
    assertThat(book.entry(pilot, defect).rectification().marked())
        .isEqualTo("Lamp replaced (transcribed from log 3, page 41)");
    var proof = identity.prove(engineer, Company.PASSWORD);
    var work = new CertifiedWork("Lamp replaced", "Manual", "E-1", then);
    assertThatThrownBy(
            () -> rectifications.correct(engineer, proof, correction, work, "Mine", null))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("as a copy");
    rectifications.takeAway(controller, null, correction, new TakingAway("Of QX-TIR", ""), null);
    assertThat(book.entry(pilot, defect).isOpen()).isTrue();
    assertThat(reasons()).hasSize(1);
  }

  @Test
  void whatCameBackIsSuggestedByChapterAndPlaceAndWhatWasDoneThenIsShown() {
    UUID first = on(aircraft, "24", "left engine", null, FOUND);
    rectify(first, "Belt tightened", FOUND.plusSeconds(3_600));
    UUID elsewhere = on(aircraft, "24", "tail", null, FOUND.plus(Duration.ofDays(1)));
    UUID otherSystem = on(aircraft, "33", "left engine", null, FOUND.plus(Duration.ofDays(2)));
    UUID now = on(aircraft, "24", "Left engine", null, FOUND.plus(Duration.ofDays(9)));
    assertThat(earlier(now)).extracting(one -> one.defect().entryId()).containsExactly(first);
    Earlier one = earlier(now).get(0);
    assertThat(one.done()).isEqualTo("Belt tightened");
    assertThat(one.why()).isEqualTo("same aircraft, same place, 9 days and 0 flights before");
    assertThat(one.confirmed()).isFalse();
    assertThat(earlier(elsewhere)).isEmpty();
    assertThat(earlier(otherSystem)).isEmpty();

    UUID said = on(aircraft, "24", "", null, FOUND.plus(Duration.ofDays(10)));
    assertThat(earlier(said)).as("no place said: its chapter must do").hasSize(3);

    repeats.say(pilot, now, first, false, "Another sound", null);
    assertThat(earlier(now)).isEmpty();
    repeats.say(engineer, now, first, true, "", null);
    assertThat(earlier(now).get(0).confirmed()).isTrue();
  }

  @Test
  void longAgoIsNoRepeatUnlessTheAircraftHardlyFlew() {
    UUID first = on(aircraft, "24", "left engine", null, FOUND);
    UUID now = on(aircraft, "24", "left engine", null, FOUND.plus(Duration.ofDays(200)));
    assertThat(earlier(now)).as("it has not flown since").hasSize(1);
    fly(aircraft, 1, 120);
    assertThat(earlier(now)).as("after 120 flights").isEmpty();
    repeats.say(engineer, now, first, true, "", null);
    assertThat(earlier(now)).as("a person knows better").hasSize(1);
    UUID again = on(aircraft, "24", "left engine", null, FOUND.plus(Duration.ofDays(210)));
    assertThat(earlier(again))
        .as("what the nearer one was confirmed to be comes along")
        .extracting(one -> one.defect().entryId())
        .containsExactly(now, first);
    assertThat(earlier(again).get(1).why()).endsWith("confirmed to be what No. 2 was");
    repeats.say(engineer, again, first, false, "Another wire", null);
    assertThat(earlier(again)).hasSize(1);
  }

  @Test
  void aPartTakesItsDefectsAlongToTheNextAircraft() {
    Viewer owner = company.viewer(Role.OWNER);
    UUID other = hangar.single(owner, "QX-TIR", BEGINNING);
    UUID engine = hangar.engine(owner, "T-1", BEGINNING, Hangar.hours(10), Hangar.hours(10));
    UUID fitted = hangar.fit(owner, engine, aircraft, "engine", BEGINNING.plusSeconds(60));
    UUID first = on(aircraft, "74", "", engine, FOUND);
    hangar.remove(owner, fitted, FOUND.plus(Duration.ofDays(1)));
    hangar.fit(owner, engine, other, "engine", FOUND.plus(Duration.ofDays(2)));
    UUID now = on(other, "74", "", engine, FOUND.plus(Duration.ofDays(3)));
    UUID unlike = on(other, "74", "", null, FOUND.plus(Duration.ofDays(4)));
    assertThat(earlier(now)).extracting(one -> one.defect().entryId()).containsExactly(first);
    assertThat(earlier(now).get(0).why())
        .isEqualTo("then on QX-SOR, same part, 3 days and 0 flights before");
    assertThat(earlier(unlike)).extracting(one -> one.defect().entryId()).containsExactly(now);
  }

  @Test
  void theFlightsOfAPartCountOnEveryAircraftItFlewOn() {
    Viewer owner = company.viewer(Role.OWNER);
    UUID other = hangar.single(owner, "QX-TIR", BEGINNING);
    UUID engine = hangar.engine(owner, "T-1", BEGINNING, Hangar.hours(10), Hangar.hours(10));
    UUID fitted = hangar.fit(owner, engine, aircraft, "engine", BEGINNING.plusSeconds(60));
    UUID first = on(aircraft, "74", "", engine, FOUND);
    fly(aircraft, 1, 5);
    hangar.remove(owner, fitted, FOUND.plus(Duration.ofDays(10)));
    fly(aircraft, 11, 60);
    fly(other, 11, 20);
    hangar.fit(owner, engine, other, "engine", FOUND.plus(Duration.ofDays(80)));
    fly(other, 81, 88);
    UUID now = on(other, "74", "", engine, FOUND.plus(Duration.ofDays(100)));
    assertThat(earlier(now)).as("long ago, but few flights").hasSize(1);
    assertThat(earlier(now).get(0).defect().entryId()).isEqualTo(first);
    assertThat(earlier(now).get(0).why())
        .isEqualTo("then on QX-SOR, same part, 100 days and 13 flights before");
    fly(other, 90, 92);
    assertThat(earlier(now)).as("after 16 flights with it").isEmpty();
  }

  /** A flight on each of these days after the defect was found. */
  private void fly(UUID which, int fromDay, int toDay) {
    List<FlightDraft> flights = new ArrayList<>();
    for (int day = fromDay; day <= toDay; day++) {
      Instant off = FOUND.plus(Duration.ofDays(day));
      flights.add(FlightDraft.of("A", "A", off, off.plus(Duration.ofHours(1)), 1, "I. Tarn"));
    }
    log.fileAll(pilot, which, flights);
  }

  @Test
  void anAbnormalEventHoldsUntilItsInspectionIsCertified() {
    UUID event =
        events.report(
            pilot,
            aircraft,
            new AbnormalEvents.NewEvent("heavy-landing", "Dropped from a metre", FOUND),
            List.of(),
            null,
            null);
    assertThat(reasons().get(0).sentence())
        .isEqualTo("Heavy landing on 10 March 2025: waits for its inspection to be certified.");
    var asked = new CertifiedWork("Nothing found", "Manual 5-50", "E-9", FOUND);
    var proof = identity.prove(engineer, Company.PASSWORD);
    assertThatThrownBy(() -> inspections.certify(engineer, proof, event, asked, null))
        .isInstanceOf(Refusal.class);
    var right = new CertifiedWork("Nothing found", "Manual 5-50", "E-1", FOUND);
    inspections.certify(engineer, proof, event, right, null);
    assertThat(reasons()).isEmpty();
    assertThatThrownBy(() -> inspections.certify(engineer, proof, event, right, null))
        .isInstanceOf(Stale.class);
  }

  @Test
  void oneFormOfAnEventIsFiledOnceAndTakesNoOtherContent() {
    UUID key = UUID.randomUUID();
    var hail = new AbnormalEvents.NewEvent("hail", "Marble-sized", FOUND);
    List<PhotoDraft> photo = List.of(photos.prepare(pilot, Snaps.jpeg(64, 48)));
    UUID event = events.report(pilot, aircraft, hail, photo, null, key);
    assertThat(events.report(pilot, aircraft, hail, photo, null, key)).isEqualTo(event);
    Instant soon = FOUND.plusSeconds(60);
    var timed = new AbnormalEvents.NewEvent("hail", "Marble-sized", soon);
    var dayAlone = new AbnormalEvents.NewEvent("hail", "Marble-sized", soon, false);
    assertThat(events.report(pilot, aircraft, dayAlone, photo, null, key))
        .as("a day alone is now, another now each time")
        .isEqualTo(event);
    assertThatThrownBy(() -> events.report(pilot, aircraft, timed, photo, null, key))
        .isInstanceOf(Stale.class);
    assertThatThrownBy(() -> events.report(pilot, aircraft, hail, List.of(), null, key))
        .isInstanceOf(Stale.class);
    UUID flight = UUID.randomUUID();
    assertThatThrownBy(() -> events.report(pilot, aircraft, hail, photo, flight, key))
        .isInstanceOf(Stale.class);
    assertThatThrownBy(() -> events.correct(pilot, event, hail, List.of(), "Slip", key))
        .isInstanceOf(Stale.class);

    UUID other = UUID.randomUUID();
    var words = new AbnormalEvents.NewEvent("hail", "Pea-sized", FOUND);
    events.correct(pilot, event, words, List.of(), "Measured", other);
    assertThat(events.correct(pilot, event, words, List.of(), "Measured", other)).isEqualTo(event);
    List<PhotoDraft> more = List.of(photos.prepare(pilot, Snaps.jpeg(80, 48)));
    assertThatThrownBy(() -> events.correct(pilot, event, words, more, "Measured", other))
        .isInstanceOf(Stale.class);
    assertThat(events.entry(pilot, event).rows()).hasSize(2);
  }

  @Test
  void anEventAndItsInspectionArePutRightAndTakenAwayAgain() {
    var hail = new AbnormalEvents.NewEvent("hail", "Marble-sized", FOUND);
    UUID event = events.report(pilot, aircraft, hail, List.of(), null, null);
    var lightning = new AbnormalEvents.NewEvent("lightning-strike", "And a flash", FOUND);
    assertThatThrownBy(() -> events.correct(pilot, event, lightning, List.of(), "", null))
        .isInstanceOf(Refusal.class);
    for (Role role : List.of(Role.PILOT, Role.CONTROLLER, Role.OWNER)) {
      Viewer other = company.viewer(role);
      assertThatThrownBy(() -> events.correct(other, event, lightning, List.of(), "Flash", null))
          .isInstanceOf(Refusal.class)
          .hasMessageContaining("an engineer corrects what happened, or report the other event");
    }
    events.correct(engineer, event, lightning, List.of(), "Asked the passengers", null);
    assertThatThrownBy(() -> events.correct(pilot, event, hail, List.of(), "Late", null))
        .isInstanceOf(Stale.class);
    EventEntry entry = events.entry(pilot, event);
    assertThat(entry.rows())
        .extracting(EventSheet::kindCode)
        .containsExactly("hail", "lightning-strike");
    assertThat(entry.current().number()).isEqualTo(1);
    assertThat(reasons()).hasSize(1).allMatch(Reason::holds);

    var proof = identity.prove(engineer, Company.PASSWORD);
    var work = new CertifiedWork("Nothing", "Manual 5-50", "E-1", FOUND.plusSeconds(60));
    UUID inspection = inspections.certify(engineer, proof, event, work, null);
    UUID row = entry.current().id();
    assertThatThrownBy(() -> events.correct(pilot, row, hail, List.of(), "No flash", null))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("its inspection is certified");
    var later =
        new AbnormalEvents.NewEvent("lightning-strike", "Flash", FOUND.plus(Duration.ofDays(1)));
    assertThatThrownBy(() -> events.correct(pilot, row, later, List.of(), "Next day", null))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("must not be after the day of its inspection");
    var found = new CertifiedWork("One burn mark", "Manual 5-50", "E-1", FOUND.plusSeconds(60));
    UUID corrected = inspections.correct(engineer, proof, inspection, found, "Forgot it", null);
    assertThat(events.entry(pilot, event).inspections()).hasSize(2);
    assertThat(events.entry(pilot, event).inspection().found()).isEqualTo("One burn mark");
    assertThat(reasons()).isEmpty();

    TakingAway why = new TakingAway("Of another aircraft", "E-1");
    inspections.takeAway(engineer, proof, corrected, why, null);
    assertThat(reasons()).hasSize(1).allMatch(Reason::holds);
    assertThatThrownBy(() -> inspections.takeAway(engineer, proof, corrected, why, null))
        .isInstanceOf(Stale.class);
    inspections.certify(engineer, proof, event, work, null);
    assertThat(reasons()).isEmpty();
    assertThatThrownBy(() -> inspections.certify(engineer, proof, event, work, null))
        .isInstanceOf(Stale.class);

    UUID other = events.report(pilot, aircraft, hail, List.of(), null, null);
    assertThat(reasons()).hasSize(1);
    var theirs = identity.prove(pilot, Company.PASSWORD);
    assertThatThrownBy(() -> events.takeAway(pilot, theirs, other, why, null))
        .isInstanceOf(Refusal.class);
    events.takeAway(engineer, proof, other, why, null);
    assertThat(reasons()).isEmpty();
    assertThat(events.entry(pilot, other).isOpen()).isFalse();
    assertThatThrownBy(() -> inspections.certify(engineer, proof, other, work, null))
        .isInstanceOf(Stale.class);
  }

  @Test
  void anEventKeepsTheWordsItsKindHadThatDay() {
    Viewer owner = company.viewer(Role.OWNER);
    UUID event =
        events.report(
            pilot,
            aircraft,
            new AbnormalEvents.NewEvent("hail", "Marble-sized", FOUND),
            List.of(),
            null,
            null);
    kinds.state(owner, "hail", "Hail of any size", "Manual 5-51", null);
    assertThat(events.entry(pilot, event).current().kindName()).isEqualTo("Hail");
    assertThat(kinds.find(pilot, "hail").inspection()).isEqualTo("Manual 5-51");
    kinds.withdraw(owner, "hail");
    assertThatThrownBy(() -> kinds.find(pilot, "hail")).isInstanceOf(Refusal.class);
    kinds.state(owner, null, "Hail", "Manual 5-52", null);
    assertThat(kinds.all(pilot)).extracting(EventKind::code).contains("hail-2");
  }

  @Test
  void aMissedWarningIsFollowedUpUntilItsReportWasSent() {
    DefectDraft missed =
        new DefectDraft(
            "Door light was on all the way",
            "52",
            "",
            Phase.CRUISE,
            null,
            Judgement.CAN_FLY,
            NoticedBy.LOOKING,
            true,
            "low on the left of the panel",
            FOUND);
    UUID defect = defects.report(pilot, aircraft, missed, List.of(), null, null).entryId();
    assertThat(occurrences.followUp(engineer).unassessed())
        .extracting(line -> line.defect().entryId())
        .containsExactly(defect);
    UUID occurrence =
        occurrences.flag(
            engineer,
            defect,
            new Occurrences.NewOccurrence(
                true, "warning not seen", "The authority", FOUND.plusSeconds(96 * 3_600), ""),
            null);
    Occurrences.FollowUp list = occurrences.followUp(engineer);
    assertThat(list.unassessed()).isEmpty();
    assertThat(list.open()).hasSize(1).allMatch(Occurrences.Line::late);
    occurrences.sent(engineer, occurrence, FOUND.plusSeconds(3_600), "Letter 12", null);
    assertThat(occurrences.followUp(engineer).open()).isEmpty();
    assertThat(occurrences.followUp(engineer).settled())
        .extracting(Occurrences.Line::sentOn)
        .containsExactly(LocalDate.of(2025, 3, 10));
    assertThatThrownBy(
            () -> occurrences.sent(engineer, occurrence, FOUND.plusSeconds(7_200), "", null))
        .isInstanceOf(Stale.class);
  }

  @Test
  void whatNeedNotBeReportedSaysWhy() {
    UUID defect = report("Hum", Judgement.CAN_FLY, FOUND);
    var without = new Occurrences.NewOccurrence(false, "", "", null, " ");
    assertThatThrownBy(() -> occurrences.flag(engineer, defect, without, null))
        .isInstanceOf(Refusal.class);
    occurrences.flag(
        engineer, defect, new Occurrences.NewOccurrence(false, "", "", null, "Only a hum"), null);
    assertThat(occurrences.followUp(engineer).settled()).hasSize(1);
  }

  @Test
  void aFlightAndItsDefectAreFiledInOneTransactionByManyAtOnce() throws Exception {
    UUID other = hangar.single(company.viewer(Role.OWNER), "QX-TIR", BEGINNING);
    List<Callable<Long>> many = new ArrayList<>();
    for (int i = 0; i < 8; i++) {
      Instant off = FOUND.plus(Duration.ofHours(3 * i));
      UUID on = i % 2 == 0 ? aircraft : other;
      many.add(() -> both.file(pilot, on, off));
      many.add(
          () ->
              defects
                  .report(pilot, on, draft("Alone", Judgement.CAN_FLY, off), List.of(), null, null)
                  .number());
    }
    ExecutorService people = Executors.newFixedThreadPool(4);
    List<Long> numbers = new ArrayList<>();
    for (Future<Long> number : people.invokeAll(many)) {
      numbers.add(number.get());
    }
    people.shutdown();
    assertThat(numbers).doesNotHaveDuplicates().hasSize(16).allMatch(number -> number <= 16);
  }

  @Inject Both both;

  private List<Earlier> earlier(UUID defect) {
    return repeats.of(pilot, List.of(defect)).getOrDefault(defect, List.of());
  }

  private UUID on(UUID which, String chapter, String place, UUID component, Instant at) {
    DefectDraft draft =
        new DefectDraft(
            "Something hums",
            chapter,
            place,
            null,
            component,
            Judgement.CAN_FLY,
            null,
            false,
            "",
            at);
    return defects.report(pilot, which, draft, List.of(), null, null).entryId();
  }

  private UUID report(String words, Judgement judgement, Instant at) {
    return defects
        .report(pilot, aircraft, draft(words, judgement, at), List.of(), null, null)
        .entryId();
  }

  private static DefectDraft draft(String words, Judgement judgement, Instant at) {
    return new DefectDraft(words, null, "", null, null, judgement, null, false, "", at);
  }

  private UUID rectify(UUID defect, String done, Instant at) {
    return rectifications.rectify(
        engineer,
        identity.prove(engineer, Company.PASSWORD),
        defect,
        new CertifiedWork(done, "Manual 24-30", "E-1", at),
        null);
  }

  private List<String> fields(DefectDraft draft) {
    try {
      defects.report(pilot, aircraft, draft, List.of(), null, null);
      return List.of();
    } catch (Refusal refusal) {
      return refusal.reasons().stream().map(Refusal.Reason::field).toList();
    }
  }

  /** What this room's records do to the standing; its engine's place is empty besides. */
  private List<Reason> reasons() {
    LocalDate today = pilot.dateOf(Instant.now());
    return standings
        .now(pilot, List.of(aircraft), today)
        .get(aircraft)
        .standing()
        .reasons()
        .stream()
        .filter(reason -> reason.link().matches("/(defects|abnormal-events)/.*"))
        .toList();
  }
}
