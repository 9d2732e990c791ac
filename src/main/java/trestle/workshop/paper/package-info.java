/**
 * Work orders on paper: task cards, certificates, log entries, lists of discrepancies and of parts.
 * Built from what is on record alone; nothing is filed here.
 */
package trestle.workshop.paper;
