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
import jakarta.ws.rs.QueryParam;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import java.math.BigDecimal;
import java.time.InstantSource;
import java.util.List;
import java.util.UUID;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Role;
import trestle.web.Viewer;

/** What an order is estimated at, and what it cost. */
@Path("/work-orders/{id}/costs")
@RequestScoped
public class CostPages {
  private static final String FORMS = MediaType.APPLICATION_FORM_URLENCODED;
  private static final List<Option> STAGES =
      List.of(new Option("estimate", "Estimate"), new Option("actual", "Actual"));

  @Inject WorkCosts costs;
  @Inject WorkshopSettings settings;
  @Inject InstantSource clock;
  @Inject OrderBook book;
  @Inject Viewer viewer;

  @CheckedTemplate(
      basePath = "workshop",
      defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME,
      requireTypeSafeExpressions = false)
  record OrderCosts(
      WorkOrderSheet sheet,
      Costing costing,
      List<Option> stages,
      List<Option> kinds,
      List<Option> lines,
      List<Option> rates,
      List<Option> sums,
      boolean mayFile,
      Form form)
      implements TemplateInstance {}

  @GET
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response of(@PathParam("id") UUID id, @QueryParam("line") String line) {
    Form form = Form.blank();
    if (line != null) {
      form.with("line", line).with("kind", CostKind.LABOUR.word()).with("stage", "actual");
    }
    return Answers.page(page(id, form));
  }

  @POST
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response file(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    WorkOrderSheet order = book.order(viewer, id);
    Form form = Form.of(posted);
    String stage = form.required("stage", "Stage").choice("estimate", "actual");
    CostKind kind = form.required("kind", "Kind").choice(CostKind.class);
    UUID stated = form.optional("labour-rate", "Stated rate").uuid();
    String words =
        stated == null
            ? form.required("words", "What or who").text(200)
            : form.optional("words", "What or who").text(200);
    UUID line = form.optional("line", "Line").uuid();
    Integer minutes = form.optional("minutes", "Minutes").count(60_000);
    BigDecimal rate = form.optional("rate", "Rate of an hour").decimal(2);
    BigDecimal amount = form.optional("amount", "Amount").decimal(2);
    String currency =
        stated == null
            ? form.required("currency", "Currency").text(3)
            : form.optional("currency", "Currency").text(3);
    return Answers.filing(
        form,
        () -> {
          costs.file(
              viewer,
              new WorkCosts.NewCost(
                  id,
                  line,
                  stage.equals("estimate"),
                  kind,
                  words,
                  minutes,
                  rate,
                  amount,
                  currency,
                  stated),
              form.key());
          return order.order().link() + "/costs";
        },
        () -> page(id, form));
  }

  @POST
  @Path("voiding")
  @Consumes(FORMS)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.ENGINEER})
  public Response takeAway(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    WorkOrderSheet order = book.order(viewer, id);
    Form form = Form.of(posted);
    UUID cost = form.required("cost", "Which").uuid();
    String reason = form.required("reason", "Reason").text(500);
    return Answers.filing(
        form,
        () -> {
          costs.takeAway(viewer, cost, reason, form.key());
          return order.order().link() + "/costs";
        },
        () -> page(id, form));
  }

  private OrderCosts page(UUID id, Form form) {
    WorkOrderSheet order = book.order(viewer, id);
    Costing costing = costs.of(viewer, order);
    if (form.value("currency").isEmpty() && !costing.currency().isEmpty()) {
      form.with("currency", costing.currency());
    }
    return new OrderCosts(
        order,
        costing,
        STAGES,
        CostKind.options(),
        order.lines().stream()
            .map(line -> line.line())
            .map(line -> new Option(line.id().toString(), line.ordinal() + ". " + line.title()))
            .toList(),
        settings.inForce(viewer, viewer.dateOf(clock.instant())).stream()
            .map(rate -> new Option(rate.id().toString(), rate.words()))
            .toList(),
        costing.sums().stream()
            .map(sum -> new Option(sum.id().toString(), sum.words() + ", " + sum.amount()))
            .toList(),
        viewer.isAny(Role.OWNER, Role.CONTROLLER, Role.ENGINEER)
            && order.state() != OrderState.CANCELLED,
        form);
  }
}
