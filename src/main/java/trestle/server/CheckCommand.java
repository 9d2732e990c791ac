package trestle.server;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.io.PrintStream;
import java.util.List;
import trestle.records.Checked;
import trestle.records.Checks;
import trestle.records.OutsideText;

/** {@code check}: one printed proof or head, as the page /proof does. */
@ApplicationScoped
class CheckCommand implements Command {
  @Inject Checks checks;

  @Override
  public String name() {
    return "check";
  }

  @Override
  public int run(List<String> arguments, PrintStream out) {
    try {
      Checked checked = checks.check(OutsideText.parse(String.join("", arguments)), null);
      checked.troubles().forEach(out::println);
      if (checked.isSound()) {
        out.printf(
            "%s the ledger held %d records, root %s,%nsigned with the key %s.%n",
            checked.at(), checked.size(), checked.root(), checked.key());
        if (checked.isProof()) {
          out.printf("The record with the hash %s is number %d.%n", checked.leaf(), checked.seq());
        }
        out.println(
            switch (checked.here()) {
              case "agrees" -> "The ledger kept here agrees.";
              case "disagrees" -> "The ledger kept here does not agree.";
              default -> "No ledger kept here is signed with that key.";
            });
      }
      out.println(checked.holds() ? "It holds." : "It does not hold.");
      return checked.holds() ? 0 : 1;
    } catch (IllegalArgumentException e) {
      out.println(e.getMessage());
      return StartRefused.USAGE;
    }
  }
}
