/**
 * Read-only: the fleet's page, an aircraft's page, the due list, and the horizon, each as at now or
 * as at any earlier day.
 */
package trestle.overview;
