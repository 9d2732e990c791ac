package trestle.directives;

import static org.assertj.core.api.Assertions.assertThat;
import static org.assertj.core.api.Assertions.assertThatThrownBy;

import io.quarkus.test.junit.QuarkusTest;
import io.restassured.response.Response;
import jakarta.inject.Inject;
import java.time.Duration;
import java.time.Instant;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Test;
import trestle.fleet.Components;
import trestle.fleet.Configurations;
import trestle.fleet.Fitments;
import trestle.fleet.Fleet;
import trestle.fleet.Hangar;
import trestle.fleet.PartKind;
import trestle.fleet.Particulars;
import trestle.fleet.Position;
import trestle.fleet.Positions;
import trestle.ledger.View;
import trestle.people.Company;
import trestle.people.Members;
import trestle.people.Operators;
import trestle.people.Visitor;
import trestle.programme.Compliances;
import trestle.programme.DueItems;
import trestle.programme.NewCompliance;
import trestle.programme.RequirementRecords;
import trestle.reckoning.Counter;
import trestle.reckoning.Interval;
import trestle.reckoning.Limit;
import trestle.reckoning.Rule;
import trestle.reckoning.Usage;
import trestle.standing.DueItem;
import trestle.standing.Standing;
import trestle.standing.Standings;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Stale;
import trestle.web.Viewer;

/** What directives ask about whom, and when the question comes up again. */
@QuarkusTest
class DirectivesTest {
  private static final Rule YEARLY =
      new Rule(
          trestle.reckoning.Group.first(Limit.Every.of(Interval.parse("P12M"))),
          trestle.reckoning.Group.first(Limit.Every.of(Interval.parse("P6M")).from("effective")),
          false);

  @Inject Operators operators;
  @Inject Members members;
  @Inject Hangar hangar;
  @Inject Fleet fleet;
  @Inject Components components;
  @Inject Fitments fitments;
  @Inject Positions positions;
  @Inject Directives directives;
  @Inject Assessments assessments;
  @Inject Status status;
  @Inject Standings standings;
  @Inject DueItems dueItems;
  @Inject RequirementRecords requirementRecords;
  @Inject Compliances compliances;
  @Inject Configurations configurations;
  @Inject InstantSource clock;

  private static Company company;
  private static int marks = 100;

  private Viewer owner;
  private Instant began;
  private LocalDate today;
  private LocalDate effective;

  @BeforeEach
  void found() {
    if (company == null) {
      company = Company.founded("directives-" + UUID.randomUUID(), operators, members);
    }
    owner = company.viewer(Role.OWNER);
    began = clock.instant().minus(Duration.ofDays(60));
    today = owner.dateOf(clock.instant());
    effective = today.minusDays(20);
  }

  @Test
  void aMandatoryDirectiveHoldsUntilItIsJudgedOrWaived() {
    String type = newType();
    UUID aircraft = aircraft(type, "0318");
    UUID other = aircraft(type, "0900");
    ParagraphSheet rails =
        paragraph(
            NewDirective.of("The authority", number(), effective, "Seat rails"),
            NewParagraph.of(
                "(a)", "Seat rails", Applicability.ofTypes("0301 through 0500", type), YEARLY));

    assertThat(reasons(aircraft, today))
        .singleElement()
        .asString()
        .contains("(a) is to be assessed: never assessed");
    assertThat(standing(other).isClear()).isTrue();
    assertThat(line(other, rails).judged())
        .isEqualTo(
            new Judged(
                Judged.State.NOT_NAMED, "Type " + type + ", serials 0301 through 0500", null));

    judge(rails, aircraft, Verdict.WAIVED, "Parts come on Friday", today.plusDays(5));
    assertThat(standing(aircraft).isClear()).isTrue();
    assertThat(reasons(aircraft, today.plusDays(5))).isEmpty();
    assertThat(reasons(aircraft, today.plusDays(6)))
        .singleElement()
        .asString()
        .contains("its waiver ended on");

    judge(rails, aircraft, Verdict.DOES_NOT, "Rails of the later pattern, modification 12", null);
    assertThat(standing(aircraft).isClear()).isTrue();
    assertThat(line(aircraft, rails).judged().why()).contains("modification 12");
  }

