package trestle.apron;

import java.math.BigDecimal;
import java.util.SortedMap;
import java.util.UUID;

/**
 * What a pilot is about to sign.
 *
 * @param inspected whether the pre-flight inspection is signed
 * @param accepts whether the acceptance is signed
 * @param fuel on board now, in the aircraft's unit; null where nothing is accepted
 * @param oil on board now, by engine position
 * @param licence its number, or ""
 * @param seen names what the page showed
 */
record AcceptanceDraft(
    boolean inspected,
    boolean accepts,
    BigDecimal fuel,
    SortedMap<String, BigDecimal> oil,
    String remarks,
    String licence,
    String seen,
    UUID formKey) {}
