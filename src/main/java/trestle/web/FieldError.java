package trestle.web;

import trestle.formats.Json;

/**
 * One thing wrong with a JSON body.
 *
 * @param field JSON Pointer (RFC 6901) to it; for something missing, to where it should be
 * @param value what stands there, JSON null for something missing
 * @param reason what is wrong and what would be right
 */
public record FieldError(String field, Json value, String reason) {}
