package trestle.flights;

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
import java.math.BigDecimal;
import java.time.InstantSource;
import java.time.LocalDate;
import java.util.List;
import java.util.Optional;
import java.util.UUID;
import trestle.fleet.AircraftSheet;
import trestle.fleet.CounterWords;
import trestle.fleet.Fleet;
import trestle.ledger.View;
import trestle.reckoning.Counter;
import trestle.web.Allow;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Option;
import trestle.web.Refusal;
import trestle.web.Role;
import trestle.web.Shown;
import trestle.web.Viewer;

/** The rates a day that projected dates are reckoned with, and the form that states another. */
@Path("/")
@RequestScoped
public class RatePages {
  @Inject Rates rates;
  @Inject UsageLines lines;
  @Inject Fleet fleet;
  @Inject InstantSource clock;
  @Inject Viewer viewer;

  @CheckedTemplate(basePath = "flights", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record RateList(
      AircraftSheet aircraft, List<Rate> rates, Form form, List<Option> counters, boolean mayState)
      implements TemplateInstance {}

  /** A counter's rates a day in words; "" where there is none. */
  record Rate(String counter, String flown, String stated) {}

  @GET
  @Path("aircraft/{id}/rates")
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER, Allow.PILOT, Allow.ENGINEER, Allow.AUDITOR})
  public Response all(@PathParam("id") UUID id) {
    return Answers.page(page(id, Form.blank()));
  }

  @POST
  @Path("aircraft/{id}/rates")
  @Consumes(MediaType.APPLICATION_FORM_URLENCODED)
  @RolesAllowed({Allow.OWNER, Allow.CONTROLLER})
  public Response state(@PathParam("id") UUID id, MultivaluedMap<String, String> posted) {
    Form form = Form.of(posted);
    List<String> counted = counted(line(id)).stream().map(Counter::name).toList();
    String counter = form.required("counter", "Counter").choice(counted);
    BigDecimal perDay = form.optional("rate", "Rate a day").decimal(4);
    if (form.isReady()) {
      try {
        rates.state(viewer, id, Counter.parse(counter), perDay, form.key());
        return Answers.see("/aircraft/" + id + "/rates");
      } catch (Refusal refusal) {
        form.refused(refusal);
      }
    }
    return Answers.again(form, page(id, form));
  }

  private RateList page(UUID id, Form form) {
    AircraftSheet aircraft = fleet.sheet(viewer, id, View.EVERYTHING);
    UsageLine line = line(id);
    LocalDate today = viewer.dateOf(clock.instant());
    return new RateList(
        aircraft,
        counted(line).stream().map(counter -> rate(line, counter, today)).toList(),
        form,
        counted(line).stream()
            .map(counter -> new Option(counter.name(), CounterWords.of(counter)))
            .toList(),
        viewer.isAny(Role.OWNER, Role.CONTROLLER));
  }

  private UsageLine line(UUID id) {
    fleet.sheet(viewer, id, View.EVERYTHING);
    return lines.of(viewer, id, View.asAt(viewer.dateOf(clock.instant())));
  }

  private static List<Counter> counted(UsageLine line) {
    return line.counters().stream().sorted().toList();
  }

  private static Rate rate(UsageLine line, Counter counter, LocalDate today) {
    return new Rate(
        CounterWords.of(counter),
        words(counter, line.meanPerDay(counter, today)),
        words(counter, line.statedPerDay(counter)));
  }

  private static String words(Counter counter, Optional<BigDecimal> perDay) {
    return perDay
        .map(rate -> Shown.quantity(rate) + (counter.inHours() ? " h" : "") + " a day")
        .orElse("");
  }
}
