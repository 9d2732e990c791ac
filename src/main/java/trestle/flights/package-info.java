/**
 * The journey log: flights, their corrections and voids, where one does not follow on from another,
 * and what aircraft and components have used by any moment.
 */
package trestle.flights;
