package trestle.web;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.PermitAll;
import jakarta.inject.Inject;
import jakarta.ws.rs.Consumes;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.POST;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.core.Context;
import jakarta.ws.rs.core.MediaType;
import jakarta.ws.rs.core.MultivaluedMap;
import jakarta.ws.rs.core.Response;
import jakarta.ws.rs.core.UriInfo;
import java.time.LocalDate;
import java.time.ZoneId;
import java.util.List;
import java.util.Set;
import java.util.UUID;

/** A page that no installation has: every tag once, to be looked at and checked. */
@Path("/every-tag")
@PermitAll
public class EveryTagPages {
  static final LocalDate TODAY = LocalDate.of(2026, 11, 25);

  @Inject Frame frame;
  @Context UriInfo uri;

  @CheckedTemplate(basePath = "web", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record EveryTag(Form form, List<Option> counting, List<Total> totals, Pager pager)
      implements TemplateInstance {}

  @GET
  public Response page() {
    return Answers.page(filled(Form.blank().with("counting", "flights").with("landings", "1")));
  }

  @POST
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  public Response post(MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    form.required("registration", "Registration").text(10);
    form.required("take-off", "Take-off").time();
    form.required("landing", "Landing").time();
    form.required("landings", "Landings").count(99);
    form.required("total", "Total time").hours();
    form.required("on", "Date").dateUpTo(TODAY);
    form.required("counting", "Hours are counted").choice("flights", "meter");
    form.optional("type", "Type").choice("dunlin", "merrow");
    form.optional("remarks", "Remarks").lines(2000);
    if (!form.isReady()) {
      return Answers.again(form, filled(form));
    }
    return Answers.see("/every-tag?filed=" + form.key());
  }

  private EveryTag filled(Form form) {
    frame.show(
        new Viewer(
            UUID.randomUUID(),
            "I. Tarn",
            true,
            UUID.randomUUID(),
            "Farrow Sound Air Services",
            ZoneId.of("America/St_Johns"),
            true,
            Set.of(Role.OWNER)));
    return new EveryTag(
        form,
        List.of(
            new Option("flights", "From flight times", "Take-off to landing, to the minute"),
            new Option("meter", "From a meter", "As its readings say")),
        List.of(
            new Total("Time in service", "6,482.6 h"),
            new Total("Landings", "9,117"),
            new Total("Engine since overhaul", "1,214.9 h", "left 185.1 h"),
            new Total("Propeller since overhaul", "402.2 h"),
            new Total("Flown, last 30 days", "31.7 h")),
        Pager.of(2, 50, 230, uri));
  }
}
