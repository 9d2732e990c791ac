package trestle.defects;

import java.time.Instant;
import java.util.List;
import trestle.people.Members;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Shown;
import trestle.web.StatedMoment;
import trestle.web.Viewer;

/**
 * What an engineer fills in to certify work and to sign for it.
 *
 * @param field of what was done or found
 * @param now the moment at which it is filled in
 */
record CertifiedForm(Form form, String field, String label, Viewer viewer, Instant now) {

  /** A page for work of today, under the only licence where there is but one. */
  static Form begun(Viewer viewer, Instant now, List<Option> licences) {
    Form form = Form.blank().with("on", Shown.typed(viewer.dateOf(now)));
    return licences.size() == 1 ? form.with("licence", licences.get(0).value()) : form;
  }

  /** A page with what stands, to be put right. */
  static Form of(RectificationSheet done) {
    return Form.blank()
        .with("done", done.done())
        .with("data-reference", done.dataReference())
        .with("licence", done.licenceNumber())
        .with("transcribed-from", done.transcribedFrom())
        .with("signed-by", done.signedBy())
        .with("on", Shown.typed(done.on()));
  }

  static Form of(InspectionSheet found) {
    return Form.blank()
        .with("found", found.found())
        .with("data-reference", found.dataReference())
        .with("licence", found.licenceNumber())
        .with("on", Shown.typed(found.on()));
  }

  /** The viewer's licences that are good today. */
  static List<Option> licences(Members members, Viewer viewer, Instant now) {
    return members.licencesOf(viewer, viewer.personId(), viewer.dateOf(now)).stream()
        .map(one -> new Option(one.number(), one.kind() + " " + one.number()))
        .toList();
  }

  /** What was filled in, or null; the form then has the sentences. */
  CertifiedWork read() {
    String words = form.required(field, label).lines(4_000);
    String data = form.required("data-reference", "Data").text(200);
    Instant at = StatedMoment.of(form, "Done on", viewer, now);
    String licence = licence(form);
    return form.isBad() ? null : new CertifiedWork(words, data, licence, at);
  }

  /** The licence that is signed under; the password that goes with it must not be blank. */
  static String licence(Form form) {
    String licence = form.required("licence", "Licence").text(60);
    if (!form.resumed() && form.value("password").isEmpty()) {
      form.fail("password", "Password must not be blank: it is how you sign.");
    }
    return licence;
  }
}