  @Test
  void whatIsRefusedSaysWhy() {
    String type = newType();
    UUID aircraft = aircraft(type, "7");
    ParagraphSheet some =
        paragraph(
            NewDirective.of("The authority", number(), effective, "Something"),
            NewParagraph.of("", "Something", Applicability.ofTypes("1 to 9", type), YEARLY));
    assertThatThrownBy(() -> judge(some, aircraft, Verdict.DOES_NOT, " ", null))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("Reason is needed");
    assertThatThrownBy(() -> judge(some, aircraft, Verdict.WAIVED, "Later", null))
        .hasMessageContaining("a waiver has an end");
    assertThatThrownBy(() -> judge(some, aircraft(type, "12"), Verdict.APPLIES, "", null))
        .hasMessageContaining("is not among those it names");
    assertThatThrownBy(
            () ->
                assessments.assess(
                    company.viewer(Role.PILOT),
                    NewAssessment.ofAircraft(some, aircraft, Verdict.APPLIES, "", now())))
        .hasMessageContaining("owners, controllers and engineers");

    Rule lenient = Rule.first(Limit.Every.of(Counter.HOURS, "100").tolerance("10"));
    assertThatThrownBy(
            () ->
                directives.addParagraph(
                    owner,
                    some.directiveId(),
                    NewParagraph.of("(b)", "B", Applicability.ofTypes("all", type), lenient),
                    null))
        .hasMessageContaining("no tolerance");
    NewDirective twice =
        NewDirective.of(
            "the AUTHORITY", directives.one(owner, some.directiveId()).number(), effective, "X");
    assertThatThrownBy(() -> directives.enter(owner, twice, null))
        .hasMessageContaining("here already");

    directives.reviseParagraph(
        owner,
        some.id(),
        some.rowId(),
        NewParagraph.of("", "Something", Applicability.ofTypes("all", type), YEARLY),
        false,
        "Misread",
        null);
    assertThatThrownBy(() -> judge(some, aircraft, Verdict.APPLIES, "", null))
        .isInstanceOf(Stale.class);
  }

  @Test
  void whatAppliesOpensOneRequirementAndANewRevisionAsksAgain() {
    String type = newType();
    UUID aircraft = aircraft(type, "7");
    NewDirective entered = NewDirective.of("The authority", number(), effective, "Clamps");
    ParagraphSheet clamps =
        paragraph(
            entered, NewParagraph.of("(a)", "Clamps", Applicability.ofTypes("all", type), YEARLY));

    judge(clamps, aircraft, Verdict.APPLIES, "", null);
    judge(clamps, aircraft, Verdict.APPLIES, "Seen again", null);
    DueItem item = onlyItem(aircraft);
    assertThat(item.title()).isEqualTo(entered.number() + " (a) Clamps");
    assertThat(item.kind()).isEqualTo("directive");
    assertThat(item.isMandatory()).isTrue();
    assertThat(standing(aircraft).isClear()).isTrue();

    UUID id = clamps.directiveId();
    LocalDate later = today.minusDays(2);
    directives.revise(
        owner, id, row(id), entered.revised("2", later), false, "Revision 2 came", null);
    assertThat(reasons(aircraft, today))
        .singleElement()
        .asString()
        .contains("assessed before the directive was revised");
    assertThat(reasons(aircraft, today.minusDays(3)).toString())
        .as("as at a day before it took effect")
        .doesNotContain("revised");

    judge(clamps, aircraft, Verdict.APPLIES, "", null);
    assertThat(standing(aircraft).isClear()).isTrue();
    assertThat(onlyItem(aircraft).requirementId()).isEqualTo(item.requirementId());
    assertThat(requirementRecords.history(owner, item.requirementId()).revisions()).hasSize(2);

    NewDirective written =
        new NewDirective(
            "The authority",
            entered.number(),
            false,
            true,
            "2",
            later,
            "Exhaust clamps",
            "",
            null,
            List.of());
    directives.revise(owner, id, row(id), written, false, "A slip of the pen", null);
    assertThat(standing(aircraft).isClear()).as("only the writing was put right").isTrue();
  }

