package trestle.programme;

import java.time.Instant;
import java.time.LocalDate;
import java.time.LocalTime;
import java.time.ZoneId;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.TreeSet;
import java.util.UUID;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import trestle.reckoning.Amount;
import trestle.reckoning.Counter;
import trestle.reckoning.Hours;
import trestle.reckoning.Usage;
import trestle.web.Form;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Viewer;

/** That work was done, or from where it counts, as a person fills it in. */
final class ComplianceForm {
  static final String READING = "reading-";
  private static final Pattern TIME =
      Pattern.compile("(\\d{1,2}):?(\\d{2})(?: (first|second))?", Pattern.CASE_INSENSITIVE);

  /** A counter whose reading is asked for. */
  record Counting(String field, String label, String hint) {}

  private final Form form;
  private final Viewer viewer;
  private final SubjectLine line;
  private final LocalDate today;

  /**
   * @param line the subject's counters, known now
   */
  ComplianceForm(Form form, Viewer viewer, SubjectLine line, LocalDate today) {
    this.form = form;
    this.viewer = viewer;
    this.line = line;
    this.today = today;
  }

  /** A page for work done today, with the totals as they stand. */
  static Form blank(Viewer viewer, SubjectLine line, LocalDate today) {
    Form form =
        Form.blank()
            .with("kind", Compliance.DONE)
            .with("on", today)
            .with("how", viewer.is(Role.ENGINEER) ? "certify" : "transcribe")
            .with("complete", "yes");
    line.now()
        .toMap()
        .forEach(
            (counter, units) -> form.with(READING + counter.name(), counter.unit().show(units)));
    return form;
  }

  /** A page with a record as it stands, to be put right. */
  static Form of(ComplianceLine record, Viewer viewer) {
    boolean dayOnly = record.at().equals(record.on().atStartOfDay(viewer.zone()).toInstant());
    Form form =
        Form.blank()
            .with("kind", record.baseline() ? Compliance.BASELINE : Compliance.DONE)
            .with("on", record.on())
            .with("time", dayOnly ? null : Shown.time(record.at(), viewer.zone()))
            .with("how", record.isTranscribed() ? "transcribe" : "certify")
            .with("work-reference", record.workReference())
            .with("transcribed-from", record.transcribedFrom())
            .with("certified-by", record.certifiedBy())
            .with("licence", record.isTranscribed() ? null : record.licenceNumber())
            .with("paper-licence", record.isTranscribed() ? record.licenceNumber() : null)
            .with("counts-from", record.countsFrom())
            .with("remarks", record.remarks())
            .with("complete", record.complete() ? "yes" : null)
            .withAll(DocumentFiles.STAYS, record.papers().stream().map(Paper::sha256).toList());
    record
        .signed()
        .toMap()
        .forEach(
            (counter, units) -> form.with(READING + counter.name(), counter.unit().show(units)));
    return form;
  }

  static List<Counting> countings(SubjectLine line) {
    List<Counting> countings = new ArrayList<>();
    for (Counter counter : new TreeSet<>(line.now().toMap().keySet())) {
      String words = Missing.words(counter);
      countings.add(
          new Counting(
              READING + counter.name(),
              words.substring(0, 1).toUpperCase(Locale.ROOT) + words.substring(1),
              "Reckoned now: " + counter.unit().show(line.now().units(counter))));
    }
    return countings;
  }

