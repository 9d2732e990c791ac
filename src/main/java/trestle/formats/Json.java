package trestle.formats;

import java.util.ArrayList;
import java.util.List;

/**
 * A JSON text as it was written: members in their order and repeated ones kept, numbers as their
 * text, so that a reader can point at whatever is wrong.
 */
public sealed interface Json {

  Json NULL = new Null();

  record Member(String name, Json value) {}

  record Obj(List<Member> members) implements Json {
    public Obj {
      members = List.copyOf(members);
    }

    /** The member's value, the first where it is repeated; null where there is none. */
    public Json get(String name) {
      for (Member member : members) {
        if (member.name().equals(name)) {
          return member.value();
        }
      }
      return null;
    }
  }

  record Arr(List<Json> items) implements Json {
    public Arr {
      items = List.copyOf(items);
    }
  }

  record Str(String text) implements Json {}

  /** A number, as written. */
  record Num(String text) implements Json {}

  record Bool(boolean value) implements Json {}

  record Null() implements Json {}

  static Json of(String text) {
    return text == null ? NULL : new Str(text);
  }

  static Json of(long number) {
    return new Num(Long.toString(number));
  }

  static Json of(boolean value) {
    return new Bool(value);
  }

  static Builder object() {
    return new Builder();
  }

  /** Members in the order in which they are put. */
  final class Builder {
    private final List<Member> members = new ArrayList<>();

    public Builder put(String name, Json value) {
      members.add(new Member(name, value));
      return this;
    }

    public Builder put(String name, String text) {
      return put(name, of(text));
    }

    public Builder put(String name, boolean value) {
      return put(name, of(value));
    }

    public Builder put(String name, long number) {
      return put(name, of(number));
    }

    public Obj build() {
      return new Obj(members);
    }
  }
}
