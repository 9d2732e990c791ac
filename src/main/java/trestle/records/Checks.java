package trestle.records;

import jakarta.enterprise.context.ApplicationScoped;
import jakarta.inject.Inject;
import java.nio.charset.StandardCharsets;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import trestle.ledger.MerkleFrontier;

/** Checks what somebody was given: by arithmetic first, then against the ledger kept here. */
@ApplicationScoped
public class Checks {
  @Inject Here here;

  /**
   * @param json the record's text as filed, or null
   */
  public Checked check(OutsideText given, String json) {
    List<String> troubles = given.troubles();
    String answer =
        troubles.isEmpty()
            ? here.answer(Here.anybody(given.head().operatorId()), given)
                .name()
                .toLowerCase(Locale.ROOT)
            : "unknown";
    return new Checked(given, troubles, text(given, json), answer);
  }

  private static String text(OutsideText given, String json) {
    if (json == null || !given.isProof()) {
      return "";
    }
    byte[] leaf = MerkleFrontier.leaf(json.strip().getBytes(StandardCharsets.UTF_8));
    return Arrays.equals(leaf, given.proof().inclusion().leaf()) ? "right" : "wrong";
  }
}
