/**
 * What the records prove and where they go: proofs that can be checked without this program, and
 * the record pack of an aircraft or a component, made here and taken in here. Uses the rooms below
 * through their use cases only.
 */
package trestle.records;
