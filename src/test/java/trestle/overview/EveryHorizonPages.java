package trestle.overview;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.annotation.security.PermitAll;
import jakarta.ws.rs.GET;
import jakarta.ws.rs.Path;
import jakarta.ws.rs.core.Response;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.List;
import java.util.Random;
import trestle.web.Answers;
import trestle.web.Shown;

/** A page that no installation has: horizons, sparse and crowded, to be looked at and checked. */
@Path("/every-horizon")
public class EveryHorizonPages {
  private static final LocalDate TODAY = LocalDate.of(2026, 11, 25);
  private static final String[] WORDS = {
    "50 h service", "100 h inspection", "altimeter test", "ELT battery", "engine overhaul",
    "annual", "FD 2025-14", "propeller overhaul", "magneto service", "Wing spar, life limit"
  };

  @CheckedTemplate(basePath = "overview", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record EveryHorizon(List<Horizon> horizons, List<Horizon.Tick> scale)
      implements TemplateInstance {}

  @GET
  @PermitAll
  public Response page() {
    Random random = new Random(5);
    List<Horizon> horizons = new ArrayList<>();
    for (int pegs = 0; pegs < 12; pegs++) {
      horizons.add(Horizon.of(pegs(pegs, random), TODAY));
    }
    return Answers.page(new EveryHorizon(horizons, Horizon.SCALE));
  }

  private static List<Peg> pegs(int count, Random random) {
    List<Peg> pegs = new ArrayList<>();
    for (int i = 0; i < count; i++) {
      boolean past = random.nextInt(6) == 0;
      Peg.Shape shape = Peg.Shape.values()[random.nextInt(3)];
      LocalDate on = TODAY.plusDays(past ? 0 : (long) Math.pow(random.nextInt(20), 2));
      boolean spread = shape == Peg.Shape.USE && !past;
      long wide = (on.toEpochDay() - TODAY.toEpochDay()) / 6;
      pegs.add(
          new Peg(
              WORDS[random.nextInt(WORDS.length)],
              on,
              past,
              shape,
              past ? "held" : shape == Peg.Shape.DEFERRAL ? "limited" : "",
              Shown.day(on),
              spread ? on.minusDays(wide) : null,
              spread ? on.plusDays(wide) : null));
    }
    pegs.sort(Comparator.comparing(Peg::past).reversed().thenComparing(Peg::on));
    return pegs;
  }
}
