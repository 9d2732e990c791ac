package trestle.defects;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.util.List;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.people.IdentityProof;
import trestle.people.Members;
import trestle.people.Proof;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Viewer;

/** An engineer's word on a defect. */
@Path("/")
@RequestScoped
public class TriagePages {
  static final List<Option> OUTCOMES =
      List.of(
          new Option("holds", "It must be put right before the next flight", "Holds the aircraft."),
          new Option(
              "flies",
              "It does not hinder flight",
              "An observation, not a defect of anything required. To fly with a defect, defer"
                  + " it."));

  @Inject Triages triages;
  @Inject DefectBook book;
  @Inject Fleet fleet;
  @Inject Members members;
  @Inject IdentityProof identity;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record DefectTriaging(
      AircraftSheet aircraft,
      DefectBook.Entry entry,
      Form form,
      List<Option> outcomes,
      List<Option> licences,
      String statement)
      implements TemplateInstance {}

  @GET
  @Path("defects/{id}/triage")
  @RolesAllowed(Allow.ENGINEER)
  public Response ask(@PathParam("id") UUID id) {
    DefectBook.Entry entry = book.entry(viewer, id);
    Form form = Form.blank().with("seen", triages.words(viewer, entry.current().entryId()));
    licences().stream().findFirst().ifPresent(one -> form.with("licence", one.value()));
    return Answers.page(page(entry, form));
  }

  @POST
  @Path("defects/{id}/triage")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed(Allow.ENGINEER)
  public Response file(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    DefectBook.Entry entry = book.entry(viewer, id);
    UUID entryId = entry.current().entryId();
    Triages.Outcome outcome =
        form.required("outcome", "What it means").choice(Triages.Outcome.class);
    String remark = form.required("remark", "What you found").text(1000);
    String licence = form.required("licence", "Licence").text(60);
    Integer seen = form.required("seen", "What was seen").count(10_000);
    return Answers.filing(
        form,
        () -> {
          Proof proof = identity.prove(viewer, form.value("password"));
          triages.triage(
              viewer,
              proof,
              new Triages.NewTriage(entryId, outcome, remark, licence, seen),
              form.key());
          return "/defects/" + entryId;
        },
        () -> page(entry, form.isStale() ? seenNow(form, entryId) : form));
  }

  /** Sent once more, it is said after what someone else said meanwhile. */
  private Form seenNow(Form form, UUID entryId) {
    return form.with("seen", triages.words(viewer, entryId));
  }

  private TemplateInstance page(DefectBook.Entry entry, Form form) {
    return new DefectTriaging(
        fleet.sheet(viewer, entry.current().aircraftId(), View.EVERYTHING),
        entry,
        form,
        OUTCOMES,
        licences(),
        Certifying.TRIAGED);
  }

  private List<Option> licences() {
    return members.one(viewer, viewer.personId()).licences().stream()
        .map(one -> new Option(one.number(), one.kind() + " " + one.number()))
        .toList();
  }
}
