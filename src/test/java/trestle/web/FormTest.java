package trestle.web;

import static org.assertj.core.api.Assertions.assertThat;

import jakarta.ws.rs.core.MultivaluedHashMap;
import jakarta.ws.rs.core.MultivaluedMap;
import java.util.List;
import java.util.UUID;
import org.junit.jupiter.api.Test;

class FormTest {

  @Test
  void errorsStandInTheOrderInWhichFieldsWereReadAndTheFirstStays() {
    Form form = posted("b", "10:81", "a", "");
    form.required("a", "From").text(10);
    form.required("b", "Landing").time();
    form.fail("b", "Landing must be after take-off");
    assertThat(form.errors())
        .extracting(Refusal.Reason::sentence)
        .containsExactly("From must not be blank", "Landing must be a time, like 10:18");
  }

  @Test
  void whatMayBeLeftBlankMay() {
    Form form = posted("a", "  ");
    assertThat(form.optional("a", "Remarks").lines(10)).isNull();
    assertThat(form.optional("b", "Fuel").decimal(1)).isNull();
    assertThat(form.isOk()).isTrue();
  }

  @Test
  void textIsMeasuredInCharactersAndKeptAsTyped() {
    Form form = posted("short", "  QX-SOR ", "long", "🛩🛩🛩🛩", "several", "one\r\ntwo\u0000");
    assertThat(form.required("short", "Registration").text(6)).isEqualTo("QX-SOR");
    assertThat(form.required("long", "Name").text(4)).isEqualTo("🛩🛩🛩🛩");
    assertThat(form.required("several", "Remarks").lines(10)).isEqualTo("one\ntwo");
    form.required("long", "Name").text(3);
    assertThat(form.error("long")).isEqualTo("Name must be at most 3 characters; it has 4");
    assertThat(form.value("short")).isEqualTo("  QX-SOR ");
  }

  @Test
  void onlyWhatWasOfferedCanBeChosen() {
    Form form = posted("role", "owner", "other", "emperor", "many", "owner");
    assertThat(form.required("role", "Role").choice(Role.class)).isEqualTo(Role.OWNER);
    assertThat(form.required("other", "Role").choice(Role.class)).isNull();
    assertThat(form.error("other")).isEqualTo("Role must be one of the choices shown");
    assertThat(form.required("many", "Roles").choices(List.of("owner", "pilot")))
        .containsExactly("owner");
    form.required("none", "Roles").choices(List.of("owner"));
    assertThat(form.error("none")).isEqualTo("Roles needs at least one choice");
    assertThat(form.required("role", "Aircraft").uuid()).isNull();
  }

  @Test
  void itsKeyIsTheSameHoweverOftenItIsSent() {
    UUID key = Form.blank().key();
    Form sent = posted(Form.KEY, key.toString());
    assertThat(sent.key()).isEqualTo(key);
    assertThat(posted(Form.KEY, "forged").key()).isNotNull();
  }

  @Test
  void aFormThatCameBackIsNotActedOn() {
    assertThat(posted("a", "b").isReady()).isTrue();
    assertThat(posted("a", "b", Form.RESUMED, "1").isReady()).isFalse();
  }

  @Test
  void aRefusalTakesItsPlaceAtItsField() {
    Form form = posted("serial", "S4-0118");
    form.refused(new Refusal("serial", "There is a component with this serial number"));
    assertThat(form.isBad("serial")).isTrue();
    assertThat(form.isReady()).isFalse();
  }

  private static Form posted(String... pairs) {
    MultivaluedMap<String, String> posted = new MultivaluedHashMap<>();
    for (int i = 0; i < pairs.length; i += 2) {
      posted.add(pairs[i], pairs[i + 1]);
    }
    return Form.of(posted);
  }
}
