package trestle.records;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.RolesAllowed;
import jakarta.enterprise.context.RequestScoped;
import jakarta.inject.Inject;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.PathParam;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.util.List;
import java.util.UUID;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Viewer;

/** All that was filed, line by line, and each record with what corrects it. */
@Path("/")
@RequestScoped
public class HistoryPages {
  @Inject Histories histories;
  @Inject Fleet fleet;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "records",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record HistoryList(
      Form form,
      List<Option> aircraft,
      String registration,
      List<Histories.Entry> entries,
      boolean newest,
      String earlier)
      implements TemplateInstance {}

  @CheckedTemplate(
      basePath = "records",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record RecordPage(Histories.Sheet sheet) implements TemplateInstance {}

  @GET
  @Path("history")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response all(@Context UriInfo uri) {
    Form form = Form.of(uri.getQueryParameters());
    List<Option> aircraft =
        fleet.sheets(viewer, View.EVERYTHING).stream()
            .map(sheet -> new Option(sheet.id().toString(), sheet.registration()))
            .sorted(java.util.Comparator.comparing(Option::label))
            .toList();
    String chosen =
        form.optional("aircraft", "Aircraft").choice(aircraft.stream().map(Option::value).toList());
    Long before = form.optional("before", "Before record").read(HistoryPages::sequence);
    Histories.Page page =
        form.isBad()
            ? new Histories.Page(List.of(), null)
            : histories.page(viewer, chosen == null ? null : UUID.fromString(chosen), before);
    return Answers.page(
        form.isOk() ? 200 : 400,
        new HistoryList(
            form,
            aircraft,
            aircraft.stream()
                .filter(option -> option.value().equals(chosen))
                .map(Option::label)
                .findFirst()
                .orElse(""),
            page.entries(),
            before == null,
            page.earlier() == null ? null : address(chosen, page.earlier())));
  }

  @GET
  @Path("records/{id}")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response one(@PathParam("id") UUID id) {
    return Answers.page(new RecordPage(histories.one(viewer, id)));
  }

  private static String address(String aircraft, long before) {
    return "/history?"
        + (aircraft == null ? "" : "aircraft=" + aircraft + "&")
        + "before="
        + before;
  }

  private static long sequence(String typed) {
    if (!typed.matches("[0-9]{1,18}")) {
      throw new IllegalArgumentException("must be a whole number");
    }
    return Long.parseLong(typed);
  }
}
