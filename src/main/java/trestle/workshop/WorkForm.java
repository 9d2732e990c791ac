package trestle.workshop;

import java.time.Instant;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.List;
import java.util.UUID;
import trestle.defects.Judgement;
import trestle.people.Members.LicenceLine;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Shown;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/** What people fill in about orders and lines. */
final class WorkForm {
  static final String AS_LINE = "line";

  private WorkForm() {}

  /** A page for work of today, under the only licence where there is but one. */
  static Form begun(Viewer viewer, Instant now, List<Option> licences) {
    Form form = Form.blank().with("on", Shown.typed(viewer.dateOf(now)));
    return licences.size() == 1 ? form.with("licence", licences.get(0).value()) : form;
  }

  static List<Option> licences(List<LicenceLine> licences) {
    return licences.stream()
        .map(one -> new Option(one.number(), one.kind() + " " + one.number()))
        .toList();
  }

  static String licence(Form form) {
    String licence = form.required("licence", "Licence").text(60);
    if (!form.resumed() && form.value("password").isEmpty()) {
      form.fail("password", "Password must not be blank: it is how you sign.");
    }
    return licence;
  }

  static WorkOrders.Terms terms(Form form) {
    String title = form.required("title", "Title").text(120);
    String customer = form.optional("customer", "Customer").text(120);
    String place = form.optional("place", "Place").text(120);
    LocalDate from = form.optional("planned-from", "Planned from").date();
    LocalDate to = form.optional("planned-to", "Planned to").date();
    boolean approval = form.checked("needs-approval");
    return new WorkOrders.Terms(title, customer, place, from, to, approval);
  }

  /** The lines that were chosen, and those written out, one a row. */
  static List<NewLine> lines(Form form) {
    List<NewLine> lines = new ArrayList<>();
    for (String value : form.values("items")) {
      try {
        lines.add(OrderChoices.line(value));
      } catch (IllegalArgumentException e) {
        form.fail("items", "Items " + e.getMessage() + ".");
      }
    }
    String free = form.optional("free", "Other lines").lines(6_000);
    Area area = area(form, "free-area");
    if (free != null) {
      for (String row : free.split("\n")) {
        if (row.strip().length() > 300) {
          form.fail("free", "Other lines must have at most 300 characters each.");
        } else if (!row.isBlank()) {
          lines.add(NewLine.free(row.strip(), area == null ? Area.OTHER : area, "", false));
        }
      }
    }
    return lines;
  }

  static Area area(Form form, String field) {
    String word =
        form.optional(field, "Area").choice(Area.options().stream().map(Option::value).toList());
    return word == null ? null : Area.parse(word);
  }

  /** What was done about one line; null where something is wrong. */
  static NewWork work(Form form, Viewer viewer, Instant now) {
    UUID line = form.required("line", "Line").uuid();
    Outcome outcome = form.required("outcome", "What came of it").choice(Outcome.class);
    String words = form.required("words", "What was done").lines(4_000);
    String data = form.optional("data-reference", "Data").text(200);
    String revision = form.optional("data-revision", "Revision").text(60);
    Instant at = StatedMoment.of(form, "Done on", viewer, now);
    String by = form.optional("performed-by", "Done by").text(120);
    UUID book = form.optional("book", "Logbook").uuid();
    NewWork.Finding finding = outcome == Outcome.FINDING ? finding(form) : null;
    return form.isBad()
        ? null
        : new NewWork(line, outcome, words, data, revision, at, by, finding, book);
  }

  private static NewWork.Finding finding(Form form) {
    String as =
        form.required("finding", "The finding")
            .choice(AS_LINE, Judgement.CAN_FLY.word(), Judgement.MUST_NOT_FLY.word());
    String words = form.required("finding-words", "What was found").lines(2_000);
    Area area = area(form, "finding-area");
    return form.isBad()
        ? null
        : new NewWork.Finding(words, area, as.equals(AS_LINE) ? null : Judgement.parse(as));
  }

  static List<Option> findings() {
    return List.of(
        new Option(AS_LINE, "A line of this order", "To be put right before the release"),
        new Option(Judgement.CAN_FLY.word(), "A defect that can wait", "To be triaged or deferred"),
        new Option(Judgement.MUST_NOT_FLY.word(), "A defect that must not fly"));
  }

  static List<Option> outcomes() {
    List<Option> options = new ArrayList<>();
    for (Outcome outcome : Outcome.values()) {
      options.add(new Option(outcome.word(), outcome.label()));
    }
    return options;
  }

  static List<NewLine> needed(Form form, List<NewLine> lines) {
    if (lines.isEmpty() && form.isOk()) {
      form.fail("items", "Choose what to put on the order, or write lines of its own.");
    }
    return lines;
  }
}
