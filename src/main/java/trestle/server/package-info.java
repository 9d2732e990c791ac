/**
 * The machine room: the command line, the built-in PostgreSQL and its data directory, and the
 * checks that refuse to start on a database which would lie or leak. Knows nothing of aircraft.
 */
package trestle.server;
