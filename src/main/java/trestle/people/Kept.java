package trestle.people;

import jakarta.ws.rs.core.MultivaluedMap;
import java.util.ArrayList;
import java.util.List;
import java.util.Map;
import trestle.web.Form;

/**
 * A form that was sent after the session had ended: where it was going and everything typed,
 * carried through signing in and then shown again.
 */
record Kept(String action, List<Pair> pairs) {
  static final Kept NOTHING = new Kept("", List.of());
  private static final String ACTION = "kept-action";
  private static final String PREFIX = "kept.";

  record Pair(String name, String value) {
    /** Its name while it is carried by the sign-in form. */
    public String carried() {
      return PREFIX + name;
    }
  }

  /** A form as it was posted to its own address. */
  static Kept posted(String action, Iterable<Map.Entry<String, String>> fields) {
    List<Pair> pairs = new ArrayList<>();
    for (var field : fields) {
      boolean ours = field.getKey().equals("csrf-token") || field.getKey().equals(Form.RESUMED);
      if (!ours) {
        pairs.add(new Pair(field.getKey(), field.getValue()));
      }
    }
    return new Kept(SignInPages.local(action), pairs);
  }

  /** A form carried along by the sign-in form. */
  static Kept carriedBy(MultivaluedMap<String, String> posted) {
    String action = posted.getFirst(ACTION);
    if (action == null || action.isEmpty()) {
      return NOTHING;
    }
    List<Pair> pairs = new ArrayList<>();
    posted.forEach(
        (name, values) -> {
          if (name.startsWith(PREFIX)) {
            values.forEach(value -> pairs.add(new Pair(name.substring(PREFIX.length()), value)));
          }
        });
    return new Kept(SignInPages.local(action), pairs);
  }

  public boolean isEmpty() {
    return action.isEmpty();
  }
}
