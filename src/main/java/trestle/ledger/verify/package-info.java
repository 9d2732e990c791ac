/**
 * Recomputes an operator's ledger from the rows of the filed tables and names the first record that
 * disagrees. It reads as strings what the database holds and writes the JSON by code of its own, so
 * that a fault in the filing is not repeated here.
 */
package trestle.ledger.verify;
