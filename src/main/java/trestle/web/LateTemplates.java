package trestle.web;

import io.quarkus.qute.Engine;
import io.quarkus.qute.Locate;
import io.quarkus.qute.TemplateLocator;
import io.quarkus.qute.Variant;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import java.io.Reader;
import java.io.StringReader;
import java.util.Optional;

/**
 * Reads each template when a page first needs it. The engine would read all of them for the first
 * page, which would come a second later: while it goes through them it is handed empty ones, which
 * it then forgets. That they are all sound is checked when the application is built, which is told
 * that none is only found here.
 */
@Locate("^$")
@ApplicationScoped
class LateTemplates implements TemplateLocator {
  private volatile boolean goingThrough = true;

  @Override
  public Optional<TemplateLocation> locate(String id) {
    return goingThrough ? Optional.of(new Empty()) : Optional.empty();
  }

  void goneThrough(@Observes Engine engine) {
    goingThrough = false;
    engine.clearTemplates();
  }

  /** Before the one that reads the files. */
  @Override
  public int getPriority() {
    return DEFAULT_PRIORITY + 1;
  }

  private static class Empty implements TemplateLocation {
    @Override
    public Reader read() {
      return new StringReader("");
    }

    @Override
    public Optional<Variant> getVariant() {
      return Optional.empty();
    }
  }
}