  /** The magneto that a directive names by its serial range, swapped between two aircraft. */
  @Test
  void swappingAPartAsksAgainWhereItIsFittedNow() {
    String part = "MG-" + ++marks;
    UUID one = withMagneto(newType());
    UUID two = withMagneto(newType());
    UUID named = magneto(part, "1100");
    UUID notNamed = magneto(part, "2000");
    UUID first = hangar.fit(owner, named, one, "magneto-left", began);
    UUID second = hangar.fit(owner, notNamed, two, "magneto-left", began);
    ParagraphSheet points =
        paragraph(
            NewDirective.of("The authority", number(), effective, "Magneto points"),
            NewParagraph.of(
                "(a)",
                "Magneto points",
                Applicability.ofParts("1001 through 1475 except 1130", part),
                YEARLY));
    LocalDate yesterday = today.minusDays(1);
    assertThat(reasons(one, today)).hasSize(1);
    assertThat(standing(two).isClear()).isTrue();
    assessments.assess(
        owner,
        NewAssessment.asFitted(
            points, named, Verdict.APPLIES, "", now().minus(Duration.ofDays(5))));
    assertThat(standing(one).isClear()).isTrue();
    UUID requirement = onlyItem(one).requirementId();

    swap(first, named, one, second, notNamed, two, now().minusSeconds(40));

    assertThat(line(two, points).judged().why()).isEqualTo("fitted here since");
    assertThat(reasons(two, today)).singleElement().asString().contains("serial 1100");
    assertThat(line(one, points).judged().state()).isEqualTo(Judged.State.NOT_NAMED);
    assertThat(standing(one).isClear()).isTrue();
    assertThat(items(one, today)).isEmpty();
    assertThat(onlyItem(two).requirementId()).as("its life moved with it").isEqualTo(requirement);

    assertThat(state(one, yesterday)).containsExactly(Judged.State.APPLIES);
    assertThat(state(two, yesterday)).containsExactly(Judged.State.NOT_NAMED);
    assertThat(items(one, yesterday)).hasSize(1);

    assessments.assess(
        owner,
        NewAssessment.asFitted(points, named, Verdict.APPLIES, "", now()).followingThePart());
    assertThat(standing(two).isClear()).isTrue();
    UUID back = fitting(two, named);
    UUID there = fitting(one, notNamed);
    swap(back, named, two, there, notNamed, one, now());
    assertThat(line(one, points).judged().state())
        .as("a judgement that rests on the part follows it")
        .isEqualTo(Judged.State.APPLIES);
    assertThat(standing(one).isClear()).isTrue();
    assertThat(onlyItem(one).requirementId()).isEqualTo(requirement);
  }

  @Test
  void aSerialThatIsChangedOrCantBeReadIsAskedAbout() {
    String type = newType();
    UUID aircraft = aircraft(type, "12");
    UUID blurred = aircraft(type, "?");
    ParagraphSheet some =
        paragraph(
            NewDirective.of("The authority", number(), effective, "Spar"),
            NewParagraph.of("", "Spar", Applicability.ofTypes("1 to 20", type), YEARLY));
    assertThat(line(blurred, some).judged().why())
        .isEqualTo("never assessed; whether serial ? is named can’t be told");
    assertThat(standing(blurred).isHeld()).isTrue();

    judge(some, aircraft, Verdict.DOES_NOT, "Steel spar", null);
    assertThat(standing(aircraft).isClear()).isTrue();
    var sheet = fleet.sheet(owner, aircraft, View.EVERYTHING);
    fleet.revise(
        owner,
        aircraft,
        new Fleet.Revising(
            sheet.revisionId(),
            Particulars.of(sheet.registration(), type, "13"),
            today,
            "Plate read again",
            null));
    assertThat(line(aircraft, some).judged().why())
        .isEqualTo("assessed as " + type + ", serial 12");
    assertThat(standing(aircraft).isHeld()).isTrue();
  }

  @Test
  void aTerminatingActionEndsWhatItNamesAndACorrectionBringsItBack() {
    String type = newType();
    UUID aircraft = aircraft(type, "12");
    Applicability whom = Applicability.ofTypes("all", type);
    ParagraphSheet repeated =
        paragraph(
            NewDirective.of("The authority", number(), effective, "Hinges"),
            NewParagraph.of("(a)", "Hinge inspection", whom, YEARLY));
    UUID replacing =
        directives.addParagraph(
            owner,
            repeated.directiveId(),
            NewParagraph.of(
                    "(b)",
                    "Hinge replacement",
                    whom,
                    Rule.first(Limit.Every.of(Interval.parse("P24M")).from("effective")).onlyOnce())
                .terminating(repeated.id()),
            null);
    ParagraphSheet replacement = directives.paragraph(owner, replacing);
    judge(repeated, aircraft, Verdict.APPLIES, "", null);
    judge(replacement, aircraft, Verdict.APPLIES, "", null);
    assertThat(items(aircraft, today)).hasSize(2);

    UUID requirement = line(aircraft, replacement).judged().assessment().requirementId();
    UUID done =
        compliances.file(
            owner,
            NewCompliance.transcribed(
                requirement, aircraft, null, now(), Usage.NONE, "Log 3, page 9"));
    assertThat(onlyItem(aircraft).requirementId()).isEqualTo(requirement);
    assertThat(line(aircraft, repeated).judged().state()).isEqualTo(Judged.State.ENDED);

    compliances.voided(owner, done, "Another aircraft's", null);
    assertThat(items(aircraft, today)).hasSize(2);
    assertThat(line(aircraft, repeated).judged().state()).isEqualTo(Judged.State.APPLIES);
  }

