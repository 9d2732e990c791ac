package trestle.web;

import com.github.f4b6a3.uuid.UuidCreator;
import jakarta.ws.rs.core.MultivaluedMap;
import java.time.LocalDate;
import java.util.ArrayList;
import java.util.LinkedHashMap;
import java.util.List;
import java.util.Map;
import java.util.UUID;

/**
 * What a person typed on a page: strings in, values or errors out. Everything is kept exactly as
 * typed, so that a refused page comes back with nothing lost.
 *
 * <p>A reader that finds nothing usable returns null and notes one sentence for its field; read
 * every field, then ask {@link #isOk()} before using any value. Errors stand in the order in which
 * fields were read: read them in the order of the page.
 */
public final class Form {
  /** The hidden field of {@link #key()}. */
  public static final String KEY = "form-key";

  /** The hidden field of {@link #resumed()}. */
  public static final String RESUMED = "resumed";

  private final Map<String, List<String>> typed = new LinkedHashMap<>();
  private final Map<String, Refusal.Reason> errors = new LinkedHashMap<>();

  private final Map<String, List<Option>> asked = new LinkedHashMap<>();

  private boolean stale;

  private Form() {}

  /** An empty page. */
  public static Form blank() {
    return new Form();
  }

  /** A page as posted (or, for a page of filters, as its query says). */
  public static Form of(MultivaluedMap<String, String> posted) {
    Form form = new Form();
    posted.forEach((name, values) -> form.typed.put(name, List.copyOf(values)));
    return form;
  }

  /** This form with a field filled in beforehand; a null leaves it empty. */
  public Form with(String name, Object value) {
    if (value != null) {
      String text = value instanceof LocalDate day ? Shown.typed(day) : value.toString();
      typed.put(name, List.of(text));
    }
    return this;
  }

  /** This form with several boxes of one name ticked. */
  public Form withAll(String name, List<String> values) {
    typed.put(name, List.copyOf(values));
    return this;
  }

  /** Asks which of several things a field means: its tag shows the choices under it. */
  void ask(String name, List<Option> choices) {
    asked.put(name, choices);
  }

  /** Which of several things a field may mean; none where nothing is to be asked. */
  public List<Option> asked(String name) {
    return asked.getOrDefault(name, List.of());
  }

  /** A field that must be filled in. */
  public Field required(String name, String label) {
    return new Field(this, name, label, true);
  }

  /** A field that may be left blank; its readers then give null. */
  public Field optional(String name, String label) {
    return new Field(this, name, label, false);
  }

  public boolean checked(String name) {
    return typed.containsKey(name);
  }

  /** Exactly what was typed, or "". */
  public String value(String name) {
    List<String> values = values(name);
    return values.isEmpty() ? "" : values.get(0);
  }

  public List<String> values(String name) {
    return typed.getOrDefault(name, List.of());
  }

  public boolean has(String name, String value) {
    return values(name).contains(value);
  }

  /**
   * Names this filling-in of the page, the same however often it is sent: file the row under it,
   * and a page sent twice is filed once.
   */
  public UUID key() {
    UUID key = Field.uuidOrNull(value(KEY));
    if (key == null) {
      key = UuidCreator.getTimeOrderedEpoch();
      with(KEY, key);
    }
    return key;
  }

  /**
   * Whether the page comes back by itself, after signing in again or after an outdated token: show
   * it as typed, and file nothing until the person sends it.
   */
  public boolean resumed() {
    return checked(RESUMED);
  }

  /** Notes what is wrong with a field, or with "" for the whole page; the first sentence stays. */
  public void fail(String field, String sentence) {
    errors.putIfAbsent(field, new Refusal.Reason(field, sentence));
  }

  /** Takes over what a use case refused. */
  public Form refused(Refusal refusal) {
    refusal.reasons().forEach(reason -> fail(reason.field(), reason.sentence()));
    return this;
  }

  /** Takes over that someone else filed meanwhile: nothing of this form was stored. */
  public Form stale(Stale told) {
    stale = true;
    fail("", told.getMessage());
    return this;
  }

  public boolean isStale() {
    return stale;
  }

  public boolean isOk() {
    return errors.isEmpty();
  }

  public boolean isBad() {
    return !errors.isEmpty();
  }

  /** Whether the page may be acted on: sent by a person, and nothing wrong with it so far. */
  public boolean isReady() {
    return isOk() && !resumed();
  }

  public List<Refusal.Reason> errors() {
    return new ArrayList<>(errors.values());
  }

  public boolean isBad(String field) {
    return errors.containsKey(field);
  }

  /** The sentence at a field, or null. */
  public String error(String field) {
    Refusal.Reason reason = errors.get(field);
    return reason == null ? null : reason.sentence();
  }
}
