package trestle.records.pack;

import io.quarkus.qute.CheckedTemplate;
import io.quarkus.qute.TemplateInstance;
import jakarta.enterprise.context.ApplicationScoped;

/** The papers that lie in a pack. */
@ApplicationScoped
class PackTemplates {

  @CheckedTemplate(basePath = "records", defaultName = CheckedTemplate.HYPHENATED_ELEMENT_NAME)
  record PackSummaryPrinted(PackSummary summary) implements TemplateInstance {}

  String summary(PackSummary summary) {
    return new PackSummaryPrinted(summary).render();
  }
}
