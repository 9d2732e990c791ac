package trestle.demo;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.entry;

import io.quarkus.test.junit.QuarkusTest;
import jakarta.inject.Inject;
import java.sql.SQLException;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.temporal.ChronoUnit;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.ValueSource;
import trestle.defects.DefectBook;
import trestle.defects.Earlier;
import trestle.defects.OpenDefects;
import trestle.defects.Repeats;
import trestle.directives.Status;
import trestle.directives.Surveys;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.programme.DueItems;
import trestle.reckoning.LimitReckoning;
import trestle.reckoning.State;
import trestle.server.TestDatabase;
import trestle.server.TheClock;
import trestle.standing.DueItem;
import trestle.standing.Standings;
import trestle.web.Viewer;

/** On any day it is told, one aircraft is held, one is limited, and the others are clear. */
@QuarkusTest
class DemoLoaderTest {
  private static final ZoneId ZONE = ZoneId.of("America/St_Johns");

  @Inject DemoLoader loader;
  @Inject Fleet fleet;
  @Inject DueItems source;
  @Inject Status status;
  @Inject Surveys surveys;
  @Inject Standings standings;
  @Inject OpenDefects open;
  @Inject DefectBook book;
  @Inject Repeats repeats;
  @Inject TheClock clock;

  @ParameterizedTest
  @ValueSource(strings = {"2026-07-15", "2027-01-10", "2028-02-29", "2026-11-01"})
  void theStoryEndsAsToldOnAnyDay(LocalDate today) throws Exception {
    Instant now = today.atTime(9, 30).atZone(ZONE).toInstant();
    loader.setAside(today);
    DemoLoader.Loaded loaded = loader.load(now, Map.of(), people -> {});

    Map<String, List<DueItem>> items =
        clock.telling(now, () -> itemsByRegistration(loaded.owner(), today));

    assertThat(items).containsOnlyKeys("QX-SOR", "QX-WIC", "QX-AUK", "QX-TBC", "QX-KEL");
    assertThat(reasons(items.get("QX-TBC")))
        .containsExactly("X-2021-11 (a) Exhaust clamps: repeated inspection, overdue, -2.3");
    assertThat(reasons(items.get("QX-SOR")))
        .containsExactly("100-hour inspection, in-tolerance, -1.5");
    for (String clear : List.of("QX-WIC", "QX-AUK", "QX-KEL")) {
      assertThat(reasons(items.get(clear))).as(clear).isEmpty();
    }
    assertThat(items.values()).allSatisfy(of -> assertThat(of).hasSizeGreaterThan(12));
    assertEngineExtended(items.get("QX-WIC"));
    Surveys.Page page = Surveys.Page.first(10);
    View view = View.asAt(today);
    assertThat(clock.telling(now, () -> surveys.toBeAssessed(loaded.owner(), page, view)).rows())
        .as("directives that nobody assessed")
        .isZero();
    clock.telling(now, () -> assertDefectsAsTold(loaded.owner(), today));
    assertMagnetoJudgedWhereItIs(loaded.owner(), today);
    assertLedgerHoldsEveryFiledRow(loaded.operatorId());
    assertOneGapAndNoOverlap(loaded.operatorId());
  }

  /** Deferred in each category, none run out, and none that changes what an aircraft stands at. */
  private Void assertDefectsAsTold(Viewer viewer, LocalDate today) {
    Map<UUID, String> registrations = new HashMap<>();
    fleet
        .sheets(viewer, View.asAt(today))
        .forEach(sheet -> registrations.put(sheet.id(), sheet.registration()));
    Map<String, String> words = new HashMap<>();
    standings
        .now(viewer, registrations.keySet(), today)
        .forEach((id, one) -> words.put(registrations.get(id), one.standing().word().word()));
    assertThat(words)
        .containsOnly(
            entry("QX-TBC", "held"),
            entry("QX-SOR", "limited"),
            entry("QX-WIC", "clear"),
            entry("QX-AUK", "clear"),
            entry("QX-KEL", "clear"));
    List<String> deferred = new ArrayList<>();
    List<UUID> rectified = new ArrayList<>();
    open.of(viewer, registrations.keySet(), View.asAt(today))
        .forEach(
            (id, lines) ->
                lines.stream()
                    .filter(line -> line.state().equals("deferred"))
                    .peek(line -> assertThat(line.stateWords()).contains("Transcribed from"))
                    .forEach(
                        line ->
                            deferred.add(
                                registrations.get(id)
                                    + " "
                                    + line.stateWords().replaceAll("^Deferred |[,.] .*|,$", "")
                                    + " "
                                    + days(today, line.lastDay()))));
    assertThat(deferred)
        .containsExactlyInAnyOrder(
            "QX-KEL by item 22-10-01 ",
            "QX-TBC by item 34-10-02 2",
            "QX-SOR by item 33-11-01 1",
            "QX-WIC by item 33-20-03 90",
            "QX-AUK without a list ");
    book.page(viewer, null, true, 1)
        .entries()
        .forEach(defect -> rectified.add(defect.current().entryId()));
    List<String> cameBack = new ArrayList<>();
    repeats
        .of(viewer, rectified)
        .forEach(
            (id, earlier) ->
                earlier.stream()
                    .filter(Earlier::confirmed)
                    .forEach(one -> cameBack.add(one.done().replaceAll("[;(].*", "").strip())));
    assertThat(cameBack).containsExactlyInAnyOrder("Belt tightened", "Voltage regulator replaced");
    return null;
  }