  @Test
  void aDirectiveThatTakesAnothersPlaceEndsItAndIsAskedAboutItself() {
    String type = newType();
    UUID aircraft = aircraft(type, "12");
    Applicability whom = Applicability.ofTypes("all", type);
    ParagraphSheet old =
        paragraph(
            NewDirective.of("The authority", number(), effective, "Old"),
            NewParagraph.of("", "Old", whom, YEARLY));
    judge(old, aircraft, Verdict.APPLIES, "", null);
    assertThat(items(aircraft, today)).hasSize(1);

    LocalDate coming = today.plusDays(3);
    ParagraphSheet next =
        paragraph(
            NewDirective.of("The authority", number(), coming, "New")
                .superseding(old.directiveId()),
            NewParagraph.of("", "New", whom, YEARLY));
    assertThat(standing(aircraft).isClear()).as("not in effect yet").isTrue();
    assertThat(items(aircraft, today)).hasSize(1);
    assertThat(items(aircraft, coming)).isEmpty();
    assertThat(reasons(aircraft, coming)).singleElement().asString().contains("never assessed");

    judge(next, aircraft, Verdict.APPLIES, "", null);
    assertThat(reasons(aircraft, coming)).isEmpty();
    assertThat(items(aircraft, coming)).hasSize(1);
  }

  /** Only where a modification is carried out, as the configuration has it and not a person. */
  @Test
  void whereAModificationIsThereTheConfigurationSays() {
    String type = newType();
    UUID aircraft = aircraft(type, "12");
    Rule rule = Rule.first(Limit.Every.of(Interval.parse("P12M")).from("effective"));
    ParagraphSheet floats =
        paragraph(
            NewDirective.of("The authority", number(), effective, "Float struts"),
            NewParagraph.of("", "Float struts", Applicability.ofTypes("all", type), rule)
                .only("FLOATS-2", true));
    assertThat(line(aircraft, floats).judged().why())
        .isEqualTo("never assessed; whether FLOATS-2 was carried out is not recorded");
    assertThat(standing(aircraft).isHeld()).isTrue();

    UUID kit = modified(aircraft, null, false, now().minus(Duration.ofDays(9)));
    assertThat(line(aircraft, floats).judged().state()).isEqualTo(Judged.State.NOT_NAMED);
    assertThat(standing(aircraft).isClear()).isTrue();
    assertThatThrownBy(() -> judge(floats, aircraft, Verdict.APPLIES, "", null))
        .isInstanceOf(Refusal.class)
        .hasMessageContaining("The configuration of its aircraft says otherwise");

    modified(aircraft, kit, true, now().minus(Duration.ofDays(3)));
    assertThat(reasons(aircraft, today)).singleElement().asString().contains("never assessed");
    assertThat(reasons(aircraft, today.minusDays(5))).as("as at a day before it was").isEmpty();
    judge(floats, aircraft, Verdict.APPLIES, "", null);
    assertThat(items(aircraft, today)).hasSize(1);
    modified(aircraft, kit, false, now());
    assertThat(items(aircraft, today)).as("taken off, nothing falls due from it").isEmpty();
    modified(aircraft, kit, true, now());
    assertThat(items(aircraft, today)).hasSize(1);
  }

  /** What took an older judgement's place does not give it back when it lapses. */
  @Test
  void aLapsedJudgementAsksAgainWhateverWasJudgedBefore() {
    String type = newType();
    UUID aircraft = aircraft(type, "12");
    Rule rule = Rule.first(Limit.Every.of(Interval.parse("P12M")).from("effective"));
    ParagraphSheet floats =
        paragraph(
            NewDirective.of("The authority", number(), effective, "Float struts"),
            NewParagraph.of("", "Float struts", Applicability.ofTypes("all", type), rule)
                .only("FLOATS-2", true));
    judge(floats, aircraft, Verdict.APPLIES, "", null);
    Instant before = now().minus(Duration.ofDays(1));
    assessments.assess(
        owner, NewAssessment.ofAircraft(floats, aircraft, Verdict.DOES_NOT, "No floats", before));
    assertThat(items(aircraft, today)).isEmpty();
    modified(aircraft, null, true, now());
    assertThat(line(aircraft, floats).judged().state()).isEqualTo(Judged.State.TO_BE_ASSESSED);
    assertThat(standing(aircraft).isHeld()).isTrue();
    judge(floats, aircraft, Verdict.APPLIES, "", null);
    assertThat(items(aircraft, today)).hasSize(1);
  }

