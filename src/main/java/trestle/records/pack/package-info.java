/**
 * The record pack: the whole record of an aircraft or of a component as a ZIP that can be read
 * without this program, and taking in one that another operator made (docs/record-pack.md).
 */
package trestle.records.pack;
