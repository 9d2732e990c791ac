package trestle.fleet;

import io.quarkus.qute.TemplateInstance;
import jakarta.ws.rs.core.Response;
import java.util.function.Supplier;
import trestle.web.Answers;
import trestle.web.Form;
import trestle.web.Refusal;
import trestle.web.Stale;

/** Files what was read of a form and goes on, or shows the form again. */
final class ComponentAnswers {
  private ComponentAnswers() {}

  static Response filed(String next, Form form, Runnable file, Supplier<TemplateInstance> page) {
    if (form.isReady()) {
      try {
        file.run();
        return Answers.see(next);
      } catch (Refusal refusal) {
        form.refused(refusal);
      } catch (Stale stale) {
        form.fail("", stale.getMessage());
        return Answers.page(409, page.get());
      }
    }
    return Answers.again(form, page.get());
  }
}
