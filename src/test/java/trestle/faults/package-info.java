/**
 * What the program does when what it stands on gives way: killed processes, a database that is
 * gone, calls that fail. Short here; docs/performance.md says how the long campaigns are run.
 */
package trestle.faults;
