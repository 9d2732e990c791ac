/**
 * The record as a whole: what was filed, line by line; what takes a record away again, and what
 * rested on it; verifying the ledger; proofs that can be checked without this program; the record
 * pack of an aircraft or a component, made here and taken in here. Uses the rooms below through
 * their use cases only.
 */
package trestle.records;