  /** Revised from a day to come: until then what is in force is judged, and stands. */
  @Test
  void aRevisionStillToComeIsNotJudgedToday() {
    String type = newType();
    UUID aircraft = aircraft(type, "12");
    NewDirective first = NewDirective.of("The authority", number(), effective, "Rails");
    ParagraphSheet rails =
        paragraph(first, NewParagraph.of("", "Rails", Applicability.ofTypes("all", type), YEARLY));
    directives.revise(
        owner,
        rails.directiveId(),
        row(rails.directiveId()),
        new NewDirective(
            first.issuer(),
            first.number(),
            first.bulletin(),
            first.mandatory(),
            "2",
            today.plusDays(30),
            first.title(),
            first.textReference(),
            null,
            first.supersedes()),
        false,
        "Revision 2",
        null);
    judge(rails, aircraft, Verdict.WAIVED, "Parts come on Friday", today.plusDays(5));
    assertThat(standing(aircraft).isClear()).isTrue();
    judge(rails, aircraft, Verdict.DOES_NOT, "Later pattern", null);
    assertThat(standing(aircraft).isClear()).isTrue();
    assertThat(reasons(aircraft, today.plusDays(31)))
        .singleElement()
        .asString()
        .contains("assessed before the directive was revised");
  }

  @Test
  void whatIsNamedNoMoreCanBeJudgedAway() {
    String type = newType();
    UUID aircraft = aircraft(type, "12");
    ParagraphSheet some =
        paragraph(
            NewDirective.of("The authority", number(), effective, "Struts"),
            NewParagraph.of("", "Struts", Applicability.ofTypes("1 to 20", type), YEARLY));
    judge(some, aircraft, Verdict.APPLIES, "", null);
    assertThat(items(aircraft, today)).hasSize(1);
    directives.reviseParagraph(
        owner,
        some.id(),
        some.rowId(),
        NewParagraph.of("", "Struts", Applicability.ofTypes("1 to 9", type), YEARLY),
        false,
        "Corrected by the authority",
        null);
    ParagraphSheet now = directives.paragraph(owner, some.id());
    assertThatThrownBy(() -> judge(now, aircraft, Verdict.APPLIES, "", null))
        .hasMessageContaining("is not among those it names");
    judge(now, aircraft, Verdict.DOES_NOT, "Not named any more", null);
    assertThat(items(aircraft, today)).isEmpty();
  }

  /** Two people revise at once: the second sees what the first filed, and his own, and is told. */
  @Test
  void whoComesSecondSeesBothVersions() {
    String type = newType();
    ParagraphSheet some =
        paragraph(
            NewDirective.of("The authority", number(), effective, "Struts"),
            NewParagraph.of("(a)", "Struts", Applicability.ofTypes("1 to 9", type), YEARLY));
    Visitor visitor = company.visitor(Role.OWNER);
    String page = "/directives/" + some.directiveId() + "/revision";
    Visitor.Filled mine =
        visitor.filled(page, "/revision", Map.of("title", "My own title", "reason", "Read again"));
    NewDirective theirs =
        NewDirective.of(
            "The authority",
            directives.one(owner, some.directiveId()).number(),
            effective,
            "Their title");
    directives.revise(
        owner, some.directiveId(), row(some.directiveId()), theirs, false, "First come", null);
    Response told = visitor.send(mine);
    assertThat(told.statusCode()).isEqualTo(409);
    assertThat(told.asString()).contains("<dd>Their title</dd>").contains("value=\"My own title\"");
    Response sent = visitor.send(Visitor.filledIn(told.asString(), page, "/revision", Map.of()));
    assertThat(sent.statusCode()).isEqualTo(303);
    assertThat(directives.one(owner, some.directiveId()).title()).isEqualTo("My own title");

    String of = "/paragraphs/" + some.id() + "/revision";
    Visitor.Filled second =
        visitor.filled(of, "/revision", Map.of("title", "My struts", "reason", "Read again"));
    directives.reviseParagraph(
        owner,
        some.id(),
        some.rowId(),
        NewParagraph.of("(a)", "Their struts", Applicability.ofTypes("all", type), YEARLY),
        false,
        "First come",
        null);
    Response again = visitor.send(second);
    assertThat(again.statusCode()).isEqualTo(409);
    assertThat(again.asString())
        .contains("<dd>(a) Their struts</dd>")
        .contains("value=\"My struts\"");
  }

