/**
 * The tamper-evident record: every filed row is also one line of its operator's ledger, hashed into
 * an RFC 6962 tree, through one place ({@link trestle.ledger.Ledger}).
 */
package trestle.ledger;
