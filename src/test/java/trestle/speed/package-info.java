/**
 * Benchmarks, run by hand as docs/performance.md says and never by the tests: how fast the packaged
 * program starts and answers, with its database and the load on the same machine.
 */
package trestle.speed;
