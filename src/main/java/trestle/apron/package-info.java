/**
 * The pilot's pages: what an aircraft may not do and whether it lasts a trip, the pre-flight
 * inspection and the acceptance, lists to walk round with, the printed sheet, and reporting a
 * flight with or without a signal.
 */
package trestle.apron;