  private UUID modified(UUID aircraft, UUID kit, boolean embodied, Instant at) {
    return configurations.state(
        owner,
        aircraft,
        new Configurations.NewModification(
            kit,
            "FLOATS-2",
            "Floats",
            false,
            true,
            "",
            "",
            "",
            "",
            embodied,
            at,
            kit == null ? null : "Season",
            null));
  }

  private ParagraphSheet paragraph(NewDirective directive, NewParagraph paragraph) {
    UUID id = directives.enter(owner, directive, null);
    return directives.paragraph(owner, directives.addParagraph(owner, id, paragraph, null));
  }

  private void judge(
      ParagraphSheet paragraph, UUID aircraft, Verdict verdict, String why, LocalDate lastDay) {
    assessments.assess(
        owner, NewAssessment.ofAircraft(paragraph, aircraft, verdict, why, now()).upTo(lastDay));
  }

  private UUID row(UUID directive) {
    return directives.one(owner, directive).rowId();
  }

  private Instant now() {
    return clock.instant();
  }

  private static String number() {
    return "X-" + ++marks;
  }

  private static String newType() {
    return "Skerry " + ++marks;
  }

  /** Without engine and propeller positions, so that only directives can hold it. */
  private UUID aircraft(String type, String serial) {
    return fleet.register(
        owner,
        new Fleet.Registering(
            Particulars.of("QX-D" + ++marks, type, serial),
            List.of(),
            began,
            Map.of(Counter.HOURS, Hangar.hours(6_000)),
            null));
  }

  private UUID withMagneto(String type) {
    UUID aircraft = aircraft(type, "S-" + ++marks);
    positions.setPosition(
        owner, aircraft, new Position("magneto-left", PartKind.OTHER, "Left magneto", false), null);
    return aircraft;
  }

  private UUID magneto(String part, String serial) {
    return components.register(
        owner,
        new Components.Registering(
            PartKind.OTHER,
            part,
            serial,
            "Magneto",
            "Tarn Works",
            began,
            Map.of(Counter.HOURS, new Components.Run(0L, 0L)),
            null,
            null,
            null));
  }

  private void swap(
      UUID first, UUID part, UUID from, UUID second, UUID other, UUID with, Instant at) {
    hangar.remove(owner, first, at);
    hangar.remove(owner, second, at);
    hangar.fit(owner, part, with, "magneto-left", at);
    hangar.fit(owner, other, from, "magneto-left", at);
  }

  private UUID fitting(UUID aircraft, UUID component) {
    return components.fittings(owner, List.of(aircraft), View.asAt(today)).get(aircraft).stream()
        .filter(one -> one.isFitted() && one.componentId().equals(component))
        .findFirst()
        .orElseThrow()
        .fitmentId();
  }

  private Standing standing(UUID aircraft) {
    return standings.now(owner, List.of(aircraft), today).get(aircraft).standing();
  }

  private List<String> reasons(UUID aircraft, LocalDate day) {
    return standings
        .asAt(owner, List.of(aircraft), View.asAt(day))
        .get(aircraft)
        .standing()
        .reasons()
        .stream()
        .map(reason -> reason.sentence())
        .toList();
  }

  private Status.Line line(UUID aircraft, ParagraphSheet paragraph) {
    return status.ofAircraft(owner, List.of(aircraft), View.asAt(today)).get(aircraft).stream()
        .filter(line -> line.paragraph().id().equals(paragraph.id()))
        .findFirst()
        .orElseThrow();
  }

  private List<Judged.State> state(UUID aircraft, LocalDate day) {
    return status
        .ofAircraft(owner, List.of(aircraft), View.asAt(day))
        .getOrDefault(aircraft, List.of())
        .stream()
        .map(line -> line.judged().state())
        .toList();
  }

  private List<DueItem> items(UUID aircraft, LocalDate day) {
    return dueItems.dueItems(owner, List.of(aircraft), View.asAt(day)).get(aircraft);
  }

  private DueItem onlyItem(UUID aircraft) {
    List<DueItem> items = items(aircraft, today);
    assertThat(items).hasSize(1);
    return items.get(0);
  }
}
