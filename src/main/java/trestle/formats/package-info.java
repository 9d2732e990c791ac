/** Formats only, no feature words: canonical JSON, CSV, and later PDF, iCalendar, QR. */
package trestle.formats;
