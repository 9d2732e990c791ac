package trestle.directives;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import trestle.people.Members;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Viewer;

/** The search log: which source was looked through for new directives, and when next. */
@Path("search-log")
@RequestScoped
public class SearchPages {
  @Inject Searches searches;
  @Inject Members members;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  /** A search, with who made it. */
  public record Line(Searches.Search search, String by) {}

  @CheckedTemplate(
      basePath = "directives",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record SearchLog(List<Searches.Search> newest, List<Line> log, Form form, boolean mayKeep)
      implements TemplateInstance {}

  @GET
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response log() {
    return Answers.page(page(Form.blank().with("through", Shown.typed(today()))));
  }

  @POST
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response file(MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    String source = form.required("source", "Source").text(120);
    LocalDate through = form.required("through", "Searched through").dateUpTo(today());
    LocalDate next = form.optional("next-on", "Next search").date();
    String remark = form.optional("remark", "Remark").text(500);
    if (form.isReady()) {
      try {
        searches.file(viewer, source, through, next, remark, form.key());
        return Answers.see("/search-log");
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, page(form));
  }

  private SearchLog page(Form form) {
    Map<UUID, String> names = members.names(viewer);
    return new SearchLog(
        searches.newest(viewer),
        searches.log(viewer).stream()
            .map(one -> new Line(one, names.getOrDefault(one.by(), "")))
            .toList(),
        form,
        viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER));
  }

  private LocalDate today() {
    return viewer.dateOf(clock.instant());
  }
}
