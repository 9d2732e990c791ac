package trestle.web;

import java.util.ArrayList;
import java.util.HashSet;
import java.util.List;
import java.util.Map;
import java.util.Set;
import java.util.function.Function;
import trestle.formats.Json;

/**
 * One place in a JSON body that is being read: its value, where it is, and the list into which all
 * that is wrong goes. Readers answer null for what is wrong and have then said so in the list, so
 * that reading goes on and one answer tells everything.
 */
public final class JsonInput {

  /** More than anyone can use; whoever sends that much wrong gets this much of it back. */
  static final int MOST_ERRORS = 10_000;

  /** So much is wrong that reading stopped; the list has what was found so far. */
  public static final class TooMuchWrong extends RuntimeException {
    private static final long serialVersionUID = 1;

    TooMuchWrong() {
      super("more than " + MOST_ERRORS + " errors", null, false, false);
    }
  }

  private final Json value;
  private final String pointer;
  private final List<FieldError> errors;

  private JsonInput(Json value, String pointer, List<FieldError> errors) {
    this.value = value;
    this.pointer = pointer;
    this.errors = errors;
  }

  public static JsonInput root(Json value, List<FieldError> errors) {
    return new JsonInput(value, "", errors);
  }

  public String pointer() {
    return pointer;
  }

  public boolean isList() {
    return value instanceof Json.Arr;
  }

  public boolean isObject() {
    return value instanceof Json.Obj;
  }

  /** The member, or null where there is none. */
  public JsonInput member(String name) {
    Json member = value instanceof Json.Obj object ? object.get(name) : null;
    return member == null ? null : below(name, member);
  }

  public boolean has(String name) {
    return member(name) != null;
  }

  /** Whether this is an object; its members must be of the known ones and stand there once. */
  public boolean object(Set<String> known, String of) {
    if (!object()) {
      return false;
    }
    for (Json.Member member : ((Json.Obj) value).members()) {
      if (!known.contains(member.name())) {
        below(member.name(), member.value()).refuse("is not a member of " + of);
      }
    }
    return true;
  }

  /** Whether this is an object; no member may be repeated. */
  public boolean object() {
    if (!(value instanceof Json.Obj object)) {
      refuse("must be an object");
      return false;
    }
    Set<String> seen = new HashSet<>();
    for (Json.Member member : object.members()) {
      if (!seen.add(member.name())) {
        below(member.name(), member.value()).refuse("is repeated");
      }
    }
    return true;
  }

  /** An object's members, each once, in their order. */
  public List<JsonInput> members() {
    List<JsonInput> members = new ArrayList<>();
    Set<String> seen = new HashSet<>();
    for (Json.Member member : ((Json.Obj) value).members()) {
      if (seen.add(member.name())) {
        members.add(below(member.name(), member.value()));
      }
    }
    return members;
  }

  /** The name under which this stands in its object. */
  public String name() {
    return unescaped(pointer.substring(pointer.lastIndexOf('/') + 1));
  }

  /** The items of a list, or null. */
  public List<JsonInput> items() {
    if (!(value instanceof Json.Arr array)) {
      refuse("must be a list");
      return null;
    }
    List<JsonInput> items = new ArrayList<>();
    for (int i = 0; i < array.items().size(); i++) {
      items.add(new JsonInput(array.items().get(i), pointer + "/" + i, errors));
    }
    return items;
  }

  /** A string, or null. */
  public String text() {
    if (value instanceof Json.Str string) {
      return string.text();
    }
    refuse("must be a string");
    return null;
  }

  /** What a string says, or null; the reader's message says why it doesn't. */
  public <T> T parsed(Function<String, T> reader) {
    String text = text();
    if (text == null) {
      return null;
    }
    try {
      return reader.apply(text);
    } catch (IllegalArgumentException e) {
      refuse(e.getMessage());
      return null;
    }
  }

  /** What one of a few words stands for, or null. */
  public <T> T word(Map<String, T> words) {
    String text = text();
    if (text != null && !words.containsKey(text)) {
      refuse("must be one of " + String.join(", ", words.keySet().stream().sorted().toList()));
    }
    return text == null ? null : words.get(text);
  }

  /** True or false, or null. */
  public Boolean flag() {
    if (value instanceof Json.Bool bool) {
      return bool.value();
    }
    refuse("must be true or false");
    return null;
  }

  /** How much was found wrong so far, here and elsewhere. */
  public int problems() {
    return errors.size();
  }

  public void refuse(String reason) {
    add(pointer, value, value instanceof Json.Null ? "must not be null" : reason);
  }

  /** Says that a member should be there. */
  public void missing(String name, String reason) {
    add(pointer + "/" + escaped(name), Json.NULL, reason);
  }

  /** Says that a member of a member should be there, where both are missing. */
  public void missing(String name, String inner, String reason) {
    add(pointer + "/" + escaped(name) + "/" + escaped(inner), Json.NULL, reason);
  }

  private void add(String field, Json stands, String reason) {
    if (errors.size() == MOST_ERRORS) {
      throw new TooMuchWrong();
    }
    errors.add(new FieldError(field, stands, reason));
  }

  private JsonInput below(String name, Json member) {
    return new JsonInput(member, pointer + "/" + escaped(name), errors);
  }

  private static String escaped(String name) {
    return name.replace("~", "~0").replace("/", "~1");
  }

  private static String unescaped(String token) {
    return token.replace("~1", "/").replace("~0", "~");
  }
}
