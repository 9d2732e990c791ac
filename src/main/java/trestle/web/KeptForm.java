package trestle.web;

import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import org.jboss.resteasy.reactive.server.core.multipart.FormData;

/** A form as it was sent, to be carried by a page as hidden fields; passwords are left out. */
record KeptForm(String action, List<Pair> pairs) {

  record Pair(String name, String value) {}

  static KeptForm of(String action, FormData sent) {
    List<Pair> pairs = new ArrayList<>();
    for (String name : sent) {
      if (isKept(name)) {
        sent.get(name).forEach(value -> pairs.add(new Pair(name, value.getValue())));
      }
    }
    return new KeptForm(action, pairs);
  }

  private static boolean isKept(String name) {
    return !name.equals(FormToken.FIELD)
        && !name.equals(Form.RESUMED)
        && !name.toLowerCase(Locale.ROOT).contains("password");
  }
}
