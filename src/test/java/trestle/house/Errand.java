package trestle.house;

import java.util.HashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Stream;
import trestle.house.Yard.Rows;
import trestle.people.Company;
import trestle.profiles.PilotTask;

/**
 * What somebody does with one form: where it stands, what is typed, what is typed wrongly, and what
 * the page that follows then shows.
 *
 * @param route of the form, as {@link Routes} writes it
 * @param wrong the field that is filled in wrongly, or null where nothing can be
 * @param shows what stands on the page that follows
 */
record Errand(
    String route,
    String page,
    String sends,
    Map<String, ?> fields,
    String wrong,
    String wrongly,
    String shows) {

  private static final String AIRCRAFT = "/aircraft/{id}";

  /** One for every form of an operator's pages, in an order in which each finds what it needs. */
  static List<Errand> of(Rows rows) {
    String aircraft = "/aircraft/" + rows.aircraft();
    String engine = "/components/" + rows.engine();
    String spare = "/components/" + rows.spare();
    String requirement = "/requirements/" + rows.requirement();
    String flight = "/flights/" + rows.flight();
    String member = "/members/" + rows.member();
    String on = "?aircraft=" + rows.aircraft();
    String lifting = "/groundings/" + rows.grounding() + "/lifting";
    String voiding = "/extensions/" + rows.extension() + "/voiding";
    String correction = "/corrections/" + rows.fitment();
    String defect = "/defects/" + rows.defect();
    String rectification = "/rectifications/" + rows.rectification();
    String report = "/occurrences/" + rows.occurrence() + "/report";
    String event = "/abnormal-events/" + rows.event();
    String inspection = event + "/inspection";
    String inspected = "/event-inspections/" + rows.inspection();
    String kind = "/abnormal-event-kinds/" + rows.eventKind();
    String earlier = "/defects/" + rows.earlierDefect();
    String reading = "/fuel-and-oil/" + rows.reading();
    String waiting = "/defects/" + rows.waiting();
    String deferral = "/deferrals/" + rows.deferral();
    String directive = "/directives/" + rows.directive();
    String paragraph = "/paragraphs/" + rows.paragraph();
    return Stream.concat(
            ofTheWorkshop(rows).stream(),
            Stream.of(
                on(AIRCRAFT + "/particulars", aircraft + "/particulars", "/particulars")
                    .with("built", "2001", "reason", "Plate read again")
                    .wrongly("built", "20x1")
                    .shows("Plate read again"),
                on("/verification", "/verification", "/verification")
                    .with("outside", "")
                    .wrongly("outside", "TRESTLE-PROOF-1.nothing")
                    .shows("All records are as they were filed."),
                on(AIRCRAFT + "/rates", aircraft + "/rates", "/rates")
                    .with("counter", "hours", "rate", "0.75")
                    .wrongly("rate", "1.2.3")
                    .shows("0.75 h a day"),
                on(AIRCRAFT + "/positions", aircraft + "/positions", "/positions")
                    .with("code", "tail-box", "label", "Tail box", "kind", "other")
                    .wrongly("code", "Tail Box!")
                    .shows("Tail box"),
                on(
                        AIRCRAFT + "/positions/{code}/withdrawal",
                        aircraft + "/positions",
                        "/tail-box/withdrawal")
                    .shows("Spare bay"),
                on(
                        AIRCRAFT + "/acceptance",
                        "/aircraft/" + rows.ready() + "/pre-flight",
                        "/acceptance")
                    .with("inspected", "yes", "accepts", "yes", "fuel", "120")
                    .with("password", Company.PASSWORD)
                    .wrongly("fuel", "1.2.3")
                    .shows("with 120 litres of fuel"),
                on("/check-lists/revision", "/check-lists/revision?kind=walk-round", "/revision")
                    .with("lines", "Left wing: skin <all> & flap")
                    .wrongly("lines", "")
                    .shows("Left wing: skin &lt;all&gt; &amp; flap"),
                on(AIRCRAFT + "/meter-changes", aircraft + "/meter-changes/new", "/meter-changes")
                    .with("off-reading", "1,234.5", "on-reading", "0.0")
                    .wrongly("off-reading", "12:75")
                    .shows("1234.5"),
                on(AIRCRAFT + "/modifications", aircraft + "/modifications/new", "/modifications")
                    .with("code", "floats-2", "title", "Floats <2> & wires", "kind", "modification")
                    .wrongly("code", "Floats 2!")
                    .shows("Floats &lt;2&gt; &amp; wires"),
                on(AIRCRAFT + "/equipment", aircraft + "/equipment/new", "/equipment")
                    .with("name", "Cabin heater", "state", "inoperative", "placard", "INOP <heat>")
                    .wrongly("name", "")
                    .shows("INOP &lt;heat&gt;"),
                on(AIRCRAFT + "/weights", aircraft + "/weights/new", "/weights")
                    .with("kind", "weighing", "what", "Weighed <dry>", "weight", "812.5")
                    .with("weight-unit", "kg", "arm", "1040", "arm-unit", "mm")
                    .wrongly("weight", "1.2.3")
                    .shows("812.5 kg"),
                on(AIRCRAFT + "/groundings", aircraft + "/groundings", "/groundings")
                    .with("why", "Hail <on> the wing & tail")
                    .wrongly("why", "")
                    .shows("Hail &lt;on&gt; the wing &amp; tail"),
                on(AIRCRAFT + "/groundings/{grounding}/lifting", aircraft + lifting, lifting)
                    .with("done", "Skin inspected, none found")
                    .wrongly("done", "")
                    .shows("Skin inspected, none found"),
                on(
                        "/record-packs/uploads/{upload}/taking-in",
                        "/record-packs/uploads/" + rows.handed().upload(),
                        "/taking-in")
                    .shows("filed here as copied"),
                on(
                        "/record-packs/uploads/{upload}/setting-aside",
                        "/record-packs/uploads/" + rows.handed().other(),
                        "/setting-aside")
                    .shows("Records from other operators"),
                on("/components", "/components/new", "/components")
                    .with(
                        "description",
                        "Engine Tarn 360",
                        "part-number",
                        "TARN-360",
                        "serial",
                        "N-9")
                    .with("hours-new", "1,234:30", "new-on", "1 Jun 2019")
                    .wrongly("hours-new", "1e3")
                    .shows("N-9"),
                on("/components/{id}/fitments", spare + "/fitments", "/fitments")
                    .with("place", rows.aircraft() + "/spare-bay")
                    .wrongly("time", "25:61")
                    .shows("Fitted to"),
                on("/components/{id}/removals", spare + "/removals", "/removals")
                    .with("why", "Borrowed no longer")
                    .wrongly("on", "31 Feb 2026")
                    .shows("Removed from"),
                on("/components/{id}/overhauls", spare + "/overhauls", "/overhauls")
                    .with("reference", "Work order 77")
                    .wrongly("on", "2199-01-01")
                    .shows("Work order 77"),
                on("/components/{id}/corrections/{record}", engine + correction, correction)
                    .with("reason", "Read from the wrong line")
                    .wrongly("reason", "")
                    .shows("Fitted to"),
                on("/components/{id}/events", spare + "/events", "/events")
                    .with("kind", "inspected", "why", "Filter <clean> & dry")
                    .wrongly("on", "31 Feb 2026")
                    .shows("Inspected: Filter &lt;clean&gt; &amp; dry"),
                on("/components/{id}/meter-readings", spare + "/meter-readings", "/meter-readings")
                    .with("reading", "12.5")
                    .wrongly("reading", "1e3")
                    .shows("Its own meter read 12.5 h"),
                on("/components/{id}/particulars", spare + "/particulars", "/particulars")
                    .with("owner", "Lessor & Co", "reason", "Leased in")
                    .wrongly("from", "31 Feb 2026")
                    .shows("owned by Lessor &amp; Co"),
                on("/components/{id}/swaps", engine + "/swaps", "/swaps")
                    .with("other", rows.spare().toString(), "why", "Rough running")
                    .wrongly("why", "")
                    .shows("Rough running"),
                on("/parts", "/parts/new", "/parts")
                    .with("part-number", "PN-9", "description", "Impulse coupling")
                    .wrongly("description", "")
                    .shows("PN-9"),
                on("/parts/{id}/revision", "/parts/" + rows.part() + "/revision", "/revision")
                    .with(
                        "fits-positions",
                        "engine-2",
                        "fits-why",
                        "turns left",
                        "reason",
                        "Data read")
                    .wrongly("description", "")
                    .shows("turns left"),
                on(AIRCRAFT + "/flights", aircraft + "/flights/new", "/flights")
                    .with("date", rows.today().minusDays(3).toString(), "from", "Port Maddern")
                    .with("to", "Skell Island", "take-off", "09:12", "landing", "10:18")
                    .with(
                        "remarks", "Smooth <all the way>", "meter-out", "10.0", "meter-in", "11.1")
                    .wrongly("landing", "10:81")
                    .shows("Smooth &lt;all the way&gt;"),
                on(AIRCRAFT + "/reports", aircraft + "/reports/new", "/reports")
                    .with("date", rows.today().minusDays(2).toString(), "from", "Skell Island")
                    .with("to", "Port Maddern", "take-off", "09:12", "landing", "10:18")
                    .with("anything-wrong", "defect", "words", "Radio crackles on 2")
                    .with("judgement", "can-fly")
                    .wrongly("landing", "10:81")
                    .shows("Radio crackles on 2"),
                on(
                        "/flights/{id}/explanations",
                        flight + "/explanations?kind=overlap",
                        "/explanations")
                    .with("explanation", "The other one is wrong")
                    .wrongly("explanation", "")
                    .shows("The other one is wrong"),
                on("/flights/{id}/correction", flight + "/correction", "/correction")
                    .with("landing", "10:40", "reason", "Misread the clock")
                    .wrongly("reason", "")
                    .shows("Misread the clock"),
                on("/programmes", "/programmes/new", "/programmes")
                    .with("name", "Programme of the floats", "type", "Skerry 200")
                    .wrongly("from", "soon")
                    .shows("Programme of the floats"),
                on(
                        "/programmes/{id}/correction",
                        "/programmes/" + rows.programme() + "/correction",
                        "/correction")
                    .with("source-reference", "Manual, revision 12", "reason", "A slip")
                    .wrongly("reason", "")
                    .shows("Manual, revision 12"),
                on(AIRCRAFT + "/programme/adoptions", aircraft + "/programme", "/adoptions")
                    .with("programme", rows.programme().toString())
                    .wrongly("on", "2199-01-01")
                    .shows("Follows <a href=\"/programmes/" + rows.programme()),
                on(AIRCRAFT + "/programme/exclusions", aircraft + "/programme", "/exclusions")
                    .with(
                        "requirement",
                        rows.programmed().toString(),
                        "reason-excluded",
                        "No such part")
                    .with("approved-by", "The authority")
                    .wrongly("approved-by", "")
                    .shows("No such part"),
                on(
                        "/programmes/{id}/revisions",
                        "/programmes/" + rows.programme() + "/revisions/new",
                        "/revisions")
                    .with("number", "12", "approved-by", "The authority", "reason", "Manual <12>")
                    .wrongly("number", "")
                    .shows("Manual &lt;12&gt;"),
                on(
                        "/programmes/{id}/revisions/correction",
                        "/programmes/" + rows.programme() + "/revisions/correction",
                        "/revisions/correction")
                    .with("number", "12 A", "reason", "Misprinted")
                    .wrongly("number", "")
                    .shows("12 A"),
                on("/requirements", "/requirements/new" + on, "/requirements")
                    .with("title", "Magneto inspection", "source-reference", "Manual 5-20")
                    .with("limit-1-every", "500", "limit-1-soon", "25", "limit-1-tolerance", "10")
                    .with("limit-1-late", "keep-schedule", "limit-2-by", "calendar")
                    .with("limit-2-every", "48 months", "limit-2-ends", "month-end")
                    .with("limit-2-soon", "30 days", "labour", "6.5", "downtime", "8")
                    .with("approved-by", "The authority")
                    .wrongly("limit-1-every", "12:75")
                    .shows("Magneto inspection"),
                on("/requirements/{id}/revision", requirement + "/revision", "/revision")
                    .with(
                        "limit-1-every",
                        "110",
                        "limit-2-by",
                        "calendar",
                        "limit-2-every",
                        "12 months")
                    .with("limit-2-ends", "month-end", "reason", "Manual, revision 12")
                    .with("approved-by", "The authority")
                    .wrongly("limit-2-every", "12")
                    .shows("Manual, revision 12"),
                on(
                        "/requirements/{id}/extensions",
                        requirement + "/extensions/new" + on,
                        "/extensions")
                    .with(
                        "new-due", "6,200", "approved-by", "The authority", "reference", "Letter 9")
                    .wrongly("new-due", "1.2.3")
                    .shows("Letter 9"),
                on("/extensions/{id}/voiding", requirement + on, voiding)
                    .with("reason", "Filed twice")
                    .wrongly("reason", "x".repeat(501))
                    .shows("taken away: Filed twice"),
                on(
                        "/requirements/{id}/compliances",
                        requirement + "/compliances/new" + on,
                        "/compliances")
                    .with("work-reference", "Work order 12", "remarks", "Two\nlines")
                    .wrongly("on", "2199-01-01")
                    .shows("Work order 12"),
                on(
                        "/compliances/{id}/correction",
                        "/compliances/" + rows.compliance() + "/correction",
                        "/correction")
                    .with("reading-hours", "6,000.5", "reason", "Misread the log")
                    .wrongly("reading-hours", "12:75")
                    .shows("Misread the log"),
                on("/compliances/{id}/voiding", "/compliances/" + rows.doing(), "/voiding")
                    .with("reason", "Another aircraft's")
                    .wrongly("reason", "x".repeat(501))
                    .shows("taken away: Another aircraft"),
                on("/members", "/members/new", "/members")
                    .with("name", "Ida \"Quill\" & Søn", "sign-in-name", "ida@" + UUID.randomUUID())
                    .with("roles", "pilot")
                    .wrongly("sign-in-name", "")
                    .shows("is a member now"),
                on("/members/{id}/licences", member, "/licences")
                    .with(
                        "number", "L-900", "kind", "Licensed engineer", "expires-on", "25 Nov 2199")
                    .wrongly("expires-on", "11/12/2027")
                    .shows("L-900"),
                on("/members/{id}/roles", member, "/roles")
                    .with("roles", List.of("pilot", "auditor"), "reason", "Learned to fly")
                    .wrongly("reason", "")
                    .shows("value=\"pilot\" checked"),
                on("/members/{id}/shut-out", member, "/shut-out").shows("End all sessions"),
                on("/defects", "/defects/new" + on, "/defects")
                    .with(
                        "words",
                        "Nose wheel <shimmies>",
                        "judgement",
                        "can-fly",
                        "system",
                        "shimmy")
                    .with("place", "Nose leg")
                    .wrongly("system", "flux")
                    .shows("Nose wheel &lt;shimmies&gt;"),
                on("/defects/{id}/correction", defect + "/correction", "/correction")
                    .with("words", "Alternator hums & whines", "reason", "Heard it again")
                    .wrongly("reason", "")
                    .shows("Heard it again"),
                on("/defects/{id}/repeats", defect + "/repeats", "/repeats")
                    .with("earlier", rows.earlierDefect().toString(), "said", "same")
                    .with("remark", "The same hum")
                    .wrongly("remark", "x".repeat(501))
                    .shows("confirmed as the same"),
                on("/defects/{id}/occurrence", defect + "/occurrence", "/occurrence")
                    .with("kind", "service difficulty", "report-to", "The authority")
                    .wrongly("report-to", "")
                    .shows("service difficulty"),
                on("/occurrences/{id}/report", report, "/report")
                    .with("reference", "Letter 12")
                    .wrongly("on", "31 Feb 2026")
                    .shows("Letter 12"),
                on("/defects/{id}/rectification", defect + "/rectification", "/rectification")
                    .with("done", "Bearing replaced", "data-reference", "Manual 24-30")
                    .with("licence", Yard.LICENCE, "password", Company.PASSWORD)
                    .wrongly("done", "")
                    .shows("Bearing replaced"),
                on("/rectifications/{id}/correction", rectification + "/correction", "/correction")
                    .with(
                        "done",
                        "Belt replaced",
                        "reason",
                        "Wrong line",
                        "password",
                        Company.PASSWORD)
                    .wrongly("reason", "")
                    .shows("Belt replaced"),
                on("/abnormal-events", "/abnormal-events/new" + on, "/abnormal-events")
                    .with("kind", "heavy-landing", "words", "Dropped from a metre")
                    .wrongly("words", "")
                    .shows("Dropped from a metre"),
                on("/abnormal-events/{id}/correction", event + "/correction", "/correction")
                    .with("words", "Dropped from two metres", "reason", "Measured again")
                    .wrongly("reason", "")
                    .shows("Measured again"),
                on("/abnormal-events/{id}/inspection", inspection, "/inspection")
                    .with("found", "Nothing found", "data-reference", "Manual 5-50")
                    .with("licence", Yard.LICENCE, "password", Company.PASSWORD)
                    .wrongly("found", "")
                    .shows("Nothing found"),
                on("/event-inspections/{id}/correction", inspected + "/correction", "/correction")
                    .with(
                        "found", "One dent", "reason", "Looked again", "password", Company.PASSWORD)
                    .wrongly("reason", "")
                    .shows("Looked again"),
                on("/abnormal-events/{id}/voiding", event + "/voiding", "/voiding")
                    .with("reason", "Another sea", "password", Company.PASSWORD)
                    .wrongly("reason", "")
                    .shows("<b>Taken away:</b> Another sea"),
                on("/abnormal-event-kinds", "/abnormal-event-kinds", "/abnormal-event-kinds")
                    .with("name", "Dust storm", "inspection", "Filter & seals")
                    .wrongly("name", "")
                    .shows("Filter &amp; seals"),
                on("/abnormal-event-kinds/{kind}", kind, kind)
                    .with("inspection", "Hull and struts")
                    .wrongly("name", "")
                    .shows("Hull and struts"),
                on("/abnormal-event-kinds/{kind}/withdrawal", kind, "/withdrawal").shows("Hail"),
                on("/aircraft", "/aircraft/new", "/aircraft")
                    .with("registration", "QX-NEW", "type", "Skerry 200", "serial", "S-9")
                    .with("hours", "1,234.5", "landings", "2,000", "engines", "none")
                    .wrongly("hours", "1e3")
                    .shows("1,234.5 h"),
                on(AIRCRAFT + "/counters", aircraft + "/counters", "/counters")
                    .with("counter", "heater-hours", "amount", "120.5")
                    .wrongly("amount", "12:75")
                    .shows("120.5"),
                on("/fuel-and-oil/{id}/correction", reading + "/correction", "/correction")
                    .with(
                        "oil-engine", "1.5", "fluid-remark", "Dipped twice", "reason", "Misread it")
                    .wrongly("oil-engine", "1.2.3")
                    .shows("Dipped twice"),
                on(
                        AIRCRAFT + "/fuel-and-oil/arrangement",
                        aircraft + "/fuel-and-oil/arrangement",
                        "/arrangement")
                    .with("tanks", "Main tanks: 148\nTip tanks: 60", "burn", "38", "tolerance", "5")
                    .with("oil-unit-engine", "quarts")
                    .wrongly("tolerance", "1.2.3")
                    .shows("Tip tanks"),
                on("/rule-profile/choice", "/rule-profile/choice", "/rule-profile/choice")
                    .with(
                        "example", "part-m", "reason", "Rules read", "approved-by", "The authority")
                    .wrongly("from", "soon")
                    .shows("Example for EASA and UK Part-M"),
                on("/rule-profile/revision", "/rule-profile/revision", "/rule-profile/revision")
                    .with(
                        "name",
                        "Rules of ours",
                        "document",
                        "Manual 4.2",
                        "reason",
                        "Manual, revision 3")
                    .with("approved-by", "The authority")
                    .wrongly("retention", "a while")
                    .shows("Manual, revision 3"),
                on(AIRCRAFT + "/rule-profile/choice", aircraft + "/rule-profile/choice", "/choice")
                    .with(
                        "example",
                        "part-ml",
                        "reason",
                        "Not hired out",
                        "approved-by",
                        "The authority")
                    .wrongly("from", "31 Feb 2026")
                    .shows("Not hired out"),
                on(
                        AIRCRAFT + "/rule-profile/revision",
                        aircraft + "/rule-profile/revision",
                        "/revision")
                    .with(
                        "repeat-days",
                        "45",
                        "reason",
                        "Its own list",
                        "approved-by",
                        "The authority")
                    .wrongly("repeat-days", "1.5")
                    .shows("within 45 days"),
                on("/defects/{id}/triage", waiting + "/triage", "/triage")
                    .with("outcome", "holds", "remark", "Bolt loose", "licence", Yard.LICENCE)
                    .with("password", Company.PASSWORD)
                    .wrongly("remark", "")
                    .shows("to be put right before the next flight. Bolt loose"),
                on("/defects/{id}/deferral", waiting + "/deferral", "/deferral")
                    .with(
                        "list-reference",
                        "List 4",
                        "item",
                        "25-1",
                        "category",
                        "C",
                        "by",
                        "engineer")
                    .with("licence", Yard.LICENCE, "password", Company.PASSWORD)
                    .wrongly("time", "25:61")
                    .shows("<dd>25-1</dd>"),
                on("/deferrals/{id}/correction", deferral + "/correction", "/correction")
                    .with("category", "B", "by", "engineer", "licence", Yard.LICENCE)
                    .with("reason", "The list has it as B", "password", Company.PASSWORD)
                    .wrongly("reason", "")
                    .shows("The list has it as B"),
                on("/deferrals/{id}/extension", deferral + "/extension", "/extension")
                    .with("why", "No part to be had", "unserviceable-at", "Port Maddern")
                    .with("approved-by", "The authority", "reference", "Letter 10")
                    .wrongly("new-last-day", "soon")
                    .shows("Letter 10"),
                on("/directives", "/directives/new", "/directives")
                    .with(
                        "issuer", "The authority", "number", "X-7", "title", "Rails <all> & belts")
                    .with("effective-on", rows.today().toString())
                    .wrongly("number", "")
                    .shows("Rails &lt;all&gt; &amp; belts"),
                on("/directives/{id}/paragraphs", directive + "/paragraphs/new", "/paragraphs")
                    .with("label", "(b)", "title", "Rails of parts", "about", "component")
                    .with("names", "SR-1\nSR-2", "serials", "1001 to 1475 except 1130")
                    .with("limit-1-every", "100")
                    .wrongly("serials", "1001 through banana")
                    .shows("Part SR-1 or SR-2, serials 1001 through 1475 except 1130"),
                on(
                        "/paragraphs/{id}/assessments",
                        paragraph + "/assessments/new" + on,
                        "/assessments")
                    .with("verdict", "does-not", "why", "No such rails")
                    .wrongly("why", "")
                    .shows("No such rails"),
                on("/paragraphs/{id}/revision", paragraph + "/revision", "/revision")
                    .with("serials", "1 to 900", "reason", "Misread")
                    .wrongly("serials", "K 200")
                    .shows("serials 1 through 900"),
                on("/directives/{id}/revision", directive + "/revision", "/revision")
                    .with("revision", "2", "reason", "Revision 2 received")
                    .wrongly("reason", "")
                    .shows("Revision 2 received"),
                on(
                        "/directives/{id}/alternative-methods",
                        directive + "/alternative-methods/new",
                        "/alternative-methods")
                    .with(
                        "words",
                        "Eddy current",
                        "approved-by",
                        "The authority",
                        "reference",
                        "Letter 4")
                    .wrongly("reference", "")
                    .shows("Letter 4"),
                on("/search-log", "/search-log", "/search-log")
                    .with("source", "List of the authority", "remark", "Two found")
                    .wrongly("through", "31 Feb 2026")
                    .shows("List of the authority"),
                on(
                        "/records/{id}/taking-away",
                        "/records/" + rows.mistaken() + "/taking-away",
                        "/taking-away")
                    .with("reason", "Of another defect")
                    .wrongly("reason", "")
                    .shows("Of another defect"),
                on("/rectifications/{id}/voiding", rectification + "/voiding", "/voiding")
                    .with("reason", "Another aircraft", "licence", Yard.LICENCE)
                    .with("password", Company.PASSWORD)
                    .wrongly("reason", "")
                    .shows("<b>Taken away:</b> Another aircraft"),
                on("/event-inspections/{id}/voiding", inspected + "/voiding", "/voiding")
                    .with("reason", "Another event", "password", Company.PASSWORD)
                    .wrongly("reason", "")
                    .shows("<b>Taken away:</b> Another event"),
                on(
                        "/defects/{id}/deferral-transcription",
                        earlier + "/deferral-transcription",
                        "/deferral-transcription")
                    .with(
                        "list-reference",
                        "List 3",
                        "item",
                        "24-2",
                        "category",
                        "D",
                        "licence",
                        "E-12")
                    .with("on", rows.today().toString(), "transcribed-from", "Log 3, page 41")
                    .wrongly("transcribed-from", "")
                    .shows("Log 3, page 41"),
                on("/defects/{id}/transcription", earlier + "/transcription", "/transcription")
                    .with("done", "Belt replaced", "on", rows.today().toString())
                    .with("transcribed-from", "Log 3, page 42")
                    .wrongly("transcribed-from", "")
                    .shows("transcribed from Log 3, page 42")))
        .toList();
  }

  /** What an engineer does on one aircraft, in an order in which each finds what it needs. */
  private static List<Errand> ofTheWorkshop(Rows rows) {
    Bay.Found bay = rows.bay();
    String order = "/work-orders/" + bay.order();
    String draft = "/work-orders/" + bay.draft();
    String line = "/work-lines/" + bay.lines().get(0);
    String read = "/work-lines/" + bay.lines().get(7) + "/readings";
    String own = "/line-works/" + bay.own();
    String part = "/part-uses/" + bay.part();
    String permit = "/flight-permits/" + bay.permit();
    return List.of(
        on("/work-orders", "/work-orders/new?aircraft=" + bay.aircraft(), "/work-orders")
            .with("title", "Wash & wax", "free", "Wash it\nWax it")
            .wrongly("planned-to", "soon")
            .shows("Wash &amp; wax"),
        on("/work-orders/{id}/approval", draft, "/approval")
            .with("remark", "Up to 900")
            .wrongly("remark", "x".repeat(501))
            .shows("Up to 900"),
        on("/work-orders/{id}/issue", draft, "/issue").shows("<b>Issued.</b>"),
        on("/work-orders/{id}/start", draft, "/start").shows("<b>In work.</b>"),
        on("/work-orders/{id}/cancellation", draft, "/cancellation")
            .with("reason", "No money for it")
            .wrongly("reason", "")
            .shows("<b>Cancelled.</b>"),
        on("/work-orders/{id}/revision", order + "/revision", "/revision")
            .with("title", "Work & more", "reason", "More was found")
            .wrongly("planned-to", "soon")
            .shows("Work &amp; more"),
        on("/work-orders/{id}/lines", order + "/lines/new", "/lines")
            .with("free", "Grease the hinge")
            .wrongly("free", "x".repeat(301))
            .shows("Grease the hinge"),
        on("/work-lines/{id}/parts", line + "/parts/new", "/parts")
            .with("part-class", "material", "description", "Grease", "batch", "B-7")
            .wrongly("quantity", "1.2.3")
            .shows("Grease, batch B-7"),
        on("/work-lines/{id}/removals", line + "/removals/new", "/removals")
            .with("component", bay.magneto().toString(), "why", "Worn")
            .wrongly("on", "31 Feb 2026")
            .shows("Off: "),
        on("/work-lines/{id}/fittings", line + "/fittings/new", "/fittings")
            .with("component", bay.spare().toString(), "place", "inside_" + bay.engine())
            .with("assembly-place", "left", "evidence", "RC-12")
            .wrongly("on", "31 Feb 2026")
            .shows("RC-12"),
        on("/work-lines/{id}/work", line + "/work", "/work")
            .with("words", "Greased & tried", "licence", Yard.LICENCE)
            .with("password", Company.PASSWORD)
            .wrongly("words", "")
            .shows("Greased &amp; tried"),
        on("/work-lines/{id}/readings", read, "/readings")
            .with("kind", "torque", "readings", "Bolt <1>: 22.5")
            .wrongly("readings", "Bolt 1")
            .shows("Bolt &lt;1&gt;"),
        on("/work-lines/{id}/readings/voiding", read, "/voiding")
            .with("reading", bay.reading().toString(), "reason", "Another aircraft")
            .wrongly("reason", "")
            .shows("Bolt &lt;1&gt;"),
        on(
                "/components/{id}/readings/limits",
                "/components/" + rows.engine() + "/readings",
                "/readings/limits")
            .with("kind", "compression", "least", "60", "source", "Data & more")
            .wrongly("least", "many")
            .shows("at least 60 psi, by Data &amp; more"),
        on("/part-uses/{id}/evidence", part + "/evidence", "/evidence")
            .with("evidence", "Statement 44", "reason", "Came by post")
            .wrongly("evidence", "")
            .shows("Statement 44"),
        on("/work-lines/{id}/voiding", "/work-lines/" + bay.lines().get(2) + "/voiding", "/voiding")
            .with("reason", "Not wanted")
            .wrongly("reason", "")
            .shows("<h2>Lines</h2>"),
        on(
                "/work-lines/{id}/revision",
                "/work-lines/" + bay.lines().get(3) + "/revision",
                "/revision")
            .with("title", "Torque <all> bolts", "reason", "Said more")
            .wrongly("reason", "")
            .shows("Torque &lt;all&gt; bolts"),
        on(
                "/work-lines/{id}/deferral",
                "/work-lines/" + bay.lines().get(4) + "/deferral",
                "/deferral")
            .with("why", "No paint", "authority", "The authority", "reference", "Letter 14")
            .with("last-day", rows.today().plusDays(5).toString(), "licence", Yard.LICENCE)
            .with("password", Company.PASSWORD)
            .wrongly("last-day", "soon")
            .shows("Letter 14"),
        on("/work-orders/{id}/signatures", order + "/signatures", "/signatures")
            .with("lines", bay.rows().get(5).toString(), "words", "Read & done")
            .with("licence", Yard.LICENCE, "password", Company.PASSWORD)
            .wrongly("words", "")
            .shows("Read &amp; done"),
        on(
                "/line-works/{id}/inspection",
                "/line-works/" + bay.signed() + "/inspection",
                "/inspection")
            .with("words", "Seen & right", "licence", Yard.LICENCE)
            .with("password", Company.PASSWORD)
            .wrongly("words", "")
            .shows("inspected by"),
        on("/line-works/{id}/correction", own + "/correction", "/correction")
            .with("words", "Done to 22 lb", "reason", "Figure left out")
            .with("licence", Yard.LICENCE, "password", Company.PASSWORD)
            .wrongly("reason", "")
            .shows("Done to 22 lb"),
        on("/line-works/{id}/voiding", "/line-works/" + bay.taken() + "/voiding", "/voiding")
            .with("words", "Another aircraft", "licence", Yard.LICENCE)
            .with("password", Company.PASSWORD)
            .wrongly("words", "")
            .shows("<b>Voided:</b> Another aircraft"),
        on("/part-uses/{id}/voiding", part(rows), "/voiding")
            .with("reason", "Not used")
            .wrongly("reason", "")
            .shows("No part is recorded."),
        on(
                AIRCRAFT + "/pilot-works/rule",
                "/aircraft/" + rows.ready() + "/pilot-works",
                "/pilot-works/rule")
            .with("use", "private", "authority", "Private & by letter 3")
            .wrongly("authority", "")
            .shows("Private &amp; by letter 3"),
        on(AIRCRAFT + "/pilot-works", "/aircraft/" + rows.ready() + "/pilot-works", "/pilot-works")
            .with("task", PilotTask.labels().get(0), "words", "Left & right")
            .with("data-reference", "Manual 32")
            .with("licence", Yard.LICENCE, "password", Company.PASSWORD)
            .wrongly("words", "")
            .shows("Left &amp; right"),
        on(
                "/pilot-works/{id}/correction",
                "/pilot-works/" + bay.pilotWork() + "/correction",
                "/correction")
            .with("words", "Nose & main", "reason", "Wrong wheel", "licence", Yard.LICENCE)
            .with("password", Company.PASSWORD)
            .wrongly("reason", "")
            .shows("Put right: Wrong wheel"),
        on("/workshop-settings/labour-rates", "/workshop-settings", "/labour-rates")
            .with("name", "Engines & more", "rate", "85", "currency", "EUR")
            .wrongly("rate", "much")
            .shows("Engines &amp; more"),
        on("/workshop-settings/approval", "/workshop-settings", "/approval")
            .with("approval", "by-order")
            .shows("only orders that ask for it"),
        on("/work-orders/{id}/costs", order + "/costs", "/costs")
            .with("stage", "actual", "kind", "parts", "words", "Bolts & nuts")
            .with("amount", "12.50", "currency", "EUR")
            .wrongly("amount", "much")
            .shows("Bolts &amp; nuts"),
        on("/work-orders/{id}/costs/voiding", order + "/costs", "/voiding")
            .with("cost", bay.cost().toString(), "reason", "Paid by somebody else")
            .wrongly("reason", "")
            .shows("Bolts &amp; nuts"),
        on("/work-orders/{id}/release", "/work-orders/" + bay.finished() + "/release", "/release")
            .with("airworthy", "yes", "licence", Yard.LICENCE, "password", Company.PASSWORD)
            .wrongly("check-flight", "x".repeat(301))
            .shows("<b>Released.</b>"),
        on(
                "/work-releases/{id}/check-flight",
                "/work-releases/" + bay.release() + "/check-flight",
                "/check-flight")
            .with("words", "Flies & trims")
            .wrongly("words", "")
            .shows("Flies &amp; trims"),
        on(
                AIRCRAFT + "/flight-permits",
                "/aircraft/" + bay.aircraft() + "/flight-permits",
                "/flight-permits")
            .with("number", "SFP-12", "issued-by", "The authority", "conditions", "Crew & by day")
            .with("first-day", rows.today().toString(), "last-day", rows.today().toString())
            .wrongly("last-day", "soon")
            .shows("Crew &amp; by day"),
        on("/flight-permits/{id}/voiding", permit + "/voiding", "/voiding")
            .with("reason", "Flown")
            .wrongly("reason", "")
            .shows("Special flight permits"),
        on(
                "/requirements/{id}/task-list",
                "/requirements/" + rows.requirement() + "/task-list",
                "/task-list")
            .with("tasks", "Engine and nacelle:\nCompression | Manual 72", "approved-by", "Me & we")
            .wrongly("tasks", "Nowhere:\nLook")
            .shows("approved by Me &amp; we"));
  }

  private static String part(Rows rows) {
    return "/part-uses/" + rows.bay().other() + "/voiding";
  }

  private static Errand on(String route, String page, String sends) {
    return new Errand(route, page, sends, Map.of(), null, null, null);
  }

  private Errand with(String... pairs) {
    Map<String, Object> more = new HashMap<>(fields);
    for (int i = 0; i < pairs.length; i += 2) {
      more.put(pairs[i], pairs[i + 1]);
    }
    return new Errand(route, page, sends, more, wrong, wrongly, shows);
  }

  private Errand with(String field, List<String> values, String other, String value) {
    Map<String, Object> more = new HashMap<>(fields);
    more.put(field, values);
    more.put(other, value);
    return new Errand(route, page, sends, more, wrong, wrongly, shows);
  }

  private Errand wrongly(String field, String typed) {
    return new Errand(route, page, sends, fields, field, typed, shows);
  }

  private Errand shows(String words) {
    return new Errand(route, page, sends, fields, wrong, wrongly, words);
  }
}
