package trestle.workshop;

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
import java.time.LocalDate;
import java.util.Arrays;
import java.util.List;
import java.util.Map;
import java.util.UUID;
import java.util.stream.Collectors;
import trestle.people.Members;
import trestle.programme.RequirementRecords;
import trestle.programme.Requirements;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Role;
import trestle.web.Viewer;

/** The list of tasks that a requirement's inspection looks at. */
@Path("/")
@RequestScoped
public class TaskListPages {
  @Inject TaskLists lists;
  @Inject Requirements requirements;
  @Inject RequirementRecords requirementRecords;
  @Inject Members members;
  @Inject Viewer viewer;

  /** A revision as the page lists it. */
  record Revised(LocalDate on, String by, long tasks, String approvedBy, String reason) {}

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record TaskListPage(
      UUID requirement,
      String title,
      List<Revised> revisions,
      String groups,
      boolean may,
      Form form)
      implements TemplateInstance {}

  @GET
  @Path("requirements/{id}/task-list")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id) {
    List<TaskLists.Listed> revisions = lists.history(viewer, id);
    Form form = Form.blank();
    if (revisions.isEmpty()) {
      form.with("tasks", TaskText.EXAMPLE);
    } else {
      TaskLists.Listed latest = OrderBook.lastOf(revisions);
      form.with("tasks", TaskText.write(latest.tasks()))
          .with("revises", latest.revisionId())
          .with("approved-by", latest.approvedBy());
    }
    return Answers.page(page(id, form));
  }

  @POST
  @Path("requirements/{id}/task-list")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response revise(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    lists.history(viewer, id);
    Form form = Form.of(posted);
    UUID revises = form.optional("revises", "The list").uuid();
    form.required("tasks", "Tasks").lines(40_000);
    List<TaskLists.Task> tasks = form.optional("tasks", "Tasks").read(TaskText::parse);
    String approvedBy = form.required("approved-by", "Approved by").text(120);
    String reason = form.optional("reason", "Reason").text(500);
    return Answers.filing(
        form,
        () -> {
          lists.revise(viewer, id, revises, tasks, approvedBy, reason, form.key());
          return "/requirements/" + id + "/task-list";
        },
        () -> page(id, form));
  }

  private TaskListPage page(UUID id, Form form) {
    Map<UUID, String> names = members.names(viewer);
    return new TaskListPage(
        id,
        requirementRecords.history(viewer, id).latest().terms().title(),
        lists.history(viewer, id).stream()
            .map(
                one ->
                    new Revised(
                        one.on(),
                        names.getOrDefault(one.by(), "a former member"),
                        one.tasks().size(),
                        one.approvedBy(),
                        one.reason()))
            .toList(),
        Arrays.stream(Area.values()).map(Area::label).collect(Collectors.joining(", ")),
        viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER),
        form);
  }
}
