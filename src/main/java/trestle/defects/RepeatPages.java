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
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Viewer;

/** A person says which earlier defects one is, come back. */
@Path("/")
@RequestScoped
public class RepeatPages {
  private static final String SAME = "same";
  private static final String OTHER = "other";

  @Inject DefectBook book;
  @Inject Repeats repeats;
  @Inject Fleet fleet;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record RepeatForm(
      AircraftSheet aircraft,
      DefectBook.Entry entry,
      List<Earlier> earlier,
      List<Option> choices,
      List<Option> words,
      Form form)
      implements TemplateInstance {}

  @GET
  @Path("defects/{id}/repeats")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response ask(@PathParam("id") UUID id) {
    return Answers.page(page(book.entry(viewer, id), Form.blank()));
  }

  @POST
  @Path("defects/{id}/repeats")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER})
  public Response say(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    DefectBook.Entry entry = book.entry(viewer, id);
    Form form = Form.of(posted);
    RepeatForm page = page(entry, form);
    String earlier =
        form.required("earlier", "Earlier defect")
            .choice(page.choices().stream().map(Option::value).toList());
    String said = form.required("said", "Your judgement").choice(SAME, OTHER);
    String remark = form.optional("remark", "Remark").text(500);
    return Answers.filing(
        form,
        () -> {
          repeats.say(
              viewer,
              entry.current().entryId(),
              UUID.fromString(earlier),
              said.equals(SAME),
              remark == null ? "" : remark,
              form.key());
          return entry.current().link();
        },
        () -> page(entry, form));
  }

  private RepeatForm page(DefectBook.Entry entry, Form form) {
    DefectSheet now = entry.current();
    List<Earlier> earlier =
        repeats.of(viewer, List.of(now.entryId())).getOrDefault(now.entryId(), List.of());
    List<Option> choices =
        earlier.stream()
            .map(
                one ->
                    new Option(
                        one.defect().entryId().toString(),
                        one.defect().no() + ": " + one.defect().brief(),
                        one.why() + ". Done then: " + one.done()))
            .toList();
    return new RepeatForm(
        fleet.sheet(viewer, now.aircraftId(), View.EVERYTHING),
        entry,
        earlier,
        choices,
        List.of(
            new Option(SAME, "It is the same, come back"),
            new Option(OTHER, "It is another", "It is not suggested again.")),
        form);
  }
}