  private static String days(LocalDate today, LocalDate last) {
    return last == null ? "" : Long.toString(ChronoUnit.DAYS.between(today, last));
  }

  /** What holds or limits, as "title, state, left of the controlling limit". */
  private static List<String> reasons(List<DueItem> items) {
    return items.stream()
        .filter(DueItem::isMandatory)
        .filter(
            item ->
                List.of(State.DUE, State.IN_TOLERANCE, State.OVERDUE, State.UNKNOWN)
                    .contains(item.state()))
        .map(item -> item.title() + ", " + item.state().word() + ", " + item.controlling().left())
        .toList();
  }

  /** The magneto that a directive names is on the list of the aircraft that carries it. */
  private void assertMagnetoJudgedWhereItIs(Viewer owner, LocalDate today) {
    assertThat(judged(owner, "QX-SOR", today.minusDays(60))).contains("2207 APPLIES");
    assertThat(judged(owner, "QX-WIC", today.minusDays(60))).doesNotContain("2207 APPLIES");
    assertThat(judged(owner, "QX-WIC", today)).contains("2207 APPLIES");
    assertThat(judged(owner, "QX-SOR", today)).doesNotContain("2207 APPLIES");
  }

  private List<String> judged(Viewer owner, String registration, LocalDate day) {
    View view = View.asAt(day);
    UUID aircraft =
        fleet.sheets(owner, view).stream()
            .filter(sheet -> sheet.registration().equals(registration))
            .findFirst()
            .orElseThrow()
            .id();
    return status.ofAircraft(owner, List.of(aircraft), view).get(aircraft).stream()
        .map(line -> line.item().serial() + " " + line.judged().state())
        .toList();
  }

  private static void assertEngineExtended(List<DueItem> items) {
    DueItem overhaul =
        items.stream()
            .filter(item -> item.title().equals("Engine overhaul"))
            .findFirst()
            .orElseThrow();
    assertThat(overhaul.extensions()).hasSize(1);
    // By hours, whichever limit controls: in winter the calendar comes first at the rate flown.
    assertThat(overhaul.reckoning().entries())
        .filteredOn(entry -> entry instanceof LimitReckoning limit && limit.extended())
        .singleElement()
        .satisfies(entry -> assertThat(((LimitReckoning) entry).left()).hasToString("139"));
  }

  private Map<String, List<DueItem>> itemsByRegistration(Viewer viewer, LocalDate today) {
    View view = View.asAt(today);
    Map<UUID, String> registrations = new HashMap<>();
    for (AircraftSheet sheet : fleet.sheets(viewer, view)) {
      registrations.put(sheet.id(), sheet.registration());
    }
    Map<String, List<DueItem>> items = new HashMap<>();
    source
        .dueItems(viewer, registrations.keySet(), view)
        .forEach((id, of) -> items.put(registrations.get(id), of));
    return items;
  }

  private static void assertLedgerHoldsEveryFiledRow(UUID operator) throws SQLException {
    long filed = 0;
    for (String table :
        texts(
            "select c.relname from pg_class c join pg_attribute a on a.attrelid = c.oid"
                + " where c.relkind = 'r' and c.relnamespace = 'public'::regnamespace"
                + " and a.attname = 'ledger_seq'")) {
      filed += number("select count(*) from " + table + " where operator_id = '" + operator + "'");
    }
    assertThat(filed).isGreaterThan(1_000);
    assertThat(number("select size from ledger_head where operator_id = '" + operator + "'"))
        .isEqualTo(filed);
    assertThat(
            number(
                "select count(*) from ledger_entry a join ledger_entry b"
                    + " on b.operator_id = a.operator_id and b.seq = a.seq + 1"
                    + " where a.operator_id = '"
                    + operator
                    + "' and b.recorded_at < a.recorded_at"))
        .as("told in order")
        .isZero();
  }

  private static void assertOneGapAndNoOverlap(UUID operator) throws SQLException {
    assertThat(
            texts(
                "select kind from flight_break where operator_id = '" + operator + "' order by 1"))
        .containsExactly("gap", "place");
  }

  private static long number(String sql) throws SQLException {
    return Long.parseLong(texts(sql).get(0));
  }

  private static List<String> texts(String sql) throws SQLException {
    List<String> texts = new ArrayList<>();
    try (var connection = TestDatabase.asSuperuser();
        var statement = connection.createStatement();
        var rows = statement.executeQuery(sql)) {
      while (rows.next()) {
        texts.add(rows.getString(1));
      }
    }
    return texts;
  }
}
