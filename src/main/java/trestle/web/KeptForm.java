package trestle.web;

import jakarta.ws.rs.core.MultivaluedMap;
import java.util.ArrayList;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import org.jboss.resteasy.reactive.server.core.multipart.FormData;
import org.jboss.resteasy.reactive.server.multipart.FormValue;

/**
 * A form as it was sent, carried by a page as hidden fields until its sender can send it again;
 * passwords are left out.
 *
 * @param action where it was going, a path of our own; "" when nothing is kept
 */
public record KeptForm(String action, List<Pair> pairs) {
  public static final KeptForm NOTHING = new KeptForm("", List.of());
  private static final String ACTION = "kept-action";
  private static final String PREFIX = "kept.";

  /** One field, as often as it was sent. */
  public record Pair(String name, String value) {
    /** Its name while another form carries it. */
    public String carried() {
      return PREFIX + name;
    }
  }

  /** Files can't be carried along: their sender chooses them again. */
  static KeptForm of(String action, FormData sent) {
    List<Map.Entry<String, String>> fields = new ArrayList<>();
    for (String name : sent) {
      for (FormValue value : sent.get(name)) {
        if (!value.isFileItem()) {
          fields.add(Map.entry(name, value.getValue()));
        }
      }
    }
    return of(action, fields);
  }

  public static KeptForm of(String action, Iterable<Map.Entry<String, String>> sent) {
    List<Pair> pairs = new ArrayList<>();
    for (var field : sent) {
      if (isKept(field.getKey())) {
        pairs.add(new Pair(field.getKey(), field.getValue()));
      }
    }
    return new KeptForm(Answers.own(action), pairs);
  }

  /** The form that a posted one carries along, or nothing. */
  public static KeptForm carriedBy(MultivaluedMap<String, String> posted) {
    String action = posted.getFirst(ACTION);
    if (action == null || action.isEmpty()) {
      return NOTHING;
    }
    List<Map.Entry<String, String>> fields = new ArrayList<>();
    posted.forEach(
        (name, values) -> {
          if (name.startsWith(PREFIX)) {
            String own = name.substring(PREFIX.length());
            values.forEach(value -> fields.add(Map.entry(own, value)));
          }
        });
    return of(action, fields);
  }

  public boolean isEmpty() {
    return action.isEmpty();
  }

  private static boolean isKept(String name) {
    return !name.equals(FormToken.FIELD)
        && !name.equals(Form.RESUMED)
        && !name.toLowerCase(Locale.ROOT).contains("password");
  }
}