  /** What was filled in, or null; the form then has the sentences. */
  NewCompliance read(UUID requirement, UUID aircraft, UUID component) {
    String kind =
        form.required("kind", "What is filed").choice(Compliance.DONE, Compliance.BASELINE);
    LocalDate on = form.required("on", "Date").dateUpTo(today);
    Instant at = on == null ? null : moment(on);
    Usage readings = readings();
    String reference = form.optional("work-reference", "Work reference").text(300);
    String how = form.required("how", "How it is recorded").choice("certify", "transcribe");
    boolean transcribed = "transcribe".equals(how);
    String papers = transcribed ? form.required("transcribed-from", "Copied from").text(300) : null;
    String signer = transcribed ? form.optional("certified-by", "Signed by").text(120) : null;
    String licence =
        transcribed
            ? form.optional("paper-licence", "Licence on the papers").text(60)
            : form.required("licence", "Licence").text(60);
    LocalDate countsFrom = form.optional("counts-from", "Counts from").dateUpTo(today);
    String remarks = form.optional("remarks", "Remarks").lines(2_000);
    if (form.isBad()) {
      return null;
    }
    boolean baseline = kind.equals(Compliance.BASELINE);
    return new NewCompliance(
        requirement,
        aircraft,
        component,
        baseline,
        at,
        readings,
        RequirementForm.orBlank(reference),
        RequirementForm.orBlank(signer),
        RequirementForm.orBlank(licence),
        RequirementForm.orBlank(papers),
        form.checked("complete"),
        baseline ? countsFrom : null,
        RequirementForm.orBlank(remarks),
        form.key());
  }

  /**
   * The moment on that day. A day on which the subject was used needs a time, since what flew
   * before and after it differs; on any other day its start is as good as any.
   */
  private Instant moment(LocalDate on) {
    LocalTimeTwice time = form.optional("time", "Time").read(ComplianceForm::time);
    if (form.isBad("time")) {
      return null;
    }
    ZoneId zone = viewer.zone();
    Instant start = on.atStartOfDay(zone).toInstant();
    if (time != null) {
      return at(on, time, zone);
    }
    Instant end = on.plusDays(1).atStartOfDay(zone).toInstant().minusMillis(1);
    Usage before = line.at(start);
    if (!before.toMap().isEmpty() && !before.equals(line.at(end))) {
      form.fail(
          "time",
          "Time is needed: on "
              + Shown.date(on)
              + " there were flights, and what flew before this differs from what flew after.");
    }
    return start;
  }

  private Instant at(LocalDate on, LocalTimeTwice typed, ZoneId zone) {
    List<ZoneOffset> offsets = zone.getRules().getValidOffsets(on.atTime(typed.time()));
    if (offsets.isEmpty()) {
      form.fail("time", "Time must be one that exists: the clock skipped it on that day.");
      return null;
    }
    if (offsets.size() > 1 && typed.which() == null) {
      form.fail(
          "time",
          "Time came twice on that day as summer time ended: write “%1$s first” or “%1$s second”."
              .formatted(Shown.time(typed.time())));
      return null;
    }
    ZoneOffset offset =
        "second".equals(typed.which()) ? offsets.get(offsets.size() - 1) : offsets.get(0);
    return on.atTime(typed.time()).toInstant(offset);
  }

  private Usage readings() {
    Map<Counter, Long> readings = new HashMap<>();
    for (Counter counter : line.now().toMap().keySet()) {
      String label = "Reading of " + Missing.words(counter);
      Amount amount =
          form.optional(READING + counter.name(), label)
              .read(
                  typed ->
                      counter.inHours()
                          ? Amount.of(Hours.parseTyped(typed))
                          : counter.amount(typed.replaceAll("(?<=\\d)[ ,](?=\\d{3}\\b)", "")));
      if (amount != null) {
        readings.put(counter, amount.units());
      }
    }
    return Usage.ofUnits(readings);
  }

  /** A time of day, and on the day when summer time ends which of two it is. */
  private record LocalTimeTwice(LocalTime time, String which) {}

  private static LocalTimeTwice time(String typed) {
    Matcher parts = TIME.matcher(typed);
    if (!parts.matches()
        || Integer.parseInt(parts.group(1)) > 23
        || Integer.parseInt(parts.group(2)) > 59) {
      throw new IllegalArgumentException("must be a time, like 10:18");
    }
    LocalTime time =
        LocalTime.of(Integer.parseInt(parts.group(1)), Integer.parseInt(parts.group(2)));
    String which = parts.group(3);
    return new LocalTimeTwice(time, which == null ? null : which.toLowerCase(Locale.ROOT));
  }
}
