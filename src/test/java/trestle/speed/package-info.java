/**
 * What the program costs those who use it: the weight of its pages, which a test keeps, and
 * benchmarks of its speed, run by hand as docs/performance.md says.
 */
package trestle.speed;
