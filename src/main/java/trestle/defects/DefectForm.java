package trestle.defects;

import java.time.Instant;
import java.time.ZoneOffset;
import java.util.ArrayList;
import java.util.Arrays;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fitting;
import trestle.web.Form;
import trestle.web.LocalMoment;
import trestle.web.Option;
import trestle.web.Shown;
import trestle.web.Viewer;

/**
 * What a person types of a defect, on a page of its own or with the flight on which it showed. Its
 * fields stand in {@code tags/defectfields.html}.
 */
public final class DefectForm {
  private final Form form;
  private final Viewer viewer;
  private final Instant now;
  private final List<Fitting> fitted;

  /**
   * @param fitted what is fitted to the aircraft, to choose the part from; empty when not known
   */
  public DefectForm(Form form, Viewer viewer, Instant now, List<Fitting> fitted) {
    this.form = form;
    this.viewer = viewer;
    this.now = now;
    this.fitted = fitted.stream().filter(Fitting::isFitted).toList();
  }

  /** Those that a report may be about, to choose from. */
  static List<Option> aircraft(List<AircraftSheet> sheets) {
    return sheets.stream()
        .filter(one -> !one.retired())
        .map(one -> new Option(one.id().toString(), one.registration()))
        .toList();
  }

  public Form form() {
    return form;
  }

  /** The defect, or null when something is wrong with the form; says itself when it was found. */
  public DefectDraft read() {
    return read(null);
  }

  /**
   * The defect, or null when something is wrong with the form.
   *
   * @param foundAt when it was found, where another part of the page says so; null to read it here
   */
  public DefectDraft read(Instant foundAt) {
    String words = form.required("words", "What is wrong").lines(DefectDraft.MOST_WORDS);
    Judgement judgement = form.required("judgement", "Your judgement").choice(Judgement.class);
    String chapter = chapter();
    Instant found = foundAt == null ? found() : foundAt;
    String place = form.optional("place", "Place").text(DefectDraft.MOST_PLACE);
    Phase phase = form.optional("phase", "When it showed").choice(Phase.class);
    UUID component = component();
    NoticedBy noticed = form.optional("noticed-by", "How it was noticed").choice(NoticedBy.class);
    String indication =
        form.optional("indication-place", "Where the indication sits").text(DefectDraft.MOST_PLACE);
    if (form.isBad()) {
      return null;
    }
    return new DefectDraft(
        words,
        chapter,
        place,
        phase,
        component,
        judgement,
        noticed,
        form.checked("indication-missed"),
        indication,
        found);
  }

  /**
   * As {@link #read(Instant)}, of a page that its sender can't be asked about any more: a system
   * that means several, or none, is kept among the words, and an engineer sorts it.
   */
  public DefectDraft readAsSent(Instant foundAt) {
    String typed = form.value("system").strip();
    boolean clear = typed.isEmpty() || Chapters.meant(typed).size() == 1;
    if (clear || !form.value("chapter").isEmpty()) {
      return read(foundAt);
    }
    String words = form.value("words").strip();
    if (!words.isEmpty() && words.length() + typed.length() + 10 <= DefectDraft.MOST_WORDS) {
      form.with("words", words + "\nSystem: " + typed);
    }
    form.with("system", "");
    return read(foundAt);
  }

  /** A page filled in as a defect was filed. */
  static Form filled(DefectSheet sheet) {
    DefectDraft defect = sheet.defect();
    Form form =
        Form.blank()
            .with("words", defect.words())
            .with("judgement", defect.judgement().word())
            .with("system", sheet.chapter().isEmpty() ? null : Chapters.label(sheet.chapter()))
            .with("place", defect.place())
            .with("phase", defect.phase() == null ? null : defect.phase().word())
            .with("component", defect.componentId())
            .with("noticed-by", defect.noticedBy() == null ? null : defect.noticedBy().word())
            .with("indication-place", defect.indicationPlace());
    return defect.indicationMissed() ? form.with("indication-missed", "yes") : form;
  }

