package trestle.server;

import io.quarkus.runtime.StartupEvent;
import jakarta.enterprise.context.ApplicationScoped;
import jakarta.enterprise.event.Observes;
import jakarta.inject.Inject;
import trestle.people.FirstStepsCode;

/** On an empty installation, says where to begin and with which code. */
@ApplicationScoped
class FirstStart {
  @Inject Installation installation;
  @Inject FirstStepsCode code;

  void sayWhereToBegin(@Observes StartupEvent started) {
    if (!installation.wantsDemo()) {
      code.whileNeeded().ifPresent(this::say);
    }
  }

  private void say(String code) {
    System.out.println(
        "This installation is empty. Open /first-steps in a browser; the code is " + code);
    if (installation.builtIn()) {
      installation.keepPrivately("first-steps.txt", code + System.lineSeparator());
    }
  }
}
