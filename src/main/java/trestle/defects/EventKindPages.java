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
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.NotHere;
import trestle.web.Role;
import trestle.web.Viewer;

/** The operator's list of abnormal events. */
@Path("/")
@RequestScoped
public class EventKindPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;

  @Inject EventKinds kinds;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record EventKindList(List<EventKind> kinds, boolean mayEdit, Form form)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "defects",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record EventKindEdit(EventKind kind, Form form) implements TemplateInstance {}

  @GET
  @Path("abnormal-event-kinds")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response list() {
    return Answers.page(page(Form.blank()));
  }

  @POST
  @Path("abnormal-event-kinds")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response add(MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    return state(form, null, () -> page(form));
  }

  @GET
  @Path("abnormal-event-kinds/{kind}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response edit(@PathParam("kind") String code) {
    EventKind kind = kind(code);
    return Answers.page(
        new EventKindEdit(
            kind, Form.blank().with("name", kind.name()).with("inspection", kind.inspection())));
  }

  @POST
  @Path("abnormal-event-kinds/{kind}")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response change(@PathParam("kind") String code, MultivaluedMap<String, String> posted) {
    EventKind kind = kind(code);
    Form form = Form.of(posted);
    return state(form, code, () -> new EventKindEdit(kind, form));
  }

  @POST
  @Path("abnormal-event-kinds/{kind}/withdrawal")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response withdraw(@PathParam("kind") String code, MultivaluedMap<String, String> posted) {
    kinds.withdraw(viewer, code);
    return Answers.see("/abnormal-event-kinds");
  }

  private Response state(
      Form form, String code, java.util.function.Supplier<TemplateInstance> again) {
    String name = form.required("name", "Name").text(80);
    String inspection = form.required("inspection", "Inspection").text(200);
    return Answers.filing(
        form,
        () -> {
          kinds.state(viewer, code, name, inspection, form.key());
          return "/abnormal-event-kinds";
        },
        again);
  }

  private EventKind kind(String code) {
    return kinds.all(viewer).stream()
        .filter(one -> one.code().equals(code))
        .findFirst()
        .orElseThrow(() -> new NotHere("There is no such line on the list."));
  }

  private EventKindList page(Form form) {
    return new EventKindList(
        kinds.all(viewer), viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER), form);
  }
}