  public List<Chapter> chapters() {
    return Chapters.all();
  }

  /** The systems that what was typed may mean, when it may mean several. */
  public List<Option> meant() {
    List<Chapter> meant = Chapters.meant(form.value("system"));
    return meant.size() < 2
        ? List.of()
        : meant.stream()
            .map(chapter -> new Option(chapter.code(), chapter.label(), chapter.plain()))
            .toList();
  }

  public List<Option> judgements() {
    return List.of(
        new Option(Judgement.MUST_NOT_FLY.word(), "Must not fly", "It is held from now on."),
        new Option(Judgement.CAN_FLY.word(), "Can fly", "An engineer still looks at it."));
  }

  public List<Option> phases() {
    return Arrays.stream(Phase.values())
        .map(phase -> new Option(phase.word(), phase.shown()))
        .toList();
  }

  public List<Option> noticedBy() {
    return Arrays.stream(NoticedBy.values())
        .map(noticed -> new Option(noticed.word(), noticed.shown()))
        .toList();
  }

  public List<Option> parts() {
    List<Option> parts = new ArrayList<>();
    for (Fitting fitting : fitted) {
      parts.add(
          new Option(
              fitting.componentId().toString(),
              fitting.positionLabel() + ": " + fitting.description() + ", " + fitting.serial()));
    }
    return parts;
  }

  /** Whether more than the first few fields has something in it. */
  public boolean saysMore() {
    return List.of("place", "phase", "component", "noticed-by", "indication-place").stream()
            .anyMatch(name -> !form.value(name).isEmpty() || form.isBad(name))
        || form.checked("indication-missed");
  }

  private String chapter() {
    String typed = form.optional("system", "System").text(80);
    if (typed == null) {
      return null;
    }
    List<Chapter> meant = Chapters.meant(typed);
    if (meant.isEmpty()) {
      form.fail(
          "system",
          "System must be a plain word such as alternator, or its two digits; or leave it blank.");
      return null;
    }
    if (meant.size() == 1) {
      return meant.get(0).code();
    }
    List<String> codes = meant.stream().map(Chapter::code).toList();
    if (form.value("chapter").isEmpty()) {
      form.fail("chapter", "“" + typed + "” may mean several systems: choose one.");
      return null;
    }
    return form.required("chapter", "System").choice(codes);
  }

  /**
   * A day alone means now on today, and the end of any other: the last moment that is on that day
   * here and in UTC, since the clocks of deferrals count by either.
   */
  private Instant found() {
    var on = form.required("found-on", "Found on").dateUpTo(viewer.dateOf(now));
    var time = form.optional("found-time", "Time").time();
    if (on == null || form.isBad("found-time")) {
      return null;
    }
    if (time == null) {
      Instant here = on.plusDays(1).atStartOfDay(viewer.zone()).toInstant();
      Instant inUtc = on.plusDays(1).atStartOfDay(ZoneOffset.UTC).toInstant();
      Instant end = (here.isBefore(inUtc) ? here : inUtc).minusSeconds(1);
      return end.isBefore(now) ? end : now;
    }
    Instant at = LocalMoment.asked(form, "found-time", "Time", on.atTime(time), viewer.zone());
    if (at != null && at.isAfter(now)) {
      form.fail("found-time", "Time must not be in the future.");
    }
    return at;
  }

  private UUID component() {
    UUID chosen = form.optional("component", "Part").uuid();
    if (chosen != null
        && !fitted.isEmpty()
        && fitted.stream().noneMatch(fitting -> fitting.componentId().equals(chosen))) {
      form.fail("component", "Part must be one of the choices shown");
      return null;
    }
    return chosen;
  }

  /** What a new page begins with. */
  public static Form blank(Viewer viewer, Instant now) {
    return Form.blank().with("found-on", Shown.typed(viewer.dateOf(now)));
  }
}
